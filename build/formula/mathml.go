package formula

import (
	"html"
	"strings"
	"unicode"
	"unicode/utf8"
)

// MathML writes the formula for a page. The plain line goes with it as an annotation: a
// browser that knows MathML hides it, one that does not shows the formula by it.
func (l *Line) MathML() string {
	var w writer
	w.WriteString(`<math display="block"><semantics>`)
	w.node(l.tree)
	w.WriteString(`<annotation encoding="text/plain">`)
	w.text(l.Plain)
	w.WriteString(`</annotation></semantics></math>`)
	return w.String()
}

type writer struct {
	strings.Builder
	// inside counts fractions, roots, indices and exponents around this place. A fraction
	// in one of them is written with a stroke: a small one cannot be read on a phone, and
	// a root does not grow around it where no font for mathematics is installed.
	inside int
}

func (w *writer) text(s string) { w.WriteString(html.EscapeString(s)) }

// tag writes an element with kids.
func (w *writer) tag(name string, kids ...*node) {
	w.WriteString("<" + name + ">")
	for _, kid := range kids {
		w.node(kid)
	}
	w.WriteString("</" + name + ">")
}

func (w *writer) leaf(tag, text string) {
	name, _, _ := strings.Cut(tag, " ")
	w.WriteString("<" + tag + ">")
	w.text(text)
	w.WriteString("</" + name + ">")
}

// Signs that cannot be seen, for what reads formulas aloud; a product gets a little air.
const (
	ofBracket  = "<mo>\u2061</mo>"
	ofBlank    = "<mo rspace=\".17em\">\u2061</mo>"
	timesBlank = "<mo lspace=\".09em\" rspace=\".09em\">\u2062</mo>"
)

// node writes exactly one element, so that it can be part of any other.
func (w *writer) node(n *node) {
	switch n.kind {
	case number:
		w.leaf("mn", n.text)
	case symbol:
		w.symbol(n.text)
	case sign:
		w.leaf("mo", n.text)
	case row:
		w.tag("mrow", n.kids...)
	case product:
		w.product(n.kids)
	case fraction:
		w.fraction(n.kids[0], n.kids[1])
	case root:
		w.within("msqrt", nil, n.kids...)
	case index:
		w.within("msub", n.kids[0], n.kids[1:]...)
	case power:
		w.within("msup", n.kids[0], n.kids[1:]...)
	case both:
		w.within("msubsup", n.kids[0], n.kids[1:]...)
	case fenced:
		w.fenced(n)
	case apply:
		w.WriteString("<mrow>")
		w.node(n.kids[0])
		if n.kids[1].kind == fenced {
			w.WriteString(ofBracket)
		} else {
			w.WriteString(ofBlank)
		}
		w.node(n.kids[1])
		w.WriteString("</mrow>")
	case sum:
		w.sum(n)
	}
}

// within writes an element whose first part, if any, is of full size.
func (w *writer) within(name string, base *node, kids ...*node) {
	w.WriteString("<" + name + ">")
	if base != nil {
		w.node(base)
	}
	w.inside++
	for _, kid := range kids {
		w.node(kid)
	}
	w.inside--
	w.WriteString("</" + name + ">")
}

// fraction writes one above the other, or, within something else, a stroke between them.
func (w *writer) fraction(above, below *node) {
	if w.inside == 0 {
		w.within("mfrac", nil, above, below)
		return
	}
	w.WriteString("<mrow>")
	w.closed(above, above.kind == row)
	w.leaf("mo", "/")
	w.closed(below, below.kind == row || below.kind == product || below.kind == fraction || below.kind == sum || below.kind == apply && below.kids[1].kind != fenced)
	w.WriteString("</mrow>")
}

// closed puts brackets around a part that would not hold together without.
func (w *writer) closed(n *node, loose bool) {
	if loose {
		n = &node{kind: fenced, text: "()", kids: []*node{n}}
	}
	w.node(n)
}

func (w *writer) product(kids []*node) {
	w.WriteString("<mrow>")
	for i, kid := range kids {
		if i > 0 && !times(kid) && !times(kids[i-1]) {
			w.WriteString(timesBlank)
		}
		if w.inside == 0 && kid.kind == fenced && kid.kids[0].kind == fraction {
			kid = open(kid) // its bar holds it together
		}
		w.closed(kid, kid.kind == fraction && w.inside > 0)
	}
	w.WriteString("</mrow>")
}

func times(n *node) bool { return n.kind == sign && strings.Contains(multiplications, n.text) }

func (w *writer) fenced(n *node) {
	_, size := utf8.DecodeRuneInString(n.text)
	w.WriteString("<mrow>")
	w.leaf(`mo`, n.text[:size])
	w.node(n.kids[0])
	w.leaf(`mo`, n.text[size:])
	w.WriteString("</mrow>")
}

// sum writes the sign with its limits beside it: above and below it they would touch it
// where no font for mathematics is installed, as on many phones.
func (w *writer) sum(n *node) {
	w.WriteString("<mrow>")
	w.node(hung(&node{kind: sign, text: n.text}, n.kids[0], n.kids[1]))
	w.node(n.kids[2])
	w.WriteString("</mrow>")
}

// symbol writes a letter, which a browser sets in italics, or a name, which it does not.
// A letter with an accent needs a class for that: an accent set as an element of its own
// is lost where no font for mathematics is installed.
func (w *writer) symbol(text string) {
	r, size := utf8.DecodeRuneInString(text)
	switch rest := text[size:]; {
	case rest != "" && strings.ContainsRune(differences, r) && oneLetter(text) && !marked(rest):
		w.WriteString("<mrow>")
		w.leaf(`mi mathvariant="normal"`, text[:size])
		w.symbol(rest)
		w.WriteString("</mrow>")
	case rest != "" && marked(rest) || strings.ContainsRune(composed, r):
		w.leaf(`mi class="slant"`, text)
	default:
		w.leaf("mi", text)
	}
}

// composed are letters that carry their accent in one character; browsers have no italic
// form of them in mathematics.
const composed = "ȧḃċḋėḟġḣṁṅȯṗṙṡṫẇẋẏżȦḂĊḊĖḞĠḢṀṄȮṖṘṠṪẆẊẎŻāēīōūȳĀĒĪŌŪȲâĉêĝĥîĵôŝûŵŷẑÂĈÊĜĤÎĴÔŜÛŴŶẐãñõũṽỹẽÃÑÕŨṼỸẼ"

// marked tells whether a text begins with a combining mark.
func marked(text string) bool { return unicode.Is(unicode.Mn, firstOf(text)) }
