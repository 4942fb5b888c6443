package diagnostic

import (
	"strings"
	"unicode/utf8"

	"blankoff/build/source"
)

// columnBytes is more than one column of a line can take: a letter with its marks, of four bytes each.
const columnBytes = 4 * (1 + mostMarks)

// excerpt gives the source line of a span and the line with the caret below it:
// tabs expanded, a long line cut around the span.
func excerpt(span source.Span, width int) (line, caret string) {
	whole, at := span.Line()
	end := min(at+span.Len, len(whole))
	before := head(whole[:at], width)
	from := columns(before)
	marked := cells(first(whole[at:end], width), from)
	length := max(columns(marked), 1)
	shown := append(append(before, marked...), cells(first(whole[max(end, at):], width), from+columns(marked))...)
	left, right := window(columns(shown), from, length, width)
	length = max(min(length, right-from), 1)
	return strings.TrimRight(cut(shown, left, right), " "), strings.Repeat(" ", from-left) + "^" + strings.Repeat("~", length-1)
}

// head is what stands before a span, as far as a line of the width can show it: a line may be a megabyte.
func head(text string, width int) []cell {
	from := max(len(text)-width*columnBytes, 0)
	if from == 0 {
		return cells(text, 0)
	}
	for from < len(text) && !utf8.RuneStart(text[from]) {
		from++
	}
	return append([]cell{{"…", 1}}, cells(text[from:], 1)...)
}

// first is the part of a text that a line of the width can show, and a little more, so that it is seen to be cut.
func first(text string, width int) string {
	to := min((width+1)*columnBytes, len(text))
	for to < len(text) && !utf8.RuneStart(text[to]) {
		to++
	}
	return text[:to]
}

// window chooses which columns of a long line to show: the marked part, with some of what is before it.
func window(total, from, length, width int) (left, right int) {
	if total <= width {
		return 0, total
	}
	left = max(from-max((width-length)/2, width/4), 0)
	right = min(left+width, total)
	return max(min(left, right-width), 0), right
}

// cut writes the cells between two columns, with a mark where the line goes on. What is two columns wide and lies across
// an edge gives way to a space, so that all else keeps its column.
func cut(shown []cell, left, right int) string {
	var b strings.Builder
	total, column, at := columns(shown), 0, left
	if left > 0 {
		b.WriteString("…")
		at++
	}
	last := right
	if right < total {
		last--
	}
	for _, c := range shown {
		if from := column; from >= at && from+c.width <= last {
			b.WriteString(strings.Repeat(" ", from-at) + c.text)
			at = from + c.width
		}
		column += c.width
	}
	if right < total {
		b.WriteString(strings.Repeat(" ", last-at) + "…")
	}
	return b.String()
}
