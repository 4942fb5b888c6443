package calc_test

import (
	"math"
	"os/exec"
	"strconv"
	"strings"
	"testing"

	"blankoff/calc/quantity"
	"blankoff/calc/vacuum"
)

// query is one conversion that GNU units is asked for, and what we say.
type query struct {
	from, to string
	ours     float64
	relative float64
}

// askUnits puts all queries to one process of GNU units: a pair of lines each.
func askUnits(t *testing.T, queries []query) []float64 {
	t.Helper()
	program, err := exec.LookPath("units")
	if err != nil {
		t.Fatal("GNU units is not installed, and the units cannot be checked against it: install the package units (Debian: apt-get install units)")
	}
	var lines strings.Builder
	for _, q := range queries {
		lines.WriteString(q.from + "\n" + q.to + "\n")
	}
	cmd := exec.Command(program, "-t", "-q", "-d", "15")
	cmd.Env = []string{"LC_ALL=C", "HOME=" + t.TempDir()} // nobody's own definitions
	cmd.Stdin = strings.NewReader(lines.String())
	said, err := cmd.Output()
	answers := strings.Fields(string(said))
	if err != nil || len(answers) != len(queries) {
		t.Fatalf("GNU units: %v; %d answers to %d questions:\n%s", err, len(answers), len(queries), said)
	}
	values := make([]float64, len(queries))
	for i, answer := range answers {
		if values[i], err = strconv.ParseFloat(answer, 64); err != nil {
			t.Errorf("GNU units says %q of %q in %q", answer, queries[i].from, queries[i].to)
		}
	}
	return values
}

func compareWithUnits(t *testing.T, queries []query) {
	t.Helper()
	for i, theirs := range askUnits(t, queries) {
		q := queries[i]
		if math.IsNaN(q.ours) || math.Abs(q.ours-theirs) > q.relative*math.Abs(theirs) {
			t.Errorf("%s in %s: we say %.15g, GNU units says %.15g", q.from, q.to, q.ours, theirs)
		}
	}
}

// gnuNames says each of our symbols in the words of GNU units. A symbol that stands
// for a standard volume is compared as the volume flow it is held in.
var gnuNames = map[string]string{
	"%": "percent", "ppm": "ppm", "counts": "1", "m": "meter", "in": "inch", "ft": "foot",
	"L": "liter", "cc": "cm^3", "gal": "gallon", "s": "second", "min": "minute", "h": "hour", "d": "day",
	"g": "gram", "lb": "pound", "oz": "ounce", "mol": "mole", "K": "kelvin", "°C": "degC", "°F": "degF",
	"Pa": "pascal", "bar": "bar", "atm": "atm", "Torr": "torr", "micron": "1e-3 torr", "mmHg": "mmHg", "inHg": "inHg",
	"inH2O": "inH2O", "psi": "psi", "cfm": "cfm", "sccm": "sccm / atm", "slm": "1000 sccm / atm", "lusec": "1e-3 torr liter / second",
	"A": "ampere", "V": "volt", "Ω": "ohm", "W": "watt", "J": "joule", "Wh": "watt hour", "TPI": "1/inch",
}

var gnuPrefixes = map[string]string{"G": "giga", "M": "mega", "k": "kilo", "h": "hecto", "c": "centi", "m": "milli", "µ": "micro", "n": "nano"}

// gnuName finds the words for a symbol with or without a prefix.
func gnuName(symbol string) (string, bool) {
	if name, ok := gnuNames[symbol]; ok {
		return name, true
	}
	for prefix, word := range gnuPrefixes {
		if rest, found := strings.CutPrefix(symbol, prefix); found && gnuNames[rest] != "" {
			return word + gnuNames[rest], true
		}
	}
	return "", false
}

// coherent writes the SI unit of a dimension.
func coherent(d quantity.Dim) string {
	text := "1"
	for i, unit := range []string{"m", "kg", "s", "A", "K", "mol"} {
		if d[i] != 0 {
			text += " " + unit + "^" + strconv.Itoa(int(d[i]))
		}
	}
	return text
}

const rounding = 1e-13 // GNU units prints 15 figures; both sides round a few times

func TestEverySymbolAgreesWithGNUUnits(t *testing.T) {
	var queries []query
	for _, symbol := range quantity.Symbols() {
		if symbol == "AWG" { // a number on a scale of its own; calc/electrical holds the formula to published diameters
			continue
		}
		name, ok := gnuName(symbol)
		if !ok {
			t.Errorf("%s has no words in gnuNames: add them, so that it is checked", symbol)
			continue
		}
		u := quantity.MustUnit(symbol)
		if u.Symbol != symbol {
			t.Errorf("%s is found as %s", symbol, u.Symbol)
		}
		queries = append(queries, query{name, coherent(u.Dim), u.Span(1), rounding})
	}
	compareWithUnits(t, queries)
}

// TestTradeUsageOfMicron holds the two units that the trade rounds: the micrometre of
// mercury is taken as the mTorr, 1.4e-7 away.
func TestTradeUsageOfMicron(t *testing.T) {
	compareWithUnits(t, []query{
		{"micron Hg", "pascal", quantity.MustUnit("micron").To(1), 1.5e-7},
		{"lusec", "pascal m^3/s", quantity.MustUnit("lusec").To(1), 1.5e-7},
	})
}

func TestCompoundUnitsAgreeWithGNUUnits(t *testing.T) {
	table := [][2]string{ // as people type it, as GNU units reads it
		{"mbar·L/s", "millibar liter/second"}, {"mbar.L/s", "millibar liter/second"}, {"mbar*l/s", "millibar liter/second"}, {"mbar l/s", "millibar liter/second"},
		{"mbarl/s", "millibar liter/second"}, {"Torr·L/s", "torr liter/second"}, {"Torr-L/s", "torr liter/second"}, {"mTorr·L/s", "millitorr liter/second"},
		{"micron L/s", "1e-3 torr liter/second"}, {"Pa·m³/s", "pascal m^3/second"}, {"Pa m3/s", "pascal m^3/second"}, {"Pa·m^3·s^-1", "pascal m^3/second"},
		{"Pa·m³·s⁻¹", "pascal m^3/second"}, {"atm·cm³/s", "atm cm^3/second"}, {"atm cc/s", "atm cm^3/second"}, {"atm.cc/min", "atm cm^3/minute"}, {"Pa·L/s", "pascal liter/second"},
		{"mTorr/min", "millitorr/minute"}, {"micron/min", "1e-3 torr/minute"}, {"Pa/min", "pascal/minute"}, {"mbar/h", "millibar/hour"}, {"Torr/s", "torr/second"},
		{"L/s", "liter/second"}, {"L/min", "liter/minute"}, {"lpm", "liter/minute"}, {"m³/h", "m^3/hour"}, {"m3/hr", "m^3/hour"}, {"ft³/min", "foot^3/minute"},
		{"g/h", "gram/hour"}, {"kg/d", "kilogram/day"}, {"mg/s", "milligram/second"}, {"mol/s", "mole/second"}, {"µmol/s", "micromole/second"},
		{"ft³", "foot^3"}, {"cu ft", "foot^3"}, {"in³", "inch^3"}, {"cm3", "cm^3"}, {"mm²", "mm^2"}, {"in2", "inch^2"}, {"m^2", "m^2"},
		{"V/A", "ohm"}, {"V·A", "watt"}, {"A·h", "ampere hour"}, {"kJ/kg", "kilojoule/kilogram"}, {"J/s", "watt"}, {"W/m²", "watt/m^2"},
		{"std cc/min", "sccm/atm"}, {"SCCM", "sccm/atm"}, {"1/s", "1/second"}, {"Ω·m", "ohm m"}, {"mV/K", "millivolt/kelvin"}, {"lbf/in²", "psi"},
	}
	var queries []query
	for _, pair := range table {
		u, known := quantity.FindUnit(pair[0])
		if !known {
			t.Errorf("%s is not known", pair[0])
			continue
		}
		queries = append(queries, query{pair[1], coherent(u.Dim), u.Span(1), rounding})
	}
	compareWithUnits(t, queries)
}

func TestTemperaturesAgreeWithGNUUnits(t *testing.T) {
	var queries []query
	for _, degrees := range []float64{-273.15, -196, -60, -42, -40, -34, -0.01, 0, 0.01, 20, 21, 37, 100, 451, 1000} {
		x := strconv.FormatFloat(degrees, 'g', -1, 64)
		c, f := quantity.MustUnit("°C"), quantity.MustUnit("°F")
		queries = append(queries,
			query{"tempC(" + x + ")", "kelvin", c.To(degrees), rounding},
			query{"tempF(" + strconv.FormatFloat(degrees+200, 'g', -1, 64) + ")", "kelvin", f.To(degrees + 200), rounding},
			query{strconv.FormatFloat(degrees+300, 'g', 17, 64) + " kelvin", "tempC", c.From(degrees + 300), 1e-11},
			query{strconv.FormatFloat(degrees+300, 'g', 17, 64) + " kelvin", "tempF", f.From(degrees + 300), 1e-11})
	}
	for i, theirs := range askUnits(t, queries) { // near the zero of a scale only the absolute difference counts
		if q := queries[i]; math.Abs(q.ours-theirs) > 1e-10 {
			t.Errorf("%s in %s: we say %.15g, GNU units says %.15g", q.from, q.to, q.ours, theirs)
		}
	}
}

func TestStandardAtmosphereAgreesWithGNUUnits(t *testing.T) {
	var queries []query
	for z := -500.0; z <= 11000; z += 250 {
		queries = append(queries, query{"stdatmP(" + strconv.FormatFloat(z, 'f', -1, 64) + " m)", "pascal", vacuum.StandardAtmosphere(z), 2e-5})
	}
	compareWithUnits(t, queries)
}
