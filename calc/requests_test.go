package calc_test

import (
	"math"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"blankoff/calc"
	"blankoff/calc/declare"
	"blankoff/calc/quantity"
)

// worked are requests besides each calculator's own example, so that the generic tests
// see every branch of a formula. A calculator without a row is held to its example.
var worked = map[string][][]declare.Pair{
	"pressure": {
		pairs("value", "340 micron"),
		pairs("value", "28 inHg vacuum", "ambient", "29.92 inHg ± 0.1 inHg"),
		pairs("value", "0.5 mbar ± 15 %", "ambient", "970 mbar ± 5 mbar"),
		pairs("value", "-20 inHg gauge", "altitude", "1600 m ± 50 m"),
	},
	"throughput": {
		pairs("rate", "50 sccm ± 1 %", "reference", "0 °C", "gas-temperature", "25 °C ± 2 K"),
		pairs("rate", "2e-5 mol/s ± 3 %", "gas-temperature", "25 °C ± 2 K"),
		pairs("rate", "0.0107 mbar·L/s ± 5 %", "gas-temperature", "20 °C ± 5 K", "reference", "20 °C ± 1 K"),
	},
	"rise-test": {
		pairs("volume", "24 L ± 1 L", "start", "701 mTorr", "end", "850 mTorr", "time", "10 min", "limit", "20 mTorr/min"),
		pairs("volume", "62 L", "start", "100 mTorr ± 5 mTorr", "end", "400 mTorr ± 5 mTorr", "time", "20 min ± 1 min", "limit", "0.02 mbar·L/s"),
		pairs("volume", "17.5 L ± 0.7 L", "start", "90 micron", "end", "140 micron", "time", "5 min", "limit", "15 mTorr/min", "gauge", "5 %", "step", "0.1 mTorr"),
	},
	"continuity": {
		pairs("reading", "8.4 Ω ± 0.2 Ω", "leads", "0.3 Ω ± 0.05 Ω", "low", "6.9 Ω", "high", "9.3 Ω"),
		pairs("reading", "14.8 Ω", "leads", "0.3 Ω", "low", "12.4 Ω", "high", "16.8 Ω", "percent", "0.5 %", "counts", "10", "resolution", "0.01 Ω"),
		pairs("reading", "5 MΩ", "leads", "0.3 Ω", "expect", "no connection", "resolution", "10 kΩ"),
	},
}

// work adds worked requests of a calculator; its return value lets a var do so.
func work(id string, in ...[]declare.Pair) bool {
	worked[id] = append(worked[id], in...)
	return true
}

// requests gives the example and the worked cases of a calculator.
func requests(c *declare.Calculator) []declare.Request {
	list := []declare.Request{{ID: c.ID, In: c.Example.In}}
	for _, in := range worked[c.ID] {
		list = append(list, declare.Request{ID: c.ID, In: in})
	}
	return list
}

// with gives a copy of the request in which one entry is another text.
func with(r declare.Request, name, text string) declare.Request {
	in := append([]declare.Pair(nil), r.In...)
	for i := range in {
		if in[i].Name == name {
			in[i].Text = text
			r.In = in
			return r
		}
	}
	r.In = append(in, declare.Pair{Name: name, Text: text})
	return r
}

func entry(r declare.Request, name string) string {
	for _, pair := range r.In {
		if pair.Name == name {
			return pair.Text
		}
	}
	return ""
}

// write types a quantity in a unit, with all its figures.
func write(q quantity.Quantity, u quantity.Unit) string {
	full := func(x float64) string { return strconv.FormatFloat(x, 'g', 17, 64) }
	text := full(u.From(q.Value))
	if q.HasU {
		text += " ± " + full(quantity.CoverageFactor*q.U/u.Span(1))
	}
	text += " " + u.Symbol
	if q.Gauge { // the word follows the value and its unit, before the accuracy
		text = full(u.From(q.Value)) + " " + u.Symbol + " gauge"
	}
	return text
}

// draw picks a number from a range, evenly on a logarithmic scale where it can.
func draw(random *rand.Rand, low, high float64) float64 {
	if low > 0 && high/low > 20 {
		return low * math.Pow(high/low, random.Float64())
	}
	return low + (high-low)*random.Float64()
}

// randomRise is a rise test near its limit, as often decided as not.
func randomRise(random *rand.Rand) declare.Request {
	volume, start := draw(random, 5, 100), draw(random, 20, 300)
	rise, minutes := draw(random, 5, 1500), draw(random, 2, 40)
	limit := rise / minutes * draw(random, 0.4, 2.5)
	in := pairs("volume", text(volume, "L"), "start", text(start, "mTorr"), "end", text(start+rise, "mTorr"), "time", text(minutes, "min"),
		"gauge", text(draw(random, 0.5, 30), "%"), "step", text(draw(random, 0.1, 10), "mTorr"))
	if random.IntN(2) == 0 {
		in = append(in, declare.Pair{Name: "limit", Text: text(limit, "mTorr/min")})
	} else {
		in = append(in, declare.Pair{Name: "limit", Text: text(limit*volume/60000, "Torr·L/s")})
	}
	if random.IntN(2) == 0 {
		in[0].Text += " ± " + text(volume*draw(random, 0.001, 0.1), "L")
	}
	return declare.Request{ID: "rise-test", In: in}
}

func randomContinuity(random *rand.Rand) declare.Request {
	leads := draw(random, 0, 0.5)
	in := pairs("reading", text(leads+draw(random, 0.2, 30), "Ω"), "leads", text(leads, "Ω"), "percent", text(draw(random, 0.05, 3), "%"),
		"counts", strconv.Itoa(random.IntN(11)), "resolution", []string{"0.1 Ω", "0.01 Ω", "1 mΩ"}[random.IntN(3)])
	if random.IntN(4) > 0 {
		low := draw(random, 1, 15)
		in = append(in, pairs("low", text(low, "Ω"), "high", text(low*draw(random, 1.1, 1.6), "Ω"))...)
	}
	if random.IntN(5) == 0 {
		in = append(in, pairs("expect", "no connection")...)
		in[0].Text, in[4].Text = text(draw(random, 1e5, 1e8), "Ω"), "10 kΩ"
	}
	return declare.Request{ID: "continuity", In: in}
}

func mustAnswer(t *testing.T, r declare.Request) declare.Answer {
	t.Helper()
	a := calc.Answer(r)
	if a.Fault != nil {
		t.Fatalf("%s %v: field %q: %s", r.ID, r.In, a.Fault.Field, a.Fault.Text)
	}
	return a
}

// allTexts joins everything that a reader sees of an answer.
func allTexts(a declare.Answer) string {
	list := append(append([]string{a.Verdict.Is, a.Verdict.Text}, a.Working...), a.Cautions...)
	for _, g := range a.Out {
		list = append(append(list, g.Label, g.Unit, g.Text), g.Also...)
	}
	if a.Fault != nil {
		list = append(list, a.Fault.Text)
	}
	return strings.Join(list, "\n")
}
