package guide

import (
	"strings"

	"github.com/yuin/goldmark/ast"

	"blankoff/build/source"
)

// mostOpen is how many brackets may be open in a paragraph. Each costs goldmark a look at all that follow.
const mostOpen = 100

// mostDefined is how many addresses may be defined one below the other, as in [name]: address. Goldmark copies what is
// left of them for each.
const mostDefined = 2000

// openBrackets finds the paragraph in which too many brackets are open at once, or too many addresses defined.
func openBrackets(file *source.File, body []byte) (source.Fault, bool) {
	start, open, defined := 0, 0, 0
	for line := range strings.Lines(string(body)) {
		if strings.TrimSpace(line) == "" {
			open, defined = 0, 0
		}
		if strings.HasPrefix(strings.TrimLeft(line, " >"), "[") && strings.Contains(line, "]:") {
			defined++
		}
		if defined > mostDefined {
			return tooDeep(file.Span(start, start+1), "too many addresses are defined one below the other"), true
		}
		for i := range len(line) {
			switch line[i] {
			case '[':
				open++
			case ']':
				open = max(open-1, 0)
			}
			if open > mostOpen {
				return tooDeep(file.Span(start+i, start+i+1), "too many brackets are open here"), true
			}
		}
		start += len(line)
	}
	return source.Fault{}, false
}

// mostNested is how deep a tree may be. Browsers give up at 512 elements within each other, and a stack ends somewhere.
const mostNested = 64

// nested finds the first node that stands too deep in the tree. It does not call itself.
func nested(file *source.File, doc ast.Node) (source.Fault, bool) {
	depth := 0
	for n := doc; n != nil; {
		if depth > mostNested {
			return tooDeep(placeOf(file, n), "too many lists, quotes or marks stand inside each other here"), true
		}
		if child := n.FirstChild(); child != nil {
			n, depth = child, depth+1
			continue
		}
		for n != nil && n.NextSibling() == nil {
			n, depth = n.Parent(), depth-1
		}
		if n != nil {
			n = n.NextSibling()
		}
	}
	return source.Fault{}, false
}

// placeOf is where a node starts, or the next around it that knows.
func placeOf(file *source.File, n ast.Node) source.Span {
	for ; n != nil; n = n.Parent() {
		if at := n.Pos(); at >= 0 {
			return file.Span(at, at+1)
		}
	}
	return file.Whole()
}

func tooDeep(place source.Span, message string) source.Fault {
	return source.Fault{Rule: "depth", Span: place, Message: message, Hint: "close them, put an empty line between, or write it in fewer levels"}
}
