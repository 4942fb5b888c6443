package render

import (
	"html/template"
	"slices"
	"strconv"
	"strings"

	"blankoff/build/guide"
	"blankoff/build/load"
	"blankoff/calc"
	"blankoff/calc/declare"
	"blankoff/calc/quantity"
)

// A page for several machines shows the values of the first one in its calculators, says so, and lists those of the others
// beside each entry. yours.ts puts the reader's machine in their place. Here and there machines count in the order of the page.

// preset is an entry of a guide; a spec: reference becomes the machine's value.
func (p *page) preset(preset guide.Preset) entry {
	e := entry{name: preset.Name, text: preset.Text}
	if preset.Spec == nil {
		return e
	}
	machines := p.machines(p.guide)
	if preset.Spec.Machine != "" {
		machines = []*load.Machine{p.library.Machine(preset.Spec.Machine)}
	}
	e.known, e.text, e.cards = true, "", valuesOf(machines, preset.Spec.Name)
	if len(e.cards) > 0 {
		e.text = e.cards[0]
	}
	if allAlike(e.cards) {
		e.cards = nil
	}
	return e
}

func valuesOf(machines []*load.Machine, name string) []string {
	var texts []string
	for _, m := range machines {
		if m == nil {
			return nil
		}
		value, _ := m.Value(name)
		texts = append(texts, typed(value.Text.Text))
	}
	return texts
}

// typed is a card's value as an entry: without the commas between thousands, which a calculator would have to ask about.
func typed(text string) string {
	if !strings.Contains(text, ",") {
		return text
	}
	bare := strings.ReplaceAll(text, ",", "")
	said, problem := quantity.Parse(text)
	same, other := quantity.Parse(bare)
	if problem != nil || other != nil || said.Value != same.Value || said.U != same.U { // 0,5 mTorr has a decimal comma
		return text
	}
	return bare
}

func allAlike(texts []string) bool {
	return len(texts) == 0 || !slices.ContainsFunc(texts, func(t string) bool { return t != texts[0] })
}

// cards lists what each machine has for an entry, in the form in which it stands in the field. A table has its lines side
// by side, without the first.
func (p *page) cards(in *declare.Input, e entry) template.HTML {
	if e.cards == nil {
		return ""
	}
	var parts []string
	for i, m := range p.machines(p.guide) {
		value, chosen := fill(in, e.cards[i])
		text := strings.TrimSpace(value + " " + chosen)
		if in.Columns != nil {
			_, lines, _ := strings.Cut(e.cards[i], "\n")
			text = strings.ReplaceAll(lines, "\n", " ")
		}
		parts = append(parts, esc(m.Title.Text)+" <b>"+esc(text)+"</b>")
	}
	return template.HTML(strings.Join(parts, ", "))
}

// whose tells for which machine a calculator is filled in, where the page has several: with a choice among them, or, where
// the guide names one, in words that also name those whose cards say the same.
func (p *page) whose(view *CalculatorView, block *guide.CalculatorBlock, entries []entry) {
	machines := p.machines(p.guide)
	if len(machines) < 2 {
		return
	}
	if slices.ContainsFunc(entries, func(e entry) bool { return e.cards != nil }) {
		view.Machines = machineOptions(machines)
		return
	}
	var alike []string
	named := false
	for _, m := range machines {
		same := true
		for _, preset := range block.Presets {
			if ref := preset.Spec; ref != nil && ref.Machine != "" && !allAlike(valuesOf(machines, ref.Name)) {
				named = true
				same = same && allAlike(valuesOf([]*load.Machine{p.library.Machine(ref.Machine), m}, ref.Name))
			}
		}
		if same {
			alike = append(alike, m.Title.Text)
		}
	}
	if named {
		view.Whose = strings.Join(alike, " and ")
	}
}

func machineOptions(machines []*load.Machine) []Option {
	options := make([]Option, len(machines))
	for i, m := range machines {
		options[i] = Option{Value: m.Name, Label: m.Title.Text}
	}
	return options
}

// yours is the row in which a reader says which machine is theirs, the first of a page; none where all that the page says holds for each.
func (p *page) yours(g *guide.Guide) []FactRow {
	machines := p.machines(g)
	if len(machines) < 2 || !slices.ContainsFunc(g.Facts, func(f *guide.Fact) bool { return machineOf(f) != "" }) && !slices.ContainsFunc(g.Calculators, p.differs) {
		return nil
	}
	options := append([]Option{{Label: "choose yours"}}, machineOptions(machines)...)
	return []FactRow{{"Machine", p.part("yours", options)}}
}

// machineOf is the machine that a fact is about, where it names one: itself, or in what it is computed from. Else it is empty.
func machineOf(f *guide.Fact) string {
	if f.Spec != nil {
		return f.Spec.Machine
	}
	name := ""
	for _, in := range f.Calc.Inputs {
		if in.Spec == nil || in.Spec.Machine == "" {
			continue
		}
		if name != "" && name != in.Spec.Machine {
			return ""
		}
		name = in.Spec.Machine
	}
	return name
}

// differs tells whether a calculator takes something from the cards in which the machines differ.
func (p *page) differs(block *guide.CalculatorBlock) bool {
	return calc.Find(block.ID) != nil && slices.ContainsFunc(block.Presets, func(preset guide.Preset) bool { return p.preset(preset).cards != nil })
}

// ofMachine marks a fact of one machine, where the page has several, by the machine's place among them. A value that comes
// from a tube or a family is also that of the others who have it from there, unless the page states it for them too.
func (p *page) ofMachine(f *guide.Fact, tag string) string {
	name := machineOf(f)
	if p.guide == nil || name == "" {
		return tag
	}
	machines, of := p.machines(p.guide), p.library.Machine(name)
	if len(machines) < 2 || !slices.Contains(machines, of) {
		return tag
	}
	var places []string
	for i, m := range machines {
		if m == of || f.Spec != nil && shares(m, of, f.Spec.Name) && !p.states(m, f.Spec.Name) {
			places = append(places, strconv.Itoa(i))
		}
	}
	return strings.TrimSuffix(tag, ">") + ` data-of="` + strings.Join(places, " ") + `">`
}

// states tells whether the page has a line of its own for a value of a machine.
func (p *page) states(m *load.Machine, name string) bool {
	return slices.ContainsFunc(p.guide.Facts, func(f *guide.Fact) bool {
		return f.Spec != nil && f.Spec.Machine == m.Name && f.Spec.Name == name
	})
}

// shares tells whether two machines have a value from one line of one file.
func shares(a, b *load.Machine, name string) bool {
	one, has := a.Value(name)
	other, too := b.Value(name)
	return has && too && one.Span == other.Span
}
