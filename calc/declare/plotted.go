package declare

import (
	"blankoff/calc/plot"
	"blankoff/calc/quantity"
)

// plotted draws the plot.
func (r *Result) plotted(axes []Pair) *plot.Drawing {
	declared := r.c.Plot
	p := &plot.Plot{Title: declared.Title}
	r.axis(&p.X, &declared.X, axes)
	r.axis(&p.Y, &declared.Y, axes)
	declared.Draw(r, p)
	if p.Parts == nil {
		return nil
	}
	for _, part := range p.Parts {
		part.Name = r.Fill(part.Name)
	}
	return p.Draw()
}

// axis gives an axis the unit that was asked for, or the one that was written.
func (r *Result) axis(a *plot.Axis, declared *PlotAxis, asked []Pair) {
	a.Label, a.Unit, a.Log = declared.Label, quantity.MustUnit(declared.Unit), declared.Log
	if of := declared.Of; of != "" {
		i := r.inputIndex(of)
		switch {
		case declared.Column != "":
			a.Unit = r.tables[i].units[r.c.Inputs[i].columnIndex(declared.Column)]
		case r.given[i]:
			a.Unit = r.typed[i].Unit
		}
	}
	for i := range asked {
		if unit, fault := chosen(&asked[i], "plot"); fault != nil {
			r.fault = fault // not by Refuse: it quotes what was written
		} else if unit.Kind == a.Unit.Kind {
			a.Unit = unit
		}
	}
}
