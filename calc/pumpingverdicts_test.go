package calc_test

import (
	"math"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"blankoff/calc"
	"blankoff/calc/declare"
)

// pumpVerdict is the verdict and state of a request.
func pumpVerdict(t *testing.T, id string, in ...string) (is, state, because string) {
	t.Helper()
	a := calc.Answer(declare.Request{ID: id, In: pairs(in...)})
	if a.Fault != nil {
		t.Fatalf("%s %v: %+v", id, in, a.Fault)
	}
	for _, g := range a.Out {
		if g.ID == "state" {
			state = g.Text
		}
	}
	return a.Verdict.Is, state, a.Verdict.Text
}

func TestBlankOffVerdicts(t *testing.T) {
	readings := func(values ...string) string {
		text := "time min,pressure mTorr"
		for i, v := range values {
			text += "\n" + strconv.Itoa(20+5*i) + "," + v
		}
		return text
	}
	for _, c := range []struct {
		name, log, oil, warm, ballast, gauge string
		is, state                            string
	}{
		{"as the brief's case 6 was found", readings("702", "694", "690"), "warm", "30 min", "closed", "20 %", declare.Fail, "wet oil suspected"},
		{"as it was left", readings("29", "27", "27"), "warm", "30 min", "closed", "20 %", declare.Pass, "pump and oil are good"},
		{"falling, and already under", readings("40", "33", "27"), "warm", "30 min", "closed", "20 %", declare.Pass, "pump and oil are good"},
		{"falling", readings("130", "110", "95"), "warm", "30 min", "closed", "20 %", declare.CannotTell, "still falling"},
		{"rising as it warms", readings("60", "75", "90"), "warm", "30 min", "closed", "20 %", declare.Fail, "wet oil suspected"},
		{"steady, not far over", readings("80", "80", "80"), "warm", "30 min", "closed", "20 %", declare.Fail, "over its limit"},
		{"steady, near", readings("48", "48", "48"), "warm", "30 min", "closed", "20 %", declare.CannotTell, "too near the limit to tell"},
		{"near, with a good gauge", readings("48", "48", "48"), "warm", "30 min", "closed", "2 %", declare.Fail, "over its limit"},
		{"ballast open, whatever it shows", readings("27", "27", "27"), "warm", "30 min", "open", "20 %", declare.CannotTell, "void: ballast open"},
		{"cold", readings("690", "690", "690"), "cold", "10 min", "closed", "20 %", declare.CannotTell, "warm up longer"},
		{"cold, though under the limit", readings("27", "27", "27"), "cold", "10 min", "closed", "20 %", declare.CannotTell, "warm up longer"},
		{"not known, ten minutes of readings", readings("690", "690", "690"), "unknown", "", "closed", "20 %", declare.CannotTell, "warm up longer"},
		{"warm by hand, ten minutes of readings", readings("27", "27", "27"), "warm", "", "closed", "20 %", declare.Pass, "pump and oil are good"},
		{"one reading", readings("95"), "warm", "30 min", "closed", "20 %", declare.CannotTell, "one reading only"},
		{"rising, still under", readings("15", "17", "20"), "warm", "30 min", "closed", "20 %", declare.CannotTell, "rising"},
		{"one step up in a minute is no rise", "time min,pressure mTorr\n29,80\n30,81", "warm", "30 min", "closed", "20 %", declare.Fail, "over its limit"},
		{"one step down in a minute is no fall", "time min,pressure mTorr\n29,90\n30,89", "warm", "30 min", "closed", "20 %", declare.Fail, "over its limit"},
		{"readings over an hour show that it ran an hour", "time min,pressure mTorr\n0,60\n55,27\n60,27", "warm", "5 min", "closed", "20 %", declare.Pass, "pump and oil are good"},
	} {
		is, state, because := pumpVerdict(t, "blank-off", "log", c.log, "limit", "45 mTorr", "oil", c.oil, "warm", c.warm, "ballast", c.ballast, "gauge", c.gauge)
		if is != c.is || state != c.state {
			t.Errorf("%s: %s, %s (%s), want %s, %s", c.name, is, state, because, c.is, c.state)
		}
	}
}

// TestTheGaugeThatWouldSettleABlankOff does settle it, display step and all; where the step
// alone is too coarse that is said instead. By hand for 13 mTorr against 12 with steps of
// 1 mTorr: √(1² − 0.577²) / 13 = 6.3 %.
func TestTheGaugeThatWouldSettleABlankOff(t *testing.T) {
	at := func(reading, gauge string) (is, because string) {
		is, _, because = pumpVerdict(t, "blank-off", "log", "time min,pressure mTorr\n20,"+reading+"\n25,"+reading+"\n30,"+reading, "limit", "12 mTorr", "oil", "warm", "ballast", "closed", "gauge", gauge)
		return is, because
	}
	if is, because := at("13", "10 %"); is != declare.CannotTell || !strings.Contains(because, "A gauge good to 6.2 % of reading would settle it.") {
		t.Errorf("%s: %s", is, because)
	}
	if is, because := at("13", "6.2 %"); is != declare.Fail {
		t.Errorf("with that gauge %s: %s", is, because)
	}
	if is, because := at("12.5", "1 %"); is != declare.CannotTell || !strings.Contains(because, "No gauge with this step") {
		t.Errorf("%s: %s", is, because)
	}
}

// TestReachedVerdicts: by hand; the doubt is a fifth of the reading, and half a step spread evenly adds next to nothing.
func TestReachedVerdicts(t *testing.T) {
	for _, c := range []struct{ reading, gauge, is, says string }{
		{"120 mTorr", "20 %", declare.Pass, "within 150 mTorr"},
		{"126 mTorr", "20 %", declare.CannotTell, "A gauge good to 19 % of reading would settle it"}, // 24 of 126
		{"126 mTorr", "19 %", declare.Pass, ""},
		{"180 mTorr", "20 %", declare.CannotTell, "A gauge good to 16 % of reading would settle it"}, // 30 of 180
		{"190 mTorr", "20 %", declare.Fail, "over 150 mTorr"},
		{"150 mTorr", "1 %", declare.CannotTell, "No gauge with this step"},
		{"126 mTorr ± 30 mTorr", "0 %", declare.CannotTell, "A reading with less doubt"},
		{"0 mTorr", "20 %", declare.Pass, ""},
	} {
		answer := mustAnswer(t, declare.Request{ID: "reached", In: pairs("reading", c.reading, "limit", "150 mTorr", "gauge", c.gauge)})
		if answer.Verdict.Is != c.is || !strings.Contains(answer.Verdict.Text, c.says) {
			t.Errorf("%s with %s: %v, want %s, %q", c.reading, c.gauge, answer.Verdict, c.is, c.says)
		}
	}
}

func TestOilVerdicts(t *testing.T) {
	for _, c := range []struct {
		name      string
		in        []string
		is, state string
	}{
		{"new", []string{"hours", "5 h", "colour", "clear", "clarity", "clear"}, declare.Pass, "not due"},
		{"milky after an hour", []string{"hours", "1 h", "colour", "clear", "clarity", "milky"}, declare.Fail, "due now: milky"},
		{"black", []string{"hours", "1 h", "colour", "black", "clarity", "clear"}, declare.Fail, "due now: burnt"},
		{"dark", []string{"hours", "1 h", "colour", "dark", "clarity", "clear"}, declare.Fail, "due now: dark"},
		{"solvent", []string{"hours", "1 h", "colour", "clear", "clarity", "clear", "smell", "solvent"}, declare.Fail, "due now: solvent"},
		{"cloudy", []string{"hours", "1 h", "colour", "clear", "clarity", "cloudy"}, declare.CannotTell, "perhaps wet"},
		{"by hours", []string{"hours", "260 h", "colour", "clear", "clarity", "clear"}, declare.Fail, "due by hours"},
		{"many wet runs", []string{"hours", "100 h", "wet-runs", "60", "colour", "clear", "clarity", "clear"}, declare.Fail, "due by hours"},
		{"wet runs, ballast after each", []string{"hours", "100 h", "wet-runs", "60", "ballast", "200 h", "colour", "clear", "clarity", "clear"}, declare.Pass, "not due"},
		{"ballast makes no hours good", []string{"hours", "260 h", "ballast", "200 h", "colour", "clear", "clarity", "clear"}, declare.Fail, "due by hours"},
		{"about due", []string{"hours", "150 h", "wet-runs", "9", "colour", "clear", "clarity", "clear"}, declare.CannotTell, "about due"},
		{"the whole interval is run", []string{"hours", "200 h", "colour", "clear", "clarity", "clear"}, declare.Fail, "due by hours"},
		{"amber", []string{"hours", "170 h", "colour", "amber", "clarity", "clear"}, declare.Fail, "due by hours"},
	} {
		is, state, because := pumpVerdict(t, "oil-life", append(c.in, "interval", "200 h")...)
		if is != c.is || state != c.state {
			t.Errorf("%s: %s, %s (%s), want %s, %s", c.name, is, state, because, c.is, c.state)
		}
	}
}

// storedDry is the stored dry curve of a CN14 (trade brief, section 10).
const storedDry = "time min,pressure mTorr\n0.5,129500\n1,22500\n1.5,4350\n2,1170\n3,358\n5,208\n8,156\n12,125\n20,97\n30,82"

func TestPumpDownLogVerdicts(t *testing.T) {
	early, late, sound := "slow in the early part", "high in the late part", "as it should be"
	for _, c := range []struct{ name, log, gauge, is, state string }{
		{"its own curve", storedDry, "20 %", declare.Pass, sound},
		{"weak oil, case 6", "time min,pressure mTorr\n0.5,130100\n1,23200\n1.5,4980\n2,1750\n3,888\n5,770\n8,741\n12,726\n20,714\n30,708", "20 %", declare.Fail, late},
		{"half the speed, then as it should be", "time min,pressure mTorr\n1,129500\n2,22500\n3,4350\n4,1170\n5,358\n7,208\n10,156\n14,125\n22,97\n32,82", "20 %", declare.Fail, early},
		{"a fifth higher in the late part, rough gauge", "time min,pressure mTorr\n2,1170\n3,430\n5,250\n8,187\n12,150\n20,116\n30,98", "20 %", declare.CannotTell, "cannot tell yet"},
		{"ends before the late part", "time min,pressure mTorr\n1.9,1500\n2,1170\n2.5,600\n3,358", "5 %", declare.CannotTell, "log too short"},
		{"high where a short log ends", "time min,pressure mTorr\n1.9,1500\n2,1170\n3,700\n5,650", "5 %", declare.Fail, late},
		{"as the curve at first, twice it at the end: a leak", "time min,pressure mTorr\n1.9,1500\n2,1170\n3,358\n5,208\n8,156\n12,135\n20,140\n30,160", "5 %", declare.Fail, late},
		{"one reading leaps", "time min,pressure mTorr\n1.5,4350\n2,1170\n3,358\n5,208\n8,1900\n12,125\n20,97\n30,82", "5 %", declare.Pass, sound},
		{"one reading drops out", "time min,pressure mTorr\n1.5,4350\n2,1170\n3,358\n5,20\n8,156\n12,125\n20,97\n30,82", "5 %", declare.Pass, sound},
		{"a third of the curve: another machine, or another unit", "time min,pressure mTorr\n1.9,1500\n2,1170\n3,120\n5,70\n8,52\n12,42\n20,33\n30,28", "20 %", declare.CannotTell, "cannot tell yet"},
		{"half the time: the clock was started late", "time min,pressure mTorr\n0.9,1500\n1,1170\n2,358\n4,208\n7,156\n11,125\n19,97\n29,82", "5 %", declare.CannotTell, "cannot tell yet"},
		{"the same with a good gauge", "time min,pressure mTorr\n2,1170\n3,400\n5,238\n8,177\n12,143\n20,111\n30,94", "3 %", declare.Pass, sound},
	} {
		is, state, because := pumpVerdict(t, "pump-down-log", "log", c.log, "volume", "24 L ± 1 L", "expected", storedDry, "gauge", c.gauge)
		if is != c.is || !strings.HasPrefix(state, c.state) {
			t.Errorf("%s: %s, %s (%s), want %s, %s", c.name, is, state, because, c.is, c.state)
		}
	}
}

// TestThermalGaugeAboveItsCeiling: readings that a thermal gauge cannot make do not count,
// however wrong, and the answer says so.
func TestThermalGaugeAboveItsCeiling(t *testing.T) {
	honest := calc.Answer(declare.Request{ID: "pump-down-log", In: pairs("log", storedDry, "volume", "24 L", "expected", storedDry)})
	bent := calc.Answer(declare.Request{ID: "pump-down-log", In: pairs("log", strings.NewReplacer("129500", "9000", "22500", "7000", "4350", "5000").Replace(storedDry), "volume", "24 L", "expected", storedDry)})
	for i, g := range honest.Out {
		if g.SI != bent.Out[i].SI || g.Text != bent.Out[i].Text {
			t.Errorf("%s changes from %s to %s", g.ID, g.Text, bent.Out[i].Text)
		}
	}
	if said := allTexts(bent); !strings.Contains(said, "Not used: 3 readings above 2,000 mTorr") {
		t.Error(said)
	}
}

// TestSpeedsByDecade: a log of a bare pump has the pump's own speed in every decade.
func TestSpeedsByDecade(t *testing.T) {
	log := "time s,pressure mTorr"
	for i := range 40 {
		at := float64(5 * i)
		log += "\n" + strconv.FormatFloat(at, 'g', -1, 64) + "," + strconv.FormatFloat(1.5e5*math.Exp(-at/16), 'g', 17, 64)
	}
	a := calc.Answer(declare.Request{ID: "pump-down-log", In: pairs("log", log, "volume", "24 L", "speed", "1.5 L/s", "ceiling", "1,100 mbar")})
	for _, g := range a.Out {
		if g.ID != "speeds" {
			continue
		}
		if len(g.Rows) < 5 {
			t.Fatalf("%d rows: %+v", len(g.Rows), a)
		}
		for _, row := range g.Rows {
			if math.Abs(row[2].Value-1.5) > 1e-9 || math.Abs(row[3].Value-100) > 1e-6 || !(row[2].U > 0) {
				t.Errorf("row %+v, want 1.5 L/s", row)
			}
		}
		return
	}
	t.Errorf("no table of speeds: %+v", a)
}

// TestNeverSaysTheFloor: an end under the floor has no time, fails, and names the floor.
func TestNeverSaysTheFloor(t *testing.T) {
	in := []string{"volume", "24 L", "speed", "5.1 m³/h", "blank-off", "25 mTorr", "line", cindleLine, "start", "1013 mbar", "leak", "0.1 mbar·L/s"}
	a := calc.Answer(declare.Request{ID: "pump-down", In: pairs(append(in, "end", "100 mTorr")...)})
	if a.Fault != nil || a.Out[0].ID != "floor" || math.Abs(a.Out[0].Value-207) > 1 || a.Verdict.Is != declare.Fail || !strings.Contains(a.Verdict.Text, "Never: ") {
		t.Errorf("%+v", a)
	}
	for _, c := range []struct{ end, is string }{{"196 mTorr", declare.CannotTell}, {"215 mTorr", declare.CannotTell}, {"400 mTorr", ""}} {
		if got, _, because := pumpVerdict(t, "pump-down", append(in, "end", c.end)...); got != c.is {
			t.Errorf("to %s: %q (%s), want %q", c.end, got, because, c.is)
		}
	}
	if table := a.Out[len(a.Out)-1]; table.ID != "course" || len(table.Rows) > 40 || len(table.Rows) < 20 {
		t.Errorf("the course has %d rows", len(table.Rows))
	}
}

// TestNoTimeIsNoFloor: an end above the floor that takes ages is not said to lie under it.
func TestNoTimeIsNoFloor(t *testing.T) {
	is, _, because := pumpVerdict(t, "pump-down", "volume", "1 L", "speed", "1e-9 L/s", "blank-off", "0 Pa", "outgassing", "100 mbar·L/s", "start", "1013 mbar", "end", "1 mbar", "limit", "1 d")
	if is != declare.Fail || !strings.Contains(because, "is longer than 1 d") {
		t.Errorf("%s: %s", is, because)
	}
}

// TestNearTheFloorNoTimeIsSure: V/S is 17.14 s, the time 17.14 ln(975 / 6.5) = 85.9 s. A
// blank-off pressure of 25 ± 5 mTorr makes it more than 101.3 s in one case of seventeen
// (by hand: 6.5 (1 − exp(−0.9)) = 3.86 mTorr, 1.54 standard deviations), though ± in first
// order is 13.9 s.
func TestNearTheFloorNoTimeIsSure(t *testing.T) {
	in := []string{"volume", "24 L ± 0 L", "speed", "1.4 L/s ± 0 L/s", "blank-off", "25 mTorr ± 5 mTorr", "start", "1000 mTorr", "limit", "101.3 s"}
	if is, _, because := pumpVerdict(t, "pump-down", append(in, "end", "31.5 mTorr")...); is != declare.CannotTell {
		t.Errorf("near the floor %s: %s", is, because)
	}
	if is, _, because := pumpVerdict(t, "pump-down", append(in, "end", "60 mTorr")...); is != declare.Pass {
		t.Errorf("well above it %s: %s", is, because)
	}
}

// TestBlankOffIsNoExactNumber: near the blank-off pressure its ± rules that of the net speed.
// By hand, without a line: S (q − pᵤ) / q at 50 mTorr with 25 ± 5 mTorr is S (0.5 ± 0.1).
func TestBlankOffIsNoExactNumber(t *testing.T) {
	got := ask(t, "net-speed", "net", "L/s", "speed", "2 L/s ± 0 L/s", "blank-off", "25 mTorr", "pressure", "50 mTorr")
	if math.Abs(got.Value-1) > 1e-9 || math.Abs(2*got.U-0.2) > 1e-9 {
		t.Errorf("%v ± %v L/s, want 1 ± 0.2", got.Value, 2*got.U)
	}
}

// TestBetterInstrumentsNeverReverseAPump: pass never becomes fail, nor fail pass, when an
// accuracy of the entries shrinks.
func TestBetterInstrumentsNeverReverseAPump(t *testing.T) {
	random := rand.New(rand.NewPCG(31, 32))
	number := func(low, high float64) string {
		return strconv.FormatFloat(draw(random, low, high), 'f', 4, 64)
	}
	settled, seen := 0, map[string]int{}
	for range 300 {
		slow, tail := draw(random, 0.9, 1.6), draw(random, 0.8, 2)
		log := "time min,pressure mTorr"
		for i, p := range []float64{1500, 1170, 358, 208, 156, 125, 97, 82} {
			at := []float64{1.9, 2, 3, 5, 8, 12, 20, 30}[i]
			if p < 1000 {
				p *= tail
			}
			log += "\n" + strconv.FormatFloat(at*slow, 'g', 6, 64) + "," + strconv.FormatFloat(p, 'g', 6, 64)
		}
		end := number(30, 90)
		for _, c := range []struct {
			id, plusMinus string
			in            []string
		}{
			{"pump-down-log", "gauge", []string{"log", log, "volume", "24 L", "expected", storedDry, "gauge"}},
			{"blank-off", "gauge", []string{"log", "time min,pressure mTorr\n20," + end + "\n25," + end + "\n30," + end, "limit", "45 mTorr", "ballast", "closed", "oil", "warm", "step", "0 Pa", "gauge"}},
			{"oil-life", "wet-weight", []string{"hours", number(50, 250) + " h", "interval", "200 h", "wet-runs", number(0, 20), "colour", "clear", "clarity", "clear", "wet-weight"}},
			{"pump-down", "speed", []string{"volume", "24 L ± 0 L", "blank-off", "25 mTorr", "start", "1013 mbar", "end", "500 mTorr", "limit", number(1.5, 4) + " min", "speed"}},
		} {
			before := ""
			for _, share := range []float64{0.4, 0.2, 0.05, 0.01, 0} {
				value := text(100*share, "%")
				if c.plusMinus == "speed" {
					value = "5.1 m³/h ± " + value
				} else if c.plusMinus == "wet-weight" {
					value = "5 h ± " + value
				}
				now := mustAnswer(t, declare.Request{ID: c.id, In: pairs(append(c.in, value)...)}).Verdict.Is
				seen[c.id+" "+now]++
				if before != "" && before != now && before != declare.CannotTell && now != declare.CannotTell {
					t.Errorf("%s %v: %q becomes %q", c.id, c.in, before, now)
				}
				if before == declare.CannotTell && now != before {
					settled++
				}
				before = now
			}
		}
	}
	if settled < 200 {
		t.Errorf("only %d doubts were settled: %v", settled, seen)
	}
	for _, id := range []string{"pump-down-log", "blank-off", "oil-life", "pump-down"} {
		for _, is := range []string{declare.Pass, declare.Fail, declare.CannotTell} {
			if seen[id+" "+is] < 50 {
				t.Errorf("only %d of %s %s: the comparison says little", seen[id+" "+is], id, is)
			}
		}
	}
}

func BenchmarkPumpDownAnswer(b *testing.B) {
	r := requests(calc.Find("pump-down"))[1]
	for b.Loop() {
		calc.Answer(r)
	}
}
