package render

import (
	"slices"
	"strings"

	"blankoff/build/fault"
	"blankoff/build/load"
)

// risks are the hazards that a step's guide carries, by signal word, the gravest first. A step without a guide has none
// of its own: what it does is its whole text, and verify holds that against the acts.
func (p *page) risks(s *fault.Step) []RiskView {
	carried := p.carried(s)
	var list []RiskView
	for _, word := range load.SignalWords {
		risk := RiskView{Word: word, Level: HazardView{Word: word}.Level()}
		for _, name := range carried {
			if p.hazards[name].Word == word {
				risk.Hazards = append(risk.Hazards, p.hazardNamed(name))
			}
		}
		if len(risk.Hazards) > 0 {
			list = append(list, risk)
		}
	}
	return list
}

// carried names the hazards of a step's guide: those that it states, which verify holds against what it does.
func (p *page) carried(s *fault.Step) []string {
	g := p.library.Guide(s.Guide.Text)
	if g == nil {
		return nil
	}
	var list []string
	for _, ref := range g.HazardRefs {
		if _, known := p.hazards[ref.Name]; known && !slices.Contains(list, ref.Name) {
			list = append(list, ref.Name)
		}
	}
	return list
}

func (p *page) hazardNamed(name string) NamedHazard {
	return NamedHazard{name, strings.ReplaceAll(name, "-", " "), p.shown["brief:"+name]}
}

// hazardsNamed are those of some steps, each once, the gravest first, else in the order of the catalogue.
func (p *page) hazardsNamed(steps []*fault.Step) []NamedHazard {
	carried := map[string]bool{}
	for _, s := range steps {
		for _, name := range p.carried(s) {
			carried[name] = true
		}
	}
	var list []NamedHazard
	for _, word := range load.SignalWords {
		for _, h := range p.library.Catalogue.Hazards {
			if carried[h.Name] && h.Word.Text == word {
				list = append(list, p.hazardNamed(h.Name))
			}
		}
	}
	return list
}
