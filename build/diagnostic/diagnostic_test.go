package diagnostic

import (
	"encoding/json"
	"strings"
	"testing"
	"unicode/utf8"

	"blankoff/build/source"
)

// marked makes a file and a span from a text in which « » mark the span.
func marked(text string) source.Span {
	start := strings.Index(text, "«")
	text = strings.Replace(text, "«", "", 1)
	end := strings.Index(text, "»")
	text = strings.Replace(text, "»", "", 1)
	file := &source.File{Name: "content/x.md", Text: text}
	return file.Span(start, end)
}

func TestText(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"the look of it", "\n\nstart: 30 «psig»\nend",
			"content/x.md:3:11: error: unknown unit [unit]\n    3 | start: 30 psig\n      |           ^~~~\n"},
		{"one letter", "a«b»c", "content/x.md:1:2: error: unknown unit [unit]\n    1 | abc\n      |  ^\n"},
		{"between letters", "a«»bc", "content/x.md:1:2: error: unknown unit [unit]\n    1 | abc\n      |  ^\n"},
		{"behind the last letter", "abc«»\nx", "content/x.md:1:4: error: unknown unit [unit]\n    1 | abc\n      |    ^\n"},
		{"letters of two and three bytes", "µΩ「«ü±»", "content/x.md:1:4: error: unknown unit [unit]\n    1 | µΩ「ü±\n      |     ^~\n"},
		{"tabs before and inside", "\tab\t«c\td»", "content/x.md:1:5: error: unknown unit [unit]\n    1 |     ab  c   d\n      |         ^~~~~\n"},
		{"more than one line: the first is shown", "a «b\nc» d", "content/x.md:1:3: error: unknown unit [unit]\n    1 | a b\n      |   ^\n"},
		{"windows line end", "a «b»\r\nc", "content/x.md:1:3: error: unknown unit [unit]\n    1 | a b\n      |   ^\n"},
		{"empty line: nothing to show", "a\n«»\nb", "content/x.md:2:1: error: unknown unit [unit]\n"},
		{"empty file", "«»", "content/x.md:1:1: error: unknown unit [unit]\n"},
		{"control characters cannot steer the terminal", "a\x1b[31m «b»", "content/x.md:1:8: error: unknown unit [unit]\n    1 | a·[31m b\n      |        ^\n"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := Text(NewError("unit", marked(c.text), "unknown unit", ""), Style{}); got != c.want {
				t.Errorf("got\n%swant\n%s", got, c.want)
			}
		})
	}
}

func TestTextWithHints(t *testing.T) {
	d := NewWarning("review", marked("«x»"), "old", "do this\nor that")
	want := "content/x.md:1:1: warning: old [review]\n    1 | x\n      | ^\n      = do this\n      = or that\n"
	if got := Text(d, Style{}); got != want {
		t.Errorf("got\n%swant\n%s", got, want)
	}
	if got := Text(Diagnostic{Message: "nowhere"}, Style{}); got != "error: nowhere\n" {
		t.Errorf("without a file: %q", got)
	}
}

func TestColourOnlyWhenAsked(t *testing.T) {
	d := NewError("unit", marked("ab «c»"), "unknown unit", "x")
	if got := Text(d, Style{}); strings.Contains(got, "\x1b") {
		t.Errorf("colour without being asked: %q", got)
	}
	want := "content/x.md:1:4: \x1b[1m\x1b[31merror:\x1b[0m \x1b[1munknown unit\x1b[0m \x1b[2m[unit]\x1b[0m\n    1 | ab c\n      |    \x1b[1m\x1b[31m^\x1b[0m\n      = x\n"
	if got := Text(d, Style{Colour: true}); got != want {
		t.Errorf("got %q\nwant %q", got, want)
	}
}

func TestLongLines(t *testing.T) {
	long := strings.Repeat("ü", 300)
	for _, c := range []struct{ name, text, want string }{
		{"at the start", "«ab»" + long, "    1 | ab" + strings.Repeat("ü", 27) + "…\n      | ^~\n"},
		{"in the middle", long + "«ab»" + long, "    1 | …" + strings.Repeat("ü", 13) + "ab" + strings.Repeat("ü", 13) + "…\n      |               ^~\n"},
		{"at the end", long + "«ab»", "    1 | …" + strings.Repeat("ü", 27) + "ab\n      |                             ^~\n"},
		{"longer than the window", "x«" + long + "»", "    1 | x" + strings.Repeat("ü", 28) + "…\n      |  ^" + strings.Repeat("~", 28) + "\n"},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := Text(NewError("r", marked(c.text), "m", ""), Style{Width: 30})
			_, got, _ = strings.Cut(got, "\n")
			if got != c.want {
				t.Errorf("got\n%swant\n%s", got, c.want)
			}
		})
	}
}

func TestSorted(t *testing.T) {
	a := &source.File{Name: "a.md", Text: "0123456789"}
	b := &source.File{Name: "b.md", Text: "0123456789"}
	in := []Diagnostic{
		NewError("r", b.Span(1, 2), "last", ""),
		NewWarning("r", a.Span(5, 6), "third", ""),
		NewError("r", a.Span(5, 6), "second", ""),
		NewError("r", a.Span(0, 1), "first", ""),
		NewError("r", a.Span(5, 6), "second", ""),
	}
	var got []string
	for _, d := range Sorted(in) {
		got = append(got, d.Message)
	}
	if want := "first second third last"; strings.Join(got, " ") != want {
		t.Errorf("got %v, want %s", got, want)
	}
	if in[0].Message != "last" {
		t.Error("the list that was given changed")
	}
	if faults, warnings := Count(Sorted(in)); faults != 3 || warnings != 1 {
		t.Errorf("%d errors, %d warnings; want 3 and 1", faults, warnings)
	}
}

func TestJSON(t *testing.T) {
	got := string(JSON([]Diagnostic{NewError("unit", marked("a\nü «<b\nc> d»"), "say \"<x>\"", "do"), {Message: "m", Severity: Warning}}))
	want := `[
{"file":"content/x.md","line":2,"column":3,"endLine":3,"endColumn":5,"severity":"error","rule":"unit","message":"say \"<x>\"","hint":"do"},
{"file":"","line":1,"column":1,"endLine":1,"endColumn":1,"severity":"warning","rule":"","message":"m"}
]
`
	if got != want {
		t.Errorf("got %s\nwant %s", got, want)
	}
	if none := string(JSON(nil)); none != "[]\n" {
		t.Errorf("no diagnostics: %q", none)
	}
}

// FuzzText: any span of any text can be written, in both forms.
func FuzzText(f *testing.F) {
	f.Add("a\tb\nc", 1, 3, 10)
	f.Add("\xff\xfe", 0, 9, 0)
	f.Fuzz(func(t *testing.T, text string, start, length, width int) {
		d := NewError("r", source.Span{File: &source.File{Name: text, Text: text}, Start: start, Len: max(length, 0) % 1000}, text, text)
		out := Text(d, Style{Width: width % 200})
		if !utf8.ValidString(out) {
			t.Errorf("not valid text: %q", out)
		}
		if strings.ContainsAny(out, "\x1b\r\x00") {
			t.Errorf("control characters get through: %q", out)
		}
		if !json.Valid(JSON([]Diagnostic{d})) {
			t.Error("not valid JSON")
		}
	})
}

func TestJSONShowsWhatIsNotSeen(t *testing.T) {
	d := NewError("file-name", source.Span{File: &source.File{Name: "a\u202eb\U000e0041ö.md"}}, "x", "")
	text := string(JSON([]Diagnostic{d}))
	if !strings.Contains(text, `"a\u202eb\udb40\udc41ö.md"`) {
		t.Error(text)
	}
	var list []record
	if err := json.Unmarshal([]byte(text), &list); err != nil || list[0].File != d.Span.File.Name {
		t.Errorf("%v: %+v", err, list)
	}
}
