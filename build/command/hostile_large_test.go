//go:build unix

package command

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
)

const (
	megabyte    = 1 << 20
	hostilePage = "pages/hostile.md"
	hostileHead = "---\ntitle: Hostile\nreader: technician\nmachines: [cindle-14]\n---\n"
	stepsHead   = "---\ntitle: Hostile\nreader: technician\ndoes: []\n---\n\n## Steps\n\n"
)

// filled repeats a text up to a size.
func filled(text string, size int) string { return strings.Repeat(text, size/len(text)) }

// lines are as many of a text, each with its number in place of %d.
func numbered(form string, n int) string {
	var b strings.Builder
	for i := range n {
		fmt.Fprintf(&b, form, i)
	}
	return b.String()
}

// almost is a little less than the largest text that is read.
const almost = megabyte/4 - 1000

// generated are the cases that are too large, or too odd, to be kept as files.
func generated() []hostileCase {
	cases := []hostileCase{
		{name: "names with dots", want: "file-name", files: map[string]string{"pages/..hostile..md": hostileHead, "pages/a..b.md": hostileHead}},
		{name: "file names from the right", want: "file-name", files: map[string]string{"pages/\u202edm.tset.md": hostileHead, "pages/a\u200bb.md": hostileHead}},
		{name: "links out of the folder", want: "file-link", prepare: linksOut},
		{name: "a pipe", want: "file-kind", prepare: pipe},
		{name: "a folder by the name of a page", want: "file-kind", prepare: func(t *testing.T, folder string) {
			must(t, os.MkdirAll(filepath.Join(folder, "pages", "hostile.md"), 0o777))
		}},
	}
	for _, c := range []struct{ name, want, text string }{
		{"not UTF-8", "encoding", hostileHead + "caf\xe9 \xc0\x80 \xed\xa0\x80 \xf4\x90\x80\x80"},
		{"NUL bytes", "encoding", hostileHead + filled("\x00", 1000)},
		{"NUL by its number", harmless, hostileHead + "a &#0; b &#x110000; c &#xD800; [d](https://example.org/&#0;)\n"},
		{"noise", "encoding", hostileHead + noise(almost)},
		{"too large", "file-size", hostileHead + filled("word ", 2*megabyte)},
		{"one long line", "long-line", hostileHead + filled("word ", almost)},
		{"nested quotes on one line", "depth", hostileHead + filled("> ", 9000) + "x\n"},
		{"nested lists on one line", "depth", hostileHead + filled("- ", 9000) + "x\n"},
		{"nested lists, line by line", "depth", hostileHead + staircase("- a\n", 400)},
		{"nested numbered lists", "depth", hostileHead + staircase("1. a\n", 300)},
		{"nested quotes, line by line", "depth", hostileHead + ladderOf(">", 600)},
		{"open brackets", "depth", hostileHead + filled(filled("[", 9000)+"\n\n", almost)},
		{"closed brackets", harmless, hostileHead + filled(filled("]", 9000)+"\n\n", almost)},
		{"brackets around brackets", "depth", hostileHead + filled(filled("[", 4000)+filled("]", 4000)+"\n\n", almost)},
		{"links in links", "link", hostileHead + filled("[a](b)", almost)[:9000] + "\n"},
		{"links without end", harmless, hostileHead + filled(filled("[a](<b", 9000)+"\n\n", almost)},
		{"pictures in pictures", "depth", hostileHead + filled(filled("![", 9000)+"\n\n", almost)},
		{"emphasis", harmless, hostileHead + filled(filled("*a _b ", 9000)+"\n\n", almost)},
		{"emphasis that closes", "depth", hostileHead + filled(filled("**a *b ", 4500)+filled("c* d** ", 4500)+"\n\n", almost)},
		{"one long paragraph", harmless, hostileHead + filled("word\n", almost)},
		{"one long paragraph of emphasis", harmless, hostileHead + filled("*a _b\n", almost)},
		{"one long paragraph of brackets", "depth", hostileHead + filled("[a\n", almost)},
		{"one long paragraph of code marks", harmless, hostileHead + codeMarks(almost)},
		{"code marks", harmless, hostileHead + filled(filled("`", 4500)+" "+filled("`", 4499)+"\n\n", almost)},
		{"less-than signs", harmless, hostileHead + filled(filled("<", 9000)+"\n\n", almost)},
		{"half a tag", harmless, hostileHead + filled("<a b='\n", almost)},
		{"half a comment", "raw-html", hostileHead + "x <!-- -->" + filled("a <!-- b\n", almost)},
		{"character references", harmless, hostileHead + filled(filled("&amp;&#65;&x", 9000)+"\n", almost)},
		{"backslashes", harmless, hostileHead + filled(filled("\\", 9000)+"\n", almost)},
		{"a wide table", harmless, hostileHead + wideTable(2000)},
		{"a table of 10,000 columns", "long-line", hostileHead + wideTable(10000)},
		{"a long table", harmless, hostileHead + "|a|b|\n|-|-|\n" + filled("|1|2|\n", almost)},
		{"tables upon tables", harmless, hostileHead + filled("|a|\n|-|\n|b|\n\n", almost)},
		{"link reference definitions", "depth", hostileHead + numbered("[a%d]: https://example.org/\n", 5000) + numbered("\n[a%d]\n", 5000)},
		{"definitions without an address", "depth", hostileHead + filled("[a]:\n", almost)},
		{"a heading of 100,000 characters", "long-line", hostileHead + "## " + filled("word ", 100000) + "\n"},
		{"a heading of 9,000 characters", harmless, hostileHead + "## " + filled("word ", 9000) + "\n"},
		{"headings of one name", harmless, hostileHead + filled("## a\n", almost)},
		{"headings of many names", harmless, hostileHead + numbered("## a%d\n", 20000)},
		{"10,000 steps", "step-expect", stepsHead + filled("1. a\n", 50000)},
		{"3,500 whole steps", harmless, wordySteps("Look.", 3500, "")},
		{"steps in steps", "step-expect", stepsHead + staircase("1. a\n", 18)},
		{"fences that never close", harmless, hostileHead + filled("```\na\n~~~\n", almost)},
		{"a listing of colours", harmless, hostileHead + "```go\n" + filled("if a := \"b\" /* c */ {}\n", 100000)},
		{"a listing that ties up its reader", harmless, hostileHead + "```html\n" + filled("<a <a <a ", 9000) + "\n```\n\n```python\n" + filled("(\"\"\"", 9000) + "\n```\n\n```log\n" + filled("1 OL x", 9000) + "\n"},
		{"a header of many keys", "yaml", "---\ntitle: Hostile\nreader: technician\n" + numbered("a%d: b\n", 20000) + "---\n"},
		{"a header of one key", "yaml", "---\ntitle: Hostile\nreader: technician\n" + filled("a: b\n", almost) + "---\n"},
		{"a header of brackets", "yaml", "---\ntitle: " + filled("[", almost) + "\n---\n"},
		{"a header of closed brackets", "yaml", "---\ntitle: " + filled("[]", almost) + "\n---\n"},
		{"a header of braces, line by line", "yaml", "---\ntitle:\n" + filled("- {a: [\n", 100000) + "---\n"},
		{"a header of marks", "yaml", "---\n" + filled("- ", 100000) + "\n---\n"},
		{"a header of questions", "yaml", "---\n" + filled("? ", 100000) + "\n---\n"},
		{"a header that goes down a staircase", "yaml", "---\n" + yamlStaircase(300) + "---\n"},
		{"a header of one long text", "yaml", "---\ntitle: Hostile\nreader: technician\ntools: [" + filled("a ", 200000) + "]\n---\n"},
		{"a header of long lists", "yaml", "---\ntitle: Hostile\nreader: technician\ntools: [" + filled("a, ", 200000) + "b]\n---\n"},
		{"a header of quotes", "yaml", "---\ntitle: " + filled("'\"", almost) + "\n---\n"},
		{"a title of 100,000 characters", "yaml", "---\ntitle: " + filled("word ", 100000) + "\nreader: technician\n---\n"},
		{"a header that never closes", "header", "---\n" + filled("a: b\n", almost)},
		{"numbers and spaces", harmless, hostileHead + filled(filled("1 ", 9000)+"\n\n", almost)},
		{"plus-minus signs", harmless, hostileHead + filled(filled("±", 9000)+"\n\n", almost)},
		{"fractions", harmless, hostileHead + filled(filled("1/", 9000)+"1\n\n", almost)},
		{"one number", harmless, hostileHead + filled(filled("1", 9000)+"\n\n", almost)},
		{"thousands", harmless, hostileHead + filled(filled("1,000,", 9000)+"000 mTorr\n\n", almost)},
		{"powers", harmless, hostileHead + filled(filled("1e", 9000)+"9 Pa\n\n", almost)},
		{"ranges", harmless, hostileHead + filled(filled("1–2…3 to ", 9000)+"4 Pa\n\n", almost)},
		{"units upon units", harmless, hostileHead + filled("1 "+filled("mbar·L/s/", 9000)+"\n\n", almost)},
		{"quantities without words", harmless, hostileHead + filled("350 mTorr ± 5 mTorr\n", almost)},
		{"many facts", harmless, hostileHead + filled("[350 mTorr](spec:ready-limit) ", 300000/10)[:9000-9000%30] + "\n"},
		{"false facts", "fact", hostileHead + strings.Repeat("[351 mTorr](spec:ready-limit)\n", 8000)},
		{"facts with long numbers", "fact", hostileHead + strings.Repeat("["+filled("9", 4000)+" mTorr](spec:ready-limit)\n", 60)},
		{"facts that are long ranges", "fact", hostileHead + strings.Repeat("["+filled("1 to ", 4000)+"2 mTorr](spec:ready-limit)\n", 60)},
		{"facts with many marks", "fact", hostileHead + strings.Repeat("["+filled("1 ± ", 4000)+"2 mTorr](spec:ready-limit)\n", 60)},
		{"a calculation of 10,000 inputs", "long-line", hostileHead + "[1 L](<calc:rise-test?" + numbered("&a%d=1 L", 10000) + ">)\n"},
		{"a calculation of many inputs", "unknown-input", hostileHead + "[1 L](<calc:rise-test?" + numbered("&a%d=1 L", 900) + ">)\n"},
		{"inputs of one name", "duplicate-key", hostileHead + "[1 L](<calc:rise-test?" + filled("&volume=1 L", 9900) + ">)\n"},
		{"many calculations", "calc", hostileHead + strings.Repeat("[1 L](<calc:rise-test?volume=24 L>)\n", 6000)},
		{"a calculation of a long number", "calc", hostileHead + "[1 L](<calc:rise-test?volume=" + filled("9", 9000) + " L>)\n"},
		{"a preset of one long line", "long-line", hostileHead + "```calculator rise-test\nvolume: " + filled("9", almost) + " L\n```\n"},
		{"a preset of many lines", "preset", hostileHead + "```calculator rise-test\nvolume: |\n" + filled("  9 L\n", almost) + "```\n"},
		{"a preset of many keys", "yaml", hostileHead + "```calculator rise-test\n" + numbered("a%d: 1 L\n", 20000) + "```\n"},
		{"a log of 20,000 rows", harmless, hostileHead + "```calculator rise-log\nvolume: 24 L\nlog: |\n  time min,pressure mTorr\n" + numbered("  %d,100\n", 20000) + "```\n"},
		{"a log of 2,000 rows", harmless, hostileHead + "```calculator rise-log\nvolume: 24 L\nlog: |\n  time min,pressure mTorr\n" + numbered("  %d,100\n", 2000) + "```\n"},
		{"calculators by the thousand", harmless, hostileHead + strings.Repeat("```calculator pressure\nvalue: 20 mTorr\n```\n\n", 1000)},
		{"calculators that do not exist", "unknown-calculator", hostileHead + numbered("```calculator a%d\n```\n\n", 10000)},
		{"links to pages that do not exist", "link", hostileHead + numbered("[a](b%d.md)\n", 15000)},
		{"anchors that do not exist", "anchor", hostileHead + strings.Repeat("[b](#c)\n", 12000) + numbered("\n## a%d\n", 5000)},
		{"pictures that do not exist", "picture", hostileHead + strings.Repeat("![a](../pictures/b.svg)\n", 10000)},
		{"hazards by the thousand", harmless, hostileHead + strings.Repeat("[WARNING: pane](hazard:pane)\n\n", 8000)},
		{"hazards that do not exist", "unknown-hazard", hostileHead + strings.Repeat("[WARNING: pane](hazard:pain)\n\n", 8000)},
		{"a hazard in each word", "hazard-place", hostileHead + strings.Repeat("a [WARNING: pane](hazard:pane)\n", 8000)},
		{"raw HTML by the thousand", "raw-html", hostileHead + strings.Repeat("a <b>\n", 40000)},
		{"automatic links", harmless, hostileHead + strings.Repeat("<https://example.org/a>\n", 10000)},
		{"letters that combine", harmless, hostileHead + filled("a"+filled("\u0301", 8000)+"\n\n", almost)},
		{"empty paragraphs", harmless, hostileHead + filled("\n", almost)},
		{"spaces", harmless, hostileHead + filled(filled(" ", 9000)+"\n", almost)},
		{"tabulators", harmless, hostileHead + filled(filled("\t", 9000)+"x\n", almost)},
		{"rules", harmless, hostileHead + filled("* * *\n", almost)},
		{"bullets", harmless, hostileHead + filled("- a\n", almost)},
		{"bullets that alternate", harmless, hostileHead + filled("- a\n+ b\n", almost)},
	} {
		cases = append(cases, hostileCase{name: c.name, want: c.want, files: map[string]string{hostilePage: c.text}})
		if strings.Contains(c.text, "\ndoes: []\n") { // of procedures
			cases[len(cases)-1].files = map[string]string{"procedures/hostile.md": c.text}
		}
	}
	return append(cases, largeMachines()...)
}

func largeMachines() []hostileCase {
	const head = "title: Hostile\nsummary: Small.\nvalues:\n"
	var cases []hostileCase
	for _, c := range []struct{ name, want, text string }{
		{"a machine of many values", "yaml", head + numbered("  v%d: 1 L\n", 15000)},
		{"a machine of one value", "yaml", head + filled("  v: 1 L\n", almost)},
		{"a machine of bad names", "yaml", head + numbered("  V%d: 1 L\n", 15000)},
		{"a value of 250,000 digits", "yaml", head + "  v: " + filled("9", 250000) + " L\n"},
		{"a value that is folded over lines", harmless, head + "  v: >\n" + filled("    9\n", 250000)},
		{"a machine of comments", harmless, head + "  v: 1 L\n" + filled("# a\n", 250000)},
		{"a machine that goes down a staircase", "yaml", yamlStaircase(300)},
	} {
		cases = append(cases, hostileCase{name: c.name, want: c.want, files: map[string]string{"machines/hostile.yaml": c.text}})
	}
	return append(cases,
		hostileCase{name: "a drawing of a million groups", want: "picture-unsafe", files: map[string]string{"pictures/a.svg": "<svg xmlns='http://www.w3.org/2000/svg'>" + strings.Repeat("<g>", megabyte)}},
		hostileCase{name: "a drawing of attributes", want: harmless, files: map[string]string{"pictures/a.svg": "<svg xmlns='http://www.w3.org/2000/svg'" + numbered(" a%d=''", 200000) + "/>"}},
		hostileCase{name: "a picture that is too large", want: "file-size", files: map[string]string{"pictures/a.png": "\x89PNG\r\n\x1a\n" + filled("a", 5*megabyte)}},
		hostileCase{name: "a thousand pages of one title", want: "duplicate-title", files: manyPages(1000)},
	)
}

func manyPages(n int) map[string]string {
	files := map[string]string{}
	for i := range n {
		files[fmt.Sprintf("pages/p%d.md", i)] = "---\ntitle: One\nreader: shop\n---\n[a](none.md)\n"
	}
	return files
}

// staircase indents each line deeper than the one above.
func staircase(line string, n int) string {
	var b strings.Builder
	indent := strings.Repeat(" ", strings.Index(line, " ")+1)
	for i := range n {
		b.WriteString(strings.Repeat(indent, i) + line)
	}
	return b.String()
}

func yamlStaircase(n int) string {
	var b strings.Builder
	for i := range n {
		b.WriteString(strings.Repeat(" ", i) + "a:\n")
	}
	return b.String()
}

// ladderOf gives each line one mark more than the one above.
func ladderOf(mark string, n int) string {
	var b strings.Builder
	for i := range n {
		b.WriteString(strings.Repeat(mark, i) + " a\n")
	}
	return b.String()
}

// codeMarks are runs of code marks, each of another length, so that none closes another.
func codeMarks(size int) string {
	var b strings.Builder
	for i := 1; b.Len() < size; i++ {
		b.WriteString(strings.Repeat("`", 1+i%1000) + "a\n")
	}
	return b.String()[:size]
}

func wideTable(columns int) string {
	return filled("|a", 2*columns) + "|\n" + filled("|-", 2*columns) + "|\n" + strings.Repeat(filled("|b", 2*columns)+"|\n", 10)
}

// noise is the same on each run.
func noise(size int) string {
	random := rand.New(rand.NewPCG(1, 2))
	text := make([]byte, size)
	for i := range text {
		text[i] = byte(random.Uint32())
	}
	return string(text)
}

// linksOut puts symbolic links where pages, machines and whole folders belong.
func linksOut(t *testing.T, folder string) {
	outside := filepath.Join(t.TempDir(), "secret.md")
	must(t, errors.Join(
		os.WriteFile(outside, []byte(hostileHead), 0o666),
		os.MkdirAll(filepath.Join(folder, "pages"), 0o777),
		os.Symlink(outside, filepath.Join(folder, "pages", "hostile.md")),
		os.Symlink("/dev/zero", filepath.Join(folder, "pages", "endless.md")),
		os.Symlink("self.yaml", filepath.Join(folder, "machines", "self.yaml")),
		os.Symlink(filepath.Dir(outside), filepath.Join(folder, "symptoms")),
	))
}

func pipe(t *testing.T, folder string) {
	must(t, errors.Join(os.MkdirAll(filepath.Join(folder, "pages"), 0o777), syscall.Mkfifo(filepath.Join(folder, "pages", "hostile.md"), 0o666)))
}

func must(t *testing.T, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}
