package formula

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// deepest bounds brackets within brackets.
const deepest = 40

// parser reads tokens from the left; each method reads one level of the notation.
type parser struct {
	tokens []token
	end    int  // length of the line, where the last token would stand
	depth  int  // of brackets
	inside bool // between the bars of a magnitude: the next bar closes it
}

func parse(tokens []token, end int) (*node, *Problem) {
	p := &parser{tokens: tokens, end: end}
	if len(tokens) == 0 {
		return nil, &Problem{0, "there is no formula before the words; write one, as in Q = V p / t"}
	}
	tree, problem := p.relation()
	if problem != nil {
		return nil, problem
	}
	if t := p.peek(); t.kind != tokenEnd {
		return nil, p.stray(t)
	}
	return tree, nil
}

func (p *parser) peek() token {
	if len(p.tokens) == 0 {
		return token{kind: tokenEnd, at: p.end}
	}
	return p.tokens[0]
}

func (p *parser) take() token {
	t := p.peek()
	if len(p.tokens) > 0 {
		p.tokens = p.tokens[1:]
	}
	return t
}

// at tells whether the next token is one of the signs.
func (p *parser) at(signs string) bool {
	t := p.peek()
	return t.kind == tokenSign && strings.Contains(signs, t.text)
}

// stray says why a token cannot stand where it stands.
func (p *parser) stray(t token) *Problem {
	switch {
	case t.kind == tokenEnd:
		return &Problem{t.at, "the formula ends where a quantity or a number is missing; write it, or take the last sign away"}
	case t.text == ",":
		return &Problem{t.at, "a comma stands between arguments only; put a second formula on a line of its own, and words after a semicolon"}
	case t.text == "*":
		return &Problem{t.at, "a star marks a symbol, as in t*; write a product with a blank or a dot: a b, a · b"}
	case strings.Contains(")]⌉⌋", t.text):
		return &Problem{t.at, "nothing was opened that “" + t.text + "” closes; take it away, or open a bracket before it"}
	}
	return &Problem{t.at, "“" + t.text + "” cannot stand here; a quantity or a number is missing before it"}
}

// list is what stands between brackets: relations parted by commas.
func (p *parser) list() (*node, *Problem) {
	one, problem := p.relation()
	if problem != nil || !p.at(",") {
		return one, problem
	}
	all := &node{kind: row, kids: []*node{one}}
	for p.at(",") {
		all.kids = append(all.kids, &node{kind: sign, text: p.take().text})
		if one, problem = p.relation(); problem != nil {
			return nil, problem
		}
		all.kids = append(all.kids, one)
	}
	return all, nil
}

// relation is terms parted by = and its like.
func (p *parser) relation() (*node, *Problem) {
	return p.chain(relations, false, (*parser).terms)
}

func (p *parser) terms() (*node, *Problem) {
	return p.chain(additions, true, (*parser).term)
}

// chain is operands parted by signs; signed allows one before the first.
func (p *parser) chain(signs string, signed bool, operand func(*parser) (*node, *Problem)) (*node, *Problem) {
	all := &node{kind: row}
	if signed && p.at(signs) {
		all.kids = append(all.kids, &node{kind: sign, text: p.take().text})
	}
	for {
		one, problem := operand(p)
		if problem != nil {
			return nil, problem
		}
		all.kids = append(all.kids, one)
		if !p.at(signs) {
			break
		}
		all.kids = append(all.kids, &node{kind: sign, text: p.take().text})
	}
	if len(all.kids) == 1 {
		return all.kids[0], nil
	}
	return all, nil
}

// term is factors side by side, with a sign or a blank between them; a stroke makes a
// fraction of all of them so far.
func (p *parser) term() (*node, *Problem) {
	left, problem := p.factor()
	for problem == nil {
		var right *node
		switch {
		case p.at("/"):
			p.take()
			if right, problem = p.signed(); problem == nil {
				left = &node{kind: fraction, kids: []*node{open(left), open(right)}}
			}
		case p.at(multiplications):
			times := &node{kind: sign, text: p.take().text}
			if right, problem = p.signed(); problem == nil {
				left = &node{kind: product, kids: append(factors(left), times, right)}
			}
		case p.begins():
			if right, problem = p.factor(); problem == nil {
				left = &node{kind: product, kids: append(factors(left), right)}
			}
		default:
			return left, nil
		}
	}
	return nil, problem
}

// factors are those of a product, so that one more makes it longer and not deeper.
func factors(n *node) []*node {
	if n.kind == product {
		return n.kids
	}
	return []*node{n}
}

// begins tells whether a factor can start at the next token.
func (p *parser) begins() bool {
	t := p.peek()
	switch t.kind {
	case tokenNumber, tokenWord:
		return true
	case tokenSign:
		return strings.Contains("([⌈⌊√…∑∏∫", t.text) || t.text == "|" && !p.inside
	}
	return false
}

// signed is a factor that may have a sign of its own, as in a × −b.
func (p *parser) signed() (*node, *Problem) {
	if !p.at(additions) {
		return p.factor()
	}
	s := &node{kind: sign, text: p.take().text}
	f, problem := p.factor()
	if problem != nil {
		return nil, problem
	}
	return &node{kind: row, kids: []*node{s, f}}, nil
}

// factor is a number, a symbol, a bracket or a function with what hangs on it.
func (p *parser) factor() (*node, *Problem) {
	if p.depth++; p.depth > deepest {
		return nil, &Problem{p.peek().at, "the brackets are nested too deeply to be read; give a part a symbol and a line of its own"}
	}
	defer func() { p.depth-- }()
	t := p.take()
	switch {
	case t.kind == tokenNumber:
		if next := p.peek(); next.kind == tokenNumber && !next.apart {
			return nil, &Problem{next.at, "“" + t.text + next.text + "” is no number; write thousands as 101,325 and a fraction as 0.0065"}
		}
		return p.hang(&node{kind: number, text: t.text})
	case t.kind == tokenWord:
		return p.word(t)
	case t.kind != tokenSign:
		return nil, p.stray(t)
	case sums[[]rune(t.text)[0]] != "":
		return p.sum(t)
	case t.text == "√":
		under, problem := p.factor()
		if problem != nil {
			return nil, problem
		}
		return &node{kind: root, kids: []*node{open(under)}}, nil
	case t.text == "…":
		return &node{kind: sign, text: t.text}, nil
	case t.text == "|" || strings.Contains("([⌈⌊", t.text):
		n, problem := p.bracket(t)
		if problem != nil {
			return nil, problem
		}
		return p.hang(n)
	}
	return nil, p.stray(t)
}

// bracket reads what is between two fences, the first of which was taken.
func (p *parser) bracket(opened token) (*node, *Problem) {
	before := p.inside
	closing := "|"
	if p.inside = opened.text == "|"; !p.inside {
		closing = string(fences[[]rune(opened.text)[0]])
	}
	inner, problem := p.list()
	if problem != nil {
		return nil, problem
	}
	if !p.at(closing) {
		return nil, &Problem{opened.at, "“" + opened.text + "” is not closed; write “" + closing + "” where its content ends"}
	}
	p.take()
	p.inside = before
	return &node{kind: fenced, text: opened.text + closing, kids: []*node{inner}}, nil
}

// open takes the brackets off what a bar, a root or a raised line holds together anyway.
func open(n *node) *node {
	if n.kind == fenced && n.text == "()" {
		return n.kids[0]
	}
	return n
}

// word is a symbol or a function.
func (p *parser) word(t token) (*node, *Problem) {
	if functions[t.text] {
		return p.function(t)
	}
	if !oneLetter(t.text) && !longNames[t.text] {
		return nil, &Problem{t.at, "“" + t.text + "” is neither a symbol of one letter nor a known function; write a product with a blank (V p), an index with a low line (p_end), and units and words after a semicolon"}
	}
	if next := p.peek(); next.kind == tokenNumber && !next.apart {
		return nil, &Problem{next.at, "is “" + t.text + next.text + "” an index or a product? Write " + t.text + "_" + next.text + " or " + next.text + " " + t.text}
	}
	n, problem := p.hang(&node{kind: symbol, text: t.text})
	if next := p.peek(); problem == nil && next.text == "(" && next.kind == tokenSign && !next.apart {
		return p.applied(n)
	}
	return n, problem
}

// applied is a symbol with its argument, f(x), and what hangs on that.
func (p *parser) applied(to *node) (*node, *Problem) {
	argument, problem := p.bracket(p.take())
	if problem != nil {
		return nil, problem
	}
	return p.hang(&node{kind: apply, kids: []*node{to, argument}})
}

// function is a function of names.go, which takes a bracket or the next factor.
func (p *parser) function(t token) (*node, *Problem) {
	name, problem := p.hang(&node{kind: symbol, text: t.text})
	switch {
	case problem != nil:
		return nil, problem
	case p.at("("):
		return p.applied(name)
	case !p.begins():
		return nil, &Problem{t.at, "“" + t.text + "” of what? Write " + t.text + "(x)"}
	}
	argument, problem := p.factor()
	return &node{kind: apply, kids: []*node{name, argument}}, problem
}

// sum takes its limits and then the rest of the product.
func (p *parser) sum(t token) (*node, *Problem) {
	bare, problem := p.hang(&node{kind: sign, text: t.text})
	if problem != nil {
		return nil, problem
	}
	n := &node{kind: sum, text: t.text, kids: []*node{nil, nil, nil}}
	switch bare.kind {
	case index:
		n.kids[0] = bare.kids[1]
	case power:
		n.kids[1] = bare.kids[1]
	case both:
		n.kids[0], n.kids[1] = bare.kids[1], bare.kids[2]
	}
	n.kids[2], problem = p.term()
	return n, problem
}

// oneLetter tells whether a word is a letter, perhaps with accents, perhaps as a difference.
func oneLetter(word string) bool {
	r, size := utf8.DecodeRuneInString(word)
	rest := word[size:]
	if strings.ContainsRune(differences, r) && rest != "" && !unicode.Is(unicode.Mn, firstOf(rest)) {
		_, size = utf8.DecodeRuneInString(rest)
		rest = rest[size:]
	}
	return strings.IndexFunc(rest, func(r rune) bool { return !unicode.Is(unicode.Mn, r) }) < 0
}

func firstOf(text string) rune {
	r, _ := utf8.DecodeRuneInString(text)
	return r
}
