package render

import (
	"html/template"
	"regexp"
	"strings"

	"github.com/yuin/goldmark/ast"

	"blankoff/build/guide"
)

// guideText makes the page of a procedure, a symptom or a plain page.
func (p *page) guideText(g *guide.Guide) error {
	p.guide = g
	view := GuideView{
		Heading:  g.Title.Text,
		Summary:  p.summary(g),
		Body:     p.sections(g),
		Hazards:  p.hazardsOf(g),
		Facts:    p.factRows(g),
		Sheet:    g.Kind == guide.Procedure,
		Revision: footRevision(g),
	}
	view.Text = p.digestOfGuide(&view)
	if sectionOf(g) == "record" {
		view.Machines = p.machineTitles()
	}
	view.Frame = p.frame(g.Title.Text, g.SummaryText(), sectionOf(g), p.firstMachine(g))
	p.writeGuide(&view)
	return nil
}

// guideKey is what guides of a kind have in common on their pages.
type guideKey struct {
	root, section string
	sheet, ladder bool
	desk          string
	rows          int
}

func (p *page) writeGuide(v *GuideView) {
	key := guideKey{v.Root, v.Section, v.Sheet, v.Ladder != nil, v.Desk, len(v.Facts)}
	texts := []any{&v.Title, &v.Description, &v.Shop, &v.Heading, &v.Summary, &v.Hazards, &v.Body, &v.Text, &v.Revision}
	for i := range v.Facts {
		texts = append(texts, &v.Facts[i].Name, &v.Facts[i].Value)
	}
	if v.Ladder != nil {
		texts = append(texts, &v.Ladder.Caption, &v.Ladder.Tall, &v.Ladder.Strip)
	}
	p.fillIn(p.out, "guide", v, key, texts...)
}

// summary is what stands before the first section, as far as it is text: inline HTML for one paragraph.
func (p *page) summary(g *guide.Guide) template.HTML {
	var all template.HTML
	for _, n := range opening(g) {
		all = join(all, p.inline([]byte(p.text(n))))
	}
	return all
}

// opening is the paragraphs that a page begins with. What follows them can be a list, a hazard or a calculator, which
// no paragraph can hold.
func opening(g *guide.Guide) []ast.Node {
	for i, n := range g.Summary {
		if n.Kind() != ast.KindParagraph {
			return g.Summary[:i]
		}
	}
	return g.Summary
}

// sections renders every section with its heading, and before them what the summary leaves.
func (p *page) sections(g *guide.Guide) template.HTML {
	return written(func(out *memory) {
		p.render(out, g.Summary[len(opening(g)):])
		for _, s := range g.Sections {
			out.WriteString(`<section class="part" id="` + template.HTMLEscapeString(s.ID) + `"><h2>`)
			for words := s.Heading.Node.FirstChild(); words != nil; words = words.NextSibling() {
				p.render(out, []ast.Node{words})
			}
			out.WriteString("</h2>\n")
			p.render(out, s.Nodes)
			out.WriteString("</section>\n")
		}
	})
}

// readers are the readers as the page names them.
var readers = map[string]string{"customer": "anybody: no tools inside, no open panel", "technician": "technician", "shop": "the shop"}

// factRows tell who, how long and what to bring, in the order in which a hand needs them.
func (p *page) factRows(g *guide.Guide) []FactRow {
	rows := p.yours(g)
	choice := len(rows) > 0
	add := func(name, value string) {
		if value != "" {
			rows = append(rows, FactRow{name, withQuantities(value)})
		}
	}
	who := readers[g.Reader.Text]
	if g.People.Text != "" && g.People.Text != who {
		who = g.People.Text
	}
	add("Who", who)
	if g.Kind != guide.Page {
		add("Time", g.Time.Text)
		add("Bring", list(g.Tools))
		add("Supplies", list(g.Supplies))
		add("Spares", list(g.Spares))
		rows = append(rows, p.machineRow(g, choice)...)
	}
	if said := esc(revision(g)); said != "" { // a date is not broken at its hyphens
		rows = append(rows, FactRow{"Revision", template.HTML(day.ReplaceAllString(said, `<span class="q">$0</span>`))})
	}
	return rows
}

var day = regexp.MustCompile(`\b\d{4}-\d\d-\d\d\b`)

func list(items []guide.Text) string {
	texts := make([]string, len(items))
	for i, item := range items {
		texts[i] = item.Text
	}
	return strings.Join(texts, ", ")
}

func (p *page) machineRow(g *guide.Guide, choice bool) []FactRow {
	var links []string
	for _, m := range p.machines(g) {
		links = append(links, `<a href="`+template.HTMLEscapeString(p.root+"machines/"+m.Name+"/")+`">`+template.HTMLEscapeString(m.Title.Text)+"</a>")
	}
	if len(links) == 0 {
		return nil
	}
	name := "Machine"
	switch {
	case choice: // the row above is called Machine
		name = "Cards"
	case len(links) > 1:
		name = "Machines"
	}
	return []FactRow{{name, template.HTML(strings.Join(links, ", "))}}
}

// revision is how a sheet says which state of the guide it is.
func revision(g *guide.Guide) string {
	var parts []string
	if g.Revision.Text != "" {
		parts = append(parts, g.Revision.Text)
	}
	if g.Approver.Text != "" {
		parts = append(parts, "approved by "+g.Approver.Text)
	}
	if g.Review.Text != "" {
		parts = append(parts, "review by "+g.Review.Text)
	}
	return strings.Join(parts, ", ")
}

// footRevision is the same where no label stands before it.
func footRevision(g *guide.Guide) string {
	if g.Revision.Text == "" {
		return revision(g)
	}
	return "revision " + revision(g)
}

// sectionOf is the part of the thumb bar that a guide belongs to.
func sectionOf(g *guide.Guide) string {
	switch {
	case g.Path() == recordPage:
		return "record"
	case g.Kind == guide.Page:
		return ""
	}
	return string(g.Kind)
}
