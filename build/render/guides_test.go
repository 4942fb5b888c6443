package render_test

import (
	"bytes"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"golang.org/x/net/html"
	"golang.org/x/net/html/atom"

	"blankoff/build/load"
	"blankoff/build/render"
)

// publishedPage gives the tree of pages/x.md as a browser reads it (the HTML standard's parser, golang.org/x/net/html).
func publishedPage(t *testing.T, body string) *html.Node {
	t.Helper()
	library, _, err := load.Load(fstest.MapFS{
		"shop.yaml":    {Data: []byte("name: Bench\naltitude: 430 m\nsummary: We repair.\n")},
		"hazards.yaml": {Data: []byte("hazards:\n  cold: {word: CAUTION, title: Cold burn, harm: Skin sticks., avoid: Dry gloves.}\nacts: {}\n")},
		"pages/x.md":   {Data: []byte("---\ntitle: X\nreader: shop\n---\n" + body)},
	}, "content")
	if err != nil {
		t.Fatal(err)
	}
	files, err := render.Pages(library, render.Assets{})
	if err != nil {
		t.Fatal(err)
	}
	i := slices.IndexFunc(files, func(f render.File) bool { return f.Path == "pages/x/index.html" })
	tree, err := html.Parse(bytes.NewReader(files[i].Bytes))
	if err != nil {
		t.Fatal(err)
	}
	return tree
}

// TestAnOpeningIsOneParagraph: what no paragraph can hold stands behind it, and nothing is lost.
func TestAnOpeningIsOneParagraph(t *testing.T) {
	for _, c := range []struct{ name, body, summary, behind string }{
		{"text alone", "One *word*.\n\nTwo.\n", "One word. Two.", ""},
		{"a list", "One.\n\n- a\n- b\n\nTwo.\n", "One.", "a b Two."},
		{"only a table", "|a|\n|-|\n|b|\n", "", "a b"},
		{"a hazard", "One.\n\n[CAUTION: cold](hazard:cold)\n", "One.", "CAUTIONCold burn. Skin sticks.Dry gloves."},
	} {
		t.Run(c.name, func(t *testing.T) {
			main := first(publishedPage(t, c.body), func(n *html.Node) bool { return n.DataAtom == atom.Main })
			var summary, behind []string
			for n := range main.ChildNodes() {
				switch {
				case n.Type != html.ElementNode, n.DataAtom == atom.H1, class(n) == "facts", class(n) == "hazards", class(n) == "hand", class(n) == "foot":
				case class(n) == "summary":
					summary = append(summary, words(n))
				default:
					behind = append(behind, words(n))
				}
			}
			if got := strings.Join(summary, " / "); got != c.summary {
				t.Errorf("the summary is %q, not %q", got, c.summary)
			}
			if got := strings.Join(behind, " "); got != c.behind {
				t.Errorf("behind it stands %q, not %q", got, c.behind)
			}
		})
	}
}

// TestADangerousLinkLeadsNowhere: verification refuses these; should one slip through, the page must not carry it.
func TestADangerousLinkLeadsNowhere(t *testing.T) {
	for _, target := range []string{
		"javascript:alert(1)", "JaVaScRiPt:alert(1)", "java&#115;cript:alert(1)", "javascript&colon;alert(1)", "java\\script:alert(1)",
		"&#x6A;avascript:alert(1)", "vbscript:x", "data:text/html;base64,PHNjcmlwdD4=", "file:///etc/passwd",
	} {
		tree := publishedPage(t, "## A\n\n[x](<"+target+">)\n")
		link := first(tree, func(n *html.Node) bool { return n.DataAtom == atom.A && words(n) == "x" })
		if link == nil {
			t.Errorf("%s: no link at all", target)
			continue
		}
		for _, a := range link.Attr {
			scheme, _, has := strings.Cut(a.Val, ":")
			if a.Key == "href" && has && !strings.ContainsAny(scheme, "/%\\") {
				t.Errorf("%s leads to %s", target, a.Val)
			}
		}
	}
}

func first(tree *html.Node, is func(*html.Node) bool) *html.Node {
	for n := range tree.Descendants() {
		if is(n) {
			return n
		}
	}
	return nil
}

func class(n *html.Node) string {
	for _, a := range n.Attr {
		if a.Key == "class" {
			return a.Val
		}
	}
	return ""
}

// words is the text of a tree on one line.
func words(tree *html.Node) string {
	var all strings.Builder
	for n := range tree.Descendants() {
		if n.Type == html.TextNode {
			all.WriteString(n.Data)
		}
	}
	return strings.Join(strings.Fields(all.String()), " ")
}
