package source

import (
	"strings"
	"testing"
)

func TestPosition(t *testing.T) {
	file := &File{Text: "one\ntwö ± drei\r\n\nvier"}
	for _, c := range []struct {
		name  string
		word  string
		line  int
		col   int
		whole string
	}{
		{"first line", "one", 1, 1, "one"},
		{"after letters of two bytes", "drei", 2, 7, "twö ± drei"},
		{"last line without end", "vier", 4, 1, "vier"},
	} {
		t.Run(c.name, func(t *testing.T) {
			at := strings.Index(file.Text, c.word)
			span := file.Span(at, at+len(c.word))
			if got := span.Position(); got != (Position{c.line, c.col}) {
				t.Errorf("position %v, want %d:%d", got, c.line, c.col)
			}
			if line, _ := span.Line(); line != c.whole {
				t.Errorf("line %q, want %q", line, c.whole)
			}
			if span.Text() != c.word {
				t.Errorf("text %q, want %q", span.Text(), c.word)
			}
		})
	}
}

func TestSpanStaysInside(t *testing.T) {
	file := &File{Text: "abc"}
	for _, s := range []Span{file.Span(-3, 99), file.Span(7, 9), file.Span(2, 1), {File: file, Start: 9, Len: 9}, {}} {
		_ = s.Text()
		if p := s.Position(); p.Line != 1 {
			t.Errorf("%v: line %d, want 1", s, p.Line)
		}
		if _, at := s.Line(); at > 3 {
			t.Errorf("%v: at %d in a line of 3", s, at)
		}
	}
}

func TestSplitHeader(t *testing.T) {
	for _, c := range []struct {
		name, text, header, body, fault string
	}{
		{"plain", "---\ntitle: x\n---\nbody\n", "title: x\n", "body\n", ""},
		{"windows line ends", "---\r\ntitle: x\r\n---\r\nbody", "title: x\r\n", "body", ""},
		{"byte order mark", "\ufeff---\na: b\n---\nbody", "a: b\n", "body", ""},
		{"space after the fence", "---  \na: b\n--- \nbody", "a: b\n", "body", ""},
		{"empty header", "---\n---\nbody", "", "body", ""},
		{"a rule in the body is no fence", "---\na: b\n---\nx\n\n---\n", "a: b\n", "x\n\n---\n", ""},
		{"only a header", "---\na: b\n---", "a: b\n", "", ""},
		{"no header", "# Title\n", "", "# Title\n", "the file does not start with a header"},
		{"empty file", "", "", "", "the file does not start with a header"},
		{"never closed", "---\na: b\n", "a: b\n", "", "the header is never closed"},
		{"only a fence", "---", "", "", "the header is never closed"},
	} {
		t.Run(c.name, func(t *testing.T) {
			file := &File{Text: c.text}
			header, body, faults := SplitHeader(file)
			if header.Text() != c.header {
				t.Errorf("header %q, want %q", header.Text(), c.header)
			}
			if got := strings.TrimLeft(string(body), " \r\n"); got != c.body {
				t.Errorf("body %q, want %q", got, c.body)
			}
			if len(body) != len(c.text) {
				t.Errorf("body has %d bytes, the file %d: offsets would shift", len(body), len(c.text))
			}
			var said string
			if len(faults) > 0 {
				said = faults[0].Message
			}
			if said != c.fault {
				t.Errorf("fault %q, want %q", said, c.fault)
			}
		})
	}
}

func TestNearest(t *testing.T) {
	for _, c := range []struct {
		name, word, want string
		known            []string
	}{
		{"one letter left out", "chamber-volme", "chamber-volume", []string{"chamber-volume", "chamber-valve"}},
		{"neighbours swapped", "raeder", "reader", []string{"title", "reader"}},
		{"capital", "Title", "title", []string{"title", "time"}},
		{"nothing near", "colour", "", []string{"title", "reader"}},
		{"short words need a close match", "x", "", []string{"ab", "cd"}},
		{"same distance: alphabet decides", "bat", "cat", []string{"hat", "cat"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := Nearest(c.word, c.known); got != c.want {
				t.Errorf("got %q, want %q", got, c.want)
			}
		})
	}
}

func TestQuoteShowsControlCharacters(t *testing.T) {
	if got := Quote("a\x1b[31mb\u202e"); strings.ContainsAny(got, "\x1b\u202e") {
		t.Errorf("%s would reach the terminal", got)
	}
	if got := Quote(strings.Repeat("ö", 500)); len([]rune(got)) > 70 {
		t.Errorf("a long word is not cut: %d characters", len([]rune(got)))
	}
}
