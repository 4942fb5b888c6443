package electrical_test

import (
	"math"
	"math/rand/v2"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"blankoff/calc/declare"
)

func TestHeaterCases(t *testing.T) {
	// Machines of the trade brief, section 10: cold resistance and supply of each.
	cindle := []string{"supply", "120 V", "card", "35.1 Ω"}
	try(t, "heater", []trial{
		{"trade brief, section 10: CN14, 410 W at 120 V, 35.1 Ω", join(cindle, []string{"cold", "35.1 Ω ± 0 Ω"}), "power", "410.3 W", declare.Pass, "That is all it proves"},
		{"trade brief, section 10: TK38, 1,240 W at 230 V, 42.7 Ω", []string{"supply", "230 V", "card", "42.7 Ω", "cold", "42.7 Ω ± 0 Ω"}, "power", "1,239 W", declare.Pass, ""},
		{"trade brief, section 10: OB09, 180 W at 24 V, 3.20 Ω", []string{"supply", "24 V", "power", "180 W", "cold", "3.20 Ω ± 0 Ω"}, "expected", "3.2 Ω", declare.Pass, "the plate"},
		{"without ± a reading is taken as ± (1 % + 3 counts of 0.1 Ω): by hand 0.651 Ω of 35.1", join(cindle, []string{"cold", "35.1 Ω"}), "power", "410.3 ± 7.6 W", declare.Pass, ""},
		{"by hand: 38.3 / 35.1 − 1", join(cindle, []string{"cold", "38.3 Ω ± 0.2 Ω"}), "deviation", "9.12 ± 0.57 %", declare.Fail, "above the card"},
		{"by hand: 32 / 35.1 − 1", join(cindle, []string{"cold", "32.0 Ω ± 0.2 Ω"}), "state", "too low", declare.Fail, "below the card"},
		{"by hand: 37.4 ± 0.75 reaches across 37.56", join(cindle, []string{"cold", "37.4 Ω"}), "state", "whole, but near the tolerance", declare.CannotTell, "good to ± 0.1"},
		{"open", join(cindle, []string{"cold", "OL"}), "state", "open", declare.Fail, "licensed electrician"},
		{"shorted", join(cindle, []string{"cold", "0 Ω"}), "state", "shorted", declare.Fail, "Do not plug it in"},
		{"nothing to compare with", []string{"supply", "120 V", "cold", "35.1 Ω ± 0 Ω"}, "current", "3.419 A", "", ""},
		{"reference 14-O016: an alloy at 300 K more, 28.8 Ω to 30.2688 Ω", []string{"supply", "120 V", "cold", "28.8 Ω ± 0 Ω", "coefficient", "0.017 %", "temperature", "320 °C"}, "working", "30.27 Ω", "", ""},
		{"a plate's power is that of the hot element: cold 28.8 Ω would be 3.6 % low, hot it is right", []string{"supply", "120 V", "cold", "27.8 Ω ± 0 Ω", "hot", "28.8 Ω ± 0 Ω", "power", "500 W"}, "deviation", "0 %", declare.Pass, ""},
		{"a card's resistance is cold", []string{"supply", "120 V", "cold", "27.8 Ω ± 0 Ω", "hot", "33 Ω ± 0 Ω", "card", "27.8 Ω"}, "deviation", "0 %", declare.Pass, ""},
		{"by hand: 3.1 ± 0.331 Ω of a 24 V heater is no pass, so coarse is a common meter there", []string{"supply", "24 V", "card", "3.20 Ω", "cold", "3.1 Ω"}, "deviation", "−3 ± 10 %", declare.CannotTell, "good to ± 0.1"},
		{"by hand: a plate against the cold resistance alone, 6 % ± 2 · 1.06 %", []string{"supply", "120 V", "power", "500 W", "cold", "30.528 Ω ± 0 Ω"}, "deviation", "6.0 ± 2.1 %", declare.CannotTell, "The hot resistance would settle it"},
		{"14-O014: 1,000 W at 240 V is 751.1 W at 208 V", []string{"supply", "208 V", "cold", "57.6 Ω ± 0 Ω", "power", "1000 W", "rated", "240 V"}, "power", "751.1 W", declare.Pass, ""},
		{"by hand: 10 Ω cold, 12.358 Ω hot, copper: 60 K more", []string{"supply", "12 V", "cold", "10 Ω ± 0 Ω", "hot", "12.358 Ω ± 0 Ω", "coefficient", "0.393 %"}, "element", "80 °C", "", ""},
	})
	// Tolerance of the part and error of the meter are two things; limits by hand, 35.1 Ω ± 7 % is 32.643 to 37.557 Ω.
	leave := []string{"supply", "120 V", "card", "35.1 Ω ± 7 %"}
	try(t, "heater", []trial{
		{"by hand: the card's ± makes the deviation no less sure, 2 % of the cold reading does", join(leave, []string{"cold", "35.1 Ω ± 0.702 Ω"}), "deviation", "0.0 ± 2.0 %", declare.Pass, "within ± 7 %"},
		{"37.4 Ω is inside to a meter without error", join(leave, []string{"cold", "37.4 Ω ± 0 Ω"}), "state", "as on the card", declare.Pass, ""},
		{"37.7 Ω is outside to the same", join(leave, []string{"cold", "37.7 Ω ± 0 Ω"}), "state", "too high", declare.Fail, ""},
		{"37.4 ± 0.5 Ω reaches across 37.557", join(leave, []string{"cold", "37.4 Ω ± 0.5 Ω"}), "state", "whole, but near the tolerance", declare.CannotTell, ""},
		{"a card of ± 3 % allows 34.05 to 36.15 Ω", []string{"supply", "120 V", "card", "35.1 Ω ± 3 %", "cold", "36.5 Ω ± 0.1 Ω"}, "allowed", "3 %", declare.Fail, "above the card"},
		{"± in ohms says the same", []string{"supply", "120 V", "card", "35.1 Ω ± 1.053 Ω", "cold", "36.0 Ω ± 0 Ω"}, "allowed", "3 %", declare.Pass, ""},
		{"what the reader writes counts before the card", join(leave, []string{"cold", "36.5 Ω ± 0.1 Ω", "tolerance", "2 %"}), "allowed", "2 %", declare.Fail, ""},
		{"neither says it", []string{"supply", "120 V", "card", "35.1 Ω", "cold", "35.1 Ω ± 0 Ω"}, "allowed", "7 %", declare.Pass, ""},
		{"a plate's ± is leave too: 28.8 Ω hot of 500 W ± 5 %", []string{"supply", "120 V", "power", "500 W ± 5 %", "cold", "27.8 Ω ± 0 Ω", "hot", "30.0 Ω ± 0 Ω"}, "allowed", "5 %", declare.Pass, ""},
	})
	refuse(t, "heater", []refusal{
		{"a coefficient that makes nothing of it", []string{"cold", "35 Ω", "supply", "120 V", "coefficient", "-1 %", "temperature", "200 °C"}, "cold", "nought or below"},
		{"hot far below cold with copper", []string{"cold", "35 Ω", "hot", "0.1 Ω", "supply", "120 V", "coefficient", "0.1 %"}, "hot", "impossible temperature"},
		{"OL hot", []string{"cold", "35 Ω", "hot", "OL", "supply", "120 V"}, "hot", "over-range"},
		{"no supply", []string{"cold", "35 Ω"}, "supply", "is blank"},
	})
	for _, in := range [][]string{join(cindle, []string{"cold", "0.4 Ω"}), join(cindle, []string{"cold", "35.1 kΩ"})} {
		if said := strings.Join(answer("heater", in...).Cautions, "\n"); !strings.Contains(said, "0.5 Ω to 200 Ω") {
			t.Errorf("%v is not questioned: %s", in, said)
		}
	}
}

// P R = V² and P = V I, for whatever is entered.
func TestHeaterFits(t *testing.T) {
	random := rand.New(rand.NewPCG(55, 56))
	for range 500 {
		volt, cold := 10+300*random.Float64(), 1+100*random.Float64()
		a := answer("heater", "cold", strconv.FormatFloat(cold, 'g', 17, 64)+" Ω", "supply", strconv.FormatFloat(volt, 'g', 17, 64)+" V", "coefficient", "0.02 %", "temperature", "250 °C")
		power, current, work := a.Out[0].SI, a.Out[1].SI, a.Out[2].SI
		if math.Abs(power*work-volt*volt) > 1e-9*volt*volt || math.Abs(power-volt*current) > 1e-9*power || work <= cold {
			t.Errorf("%v V, %v Ω: %v W, %v A, %v Ω", volt, cold, power, current, work)
		}
	}
}

func TestCordCases(t *testing.T) {
	cindle := []string{"length", "30 m", "current", "9.5 A", "supply", "120 V", "spread", "0 %"}
	with := func(more ...string) []string { return join(cindle, more) }
	try(t, "cord-drop", []trial{
		{"trade brief, section 7: 16 AWG 7.5 V", with("conductor", "16 AWG"), "drop", "7.509 V", declare.Fail, "shorter or thicker"},
		{"trade brief, section 7: 6.3 %", with("conductor", "16 AWG"), "share", "6.258 %", declare.Fail, ""},
		{"trade brief, section 7: 14 AWG 4.7 V", with("conductor", "14 AWG"), "drop", "4.723 V", declare.Fail, ""},
		{"trade brief, section 7: 14 AWG 3.9 %", with("conductor", "14 AWG"), "share", "3.936 %", declare.Fail, ""},
		{"trade brief, section 7: 12 AWG 3.0 V", with("conductor", "12 AWG"), "drop", "2.97 V", declare.Pass, "are left"},
		{"trade brief, section 7: 12 AWG 2.5 %", with("conductor", "12 AWG"), "share", "2.475 %", declare.Pass, ""},
		{"trade brief, section 7: 28 A at the start, 16 AWG, 22 V", with("conductor", "16 AWG", "start", "28 A"), "start-drop", "22.13 V", declare.Fail, "Stop"},
		{"trade brief, section 7: 18 %", with("conductor", "16 AWG", "start", "28 A"), "start-share", "18.44 %", declare.Fail, "while the machine starts"},
		{"by hand: 12 AWG at 28 A, 7.3 %", with("conductor", "12 AWG", "start", "28 A"), "start-share", "7.295 %", declare.Pass, ""},
		{"more than 10 % while running", with("conductor", "20 AWG"), "share", "15.82 %", declare.Fail, "Stop: the lead loses"},
		{"with what IEC 60228 lets a cord have", with("conductor", "16 AWG", "spread", ""), "drop", "7.5 ± 1.2 V", declare.Fail, ""},
		{"the same reaches across 3 %: by hand 2.7 ± 0.43", []string{"length", "33 m", "conductor", "12 AWG", "current", "9.5 A", "supply", "120 V"}, "share", "2.72 ± 0.44 %", declare.CannotTell, "would settle it"},
		{"across 10 % at the start", with("conductor", "12 AWG", "start", "36 A", "spread", ""), "start-share", "9.4 ± 1.5 %", declare.CannotTell, "recording meter"},
		{"by hand: 2 · 30 / 58 / 1.5 Ω", with("conductor", "1.5 mm²"), "resistance", "0.6897 Ω", declare.Fail, ""},
		{"by hand: at 50 °C 1.1179 times that", with("conductor", "1.5 mm²", "temperature", "50 °C"), "resistance", "0.771 Ω", declare.Fail, ""},
		{"no length, no loss", with("conductor", "1.5 mm²", "length", "0 m"), "drop", "0 V", declare.Pass, ""},
		{"what is left", with("conductor", "12 AWG"), "voltage", "117 V", declare.Pass, ""},
	})
	refuse(t, "cord-drop", []refusal{
		{"a lead that cannot carry it", with("conductor", "30 AWG"), "current", "more than the supply has"},
		{"no conductor at all", with("conductor", "0 mm²"), "conductor", "printed on the sheath"},
		{"a gauge that is none", with("conductor", "60 AWG"), "conductor", "0 AWG to 40 AWG"},
		{"three wires of gauge 16 are no 5 1/3 AWG", with("conductor", "16/3 AWG"), "conductor", "16 AWG for 16/3"},
		{"nor 12/3 four AWG", with("conductor", "12/3 AWG"), "conductor", "the gauge alone"},
		{"0000 AWG is no 0 AWG", with("conductor", "0000 AWG"), "conductor", "in mm²"},
		{"no unit: 16 may be mm² or AWG", with("conductor", "16"), "conductor", "write 16 mm² or 16 AWG"},
		{"a diameter for an area", with("conductor", "1.5 mm"), "conductor", "a length"},
		{"length in litres", with("conductor", "16 AWG", "length", "3 L"), "length", "a volume"},
	})
}

var leadAdvice = regexp.MustCompile(`: ([0-9.,]+ m) of it, or the same length of ([0-9.,]+ mm²) passes`)

// TestLeadAdviceHolds buys the shorter lead, and the thicker one; both must pass.
func TestLeadAdviceHolds(t *testing.T) {
	random := rand.New(rand.NewPCG(57, 58))
	met := map[string]int{}
	for range 3000 {
		number := func(x float64, unit string) string { return strconv.FormatFloat(x, 'f', 2, 64) + unit }
		in := []string{"length", number(1+60*random.Float64(), " m"), "conductor", []string{"0.75 mm²", "1.5 mm²", "2.5 mm²", "16 AWG", "12 AWG"}[random.IntN(5)],
			"current", number(1+12*random.Float64(), " A"), "supply", []string{"120 V", "230 V"}[random.IntN(2)], "temperature", "35 °C"}
		a := answer("cord-drop", in...)
		m := leadAdvice.FindStringSubmatch(a.Verdict.Text)
		if m == nil {
			if a.Verdict.Is == declare.CannotTell {
				t.Errorf("%v: no advice in %s", in, a.Verdict.Text)
			}
			continue
		}
		met[a.Verdict.Is]++
		for _, better := range [][]string{{"length", m[1]}, {"conductor", m[2]}} {
			if b := answer("cord-drop", join(in, better)...); b.Verdict.Is != declare.Pass {
				t.Errorf("%v: %s\nbut with %v: %s", in, a.Verdict.Text, better, b.Verdict.Text)
			}
		}
	}
	if met[declare.Fail] < 200 || met[declare.CannotTell] < 100 {
		t.Errorf("advice met %v: the test says little", met)
	}
}

// Twice the length, or half the area, loses twice as much; the voltages add up.
func TestCordScales(t *testing.T) {
	drop := func(length, area string) float64 {
		a := answer("cord-drop", "length", length, "conductor", area, "current", "5 A", "supply", "230 V")
		if sum := a.Out[0].SI + a.Out[2].SI; math.Abs(sum-230) > 1e-9 {
			t.Errorf("%s of %s: %v V together", length, area, sum)
		}
		return a.Out[0].SI
	}
	one := drop("10 m", "3 mm²")
	for name, two := range map[string]float64{"length": drop("20 m", "3 mm²"), "area": drop("10 m", "1.5 mm²")} {
		if math.Abs(two-2*one) > 1e-12 {
			t.Errorf("%s: %v, want twice %v", name, two, one)
		}
	}
}
