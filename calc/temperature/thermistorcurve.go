package temperature

import (
	"math"

	"blankoff/calc/declare"
	"blankoff/calc/letters"
	"blankoff/calc/quantity"
	"blankoff/calc/uncertainty"
)

// thermistorCurve is the curve of what was typed: three coefficients, or beta.
func thermistorCurve(x *declare.Numbers) steinhart {
	if x.Has("a") {
		return steinhart{x.In("a"), x.In("b"), x.In("c")}
	}
	return betaCurve(x.In("r25"), x.In("beta"))
}

// thermistorStudy finds which of the three ways of giving a curve was used, makes it, and
// looks where the reading stands on it.
func thermistorStudy(x *declare.Numbers) any {
	p := &resistor{points: x.Has("points")}
	field := oneWay(x)
	if field == "" {
		return p
	}
	if p.points {
		p.through(x)
	} else {
		p.curve = thermistorCurve(x)
	}
	p.low, p.high = p.curve.ohms(thermistorHot), p.curve.ohms(thermistorCold)
	if p.low != p.low || p.high != p.high {
		x.Refuse(field, "with these data resistance does not fall from {−90 °C} to {200 °C}, as it does in every such sensor; check them")
	}
	p.study(x, x.In("reading"))
	p.doubtful(x)
	return p
}

// What a curve through two and through three points may be off by, K, times T/Tᵢ − 1 for each
// point. By the published table of testdata/reference/10_rtd_ntc.csv it is 30 K for two; the
// usual coefficients of a 10 kΩ sensor make it 33 K to 45 K. That for three is from memory.
const twoPoints, threePoints = 46, 50

// doubtful sets the doubts of the ends, which are a choice and as exact as the reading, and of
// the curve away from where it was measured. A beta without its points goes from 25 °C to any
// temperature from 50 °C to 100 °C: the label seldom says. Coefficients do not tell where they
// hold.
func (p *resistor) doubtful(x *declare.Numbers) {
	reading, beta := x.Typed("reading"), x.Typed("beta")
	p.wrong = reading.U
	kelvin := x.In("reference")
	if p.whole {
		kelvin = p.curve.kelvin(reading.Value)
	}
	if beta.Value != 0 {
		p.doubt = twoPoints * math.Abs(kelvin/nominal-1) * (math.Abs(kelvin-nominal-50) + 25) / (nominal + 50)
	}
	if p.points {
		p.doubt = threePoints
		if p.beta != 0 {
			p.doubt = twoPoints
		}
		for _, t := range x.Column("points", "temperature") {
			p.doubt *= math.Abs(kelvin/t - 1)
		}
	}
	if !(kelvin > 0) { // neither reading nor reference: nothing is asked of the curve
		p.doubt = 0
	}
}

func curveU(x *declare.Numbers) float64 {
	p, _ := x.Studied().(*resistor)
	return uncertainty.FromAccuracy(p.doubt)
}

// ways are the entries of the three ways of giving a curve.
var ways = [6]struct {
	way int
	id  string
}{{1, "beta"}, {1, "r25"}, {2, "b"}, {2, "a"}, {2, "c"}, {3, "points"}}

// oneWay names an entry of the way that was used; none, two, and half a one are refused.
func oneWay(x *declare.Numbers) string {
	used := 0
	for i := range ways {
		w := &ways[i]
		if !x.Has(w.id) {
			continue
		}
		if used != 0 && used != w.way {
			x.Refuse("beta", "give the sensor's data in one way only: resistance at 25 °C and beta, or three coefficients, or points")
			return ""
		}
		used = w.way
	}
	if used == 0 {
		x.Refuse("beta", "write the sensor's data: resistance at 25 °C and beta, or three coefficients, or points")
		return ""
	}
	first := ""
	for i := range ways {
		w := &ways[i]
		if w.way != used {
			continue
		}
		if first == "" {
			first = w.id
		}
		if !x.Has(w.id) {
			x.Refuse(w.id, "this is blank; resistance at 25 °C goes with beta, and the three coefficients go together")
			return ""
		}
	}
	return first
}

// through lays the curve through two or three points.
func (p *resistor) through(x *declare.Numbers) {
	ohms, kelvins := x.Column("points", "resistance"), x.Column("points", "temperature")
	n := len(ohms)
	if n < 2 || n > 3 {
		x.Refuse("points", "two or three points are needed: two give beta, three the coefficients")
		return
	}
	for i, r := range ohms {
		t := kelvins[i]
		bad := r+t != r+t
		for j, other := range ohms[:i] {
			bad = bad || (r-other)*(t-kelvins[j]) >= 0
		}
		if bad {
			x.Refuse("points", "line "+letters.Whole(x.Line("points", i))+": each point needs both values, and resistance must fall as temperature rises")
			return
		}
	}
	if n == 2 {
		p.beta, p.curve = throughTwo(ohms, kelvins)
		return
	}
	p.curve = throughThree(ohms, kelvins)
}

// giveCurve shows the data that were found from points, and the curve used.
func (p *resistor) giveCurve(r *declare.Result) {
	if p.beta != 0 {
		r.Work("β = ln(R₁ / R₂) / (1 / T₁ − 1 / T₂) = {beta}, through both points")
	}
	text := "1 / T = A + B ln R + C (ln R)³ with "
	for i, value := range []float64{p.curve.a, p.curve.b, p.curve.c} {
		if i > 0 {
			text += ", "
		}
		name, figures := "ABC"[i:i+1], quantity.Format(value, -1, quantity.One, 7)
		text += name + " = " + figures
		if p.points && p.beta == 0 {
			r.Row("coefficients", declare.Cell{Text: name}, declare.Cell{Value: value, Text: figures})
		}
	}
	r.Work(text)
}
