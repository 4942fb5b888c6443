package calc_test

import (
	"strconv"
	"strings"
	"testing"

	"blankoff/calc"
	"blankoff/calc/declare"
)

// hostileTables are tried in every entry that is a table, below a first line that names
// all its columns in their own units; %s stands for the other columns of a line.
var hostileTables = map[string][]string{
	"one row":                   {"1"},
	"the same row again":        {"5", "5", "5", "5", "5"},
	"falling":                   {"9", "8", "7", "6", "5", "4", "3", "2", "1"},
	"out of order":              {"3", "1", "2", "9", "4", "0.5", "7", "8", "6", "5"},
	"negative":                  {"-1", "-2", "-3", "-4", "-5", "-6", "-7", "-8"},
	"noughts":                   {"0", "0", "0", "0", "0", "0", "0", "0"},
	"tiny":                      {"1e-300", "2e-300", "3e-300", "4e-300", "5e-300", "6e-300", "7e-300", "8e-300", "9e-300"},
	"huge":                      {"1e29", "2e29", "3e29", "4e29", "5e29", "6e29", "7e29", "8e29", "9e29"},
	"beyond a float":            {"1e400", "2e400"},
	"missing":                   {"", "-", "OL", "", "—"},
	"some missing":              {"1", "", "3", "-", "5", "OL", "7", "8", "9", "10"},
	"a jump":                    {"1", "2", "3", "1e6", "5", "6", "7", "8", "9", "10"},
	"with units of their own":   {"1 kg", "2 kg"},
	"words":                     {"NaN", "Inf", "one"},
	"a decimal comma":           {"1,5", "2,5"},
	"quotation marks":           {"\"1", "\"\"", "\""},
	"nothing but a first line":  {},
	"bytes that are no letters": {"\x00", "\xff\xfe"},
}

func TestHostileTables(t *testing.T) {
	for _, c := range calc.All() {
		for k, base := range requests(c) {
			for i := range c.Inputs {
				in := &c.Inputs[i]
				if in.Columns == nil {
					continue
				}
				for name, cells := range hostileTables {
					r := with(base, in.ID, tableOf(in, cells))
					a := calc.Answer(r)
					finite(t, r, a)
					if a.Fault != nil && c.Input(a.Fault.Field) == nil && c.Output(a.Fault.Field) == nil {
						t.Errorf("%s: %s: %s gives a fault of no field: %+v", c.ID, in.ID, name, a.Fault)
					}
				}
				if k == 0 {
					refusedTables(t, base, in)
				}
			}
		}
	}
}

func tableOf(in *declare.Input, cells []string) string {
	text := in.Header()
	for _, cell := range cells {
		text += "\n" + strings.TrimSuffix(strings.Repeat(cell+",", len(in.Columns)), ",")
	}
	return text
}

// refusedTables must be refused with a sentence that says where and what.
func refusedTables(t *testing.T, base declare.Request, in *declare.Input) {
	t.Helper()
	many := make([]string, 20_001)
	for i := range many {
		many[i] = strconv.Itoa(i)
	}
	header, number := in.Header(), -1
	for j := range in.Columns {
		if in.Columns[j].Kinds != nil {
			number = j
		}
	}
	cells := make([]string, len(in.Columns))
	cells[number] = "four"
	for _, c := range []struct{ text, want string }{
		{"1,2\n2,3", "first line"},
		{header, "no rows"},
		{header + "\n# nothing", "no rows"},
		{header + "\n" + strings.Join(cells, ","), "line 2: “four"},
		{header + "\n\n# said\n" + strings.Join(cells, ","), "line 4: “four"},
		{header + "," + in.Columns[number].ID + "\n1,2", "twice"},
		{strings.Replace(header, in.Columns[number].ID+" "+in.Columns[number].Unit, in.Columns[number].ID+" furlong", 1), "“furlong” in the first line"},
		{header + "\n" + strings.Repeat("1,", len(in.Columns)+3) + "1", "line 2: there are"},
		{tableOf(in, many), ""},
		{header + strings.Repeat("\n1,2", 1_000_000), ""},
	} {
		r := with(base, in.ID, c.text)
		a := calc.Answer(r)
		finite(t, r, a)
		if a.Fault == nil || a.Fault.Field != in.ID || !strings.Contains(a.Fault.Text, c.want) {
			t.Errorf("%s: %s = %.60q gives %+v, want a fault with %q", base.ID, in.ID, c.text, a.Fault, c.want)
		}
	}
}
