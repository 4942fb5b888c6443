package render

import (
	"strings"

	"blankoff/build/load"
)

// machine makes the page of a machine.
func (p *page) machine(m *load.Machine) error {
	view := MachineView{Heading: m.Title.Text, Code: m.Code.Text, Summary: withQuantities(m.Summary.Text)}
	for _, v := range m.Values {
		view.Values = append(view.Values, ValueRow{ID: v.Name, Label: label(v.Name), Value: p.checked(v.Text.Text).html()})
	}
	for _, g := range p.library.Guides {
		for _, name := range g.Machines {
			if name.Text == m.Name && g.Kind != "pages" {
				view.Guides = append(view.Guides, p.entry(g))
			}
		}
	}
	view.Frame = p.frame(m.Title.Text, m.Summary.Text, "machines", m)
	return p.write("machine", view)
}

// label turns a name of the file into words: "chamber-volume" is Chamber volume.
func label(name string) string {
	words := strings.ReplaceAll(name, "-", " ")
	return strings.ToUpper(words[:1]) + words[1:]
}

// missing answers a wrong address. Nobody knows at which depth it will be shown, and
// the site may lie below any path, so it has links that work from the root of the site
// as served by `view`; the service worker sends readers home in its own words.
func (p *page) missing() error {
	p.root = "/"
	return p.write("missing", MissingView{Frame: p.frame("No such page", "", "", nil)})
}
