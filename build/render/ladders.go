package render

import (
	"fmt"
	"html/template"
	"math"
	"sort"

	"blankoff/build/ladder"
	"blankoff/build/load"
)

// mostMarks is how many pressures of a text a ladder shows before it becomes a crowd.
const mostMarks = 6

// speak notes a pressure of the text for the ladder.
func (p *page) speak(pa float64, label string) {
	p.spoken = append(p.spoken, pressure{pa, label})
}

// ladder draws the ladder of a page. It must be called after the text was rendered,
// since the text says which pressures stand on it.
func (p *page) ladder(m *load.Machine) *LadderView {
	name := ""
	if m != nil {
		name = m.Name
	} else if len(p.library.Machines) == 1 {
		name = p.library.Machines[0].Name
	}
	base := p.ladders[name]
	l := base.Ladder
	l.Marks = p.marks(l)
	key := fmt.Sprintf("%q %v", name, l.Marks) // most pages that are no guides have the same ladder
	if kept, found := p.drawnLadders.Load(key); found {
		view := kept.(LadderView) // of its own: a form writes marks into it for a while
		return &view
	}
	drawing, err := ladder.Draw(l)
	if err != nil {
		return nil // a shop without a usable scale has pages without a ladder
	}
	p.ladderInUnits(drawing)
	view := LadderView{Caption: base.Caption, Tall: template.HTML(drawing.Tall), Strip: template.HTML(drawing.Strip)}
	p.drawnLadders.Store(key, view)
	return &view
}

// marks are the pressures spoken of that no rung shows already, the most frequent first.
func (p *page) marks(l ladder.Ladder) []ladder.Mark {
	var marks []ladder.Mark
	count := map[float64]int{}
	for _, s := range p.spoken {
		key := math.Round(math.Log(s.pa) * 200)
		if s.pa <= 0 || onRung(l, s.pa) {
			continue
		}
		if count[key]++; count[key] == 1 {
			marks = append(marks, ladder.Mark{Pa: s.pa, Label: s.label})
		}
	}
	sort.SliceStable(marks, func(i, j int) bool {
		return count[math.Round(math.Log(marks[i].Pa)*200)] > count[math.Round(math.Log(marks[j].Pa)*200)]
	})
	return marks[:min(len(marks), mostMarks)]
}

func onRung(l ladder.Ladder, pa float64) bool {
	for _, r := range l.Rungs {
		if math.Abs(math.Log(pa/r.Pa)) < 0.005 {
			return true
		}
	}
	return false
}
