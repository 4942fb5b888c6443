package declare

import (
	"blankoff/calc/letters"
	"blankoff/calc/plot"
	"blankoff/calc/quantity"
)

// Axis is an axis for a kind of quantity, in the unit given.
func Axis(label string, kind quantity.Kind, unit string) plot.Axis {
	u := quantity.MustUnit(unit)
	if u.Kind != kind {
		panic("the axis " + label + " has a unit of another kind: " + unit)
	}
	return plot.Axis{Label: label, Unit: u}
}

// ColumnAxis is an axis for a column of a table, in the unit in which it was written.
func (n *Numbers) ColumnAxis(id, column, label string) plot.Axis {
	i := n.inputIndex(id)
	return plot.Axis{Label: label, Unit: n.tables[i].units[n.c.Inputs[i].columnIndex(column)]}
}

// Drop the plot's axes into the units that were asked for, draw it, and set the table
// behind it.
func (r *Result) plotted(axes []Pair) *Plotted {
	p := r.c.Plot(r)
	for i := range axes {
		pair := &axes[i]
		unit, ok := quantity.FindUnit(pair.Text)
		if !ok || unit.Kind.Name() != pair.Name {
			r.Refuse("plot", quantity.Quote(pair.Text)+" is no unit for an axis of "+quantity.Quote(pair.Name)+"; pressure in Pa would be one")
			return nil
		}
		for _, axis := range [2]*plot.Axis{&p.X, &p.Y} {
			if p != nil && axis.Unit.Kind == unit.Kind {
				axis.Unit = unit
			}
		}
	}
	if p == nil {
		return nil
	}
	rows, every := p.Table()
	d := &Plotted{Drawing: p.Draw(), Table: Given{Label: "Table"}}
	if every > 1 {
		d.Table.Label += ": one row of " + letters.Whole(every) + ", and the last"
	}
	d.Table.Columns = []Column{axisColumn("x", &p.X), axisColumn("y", &p.Y), axisColumn("curve", &p.Y)}
	d.Table.Columns[2].Label = "Curve"
	for _, row := range rows {
		d.Table.Rows = append(d.Table.Rows, []Cell{{Value: row[0]}, {Value: row[1]}, {Value: row[2]}})
	}
	shownRows(d.Table.Columns, d.Table.Rows)
	return d
}

func axisColumn(id string, a *plot.Axis) Column {
	return Column{ID: id, Label: a.Label, Kinds: []quantity.Kind{a.Unit.Kind}, Unit: a.Unit.Symbol}
}
