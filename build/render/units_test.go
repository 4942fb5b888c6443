package render

import (
	"encoding/json"
	"fmt"
	"html"
	"math"
	"math/big"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"blankoff/build/bundle"
	"blankoff/build/prose"
	"blankoff/calc/quantity"
	"blankoff/site"
)

// rewriting is a quantity of a page put to the script, as one line of JSON.
type rewriting struct {
	Kind, Value, Steps, Text string
	Choice                   int // which of the kind's units
}

// script runs rewrite.ts under node, with the units that the bundle makes, and gives what it writes for each; "" where the
// author's text stays.
func script(t *testing.T, asked []rewriting) []string {
	t.Helper()
	node, err := exec.LookPath("node")
	if err != nil {
		t.Fatal("node is not installed, so the page's script cannot be run")
	}
	code, parts, err := bundle.Script(site.Files, `
		import { kinds, useTables } from "./choices";
		import { rewrite } from "./rewrite";
		(globalThis as any).use = useTables;
		(globalThis as any).answer = (q: any) => {
			const names = ["Pa", "mbar", "mTorr", "micron", "Torr", "inHg", "Pa·m³/s", "mbar·L/s", "Torr·L/s", "atm·cm³/s", "°C", "°F", "K", "mm", "in", "mL", "in³"];
			const choices = names.filter((name) => kinds[q.Kind]?.[name]);
			if (!choices.length || !q.Steps) return "";
			return rewrite({ kind: q.Kind, value: q.Value, steps: q.Steps, text: q.Text }, { topic: choices[q.Choice] }) ?? "";
		};`)
	if err != nil {
		t.Fatal(err)
	}
	tables := slices.IndexFunc(parts, func(f bundle.File) bool { return strings.HasPrefix(f.Path, "choices.") })
	const run = `
import { readFileSync } from "node:fs";
use(%s);
console.log(JSON.stringify(JSON.parse(readFileSync(0, "utf8")).map(answer)));
`
	file := filepath.Join(t.TempDir(), "rewrite.mjs")
	if err := os.WriteFile(file, fmt.Appendf(code, run, parts[tables].Bytes), 0o600); err != nil {
		t.Fatal(err)
	}
	questions, err := json.Marshal(asked)
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(node, file)
	cmd.Stdin, cmd.Stderr = strings.NewReader(string(questions)), os.Stderr
	said, err := cmd.Output()
	var answers []string
	if err == nil {
		err = json.Unmarshal(said, &answers)
	}
	if err != nil || len(answers) != len(asked) {
		t.Fatalf("%d answers to %d questions, %v", len(answers), len(asked), err)
	}
	return answers
}

var attributes = regexp.MustCompile(`value="([^"]*)" data-kind="([^"]*)"(?: data-steps="([^"]*)")?`)

// put reads a quantity as the script does, from the element that the build wrote.
func put(t *testing.T, said string, m *prose.Mark, choice int) rewriting {
	t.Helper()
	found := attributes.FindStringSubmatch(openingTag(plainQuantity, said, m))
	if found == nil {
		t.Fatalf("%q: no attributes in %s", said, openingTag(plainQuantity, said, m))
	}
	return rewriting{Kind: found[2], Value: found[1], Steps: html.UnescapeString(found[3]), Text: said, Choice: choice}
}

// choices of each kind, in the order in which the page offers them: for each its units, the larger first.
var offered = map[quantity.Kind][][]string{
	quantity.Pressure:     {{"kPa", "Pa"}, {"mbar"}, {"Torr", "mTorr"}, {"Torr", "micron"}, {"Torr"}, {"inHg"}},
	quantity.PressureRate: {{"Pa/min"}, {"mbar/min"}, {"mTorr/min"}, {"micron/min"}, {"Torr/min"}, {"inHg/min"}},
	quantity.Throughput:   {{"Pa·m³/s"}, {"mbar·L/s"}, {"Torr·L/s"}, {"atm·cm³/s"}},
	quantity.Temperature:  {{"°C"}, {"°F"}, {"K"}},
	quantity.Length:       {{"m", "mm"}, {"ft", "in"}},
	quantity.Volume:       {{"L", "mL"}, {"gal", "in³"}},
}

// from which number on the larger unit is shown.
var least = map[string]float64{"kPa": 10, "Torr": 20, "m": 1, "ft": 3, "L": 0.5, "gal": 0.5}

// TestScriptWritesUnitsAsGoDoes puts quantities in every unit that an author may use to every choice that a reader has. The
// reference is written here, in exact arithmetic on decimal numbers, from the table of calc/quantity.
func TestScriptWritesUnitsAsGoDoes(t *testing.T) {
	dice := rand.New(rand.NewPCG(1, 2))
	var asked []rewriting
	var want [][]string
	for range 400 {
		for kind, choices := range offered {
			said, m := thrown(dice, kind)
			choice := dice.IntN(len(choices))
			asked = append(asked, put(t, said, &m, choice))
			want = append(want, expected(said, &m, choices[choice]))
		}
	}
	left := 0
	for i, got := range script(t, asked) {
		got = strings.ReplaceAll(got, "\u00a0", " ")
		if got == "" {
			left++
		}
		if !slices.Contains(want[i], got) {
			t.Errorf("%+v:\n got %q\nwant one of %q", asked[i], got, want[i])
		}
	}
	if left > len(asked)/3 {
		t.Errorf("%d of %d stayed as they were written", left, len(asked))
	}
}

// thrown is a random quantity: one value, a range, or a value with a tolerance.
func thrown(dice *rand.Rand, kind quantity.Kind) (string, prose.Mark) {
	units := map[quantity.Kind][]string{
		quantity.Pressure:     {"Pa", "hPa", "kPa", "mbar", "bar", "mTorr", "micron", "Torr", "inHg", "mmHg", "psi", "atm"},
		quantity.PressureRate: {"mTorr/min", "Pa/s", "mbar/min", "micron/min"},
		quantity.Throughput:   {"mbar·L/s", "Torr·L/s", "Pa·m³/s", "lusec"},
		quantity.Temperature:  {"°C", "°F", "K"},
		quantity.Length:       {"mm", "cm", "m", "in", "ft", "µm"},
		quantity.Volume:       {"mL", "L", "cc", "gal", "ft³"},
	}[kind]
	unit := quantity.MustUnit(units[dice.IntN(len(units))])
	m := prose.Mark{Kind: kind}
	said := ""
	add := func(before string, difference bool) {
		decimals := dice.IntN(4)
		figures := strconv.FormatFloat(float64(1+dice.IntN(99999))/[]float64{1, 10, 100, 1000}[decimals], 'f', decimals, 64)
		x, _ := strconv.ParseFloat(figures, 64)
		step := unit.Span(1 / []float64{1, 10, 100, 1000}[decimals])
		n := prose.Number{SI: unit.To(x), Step: step, Unit: unit, Difference: difference, From: len(said + before)}
		if difference {
			n.SI = unit.Span(x)
		}
		said += before + figures
		n.To = len(said)
		m.Numbers = append(m.Numbers, n)
	}
	add("", false)
	switch dice.IntN(4) {
	case 0:
		m.Form = prose.Range
		add([]string{" to ", "–"}[dice.IntN(2)], false)
	case 1:
		add(" ± ", true)
	}
	last := &m.Numbers[len(m.Numbers)-1]
	said += " "
	last.UnitFrom = len(said)
	said += unit.Symbol
	last.UnitTo, m.To = len(said), len(said)
	return said, m
}

// expected is the text in the unit that suits; several where a rounding is a tie within the figures that a page holds. It
// is empty where the author used one of the units.
func expected(said string, m *prose.Mark, symbols []string) []string {
	for _, symbol := range symbols {
		if m.Numbers[0].Unit.Symbol == symbol {
			return []string{""}
		}
	}
	unit := suitable(m, symbols)
	texts := []string{""}
	at := 0
	for _, n := range m.Numbers {
		x := unit.From(n.SI)
		if n.Difference {
			x = n.SI / unit.Span(1)
		}
		var longer []string
		for _, nudge := range []float64{1 - 5e-7, 1, 1 + 5e-7} {
			number := printed(x*nudge, ending(m, unit, n.Step, nudge))
			before := said[at:n.From]
			if before == "–" && strings.HasPrefix(number, "−") {
				before = " to "
			}
			for _, text := range texts {
				longer = append(longer, text+before+number)
			}
		}
		texts, at = longer, n.To
	}
	for i := range texts {
		texts[i] += " " + unit.Symbol
	}
	return texts
}

func suitable(m *prose.Mark, symbols []string) quantity.Unit {
	for _, symbol := range symbols {
		unit := quantity.MustUnit(symbol)
		for _, n := range m.Numbers {
			if x := unit.From(n.SI); !n.Difference && max(x, -x) >= least[symbol] || n.Difference && n.SI/unit.Span(1) >= least[symbol] {
				return unit
			}
		}
	}
	return quantity.MustUnit(symbols[len(symbols)-1])
}

// ending is where the numbers of a step end: at the largest power of ten, not above two steps, at which each of them is
// still within half a step of what was written.
func ending(m *prose.Mark, unit quantity.Unit, step, nudge float64) int {
	step /= unit.Span(1)
	last := lastPower(2 * step)
	for _, n := range m.Numbers {
		x := unit.From(n.SI)
		if n.Difference {
			x = n.SI / unit.Span(1)
		}
		if n.Step/unit.Span(1) != step {
			continue
		}
		for place := last; ; place-- {
			shown, _ := strconv.ParseFloat(rounded(math.Abs(x*nudge), place), 64)
			if math.Abs(shown-math.Abs(x*nudge)) <= step/2*(1+1e-7) {
				last = place
				break
			}
		}
	}
	return last
}

// lastPower is the largest power of ten that is not above x, found by trying.
func lastPower(x float64) int {
	power := -30
	for p, ok := new(big.Rat).SetString(fmt.Sprintf("1e%d", power+1)); ok && p.Cmp(new(big.Rat).SetFloat64(x*(1+1e-9))) <= 0; p, ok = new(big.Rat).SetString(fmt.Sprintf("1e%d", power+1)) {
		power++
	}
	return power
}

// printed writes a number to a power of ten in exact arithmetic, a half away from zero, as quantity.Format does: thousands
// with commas, powers of ten below 0.0001 and from ten million on.
func printed(x float64, last int) string {
	size, sign := x, ""
	if x < 0 {
		size, sign = -x, "−"
	}
	if size != 0 && (size < 1e-4 || size >= 1e7) {
		mantissa, power, _ := strings.Cut(strconv.FormatFloat(size, 'e', 12, 64), "e")
		exponent, _ := strconv.Atoi(power)
		value, _ := strconv.ParseFloat(mantissa, 64)
		text := rounded(value, min(last-exponent, 0))
		if strings.HasPrefix(text, "10") {
			exponent++
			value, _ = strconv.ParseFloat(strconv.FormatFloat(value/10, 'f', 12, 64), 64)
			text = rounded(value, min(last-exponent, 0))
		}
		return sign + text + "×10" + strings.NewReplacer("-", "⁻", "0", "⁰", "1", "¹", "2", "²", "3", "³", "4", "⁴", "5", "⁵", "6", "⁶", "7", "⁷", "8", "⁸", "9", "⁹").Replace(strconv.Itoa(exponent))
	}
	text := rounded(size, last)
	whole, fraction, has := strings.Cut(text, ".")
	for at := len(whole) - 3; at > 0; at -= 3 {
		whole = whole[:at] + "," + whole[at:]
	}
	if has {
		whole += "." + fraction
	}
	if strings.Trim(text, "0.") == "" {
		return whole
	}
	return sign + whole
}

func rounded(size float64, last int) string {
	exact, _ := new(big.Rat).SetString(strconv.FormatFloat(size, 'g', 12, 64))
	place, _ := new(big.Rat).SetString(fmt.Sprintf("1e%d", last))
	count := new(big.Rat).Quo(exact, place)
	whole, _ := new(big.Int).SetString(count.FloatString(0), 10) // rounds a half away from zero
	return new(big.Rat).Mul(new(big.Rat).SetInt(whole), place).FloatString(max(-last, 0))
}
