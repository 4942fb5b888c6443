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

// trial is one case of a calculator: an output's text, the verdict and words of it.
type trial struct {
	name             string // with its source
	in               []string
	output, want     string
	verdict, because string
}

func try(t *testing.T, id string, trials []trial) {
	t.Helper()
	for _, c := range trials {
		a := answer(id, c.in...)
		if a.Fault != nil {
			t.Errorf("%s: %s: %s", c.name, a.Fault.Field, a.Fault.Text)
			continue
		}
		if got := shown(a, c.output); got != c.want || a.Verdict.Is != c.verdict || !strings.Contains(a.Verdict.Text, c.because) {
			t.Errorf("%s:\ngot  %s = %s; %q %s\nwant %s; %q … %s", c.name, c.output, got, a.Verdict.Is, a.Verdict.Text, c.want, c.verdict, c.because)
		}
	}
}

// refusal is a request that must be refused at a field.
type refusal struct {
	name        string
	in          []string
	field, want string
}

func refuse(t *testing.T, id string, refusals []refusal) {
	t.Helper()
	for _, c := range refusals {
		if a := answer(id, c.in...); a.Fault == nil || a.Fault.Field != c.field || !strings.Contains(a.Fault.Text, c.want) {
			t.Errorf("%s: got %+v, want field %s and %q", c.name, a.Fault, c.field, c.want)
		}
	}
}

func TestMeterCases(t *testing.T) {
	display := []string{"reading", "8.4 Ω", "leads", "0.3 Ω"}
	heater := []string{"low", "6.9 Ω", "high", "9.3 Ω"}
	fine := []string{"percent", "0.5 %", "counts", "10", "resolution", "0.01 Ω"}
	try(t, "meter", []trial{
		{"trade brief, section 3: 8.1 ± 0.49 Ω", display, "resistance", "8.10 ± 0.49 Ω", "", ""},
		{"trade brief, section 3: worst case 0.69 Ω", display, "worst", "0.69 Ω", "", ""},
		{"trade brief, section 3: ± 0.17 Ω at 0.01 Ω and ± (0.5 % + 10 counts)", join(display, fine), "resistance", "8.10 ± 0.17 Ω", "", ""},
		{"by hand: 0.142 + 0.1015 Ω", join(display, fine), "worst", "0.24 Ω", "", ""},
		{"against the heater's card", join(display, heater), "band", "41 %", declare.Pass, "this meter can say so"},
		{"by hand: 10.7 − 0.3 is 10.4 ± 0.51", join(heater, []string{"reading", "10.7 Ω", "leads", "0.3 Ω"}), "resistance", "10.40 ± 0.51 Ω", declare.Fail, "outside"},
		{"by hand: 9.0 ± 0.49 reaches across 9.3", join(heater, []string{"reading", "9.3 Ω", "leads", "0.3 Ω"}), "resistance", "9.00 ± 0.50 Ω", declare.CannotTell, "would settle it"},
		{"nulling takes the leads, not the counts: by hand √(0.381² + 0.3²)", []string{"reading", "8.1 Ω", "method", "nulled"}, "resistance", "8.10 ± 0.48 Ω", "", ""},
		{"four wires leave 0.081 + 0.3", []string{"reading", "8.1 Ω", "method", "four wires"}, "resistance", "8.10 ± 0.38 Ω", "", ""},
		{"nor the ± of the leads: by hand 0.081 + 0.3", []string{"reading", "8.1 Ω", "method", "four wires", "leads", "0.3 Ω ± 0.1 Ω"}, "worst", "0.38 Ω", "", ""},
		{"four wires need no leads and no contacts", []string{"reading", "8.1 Ω", "method", "four wires", "leads", "0.3 Ω", "contact", "0.5 Ω"}, "resistance", "8.10 ± 0.38 Ω", "", ""},
		{"contacts of 0.5 Ω: by hand √(0.488² + 0.5²)", join(display, []string{"contact", "0.5 Ω"}), "resistance", "8.10 ± 0.70 Ω", "", ""},
		{"and they add to the worst case", join(display, []string{"contact", "0.5 Ω"}), "worst", "1.2 Ω", "", ""},
		{"trade brief, section 3: 1.7 Ω of thermal voltage, gone in the mean of both ways", []string{"reading", "16.5 Ω", "reversed", "13.1 Ω", "leads", "0.3 Ω"}, "resistance", "14.50 ± 0.56 Ω", "", ""},
		{"half the band in doubt", join(display, heater), "able", "yes: from 7.389 Ω to 8.811 Ω it passes, and its ± is at most a quarter of the band", declare.Pass, ""},
		{"a band of 1.6 Ω", join(display, []string{"low", "7.3 Ω", "high", "8.9 Ω"}), "able", "only in the middle: from 7.789 Ω to 8.411 Ω it passes; a meter with a ± under 0.4 Ω is advised", declare.Pass, ""},
		{"a band of 0.8 Ω: nothing can pass", join(display, []string{"low", "7.7 Ω", "high", "8.5 Ω"}), "able", "no: nothing can pass, because its ± is more than half of the band; a ± under 0.2 Ω is advised", declare.CannotTell, ""},
		{"far outside it can still say no", join(display, []string{"low", "9 Ω", "high", "9.5 Ω"}), "band", "200 %", declare.Fail, ""},
		{"one limit alone", join(display, []string{"high", "9.3 Ω"}), "band", "", declare.Pass, "at most 9.3 Ω"},
	})
	refuse(t, "meter", []refusal{
		{"two wires without leads", []string{"reading", "8 Ω"}, "leads", "tips held together"},
		{"limits the wrong way round", join(display, []string{"low", "9 Ω", "high", "8 Ω"}), "high", "not above"},
		{"less than the probes alone", []string{"reading", "0.1 Ω", "leads", "2 Ω"}, "leads", "null again"},
		{"over-range", []string{"reading", "OL", "leads", "0 Ω"}, "reading", "over-range"},
	})
}

var goodTo = regexp.MustCompile(`good to ± ([0-9.,]+ Ω)(, such| at this)`)

// TestMeterAdviceHolds buys the meter that the verdict advises; it must then decide.
func TestMeterAdviceHolds(t *testing.T) {
	random := rand.New(rand.NewPCG(51, 52))
	met := 0
	for range 3000 {
		number := func(x float64) string { return strconv.FormatFloat(x, 'f', 3, 64) + " Ω" }
		low := 2 + 12*random.Float64()
		in := []string{"reading", number(low * (0.7 + random.Float64())), "leads", "0.3 Ω", "method", []string{"two wires", "nulled", "four wires"}[random.IntN(3)],
			"resolution", []string{"0.1 Ω", "0.01 Ω"}[random.IntN(2)], "low", number(low), "high", number(low * 1.4)}
		a := answer("meter", in...)
		if a.Fault != nil || a.Verdict.Is != declare.CannotTell {
			continue
		}
		better := in
		if m := digitAdvice.FindStringSubmatch(a.Verdict.Text); m != nil {
			better = join(in, []string{"resolution", m[1]})
		} else if m := goodTo.FindStringSubmatch(a.Verdict.Text); m != nil {
			better = join(in, []string{"reading", in[1] + " ± " + m[1], "percent", "0 %", "counts", "0"})
		} else if strings.Contains(a.Verdict.Text, "on the limit itself") {
			continue
		} else {
			t.Errorf("%v: no advice in %s", in, a.Verdict.Text)
		}
		met++
		if b := answer("meter", better...); b.Verdict.Is == declare.CannotTell || b.Fault != nil {
			t.Errorf("%v: %s\nbut with %v: %s %+v", in, a.Verdict.Text, better, b.Verdict.Text, b.Fault)
		}
	}
	if met < 200 {
		t.Errorf("advice met %d times: the test says little", met)
	}
}

// The worst case is never less than the expanded uncertainty, and at most √3 times it
// with three terms.
func TestWorstCaseBounds(t *testing.T) {
	random := rand.New(rand.NewPCG(53, 54))
	for range 500 {
		a := answer("meter", "reading", strconv.FormatFloat(1+50*random.Float64(), 'f', 2, 64)+" Ω", "leads", "0.3 Ω", "contact", strconv.FormatFloat(random.Float64(), 'f', 2, 64)+" Ω")
		expanded, worst := 2*a.Out[0].U, a.Out[1].Value
		if worst < expanded*(1-1e-12) || worst > math.Sqrt(3)*expanded*(1+1e-12) {
			t.Errorf("worst %v, U %v", worst, expanded)
		}
	}
}

func TestCurrentCases(t *testing.T) {
	tq4 := []string{"resistance", "8.1 Ω", "normal", "42 mA"}
	try(t, "test-current", []trial{
		{"trade brief, section 3: 1 mA in 8.1 Ω is 8 µW", join(tq4, []string{"test", "1 mA ± 0 mA"}), "power", "0.0081 mW", declare.Pass, "this range may be used"},
		{"trade brief, section 3: 200 mA is 324 mW", join(tq4, []string{"test", "200 mA ± 0 mA"}), "power", "324 mW", declare.Fail, "23 times"},
		{"trade brief, section 3: normal 14.3 mW", join(tq4, []string{"test", "200 mA"}), "normal-power", "14.29 mW", declare.Fail, ""},
		{"by hand: a tenth of 42² is 13.28² mA", join(tq4, []string{"test", "1 mA ± 0 mA"}), "most", "13.28 mA", declare.Pass, ""},
		{"the highest allowed current passes", join(tq4, []string{"test", "13.28 mA ± 0 mA"}), "share", "9.998 %", declare.Pass, ""},
		{"by hand: (13.28/42)² ± 2·10 % reaches across a tenth", join(tq4, []string{"test", "13.28 mA"}), "share", "10.0 ± 2.0 %", declare.CannotTell, "would settle it"},
		{"between the two: no harm, but it drifts", join(tq4, []string{"test", "30 mA ± 1 %"}), "share", "51.0 ± 1.0 %", declare.CannotTell, "stays under 13.28 mA"},
		{"as much as normal fails", join(tq4, []string{"test", "42 mA ± 0 mA"}), "share", "100 %", declare.Fail, ""},
		{"the open voltage bounds it: by hand 0.1² / 8.1", join(tq4, []string{"test", "0.1 V ± 0 V"}), "power", "1.235 mW", declare.Pass, ""},
		{"3 V could be anything", join(tq4, []string{"test", "3 V"}), "normal-power", "14.29 mW", declare.CannotTell, "second meter"},
		{"the normal heating as a power", []string{"resistance", "8.1 Ω", "normal", "14.3 mW", "test", "200 mA ± 0 mA"}, "share", "2,266 %", declare.Fail, ""},
	})
	refuse(t, "test-current", []refusal{
		{"no normal heating", []string{"resistance", "8.1 Ω", "normal", "0 mA", "test", "1 mA"}, "normal", "above nought"},
		{"ohms for a current", []string{"resistance", "8.1 Ω", "test", "1 Ω"}, "test", "a resistance"},
	})
}

// Heat goes with the square of the current and, at a current, with the resistance.
func TestCurrentScales(t *testing.T) {
	power := func(current, resistance float64) float64 {
		return answer("test-current", "test", strconv.FormatFloat(current, 'g', 17, 64)+" A", "resistance", strconv.FormatFloat(resistance, 'g', 17, 64)+" Ω").Out[0].SI
	}
	for _, current := range []float64{1e-5, 1e-3, 0.2} {
		for _, resistance := range []float64{0.5, 8.1, 60} {
			if a, b := power(2*current, resistance), 4*power(current, resistance); math.Abs(a-b) > 1e-12*b {
				t.Errorf("twice %v A heats %v, not %v", current, a, b)
			}
			if a, b := power(current, 3*resistance), 3*power(current, resistance); math.Abs(a-b) > 1e-12*b {
				t.Errorf("thrice %v Ω heats %v, not %v", resistance, a, b)
			}
		}
	}
}
