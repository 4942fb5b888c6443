package load

import (
	"fmt"
	"io/fs"
	"strings"
	"unicode/utf8"

	"blankoff/build/source"
)

// largest is more text than a page of a guide can need; it bounds what hostile content costs.
const largest = 1 << 20

// text reads a text file. The second result tells whether it can be used: what is not
// clean text is reported and not looked at further.
func (l *loader) text(at string) (*source.File, bool, error) {
	data, err := fs.ReadFile(l.fsys, at)
	if err != nil {
		return nil, false, l.unreadable(at, err)
	}
	file := &source.File{Name: l.shown(at), Path: at, Text: string(data)}
	if len(data) > largest {
		file.Text = ""
		l.library.Unread = append(l.library.Unread, at)
		l.refuse("file", file.Whole(), fmt.Sprintf("the file has %d bytes; %d is the most", len(data), largest), "split it into several pages")
		return file, false, nil
	}
	offset, what := unclean(file.Text)
	if what == "" {
		return file, true, nil
	}
	l.library.Unread = append(l.library.Unread, at)
	l.refuse("encoding", file.Span(offset, offset+1), what, "save the file as UTF-8 text with ordinary line ends")
	return file, false, nil
}

// unclean finds the first thing that is no text: a wrong byte, a control character.
func unclean(text string) (at int, what string) {
	for i, r := range text {
		switch {
		case r == utf8.RuneError && !strings.HasPrefix(text[i:], "\ufffd"):
			return i, "this is not UTF-8 text"
		case r == '\r' && !strings.HasPrefix(text[i:], "\r\n"):
			return i, "a carriage return stands alone here"
		case r < ' ' && r != '\n' && r != '\t' && r != '\r', r == 0x7f:
			return i, fmt.Sprintf("the control character U+%04X stands here", r)
		}
	}
	return 0, ""
}
