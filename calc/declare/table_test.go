package declare_test

import (
	"math"
	"strings"
	"testing"

	"blankoff/calc/declare"
	"blankoff/calc/quantity"
)

// logger is a calculator that takes a log apart and gives it back.
var logger = (&declare.Calculator{
	ID: "logger",
	Inputs: []declare.Input{{ID: "log", Label: "Log", Required: true, Columns: []declare.Column{
		{ID: "time", Label: "Time", Kinds: []quantity.Kind{quantity.Time}, Unit: "min", Required: true, Min: "0 s"},
		{ID: "pressure", Label: "Reading", Kinds: []quantity.Kind{quantity.Pressure}, Unit: "mTorr", Required: true, Min: "0 Pa", Max: "200 kPa"},
		{ID: "note", Label: "Note"},
	}}},
	Outputs: []declare.Output{{ID: "copy", Label: "Copy", Columns: []declare.Column{
		{ID: "time", Label: "Time", Kinds: []quantity.Kind{quantity.Time}, Unit: "s"},
		{ID: "pressure", Label: "Reading", Kinds: []quantity.Kind{quantity.Pressure}, Unit: "Pa"},
		{ID: "note", Label: "Note"},
	}}},
	Eval: func(*declare.Numbers) {},
	Judge: func(r *declare.Result) {
		times, pressures, notes := r.Column("log", "time"), r.Column("log", "pressure"), r.Words("log", "note")
		for i := range r.Rows("log") {
			note := "-"
			if notes != nil {
				note = notes[i]
			}
			r.Row("copy", declare.Cell{Value: times[i]}, declare.Cell{Value: pressures[i]}, declare.Cell{Text: note})
		}
	},
}).Prepare()

func copied(text string) (rows []string, fault *declare.Fault, cautions []string) {
	a := logger.Answer(declare.Request{ID: "logger", In: []declare.Pair{{Name: "log", Text: text}}})
	if a.Fault != nil {
		return nil, a.Fault, nil
	}
	for _, row := range a.Out[0].Rows {
		var cells []string
		for _, cell := range row {
			cells = append(cells, cell.Text)
		}
		rows = append(rows, strings.Join(cells, " "))
	}
	return rows, nil, a.Cautions
}

func TestTablesAreRead(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"plain", "time min,pressure mTorr\n1,100\n2,200", "60 13.33 -|120 26.66 -"},
		{"columns in another order, other spellings", "Pressure (Torr), TIME [s]\n1, 30\n", "30 133.3 -"},
		{"the label for a name", "time/min,reading/Pa\n1,5", "60 5 -"},
		{"semicolons leave the comma for decimals", "time min;pressure mTorr\n0,5;100,5", "30 13.4 -"},
		{"tabs", "time min\tpressure mTorr\n1\t100", "60 13.33 -"},
		{"thousands in quotation marks", "time min,pressure mTorr\n1,\"1,049\"", "60 139.9 -"},
		{"units of its own", "time min,pressure mTorr\n30 s,0.1 mbar\n1h30,7", "30 10 -|5,400 0.9333 -"},
		{"words", "time min,pressure mTorr,note\n1,100,valve shut", "60 13.33 valve shut"},
		{"blank lines, remarks, carriage returns", "\r\n# rise\r\ntime min,pressure mTorr\r\n\r\n1,100\r\n", "60 13.33 -"},
		{"a byte order mark, as spreadsheets write", "\ufefftime min,pressure mTorr\n1,100", "60 13.33 -"},
		{"missing readings", "time min,pressure mTorr\n1,\n2,-\n3,OL\n4", "60 – -|120 – -|180 – -|240 – -"},
		{"a byte order mark, semicolons, decimal commas, Windows line ends", "\ufeffTime (min);Reading (mTorr)\r\n0;100,5\r\n0,5;200\r\n", "0 13.4 -|30 26.66 -"},
		{"commas before three figures, between semicolons", "time min;pressure mbar\n0,125;0,385", "7.5 38.5 -"},
		{"hours, minutes and seconds", "time,pressure mTorr\n0:00:00,100\n0:01:30,100\n1:00:00.5,100", "0 13.33 -|90 13.33 -|3,600 13.33 -"},
		{"minutes and seconds, as the unit says", "time min,pressure mTorr\n0:30,100\n1:30,100\n2,100", "30 13.33 -|90 13.33 -|120 13.33 -"},
		{"the same in a column of seconds", "time s,pressure mTorr\n0:30,100\n90,100", "30 13.33 -|90 13.33 -"},
		{"hours and minutes", "time h,pressure mTorr\n0:30,100\n1.5,100", "1,800 13.33 -|5,400 13.33 -"},
		{"minutes and seconds, by name", "time m:ss;pressure mTorr\n90:30;100\n91:00,5;100", "5,430 13.33 -|5,460 13.33 -"},
		{"the time of day, over midnight", "Time (hh:mm);Reading (mTorr)\n23:58;100\n23:59;100\n00:01;100", "0 13.33 -|60 13.33 -|180 13.33 -"},
		{"the time of day to the second", "time clock,pressure mTorr\n14:05:30,100\n14:06:00,100", "0 13.33 -|30 13.33 -"},
		{"a log that begins in its first hour is no time of day", "time h:mm:ss,pressure mTorr\n0:10:00,100\n0:20:00,100", "600 13.33 -|1,200 13.33 -"},
	} {
		rows, fault, _ := copied(c.text)
		if got := strings.Join(rows, "|"); fault != nil || got != c.want {
			t.Errorf("%s: got %q, %+v, want %q", c.name, got, fault, c.want)
		}
	}
	if _, _, cautions := copied("time min;pressure mTorr\n0;1,500\n1;1,600"); len(cautions) != 1 || cautions[0] != "“1,500” is read with a decimal comma, as in all tables that are separated by semicolons." {
		t.Errorf("a comma that may have grouped: %q", cautions)
	}
	if _, _, cautions := copied("time min,pressure mTorr,trap °C\n1,100,-34"); len(cautions) != 1 || cautions[0] != "The column “trap °C” is not used." {
		t.Errorf("a column that is not used: %q", cautions)
	}
}

func TestTablesAreRefused(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"no first line", "1,100\n2,200", "the first line names no column time; write a first line that names its columns and units, such as “time min,pressure mTorr,note”, and the readings below it"},
		{"a unit is missing", "time min,pressure\n1,100", "the column pressure has no unit; the first line must say it, such as “time min,pressure mTorr,note”"},
		{"a unit that is none", "time min,pressure bananas\n1,100", "“bananas” in the first line is not a unit known here; pressure mTorr would do"},
		{"a unit of something else", "time min,pressure L\n1,100", "“L” in the first line is a unit of a volume (length³); pressure is a pressure (mass·length⁻¹·time⁻²)"},
		{"twice", "time min,time s,pressure Pa\n1,2,3", "the column time stands twice in the first line"},
		{"decimal commas between commas", "time min,pressure mTorr\n0,5,100,5", "line 2: there are 4 values, but the first line names 2 columns; write a decimal point, or separate the columns by semicolons"},
		{"a word", "time min,pressure mTorr\n1,100\n2,high", "line 3: “high” is not a number with a unit"},
		{"negative", "time min,pressure mTorr\n1,-5", "line 2: “-5” is below what is possible for pressure (0 Pa)"},
		{"above all measure", "time min,pressure mTorr\n1,1e9", "line 2: “1e9” is above what is possible for pressure"},
		{"a gauge reading", "time min,pressure mTorr\n1,5 psig", "line 2: Reading must be absolute"},
		{"hours or minutes", "time,pressure mTorr\n10:41,5", "line 2: “10:41” may be minutes and seconds, or hours and minutes; write “time m:ss” or “time h:mm” in the first line"},
		{"a time without a unit", "time,pressure mTorr\n10,5", "line 2: “10” has no unit; the first line must say it, such as “time min,pressure mTorr,note”, or the time be written 0:04:30"},
		{"no such time", "time min,pressure mTorr\n1:61,5", "line 2: “1:61” is no time such as 4:30 or 1:04:30"},
		{"too many colons", "time min,pressure mTorr\n1:1:1:1,5", "line 2: “1:1:1:1” is no time such as 4:30 or 1:04:30"},
		{"half a time", "time min,pressure mTorr\n:30,5", "line 2: “:30” is no time such as 4:30 or 1:04:30"},
		{"a brace in the first line", "time a{b,pressure mTorr\n1,5", "“a(b” in the first line is not a unit known here; time min would do"},
		{"a name in braces in a row", "time min,pressure mTorr\n1,{label}", "line 2: “(label}” is not a number with a unit"},
	} {
		rows, fault, _ := copied(c.text)
		if fault == nil || fault.Field != "log" || fault.Text != c.want {
			t.Errorf("%s: got %q, %+v\nwant %q", c.name, rows, fault, c.want)
		}
	}
}

func FuzzTable(f *testing.F) {
	for _, text := range []string{"time min,pressure mTorr\n1,100\n2,200", "Pressure (Torr)\tTIME [s]\n1\t30", "time min;pressure mTorr;note\n0,5;\"1\";\"a;b\"", "time min,pressure mTorr\n,\n\"", "\xff,\x00\n", "time min,pressure mTorr\n1e999,1h30 ± 5 s", "time;pressure mTorr\n23:58:00;1,5\n0:01:00;2", "time h:mm\tpressure mTorr\n1:30\t5"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		a := logger.Answer(declare.Request{ID: "logger", In: []declare.Pair{{Name: "log", Text: text}}})
		if a.Fault != nil {
			if a.Fault.Field != "log" || a.Fault.Text == "" || strings.Contains(a.Fault.Text, "please report it") {
				t.Errorf("%q: %+v", text, a.Fault)
			}
			return
		}
		for _, row := range a.Out[0].Rows {
			if len(row) != 3 || math.IsNaN(row[0].Value) || math.IsInf(row[1].Value, 0) {
				t.Errorf("%q: %+v", text, row)
			}
		}
	})
}
