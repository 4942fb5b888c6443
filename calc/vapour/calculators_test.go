package vapour

import (
	"math"
	"strconv"
	"testing"

	"blankoff/calc/declare"
)

// answer runs a calculator on name, text, name, text...
func answer(t *testing.T, c *declare.Calculator, in ...string) (map[string]declare.Given, declare.Verdict) {
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
	return out, a.Verdict
}

func full(x float64, unit string) string { return strconv.FormatFloat(x, 'g', 17, 64) + " " + unit }

// TestFloorAndBack: a capacitance gauge at the floor of a temperature finds that
// temperature again, and is 0 K warmer than the sensor.
func TestFloorAndBack(t *testing.T) {
	c := IceFloor.Prepare()
	for celsius := -90.0; celsius <= 40; celsius += 2.5 {
		floor, _ := answer(t, c, "temperature", full(celsius, "°C"))
		both, _ := answer(t, c, "temperature", full(celsius, "°C"), "reading", full(floor["floor"].SI, "Pa"), "principle", "capacitance", "gauge", "1 %")
		if ice := both["ice"].SI - 273.15; math.Abs(ice-celsius) > 1e-6 || math.Abs(both["excess"].SI) > 1e-6 || math.Abs(both["ratio"].SI-1) > 1e-9 {
			t.Errorf("%v °C comes back as %v °C, %v K warmer, %v times", celsius, ice, both["excess"].SI, both["ratio"].SI)
		}
	}
}

// TestThermalGaugeIsCorrected: what a thermal gauge shows is told back as the floor, and
// a warmer trap always has a higher floor.
func TestThermalGaugeIsCorrected(t *testing.T) {
	c := IceFloor.Prepare()
	last := 0.0
	for celsius := -80.0; celsius <= -17; celsius += 3 {
		out, _ := answer(t, c, "temperature", full(celsius, "°C"))
		shown, floor := out["shown"].SI, out["floor"].SI
		if !(shown > 1.49*floor && shown < 2*floor) || floor <= last {
			t.Errorf("%v °C: floor %v Pa, shown %v Pa", celsius, floor, shown)
		}
		back, _ := answer(t, c, "reading", full(shown, "Pa"))
		if math.Abs(back["true"].SI/floor-1) > 1e-12 {
			t.Errorf("%v °C: %v Pa shown is told back as %v Pa, not %v", celsius, shown, back["true"].SI, floor)
		}
		last = floor
	}
}

// TestVerdictsComeInOrder as the reading of a good gauge rises: below the floor, unsure,
// limited by vapour, unsure, above.
func TestVerdictsComeInOrder(t *testing.T) {
	c := IceFloor.Prepare()
	order := []string{"below the floor", "near the floor, not settled", "vapour-limited", "near the floor, not settled", "above the floor"}
	at := 0
	for pascal := 10.0; pascal < 100; pascal *= 1.002 {
		out, _ := answer(t, c, "temperature", "-34 °C ± 0.3 K", "reading", full(pascal, "Pa"), "principle", "capacitance", "gauge", "1 %")
		if at < len(order)-1 && out["state"].Text == order[at+1] {
			at++
		}
		if out["state"].Text != order[at] {
			t.Errorf("%v Pa: %q, want %q", pascal, out["state"].Text, order[at])
		}
	}
	if at != len(order)-1 {
		t.Errorf("only %v was reached", order[:at+1])
	}
}

// TestBoilingThereAndBack through the calculator, over both lines.
func TestBoilingThereAndBack(t *testing.T) {
	c := WaterBoil.Prepare()
	for celsius := -99.0; celsius <= 370; celsius += 7 {
		pressure, _ := answer(t, c, "temperature", full(celsius, "°C"))
		back, _ := answer(t, c, "pressure", full(pressure["vapour"].SI, "Pa"))
		if got := back["boiling"].SI - 273.15; math.Abs(got-celsius) > 1e-6 {
			t.Errorf("%v °C comes back as %v °C", celsius, got)
		}
		if back["phase"].Text != pressure["phase"].Text {
			t.Errorf("%v °C: %q one way, %q the other", celsius, pressure["phase"].Text, back["phase"].Text)
		}
	}
}

// TestVapourVolumeIsOneGas: in any units p V is m R T/M, and a longer time only thins it.
func TestVapourVolumeIsOneGas(t *testing.T) {
	c := VapourVolume.Prepare()
	a, _ := answer(t, c, "mass", "28.349523125 g", "pressure", "1 Torr", "temperature", "0 °C", "time", "1 h")
	b, _ := answer(t, c, "mass", "1 oz", "pressure", "133.32236842105263 Pa", "temperature", "32 °F", "time", "7200 s")
	for id, times := range map[string]float64{"volume": 1, "throughput": 2, "flow": 2, "rate": 2} {
		if ratio := a[id].SI / b[id].SI; math.Abs(ratio/times-1) > 1e-12 {
			t.Errorf("%s: %v times, want %v", id, ratio, times)
		}
	}
}

// TestSolventIsAnyUnitsAndLinear: half the room, twice the share; thin air, a larger one.
func TestSolventIsAnyUnitsAndLinear(t *testing.T) {
	c := SolventVapour.Prepare()
	share := func(in ...string) float64 {
		out, _ := answer(t, c, append(in, "solvent", "isopropyl alcohol", "place", "room")...)
		return out["concentration"].SI
	}
	base := share("amount", "5 mL", "space", "30 m³")
	for name, ratio := range map[string]float64{
		"half the room": share("amount", "5 mL", "space", "15,000 L") / base / 2, "twice the solvent": share("amount", "0.01 L", "space", "30 m³") / base / 2,
		"half the air pressure": share("amount", "5 mL", "space", "30 m³", "ambient", "506.625 mbar") / base / 2,
	} {
		if math.Abs(ratio-1) > 1e-12 {
			t.Errorf("%s: off by %v", name, ratio-1)
		}
	}
}

// TestAmountThatReachesALimit does reach it: the smaller of 10 % of the lower explosive
// limit and, where people breathe, the exposure limit.
func TestAmountThatReachesALimit(t *testing.T) {
	c := SolventVapour.Prepare()
	for _, solvent := range []string{"isopropyl alcohol", "ethanol", "acetone"} {
		for _, place := range []string{"closed", "room"} {
			first, _ := answer(t, c, "amount", "5 mL", "space", "20 m³", "solvent", solvent, "place", place)
			at, _ := answer(t, c, "amount", full(first["most"].SI, "m³"), "space", "20 m³", "solvent", solvent, "place", place)
			reached := at["explosive"].SI / lowerShare
			if place == "room" {
				reached = math.Max(reached, at["breathed"].SI)
			}
			if math.Abs(reached-1) > 1e-12 {
				t.Errorf("%s, %s: reaches %v of the limit", solvent, place, reached)
			}
		}
	}
}

// TestTriplePointIsOneInAnyUnit: there no film of water gives more vapour than the ice.
func TestTriplePointIsOneInAnyUnit(t *testing.T) {
	c := WaterBoil.Prepare()
	for _, text := range []string{"0.01 °C", "273.16 K", "32.018 °F"} {
		out, _ := answer(t, c, "temperature", text)
		if _, given := out["unfrozen"]; given || out["phase"].Text != "the triple point: ice, water and vapour" {
			t.Errorf("%s: %q, unfrozen %v", text, out["phase"].Text, given)
		}
	}
}

// TestNoSteamBoiler: at 8 MPa steam fills a quarter less than an ideal gas.
func TestNoSteamBoiler(t *testing.T) {
	a := VapourVolume.Prepare().Answer(declare.Request{ID: "vapour-volume", In: []declare.Pair{{Name: "mass", Text: "1 kg"}, {Name: "pressure", Text: "8 MPa"}, {Name: "temperature", Text: "300 °C"}}})
	if a.Fault == nil || a.Fault.Field != "pressure" {
		t.Errorf("8 MPa gives %+v", a.Out)
	}
}
