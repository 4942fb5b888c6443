package electrical_test

import (
	"math/rand/v2"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"blankoff/calc"
	"blankoff/calc/declare"
)

func measure(in ...string) declare.Answer { return answer("continuity", in...) }

// answer asks a calculator as a page does; in holds name, text, name, text...
func answer(id string, in ...string) declare.Answer {
	r := declare.Request{ID: id}
	for i := 0; i < len(in); i += 2 {
		r.In = append(r.In, declare.Pair{Name: in[i], Text: in[i+1]})
	}
	return calc.Answer(r)
}

func shown(a declare.Answer, id string) string {
	for _, g := range a.Out {
		if g.ID == id {
			return g.Text
		}
	}
	return ""
}

// The states of a pair.
const (
	open         = "open"
	continuous   = "continuous"
	unmeasurable = "continuous, but not measurable with this meter"
	shorted      = "shorted"
	connected    = "connected"
	onThisRange  = "open on this range"
	leaky        = "leaky, or damp"
)

func TestContinuityCases(t *testing.T) {
	heater := []string{"low", "6.9 Ω", "high", "9.3 Ω"}   // trade brief, section 10: TQ-4
	couple := []string{"low", "12.4 Ω", "high", "16.8 Ω"} // the same
	fine := []string{"percent", "0.5 %", "counts", "10", "resolution", "0.01 Ω"}
	for _, c := range []struct {
		name                       string // with its source
		in                         []string
		resistance, state, verdict string
	}{
		{"trade brief, section 3: 8.4 Ω with leads 0.3 Ω, ± (1 % + 3 counts) at 0.1 Ω, is 8.1 ± 0.49 Ω",
			append([]string{"reading", "8.4 Ω", "leads", "0.3 Ω"}, heater...), "8.10 ± 0.49 Ω", continuous, declare.Pass},
		{"trade brief, section 3: the same at 0.01 Ω with ± (0.5 % + 10 counts) is ± 0.17 Ω",
			append(append([]string{"reading", "8.4 Ω", "leads", "0.3 Ω"}, heater...), fine...), "8.10 ± 0.17 Ω", continuous, declare.Pass},
		{"trade brief, case 3: heater 8.0 Ω of an intact TQ-4, probes nulled",
			append([]string{"reading", "8.0 Ω", "leads", "0 Ω"}, heater...), "8.00 ± 0.48 Ω", continuous, declare.Pass},
		{"trade brief, case 3: couple 14.5 Ω of an intact TQ-4",
			append([]string{"reading", "14.5 Ω", "leads", "0 Ω"}, couple...), "14.50 ± 0.54 Ω", continuous, declare.Pass},
		{"trade brief, case 4: TX-4 leg 2 to 3 shows OL", []string{"reading", "OL", "leads", "0.2 Ω"}, "", open, declare.Fail},
		{"trade brief, case 4: TX-4 legs 3 to 5, 11.0 Ω within 11.0 ± 15 %",
			[]string{"reading", "11.0 Ω", "leads", "0 Ω", "low", "9.35 Ω", "high", "12.65 Ω"}, "11.00 ± 0.51 Ω", continuous, declare.Pass},
		{"trade brief, case 4: TX-4 legs 5 to 8, 14.1 Ω within 14.1 ± 15 %",
			[]string{"reading", "14.1 Ω", "leads", "0 Ω", "low", "11.985 Ω", "high", "16.215 Ω"}, "14.10 ± 0.53 Ω", continuous, declare.Pass},
		{"trade brief, section 3: 0.L must not be read as 0.1", []string{"reading", "0.L", "leads", "0.2 Ω"}, "", open, declare.Fail},
		{"trade brief, section 8, test 3: OL in a resistance box is open, not zero",
			append([]string{"reading", "O.L", "leads", "0.2 Ω"}, heater...), "", open, declare.Fail},
		{"trade brief, section 3: far below the range, the pair is shorted; by hand U = √2 · 0.3",
			append([]string{"reading", "0.4 Ω", "leads", "0.3 Ω"}, heater...), "0.10 ± 0.43 Ω", shorted, declare.Fail},
		{"by hand: without a card the least for any wire is 1 Ω",
			[]string{"reading", "0.5 Ω", "leads", "0.3 Ω"}, "0.20 ± 0.43 Ω", shorted, declare.Fail},
		{"by hand: 1.0 ± 0.43 reaches across 1 Ω", []string{"reading", "1.3 Ω", "leads", "0.3 Ω"}, "1.00 ± 0.44 Ω", unmeasurable, declare.CannotTell},
		{"by hand: the finer meter tells the same 1.3 Ω from a short",
			append([]string{"reading", "1.5 Ω", "leads", "0.2 Ω"}, fine...), "1.30 ± 0.15 Ω", continuous, declare.Pass},
		{"by hand: 6.9 + 0.46 is the lowest that passes", append([]string{"reading", "7.1 Ω", "leads", "0 Ω"}, heater...), "7.10 ± 0.48 Ω", continuous, declare.CannotTell},
		{"trade brief, section 3: 10 % high is contact or wrong pins, not a worn wire",
			append([]string{"reading", "10.5 Ω", "leads", "0.2 Ω"}, heater...), "10.30 ± 0.51 Ω", continuous, declare.CannotTell},
		{"by hand: too low for the card, too high for a short",
			append([]string{"reading", "5.5 Ω", "leads", "0.2 Ω"}, heater...), "5.30 ± 0.47 Ω", continuous, declare.Fail},
		{"by hand: half the card's low limit is 3.45 Ω, so 3.5 ± 0.45 may be a short; outside the card it is either way",
			append([]string{"reading", "3.5 Ω", "leads", "0 Ω"}, heater...), "3.50 ± 0.45 Ω", unmeasurable, declare.Fail},
		{"only a low limit", []string{"reading", "8 Ω", "leads", "0 Ω", "low", "6.9 Ω"}, "8.00 ± 0.48 Ω", continuous, declare.Pass},
		{"only a high limit", []string{"reading", "8 Ω", "leads", "0 Ω", "high", "9.3 Ω"}, "8.00 ± 0.48 Ω", continuous, declare.Pass},
		{"a cable that may have up to 2 Ω is not shorted at 0.2 Ω", []string{"reading", "0.5 Ω", "leads", "0.3 Ω", "low", "0 Ω", "high", "2 Ω"}, "0.20 ± 0.43 Ω", continuous, declare.Pass},
		{"nor one that may have at most 1 Ω", append([]string{"reading", "0.5 Ω", "leads", "0.3 Ω", "high", "1 Ω"}, fine...), "0.20 ± 0.14 Ω", continuous, declare.Pass},
		{"nulled probes may show a little less than nothing", append([]string{"reading", "8.1 Ω", "leads", "-0.1 Ω"}, heater...), "8.20 ± 0.49 Ω", continuous, declare.Pass},
		// Points that must not be connected (trade brief, sections 3 and 10: > 10 MΩ, < 1 MΩ wet or shorted).
		{"pin to case, OL on the highest range", []string{"reading", "OL", "leads", "0 Ω", "expect", "no connection", "resolution", "0.01 MΩ"}, "", open, declare.Pass},
		{"pin to case, OL on a low range: 5 kΩ to the case would show it too", []string{"reading", "OL", "leads", "0 Ω", "expect", "no connection"}, "", onThisRange, declare.CannotTell},
		{"pin to case, OL on a range that reaches 20 MΩ, 10 MΩ asked for (trade brief, section 3)", []string{"reading", "OL", "leads", "0 Ω", "expect", "no connection", "range-top", "20 MΩ"}, "", open, declare.Pass},
		{"OL with a last digit of 1 kΩ: a display of 2,000 counts ends at 2 MΩ", []string{"reading", "OL", "leads", "0 Ω", "expect", "no connection", "resolution", "1 kΩ"}, "", onThisRange, declare.CannotTell},
		{"the card asks for 100 MΩ: a last digit of 10 kΩ says no more than 20 MΩ", []string{"reading", "OL", "leads", "0 Ω", "expect", "no connection", "resolution", "10 kΩ", "low", "100 MΩ"}, "", onThisRange, declare.CannotTell},
		{"pin to case, 0.99 MΩ, the last digit not entered: no range shows that to 0.1 Ω; by hand 9.9 + 3 · 4.95 kΩ", []string{"reading", "0.99 MΩ", "leads", "0 Ω", "expect", "no connection"}, "0.990 ± 0.025 MΩ", leaky, declare.CannotTell},
		{"pair, 5 MΩ is no wire, whatever the card says", append([]string{"reading", "5 MΩ", "leads", "0.3 Ω", "resolution", "10 kΩ"}, heater...), "5.000 ± 0.085 MΩ", open, declare.Fail},
		{"OL on a range that reaches just the limit", []string{"reading", "OL", "leads", "0 Ω", "expect", "no connection", "range-top", "10,000 kΩ"}, "", open, declare.Pass},
		{"OL on a range that reaches 2 MΩ: 5 MΩ would show it too", []string{"reading", "OL", "leads", "0 Ω", "expect", "no connection", "range-top", "2 MΩ", "resolution", "1 kΩ"}, "", onThisRange, declare.CannotTell},
		{"the card asks for 50 MΩ, the range reaches 20 MΩ", []string{"reading", "OL", "leads", "0 Ω", "expect", "no connection", "range-top", "20 MΩ", "low", "50 MΩ", "resolution", "10 kΩ"}, "", onThisRange, declare.CannotTell},
		{"a card that asks for 1 MΩ is met on the 2 MΩ range", []string{"reading", "OL", "leads", "0 Ω", "expect", "no connection", "range-top", "2 MΩ", "low", "1 MΩ"}, "", open, declare.Pass},
		{"pair, OL on a 20 Ω range: a wire of 60 Ω would show it too", []string{"reading", "OL", "leads", "0 Ω", "range-top", "20 Ω"}, "", onThisRange, declare.CannotTell},
		{"pair, OL on a 20 Ω range where the card ends at 9.3 Ω", append([]string{"reading", "OL", "leads", "0 Ω", "range-top", "20 Ω"}, heater...), "", open, declare.Fail},
		{"pair, 5 GΩ is no wire", []string{"reading", "5 GΩ", "leads", "0.3 Ω"}, "5.00 ± 0.12 GΩ", open, declare.Fail},
		{"pair, 500 Ω is more than a pair of a tube has", []string{"reading", "500 Ω", "leads", "0.3 Ω"}, "499.7 ± 5.3 Ω", "continuous, but too high for such a wire", declare.CannotTell},
		{"pair, 8,400 Ω typed with a decimal comma for 8.4 Ω, low limit alone", []string{"reading", "8,400 Ω", "leads", "0.3 Ω", "low", "6.9 Ω"}, "8,400 ± 210 Ω", "continuous, but too high for such a wire", declare.CannotTell},
		{"pin to case, 12 MΩ ± (1 % + 3 · 10 kΩ)", []string{"reading", "12 MΩ", "leads", "0 Ω", "expect", "no connection", "resolution", "10 kΩ"}, "12.00 ± 0.15 MΩ", open, declare.Pass},
		{"pin to case, 10 MΩ sits on the limit", []string{"reading", "10 MΩ", "leads", "0 Ω", "expect", "no connection", "resolution", "10 kΩ"}, "10.00 ± 0.13 MΩ", leaky, declare.CannotTell},
		{"pin to case, 5 MΩ", []string{"reading", "5 MΩ", "leads", "0 Ω", "expect", "no connection", "resolution", "10 kΩ"}, "5.000 ± 0.085 MΩ", leaky, declare.CannotTell},
		{"pin to case, 0.5 MΩ", []string{"reading", "500 kΩ", "leads", "0 Ω", "expect", "no connection", "resolution", "1 kΩ"}, "500.0 ± 8.5 kΩ", connected, declare.Fail},
		{"a card that asks for 20 MΩ rules instead: 12 MΩ are too few", []string{"reading", "12 MΩ", "leads", "0 Ω", "expect", "no connection", "resolution", "10 kΩ", "low", "20 MΩ"}, "12.00 ± 0.15 MΩ", connected, declare.Fail},
		{"a card that asks for 0.5 MΩ", []string{"reading", "800 kΩ", "leads", "0 Ω", "expect", "no connection", "resolution", "1 kΩ", "low", "0.5 MΩ"}, "800 ± 11 kΩ", open, declare.Pass},
		{"on that limit", []string{"reading", "500 kΩ", "leads", "0 Ω", "expect", "no connection", "resolution", "1 kΩ", "low", "0.5 MΩ"}, "500.0 ± 8.5 kΩ", leaky, declare.CannotTell},
		{"a low limit of nought does not pass a dead short", []string{"reading", "0.3 Ω", "leads", "0.3 Ω", "expect", "no connection", "low", "0 Ω"}, "0.00 ± 0.43 Ω", connected, declare.Fail},
		{"pin to case, a dead short", []string{"reading", "0.3 Ω", "leads", "0.3 Ω", "expect", "no connection"}, "0.00 ± 0.43 Ω", connected, declare.Fail},
	} {
		a := measure(c.in...)
		if a.Fault != nil {
			t.Errorf("%s: %s: %s", c.name, a.Fault.Field, a.Fault.Text)
			continue
		}
		if r, s := shown(a, "resistance"), shown(a, "state"); c.resistance != "" && r != c.resistance || s != c.state || a.Verdict.Is != c.verdict {
			t.Errorf("%s:\ngot  %s; %s; %q %s\nwant %s; %s; %q", c.name, r, s, a.Verdict.Is, a.Verdict.Text, c.resistance, c.state, c.verdict)
		}
		if (c.resistance == "") != (shown(a, "resistance") == "") || a.Verdict.Text == "" {
			t.Errorf("%s: %+v", c.name, a)
		}
	}
}

func TestContinuityRefusals(t *testing.T) {
	for _, c := range []struct {
		name        string
		in          []string
		field, want string
	}{
		{"trade brief, calculator 20: less than the probes alone", []string{"reading", "0.1 Ω", "leads", "2 Ω"}, "leads", "null again"},
		{"card limits the wrong way round", []string{"reading", "8 Ω", "leads", "0 Ω", "low", "9.3 Ω", "high", "6.9 Ω"}, "high", "below the low one"},
		{"OL with the probes together", []string{"reading", "8 Ω", "leads", "OL"}, "leads", "over-range"},
		{"OL as a card limit", []string{"reading", "8 Ω", "leads", "0 Ω", "high", "OL"}, "high", "over-range"},
		{"no unit: 8 may be Ω or kΩ", []string{"reading", "8", "leads", "0 Ω"}, "reading", "write 8 Ω or 8 kΩ"},
		{"volts", []string{"reading", "0.5 V", "leads", "0 Ω"}, "reading", "a voltage"},
		{"a percentage where counts belong", []string{"reading", "8 Ω", "leads", "0 Ω", "counts", "3 %"}, "counts", "a plain number"},
		{"a number of counts where a percentage belongs", []string{"reading", "8 Ω", "leads", "0 Ω", "percent", "1"}, "percent", "no unit"},
		{"a choice that is none", []string{"reading", "8 Ω", "leads", "0 Ω", "expect", "maybe"}, "expect", "wire, no connection"},
		{"blank probes are not 0 Ω", []string{"reading", "8 Ω"}, "leads", "is blank"},
	} {
		a := measure(c.in...)
		if a.Fault == nil || a.Fault.Field != c.field || !strings.Contains(a.Fault.Text, c.want) {
			t.Errorf("%s: got %+v, want field %s and %q", c.name, a.Fault, c.field, c.want)
		}
	}
}

var (
	digitAdvice   = regexp.MustCompile(`last digit of ([0-9.×⁻⁰¹²³⁴⁵⁶⁷⁸⁹]+ Ω), or`)
	measureAdvice = regexp.MustCompile(`A measurement good to ± ([0-9.,×⁻⁰¹²³⁴⁵⁶⁷⁸⁹]+ Ω), such`)
)

// contact tells whether the doubt is about the contact, not about the meter.
func contact(a declare.Answer) bool {
	return strings.Contains(a.Verdict.Text, "by less than a third: contact resistance")
}

// TestAdviceHolds buys the meter that the verdict advises; it must then decide.
func TestAdviceHolds(t *testing.T) {
	random := rand.New(rand.NewPCG(15, 16))
	digits, measurements := 0, 0
	number := func(x float64) string { return strconv.FormatFloat(x, 'g', 17, 64) + " Ω" }
	for range 6000 {
		net, leads, low := 0.3+15*random.Float64(), 0.5*random.Float64(), 2+12*random.Float64()
		in := []string{"reading", number(net + leads), "leads", number(leads), "percent", []string{"0.1 %", "0.5 %", "1 %"}[random.IntN(3)],
			"counts", strconv.Itoa(1 + random.IntN(10)), "resolution", []string{"0.1 Ω", "0.01 Ω"}[random.IntN(2)]}
		if random.IntN(3) > 0 {
			in = append(in, "low", number(low), "high", number(low*1.4))
		}
		a := measure(in...)
		if a.Verdict.Is != declare.CannotTell || contact(a) { // what a contact adds, no meter takes away
			continue
		}
		better := append([]string{}, in...)
		if m := digitAdvice.FindStringSubmatch(a.Verdict.Text); m != nil {
			better = append(better, "resolution", m[1])
			digits++
		} else if m := measureAdvice.FindStringSubmatch(a.Verdict.Text); m != nil {
			better = append(better, "reading", in[1]+" ± "+m[1], "percent", "0 %", "counts", "0")
			measurements++
		} else if !strings.Contains(a.Verdict.Text, "on the limit itself") {
			t.Errorf("%v: no advice in %s", in, a.Verdict.Text)
			continue
		} else {
			continue
		}
		if b := measure(better...); b.Verdict.Is == declare.CannotTell && !contact(b) || b.Fault != nil {
			t.Errorf("%v: %s\nbut with %v: %s %+v", in, a.Verdict.Text, better, b.Verdict.Text, b.Fault)
		}
	}
	if digits < 100 || measurements < 50 {
		t.Errorf("advice met: %d digits, %d measurements: the test says little", digits, measurements)
	}
}
