package render

import (
	"bytes"
	"html/template"
	"strings"

	"blankoff/build/guide"
	"blankoff/build/load"
)

// page is one page being made.
type page struct {
	*book
	address  string
	root     string // the way back to the site's root: "../../"
	guide    *guide.Guide
	markdown *textRenderer // lent to this page, see text.go
	out      *memory       // lent too
	spoken   []pressure    // pressures of the text, for the ladder
	atDesk   bool          // holds what only desk.css dresses
	dressed  bool          // has the sheet of drawn pictures
}

// pressure is one that the page speaks of.
type pressure struct {
	pa    float64
	label string
}

// write executes a page template.
func (p *page) write(name string, view any) error {
	return p.templates.ExecuteTemplate(p.out, name, view)
}

// frame surrounds a page. machine is whose ladder it shows; nil for none in particular.
func (p *page) frame(title, description, section string, machine *load.Machine) Frame {
	desk := ""
	if p.atDesk {
		desk = p.assets.Desk
	}
	return Frame{
		Desk: desk, Title: title, Description: cutShort(description), Root: p.root, Edition: p.assets.Edition,
		Style: p.assets.Style, Below: p.assets.Below, Bar: p.assets.Bar, Scales: p.assets.Scales, Lists: p.assets.Lists, Wide: p.assets.Wide, Print: p.assets.Print, Script: p.assets.Script, Calc: p.assets.Calc, Manifest: p.assets.Manifest, Icon: p.assets.Icon, Signs: p.assets.Signs,
		Shop: p.library.Shop.Name.Text, Section: section, Ladder: p.ladder(machine),
	}
}

// listFrame surrounds a page that begins with a list of others.
func (p *page) listFrame(title, description, section string, machine *load.Machine) Frame {
	frame := p.frame(title, description, section, machine)
	frame.Early = []string{p.assets.Lists}
	return frame
}

// longestDescription is more than anybody shows of one; escaping a page's whole opening costs the square of its length.
const longestDescription = 500

// cutShort cuts a description at the end of a character.
func cutShort(text string) string {
	if len(text) <= longestDescription {
		return text
	}
	return strings.ToValidUTF8(text[:longestDescription], "") + "…"
}

// machines are those that the guide covers, as far as they exist.
func (b *book) machines(g *guide.Guide) []*load.Machine { return b.library.Covered(g) }

// firstMachine is whose ladder and presets a guide uses.
func (b *book) firstMachine(g *guide.Guide) *load.Machine {
	if list := b.machines(g); len(list) > 0 {
		return list[0]
	}
	return nil
}

// hazardsOf lists the hazards that a guide carries, in brief, each once, the gravest first.
func (b *book) hazardsOf(g *guide.Guide) []template.HTML {
	seen := map[string]bool{}
	var list []template.HTML
	for _, word := range load.SignalWords {
		for _, ref := range g.HazardRefs {
			if view, known := b.hazards[ref.Name]; known && view.Word == word && !seen[ref.Name] {
				seen[ref.Name] = true
				list = append(list, b.shown["brief:"+ref.Name])
			}
		}
	}
	return list
}

// inline renders the content of a single paragraph, without the paragraph itself.
func (p *page) inline(text []byte) template.HTML {
	text = bytes.TrimSpace(text)
	text = bytes.TrimSuffix(bytes.TrimPrefix(text, []byte("<p>")), []byte("</p>"))
	return template.HTML(text)
}
