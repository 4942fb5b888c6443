package calc_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"blankoff/calc/declare"
	"blankoff/calc/quantity"
)

// What the tests of units_test.go read out of the sentences of an answer.

// said is a quantity of a text, or a unit that stands alone.
type said struct{ number, unit string }

// spoken are all units of the kinds that a reader switches, the longest first.
var spoken = func() []string {
	kinds := []quantity.Kind{quantity.Pressure, quantity.PressureRate, quantity.Throughput, quantity.Temperature, quantity.Length, quantity.Volume}
	list := []string{"microns"}
	for _, symbol := range quantity.Symbols() {
		for _, text := range []string{symbol, symbol + "³", symbol + "·L/s", symbol + "·m³/s", symbol + "·cm³/s", symbol + "/s", symbol + "/min", symbol + "/h"} {
			if u, known := quantity.FindUnit(text); known && u.Symbol == text && slices.Contains(kinds, u.Kind) {
				list = append(list, text)
			}
		}
	}
	slices.SortStableFunc(list, func(a, b string) int { return len(b) - len(a) })
	return list
}()

// numberBefore is a number as answers write one, (2.24 ± 0.12)×10⁻⁵, or a declaration, 1e-9.
var numberBefore = func() *regexp.Regexp {
	const one, power = `[−-]?[\d.,]*\d(?:e-?\d+)?`, `(?:×10[⁻⁰¹²³⁴⁵⁶⁷⁸⁹]+)?`
	return regexp.MustCompile(`((?:\(` + one + ` ± ` + one + `\)|(?:` + one + power + ` )?± ` + one + `|` + one + `)` + power + `)[ \x{a0}]?$`)
}()

// saidIn finds the units of those kinds. One that is also a word or a symbol counts behind a number alone.
func saidIn(text string) []said {
	var list []said
	for at := 0; at < len(text); {
		r, size := utf8.DecodeRuneInString(text[at:])
		before, _ := utf8.DecodeLastRuneInString(text[:at])
		next := at + size
		if (unicode.IsLetter(r) || r == '°') && !unicode.IsLetter(before) && !strings.ContainsRune("/·(×", before) {
			if unit := spokenAt(text[at:]); unit != "" {
				next = at + len(unit)
				number := ""
				if found := numberBefore.FindStringSubmatch(text[:at]); found != nil {
					number = found[1]
				}
				if number != "" || len(unit) > 2 || r == '°' || unit == "Pa" {
					list = append(list, said{number, unit})
				}
			}
		}
		at = next
	}
	return list
}

// spokenAt is the unit with which a text begins, if no other one begins with it there.
func spokenAt(text string) string {
	for _, unit := range spoken {
		if strings.HasPrefix(text, unit) {
			if after, _ := utf8.DecodeRuneInString(text[len(unit):]); unicode.IsLetter(after) || unicode.IsDigit(after) || strings.ContainsRune("/·²³⁻", after) {
				return ""
			}
			return unit
		}
	}
	return ""
}

// sentences are the texts of an answer, one after the other; those of its plot, and further units, where they are asked for.
func sentences(a declare.Answer, all bool) []string {
	list := append(append([]string{a.Verdict.Text}, a.Working...), a.Cautions...)
	for _, g := range a.Out {
		list = append(list, g.Text)
		if all {
			list = append(list, g.Also...)
		}
		for _, column := range g.Columns {
			if all {
				list = append(list, "1 "+column.Unit)
			}
		}
		for _, row := range g.Rows {
			for _, cell := range row {
				if !cell.IsNumber {
					list = append(list, cell.Text)
				}
			}
		}
	}
	if a.Fault != nil {
		list = append(list, a.Fault.Text)
	}
	if a.Plot != nil && all {
		list = append(append(list, a.Plot.Words), a.Plot.Head...)
		list = append(list, svgTexts.FindAllString(a.Plot.SVG(), -1)...)
	}
	return list
}

var svgTexts = regexp.MustCompile(`>[^<]+<|aria-label="[^"]*"`)

// typedIn are the quantities of the entries, as they were written and as an answer echoes them.
func typedIn(c *declare.Calculator, r declare.Request) map[said]bool {
	found := map[said]bool{}
	for _, pair := range r.In {
		list := saidIn(pair.Text)
		if in := c.Input(pair.Name); in != nil && in.Kinds != nil {
			if q, problem := in.Parse(pair.Text); problem == nil && !q.Over {
				list = append(list, saidIn(quantity.Format(q.Value, -1, q.Unit, max(4, min(q.Figures, 9))))...)
			}
		}
		for _, s := range list {
			found[s] = true
		}
	}
	return found
}

// spreads are the requests of the comparison with Monte Carlo, as their files hold them: those tests see inside a calculator,
// so they belong to another package.
func spreads(t *testing.T) map[string][]declare.Request {
	t.Helper()
	found := map[string][]declare.Request{}
	packages, err := parser.ParseDir(token.NewFileSet(), "declare", nil, 0)
	if err != nil {
		t.Fatal(err)
	}
	for _, file := range packages["declare_test"].Files {
		ast.Inspect(file, func(node ast.Node) bool {
			call, is := node.(*ast.CallExpr)
			if !is {
				return true
			}
			if name, is := call.Fun.(*ast.Ident); !is || name.Name != "spreadOf" {
				return true
			}
			id := literals(call.Args[0])[0]
			for _, request := range call.Args[1:] {
				found[id] = append(found[id], declare.Request{ID: id, In: pairs(literals(request)...)})
			}
			return false
		})
	}
	if len(found) < 20 {
		t.Errorf("requests of %d calculators were found", len(found))
	}
	return found
}

// literals are the texts below a node.
func literals(node ast.Node) []string {
	var list []string
	ast.Inspect(node, func(node ast.Node) bool {
		if literal, is := node.(*ast.BasicLit); is && literal.Kind == token.STRING {
			text, _ := strconv.Unquote(literal.Value)
			list = append(list, text)
		}
		return true
	})
	return list
}

// disturbed are requests with one entry gone, without its unit, out of its range, of another size or cruder.
func disturbed(c *declare.Calculator, base declare.Request) []declare.Request {
	list := []declare.Request{base}
	for i := range c.Inputs {
		in := &c.Inputs[i]
		written := entry(base, in.ID)
		texts := []string{"", "5", "1e9 " + in.Unit, "-5 " + in.Unit, "1e-9 " + in.Unit, "-3 inHg gauge", "5 kg", "OL", "x"}
		for _, choice := range in.Choices {
			texts = append(texts, choice.Value)
		}
		if in.Columns != nil {
			head, rows, _ := strings.Cut(written, "\n")
			first, _, _ := strings.Cut(rows, "\n")
			texts = append(texts, head, head+"\n"+first, written+"\n-7,-7,-7,-7", written+"\n1e20,1e20,1e20,1e20", strings.NewReplacer(" mTorr", " furlong", " mm", " furlong").Replace(written))
		}
		if q, problem := in.Parse(written); problem == nil && in.Kinds != nil && !q.Over {
			texts = append(texts, written+" ± 30 %", written+" ± 1 K")
			for _, times := range []float64{0.01, 0.1, 0.5, 0.9, 1.1, 2, 10, 100} {
				other := q
				other.Value *= times
				texts = append(texts, write(other, q.Unit))
			}
		}
		for _, text := range texts {
			list = append(list, with(base, in.ID, text))
		}
	}
	return list
}
