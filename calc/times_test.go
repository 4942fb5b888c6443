package calc_test

import (
	"testing"

	"blankoff/calc"
	"blankoff/calc/declare"
)

// TestTimesTheLimit: what a triage asks for as a number of times, the calculators give as one, with its doubt. The values are those of
// our notes of the trade, section 4 and its cases (computed there); ± and quotients by hand.
func TestTimesTheLimit(t *testing.T) {
	for _, c := range []struct {
		id, want string
		in       []string
	}{
		// 24 L × 1,100 mTorr / 8 min are 0.0733 mbar·L/s, 7.3 times 0.01; 20 % and 5 % together are 20.6 %.
		{"rise-test", "7.3 ± 1.5", []string{"volume", "24 L", "start", "447 mTorr", "end", "1547 mTorr", "time", "8 min", "limit", "0.01 mbar·L/s"}},
		// 137.5 mTorr/min against 20: the volume does not enter.
		{"rise-test", "6.9 ± 1.4", []string{"volume", "24 L", "start", "447 mTorr", "end", "1547 mTorr", "time", "8 min", "limit", "20 mTorr/min"}},
		{"rise-test", "", []string{"volume", "24 L", "start", "447 mTorr", "end", "1547 mTorr", "time", "8 min"}},
		{"rise-test", "", []string{"volume", "24 L", "start", "447 mTorr", "end", "1547 mTorr", "time", "8 min", "limit", "0 mbar·L/s"}},
		// Case 6: 690 mTorr against 45 are 15.3 times.
		{"blank-off", "15.3 ± 3.1", []string{"log", "time min,pressure mTorr\n20,702\n25,694\n30,690", "limit", "45 mTorr", "ballast", "closed", "oil", "warm", "warm", "30 min"}},
		// Case 3: 410 against 92 mTorr are 4.46 times; 20 % and 10 % together are 22.4 %. The order of the pairs does not matter.
		{"gauge-compare", "4.5 ± 1.0", []string{"readings", "machine mTorr,reference mTorr\n1387,900\n410,92\n598,250", "reference-accuracy", "10 %", "machine-accuracy", "20 %"}},
		{"gauge-compare", "", []string{"readings", "machine mTorr,reference mTorr\n3,0\n5,0", "reference-accuracy", "10 %"}},
		// 350 mTorr over the 187 mTorr of ice at -34 °C; 20 % of the gauge, 10.8 % by the kelvin of the probe: 22.7 %.
		{"ice-floor", "1.87 ± 0.43", []string{"temperature", "-34 °C", "reading", "350 mTorr"}},
		{"ice-floor", "", []string{"reading", "350 mTorr"}},
	} {
		answer := calc.Answer(declare.Request{ID: c.id, In: pairs(c.in...)})
		if answer.Fault != nil {
			t.Fatalf("%s %v: %v", c.id, c.in, answer.Fault)
		}
		got := ""
		for _, out := range answer.Out {
			if out.ID == "times" {
				got = out.Text
			}
		}
		if got != c.want {
			t.Errorf("%s %v: %q times, want %q", c.id, c.in, got, c.want)
		}
	}
}
