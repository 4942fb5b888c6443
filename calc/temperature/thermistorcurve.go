package temperature

import (
	"math"

	"blankoff/calc/declare"
	"blankoff/calc/letters"
	"blankoff/calc/quantity"
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
	if math.IsNaN(p.low) || math.IsNaN(p.high) {
		x.Refuse(field, "with these data resistance does not fall from −90 °C to 200 °C, as it does in every such sensor; check them")
	}
	return p.study(x, x.In("reading"))
}

// ways are the entries of each way of giving a curve.
var ways = [3][3]string{{"beta", "r25"}, {"b", "a", "c"}, {"points"}}

// oneWay names an entry of the way that was used; none, two, and half a one are refused.
func oneWay(x *declare.Numbers) string {
	used, blank := "", ""
	for i := range ways {
		any, missing := false, ""
		for _, id := range ways[i] {
			if id == "" {
				continue
			}
			if x.Has(id) {
				any = true
			} else if missing == "" {
				missing = id
			}
		}
		switch {
		case any && used != "":
			x.Refuse("beta", "give the sensor's data in one way only: resistance at 25 °C and beta, or three coefficients, or points")
		case any:
			used, blank = ways[i][0], missing
		}
	}
	if used == "" {
		x.Refuse("beta", "write the sensor's data: resistance at 25 °C and beta, or three coefficients, or points")
	}
	if blank != "" {
		x.Refuse(blank, "this is blank; resistance at 25 °C goes with beta, and the three coefficients go together")
		return ""
	}
	return used
}

// through lays the curve through two or three points.
func (p *resistor) through(x *declare.Numbers) {
	ohms, kelvins := x.Column("points", "resistance"), x.Column("points", "temperature")
	if n := len(ohms); n < 2 || n > 3 {
		x.Refuse("points", "two or three points are needed: two give beta, three the coefficients")
		return
	}
	for i := range ohms {
		bad := math.IsNaN(ohms[i] + kelvins[i])
		for j := range i {
			bad = bad || (ohms[i]-ohms[j])*(kelvins[i]-kelvins[j]) >= 0
		}
		if bad {
			x.Refuse("points", "line "+letters.Whole(x.Line("points", i))+": each point needs both values, and resistance must fall as temperature rises")
			return
		}
	}
	if len(ohms) == 2 {
		p.beta, p.curve = throughTwo(ohms, kelvins)
		return
	}
	p.curve = throughThree(ohms, kelvins)
}

// giveCurve shows the data that were found from points, and the curve used.
func (p *resistor) giveCurve(r *declare.Result) {
	curve := p.curve
	if p.beta != 0 {
		r.Work("β = ln(R₁ / R₂) / (1 / T₁ − 1 / T₂) = " + r.Show("beta") + ", through both points")
	} else if p.points {
		for i, value := range [3]float64{curve.a, curve.b, curve.c} {
			r.Row("coefficients", declare.Cell{Text: "ABC"[i : i+1]}, declare.Cell{Value: value, Text: figures(value)})
		}
	}
	r.Work("1 / T = A + B ln R + C (ln R)³ with A = " + figures(curve.a) + ", B = " + figures(curve.b) + ", C = " + figures(curve.c))
}

func figures(x float64) string { return quantity.Format(x, -1, quantity.One, 7) }
