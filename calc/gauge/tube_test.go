package gauge_test

import (
	"fmt"
	"math"
	"strings"
	"testing"
)

// modelSignal is the invented tube TQ-4 of the trade brief: mV at a pressure in mTorr.
func modelSignal(p float64) float64 { return 9.6 / (1 + 12*p/(p+3500)) }

// denseCard is its curve in steps fine enough that the card adds no error of its own.
var denseCard = func() string {
	text := "pressure mTorr,signal mV"
	for i := range 181 {
		p := math.Pow(760_000, float64(i)/180)
		text += fmt.Sprintf("\n%.10g,%.10g", p, modelSignal(p))
	}
	return text
}()

func millivolts(x float64) string { return fmt.Sprintf("%.10g mV", x) }

// Trade brief, 2.9, to the figures printed there.
func TestTubeSignalOfTheTradeBrief(t *testing.T) {
	for _, c := range []struct {
		name     string
		in       []string
		out      string
		want     float64
		relative float64
	}{
		{"1 µV at 100 mTorr", []string{"signal", millivolts(modelSignal(100))}, "microvolt", 0.06, 0.08},
		{"1 µV at 30,000 mTorr", []string{"signal", millivolts(modelSignal(30_000))}, "microvolt", 384, 0.005},
		{"1 µV at 30,000 mTorr as the display step", []string{"signal", millivolts(modelSignal(30_000)), "step", "1 µV"}, "step-pressure", 384, 0.005},
		{"heater 5 % low: what is truly 92 shows 136", []string{"signal", millivolts(modelSignal(92) * 0.9025), "current", "39.9 mA", "nominal", "42 mA"}, "shown", 136, 0.005},
		{"and is 92", []string{"signal", millivolts(modelSignal(92) * 0.9025), "current", "39.9 mA", "nominal", "42 mA"}, "pressure", 92, 0.002},
		{"heater 5 % low: what is truly 900 shows 1,079", []string{"signal", millivolts(modelSignal(900) * 0.9025), "current", "39.9 mA", "nominal", "42 mA"}, "shown", 1079, 0.002},
		{"and is 900", []string{"signal", millivolts(modelSignal(900) * 0.9025), "current", "39.9 mA", "nominal", "42 mA"}, "pressure", 900, 0.002},
		{"heater 5 % high: what is truly 92 shows 55", []string{"signal", millivolts(modelSignal(92) * 1.1025), "current", "44.1 mA", "nominal", "42 mA"}, "shown", 55, 0.01},
		{"case 3: 4.25 mV is 410 on the clean card", []string{"signal", "4.25 mV"}, "pressure", 410, 0.01},
		{"case 3: 7.34 mV is 92", []string{"signal", "7.34 mV"}, "pressure", 92, 0.01},
		{"a step of 1 mTorr at 100: by hand 17.5 µV", []string{"signal", millivolts(modelSignal(100)), "step", "1 mTorr"}, "step-signal", 17.5, 0.005},
		{"the slope with the heater low: 0.9025 of it", []string{"signal", millivolts(modelSignal(100) * 0.9025), "current", "39.9 mA", "nominal", "42 mA"}, "sensitivity", 0.9025 * 17.5, 0.005},
	} {
		near(t, c.name, answered(t, "tube-signal", append([]string{"curve", denseCard}, c.in...)...), c.out, c.want, c.relative)
	}
}

// The card may run either way, in other units, with columns exchanged.
func TestTubeSignalOfOneCardWrittenInManyWays(t *testing.T) {
	want := answered(t, "tube-signal", "curve", "signal mV,pressure mTorr\n8,50\n7,100\n5,300\n3,900", "signal", "6 mV")
	for _, card := range []string{
		"signal mV,pressure mTorr\n3,900\n5,300\n7,100\n8,50",
		"pressure Torr;signal V\n0,05;0,008\n0,1;0,007\n0,3;0,005\n0,9;0,003",
		"Pressure (Pa), Signal (µV)\n6.6661184,8000\n13.332237,7000\n39.996711,5000\n119.99013,3000",
	} {
		a := answered(t, "tube-signal", "curve", card, "signal", "6 mV")
		near(t, card, a, "pressure", given(want, "pressure").Value, 1e-7)
		near(t, card, a, "sensitivity", given(want, "sensitivity").Value, 1e-6)
	}
}

// At the ends of the card, and a hair's breadth beyond.
func TestTubeSignalAtTheEndsOfTheCard(t *testing.T) {
	card := []string{"curve", "signal mV,pressure mTorr\n8,50\n7,100\n5,300\n3,900"}
	for signal, want := range map[string]float64{"8 mV": 50, "3 mV": 900, "0.003 V": 900, "3000 µV": 900} {
		near(t, signal, answered(t, "tube-signal", append(card, "signal", signal)...), "pressure", want, 1e-9)
	}
	refuse(t, "tube-signal", card, []refused{
		{"above", []string{"signal", "8.001 mV"}, "signal", "higher than the curve's first, 8 mV at 50 mTorr"},
		{"below", []string{"signal", "2.999 mV"}, "signal", "lower than the curve's last, 3 mV at 900 mTorr"},
		{"no heat at all", []string{"signal", "0 mV"}, "signal", "open couple"},
		{"swapped wires", []string{"signal", "-4 mV"}, "signal", "swapped"},
		{"within, but not at the card's current", []string{"signal", "7.9 mV", "current", "40 mA", "nominal", "42 mA"}, "signal", "higher"},
	})
}

func TestTubeSignalRefuses(t *testing.T) {
	refuse(t, "tube-signal", []string{"curve", denseCard, "signal", "5 mV"}, []refused{
		{"two rows", []string{"curve", "signal mV,pressure mTorr\n8,50\n7,100"}, "curve", "three rows"},
		{"a signal that rises with pressure", []string{"curve", "signal mV,pressure mTorr\n5,50\n6,100\n7,200"}, "curve", "must fall"},
		{"one row out of order", []string{"curve", "signal mV,pressure mTorr\n8,50\n5,300\n7,100\n3,900"}, "curve", "line 3: the signal must fall"},
		{"one row twice", []string{"curve", "signal mV,pressure mTorr\n8,50\n8,50\n7,100\n3,900"}, "curve", "must fall"},
		{"a pressure of nought", []string{"curve", "signal mV,pressure mTorr\n9.6,0\n7,100\n3,900"}, "curve", "line 2: each row needs"},
		{"a missing signal", []string{"curve", "signal mV,pressure mTorr\n8,50\n,100\n3,900"}, "curve", "line 3: each row needs"},
		{"one current alone", []string{"current", "40 mA"}, "nominal", "heater current"},
		{"the other alone", []string{"nominal", "40 mA"}, "current", "heater current"},
		{"OL", []string{"signal", "OL"}, "signal", "over-range"},
	})
}

// The pressure falls as the signal rises, everywhere, and 1 µV and the sensitivity are
// each other's inverse.
func TestTubeSignalFalls(t *testing.T) {
	last := math.Inf(1)
	for mV := 0.75; mV < 9.5; mV += 0.05 {
		a := answered(t, "tube-signal", "curve", denseCard, "signal", millivolts(mV))
		p := given(a, "pressure").SI
		if !(p < last) {
			t.Fatalf("%g mV: %g Pa after %g", mV, p, last)
		}
		if product := given(a, "microvolt").SI * given(a, "sensitivity").SI; math.Abs(product-1e-6) > 1e-12 {
			t.Errorf("%g mV: 1 µV times the sensitivity is %g V", mV, product)
		}
		last = p
	}
}

func TestTubeSignalSaysWhatIsCrude(t *testing.T) {
	for _, c := range []struct {
		name string
		in   []string
		says string
	}{
		{"above 2,000 mTorr", []string{"curve", denseCard, "signal", "0.9 mV"}, "Above 2,000 mTorr"},
		{"rows far apart", []string{"curve", "signal mV,pressure mTorr\n9,10\n7,100\n3,900", "signal", "8 mV"}, "10 times apart"},
		{"heater off", []string{"curve", denseCard, "signal", "5 mV", "current", "39.9 mA", "nominal", "42 mA"}, "off by 5 %"},
	} {
		if a := answered(t, "tube-signal", c.in...); !strings.Contains(strings.Join(a.Cautions, "\n"), c.says) {
			t.Errorf("%s: %q does not say %q", c.name, a.Cautions, c.says)
		}
	}
}
