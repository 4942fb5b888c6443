package declare

import (
	"math"

	"blankoff/calc/quantity"
)

// shownRows writes the cells of a table as a page shows them, in the units of its
// columns.
func shownRows(columns []Column, rows [][]Cell) [][]Cell {
	for _, row := range rows {
		for i := range row {
			cell := &row[i]
			if columns[i].Kinds == nil {
				continue
			}
			unit := quantity.MustUnit(columns[i].Unit)
			if !(math.Abs(unit.From(cell.Value)) < endless) { // nothing to show, and no number for JSON
				*cell = Cell{Text: "–"}
				continue
			}
			if cell.Text == "" {
				cell.Text = quantity.Number(cell.Value, cell.U, unit, quantity.DefaultFigures)
			}
			cell.Value, cell.U, cell.IsNumber = unit.From(cell.Value), cell.U/unit.Span(1), true
		}
	}
	return rows
}
