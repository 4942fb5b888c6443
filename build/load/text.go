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

// reading is what a file holds, or why that cannot be used.
type reading struct {
	file   *source.File
	fault  *source.Fault  // of what is not clean text
	hidden []source.Fault // of what nobody sees in it; the rest can be read
	err    error          // of the system
}

func (r reading) usable() bool { return r.err == nil && r.fault == nil }

// read reads a text file. It changes nothing in the loader, so that many files can be read at once.
func (l *loader) read(at string) reading {
	data, err := fs.ReadFile(l.fsys, at)
	if err != nil {
		return reading{err: l.unreadable(at, err)}
	}
	file := &source.File{Name: l.shown(at), Path: at}
	if len(data) > largest {
		return reading{file: file, fault: &source.Fault{
			Rule: "file-size", Span: file.Whole(), Message: fmt.Sprintf("the file has %d bytes; %d is the most", len(data), largest), Hint: "split it into several pages",
		}}
	}
	file.Text = string(data)
	if offset, what := unclean(file.Text); what != "" {
		return reading{file: file, fault: &source.Fault{
			Rule: "encoding", Span: file.Span(offset, offset+1), Message: what, Hint: "save the file as UTF-8 text with ordinary line ends",
		}}
	}
	return reading{file: file, hidden: hidden(file)}
}

// take tells whether a text can be used: what is not clean text is reported and not looked at further.
func (l *loader) take(r reading) (usable bool, err error) {
	if r.fault != nil {
		l.library.Unread = append(l.library.Unread, r.file.Path)
		l.add(*r.fault)
	}
	l.add(r.hidden...)
	return r.usable(), r.err
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

// mostHidden is how many places of a file are told: one pasted table can hold thousands.
const mostHidden = 100

// hidden finds what nobody would see in the text or, by a character reference, on the page; one place a line.
func hidden(file *source.File) []source.Fault {
	var faults []source.Fault
	start := 0
	for line := range strings.Lines(file.Text) {
		from := start
		start += len(line)
		if from == 0 {
			from = len(line) - len(strings.TrimPrefix(line, "\ufeff"))
			line = line[from:]
		}
		at, r, found := source.Invisible(line)
		length := utf8.RuneLen(r)
		if !found && strings.HasSuffix(file.Path, ".md") {
			at, length, r, found = source.InvisibleEntity(line)
		}
		if !found {
			continue
		}
		faults = append(faults, source.Fault{
			Rule: "invisible", Span: file.Span(from+at, from+at+length), Message: source.NameInvisible(r) + " stands here",
			Hint: "take it out; such characters change how a text is shown or found, and nobody sees them",
		})
		if len(faults) == mostHidden {
			break
		}
	}
	return faults
}
