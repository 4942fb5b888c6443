package calc_test

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"blankoff/calc"
	"blankoff/calc/constant"
	"blankoff/calc/declare"
	"blankoff/calc/uncertainty"
)

// row is one line of testdata/reference; see the README there for the columns.
type row struct {
	id, quantity, unit, provenance, source string
	in                                     map[string]string
	expected                               string
	relative, absolute                     float64
}

func readReference(t *testing.T, name string) []row {
	t.Helper()
	file, err := os.Open(filepath.Join("..", "testdata", "reference", name))
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	lines, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	var rows []row
	for _, f := range lines[1:] {
		r := row{id: f[0], quantity: f[1], expected: f[3], unit: f[4], provenance: f[7], source: f[8], in: map[string]string{}}
		for _, part := range strings.Split(f[2], ";") {
			name, value, _ := strings.Cut(part, "=")
			r.in[name] = value
		}
		r.relative, _ = strconv.ParseFloat(f[5], 64)
		r.absolute, _ = strconv.ParseFloat(f[6], 64)
		rows = append(rows, r)
	}
	return rows
}

// check compares in the row's own tolerance.
func (r row) check(t *testing.T, got float64) {
	t.Helper()
	want, err := strconv.ParseFloat(r.expected, 64)
	if err != nil {
		t.Fatalf("%s: %q is not a number", r.id, r.expected)
	}
	if r.relative == 0 && r.absolute == 0 {
		t.Fatalf("%s: the row has no tolerance", r.id)
	}
	if math.IsNaN(got) || math.Abs(got-want) > r.relative*math.Abs(want)+r.absolute {
		t.Errorf("%s %s %v: got %.13g %s, want %s (rel %g, abs %g); %s: %s", r.id, r.quantity, r.in, got, r.unit, r.expected, r.relative, r.absolute, r.provenance, r.source)
	}
}

// number is the leading number of an input of the row.
func (r row) number(t *testing.T, name string) float64 {
	t.Helper()
	text, _, _ := strings.Cut(r.in[name], " ")
	x, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatalf("%s: input %s is %q", r.id, name, r.in[name])
	}
	return x
}

// ask runs a calculator as the page does; in holds name, text, name, text...
func ask(t *testing.T, id string, out string, unit string, in ...string) declare.Given {
	t.Helper()
	request := declare.Request{ID: id, Out: []declare.Pair{{Name: out, Text: unit}}, In: pairs(in...)}
	if unit == "" {
		request.Out = nil
	}
	answer := calc.Answer(request)
	if answer.Fault != nil {
		t.Fatalf("%s %v: field %q: %s", id, in, answer.Fault.Field, answer.Fault.Text)
	}
	for _, given := range answer.Out {
		if given.ID == out {
			return given
		}
	}
	t.Fatalf("%s %v gives no %s", id, in, out)
	return declare.Given{}
}

func pairs(in ...string) []declare.Pair {
	var list []declare.Pair
	for i := 0; i < len(in); i += 2 {
		list = append(list, declare.Pair{Name: in[i], Text: in[i+1]})
	}
	return list
}

func text(x float64, unit string) string { return strconv.FormatFloat(x, 'g', 17, 64) + " " + unit }

// exact switches off every uncertainty of the rise test, and its ceiling.
var exact = []string{"gauge", "0 %", "step", "0 Pa", "ceiling", "200 kPa"}

// checked says how a row of a kind is put to the public calculators.
var checked = map[string]func(t *testing.T, r row) float64{
	"convert_pressure": func(t *testing.T, r row) float64 {
		return ask(t, "pressure", "absolute", r.in["to_unit"], "value", r.in["value"]).Value
	},
	"altitude_to_pressure": func(t *testing.T, r row) float64 {
		z := r.number(t, "z")
		if r.in["altitude_kind"] == "geopotential" { // the calculator takes what a map shows, the geometric height
			z = 6356766 * z / (6356766 - z)
		}
		return ask(t, "pressure", "ambient", r.unit, "value", "1 Pa", "altitude", text(z, "m")).Value
	},
	"gauge_vacuum_to_absolute": func(t *testing.T, r row) float64 {
		return ask(t, "pressure", "absolute", r.unit, "value", "-"+r.in["vacuum"]+" gauge", "ambient", r.in["ambient"]).Value
	},
	"gauge_vacuum_to_absolute_at_altitude": func(t *testing.T, r row) float64 {
		return ask(t, "pressure", "absolute", r.unit, "value", r.in["vacuum"]+" vacuum", "altitude", r.in["z"]).Value
	},
	"convert_throughput": func(t *testing.T, r row) float64 {
		return ask(t, "throughput", "leak", r.in["to_unit"], "rate", r.in["value"]).Value
	},
	"sccm_to_molar": func(t *testing.T, r row) float64 {
		return ask(t, "throughput", "molar", r.unit, "rate", r.in["flow"], "reference", r.in["T_ref"]).Value
	},
	"sccm_to_pV": func(t *testing.T, r row) float64 {
		return ask(t, "throughput", "leak", r.unit, "rate", r.in["flow"], "reference", r.in["T_ref"], "gas-temperature", r.in["T_gas"]).Value
	},
	"pV_to_sccm": func(t *testing.T, r row) float64 {
		return ask(t, "throughput", "standard", r.unit, "rate", r.in["Q"], "reference", r.in["T_ref"], "gas-temperature", r.in["T_gas"]).Value
	},
	"pV_to_molar": func(t *testing.T, r row) float64 {
		return ask(t, "throughput", "molar", r.unit, "rate", r.in["Q"], "gas-temperature", r.in["T_gas"]).Value
	},
	"pV_to_mass_rate": func(t *testing.T, r row) float64 {
		gas := map[string]string{"28.9647 g/mol": "air", "18.015268 g/mol": "water"}[r.in["M"]]
		return ask(t, "throughput", gas, r.unit, "rate", r.in["Q"], "gas-temperature", r.in["T_gas"]).Value
	},
	"rate_of_rise_leak": func(t *testing.T, r row) float64 {
		return ask(t, "rise-test", "leak", r.unit, append(exact, "volume", r.in["V"], "start", r.in["p1"], "end", r.in["p2"], "time", r.in["t"])...).Value
	},
	// Two calculators in a row. The row was made with R = 8.314472 J/(mol·K), which
	// differs from today's value by more than the row's tolerance.
	"rate_of_rise_molar": func(t *testing.T, r row) float64 {
		leak := ask(t, "rise-test", "leak", "Pa·m³/s", append(exact, "volume", r.in["V"], "start", r.in["p1"], "end", r.in["p2"], "time", r.in["t"])...).Value
		molar := ask(t, "throughput", "molar", r.unit, "rate", text(leak, "Pa·m³/s"), "gas-temperature", r.in["T1"]).Value
		return molar * constant.Gas / r.number(t, "R")
	},
	// The inverse of the rise test: the allowed rise, put in, must give the limit back.
	"allowed_pressure_rise": func(t *testing.T, r row) float64 {
		leak := ask(t, "rise-test", "leak", "mbar·L/s", append(exact, "volume", r.in["V"], "start", "0 Pa", "end", r.expected+" "+r.unit, "time", r.in["t"])...).Value
		want, _ := strconv.ParseFloat(r.expected, 64)
		return want * leak / r.number(t, "Q_limit")
	},
	// The continuity check combines the error at the reading with that at 0 Ω, which is
	// the counts alone. Volts and amperes are typed as ohms: the rule knows no unit.
	"dmm_error_limit": func(t *testing.T, r row) float64 {
		percent, counts, digit := r.in["pct_reading"], "1", 0.0
		if r.in["counts"] != "" {
			counts, digit = r.in["counts"], r.number(t, "resolution")
		} else { // a share of the range instead of counts
			digit = r.number(t, "pct_range") / 100 * r.number(t, "range")
		}
		u := ask(t, "continuity", "resistance", "", "reading", text(r.number(t, "reading"), "Ω"), "leads", "0 Ω",
			"percent", percent, "counts", counts, "resolution", text(digit, "Ω")).U
		n, _ := strconv.ParseFloat(counts, 64)
		return math.Sqrt(math.Pow(uncertainty.K*u, 2) - math.Pow(n*digit, 2))
	},
	// A display step of twice the half width, at both readings of a rise in 1 m³ over 1 s.
	"rectangular_standard_uncertainty": func(t *testing.T, r row) float64 {
		half := r.number(t, "half_width")
		u := ask(t, "rise-test", "leak", "Pa·m³/s", "volume", "1 m³ ± 0 %", "start", "1 Pa", "end", "1 Pa", "time", "1 s",
			"gauge", "0 %", "ceiling", "200 kPa", "step", text(2*half, "Pa")).U
		return u / math.Sqrt2
	},
	"standard_uncertainty_from_expanded": func(t *testing.T, r row) float64 {
		return ask(t, "rise-test", "leak", "Pa·m³/s", append(exact, "volume", "1 m³ ± "+text(r.number(t, "U"), "m³"), "start", "1 Pa", "end", "2 Pa", "time", "1 s")...).U
	},
	// Up to four contributions enter a rise of 1 Pa in 1 m³ over 1 s with factor 1
	// each, through ± of volume, start and end and the accuracy of the gauge; the six
	// of EA-4/02 S2 only fit the function itself.
	"combined_standard_uncertainty": func(t *testing.T, r row) float64 {
		var u []float64
		for i := 1; r.in["u"+strconv.Itoa(i)] != ""; i++ {
			u = append(u, r.number(t, "u"+strconv.Itoa(i)))
		}
		if len(u) > 4 {
			return uncertainty.Combine(u...)
		}
		const small = 1e-4 // keeps the gauge accuracy under 100 %
		scaled := [4]float64{}
		for i := range u {
			scaled[i] = uncertainty.K * small * u[i]
		}
		got := ask(t, "rise-test", "leak", "Pa·m³/s", "volume", "1 m³ ± "+text(scaled[0], "m³"), "start", "100 Pa ± "+text(scaled[1], "Pa"),
			"end", "101 Pa ± "+text(scaled[2], "Pa"), "gauge", text(100*scaled[3], "%"), "time", "1 s", "step", "0 Pa").U
		return got / small
	},
}

// laterRows are the rows that nothing computes, with the reason.
var laterRows = map[string]string{
	"03-O005": "a published limit, not a computation: content uses it",
	"03-O006": "a published limit, not a computation: content uses it",
	"12-O013": "triangular distribution: no calculator has an influence of that shape",
	"12-O019": "second-order terms: propagation is first order, checked against Monte Carlo",
}

// topic is one table of testdata/reference: how many rows it has (a table that loses
// rows must not pass unseen), how a row of each quantity is put to the public
// calculators, which rows are checked whole by a test of their own, and which are left
// out, with the reason.
type topic struct {
	file    string
	rows    int
	numbers map[string]func(t *testing.T, r row) float64
	whole   map[string]func(t *testing.T, r row) // rows whose expected value is no single number
	left    map[string]string
}

// topics is added to by the file of each topic.
var topics = []topic{
	{file: "01_pressure_units.csv", rows: 58, numbers: checked},
	{file: "02_throughput_units.csv", rows: 40, numbers: checked},
	{file: "03_rate_of_rise.csv", rows: 15, numbers: checked, left: laterRows},
	{file: "12_uncertainty.csv", rows: 35, numbers: checked, left: laterRows},
}

// topicOf registers the table of a topic; its return value lets a var do so.
func topicOf(t topic) bool {
	topics = append(topics, t)
	return true
}

func TestEveryReferenceRowIsMetOrListed(t *testing.T) {
	seen := map[string]bool{}
	for _, topic := range topics {
		rows := readReference(t, topic.file)
		if len(rows) != topic.rows {
			t.Errorf("%s has %d rows, want %d: say so in its topic if that is meant", topic.file, len(rows), topic.rows)
		}
		for _, r := range rows {
			if seen[r.id] {
				t.Errorf("%s stands twice", r.id)
			}
			seen[r.id] = true
			run, whole, listed := topic.numbers[r.quantity], topic.whole[r.quantity], topic.left[r.id] != ""
			switch {
			case listed && (run != nil || whole != nil):
				t.Errorf("%s is listed as left out, but %s is checked", r.id, r.quantity)
			case listed:
			case run != nil:
				t.Run(r.id, func(t *testing.T) { r.check(t, run(t, r)) })
			case whole != nil:
				t.Run(r.id, func(t *testing.T) { whole(t, r) })
			default:
				t.Errorf("%s: nothing checks %s, and nothing says why", r.id, r.quantity)
			}
		}
	}
	for _, topic := range topics {
		for id := range topic.left {
			if !seen[id] {
				t.Errorf("%s is listed as left out, and is in no table", id)
			}
		}
	}
}

func TestGUMComponentsCombine(t *testing.T) {
	for _, r := range readReference(t, "12_uncertainty.csv") {
		if r.quantity != "combined_standard_uncertainty" {
			continue
		}
		var u []float64
		for i := 1; r.in["u"+strconv.Itoa(i)] != ""; i++ {
			u = append(u, r.number(t, "u"+strconv.Itoa(i)))
		}
		r.check(t, uncertainty.Combine(u...))
	}
}
