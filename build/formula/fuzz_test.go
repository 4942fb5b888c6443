package formula_test

import (
	"encoding/xml"
	"errors"
	"io"
	"slices"
	"strings"
	"testing"
	"unicode"

	"blankoff/build/formula"
	"blankoff/calc"
)

// arity is how many elements each kind of element holds; those that are not listed here
// must not occur. Less than nought: any number.
var arity = map[string]int{
	"math": 1, "semantics": 2, "annotation": 0, "mrow": -1, "mi": 0, "mn": 0, "mo": 0,
	"mfrac": 2, "msqrt": 1, "msub": 2, "msup": 2, "msubsup": 3,
}

// allowed are the attributes of MathML Core that we write.
var allowed = map[string]bool{"display": true, "encoding": true, "mathvariant": true, "class": true, "lspace": true, "rspace": true}

// FuzzParse: whatever is typed, the answer is a formula that is well-formed and keeps every
// letter and digit, or a problem at a place in the line. The order may change: an index goes
// before the exponent, however they were typed.
func FuzzParse(f *testing.F) {
	for _, c := range calc.All() {
		for _, line := range c.Formula {
			f.Add(line)
		}
	}
	for _, line := range []string{
		"0_0߲", "a_12b3", "x²_i + |a (|b|)| / √6", "∫_a^b dx / f'(x, y)", "Σ_(i = 1)^n (y_i − p̄)² / u_i²", "a < b & c; <i>", "ḋ_3 ⌈x⌉ ½ 10 %", "t* = 1,234.5", "a^−b_c", "Δ", "ΔΔp", "½½", "p̂₁²", "_", "^", "√√2", "¯a", "e̷x",
	} {
		f.Add(line)
	}
	f.Fuzz(func(t *testing.T, line string) {
		l, err := formula.Parse(line)
		var problem *formula.Problem
		if errors.As(err, &problem) {
			if problem.At < 0 || problem.At > len(line) || problem.Text == "" {
				t.Fatalf("%q: problem %+v", line, problem)
			}
			return
		}
		if err != nil {
			t.Fatalf("%q: %v is not a problem with a place", line, err)
		}
		if got, want := sorted(set(t, l.MathML())), sorted(essence(l.Plain)); got != want {
			t.Fatalf("%q was set as %q, want %q\n%s", line, got, want, l.MathML())
		}
		again, err := formula.Parse(l.Plain)
		if err != nil || again.MathML() != l.MathML() {
			t.Fatalf("%q is not read again: %v", l.Plain, err)
		}
	})
}

func sorted(text string) string {
	list := []rune(text)
	slices.Sort(list)
	return string(list)
}

// set checks the MathML and gives the letters and digits that it shows.
func set(t *testing.T, text string) string {
	t.Helper()
	type element struct {
		name string
		kids int
	}
	stack := []element{{}}
	var seen strings.Builder
	for d := xml.NewDecoder(strings.NewReader(text)); ; {
		token, err := d.Token()
		if err == io.EOF {
			return seen.String()
		}
		if err != nil {
			t.Fatalf("%s: %v", text, err)
		}
		top := &stack[len(stack)-1]
		switch token := token.(type) {
		case xml.StartElement:
			top.kids++
			if _, known := arity[token.Name.Local]; !known {
				t.Fatalf("%s: element %s", text, token.Name.Local)
			}
			for _, a := range token.Attr {
				if !allowed[a.Name.Local] {
					t.Fatalf("%s: attribute %s", text, a.Name.Local)
				}
			}
			stack = append(stack, element{name: token.Name.Local})
		case xml.EndElement:
			if want := arity[top.name]; want >= 0 && top.kids != want {
				t.Fatalf("%s: %s holds %d elements, want %d", text, top.name, top.kids, want)
			}
			stack = stack[:len(stack)-1]
		case xml.CharData:
			if top.name != "annotation" {
				seen.WriteString(essence(string(token)))
			}
		}
	}
}

// ordinary gives what a lowered or raised character is when set normally; it is
// written here a second time, by Unicode's own decompositions.
var ordinary = strings.NewReplacer("₀", "0", "₁", "1", "₂", "2", "₃", "3", "₄", "4", "₅", "5", "₆", "6", "₇", "7", "₈", "8", "₉", "9",
	"⁰", "0", "¹", "1", "²", "2", "³", "3", "⁴", "4", "⁵", "5", "⁶", "6", "⁷", "7", "⁸", "8", "⁹", "9",
	"ₐ", "a", "ₑ", "e", "ₕ", "h", "ᵢ", "i", "ⱼ", "j", "ₖ", "k", "ₗ", "l", "ₘ", "m", "ₙ", "n", "ₒ", "o", "ₚ", "p", "ᵣ", "r", "ₛ", "s", "ₜ", "t", "ᵤ", "u", "ᵥ", "v", "ₓ", "x",
	"ᵦ", "β", "ᵧ", "γ", "ᵨ", "ρ", "ᵩ", "φ", "ᵪ", "χ", "ⁱ", "i", "ⁿ", "n", "ᵃ", "a", "ᵇ", "b", "ᵏ", "k", "ᵐ", "m", "ᵗ", "t", "ˣ", "x", "∆", "Δ")

// essence is the letters and digits of a text, in order, without signs and accents.
func essence(text string) string {
	var kept strings.Builder
	for _, r := range ordinary.Replace(text) {
		switch {
		case r == 'Σ' || r == 'Π': // signs here
		case unicode.IsLetter(r) || r >= '0' && r <= '9':
			kept.WriteRune(r)
		}
	}
	return kept.String()
}
