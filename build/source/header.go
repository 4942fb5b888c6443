package source

import "strings"

// Fence is the line above and below the header of a Markdown file.
const Fence = "---"

const byteOrderMark = "\ufeff"

// SplitHeader finds the YAML header of a Markdown file. Both results are as long as needed to
// keep every offset: the header's text starts at offset 0 with the fence blanked, and
// in the body all that is not body is blanked, line ends excepted. So a place found in
// either is a place in the file.
func SplitHeader(file *File) (header Span, body []byte, faults []Fault) {
	text := file.Text
	start := 0
	if strings.HasPrefix(text, byteOrderMark) {
		start = len(byteOrderMark)
	}
	first, next := lineAt(text, start)
	if first != Fence {
		return file.Span(start, start), blank(text, start), []Fault{{
			Rule: "header", Span: file.Span(start, start+len(first)),
			Message: "the file does not start with a header",
			Hint:    "start the file with a line ---, then `title: …` and `reader: …`, then a line ---",
		}}
	}
	begin := next
	for at := begin; at < len(text); {
		line, after := lineAt(text, at)
		if line == Fence {
			return file.Span(begin, at), blank(text, after), nil
		}
		at = after
	}
	return file.Span(begin, len(text)), blank(text, len(text)), []Fault{{
		Rule: "header", Span: file.Span(start, start+len(Fence)),
		Message: "the header is never closed",
		Hint:    "write a line --- under the last key of the header",
	}}
}

// lineAt gives the line that starts at an offset, without trailing space, and where the next one starts.
func lineAt(text string, at int) (line string, next int) {
	next = len(text)
	if i := strings.IndexByte(text[at:], '\n'); i >= 0 {
		next = at + i + 1
	}
	return strings.TrimRight(text[at:next], " \t\r\n"), next
}

// blank copies a text with everything before an offset turned into spaces, line ends excepted.
func blank(text string, upto int) []byte {
	copied := []byte(text)
	for i := range upto {
		if copied[i] != '\n' {
			copied[i] = ' '
		}
	}
	return copied
}
