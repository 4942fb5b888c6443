package source

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func parse(text string) (*Mapping, []Fault, *File) {
	file := &File{Name: "x.yaml", Text: text}
	mapping, faults := ParseMapping(file, file.Span(0, len(text)))
	return mapping, faults, file
}

const sample = `
# a comment ü
title: Chämber  rise # hi
machines: [cindle-14, "tör\"rask", 'it''s']
values:
  volume: 24.0 L ± 1.0 L
  note: |
    abc
    def
  fold: a b
    c d
  empty:
  figure: 0.50
  day: 2027-06-01
list:
  - one
  - two: 2
    three: 3
'q k': {a: 1, b: }
`

func TestMappingValues(t *testing.T) {
	for _, ends := range []string{"\n", "\r\n", " \n"} {
		mapping, faults, _ := parse(strings.ReplaceAll(sample, "\n", ends))
		if len(faults) > 0 {
			t.Fatal(faults)
		}
		want := `title="Chämber  rise" machines=["cindle-14" "tör\"rask" "it's"] values={volume="24.0 L ± 1.0 L" note="abc\ndef" fold="a b c d" empty= figure="0.50" day="2027-06-01"} list=["one" {two="2" three="3"}] q k={a="1" b=}`
		if got := show(Value{Shape: Nested, Map: mapping}); got != "{"+want+"}" {
			t.Errorf("line ends %q:\n got %s\nwant {%s}", ends, got, want)
		}
	}
}

func show(v Value) string {
	var parts []string
	switch v.Shape {
	case Text:
		return fmt.Sprintf("%q", v.Text)
	case List:
		for _, item := range v.Items {
			parts = append(parts, show(item))
		}
		return "[" + strings.Join(parts, " ") + "]"
	case Nested:
		for _, e := range v.Map.Entries {
			parts = append(parts, e.Key+"="+show(e.Value))
		}
		return "{" + strings.Join(parts, " ") + "}"
	}
	return ""
}

// TestMappingPlaces reads every place back from the text.
func TestMappingPlaces(t *testing.T) {
	for _, ends := range []string{"\n", "\r\n", " \n"} {
		mapping, _, _ := parse(strings.ReplaceAll(sample, "\n", ends))
		values, _ := mapping.Find("values")
		machines := mapping.Text("machines").Items
		quoted, _ := mapping.Find("q k")
		list := mapping.Text("list").Items
		for _, c := range []struct {
			name, want string
			span       Span
		}{
			{"key", "title", mapping.Entries[0].KeySpan},
			{"text before a comment", "Chämber  rise", mapping.Text("title").Span},
			{"plain item", "cindle-14", machines[0].Span},
			{"item in double quotes", `"tör\"rask"`, machines[1].Span},
			{"item in single quotes", `'it''s'`, machines[2].Span},
			{"nested key", "volume", values.Value.Map.Entries[0].KeySpan},
			{"nested text", "24.0 L ± 1.0 L", values.Value.Map.Text("volume").Span},
			{"block of lines: its mark", "|", values.Value.Map.Text("note").Span},
			{"folded text: its first line", "a b", values.Value.Map.Text("fold").Span},
			{"nothing: its key", "empty", values.Value.Map.Text("empty").Span},
			{"key in quotes", "'q k'", quoted.KeySpan},
			{"key in braces", "a", quoted.Value.Map.Entries[0].KeySpan},
			{"item of a list", "one", list[0].Span},
			{"mapping in a list", "three", list[1].Map.Entries[1].KeySpan},
		} {
			if got := c.span.Text(); got != c.want {
				t.Errorf("line ends %q, %s: %q, want %q", ends, c.name, got, c.want)
			}
		}
	}
}

// TestHeaderPlaces is the promise of SplitHeader: no shift between header and file.
func TestHeaderPlaces(t *testing.T) {
	file := &File{Text: "\ufeff---\ntitle: ä\nreader: shop\n---\ntext"}
	header, _, _ := SplitHeader(file)
	mapping, _ := ParseMapping(file, header)
	if got := mapping.Text("reader").Span; got.Text() != "shop" || got.Position() != (Position{3, 9}) {
		t.Errorf("%q at %v, want shop at 3:9", got.Text(), got.Position())
	}
}

func TestYAMLFaults(t *testing.T) {
	for _, c := range []struct {
		name, text, want string // want: line:column: message = hint
	}{
		{"colon in a text", "a: b: c", "1:4: this YAML cannot be read: mapping value is not allowed in this context = put the text in quotes when it holds a colon and a space"},
		{"tab", "a:\n\tb: 1", "2:1: this YAML cannot be read: found character '·' that cannot start any token = indent with spaces, not tabs"},
		{"open list", "x: y\na: [1, 2", "2:4: this YAML cannot be read: sequence end token ']' not found = close the list with ]"},
		{"open quote", "a: 'x", "1:4: this YAML cannot be read: could not find end character of single-quoted text = close the quote on the same line"},
		{"no mapping", "- a\n- b", "1:1: a list of `key: value` lines is expected here = write `key: value`, one a line"},
		{"only a text", "hello", "1:1: a list of `key: value` lines is expected here = write `key: value`, one a line"},
		{"written twice", "ä: 1\nb: 2\nä: 3", "3:1: the key \"ä\" is written twice = the first is in line 1; keep one"},
		{"anchor", "a: &x 1", "1:4: a value cannot be shared by & and * = write the value where it belongs"},
		{"alias", "a: *x", "1:4: a value cannot be shared by & and * = write the value where it belongs"},
		{"merge", "<<: {a: 1}", "1:1: a value cannot be shared by & and * = write the value where it belongs"},
		{"tag", "a: !!str 1", "1:4: a value cannot have a ! tag = write the value alone; quote it when it must stay a text"},
		{"two documents", "a: 1\n---\nb: 2", "3:2: a second YAML document starts here = keep one document in a file, without --- or % lines inside"},
		{"deep brackets", "a: " + strings.Repeat("[", 100000), "1:68: too many open brackets = close the brackets; keep to three levels"},
		{"deep list", "a:\n" + strings.Repeat("- ", 100000), "2:1: too many list marks on one line = start one list item on a line"},
		{"many keys", "a:\n" + strings.Repeat("  b: c\n", 6000), "5002:3: this mapping has more than 5000 keys = keep data short, and split them into several files"},
		{"many missing values", "a:\n" + strings.Repeat("-\n", 2000), "1002:1: more than 1000 values are missing up to here = write the values, or take the keys out"},
		{"many keys alone", "a: {" + strings.Repeat("b,\n ", 2000) + "c}", "1001:2: more than 1000 values are missing up to here = write the values, or take the keys out"},
		{"many documents", strings.Repeat("--- a\n", 200), "101:1: one more YAML document starts here = keep one document in a file, without --- or % lines inside"},
		{"a long line", "a: b\nc: " + strings.Repeat("d", 10000), "2:1: this line has 10003 bytes; 10000 is the most = write a list one item a line, a long text below `>`"},
		{"too large", "a: |\n" + strings.Repeat("  b\n", 70000), "1:1: this YAML has 280005 bytes; 262144 is the most = keep data short, and long texts in pages"},
		{"nested lists", "a: " + strings.Repeat("[", 30) + strings.Repeat("]", 30), "1:20: the values are nested too deeply = keep to three levels"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, faults, _ := parse(c.text)
			if len(faults) == 0 {
				t.Fatal("no fault")
			}
			at := faults[0].Span.Position()
			if got := fmt.Sprintf("%d:%d: %s = %s", at.Line, at.Column, faults[0].Message, faults[0].Hint); got != c.want {
				t.Errorf("\n got %s\nwant %s", got, c.want)
			}
		})
	}
}

func TestMappingFaults(t *testing.T) {
	fields := []Field{{Key: "title", Shape: Text, Required: true}, {Key: "machines", Shape: List}, {Key: "values", Shape: Nested}}
	for _, c := range []struct{ name, text, want string }{
		{"fine", "title: x\nmachines: [a]\nvalues: {b: c}", ""},
		{"empty where nothing is needed", "title: x\nmachines:", ""},
		{"near miss", "titel: x\ntitle: x", `1:1: the header has no key "titel" = did you mean title?`},
		{"far miss", "colour: x\ntitle: x", `1:1: the header has no key "colour" = known: machines, title, values`},
		{"missing", "machines: [a]", "1:1: the header needs the key title = add a line `title: …`"},
		{"empty", "machines: [a]\ntitle:", "2:1: the header has the key title, but nothing behind it = write what it holds behind the colon: `title: …`"},
		{"text for a list", "title: x\nmachines: a", "2:11: machines of the header holds a text, not a list = write it as `machines: [one, two]`"},
		{"text for a mapping", "title: x\nvalues: a", "2:9: values of the header holds a text, not a mapping = write it as `values:` with indented `name: value` lines below it"},
		{"list for a text", "title: [x]", "1:8: title of the header holds a list, not a text = write it as `title: text`"},
	} {
		t.Run(c.name, func(t *testing.T) {
			mapping, _, _ := parse(c.text)
			var got string
			for _, f := range mapping.Faults("the header", fields) {
				at := f.Span.Position()
				got += fmt.Sprintf("%d:%d: %s = %s", at.Line, at.Column, f.Message, f.Hint)
			}
			if got != c.want {
				t.Errorf("\n got %s\nwant %s", got, c.want)
			}
		})
	}
}

// seeds adds the real content to a fuzz target.
func seeds(f *testing.F, pattern string) {
	names, _ := filepath.Glob("../../content/" + pattern)
	for _, name := range names {
		text, err := os.ReadFile(name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(string(text))
	}
}

func FuzzSplitHeader(f *testing.F) {
	for _, s := range []string{"", "---", "---\na: b\n---\nx", "\ufeff---\n---", "---\r\n---\r\nx"} {
		f.Add(s)
	}
	seeds(f, "*/*.md")
	f.Fuzz(func(t *testing.T, text string) {
		file := &File{Text: text}
		header, body, _ := SplitHeader(file)
		if len(body) != len(text) {
			t.Fatalf("the body has %d bytes, the file %d", len(body), len(text))
		}
		for i := range body { // every byte of the body is the file's own, or blank
			if body[i] != text[i] && body[i] != ' ' {
				t.Fatalf("byte %d: %q for %q", i, body[i], text[i])
			}
		}
		_ = header.Text()
	})
}

func FuzzParseMapping(f *testing.F) {
	for _, s := range []string{sample, "a: b", "a: [", "*a", "? x\n: y", "a: &x 1\nb: *x", "- - - a", "\"", "a: |\n  x\n y"} {
		f.Add(s)
	}
	seeds(f, "*.yaml")
	seeds(f, "*/*.yaml")
	f.Fuzz(func(t *testing.T, text string) {
		mapping, faults, file := parse(text)
		for _, e := range mapping.Entries {
			if inside(file, e.KeySpan); e.Key == "" {
				t.Fatal("an empty key")
			}
			insideAll(t, file, e.Value)
		}
		for _, fault := range faults {
			if fault.Message == "" || !inside(file, fault.Span) {
				t.Fatalf("fault %+v is outside the text", fault)
			}
		}
	})
}

func inside(file *File, s Span) bool {
	return s.Start >= 0 && s.Len >= 0 && s.End() <= len(file.Text)
}

func insideAll(t *testing.T, file *File, v Value) {
	if !inside(file, v.Span) {
		t.Fatalf("%q is outside the text", v.Text)
	}
	for _, item := range v.Items {
		insideAll(t, file, item)
	}
	if v.Map != nil {
		for _, e := range v.Map.Entries {
			insideAll(t, file, e.Value)
		}
	}
}

// What the bounds leave must be read in full: lists and mappings of the size that a fault model has.
func TestLargeMapping(t *testing.T) {
	var text strings.Builder
	for i := range 4000 {
		fmt.Fprintf(&text, "fault-%d: {prior: 0.1, seen: [one, two], ü: \"ö\"}\n", i)
	}
	text.WriteString("words: [" + strings.Repeat("word,\n  ", 5000) + "last]\nempty:\n")
	mapping, faults, _ := parse(text.String())
	if len(faults) > 0 || len(mapping.Entries) != 4002 {
		t.Fatalf("%d entries, %v", len(mapping.Entries), faults)
	}
	if words := mapping.Text("words").Items; len(words) != 5001 || words[5000].Span.Text() != "last" {
		t.Errorf("%d words", len(words))
	}
	if last := mapping.Entries[3999].Value.Map.Text("ü"); last.Span.Text() != "\"ö\"" || last.Text != "ö" {
		t.Errorf("%q is at %q", last.Text, last.Span.Text())
	}
}
