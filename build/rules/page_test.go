package rules

import (
	"reflect"
	"strings"
	"testing"
)

const goodPage = "title: T\nfamily: steps\n---\nWords.\n-- bad pages/a.md --\nx\n-- good pages/a.md --\ny\n"

func TestParse(t *testing.T) {
	got, err := parse("n", goodPage)
	want := Rule{
		Name: "n", Title: "T", Family: "steps", Text: "Words.",
		Bad: []File{{"pages/a.md", "x\n"}}, Good: []File{{"pages/a.md", "y\n"}},
	}
	if err != nil || !reflect.DeepEqual(got, want) {
		t.Errorf("%+v, %v", got, err)
	}
}

func TestParseRefuses(t *testing.T) {
	for _, c := range []struct{ name, old, new, want string }{
		{"no line below the head", "---\n", "", "no line ---"},
		{"no title", "title: T\n", "", "title or its words are missing"},
		{"no words", "Words.\n", "", "title or its words are missing"},
		{"a key that nobody reads", "family:", "famly:", `no key "famly"`},
		{"an unknown family", "steps", "stops", `no family "stops"`},
		{"no good example", "-- good pages/a.md --\n", "", "example is missing"},
		{"a file that is neither", "-- good", "-- fair", `not "fair"`},
		{"unshown, without a reason", "family: steps", "shown: no", "write `shown: no, WHY`"},
		{"unshown, and shown", "family: steps", "shown: no, it is large", "and shows it"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if _, err := parse("n", strings.Replace(goodPage, c.old, c.new, 1)); err == nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("%v, want %q", err, c.want)
			}
		})
	}
}

func TestArchive(t *testing.T) {
	a := ParseArchive("about\n-- a.md --\none\n\n--  b.md  --\n-- no name\ntwo")
	want := Archive{"about\n", []File{{"a.md", "one\n\n"}, {"b.md", "-- no name\ntwo"}}}
	if !reflect.DeepEqual(a, want) {
		t.Errorf("%+v", a)
	}
}

func TestFindAndFamilies(t *testing.T) {
	if _, known := Find("no-such-rule"); known {
		t.Error("a rule was found that is not there")
	}
	listed := map[string]int{}
	for _, family := range Families() {
		for _, rule := range family.Rules {
			listed[rule.Name]++
		}
	}
	for _, name := range Names() {
		if rule, known := Find(name); !known || rule.Name != name || listed[name] != 1 {
			t.Errorf("%s: found %v, listed %d times", name, known, listed[name])
		}
	}
}

// FuzzArchive: what was taken apart can be put together again, and nothing is lost.
func FuzzArchive(f *testing.F) {
	f.Add(goodPage)
	f.Add("-- a --\n-- --\n")
	f.Fuzz(func(t *testing.T, text string) {
		a := ParseArchive(text)
		kept := len(a.Comment)
		for _, file := range a.Files {
			kept += len(file.Text)
		}
		if kept > len(text) || len(a.Files) == 0 && a.Comment != text {
			t.Errorf("%d bytes of %d", kept, len(text))
		}
		_, _ = parse("n", text)
	})
}
