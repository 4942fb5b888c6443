package formula

import "strings"

// hang adds what is written low or high on a factor: an index, and an exponent, a star
// or a prime, each once. They stand above each other, whichever was typed first.
func (p *parser) hang(n *node) (*node, *Problem) {
	var low, high *node
	for {
		t := p.peek()
		place := &high
		switch {
		case t.kind == tokenLowered || t.kind == tokenSign && t.text == "_":
			place = &low
		case t.kind == tokenRaised || t.kind == tokenSign && t.text == "^":
		case t.kind == tokenSign && !t.apart && strings.Contains("*′", t.text):
		default:
			return hung(p.perCent(n), low, high), nil
		}
		switch {
		case t.apart:
			return nil, &Problem{t.at, "“" + t.text + "” has nothing to hang on; write it without a blank before it"}
		case *place != nil:
			return nil, &Problem{t.at, "this is the second thing to stand high, or low, on one symbol; put brackets around what belongs together: (t*)², x_(i j)"}
		}
		var problem *Problem
		if *place, problem = p.hanging(); problem != nil {
			return nil, problem
		}
	}
}

// hanging reads one index or exponent.
func (p *parser) hanging() (*node, *Problem) {
	t := p.take()
	switch {
	case t.kind != tokenSign:
		return plainRun(t.text), nil
	case strings.Contains("_^", t.text):
		return p.group()
	case t.text == "*" && p.begins() && !p.peek().apart:
		return nil, &Problem{t.at, "a star marks a symbol, as in t*; write a product with a blank or a dot: a b, a · b"}
	}
	return &node{kind: sign, text: t.text}, nil
}

func (p *parser) perCent(n *node) *node {
	if n.kind != number || !p.at("%") {
		return n
	}
	return &node{kind: row, kids: []*node{n, {kind: sign, text: p.take().text}}}
}

// hung is a factor with its index and exponent, each of which may be nil.
func hung(n, low, high *node) *node {
	switch {
	case low != nil && high != nil:
		return &node{kind: both, kids: []*node{n, low, high}}
	case low != nil:
		return &node{kind: index, kids: []*node{n, low}}
	case high != nil:
		return &node{kind: power, kids: []*node{n, high}}
	}
	return n
}

// group is what stands after ^ or _: a bracket, or a number or symbol with its sign.
func (p *parser) group() (*node, *Problem) {
	t := p.peek()
	if t.kind == tokenSign && t.text == "(" {
		n, problem := p.bracket(p.take())
		if problem != nil {
			return nil, problem
		}
		return open(n), nil
	}
	var before []*node
	if p.at("+−") {
		before = append(before, &node{kind: sign, text: p.take().text})
	}
	t = p.take()
	var n *node
	switch {
	case t.kind == tokenNumber:
		n = &node{kind: number, text: t.text}
	case t.kind == tokenWord && (oneLetter(t.text) || longNames[t.text]):
		n = &node{kind: symbol, text: t.text}
	default:
		return nil, &Problem{t.at, "only a number or a symbol can be raised without brackets; write x^(a + b)"}
	}
	if before == nil {
		return n, nil
	}
	return &node{kind: row, kids: append(before, n)}, nil
}

// plainRun is an index or exponent that came in one piece: digits, words or signs.
func plainRun(text string) *node {
	all := &node{kind: row}
	for text != "" {
		n, of := digits(text), number
		if n == 0 {
			n, of = wordLength(text, true), symbol
		}
		if n == 0 {
			_, n = first(text)
			of = sign
		}
		all.kids = append(all.kids, &node{kind: of, text: text[:n]})
		text = text[n:]
	}
	if len(all.kids) == 1 {
		return all.kids[0]
	}
	return all
}
