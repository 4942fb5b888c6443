package calc_test

import (
	"math"
	"testing"

	"blankoff/calc"
	"blankoff/calc/declare"
	"blankoff/calc/quantity"
)

// TestAnswersInUnitsOfChoice: asked in other units, every calculator says the same: its results, its tables and its verdict are
// those of the plain answer, and each result of a kind that was named is in the unit that was named for it.
func TestAnswersInUnitsOfChoice(t *testing.T) {
	choice := map[quantity.Kind]string{
		quantity.Pressure: "Pa", quantity.PressureRate: "Pa/min", quantity.Throughput: "Torr·L/s",
		quantity.Temperature: "°F", quantity.Length: "in", quantity.Volume: "gal",
	}
	var units []declare.Pair
	for kind, symbol := range choice {
		units = append(units, declare.Pair{Name: kind.Name(), Text: symbol})
	}
	seen := map[quantity.Kind]int{}
	for _, c := range calc.All() {
		plain := calc.Answer(declare.Request{ID: c.ID, In: c.Example.In, Plot: true})
		other := calc.Answer(declare.Request{ID: c.ID, In: c.Example.In, Plot: true, Units: units})
		if plain.Fault != nil || other.Fault != nil || len(plain.Out) != len(other.Out) || plain.Verdict.Is != other.Verdict.Is {
			t.Errorf("%s: %v %v, %s and %s", c.ID, plain.Fault, other.Fault, plain.Verdict.Is, other.Verdict.Is)
			continue
		}
		for i, given := range other.Out {
			if was := plain.Out[i]; given.SI != was.SI || !alike(given.U*span(given.Unit), was.U*span(was.Unit)) {
				t.Errorf("%s: %+v is not %+v", c.ID, given, was)
			}
			if symbol, named := choice[given.Kind]; named && given.HasValue {
				if seen[given.Kind]++; given.Unit != symbol {
					t.Errorf("%s: %s is in %s, want %s", c.ID, given.ID, given.Unit, symbol)
				}
			}
			for j, column := range given.Columns {
				if column.Kinds == nil {
					continue
				}
				was := plain.Out[i].Columns[j]
				if symbol, named := choice[column.Kinds[0]]; named && column.Unit != symbol {
					t.Errorf("%s: column %s is in %s, want %s", c.ID, column.ID, column.Unit, symbol)
				}
				for k, row := range given.Rows {
					si, before := quantity.MustUnit(column.Unit).To(row[j].Value), quantity.MustUnit(was.Unit).To(plain.Out[i].Rows[k][j].Value)
					if !alike(si, before) {
						t.Errorf("%s: %s is %v in SI, was %v", c.ID, column.ID, si, before)
					}
				}
			}
		}
	}
	for kind := range choice {
		if seen[kind] == 0 {
			t.Errorf("no result of any example is %s", kind.Describe())
		}
	}
	for _, wrong := range []declare.Pair{{Name: "pressure", Text: "min"}, {Name: "pressure", Text: "furlong"}, {Name: "<b>", Text: "Pa"}} {
		if a := calc.Answer(declare.Request{ID: "pressure", In: []declare.Pair{{Name: "value", Text: "1 Pa"}}, Units: []declare.Pair{wrong}}); a.Fault == nil || a.Fault.Field != "units" {
			t.Errorf("%v: %+v", wrong, a)
		}
	}
}

func span(symbol string) float64 {
	if symbol == "" {
		return 1
	}
	return quantity.MustUnit(symbol).Span(1)
}

func alike(a, b float64) bool {
	return a == b || math.Abs(a-b) <= 1e-12*math.Max(math.Abs(a), math.Abs(b))
}
