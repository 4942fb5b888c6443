package electrical_test

import (
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"blankoff/calc/declare"
)

// Tubes of the trade brief, section 10.
var (
	tq4 = []string{"construction", "insulated", "leads", "0 Ω", "range-top", "20 MΩ", "heater-low", "6.9 Ω", "heater-high", "9.3 Ω", "couple-low", "12.4 Ω", "couple-high", "16.8 Ω"}
	tx4 = []string{"construction", "joined", "leads", "0 Ω", "range-top", "20 MΩ", "card-ab", "8.1 Ω", "card-ac", "10.7 Ω", "card-ad", "11.2 Ω", "card-bc", "11.0 Ω", "card-bd", "11.5 Ω", "card-cd", "14.1 Ω"}
	// withoutCard are the same without their limits.
	bareTQ4, bareTX4 = tq4[:6], tx4[:6]

	intactTQ4 = []string{"ab", "8.0 Ω", "cd", "14.5 Ω", "ac", "OL", "ad", "OL", "bc", "OL", "bd", "OL"}
	intactTX4 = []string{"ab", "8.1 Ω", "ac", "10.7 Ω", "ad", "11.2 Ω", "bc", "11.0 Ω", "bd", "11.5 Ω", "cd", "14.1 Ω"}
	openCase  = []string{"a-case", "OL", "b-case", "OL", "c-case", "OL", "d-case", "OL"}
	fineMeter = []string{"percent", "0.2 %", "counts", "3", "resolution", "0.01 Ω"}
)

func join(parts ...[]string) (all []string) {
	for _, part := range parts {
		all = append(all, part...)
	}
	return all
}

func TestTubeCases(t *testing.T) {
	intact := "electrically intact"
	noCase := intact + "; pins to the case not measured"
	for _, c := range []struct {
		name    string // with its source; later entries stand for earlier ones
		in      []string
		state   string // its beginning
		verdict string
		words   string // of the verdict
	}{
		// Insulated.
		{"trade brief, case 3: 8.0, 14.5 Ω, open across is intact", join(tq4, intactTQ4), noCase, declare.Pass, "That is all it proves"},
		{"all ten values", join(tq4, intactTQ4, openCase), intact, declare.Pass, "no pin touches the case, 10 MΩ"},
		{"trade brief, section 3: heater open", join(tq4, intactTQ4, []string{"ab", "OL"}), "heater open", declare.Fail, "repeat three times"},
		{"trade brief, section 3: couple open", join(tq4, intactTQ4, []string{"cd", "OL"}), "couple open", declare.Fail, "replace the tube"},
		{"both open", join(tq4, intactTQ4, []string{"ab", "OL", "cd", "OL"}), "heater open; couple open", declare.Fail, ""},
		{"far below its range", join(tq4, intactTQ4, []string{"ab", "0.4 Ω"}), "the heater pair shorted", declare.Fail, "the wrong pins"},
		{"10 to 30 % high is a contact, not a worn wire", join(tq4, intactTQ4, []string{"ab", "10.4 Ω"}), "the heater pair high", declare.CannotTell, "sooner than a worn wire"},
		{"by hand: 9.3 · 1.3 = 12.1 Ω ends what a contact explains", join(tq4, intactTQ4, []string{"ab", "13 Ω"}), "the heater pair far too high", declare.Fail, "wrong card"},
		{"by hand: between half the card and the card", join(tq4, intactTQ4, []string{"ab", "5 Ω"}), "the heater pair low", declare.CannotTell, "null the probes again"},
		{"by hand: 7.0 ± 0.48 reaches across 6.9", join(tq4, intactTQ4, []string{"ab", "7.0 Ω"}), "meter too coarse", declare.CannotTell, "good to ± 0.09"},
		{"a finer meter settles it", join(tq4, intactTQ4, fineMeter, []string{"ab", "7.0 Ω"}), noCase, declare.Pass, ""},
		{"across 0.4 MΩ, 1 MΩ asked for", join(tq4, intactTQ4, []string{"bd", "0.4 MΩ"}), "heater and couple connected", declare.Fail, "B–D"},
		{"across 1.01 ± 0.03 MΩ", join(tq4, intactTQ4, []string{"bd", "1.01 MΩ"}), "B–D damp", declare.CannotTell, "Dry it for 24 h"},
		{"across 5 MΩ", join(tq4, intactTQ4, []string{"bd", "5 MΩ"}), noCase, declare.Pass, ""},
		{"a pin to case 0.3 MΩ: below 1 MΩ", join(tq4, intactTQ4, openCase, []string{"c-case", "0.3 MΩ"}), "C to case connected", declare.Fail, "wet inside or shorted"},
		{"a pin to case 4 MΩ: damp", join(tq4, intactTQ4, openCase, []string{"c-case", "4 MΩ"}), "C to case damp", declare.CannotTell, "Dry it for 24 h"},
		{"a pin to case 15 MΩ", join(tq4, intactTQ4, openCase, []string{"c-case", "15 MΩ"}), intact, declare.Pass, ""},
		{"a dead short to the case", join(tq4, intactTQ4, openCase, []string{"a-case", "0.2 Ω"}), "A to case connected", declare.Fail, ""},
		{"OL, and nothing says what the range reaches", join(tq4, intactTQ4, []string{"range-top", ""}), "range not known", declare.CannotTell, "would settle it if it reaches 1 MΩ"},
		{"OL to the case on a 2 MΩ range: enough across, not to the case", join(tq4, intactTQ4, openCase, []string{"range-top", "2 MΩ"}), "range too low", declare.CannotTell, "a range that reaches 10 MΩ"},
		{"a broken wire is not hidden by the doubt about a range", join(tq4, intactTQ4, []string{"range-top", "", "ab", "OL"}), "heater open", declare.Fail, ""},
		{"a missing pair: partial", join(tq4, intactTQ4, []string{"bc", ""}), "partial", declare.CannotTell, "B–C"},
		{"one pair alone", join(tq4, []string{"ab", "8 Ω"}), "partial", declare.CannotTell, "A–C A–D B–C B–D C–D"},
		{"the open pair alone is enough", join(tq4, []string{"ab", "OL"}), "heater open", declare.Fail, ""},
		{"without a card: whole wires, no more", join(bareTQ4, intactTQ4), noCase, declare.Pass, ""},
		{"without a card 0.5 Ω is a short", join(bareTQ4, intactTQ4, fineMeter, []string{"cd", "0.5 Ω"}), "the couple pair shorted", declare.Fail, ""},
		{"without a card 200 Ω is more than such a pair has", join(bareTQ4, intactTQ4, []string{"cd", "200 Ω"}), "the couple pair high", declare.CannotTell, ""},
		{"without a card 5 MΩ is no wire", join(bareTQ4, intactTQ4, []string{"cd", "5 MΩ"}), "the couple pair far too high", declare.Fail, ""},
		{"a joined tube entered as an insulated one", join(tq4, intactTX4), "heater and couple connected", declare.Fail, "look at its card first"},
		// Joined.
		{"trade brief, section 3: legs 3.9, 4.2, 6.8, 7.3 Ω", join(tx4, intactTX4), noCase, declare.Pass, "all four legs are whole and meet"},
		{"trade brief, section 3: 1.2 Ω of contact in A–B; the card tells which of the two", join(tx4, intactTX4, []string{"ab", "9.3 Ω"}), "bad contact, A–B", declare.CannotTell, "+0.4 Ω is left over"},
		{"the same in C–D", join(tx4, intactTX4, []string{"cd", "15.3 Ω"}), "bad contact, C–D", declare.CannotTell, ""},
		{"without a card the two look alike", join(bareTX4, intactTX4, []string{"cd", "15.3 Ω"}), "bad contact, A–B or C–D", declare.CannotTell, ""},
		{"and so for the others", join(bareTX4, intactTX4, []string{"bd", "12.7 Ω"}), "bad contact, A–C or B–D", declare.CannotTell, ""},
		{"by hand: 0.6 Ω leaves 0.2 Ω, which a coarse meter explains", join(tx4, intactTX4, []string{"ab", "8.7 Ω"}), noCase, declare.Pass, ""},
		{"and a fine one does not", join(tx4, intactTX4, fineMeter, []string{"ab", "8.7 Ω"}), "bad contact, A–B", declare.CannotTell, ""},
		{"a pair below the sum of its legs", join(tx4, intactTX4, fineMeter, []string{"ab", "7.9 Ω"}), "bad contact", declare.CannotTell, "would settle it"},
		{"trade brief, case 4: leg 2, here A, is open; couple intact", join(tx4, []string{"ab", "OL", "ac", "OL", "ad", "OL", "bc", "11.0 Ω", "bd", "11.5 Ω", "cd", "14.1 Ω"}), "heater open, leg A", declare.Fail, "leg A is broken"},
		{"leg D open", join(tx4, intactTX4, []string{"ad", "OL", "bd", "OL", "cd", "OL"}), "couple open, leg D", declare.Fail, ""},
		{"legs B and C open", join(tx4, intactTX4, []string{"ab", "OL", "bc", "OL", "bd", "OL", "ac", "OL", "cd", "OL"}), "heater; couple open, leg B C", declare.Fail, ""},
		{"nothing connects", join(tx4, []string{"ab", "OL", "ac", "OL", "ad", "OL", "bc", "OL", "bd", "OL", "cd", "OL"}), "a leg open", declare.Fail, "the pins are the wrong ones"},
		{"one pair OL alone cannot be: a probe missed", join(tx4, intactTX4, []string{"bc", "OL"}), "bad contact", declare.CannotTell, "B–C"},
		{"an insulated tube entered as a joined one", join(tx4, intactTQ4), "heater and couple apart", declare.Fail, "look at its card first"},
		{"one pair of a joined tube", join(tx4, []string{"ab", "8.1 Ω"}), "partial", declare.CannotTell, ""},
		{"A–B and A–C open, no other measured: A, or B and C", join(tx4, []string{"ab", "OL", "ac", "OL"}), "a leg open", declare.Fail, "to see which"},
		{"legs 5 % above the card: 1.2 Ω of contact in A–B or C–D, which the card cannot tell", join(tx4, fineMeter, []string{"ab", "9.7 Ω", "ac", "11.235 Ω", "ad", "11.76 Ω", "bc", "11.55 Ω", "bd", "12.075 Ω", "cd", "15.6 Ω"}), "bad contact, A–B or C–D", declare.CannotTell, ""},
		{"A–B open, A–C whole: B", join(tx4, []string{"ab", "OL", "ac", "10.7 Ω"}), "heater open, leg B", declare.Fail, ""},
		{"five pairs, one of them badly met", join(tx4, intactTX4, []string{"ab", "", "ac", "12.7 Ω"}), "bad contact, A–C", declare.CannotTell, "these would settle it: A–B"},
		{"a pair outside its card, the legs fitting", join(tx4, []string{"ab", "11 Ω", "ac", "13.5 Ω", "ad", "14 Ω", "bc", "11.0 Ω", "bd", "11.5 Ω", "cd", "14.0 Ω"}), "A–B high; A–C high; A–D high", declare.CannotTell, "would settle it"},
		{"a leg below nought", join(bareTX4, fineMeter, []string{"ab", "30 Ω", "ac", "10 Ω", "bc", "11 Ω"}), "leg below nought", declare.CannotTell, "Leg C"},
		{"joined, a pin to case", join(tx4, intactTX4, openCase, []string{"d-case", "20 kΩ"}), "D to case connected", declare.Fail, ""},
		{"joined, all ten values", join(tx4, intactTX4, openCase), intact, declare.Pass, ""},
	} {
		a := answer("tube-check", c.in...)
		if a.Fault != nil {
			t.Errorf("%s: %s: %s", c.name, a.Fault.Field, a.Fault.Text)
			continue
		}
		if state := shown(a, "state"); !strings.HasPrefix(state, c.state) || c.state == intact && state != intact || a.Verdict.Is != c.verdict || !strings.Contains(a.Verdict.Text, c.words) {
			t.Errorf("%s:\ngot  %s; %q %s\nwant %s; %q … %s", c.name, state, a.Verdict.Is, a.Verdict.Text, c.state, c.verdict, c.words)
		}
		if shown(a, "proved") == "" || !strings.HasPrefix(shown(a, "not-proved"), "how true the gauge reads") {
			t.Errorf("%s: proved %q, not %q", c.name, shown(a, "proved"), shown(a, "not-proved"))
		}
	}
}

// The tables of trade brief, section 3.
func TestTubeTables(t *testing.T) {
	for _, c := range []struct {
		name, id string
		in       []string
		want     string
	}{
		{"the legs", "legs", join(tx4, intactTX4), "A 3.90|B 4.20|C 6.80|D 7.30"},
		{"1.2 Ω in A–B", "residuals", join(tx4, intactTX4, []string{"ab", "9.3 Ω"}), "A–B +0.4|A–C −0.2|A–D −0.2|B–C −0.2|B–D −0.2|C–D +0.4"},
		{"case 4", "legs", join(tx4, []string{"ab", "OL", "ac", "OL", "ad", "OL", "bc", "11.0 Ω", "bd", "11.5 Ω", "cd", "14.1 Ω"}), "B 4.20|C 6.80|D 7.30"},
		{"case 4 leaves nothing over", "residuals", join(tx4, []string{"ab", "OL", "ac", "OL", "ad", "OL", "bc", "11.0 Ω", "bd", "11.5 Ω", "cd", "14.1 Ω"}), ""},
		{"an insulated tube has no legs to tell", "legs", join(tq4, intactTQ4), ""},
	} {
		var rows []string
		for _, g := range answer("tube-check", c.in...).Out {
			for _, row := range g.Rows {
				if g.ID == c.id {
					number, _, _ := strings.Cut(row[len(row)-1].Text, " ±")
					if c.id == "residuals" {
						number = row[3].Text
					}
					rows = append(rows, row[0].Text+" "+number)
				}
			}
		}
		if got := strings.Join(rows, "|"); got != c.want {
			t.Errorf("%s: got %s, want %s", c.name, got, c.want)
		}
	}
}

func TestTubeRefusals(t *testing.T) {
	for _, c := range []struct {
		name        string
		in          []string
		field, want string
	}{
		{"nothing measured", tq4, "ab", "no pair was entered"},
		{"the construction is never guessed", join(intactTQ4, []string{"leads", "0 Ω"}), "construction", "is blank"},
		{"less than the probes alone", join(tq4, intactTQ4, []string{"ab", "0.1 Ω", "leads", "2 Ω"}), "leads", "null again"},
		{"a card the wrong way round", join(tq4, intactTQ4, []string{"heater-low", "9.3 Ω", "heater-high", "6.9 Ω"}), "heater-high", "below its low one"},
		{"OL as the top of a range", join(tq4, intactTQ4, []string{"range-top", "OL"}), "range-top", "over-range"},
	} {
		a := answer("tube-check", c.in...)
		if a.Fault == nil || a.Fault.Field != c.field || !strings.Contains(a.Fault.Text, c.want) {
			t.Errorf("%s: got %+v, want field %s and %q", c.name, a.Fault, c.field, c.want)
		}
	}
}

// randomTube is a tube with readings of a kind, sound or not, and a meter.
func randomTube(random *rand.Rand) []string {
	number := func(x float64) string { return strconv.FormatFloat(x, 'f', 3, 64) + " Ω" }
	in := join(tq4, intactTQ4, []string{"ab", number(15 * random.Float64()), "cd", number(25 * random.Float64())})
	if random.IntN(2) == 0 {
		in = join(tx4, intactTX4)
		for i := 1; i < len(intactTX4); i += 2 {
			if random.IntN(3) == 0 {
				in = append(in, intactTX4[i-1], number(7+10*random.Float64()))
			}
			if random.IntN(8) == 0 {
				in = append(in, intactTX4[i-1], "OL")
			}
		}
	}
	if random.IntN(3) == 0 {
		in = append(in, "a-case", number(2e7*random.Float64()))
	}
	if random.IntN(3) == 0 {
		in = append(in, "bd", number(3e6*random.Float64()))
	}
	return append(in, "percent", "2 %", "counts", "10", "resolution", []string{"0.1 Ω", "0.05 Ω", "0.01 Ω"}[random.IntN(3)])
}

// TestBetterMeterNeverReversesATube: pass never becomes fail, nor fail pass.
func TestBetterMeterNeverReversesATube(t *testing.T) {
	random := rand.New(rand.NewPCG(45, 46))
	seen := map[string]int{}
	for range 2500 {
		in := randomTube(random)
		before := answer("tube-check", in...)
		for _, meter := range [][]string{{"1 %", "5"}, {"0.5 %", "2"}, {"0.1 %", "1"}, {"0 %", "0"}} {
			now := answer("tube-check", join(in, []string{"percent", meter[0], "counts", meter[1]})...)
			if now.Fault != nil || before.Fault != nil {
				break // less than the probes alone, which no meter makes good
			}
			if a, b := before.Verdict.Is, now.Verdict.Is; a != b && a != declare.CannotTell && b != declare.CannotTell {
				t.Errorf("%v: %q (%s) becomes %q (%s) at %v", in, a, before.Verdict.Text, b, now.Verdict.Text, meter)
			}
			seen[before.Verdict.Is+" > "+now.Verdict.Is]++
			before = now
		}
	}
	for _, change := range []string{"cannot tell > pass", "cannot tell > fail", "pass > pass", "fail > fail"} {
		if seen[change] < 20 {
			t.Errorf("only %d times %q: the comparison says little (%v)", seen[change], change, seen)
		}
	}
}

// TestWhereTheBadContactWas: 1 to 3 Ω at any one pair is found, and its pair named.
func TestWhereTheBadContactWas(t *testing.T) {
	random := rand.New(rand.NewPCG(47, 48))
	names := map[string]string{"ab": "A–B", "ac": "A–C", "ad": "A–D", "bc": "B–C", "bd": "B–D", "cd": "C–D"}
	for range 500 {
		at := 2 * random.IntN(6)
		pair := intactTX4[at]
		sound, _, _ := strings.Cut(intactTX4[at+1], " ")
		x, _ := strconv.ParseFloat(sound, 64)
		a := answer("tube-check", join(tx4, intactTX4, fineMeter, []string{pair, strconv.FormatFloat(x+1+2*random.Float64(), 'f', 2, 64) + " Ω"})...)
		if a.Verdict.Is != declare.CannotTell || shown(a, "state") != "bad contact, "+names[pair] {
			t.Errorf("contact at %s: %q, %s", names[pair], a.Verdict.Is, a.Verdict.Text)
		}
	}
}

// TestTubeNeverSaysCalibrated: a dirty filament measures perfectly.
func TestTubeNeverSaysCalibrated(t *testing.T) {
	random := rand.New(rand.NewPCG(49, 50))
	for range 1000 {
		a := answer("tube-check", randomTube(random)...)
		for _, text := range append(append([]string{a.Verdict.Text, shown(a, "state"), shown(a, "proved")}, a.Cautions...), a.Working...) {
			if strings.Contains(strings.ToLower(text), "calibrat") {
				t.Fatalf("it speaks of calibration: %s", text)
			}
		}
	}
}
