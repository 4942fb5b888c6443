package render

import (
	"html/template"
	"strconv"
	"strings"

	"blankoff/build/load"
	"blankoff/calc/quantity"
)

// machine makes the page of a machine.
func (p *page) machine(m *load.Machine) error {
	view := MachineView{Heading: m.Title.Text, Code: m.Code.Text, Summary: m.Summary.Text}
	for _, v := range m.Values {
		view.Values = append(view.Values, ValueRow{ID: v.Name, Label: label(v.Name), Value: p.value(v.Text.Text)})
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

// value shows a value of a machine: a quantity as data, anything else as text.
func (p *page) value(text string) template.HTML {
	q, problem := quantity.Parse(text)
	if problem != nil || q.Kind == quantity.None {
		return template.HTML(template.HTMLEscapeString(text))
	}
	return p.part("fact", Fact{SI: strconv.FormatFloat(q.Value, 'g', 7, 64), Kind: q.Kind.Name(), Text: text})
}

// missing answers a wrong address. Nobody knows at which depth it will be shown, and
// the site may lie below any path, so it has links that work from the root of the site
// as served by `view`; the service worker sends readers home in its own words.
func (p *page) missing() error {
	p.root = "/"
	return p.write("missing", MissingView{Frame: p.frame("No such page", "", "", nil)})
}
