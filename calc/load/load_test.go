package load

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"blankoff/calc/constant"
	"blankoff/calc/declare"
	"blankoff/calc/vapour"
)

// answer runs a calculator on name, text, name, text... and gives its outputs by name.
func answer(t *testing.T, c *declare.Calculator, in ...string) map[string]declare.Given {
	t.Helper()
	request := declare.Request{ID: c.ID}
	for i := 0; i < len(in); i += 2 {
		request.In = append(request.In, declare.Pair{Name: in[i], Text: in[i+1]})
	}
	a := c.Answer(request)
	if a.Fault != nil {
		t.Fatalf("%s %v: field %q: %s", c.ID, in, a.Fault.Field, a.Fault.Text)
	}
	out := map[string]declare.Given{}
	for _, g := range a.Out {
		out[g.ID] = g
	}
	return out
}

func full(x float64, unit string) string { return strconv.FormatFloat(x, 'g', 17, 64) + " " + unit }

func near(a, b, share float64) bool { return math.Abs(a-b) <= share*math.Max(math.Abs(a), math.Abs(b)) }

// The check values of the trade brief, section 7, and limiting cases worked by hand.
func TestRemoved(t *testing.T) {
	for _, c := range []struct {
		name                        string
		mass, water, residual, want float64
		half                        float64
	}{
		{"4.8 kg at 82 % to 3 %", 4.8, 0.82, 0.03, 3.91, 0.005},
		{"4.0 kg at 87 % to 3 %", 4.0, 0.87, 0.03, 3.46, 0.005},
		{"nothing left: all of the water", 4, 0.75, 0, 3, 1e-12},
		{"as wet as before: nothing", 4, 0.75, 0.75, 0, 1e-12},
		{"dry already", 4, 0, 0, 0, 0},
		{"water alone", 4, 1, 0.03, 4, 1e-12},
	} {
		if got := Removed(c.mass, c.water, c.residual); math.Abs(got-c.want) > c.half {
			t.Errorf("%s: %v kg, want %v", c.name, got, c.want)
		}
	}
}

// TestDryMatterStays: in two steps or in one, the same water leaves.
func TestDryMatterStays(t *testing.T) {
	for water := 0.3; water < 1; water += 0.1 {
		for between := 0.1; between < water; between += 0.1 {
			first := Removed(5, water, between)
			second := Removed(5-first, between, 0.02)
			if whole := Removed(5, water, 0.02); !near(first+second, whole, 1e-12) {
				t.Errorf("%v over %v: %v and %v kg, in one step %v", water, between, first, second, whole)
			}
		}
	}
}

// Trade brief, section 7: melting 3.6 kg of ice from -34 °C takes 1.45 MJ.
func TestMeltHeat(t *testing.T) {
	if got := MeltHeat(3.6, constant.ZeroCelsius-34); math.Abs(got-1.45e6) > 0.005e6 {
		t.Errorf("%v J, want 1.45 MJ", got)
	}
	if got := MeltHeat(1, constant.ZeroCelsius); got != meltHeat {
		t.Errorf("at 0 °C %v J, want the heat of melting alone", got)
	}
}

func TestIceLoadDoesNotDependOnUnits(t *testing.T) {
	c := IceLoad.Prepare()
	a := answer(t, c, "mass", "4.8 kg", "water", "82 %", "capacity", "3.6 kg")
	b := answer(t, c, "mass", full(4.8/0.45359237, "lb"), "water", "820,000 ppm", "capacity", "3600 g")
	for id, g := range a {
		if g.HasValue && !near(g.SI, b[id].SI, 1e-12) {
			t.Errorf("%s: %v and %v", id, g.SI, b[id].SI)
		}
	}
}

// TestLargestBatchFits: what is said to fit surely does so when it is asked for.
func TestLargestBatchFits(t *testing.T) {
	c := IceLoad.Prepare()
	for mass := 0.5; mass < 50; mass *= 1.3 {
		most := answer(t, c, "mass", full(mass, "kg"), "water", "80 %", "capacity", "3.6 kg")["most"].SI
		a := c.Answer(declare.Request{ID: c.ID, In: []declare.Pair{{Name: "mass", Text: full(most, "kg")}, {Name: "water", Text: "80 %"}, {Name: "capacity", Text: "3.6 kg"}}})
		if a.Verdict.Is != declare.Pass {
			t.Errorf("%v kg: %v kg is said to fit, and is judged %q: %s", mass, most, a.Verdict.Is, a.Verdict.Text)
		}
	}
}

// TestDryingTimeIsTheSlower of heat and vapour, and neither alone is slower.
func TestDryingTimeIsTheSlower(t *testing.T) {
	c := DryingTime.Prepare()
	for rate := 20.0; rate < 2000; rate *= 1.3 {
		out := answer(t, c, "water", "3 kg", "power", "200 W", "trap", full(rate, "g/h"))
		heat, flow, both := out["by-heat"].SI, out["by-vapour"].SI, out["time"].SI
		if both != math.Max(heat, flow) || !near(flow, 3/(rate/3.6e6), 1e-12) {
			t.Errorf("trap %v g/h: heat %v s, vapour %v s, time %v s", rate, heat, flow, both)
		}
	}
}

// TestDryingTimeMoves the way it must: more water is longer, more heat, a wider port and
// warmer ice are shorter.
func TestDryingTimeMoves(t *testing.T) {
	c := DryingTime.Prepare()
	time := func(water, power, port, ice float64) float64 {
		return answer(t, c, "water", full(water, "kg"), "power", full(power, "W"), "port", full(port, "mm"), "ice", full(ice, "°C"))["time"].SI
	}
	base := time(3, 50000, 20, -25)
	for name, other := range map[string]bool{
		"more water": time(3.1, 50000, 20, -25) > base, "a wider port": time(3, 50000, 21, -25) < base, "warmer ice": time(3, 50000, 20, -24) < base,
		"less heat, where heat limits": time(3, 10, 200, -25) > time(3, 11, 200, -25),
	} {
		if !other {
			t.Errorf("%s moves the time the wrong way", name)
		}
	}
}

// TestPortIsNoFasterThanSound: the choked port passes the vapour of its area at less than
// the speed of sound, √(γ R T/M) by hand, and more than half of it.
func TestPortIsNoFasterThanSound(t *testing.T) {
	c := DryingTime.Prepare()
	const kelvin, pascal, area = 253.15, 50.0, 1e-4 * math.Pi / 4 // a port of 10 mm
	rate := answer(t, c, "water", "1 kg", "port", "10 mm", "ice", "-20 °C", "pressure", "50 Pa")["rate"].SI
	speed := rate * vapour.Volume(1, kelvin, pascal) / area
	if sound := math.Sqrt(vapourGamma * 8.314462618 * kelvin / constant.Water); !(speed < sound && speed > sound/2) {
		t.Errorf("vapour passes at %v m/s, sound at %v m/s", speed, sound)
	}
}

// TestVapourRateIsTheInverseOfVolume: what flows in an hour fills what it fills.
func TestVapourRateIsTheInverseOfVolume(t *testing.T) {
	for kelvin := 200.0; kelvin < 330; kelvin += 13 {
		throughput := vapour.Volume(0.18/3600, kelvin, 30) * 30
		if got := vapourRate(throughput, kelvin); !near(got, 0.18/3600, 1e-14) {
			t.Errorf("%v K: %v kg/s comes back", kelvin, got)
		}
	}
}

// TestEnergyAdds: a run and a thaw together cost what they cost apart.
func TestEnergyAdds(t *testing.T) {
	c := Energy.Prepare()
	run := answer(t, c, "power", "900 W", "time", "3 h", "price", "0.3")
	thaw := answer(t, c, "ice", "2 kg", "temperature", "-40 °C", "price", "0.3")
	both := answer(t, c, "power", "900 W", "time", "180 min", "ice", "2000 g", "temperature", "-40 °F", "price", "0.3")
	for _, id := range []string{"energy", "cost"} {
		if !near(run[id].SI+thaw[id].SI, both[id].SI, 1e-12) {
			t.Errorf("%s: %v and %v apart, %v together", id, run[id].SI, thaw[id].SI, both[id].SI)
		}
	}
	if got := run["energy"].SI; !near(got, 2.7*3.6e6, 1e-12) { // 0.9 kW · 3 h, by hand
		t.Errorf("900 W for 3 h: %v J", got)
	}
}

// TestGuessedIceForbidsNothing that warmer ice would allow: who gave no temperature gets no
// refusal by it, unless heat, trap or any ice forbids the plan.
func TestGuessedIceForbidsNothing(t *testing.T) {
	for _, c := range []struct {
		name string
		more []string
		want string
	}{
		{"a guess", []string{"port", "6 mm", "planned", "30 h"}, declare.CannotTell},
		{"measured", []string{"port", "6 mm", "planned", "30 h", "ice", "-20 °C"}, declare.Fail},
		{"the pressure measured", []string{"port", "6 mm", "planned", "30 h", "pressure", "100 Pa"}, declare.Fail},
		{"not at any temperature", []string{"port", "6 mm", "planned", "5 h"}, declare.Fail},
		{"the heat forbids it", []string{"port", "6 mm", "planned", "30 h", "power", "10 W"}, declare.Fail},
		{"the trap forbids it", []string{"port", "6 mm", "planned", "30 h", "trap", "10 g/h"}, declare.Fail},
		{"a speed, guessed", []string{"speed", "5 L/s", "planned", "30 h"}, declare.CannotTell},
	} {
		request := declare.Request{ID: "drying-time", In: []declare.Pair{{Name: "water", Text: "1 kg"}}}
		for i := 0; i < len(c.more); i += 2 {
			request.In = append(request.In, declare.Pair{Name: c.more[i], Text: c.more[i+1]})
		}
		a := DryingTime.Prepare().Answer(request)
		if a.Verdict.Is != c.want || c.want == declare.CannotTell && !strings.Contains(a.Verdict.Text, "would settle it") {
			t.Errorf("%s: %q, want %q: %s", c.name, a.Verdict.Is, c.want, a.Verdict.Text)
		}
	}
}

// TestSharedWaterHidesNoLimit: the ± of the water moves both times alike, so it leaves no
// doubt about which is longer; that of heat and trap does.
func TestSharedWaterHidesNoLimit(t *testing.T) {
	c := DryingTime.Prepare()
	for trap, want := range map[string]string{"170 g/h": "vapour", "170 g/h ± 10 %": "heat and vapour alike", "180 g/h": "heat and vapour alike", "190 g/h": "heat"} {
		if got := answer(t, c, "water", "3.6 kg ± 5 %", "power", "142 W", "trap", trap)["limits"].Text; got != want {
			t.Errorf("trap %s: %q, want %q", trap, got, want)
		}
	}
}
