package calc_test

import (
	"math"
	"math/rand/v2"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"

	"blankoff/calc"
	"blankoff/calc/declare"
	"blankoff/calc/quantity"
)

// TestAnswersInUnitsOfChoice: asked in other units, every calculator says the same: its results, its tables and its verdict are
// those of the plain answer, and each result of a kind that was named is in the unit that was named for it, or in the one beside it.
func TestAnswersInUnitsOfChoice(t *testing.T) {
	choice := map[quantity.Kind]string{
		quantity.Pressure: "Pa", quantity.PressureRate: "Pa/min", quantity.Throughput: "Torr·L/s",
		quantity.Temperature: "°F", quantity.Length: "in", quantity.Volume: "gal",
	}
	var units []declare.Pair
	for kind, symbol := range choice {
		units = append(units, declare.Pair{Name: kind.Name(), Text: symbol})
	}
	seen := map[quantity.Kind]int{}
	for _, c := range calc.All() {
		plain := calc.Answer(declare.Request{ID: c.ID, In: c.Example.In, Plot: true})
		other := calc.Answer(declare.Request{ID: c.ID, In: c.Example.In, Plot: true, Units: units})
		if plain.Fault != nil || other.Fault != nil || len(plain.Out) != len(other.Out) || plain.Verdict.Is != other.Verdict.Is {
			t.Errorf("%s: %v %v, %s and %s", c.ID, plain.Fault, other.Fault, plain.Verdict.Is, other.Verdict.Is)
			continue
		}
		for i, given := range other.Out {
			if was := plain.Out[i]; given.SI != was.SI || !alike(given.U*span(given.Unit), was.U*span(was.Unit)) {
				t.Errorf("%s: %+v is not %+v", c.ID, given, was)
			}
			if symbol, named := choice[given.Kind]; named && given.HasValue {
				if seen[given.Kind]++; given.Unit != symbol && !(symbol == "gal" && given.Unit == "in³" || symbol == "in" && given.Unit == "ft") {
					t.Errorf("%s: %s is in %s, want %s", c.ID, given.ID, given.Unit, symbol)
				}
			}
			for j, column := range given.Columns {
				if column.Kinds == nil {
					continue
				}
				was := plain.Out[i].Columns[j]
				if symbol, named := choice[column.Kinds[0]]; named && column.Unit != symbol {
					t.Errorf("%s: column %s is in %s, want %s", c.ID, column.ID, column.Unit, symbol)
				}
				for k, row := range given.Rows {
					si, before := quantity.MustUnit(column.Unit).To(row[j].Value), quantity.MustUnit(was.Unit).To(plain.Out[i].Rows[k][j].Value)
					if !alike(si, before) {
						t.Errorf("%s: %s is %v in SI, was %v", c.ID, column.ID, si, before)
					}
				}
			}
		}
	}
	for kind := range choice {
		if seen[kind] == 0 {
			t.Errorf("no result of any example is %s", kind.Describe())
		}
	}
	for _, wrong := range []declare.Pair{{Name: "pressure", Text: "min"}, {Name: "pressure", Text: "furlong"}, {Name: "<b>", Text: "Pa"}} {
		if a := calc.Answer(declare.Request{ID: "pressure", In: []declare.Pair{{Name: "value", Text: "1 Pa"}}, Units: []declare.Pair{wrong}}); a.Fault == nil || a.Fault.Field != "units" {
			t.Errorf("%v: %+v", wrong, a)
		}
	}
}

func span(symbol string) float64 {
	if symbol == "" {
		return 1
	}
	return quantity.MustUnit(symbol).Span(1)
}

func alike(a, b float64) bool {
	return a == b || math.Abs(a-b) <= 1e-12*math.Max(math.Abs(a), math.Abs(b))
}

// preset is what a page asks for when its reader chose it (site/units.ts), with the companions of build/bundle/choices.go.
type preset struct {
	name  string
	units []declare.Pair
	also  []string
}

var presets = [2]preset{
	{"SI", pairs("pressure", "Pa", "rate of pressure change", "Pa/min", "leak rate", "Pa·m³/s", "temperature", "°C", "length", "mm", "volume", "L"),
		[]string{"kPa", "m", "mL", "K"}}, // a kelvin is a difference of °C
	{"US shop", pairs("pressure", "micron", "rate of pressure change", "micron/min", "leak rate", "Torr·L/s", "temperature", "°F", "length", "in", "volume", "gal"),
		[]string{"Torr", "ft", "in³"}},
}

// staying are the parts of texts that keep their unit whatever the reader chose. Calculators is a regular expression of IDs.
var staying = []struct{ calculators, part, why string }{
	{".", `“[^”]*”`, "what is quoted was typed, or is a name, or a first line to be typed: a logger writes in its own unit"},
	{".", `has no unit: write .*`, "asks in which unit a number was read: an instrument shows its own"},
	{".", `\S+ would do$`, "says how to write a unit"},
	{".", `-28 inHg gauge( ± 0\.5 inHg)?`, "shows how a dial is written, which has its own unit"},
	{"balance|rise-test", `^in SI units: .*`, "says so"},
	{"throughput|solvent-vapour|vapour-volume", `^.*8\.314 J/\(mol·K\)[^=]*(= [^=]* (Pa·m³/s|m³|L) = )?`, "R is in joules, so the line stays in SI units; the result in the reader's unit follows"},
	{"energy", `2\.05 kJ/\(kg·K\) × [\d,.]+ K `, "the heat of a kilogram and a kelvin"},
	{"ice-floor", `= [\d.]+ K: `, "the formula takes kelvins"},
	{"thermistor", `; T = [\d.]+ K = `, "the formula gives kelvins"},
	{"thermistor", `^β = .*|^Beta .*|[\d,.]+( ± [\d,.]+)? K$`, "beta is told in kelvins by every maker, and the formula takes them"},
	{"cord-drop", `^A = π/4 \(0\.127 mm · 92|^R = 2 ρ l .*`, "the gauge gives mm² by a diameter in mm; α counts for each kelvin from 20 °C on"},
	{"net-speed", `(× \(.*|Q/C = .*)(Pa|micron)·L/s`, "the flow counts in the unit of the pressures beside it, else no line could be redone by hand"},
	{"gauge-compare", `a reading in \S+ taken for \S+`, "is about those units"},
	{"rtd|thermistor", `[Rr]esistance at (0|25) °C`, "is the name of an entry"},
	{"length", `^.* mm = .* in and|(^|or |nearest is )(\d+ )?[\d/.]+ (mm|in)\b`, "names a spanner, or tells a length in both systems, as it was asked to"},
}

// foreign lists the texts of an answer that speak in a unit which is neither chosen nor typed, and may not stay.
func foreign(c *declare.Calculator, r declare.Request, a declare.Answer, p preset, used map[string]int) []string {
	allowed := slices.Clone(p.also)
	for _, pair := range p.units {
		allowed = append(allowed, pair.Text)
	}
	typed := typedIn(c, r)
	var list []string
	for _, line := range sentences(a, !c.Converts) {
		bare := line
		for i := range staying {
			if kept := stayingParts[i]; kept[0].MatchString(c.ID) && kept[1].MatchString(bare) {
				bare = kept[1].ReplaceAllString(bare, "…")
				used[staying[i].part]++
			}
		}
		for _, s := range saidIn(bare) {
			if !slices.Contains(allowed, s.unit) && !typed[s] {
				list = append(list, p.name+": “"+s.number+" "+s.unit+"” in: "+line)
			}
		}
		if a.Fault == nil && strings.ContainsAny(line, "{}[]") {
			list = append(list, "a mark was left in: "+line)
		}
	}
	return list
}

var stayingParts = func() [][2]*regexp.Regexp {
	var list [][2]*regexp.Regexp
	for _, s := range staying {
		list = append(list, [2]*regexp.Regexp{regexp.MustCompile(`^(` + s.calculators + `)`), regexp.MustCompile(s.part)})
	}
	return list
}()

// asked are the requests of the generic tests for a calculator, and generated ones, each with its entries disturbed.
func asked(c *declare.Calculator, spread []declare.Request) []declare.Request {
	var list []declare.Request
	for _, base := range append(requests(c), spread...) {
		list = append(list, disturbed(c, base)...)
	}
	random := rand.New(rand.NewPCG(41, 42))
	for range 600 {
		for _, r := range []declare.Request{randomRise(random), randomContinuity(random), {ID: "test-plan", In: randomPlan(random)},
			randomBalance(random), randomProbe(random), randomThread(random), randomHexagon(random)} {
			if r.ID == c.ID {
				list = append(list, r)
			}
		}
	}
	return list
}

// TestSentencesFollowTheUnitsOfChoice: who chose units finds no other one in any text of an answer, be it a verdict, a line of
// working, a caution, a refusal, a table or a plot, but those that were typed and those that stay for a reason.
func TestSentencesFollowTheUnitsOfChoice(t *testing.T) {
	spread, used := spreads(t), map[string]int{}
	for _, c := range calc.All() {
		told := map[string]bool{}
		for _, r := range asked(c, spread[c.ID]) {
			for _, p := range presets {
				r.Units, r.Plot = p.units, true
				for _, found := range foreign(c, r, calc.Answer(r), p, used) {
					if len(told) < 10 && !told[found] {
						told[found] = true
						t.Errorf("%s %.300v: %s", c.ID, r.In, found)
					}
				}
			}
		}
	}
	for _, s := range staying {
		if used[s.part] == 0 {
			t.Errorf("%s: nothing stays as %s any more", s.calculators, s.part)
		}
	}
}

// TestSentencesSayTheSameInAllUnits: the quantities of every text, turned back to SI, are the same in two choices of units
// within half of the last figure of each.
func TestSentencesSayTheSameInAllUnits(t *testing.T) {
	spread, compared := spreads(t), 0
	for _, c := range calc.All() {
		told := 0
		for _, r := range asked(c, spread[c.ID]) {
			r.Units = presets[0].units
			si := sentences(calc.Answer(r), false)
			r.Units = presets[1].units
			us := sentences(calc.Answer(r), false)
			if len(si) != len(us) {
				t.Errorf("%s %.300v: %d texts and %d", c.ID, r.In, len(si), len(us))
				continue
			}
			for i := range si {
				n, wrong := sameSaid(si[i], us[i])
				if compared += n; wrong != "" && told < 10 {
					told++
					t.Errorf("%s: %s:\n%s\n%s", c.ID, wrong, si[i], us[i])
				}
			}
		}
	}
	if compared < 50_000 {
		t.Errorf("only %d quantities were compared", compared)
	}
}

// sameSaid compares the quantities of two texts, and tells how many it compared.
func sameSaid(one, other string) (compared int, wrong string) {
	a, b := saidIn(one), saidIn(other)
	if len(a) != len(b) {
		if strings.Contains(one, "8.314 J/") { // the unit of choice was added, or is the line's own
			return 0, ""
		}
		return 0, strconv.Itoa(len(a)) + " quantities and " + strconv.Itoa(len(b))
	}
	share := 0.501
	if strings.Contains(one, "of it, or the same length of") {
		share = 1 // what passes is rounded down
	}
	for i := range a {
		x, y := a[i], b[i]
		if x == y || x.number == "" || y.number == "" {
			continue
		}
		compared++
		if !x.is(y, share) {
			return compared, x.number + " " + x.unit + " is not " + y.number + " " + y.unit
		}
	}
	return compared, ""
}

// is tells whether two quantities are one, as values or as differences, each within a share of its last figure.
func (s said) is(other said, share float64) bool {
	a, da, stepA, okA := s.read()
	b, db, stepB, okB := other.read()
	if !okA || !okB || len(a) != len(b) {
		return false
	}
	room := (stepA + stepB) * share
	same := func(x, y float64) bool { return math.Abs(x-y) <= room+1e-9*math.Abs(x) }
	for i := range a {
		if !same(a[i], b[i]) && !same(da[i], db[i]) {
			return false
		}
	}
	return true
}

var figures = regexp.MustCompile(`[−-]?[\d.,]*\d`)

// read gives the numbers of a quantity in SI units as values and as differences, and what its last figure counts: the value and
// what stands behind ± end at one place. Noughts at the end of a whole number say nothing, but no number is cruder than a
// twentieth of itself.
func (s said) read() (values, spans []float64, step float64, ok bool) {
	unit, known := quantity.FindUnit(strings.TrimSuffix(s.unit, "s"))
	if !known {
		if unit, known = quantity.FindUnit(s.unit); !known {
			return nil, nil, 0, false
		}
	}
	parts := strings.Split(s.number, " ± ")
	power := 1.0
	if strings.HasPrefix(s.number, "(") {
		power = powerOf(s.number)
	}
	for i, part := range parts {
		number := strings.ReplaceAll(strings.Replace(figures.FindString(strings.SplitN(part, "×", 2)[0]), "−", "-", 1), ",", "")
		x, err := strconv.ParseFloat(number, 64)
		if err != nil {
			return nil, nil, 0, false
		}
		scale := power
		if !strings.HasPrefix(s.number, "(") {
			scale = powerOf(part)
		}
		last := scale
		if _, decimals, has := strings.Cut(number, "."); has {
			last *= math.Pow(10, -float64(len(decimals)))
		} else {
			whole := strings.TrimLeft(number, "-")
			last *= math.Pow(10, float64(len(whole)-len(strings.TrimRight(whole, "0"))))
			last = math.Max(scale, math.Min(last, math.Abs(x*scale)/20))
		}
		if i > 0 { // two figures stand behind ±
			last = math.Pow(10, math.Floor(math.Log10(x*scale)+1e-9)-1)
		}
		x *= scale
		if step = math.Max(step, unit.Span(last)); i == 0 && !strings.HasPrefix(part, "± ") {
			values = append(values, unit.To(x))
		} else {
			values = append(values, unit.Span(x))
		}
		spans = append(spans, unit.Span(x))
	}
	return values, spans, step, true
}

func powerOf(text string) float64 {
	if _, exponent, has := strings.Cut(text, "e"); has {
		n, _ := strconv.Atoi(exponent)
		return math.Pow(10, float64(n))
	}
	_, exponent, has := strings.Cut(text, "×10")
	if !has {
		return 1
	}
	n := 0
	for _, r := range exponent {
		if at := strings.IndexRune("⁰¹²³⁴⁵⁶⁷⁸⁹", r); at >= 0 {
			n = 10*n + utf8.RuneCountInString("⁰¹²³⁴⁵⁶⁷⁸⁹"[:at])
		}
	}
	if strings.HasPrefix(exponent, "⁻") {
		n = -n
	}
	return math.Pow(10, float64(n))
}

// TestForeignUnitsAreSeen, else the tests above would pass whatever is said.
func TestForeignUnitsAreSeen(t *testing.T) {
	c := calc.Find("balance")
	for text, seen := range map[string]bool{
		"over 350 mTorr": true, "(1.2 ± 0.3)×10⁻⁵ mbar": true, "at −12 °C, or": true, "in mTorr": true, "0.3 mbar·L/s": true, "3 mm long": true, "5 K more": true,
		"350 micron": false, "8.314 J/(mol·K)": false, "3 mm²": false, "3 m³/h": false, "8 mV": false, "5 in": false, "6 L/s": false, "7 mTorr": false,
	} {
		a := declare.Answer{Verdict: declare.Verdict{Text: text}}
		if got := foreign(c, declare.Request{In: pairs("limit", "7 mTorr")}, a, presets[1], map[string]int{}); (len(got) > 0) != seen {
			t.Errorf("%q: %q", text, got)
		}
	}
	for _, c := range []struct {
		one, other string
		same       bool
	}{
		{"350 mTorr", "46.66 Pa", true}, {"350 mTorr", "46.7 Pa", true}, {"350 mTorr", "48 Pa", false}, {"20.0 ± 1.0 °C", "68.0 ± 1.8 °F", true}, {"20.0 ± 1.0 °C", "68.0 ± 33.8 °F", false},
		{"± 10 K", "± 18 °F", true}, {"± 10 K", "± 50 °F", false}, {"10 K", "18 °F", true}, {"(2.24 ± 0.12)×10⁻⁵ mbar", "0.00224 ± 0.00012 Pa", true}, {"1e-9 Pa", "7.5×10⁻⁹ micron", true}, {"1e-9 Pa", "7.5×10⁻⁶ micron", false}, {"(2.24 ± 0.12)×10⁻⁵ mbar", "0.0224 ± 0.00012 Pa", false},
		{"2 mm and 3 mm", "0.0787 in", false},
	} {
		if _, wrong := sameSaid(c.one, c.other); (wrong == "") != c.same {
			t.Errorf("%s and %s: %q", c.one, c.other, wrong)
		}
	}
}

// FuzzUnits asks any calculator with an odd entry, in an odd unit: nothing but the words may depend on the unit.
func FuzzUnits(f *testing.F) {
	for i, text := range []string{"5", "{", "}", "{5 Pa}", "[mTorr]", "5 {Pa", "-3 inHg gauge", "20 °C ± 30 %", "Δ5 K", "time min,pressure {\n1,2", "part,bore mm,length m\n{x},12,1\n[y],12,-1", "1e-300 mTorr", "5|6 Pa"} {
		for _, unit := range []string{"Pa", "inHg", "°F", "K", "mTorr/h", "µPa·mm³/s", "km", "µL", "{", ""} {
			f.Add(uint8(i), uint8(len(unit)), text, unit)
		}
	}
	f.Fuzz(func(t *testing.T, which, input uint8, text, symbol string) {
		c := calc.All()[int(which)%len(calc.All())]
		r := with(declare.Request{ID: c.ID, In: c.Example.In, Plot: true}, c.Inputs[int(input)%len(c.Inputs)].ID, text)
		plain := calc.Answer(r)
		unit, known := quantity.FindUnit(symbol)
		r.Units = pairs(unit.Kind.Name(), symbol)
		other := calc.Answer(r)
		switch {
		case !known || unit.Kind == quantity.None:
			if other.Fault == nil || other.Fault.Field != "units" {
				t.Errorf("%q is taken for a unit: %+v", symbol, other.Fault)
			}
		case (plain.Fault == nil) != (other.Fault == nil):
			if plain.Fault != nil || !strings.Contains(other.Fault.Text, "no finite result") { // none in that unit
				t.Errorf("%s %v: %+v, in %s %+v", c.ID, r.In, plain.Fault, symbol, other.Fault)
			}
		case plain.Fault != nil:
			if plain.Fault.Field != other.Fault.Field || strings.Contains(other.Fault.Text, "report it") {
				t.Errorf("%s %v: %+v, in %s %+v", c.ID, r.In, plain.Fault, symbol, other.Fault)
			}
		default:
			finite(t, r, other)
			if plain.Verdict.Is != other.Verdict.Is || len(plain.Out) != len(other.Out) || len(plain.Working) != len(other.Working) || len(plain.Cautions) != len(other.Cautions) {
				t.Errorf("%s %v: another answer in %s", c.ID, r.In, symbol)
			}
		}
	})
}
