package render

import (
	"fmt"
	"html/template"
	"slices"
	"strings"

	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/util"

	"blankoff/build/drawn"
	"blankoff/build/edition"
	"blankoff/build/guide"
	"blankoff/build/load"
	"blankoff/build/picture"
	"blankoff/calc/quantity"
)

// drawing shows a picture that is drawn from data.
func (n *nodes) drawing(w util.BufWriter, _ []byte, node ast.Node, entering bool) (ast.WalkStatus, error) {
	if entering {
		d := node.(*guide.Drawing)
		title, words := d.Caption()
		_, _ = w.WriteString(string(n.page.figure(d.Name, title, words)))
	}
	return ast.WalkSkipChildren, nil
}

// figure draws the picture of a name; without a title it says of itself what it shows. What cannot be drawn is left out.
func (p *page) figure(name, title, words string) template.HTML {
	d, err := drawn.Find(p.library, name)
	if err != nil {
		return ""
	}
	if title == "" {
		title, words = d.Title, d.Words
	}
	inside := func(unit quantity.Unit) string { return d.Inside(title, words, unit) }
	picture := p.scaled(d.SVG(title, words), name, d.Scale, inside)
	if p.assets.Pictures != "" && d.Scale.In == nil {
		picture = p.pictureFile(name, d, title, words)
	}
	return p.sheetOfPictures() + template.HTML(`<figure>`+picture+`<figcaption>`+template.HTMLEscapeString(title)+"</figcaption></figure>\n")
}

// pictureFile shows a picture that is a file of its own: several pages have it, and none need wait for it. One with a scale stands in the
// page, whose script writes its numbers in the reader's unit. It takes its colours
// from the colour scheme of the page, so it is dark where the page is, and black on paper.
func (p *page) pictureFile(name string, d *picture.Drawing, title, words string) string {
	svg := strings.Replace(d.SVG(d.Title, d.Words), ">", ` xmlns="http://www.w3.org/2000/svg"><style>`+p.assets.Pictures+"</style>", 1)
	file := File{Path: strings.ReplaceAll(name, "/", "-") + "." + edition.Short([]byte(svg)) + ".svg", Bytes: []byte(svg)}
	p.pictures.Store(file.Path, file)
	if words == "" {
		words = title
	}
	width, height := d.Size()
	return fmt.Sprintf(`<img class="drawn" src="%s" width="%d" height="%d" alt="%s">`, esc(p.root+file.Path), width, height, esc(words))
}

// sheetOfPictures links their style sheet before the first of a page, where HTML allows it: what is above need not wait for it.
func (p *page) sheetOfPictures() template.HTML {
	if p.dressed || p.assets.Drawn == "" {
		return ""
	}
	p.dressed = true
	return template.HTML(`<link rel="stylesheet" href="` + template.HTMLEscapeString(p.root+p.assets.Drawn) + `">`)
}

// ofCircuit are values of which a card must say one before its circuit is worth a picture.
var ofCircuit = []string{"chamber-volume", "hose-bore", "pump-speed"}

// picturesOf are those of a card.
func (p *page) picturesOf(m *load.Machine) []template.HTML {
	var names []string
	if slices.ContainsFunc(ofCircuit, func(name string) bool { _, has := m.Value(name); return has }) {
		names = append(names, "circuit/"+m.Name)
	}
	if tube := p.library.TubeOf(&m.Card); tube != nil {
		names = append(names, "pins/"+tube.Name)
	}
	var list []template.HTML
	for _, name := range names {
		if figure := p.figure(name, "", ""); figure != "" {
			list = append(list, figure)
		}
	}
	return list
}
