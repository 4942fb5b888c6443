package guide_test

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"golang.org/x/net/html"
	"golang.org/x/net/html/atom"

	"blankoff/build/load"
	"blankoff/build/render"
)

// pageText makes an example the first section of a page.
func pageText(e example) string {
	return fmt.Sprintf("---\ntitle: Example %d\nreader: shop\n---\n\n## Example\n\n%s", e.number, e.markdown)
}

// pagesOf publishes a page for each example and gives the outline of its text.
func pagesOf(t *testing.T, all []example) map[int]string {
	t.Helper()
	content := fstest.MapFS{
		"shop.yaml":    {Data: []byte("name: Bench\naltitude: 430 m\nsummary: We repair freeze dryers.\n")},
		"hazards.yaml": {Data: []byte("hazards: {}\nacts: {}\n")},
	}
	for _, e := range all {
		content[fmt.Sprintf("pages/example-%d.md", e.number)] = &fstest.MapFile{Data: []byte(pageText(e))}
	}
	library, _, err := load.Load(content, "content")
	if err != nil {
		t.Fatal(err)
	}
	files, err := render.Pages(library, render.Assets{})
	if err != nil {
		t.Fatal(err)
	}
	outlines := map[int]string{}
	for _, file := range files {
		var number int
		if n, _ := fmt.Sscanf(file.Path, "pages/example-%d/", &number); n == 1 {
			outlines[number] = textOf(t, file.Bytes)
		}
	}
	if len(outlines) != len(all) {
		t.Fatalf("%d pages for %d examples", len(outlines), len(all))
	}
	return outlines
}

// textOf is the outline of what the page holds below its first heading: the sections, taken out of their frames.
func textOf(t *testing.T, page []byte) string {
	t.Helper()
	tree, err := html.Parse(bytes.NewReader(page))
	if err != nil {
		t.Fatal(err)
	}
	var out strings.Builder
	for n := range tree.Descendants() {
		if n.DataAtom != atom.Section || attribute(n, "class") != "part" {
			continue
		}
		for child := range n.ChildNodes() {
			first := out.Len() == 0 && child.DataAtom == atom.H2 && attribute(n, "id") == "example"
			if !first || child != n.FirstChild {
				outline(&out, child, false)
			}
		}
	}
	return out.String()
}

func outlineOf(t *testing.T, text string) string {
	t.Helper()
	nodes, err := html.ParseFragment(strings.NewReader(text), &html.Node{Type: html.ElementNode, Data: "section", DataAtom: atom.Section})
	if err != nil {
		t.Fatal(err)
	}
	var out strings.Builder
	for _, n := range nodes {
		outline(&out, n, false)
	}
	return out.String()
}

// outline writes a tree with what a page adds by design taken away: the names of headings, the frame and the colours of a
// listing, the elements around quantities, the spaces that bind a number to its unit.
func outline(out *strings.Builder, n *html.Node, listing bool) {
	switch {
	case n.Type == html.TextNode:
		if !betweenBlocks(n) {
			out.WriteString(strings.ReplaceAll(n.Data, "\u00a0", " "))
		}
		return
	case n.Type == html.CommentNode:
		out.WriteString("<!--" + n.Data + "-->")
		return
	case n.DataAtom == atom.Data && slices.Contains(strings.Fields(attribute(n, "class")), "q"), listing && n.DataAtom == atom.Span:
		inside(out, n, listing)
		return
	}
	out.WriteString("<" + n.Data)
	for _, a := range sortedAttributes(n) {
		fmt.Fprintf(out, " %s=%q", a.Key, a.Val)
	}
	out.WriteString(">")
	inside(out, n, listing || n.DataAtom == atom.Pre)
	out.WriteString("</" + n.Data + ">")
}

func inside(out *strings.Builder, n *html.Node, listing bool) {
	for child := range n.ChildNodes() {
		outline(out, child, listing)
	}
}

// betweenBlocks tells the line ends that stand between elements for those who read the source.
func betweenBlocks(n *html.Node) bool {
	if strings.Trim(n.Data, "\n") != "" {
		return false
	}
	if n.Parent == nil {
		return true
	}
	switch n.Parent.DataAtom {
	case atom.Section, atom.Blockquote, atom.Ul, atom.Ol, atom.Li, atom.Table, atom.Thead, atom.Tbody, atom.Tr:
		return true
	}
	return false
}

func sortedAttributes(n *html.Node) []html.Attribute {
	kept := slices.DeleteFunc(slices.Clone(n.Attr), func(a html.Attribute) bool {
		switch n.DataAtom {
		case atom.H1, atom.H2, atom.H3, atom.H4, atom.H5, atom.H6:
			return a.Key == "id"
		case atom.Pre:
			return a.Key == "class" && a.Val == "chroma" || a.Key == "tabindex"
		}
		return false
	})
	slices.SortFunc(kept, func(a, b html.Attribute) int { return strings.Compare(a.Key, b.Key) })
	return kept
}

func attribute(n *html.Node, key string) string {
	for _, a := range n.Attr {
		if a.Key == key {
			return a.Val
		}
	}
	return ""
}
