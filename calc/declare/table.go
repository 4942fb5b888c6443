package declare

import (
	"math"

	"blankoff/calc/letters"
	"blankoff/calc/quantity"
)

// maxRows bounds a table: a day of readings every five seconds.
const maxRows = 20_000

// table is what was entered as comma-separated text. A number that is missing, as a
// dropped reading is, is NaN.
type table struct {
	numbers [][]float64 // by column of the declaration; nil where the text has none
	words   [][]string
	units   []quantity.Unit // by column, as the first line has them
	lines   []int           // of each row, counted from 1 in the text
	remarks []string
}

// Rows is the number of rows of a table; none when it was left blank.
func (n *Numbers) Rows(id string) int {
	if t := n.tables[n.inputIndex(id)]; t != nil {
		return len(t.lines)
	}
	return 0
}

// Column is a column of numbers of a table, in SI units; NaN where one is missing. It
// is nil when the table has no such column. It must not be changed.
func (n *Numbers) Column(id, column string) []float64 {
	i := n.inputIndex(id)
	at := n.c.Inputs[i].columnIndex(column)
	if n.tables[i] == nil {
		return nil
	}
	return n.tables[i].numbers[at]
}

// Words is a column of words of a table.
func (n *Numbers) Words(id, column string) []string {
	i := n.inputIndex(id)
	at := n.c.Inputs[i].columnIndex(column)
	if n.tables[i] == nil {
		return nil
	}
	return n.tables[i].words[at]
}

// Line is the line of the text on which a row stands.
func (n *Numbers) Line(id string, row int) int { return n.tables[n.inputIndex(id)].lines[row] }

func (in *Input) columnIndex(id string) int {
	for i := range in.Columns {
		if in.Columns[i].ID == id {
			return i
		}
	}
	panic("table " + in.ID + " has no column " + id)
}

// Header is a first line that would be accepted: "time min,pressure mTorr".
func (in *Input) Header() string {
	text := ""
	for i := range in.Columns {
		column := &in.Columns[i]
		if i > 0 {
			text += ","
		}
		text += letters.TrimSpace(column.ID + " " + column.Unit)
	}
	return text
}

// readTable reads the text of input i: a first line that names the columns and their
// units, then one line for each row. Lines that are blank or begin with # say nothing.
func (n *Numbers) readTable(i int, text string) string {
	in := &n.c.Inputs[i]
	text = letters.Replace(letters.TrimPrefix(text, "\ufeff"), "{", "(") // nothing typed is a name
	r := tableReader{n: n, in: in, table: &table{}}
	n.tables[i] = r.table
	line := 0
	for text != "" && r.fault == "" {
		var row string
		row, text, _ = letters.Cut(text, "\n")
		line++
		if row = letters.TrimSpace(row); row == "" || row[0] == '#' {
			continue
		}
		if r.place == nil {
			r.readHeader(row)
		} else {
			r.readRow(line, row)
		}
	}
	if r.place == nil || len(r.table.lines) == 0 {
		r.refuse("{label} has no rows; write {wanted}")
	}
	return r.fault
}

type tableReader struct {
	n      *Numbers
	in     *Input
	table  *table
	mark   byte            // what separates the fields
	place  []int           // column of the declaration for each field; −1 for one that is not used
	units  []quantity.Unit // of each field
	clocks []clock         // of each field, if it is of times
	commas bool            // a comma that marked decimals could have been one of thousands
	fields []string        // of the present row
	fault  string
}

func (r *tableReader) refuse(text string) {
	if r.fault == "" {
		r.fault = text
	}
}

// split cuts a line at the separator; a field may stand in double quotes.
func (r *tableReader) split(line string) {
	r.fields = r.fields[:0]
	for {
		line = letters.TrimLeft(line, " ")
		var field string
		if letters.HasPrefix(line, `"`) {
			if end := letters.IndexByte(line[1:], '"'); end >= 0 {
				field, line = line[1:end+1], line[end+2:]
			}
		}
		at := letters.IndexByte(line, r.mark)
		if at < 0 {
			r.fields = append(r.fields, letters.TrimSpace(field+line))
			return
		}
		r.fields = append(r.fields, letters.TrimSpace(field+line[:at]))
		line = line[at+1:]
	}
}

func (r *tableReader) readHeader(line string) {
	r.mark = ','
	for _, mark := range [2]byte{';', '\t'} {
		if letters.IndexByte(line, mark) >= 0 {
			r.mark = mark
		}
	}
	r.split(line)
	columns := r.in.Columns
	r.table.numbers, r.table.words = make([][]float64, len(columns)), make([][]string, len(columns))
	r.table.units = make([]quantity.Unit, len(columns))
	r.place, r.units, r.clocks = make([]int, len(r.fields)), make([]quantity.Unit, len(r.fields)), make([]clock, len(r.fields))
	found := make([]bool, len(columns))
	for f, field := range r.fields {
		at, unit := r.in.findColumn(field)
		r.place[f] = at
		switch {
		case at < 0 && field != "":
			r.table.remarks = append(r.table.remarks, "The column "+quantity.Quote(field)+" is not used.")
			continue
		case at < 0:
			continue
		case found[at]:
			r.refuse("the column " + columns[at].ID + " stands twice in the first line")
		}
		found[at] = true
		r.readUnit(f, &columns[at], unit)
		r.table.units[at] = r.units[f]
	}
	for at := range columns {
		if columns[at].Required && !found[at] {
			r.refuse("the first line names no column " + columns[at].ID + "; write {wanted}")
		}
	}
}

// findColumn finds the column that a field of the first line names, and what stands
// after the name.
func (in *Input) findColumn(field string) (at int, unit string) {
	for i := range in.Columns {
		for _, name := range [2]string{in.Columns[i].ID, in.Columns[i].Label} {
			if len(field) < len(name) || !quantity.SameWord(field[:len(name)], name) {
				continue
			}
			rest := field[len(name):]
			if rest == "" || letters.IndexByte(" ([/,", rest[0]) >= 0 {
				return i, letters.Trim(rest, " ()[]/,")
			}
		}
	}
	return -1, ""
}

func (r *tableReader) readUnit(f int, column *Column, text string) {
	if column.Kinds == nil {
		return
	}
	times := column.Kinds[0] == quantity.Time
	if times && r.clocks[f].readUnit(text) {
		r.units[f] = quantity.MustUnit(column.Unit)
		return
	}
	if text == "" && column.Unit != "" {
		r.refuse("the column " + column.ID + " has no unit; the first line must say it, such as “" + r.in.Header() + "”")
		return
	}
	u, ok := quantity.FindUnit(text)
	if !ok {
		r.refuse(quantity.Quote(text) + " in the first line is not a unit known here; " + column.ID + " " + column.Unit + " would do")
		return
	}
	for _, kind := range column.Kinds {
		if u.Kind == kind {
			if r.units[f] = u; times {
				r.clocks[f].unit(u)
			}
			return
		}
	}
	r.refuse(quantity.Quote(text) + " in the first line is a unit of " + u.Kind.Describe() + "; " + column.ID + " is " + column.Kinds[0].Describe())
}

func (r *tableReader) readRow(line int, text string) {
	if r.split(text); len(r.fields) > len(r.place) {
		r.refuse(r.at(line) + "there are " + letters.Whole(len(r.fields)) + " values, but the first line names " + letters.Whole(len(r.place)) + " columns; write a decimal point, or separate the columns by semicolons")
		return
	}
	if len(r.table.lines) == maxRows {
		r.refuse(r.in.Label + " has more than 20,000 rows; leave some out")
		return
	}
	r.table.lines = append(r.table.lines, line)
	for f, at := range r.place {
		field := ""
		if f < len(r.fields) {
			field = r.fields[f]
		}
		switch {
		case at < 0:
		case r.in.Columns[at].Kinds == nil:
			r.table.words[at] = append(r.table.words[at], field)
		default:
			r.table.numbers[at] = append(r.table.numbers[at], r.number(line, field, &r.in.Columns[at], f))
		}
	}
}

func (r *tableReader) at(line int) string { return "line " + letters.Whole(line) + ": " }

// number reads one field: a bare number in the unit of its column, or a quantity with a
// unit of its own.
func (r *tableReader) number(line int, field string, column *Column, f int) float64 {
	if field == "" || field == "-" || field == "–" || field == "—" {
		return math.NaN()
	}
	unit, times := r.units[f], &r.clocks[f]
	q := quantity.Quantity{Kind: unit.Kind}
	colons := letters.IndexByte(field, ':') >= 0 && column.Kinds[0] == quantity.Time
	if !colons {
		field = r.decimals(field)
	}
	if x, plain := bareNumber(field); colons {
		var wrong string
		if q.Value, wrong = times.read(field); wrong != "" {
			r.refuse(r.at(line) + wrong)
		}
	} else if times.bare {
		r.refuse(r.at(line) + quantity.Quote(field) + " has no unit; the first line must say it, such as “" + r.in.Header() + "”, or the time be written 0:04:30")
	} else if plain {
		q.Value = unit.To(x)
	} else {
		var problem *quantity.Problem
		if q, problem = quantity.Parse(field, column.Kinds...); problem != nil && problem.NoUnit {
			q, problem = quantity.Parse(field+" "+unit.Symbol, column.Kinds...)
		}
		switch {
		case problem != nil:
			r.refuse(r.at(line) + problem.Text)
		case q.Gauge:
			r.refuse(r.at(line) + column.Label + " must be absolute")
		}
		if q.Over {
			return math.NaN()
		}
	}
	switch {
	case column.least.above(&q):
		r.refuse(r.at(line) + quantity.Quote(field) + " is below what is possible for " + column.ID + " (" + r.n.amount(column.Min) + ")")
	case column.most.below(&q) || !(math.Abs(q.Value) <= absurd):
		r.refuse(r.at(line) + quantity.Quote(field) + " is above what is possible for " + column.ID)
	}
	return q.Value
}

// decimals turns the comma of a table that is separated by semicolons into a point: who needs
// the comma for decimals separates by semicolons. Where it may have grouped thousands, a
// caution says how it was read.
func (r *tableReader) decimals(field string) string {
	at := letters.IndexByte(field, ',')
	if r.mark != ';' || at < 0 || letters.Count(field, ',') > 1 || letters.IndexByte(field, '.') >= 0 {
		return field
	}
	after := field[at+1:]
	if n := len(after) - len(letters.TrimLeft(after, "0123456789")); n == 3 && field[0] != '0' && !r.commas {
		r.commas = true
		r.table.remarks = append(r.table.remarks, quantity.Quote(field)+" is read with a decimal comma, as in all tables that are separated by semicolons.")
	}
	return field[:at] + "." + after
}

// bareNumber is the quick way for the figures of a log.
func bareNumber(field string) (float64, bool) {
	for i := 0; i < len(field); i++ {
		if c := field[i]; (c < '0' || c > '9') && c != '.' && c != '-' && c != 'e' {
			return 0, false
		}
	}
	return letters.Float(field)
}
