package diagnostic

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/mattn/go-runewidth"

	"blankoff/build/source"
)

// TestColumns: where a terminal puts the caret. Widths are those of Unicode's East Asian Width (UAX 11): W and F take two
// columns, marks none. How a terminal draws several emoji as one is nobody's standard, so a joiner is shown.
func TestColumns(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"Chinese letters are two columns wide", "真空 «計»器", "    1 | 真空 計器\n      |      ^~\n"},
		{"Korean", "밸브«를» 닫다", "    1 | 밸브를 닫다\n      |     ^~\n"},
		{"Korean in parts (conjoining jamo)", "\u1106\u1161«x»", "    1 | \u1106\u1161x\n      |   ^\n"},
		{"full-width figures", "５０ «Pa»", "    1 | ５０ Pa\n      |      ^~\n"},
		{"half-width kana", "ｶ«ﾅ»", "    1 | ｶﾅ\n      |  ^\n"},
		{"marks stand over their letter", "e\u0301e\u0301«x»", "    1 | e\u0301e\u0301x\n      |   ^\n"},
		{"a mark alone is marked", "e«\u0301»x", "    1 | e\u0301x\n      |  ^\n"},
		{"emoji", "🔧 «x»", "    1 | 🔧 x\n      |    ^\n"},
		{"emoji with a tone of skin", "👍🏽«x»", "    1 | 👍🏽x\n      |   ^\n"},
		{"a flag", "🇩🇪«x»", "    1 | 🇩🇪x\n      |   ^\n"},
		{"emoji that are joined", "👩\u200d🔧«x»", "    1 | 👩<U+200D>🔧x\n      |             ^\n"},
		{"zero width", "a\u200bb«x»", "    1 | a<U+200B>bx\n      |           ^\n"},
		{"a mark of byte order", "\ufeff«x»", "    1 | <U+FEFF>x\n      |         ^\n"},
		{"a turn of the writing's direction", "a\u202e«cba»", "    1 | a<U+202E>cba\n      |          ^~~\n"},
		{"isolates", "\u2067x\u2069«y»", "    1 | <U+2067>x<U+2069>y\n      |                  ^\n"},
		{"letters that run from the right keep the order of the file", "לחץ «x»", "    1 | לחץ x\n      |     ^\n"},
		{"letters that look like nothing", "\u3164«x»", "    1 | <U+3164>x\n      |         ^\n"},
		{"tab behind wide letters", "真\t«x»", "    1 | 真  x\n      |     ^\n"},
		{"no-break space", "5\u00a0«Pa»", "    1 | 5\u00a0Pa\n      |   ^~\n"},
		{"a line separator inside a line", "a\u2028«b»", "    1 | a<U+2028>b\n      |          ^\n"},
		{"a letter under a heap of marks", "a" + strings.Repeat("\u0301", 40) + "«x»", "    1 | a" + strings.Repeat("\u0301", mostMarks) + "x\n      |  ^\n"},
		{"bytes that are no text", "a\xff\xfe«x»", "    1 | a··x\n      |    ^\n"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, got, _ := strings.Cut(Text(NewError("r", marked(c.text), "m", ""), Style{}), "\n")
			if got != c.want {
				t.Errorf("got\n%swant\n%s", got, c.want)
			}
		})
	}
}

func TestTheMessageCannotSteerTheTerminal(t *testing.T) {
	d := NewError("r\x1b", source.Span{File: &source.File{Name: "a\u202e.md", Text: "x"}}, "m\u2066\x07", "h\u200f")
	want := "a<U+202E>.md:1:1: error: m<U+2066>· [r·]\n    1 | x\n      | ^\n      = h<U+200F>\n"
	if got := Text(d, Style{}); got != want {
		t.Errorf("got %q\nwant %q", got, want)
	}
}

// TestLongWideLines: however a long line is cut, the caret stands below what is marked, and no line is wider than asked.
func TestLongWideLines(t *testing.T) {
	const mark = "计"
	for _, filler := range []string{"x", "真", "a真", "\t", "🔧b", "e\u0301"} {
		for before := range 60 {
			text := strings.Repeat(filler, before) + "«" + mark + "»" + strings.Repeat(filler, 50)
			_, out, _ := strings.Cut(Text(NewError("r", marked(text), "m", ""), Style{Width: 30}), "\n")
			line, caret, _ := strings.Cut(strings.TrimSuffix(out, "\n"), "\n")
			line, caret = line[len("    1 | "):], caret[len("      | "):]
			at := runewidth.StringWidth(line[:strings.Index(line, mark)])
			if got := strings.IndexByte(caret, '^'); got != at || !strings.HasSuffix(caret, "^~") {
				t.Errorf("%d of %q: the caret stands in column %d, the place in %d\n%s\n%s", before, filler, got, at, line, caret)
			}
			if w := runewidth.StringWidth(line); w > 30 {
				t.Errorf("%d of %q: %d columns", before, filler, w)
			}
		}
	}
}

// TestTheRulerCountsAsASpanDoes, in order and out of it.
func TestTheRulerCountsAsASpanDoes(t *testing.T) {
	a := &source.File{Name: "a", Text: "one\n\ntwo äöü\nthree\n"}
	b := &source.File{Name: "b", Text: "x"}
	var r ruler
	for _, span := range []source.Span{a.Span(0, 0), a.Span(2, 9), a.Span(7, 7), a.Span(12, 13), b.Span(1, 1), a.Span(3, 4), a.Span(20, 20), {}, a.Span(99, 99)} {
		if got, want := r.position(span), span.Position(); got != want {
			t.Errorf("%+v: %v, want %v", span, got, want)
		}
		if got, want := r.end(span), (source.Span{File: span.File, Start: span.End()}).Position(); got != want {
			t.Errorf("end of %+v: %v, want %v", span, got, want)
		}
	}
}

// thousand makes 1,200 diagnostics in 40 files, in an order that is none.
func thousand() []Diagnostic {
	var list []Diagnostic
	for f := range 40 {
		file := &source.File{Name: fmt.Sprintf("content/pages/p%02d.md", 39-f), Text: strings.Repeat("0123456789\n", 30)}
		for i := range 30 {
			at := (i * 7 % 30) * 11
			list = append(list, NewError("rule", file.Span(at, at+2), fmt.Sprintf("fault %d", i), "mend it"))
		}
	}
	return list
}

func TestAThousandErrorsAreAllTold(t *testing.T) {
	list := thousand()
	out := List(Sorted(list), Style{})
	if got := strings.Count(out, "error: fault "); got != 1200 {
		t.Errorf("%d of 1200 told", got)
	}
	var places []string
	for line := range strings.Lines(out) {
		if strings.HasPrefix(line, "content/") {
			name, at, _ := strings.Cut(line, ":")
			number, _, _ := strings.Cut(at, ":")
			places = append(places, fmt.Sprintf("%s:%03s", name, number))
		}
	}
	if !slices.IsSorted(places) {
		t.Error("they are not in the order of files and lines")
	}
	slices.Reverse(list)
	if again := List(Sorted(list), Style{}); again != out {
		t.Error("found in another order, they are told in another order")
	}
	if doubled := Sorted(append(list, list...)); len(doubled) != 1200 {
		t.Errorf("found twice, %d are told", len(doubled))
	}
	if !bytes.Equal(JSON(Sorted(list)), JSON(Sorted(thousand()))) {
		t.Error("found in another order, the JSON differs")
	}
}

// BenchmarkLongLine: a fault in a line of a megabyte costs what it shows.
func BenchmarkLongLine(b *testing.B) {
	d := NewError("r", marked(strings.Repeat("x ", 1<<18)+"«y»"+strings.Repeat(" x", 1<<18)), "m", "")
	for b.Loop() {
		Text(d, Style{})
	}
}

func BenchmarkThousand(b *testing.B) {
	list := Sorted(thousand())
	for b.Loop() {
		List(list, Style{})
	}
}
