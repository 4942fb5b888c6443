// Package formula sets a calculator's formula as mathematics. It reads the plain line that
// a declaration holds and writes presentation MathML of the MathML Core kind: no script,
// no style, nothing that a reader without MathML would lose.
//
//	line, err := formula.Parse("Q = V (p₂ − p₁) / t; V with the lines up to the valve")
//	line.MathML() // <math display="block">…</math>
//	line.Words    // "V with the lines up to the valve"
//
// The notation, which is what people type in a mail:
//
//	p₁ p_end S_eff λ Δp dp t* p′   symbols of one letter, with an index; names.go has the few of more letters
//	a b, 2 a, 2a, a · b, a × b     products
//	a / b                          a fraction; a b / c d is (a b / c) d, so write a b / (c d) where that is meant
//	x² x⁻¹ x^n x^(a + b) √x √(a)   powers and roots
//	ln(x) ln x f(x, y)             functions; f (x) with a space is a product
//	Σ Σᵢ Σ_(i = 1)^n ∫_a^b         sums and integrals, which take all of the product that follows
//	|x| [x] ⌈x⌉ ⌊x⌋                magnitude, brackets, rounding up and down
//	= ≈ ≠ ≤ ≥ < > ∝ →  + − ± ∓     between terms
//	10 % ½ 101,325 …  ∞            numbers as the site writes them
//
// Units do not belong into it, nor sentences: what must be said stands after the first
// semicolon.
package formula

import "strings"

// Line is one formula.
type Line struct {
	Plain string // the formula as it was written
	Words string // what is said of it; may be empty
	tree  *node
}

// Parse reads a line: `math` or `math; words`. The error is always a *Problem.
func Parse(text string) (*Line, error) {
	plain, words, _ := strings.Cut(text, ";")
	tokens, problem := scan(plain)
	if problem != nil {
		return nil, problem
	}
	tree, problem := parse(tokens, len(plain))
	if problem != nil {
		return nil, problem
	}
	return &Line{Plain: strings.TrimSpace(plain), Words: strings.TrimSpace(words), tree: tree}, nil
}

// Problem says why a line cannot be set, where, and what to do.
type Problem struct {
	At   int // byte offset in the line
	Text string
}

func (p *Problem) Error() string { return p.Text }

// node is a part of the formula. What text and kids mean depends on the kind.
type node struct {
	kind kind
	text string
	kids []*node
}

type kind int

const (
	number   kind = iota // text
	symbol               // text: a letter or a name
	sign                 // text: an operator that stands alone, such as an ellipsis
	row                  // kids side by side: operands and signs
	product              // kids side by side; a sign of multiplication is a kid
	fraction             // kids: above, below
	root                 // kids: what is under it
	index                // kids: base, index
	power                // kids: base, exponent
	both                 // kids: base, index, exponent
	fenced               // text: the two fences; kids: what is between
	apply                // kids: function, argument
	sum                  // text: the sign; kids: what it runs over, up to where (each may be nil), what is summed
)
