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

// preset is what a page asks for when its reader chose one, see build/bundle/choices.go.
type preset struct {
	name  string
	units []declare.Pair
	also  []string // companions of the choice
}

var unitPresets = []preset{
	{"SI", pairs("pressure", "Pa", "rate of pressure change", "Pa/min", "leak rate", "Pa·m³/s", "temperature", "°C", "length", "mm", "volume", "L"), []string{"kPa", "m", "mL", "K"}},
	{"US shop", pairs("pressure", "micron", "rate of pressure change", "micron/min", "leak rate", "Torr·L/s", "temperature", "°F", "length", "in", "volume", "gal"), []string{"Torr", "ft", "in³"}},
}

// spoken are all units of the kinds that a reader switches, the longest first.
var spoken = func() []string {
	kinds := []quantity.Kind{quantity.Pressure, quantity.PressureRate, quantity.Throughput, quantity.Temperature, quantity.Length, quantity.Volume}
	var list []string
	for _, symbol := range quantity.Symbols() {
		for _, text := range []string{symbol, symbol + "³", symbol + "·L/s", symbol + "·m³/s", symbol + "·cm³/s", symbol + "/s", symbol + "/min", symbol + "/h"} {
			if u, known := quantity.FindUnit(text); known && u.Symbol == text && slices.Contains(kinds, u.Kind) {
				list = append(list, text)
			}
		}
	}
	list = append(list, "microns")
	slices.SortFunc(list, func(a, b string) int { return len(b) - len(a) })
	return list
}()

// said is a quantity of a text, or a unit that stands alone.
type said struct{ number, unit string }

var numberBefore = regexp.MustCompile(`([−-]?[\d.,]*\d(?:×10[⁻⁰¹²³⁴⁵⁶⁷⁸⁹]+)?)[ \x{a0}]?$`)

// saidIn finds the units of the kinds that a reader switches. One that is also a word or a symbol counts behind a number alone.
func saidIn(text string) []said {
	var list []said
	for at := 0; at < len(text); {
		r, size := utf8.DecodeRuneInString(text[at:])
		before, _ := utf8.DecodeLastRuneInString(text[:at])
		if !(unicode.IsLetter(r) || r == '°') || unicode.IsLetter(before) || strings.ContainsRune("/·(×", before) {
			at += size
			continue
		}
		next := at + size
		for _, unit := range spoken {
			if !strings.HasPrefix(text[at:], unit) {
				continue
			}
			after, _ := utf8.DecodeRuneInString(text[at+len(unit):])
			if unicode.IsLetter(after) || unicode.IsDigit(after) || strings.ContainsRune("/·²³⁻", after) {
				break
			}
			number := ""
			if found := numberBefore.FindStringSubmatch(text[:at]); found != nil {
				number = found[1]
			}
			if number != "" || len(unit) > 2 || strings.HasPrefix(unit, "°") || unit == "Pa" {
				list = append(list, said{number, unit})
			}
			next = at + len(unit)
			break
		}
		at = next
	}
	return list
}

// spreads are the requests of the comparison with Monte Carlo, as their files hold them.
func spreads(t *testing.T) map[string][][]declare.Pair {
	t.Helper()
	packages, err := parser.ParseDir(token.NewFileSet(), "declare", nil, 0)
	if err != nil {
		t.Fatal(err)
	}
	found := map[string][][]declare.Pair{}
	for _, file := range packages["declare_test"].Files {
		ast.Inspect(file, func(node ast.Node) bool {
			call, is := node.(*ast.CallExpr)
			if !is || len(call.Args) == 0 {
				return true
			}
			if name, is := call.Fun.(*ast.Ident); !is || name.Name != "spreadOf" {
				return true
			}
			id := texts(call.Args[0])[0]
			for _, request := range call.Args[1:] {
				found[id] = append(found[id], pairs(texts(request)...))
			}
			return false
		})
	}
	return found
}

// texts are the literals below a node.
func texts(node ast.Node) []string {
	var list []string
	ast.Inspect(node, func(node ast.Node) bool {
		if literal, is := node.(*ast.BasicLit); is {
			text, _ := strconv.Unquote(literal.Value)
			list = append(list, text)
		}
		return true
	})
	return list
}

// disturbed are requests with one entry gone, without its unit, out of its range, or cruder.
func disturbed(c *declare.Calculator, base declare.Request) []declare.Request {
	var list []declare.Request
	for _, in := range c.Inputs {
		for _, text := range []string{"", "5", "1e9 " + in.Unit, "-5 " + in.Unit, "1e-9 " + in.Unit, "-3 inHg gauge", "5 kg", "OL", "x"} {
			list = append(list, with(base, in.ID, text))
		}
		for _, choice := range in.Choices {
			list = append(list, with(base, in.ID, choice.Value))
		}
		if written := entry(base, in.ID); in.Kinds != nil && written != "" && !strings.Contains(written, "±") {
			list = append(list, with(base, in.ID, written+" ± 30 %"))
			if q, problem := quantity.Parse(written, in.Kinds...); problem == nil {
				for _, times := range []float64{0.01, 0.1, 0.5, 0.9, 1.1, 2, 10, 100} {
					q := q
					q.Value *= times
					list = append(list, with(base, in.ID, write(q, q.Unit)))
				}
			}
		}
	}
	return list
}

// foreign lists the texts of an answer that speak in a unit which is neither chosen nor typed.
func foreign(c *declare.Calculator, r declare.Request, a declare.Answer, p preset) []string {
	allowed := append([]string(nil), p.also...)
	for _, pair := range p.units {
		allowed = append(allowed, pair.Text)
	}
	typed := typedIn(c, r)
	var list []string
	for _, line := range spokenLines(a) {
		bare := quoted.ReplaceAllString(line, "“”")
		for _, s := range saidIn(bare) {
			if slices.Contains(allowed, s.unit) || typed[s] {
				continue
			}
			list = append(list, p.name+": "+s.number+" "+s.unit+": "+line)
		}
	}
	return list
}

var quoted = regexp.MustCompile(`“[^”]*”`)

// typedIn are the quantities of the entries, as an answer writes them.
func typedIn(c *declare.Calculator, r declare.Request) map[said]bool {
	found := map[said]bool{}
	for _, pair := range r.In {
		in := c.Input(pair.Name)
		for _, s := range saidIn(pair.Text) {
			found[s] = true
		}
		if in == nil || in.Kinds == nil {
			continue
		}
		if q, problem := in.Parse(pair.Text); problem == nil {
			for _, figures := range []int{max(4, min(q.Figures, 9))} {
				for _, s := range saidIn(quantity.Format(q.Value, -1, q.Unit, figures)) {
					found[s] = true
				}
			}
		}
	}
	return found
}

// spokenLines are the texts of an answer, one after the other.
func spokenLines(a declare.Answer) []string {
	list := append(append([]string{a.Verdict.Text}, a.Working...), a.Cautions...)
	for _, g := range a.Out {
		list = append(append(list, g.Text), g.Also...)
		for _, column := range g.Columns {
			list = append(list, column.Label+" in 1 "+column.Unit)
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
	if a.Plot != nil {
		list = append(list, a.Plot.Head...)
		list = append(list, svgText.FindAllString(a.Plot.SVG(), -1)...)
	}
	return list
}

var svgText = regexp.MustCompile(`>[^<]+<|aria-label="[^"]*"`)
