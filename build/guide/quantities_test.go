package guide

import (
	"fmt"
	"regexp"
	"strings"
	"testing"

	"blankoff/build/prose"
)

// findWith puts another finder in place until the test ends.
func findWith(t testing.TB, finder func(string) ([]prose.Mark, []prose.Doubt)) {
	before := find
	t.Cleanup(func() { find = before })
	find = finder
}

func findNothing(string) ([]prose.Mark, []prose.Doubt) { return nil, nil }

// findPlain puts a finder in place that knows only `12 mTorr` and doubts `7 in`, so that what is tested is where things
// stand and not what they are.
func findPlain(t *testing.T) {
	t.Helper()
	known, doubtful := regexp.MustCompile(`-?\d+[ °\x{a0}]?(mTorr|C)|± \d+ %`), regexp.MustCompile(`\d+ in`)
	findWith(t, func(text string) (marks []prose.Mark, doubts []prose.Doubt) {
		for _, at := range known.FindAllStringIndex(text, -1) {
			marks = append(marks, prose.Mark{From: at[0], To: at[1], Numbers: []prose.Number{{From: at[0], To: at[0] + 1}}})
		}
		for _, at := range doubtful.FindAllStringIndex(text, -1) {
			doubts = append(doubts, prose.Doubt{From: at[0], To: at[1], Message: "this may be a word", Hint: "write inch"})
		}
		return marks, doubts
	})
}

// TestPlacesOfQuantities writes what a reader sees and what stands in the file; they differ where Markdown has other ways.
func TestPlacesOfQuantities(t *testing.T) {
	findPlain(t)
	for _, c := range []struct{ name, text, want string }{
		{"alone", "200 mTorr", `"200 mTorr"="200 mTorr"`},
		{"two in a sentence", "from 200 mTorr to 20 mTorr.", `"200 mTorr"="200 mTorr" "20 mTorr"="20 mTorr"`},
		{"over a line break", "hold 200\nmTorr now", `"200 mTorr"="200\nmTorr"`},
		{"over a line break in a quote", "> hold 200\n> mTorr now", `"200 mTorr"="200\n> mTorr"`},
		{"at a line's end", "hold 200 mTorr\nnow", `"200 mTorr"="200 mTorr"`},
		{"before a hard break", "hold 200 mTorr\\\nnow", `"200 mTorr"="200 mTorr"`},
		{"a hard break parts", "hold 200\\\nmTorr now", ``},
		{"escaped", `hold \-34 mTorr now`, `"-34 mTorr"="\\-34 mTorr"`},
		{"an entity within", `at -34&deg;C, 20 mTorr`, `"-34°C"="-34&deg;C" "20 mTorr"="20 mTorr"`},
		{"a number for a character", `200&#160;mTorr`, `"200\u00a0mTorr"="200&#160;mTorr"`},
		{"an entity at the beginning", `about &plusmn; 10 %!`, `"± 10 %"="&plusmn; 10 %"`},
		{"an ampersand that is none", `A & B; 20 mTorr & C`, `"20 mTorr"="20 mTorr"`},
		{"emphasis", "hold *200 mTorr* and **20 mTorr**", `"200 mTorr"="200 mTorr" "20 mTorr"="20 mTorr"`},
		{"emphasis parts", "hold *200* mTorr", ``},
		{"a link's text", "see [20 mTorr](x.md)", `"20 mTorr"="20 mTorr"`},
		{"a heading", "## Below 20 mTorr", `"20 mTorr"="20 mTorr"`},
		{"a table", "| a | b |\n|---|---|\n| 20 mTorr | \\| 2 mTorr |", `"20 mTorr"="20 mTorr" "2 mTorr"="2 mTorr"`},
		{"a list", "- 20 mTorr\n- x", `"20 mTorr"="20 mTorr"`},
		{"a step", "## Steps\n\n1. Hold 20 mTorr.\n   - Expect: 30 mTorr.\n   - If not: 40 mTorr. [STOP: x](stop:y)", `"20 mTorr"="20 mTorr" in 1 "30 mTorr"="30 mTorr" in 1 "40 mTorr"="40 mTorr" in 1`},
		{"brackets that link nothing", "hold [20 mTorr] now", `"20 mTorr"="20 mTorr"`},
		{"a checked fact is left alone", "[20 mTorr](spec:a) and [*20 mTorr*](<calc:a?b=20 mTorr>)", ``},
		{"code", "`20 mTorr`\n\n    20 mTorr\n\n```\n20 mTorr\n```", ``},
		{"a calculator", "```calculator a\nb: 20 mTorr\n```", ``},
		{"HTML", "<b title=\"20 mTorr\">\n\na <i title=\"20 mTorr\"> b", ``},
		{"a picture", "![20 mTorr](x.svg) ![*20 mTorr*](x.svg)", ``},
		{"an address", "<https://example.org/20mTorr>", ``},
		{"a doubt", `it is 3&#x20;in wide`, `?"3&#x20;in" this may be a word = write inch`},
	} {
		t.Run(c.name, func(t *testing.T) {
			g, _ := parse(head + c.text + "\n")
			var got []string
			for _, q := range g.Quantities {
				said := fmt.Sprintf("%q=%q", q.Said, q.Span.Text())
				if q.Step != nil {
					said += fmt.Sprintf(" in %d", q.Step.Number)
				}
				got = append(got, said)
			}
			for _, d := range g.Doubts {
				got = append(got, fmt.Sprintf("?%q %s = %s", d.Span.Text(), d.Message, d.Hint))
			}
			if strings.Join(got, " ") != c.want {
				t.Errorf("\n got %s\nwant %s", strings.Join(got, " "), c.want)
			}
		})
	}
}

// TestTextStaysWhole: the pieces of a text that was cut say together what it said before, breaks and all.
func TestTextStaysWhole(t *testing.T) {
	for _, text := range []string{
		"hold 200 mTorr\nfor 10\nC and `x` 5 mTorr", "a 5 mTorr\\\nb", "\\-5 mTorr&nbsp;\n5 mTorr", "5 mTorr", "5\nmTorr\n5 mTorr",
		"## 5 mTorr a\n\n[5 mTorr](x.md) *a 5 mTorr b*\n\n|5 mTorr|b|\n|--|--|\n|x|a 5 mTorr b|",
	} {
		findWith(t, findNothing)
		whole, _ := parse(head + text)
		findPlain(t)
		cut, _ := parse(head + text)
		if a, b := plain(whole.Doc, whole.Source), plain(cut.Doc, cut.Source); a != b {
			t.Errorf("%q\n got %q\nwant %q", text, b, a)
		}
		if len(cut.Quantities) == 0 {
			t.Errorf("%q: no quantity was found", text)
		}
		for _, q := range cut.Quantities {
			if got := plain(q, cut.Source); got != strings.Join(strings.Fields(q.Said), " ") {
				t.Errorf("%q: the node holds %q, said is %q", text, got, q.Said)
			}
		}
	}
}

// TestNumbersAreCountedFromTheQuantity: the places of a mark are those in its own text.
func TestNumbersAreCountedFromTheQuantity(t *testing.T) {
	findPlain(t)
	g, _ := parse(head + "hold 200 mTorr and 30 mTorr")
	for i, want := range []string{"2", "3"} {
		q := g.Quantities[i]
		if n := q.Mark.Numbers[0]; q.Said[n.From:n.To] != want || q.Mark.To != len(q.Said) || q.Mark.From != 0 {
			t.Errorf("%q: %+v", q.Said, q.Mark)
		}
	}
}

// BenchmarkQuantities is what the search costs of reading a page: compare with the finder that finds nothing.
func BenchmarkQuantities(b *testing.B) {
	text := head + strings.Repeat("Hold the chamber below 200 mTorr for 30 min, then *close* the valve and wait.\nNothing else here.\n\n", 40)
	for name, finder := range map[string]func(string) ([]prose.Mark, []prose.Doubt){
		"with": prose.Find, "without": findNothing,
	} {
		b.Run(name, func(b *testing.B) {
			findWith(b, finder)
			b.SetBytes(int64(len(text)))
			for b.Loop() {
				parse(text)
			}
		})
	}
}
