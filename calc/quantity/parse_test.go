package quantity_test

import (
	"math"
	"strings"
	"testing"

	. "blankoff/calc/quantity"
)

const torr = 101325.0 / 760

// near compares to the last bits that conversion may cost.
func near(got, want float64) bool {
	return got == want || math.Abs(got-want) <= 1e-13*math.Abs(want)
}

// What people type, and what it is. Conversions of units as such are held against GNU
// units in calc/gnuunits_test.go; here it is the reading of the text that counts.
var read = []struct {
	text string
	kind Kind
	want float64 // SI
	u    float64 // SI, standard; 0 for none
}{
	// Examples of the job: design.md and issue 2.
	{"340 micron", Pressure, 0.340 * torr, 0},
	{"0,02 mbar", Pressure, 2, 0},
	{"1h30", Time, 5400, 0},
	{"11/16 in", Length, 0.0254 * 11 / 16, 0},
	{"1.8 kΩ", Resistance, 1800, 0},
	{"28 L", Volume, 0.028, 0},
	{"24 L ± 1 L", Volume, 0.024, 0.0005},
	{"24.0 L ± 1.0 L", Volume, 0.024, 0.0005},
	{"200 micron", Pressure, 0.2 * torr, 0},
	{"30 min", Time, 1800, 0},
	// Decimal comma, thousands marks, signs.
	{"1,5 mbar", Pressure, 150, 0},
	{"0,020 mbar", Pressure, 2, 0},
	{"2,000 mTorr", Pressure, 2 * torr, 0},
	{"12,345,678 Pa", Pressure, 12345678, 0},
	{"1,234.5 Pa", Pressure, 1234.5, 0},
	{"1'000 Pa", Pressure, 1000, 0},
	{"1’000 Pa", Pressure, 1000, 0},
	{"101 325 Pa", Pressure, 101325, 0},
	{"101 325 Pa", Pressure, 101325, 0},
	{"101 325 Pa", Pressure, 101325, 0},
	{".5 bar", Pressure, 5e4, 0},
	{"+5 Pa", Pressure, 5, 0},
	{"0 Torr", Pressure, 0, 0},
	{"007 Pa", Pressure, 7, 0},
	{"  5   Pa ", Pressure, 5, 0},
	{"5Pa", Pressure, 5, 0},
	{"760Torr", Pressure, 101325, 0},
	// Powers of ten.
	{"1e-5 mbar·L/s", Throughput, 1e-6, 0},
	{"1E3 Pa", Pressure, 1000, 0},
	{"4.1×10⁻⁵ mbar·L/s", Throughput, 4.1e-6, 0},
	{"4.1x10^-5 mbar·L/s", Throughput, 4.1e-6, 0},
	{"4.1 x 10^-5 mbar L/s", Throughput, 4.1e-6, 0},
	{"4.1·10^-5 mbar.L/s", Throughput, 4.1e-6, 0},
	{"4.1*10-5 mbar*l/s", Throughput, 4.1e-6, 0},
	{"5 × 10³ Pa", Pressure, 5000, 0},
	// Fractions and chains.
	{"1 1/8 in", Length, 0.0254 * 1.125, 0},
	{"1-1/8 in", Length, 0.0254 * 1.125, 0},
	{`11/16"`, Length, 0.0254 * 11 / 16, 0},
	{"1/4 in", Length, 0.00635, 0},
	{"1 h 30 min", Time, 5400, 0},
	{"1 hr 30 mins", Time, 5400, 0},
	{"10 min 30 s", Time, 630, 0},
	{"10 min 30", Time, 630, 0},
	{"1h30m", None, 0, 0}, // see refused: m is the metre
	{"2 d 12 h", Time, 216000, 0},
	{"1h30 ± 1 min", Time, 5400, 30},
	{"5 ft 3 in", Length, 63 * 0.0254, 0},
	{"5' 3\"", Length, 63 * 0.0254, 0},
	{"-1 h 30 min", Time, -5400, 0},
	{"-5 ft 3 in", Length, -63 * 0.0254, 0},
	{"1.5 h", Time, 5400, 0},
	{"90 s", Time, 90, 0},
	{"90 sec", Time, 90, 0},
	// Units as they are spelled.
	{"120 mtorr", Pressure, 0.12 * torr, 0},
	{"120 MTORR", Pressure, 0.12 * torr, 0},
	{"340 microns", Pressure, 0.34 * torr, 0},
	{"1 mbar", Pressure, 100, 0},
	{"1 hPa", Pressure, 100, 0},
	{"1000 µbar", Pressure, 100, 0},
	{"1000 μbar", Pressure, 100, 0},
	{"1000 ubar", Pressure, 100, 0},
	{"29.92 in Hg", Pressure, 29.92 * 3386.388640341, 0},
	{"29.92 in. Hg", Pressure, 29.92 * 3386.388640341, 0},
	{`29.92 "Hg`, Pressure, 29.92 * 3386.388640341, 0},
	{"760 mm Hg", Pressure, 760 * 133.322387415, 0},
	{"10 inH₂O", Pressure, 2490.8891, 0},
	{"24 l", Volume, 0.024, 0},
	{"24 litres", Volume, 0.024, 0},
	{"250 cc", Volume, 250e-6, 0},
	{"250 ml", Volume, 250e-6, 0},
	{"8.4 ohm", Resistance, 8.4, 0},
	{"8.4 ohms", Resistance, 8.4, 0},
	{"8.4 Ω", Resistance, 8.4, 0},      // Greek capital omega
	{"8.4 \u2126", Resistance, 8.4, 0}, // the ohm sign
	{"1.8k", Resistance, 1800, 0},
	{"1.8 k", Resistance, 1800, 0},
	{"1.8 k\u2126", Resistance, 1800, 0},
	{"1.8 kohm", Resistance, 1800, 0},
	{"12 MΩ", Resistance, 12e6, 0},
	{"12 Mohm", Resistance, 12e6, 0},
	{"300 mΩ", Resistance, 0.3, 0},
	{"50 sccm", StandardFlow, 50e-6 / 60, 0},
	{"1 slm", StandardFlow, 1e-3 / 60, 0},
	{"3 counts", Ratio, 3, 0},
	{"3 digits", Ratio, 3, 0},
	{"3", Ratio, 3, 0},
	{"20 %", Ratio, 0.2, 0},
	{"20%", Ratio, 0.2, 0},
	{"20 percent", Ratio, 0.2, 0},
	{"20 mTorr/min", PressureRate, 0.02 * torr / 60, 0},
	{"0.0107 mbar·L/s", Throughput, 0.00107, 0},
	// Temperatures are affine, their differences and accuracies are not.
	{"20 °C", Temperature, 293.15, 0},
	{"20 C", Temperature, 293.15, 0},
	{"20 °C.", Temperature, 293.15, 0}, // copied with the full stop of its sentence
	{"20 degC", Temperature, 293.15, 0},
	{"20 deg C", Temperature, 293.15, 0},
	{"−34 °C", Temperature, 239.15, 0},
	{"-34°C", Temperature, 239.15, 0},
	{"68 °F", Temperature, 293.15, 0},
	{"-40 F", Temperature, 233.15, 0},
	{"293.15 K", Temperature, 293.15, 0},
	{"20 °C ± 1 °C", Temperature, 293.15, 0.5},
	{"20 °C ± 1 K", Temperature, 293.15, 0.5},
	{"20 ± 1 °C", Temperature, 293.15, 0.5},
	{"20 °C ± 1", Temperature, 293.15, 0.5},
	{"68 °F ± 1.8 °F", Temperature, 293.15, 0.5},
	{"5 °C", TemperatureDifference, 5, 0},
	{"9 °F", TemperatureDifference, 5, 0},
	{"5 K", TemperatureDifference, 5, 0},
	// Accuracies.
	{"24 ± 1 L", Volume, 0.024, 0.0005},
	{"24 L ± 5 %", Volume, 0.024, 0.0006},
	{"24 L +/- 5%", Volume, 0.024, 0.0006},
	{"24 L +- 1", Volume, 0.024, 0.0005},
	{"24 L ± 500 mL", Volume, 0.024, 0.00025},
	{"24 ± 5 % L", Volume, 0.024, 0.0006},
	{"24 L ± 0 L", Volume, 0.024, 0},
	{"5 % ± 1 %", Ratio, 0.05, 0.005},
	// As we print it ourselves.
	{"0.0224 ± 0.0012 mbar·L/s", Throughput, 0.00224, 0.00006},
	{"(2.24 ± 0.12)×10⁻⁵ mbar·L/s", Throughput, 2.24e-6, 0.06e-6},
	{"(2.24 ± 0.12)×10⁷ Pa", Pressure, 2.24e7, 0.06e7},
	{"−28 inHg", Pressure, -28 * 3386.388640341, 0},
}

func TestRead(t *testing.T) {
	for _, c := range read {
		if c.kind == None {
			continue
		}
		for _, kinds := range [][]Kind{nil, {c.kind}, {Mass, c.kind}} {
			if kinds == nil && c.kind == TemperatureDifference {
				continue // only the place where it stands says that it is a difference
			}
			q, problem := Parse(c.text, kinds...)
			if problem != nil {
				t.Errorf("%q: %s", c.text, problem.Text)
				break
			}
			if q.Kind != c.kind || !near(q.Value, c.want) || !near(q.U, c.u) || q.HasU != (c.u > 0 || strings.Contains(c.text, "± 0")) || q.Gauge || q.Over {
				t.Errorf("%q: got %v %s u %v gauge %v over %v, want %v %s u %v", c.text, q.Value, q.Kind.Name(), q.U, q.Gauge, q.Over, c.want, c.kind.Name(), c.u)
			}
		}
	}
}

func TestReadGauge(t *testing.T) {
	const inHg = 3386.388640341
	for _, c := range []struct {
		text  string
		want  float64
		gauge bool
	}{
		{"-28 inHg gauge", -28 * inHg, true},
		{"−28 inHg gauge", -28 * inHg, true},
		{"-28 inHg (gauge)", -28 * inHg, true},
		{"-28 inHg g", -28 * inHg, true},
		{"-28 inHg(g)", -28 * inHg, true},
		{"28 inHg vacuum", -28 * inHg, true},
		{"28 inHg Vacuum", -28 * inHg, true},
		{"28 inHg VAC", -28 * inHg, true},
		{"28 in Hg vac", -28 * inHg, true},
		{"28 inHg of vacuum", -28 * inHg, true},
		{"-28 inHg vacuum", -28 * inHg, true},
		{"5 psig", 5 * 6894.757293168, true},
		{"5 PSIG", 5 * 6894.757293168, true},
		{"-0.5 barg", -5e4, true},
		{"-50 kPag", -5e4, true},
		{"14.7 psia", 14.7 * 6894.757293168, false},
		{"1 bar abs", 1e5, false},
		{"1 bar absolute", 1e5, false},
		{"1 bara", 1e5, false},
		{"1 bar(a)", 1e5, false},
		{"28 inHg", 28 * inHg, false},
	} {
		q, problem := Parse(c.text, Pressure)
		if problem != nil {
			t.Errorf("%q: %s", c.text, problem.Text)
			continue
		}
		if math.Abs(q.Value-c.want) > 1e-12*math.Abs(c.want) || q.Gauge != c.gauge {
			t.Errorf("%q: got %v gauge %v, want %v gauge %v", c.text, q.Value, q.Gauge, c.want, c.gauge)
		}
	}
}

func TestReadOverRange(t *testing.T) {
	for _, text := range []string{"OL", "ol", "0L", "0.L", "O.L", "O.L.", ".OL", "O L", "∞", "over", "Over-range", "open", "---", "−−−", "OL "} {
		q, problem := Parse(text, Resistance)
		if problem != nil || !q.Over || q.Kind != Resistance {
			t.Errorf("%q: got %+v, %v, want over-range", text, q, problem)
		}
	}
	for _, text := range []string{"0.1", "0 Ω", "0.0 Ω", "1 L", "0.5 L"} {
		if q, _ := Parse(text); q.Over {
			t.Errorf("%q is read as over-range", text)
		}
	}
}

func TestRefused(t *testing.T) {
	for _, c := range []struct {
		text, want string
		kinds      []Kind
	}{
		{"", "nothing is written here", nil},
		{" \t ", "nothing is written here", nil},
		{"three litres", "“three litres” is not a number with a unit", nil},
		{"NaN mbar", "“NaN mbar” is not a number with a unit", nil},
		{"Inf Pa", "“Inf Pa” is not a number with a unit", nil},
		{"-Inf Pa", "“-Inf Pa” is not a number with a unit", nil},
		{"0x10 Pa", "“x10 Pa” is not a unit known here", nil},
		{"1e400 Pa", "“1e400 Pa” is not a number with a unit", nil},
		{"1_000 Pa", "“_000 Pa” is not a unit known here", nil},
		{"5 foo", "“foo” is not a unit known here", nil},
		{"5 mbar/foo", "“mbar/foo” is not a unit known here", nil},
		{"5 mbar/", "“mbar/” is not a unit known here", nil},
		{"5 /", "“/” is not a unit known here", nil},
		{"12 34 mbar", "“12 34 mbar” holds more than one number", nil},
		{"1.2.3 mbar", "“1.2.3 mbar” is not a number with a unit", nil},
		{"1.234,5 mbar", "“1.234,5 mbar” is not a number with a unit", nil},
		{"12,34,567 Pa", "“12,34,567 Pa” is not a number with a unit", nil},
		{"1:30", "“1:30” has a colon; write minutes and seconds as 1 min 30 s, hours as 1h30", nil},
		{"1h30m", "“h30m” is not a unit known here", nil},
		{"30 s 5 min", "“s 5 min” is not a unit known here", nil},
		{"± 5 mbar", "“± 5 mbar” has an accuracy but no value before it", nil},
		{"5 mbar ±", "“5 mbar ±”: after ± an accuracy is needed, such as ± 2 %", nil},
		{"5 mbar ± -1 mbar", "“5 mbar ± -1 mbar”: after ± an accuracy is needed, such as ± 2 %", nil},
		{"5 mbar ± 1 L", "“5 mbar ± 1 L”: the accuracy after ± needs % or a unit of the same kind as the value", nil},
		{"0.02 mbar·L/s ± 1 W", "“0.02 mbar·L/s ± 1 W”: the accuracy after ± needs % or a unit of the same kind as the value", nil},
		{"20 °C ± 5 %", "“20 °C ± 5 %”: a percentage of a temperature has no meaning; write ± 2 K", nil},
		{"5 mpa", `"mpa" can mean MPa or mPa; write the one you mean`, nil},
		{"5 MOHM", `"MOHM" can mean mΩ or MΩ; write the one you mean`, nil},
		{"5 °C²", "“°C²” is not a unit known here", nil},
		{"5 L gauge", "“5 L gauge”: only a pressure can be gauge or absolute; for a dial reading write inHg, as in -28 inHg gauge", nil},
		{"5 gauge", "“gauge” is not a unit known here", nil},
		{"500", "“500” has no unit; a pressure (mass·length⁻¹·time⁻²) is needed here", []Kind{Pressure}},
		{"5 L", "“5 L” is a volume (length³); a pressure (mass·length⁻¹·time⁻²) is needed here", []Kind{Pressure}},
		{"5 mbar", "“5 mbar” is a pressure (mass·length⁻¹·time⁻²); a leak rate (mass·length²·time⁻³) is needed here", []Kind{Throughput}},
		{"5 W", "“5 W” is a power (mass·length²·time⁻³); a leak rate (mass·length²·time⁻³) is needed here", []Kind{Throughput}},
		{"5 L/min", "“5 L/min” is a volume flow rate (length³·time⁻¹); a standard flow (length³·time⁻¹) is needed here", []Kind{StandardFlow}},
		{"5 L", "“5 L” is a volume (length³); an electric current (current) is needed here", []Kind{Current}},
		{"5 L", "“5 L” is a volume (length³); a ratio (a plain number) is needed here", []Kind{Ratio}},
		{"5 mol/kg", "“5 mol/kg” is a quantity (mass⁻¹·amount); a pressure (mass·length⁻¹·time⁻²) is needed here", []Kind{Pressure}},
		{"1h30", "“1h30” is a time (time); a length (length) is needed here", []Kind{Length}},
		{strings.Repeat("9", 201), "this is too long to be one value", nil},
		{strings.Repeat("5 Pa ", 1<<18), "this is too long to be one value", nil},
		{strings.Repeat("9", 150) + "e299 MPa", "“" + strings.Repeat("9", 40) + "…” is not a number with a unit", nil},
		{"999999999e299 MPa", "“999999999e299 MPa” is too large a number", nil},
		{"99999999e299 d 1 h", "“99999999e299 d 1 h” is too large a number", nil},
		{"1 MPa ± 999999999e299 MPa", "“1 MPa ± 999999999e299 MPa”: the accuracy is too large a number", nil},
		{"5 Pa\x00", "“Pa\x00” is not a unit known here", nil},
		{"<b>5</b>", "“<b>5</b>” is not a number with a unit", nil},
	} {
		q, problem := Parse(c.text, c.kinds...)
		if problem == nil {
			t.Errorf("%.60q is read as %v %s, want %q", c.text, q.Value, q.Unit.Symbol, c.want)
			continue
		}
		if problem.Text != c.want {
			t.Errorf("%.60q: got %q, want %q", c.text, problem.Text, c.want)
		}
	}
}

// TestProblemPointsIntoTheText: verify puts a caret there, so it must be an offset in
// what the writer wrote, not in the tidied text.
func TestProblemPointsIntoTheText(t *testing.T) {
	for _, c := range []struct {
		text string
		at   int
	}{
		{"340 foo", 4}, {"  340 foo", 6}, {"−28 foo", 6}, {"\u202f1\u202f000 foo", 3 + 1 + 3 + 3 + 1}, {"24 L ± foo", 5}, {"24   L  ±  foo", 8}, {"5 foo ± 1 foo", 2}, {"  three", 2}, {"  ", 1},
	} {
		_, problem := Parse(c.text)
		if problem == nil || problem.At != c.at {
			t.Errorf("%q: got %+v, want offset %d", c.text, problem, c.at)
		}
	}
}

// TestThousandsAreSaid: half the world reads 2,000 as two.
func TestThousandsAreSaid(t *testing.T) {
	q, _ := Parse("2,000 mTorr")
	if want := "2,000 is read as a number of thousands; write 2.000 if the comma is a decimal comma"; q.Note != want {
		t.Errorf("got %q, want %q", q.Note, want)
	}
	for _, text := range []string{"0,020 mbar", "2,00 mbar", "2.000 mbar", "2,000,000 Pa", "2000 Pa"} {
		if q, _ := Parse(text); q.Note != "" {
			t.Errorf("%q: unneeded note %q", text, q.Note)
		}
	}
}

func TestFiguresWritten(t *testing.T) {
	for text, want := range map[string]int{"340 micron": 2, "340. micron": 2, "340.0 micron": 4, "0.0224 mbar": 3, "2,000 Pa": 1, "0 Pa": 1, "4.10×10⁻⁵ mbar": 3, "0,020 mbar": 2} {
		if q, problem := Parse(text); problem != nil || q.Figures != want {
			t.Errorf("%q: got %d figures (%v), want %d", text, q.Figures, problem, want)
		}
	}
}

// TestParseNumber: whatever the sign of the accuracy, the value stays the plain number that was written. By hand: U is half
// of what stands behind ±, and a fifth of 4.5 is 0.9.
func TestParseNumber(t *testing.T) {
	for _, c := range []struct {
		text     string
		value, u float64
	}{
		{"4.5", 4.5, 0},
		{"4.5 ± 20 %", 4.5, 0.45},
		{"4.5±20%", 4.5, 0.45},
		{"4,5 +/- 20 %", 4.5, 0.45},
		{"(4.5 ± 20 %)", 4.5, 0.45},
		{"-4.5 ± 20 %", -4.5, 0.45},
		{"4.5 ± 0.9", 4.5, 0.45},
		{"4.5e3 ± 20 %", 4500, 450},
		{"1/4 ± 10 %", 0.25, 0.0125},
		{"0 ± 20 %", 0, 0},
		// Where the value has the sign itself, the accuracy is in it too.
		{"450 % ± 90 %", 4.5, 0.45},
		{"(450 ± 90) %", 4.5, 0.45},
		{"450 %", 4.5, 0},
		{"3 ± 1 counts", 3, 0.5},
	} {
		q, problem := ParseNumber(c.text)
		if problem != nil {
			t.Errorf("%q: %s", c.text, problem.Text)
		} else if !near(q.Value, c.value) || !near(q.U, c.u) || q.Kind != Ratio {
			t.Errorf("%q: %v, u %v, want %v, %v", c.text, q.Value, q.U, c.value, c.u)
		}
	}
	for _, text := range []string{"", "4.5 ± %", "4.5 ± x %", "± 20 %", "4.5 ± -20 %", "4.5 mTorr ± 20 %"} {
		if q, problem := ParseNumber(text); problem == nil {
			t.Errorf("%q is read as %v", text, q.Value)
		}
	}
	// Parse is not told that a plain number is wanted.
	if q, _ := Parse("20 ± 2 %", Ratio); !near(q.Value, 0.2) || !near(q.U, 0.01) {
		t.Errorf("20 ± 2 %% is %v, u %v", q.Value, q.U)
	}
}
