package temperature

import "math"

// steinhart is the curve of a thermistor, 1/T = a + b ln R + c (ln R)³ with T in K and R
// in Ω (Steinhart and Hart, Deep-Sea Research 15 (1968) 497; from memory, arithmetic
// checked in testdata/reference/10_rtd_ntc.csv). The beta form is the same with c = 0.
type steinhart struct{ a, b, c float64 }

// nominal is the temperature at which a thermistor is named, 25 °C in K.
const nominal = 298.15

// betaCurve turns R = R25 exp(β (1/T − 1/298.15 K)) into the same form.
func betaCurve(r25, beta float64) steinhart {
	return steinhart{a: 1/nominal - math.Log(r25)/beta, b: 1 / beta}
}

// kelvin is the temperature at r Ω; NaN where the curve has none, or rises with r as no
// such sensor does.
func (s steinhart) kelvin(r float64) float64 {
	x := math.Log(r)
	t := 1 / (s.a + x*(s.b+s.c*x*x))
	if !(t > 0 && t < 1e4) || !s.falls(x) {
		return math.NaN()
	}
	return t
}

// falls tells whether resistance falls with rising temperature at ln R = x.
func (s steinhart) falls(x float64) bool { return s.b+3*s.c*x*x > 0 }

// ohms is the inverse of kelvin, by Newton's method in ln R; NaN where there is none.
func (s steinhart) ohms(kelvin float64) float64 {
	y := 1/kelvin - s.a
	x := y / s.b
	for range 60 {
		step := (x*(s.b+s.c*x*x) - y) / (s.b + 3*s.c*x*x)
		x -= step
		if math.Abs(step) <= 1e-14*math.Abs(x) {
			break
		}
	}
	if !s.falls(x) || math.Abs(x) > 200 || math.Abs(x*(s.b+s.c*x*x)-y) > 1e-9*math.Abs(y) {
		return math.NaN()
	}
	return math.Exp(x)
}

// throughTwo is the beta form through two points, Ω and K.
func throughTwo(r, t []float64) (beta float64, s steinhart) {
	r1, t1 := r[1], 1/t[1]
	r0, t0 := r[0], 1/t[0]
	beta = math.Log(r0/r1) / (t0 - t1)
	return beta, steinhart{a: t0 - math.Log(r0)/beta, b: 1 / beta}
}

// throughThree is the curve through three points: divided differences of 1/T over ln R.
func throughThree(r, t []float64) steinhart {
	x2, y2 := math.Log(r[2]), 1/t[2]
	x0, x1, y0 := math.Log(r[0]), math.Log(r[1]), 1/t[0]
	second, third := (1/t[1]-y0)/(x1-x0), (y2-y0)/(x2-x0)
	c := (third - second) / (x2 - x1) / (x0 + x1 + x2)
	b := second - c*(x0*x0+x0*x1+x1*x1)
	return steinhart{a: y0 - x0*(b+c*x0*x0), b: b, c: c}
}
