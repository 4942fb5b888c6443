package load

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"blankoff/build/machine"
	"blankoff/calc/quantity"
)

// series is a table of the values whose names differ in one number: `dry-curve-N-min` has the lines "1,22500" and
// "2,1170" below "time min,pressure mTorr", as a log has them. What stands behind N in the name is the unit of the first column,
// and the first value has the unit of the second. No such values, or one that is no number, and there is no table.
func (c *Card) series(name string) (Value, bool) {
	_, unit, has := strings.Cut(name, "-N-")
	first, known := quantity.FindUnit(unit)
	if !has || !known {
		return Value{}, false
	}
	type row struct {
		n     int
		value Value
	}
	var rows []row
	for _, v := range c.Values {
		if n, is := machine.InSeries(v.Name, name); is {
			rows = append(rows, row{n, v})
		}
	}
	if len(rows) == 0 {
		return Value{}, false
	}
	slices.SortFunc(rows, func(a, b row) int { return cmp.Compare(a.n, b.n) })
	var second quantity.Unit
	var lines []string
	for i, r := range rows {
		q, problem := quantity.Parse(r.value.Text.Text)
		if problem != nil || q.Over || i > 0 && q.Kind != second.Kind {
			return Value{}, false
		}
		if i == 0 {
			second = q.Unit
			lines = append(lines, first.Kind.Name()+" "+first.Symbol+","+second.Kind.Name()+" "+second.Symbol)
		}
		lines = append(lines, strconv.Itoa(r.n)+","+strconv.FormatFloat(second.From(q.Value), 'g', 8, 64))
	}
	table := rows[0].value
	table.Name, table.Text.Text, table.Table = name, strings.Join(lines, "\n"), true
	return table, true
}
