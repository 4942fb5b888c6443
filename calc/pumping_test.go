package calc_test

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"blankoff/calc/declare"
	"blankoff/calc/quantity"
)

// noBlankOff is a pump that reaches nothing at all, as the formulas of the tables have it.
const noBlankOff = "0 Pa"

// tubeOf is a line of tubes, each with a conductance of its own at the pressures given
// before and after it (mbar): the bore is fixed and Knudsen's formula, written out here in
// the units of the table, gives the length.
func tubeOf(conductances []float64, pressures []float64) string {
	const bore = 2.0 // cm
	line := "bore cm,length cm"
	for i, c := range conductances {
		dp := bore * (pressures[i] + pressures[i+1]) / 2
		length := bore * bore * bore / c * (135*dp + 12.1*(1+192*dp)/(1+237*dp))
		line += "\n" + strconv.FormatFloat(bore, 'g', 17, 64) + "," + strconv.FormatFloat(length, 'g', 17, 64)
	}
	return line
}

// behind puts a pump behind tubes of given conductances (L/s): the chamber pressure is
// 1 mbar, and the pressures between follow from the series rule of the row.
func behind(t *testing.T, speed string, conductances ...float64) declare.Given {
	t.Helper()
	q, _ := quantity.Parse(speed, quantity.VolumeFlow)
	resistance := 1 / (1000 * q.Value)
	for _, c := range conductances {
		resistance += 1 / c
	}
	flow := 1 / resistance // mbar·L/s from a chamber at 1 mbar
	pressures := []float64{1}
	for _, c := range conductances {
		pressures = append(pressures, pressures[len(pressures)-1]-flow/c)
	}
	return ask(t, "net-speed", "net", "L/s", "speed", speed, "blank-off", noBlankOff, "pressure", "1 mbar", "line", tubeOf(conductances, pressures))
}

func litres(t *testing.T, r row, name string) float64 {
	t.Helper()
	q, problem := quantity.Parse(r.in[name], quantity.VolumeFlow)
	if problem != nil {
		t.Fatalf("%s: %s: %v", r.id, name, problem)
	}
	return 1000 * q.Value
}

// inUnit gives litres per second in the unit of a row.
func inUnit(r row, litres float64) float64 {
	return quantity.MustUnit(strings.ReplaceAll(r.unit, "m3", "m³")).From(litres / 1000)
}

func pumpedIn(t *testing.T, r row, speed string, end string) float64 {
	t.Helper()
	base := r.in["Pu"]
	if base == "" {
		base = noBlankOff
	}
	return ask(t, "pump-down", "time", "s", "volume", r.in["V"], "speed", speed, "blank-off", base, "start", r.in["P0"], "end", end).Value
}

var pumpDownRows = topicOf(topic{file: "04_pumpdown.csv", rows: 18, numbers: map[string]func(t *testing.T, r row) float64{
	"pumpdown_time": func(t *testing.T, r row) float64 { return pumpedIn(t, r, r.in["S"], r.in["P1"]) },
	// The inverse: at 100 m³/min it takes so many times the time allowed.
	"pump_speed_required": func(t *testing.T, r row) float64 {
		return 100 * pumpedIn(t, r, "100 m³/min", r.in["P1"]) / (60 * r.number(t, "t"))
	},
	// The inverse: the pressure of the row, put in as the one wanted, must take the time of
	// the row; what the time is off is put on the pressure.
	"pressure_after_time": func(t *testing.T, r row) float64 {
		want, _ := strconv.ParseFloat(r.expected, 64)
		took := pumpedIn(t, r, r.in["S"], r.expected+" "+r.unit)
		return want * (1 + (took-r.number(t, "t"))*r.number(t, "S")/r.number(t, "V"))
	},
	"effective_speed": func(t *testing.T, r row) float64 {
		return inUnit(r, behind(t, r.in["S"], litres(t, r, "C")).Value)
	},
	"effective_speed_series": func(t *testing.T, r row) float64 {
		return inUnit(r, behind(t, r.in["S"], litres(t, r, "C1"), litres(t, r, "C2")).Value)
	},
	"equilibrium_pressure": func(t *testing.T, r row) float64 {
		return ask(t, "pump-down", "floor", "mbar", "volume", "1 L", "speed", r.in["S"], "blank-off", r.in["Pu"], "leak", r.in["Q"], "start", "1 bar", "end", "1 mbar").Value
	},
	"equilibrium_pressure_through_tube": func(t *testing.T, r row) float64 {
		inlet := r.number(t, "Pu") + r.number(t, "Q")/r.number(t, "S")
		line := tubeOf([]float64{r.number(t, "C")}, []float64{inlet + r.number(t, "Q")/r.number(t, "C"), inlet})
		return ask(t, "pump-down", "floor", "mbar", "volume", "1 L", "speed", r.in["S"], "blank-off", r.in["Pu"], "leak", r.in["Q"], "line", line, "start", "1 bar", "end", "1 mbar").Value
	},
}})

// hose asks the conductance calculator about the tube of a row in air at 20 °C.
func hose(t *testing.T, r row, out string, more ...string) float64 {
	t.Helper()
	mean := r.in["p_mean"]
	if mean == "" {
		mean = "0 Pa"
	}
	return ask(t, "conductance", out, "L/s", append([]string{"bore", r.in["d"], "length", r.in["L"], "pressure", mean}, more...)...).Value
}

// ofGas names the gas that has the molar mass of a row.
func ofGas(t *testing.T, r row) string {
	t.Helper()
	gas := map[string]string{"28.9647 g/mol": "air", "18.015268 g/mol": "water vapour", "4.002602 g/mol": "helium", "28.0134 g/mol": "nitrogen"}[r.in["M"]]
	if gas == "" {
		t.Fatalf("%s: no gas of %s", r.id, r.in["M"])
	}
	return gas
}

func holeOf(t *testing.T, r row) float64 {
	t.Helper()
	bore := math.Sqrt(r.number(t, "A") * 4 / math.Pi)
	return ask(t, "conductance", "hole", "L/s", "bore", text(bore, "cm"), "length", "1 m", "pressure", "0 Pa").Value
}

func flowIs(t *testing.T, r row, pressure, bore string) {
	t.Helper()
	want := r.expected
	if want == "knudsen" {
		want = "transitional"
	}
	if got := ask(t, "conductance", "regime", "", "bore", bore, "length", "1 m", "pressure", pressure).Text; got != want {
		t.Errorf("%s %v: the flow is %s, want %s", r.id, r.in, got, want)
	}
}

var conductanceRows = topicOf(topic{file: "05_conductance.csv", rows: 39, numbers: map[string]func(t *testing.T, r row) float64{
	"conductance_tube_knudsen":   func(t *testing.T, r row) float64 { return hose(t, r, "conductance") },
	"conductance_tube_molecular": func(t *testing.T, r row) float64 { return hose(t, r, "molecular") },
	"conductance_tube_viscous":   func(t *testing.T, r row) float64 { return hose(t, r, "viscous") },
	// Nitrogen at the temperature at which its mean speed is that of the row.
	"conductance_molecular_long_tube_cbar": func(t *testing.T, r row) float64 {
		warm := math.Pi * 28.0134e-3 * math.Pow(r.number(t, "cbar"), 2) / (8 * 8.31446261815324)
		return inUnit(r, hose(t, r, "molecular", "gas", "nitrogen", "temperature", text(warm, "K")))
	},
	// The molecular conductance of a tube of 1 m each way holds the mean speed.
	"mean_thermal_speed": func(t *testing.T, r row) float64 {
		c := ask(t, "conductance", "molecular", "m³/s", "bore", "1 m", "length", "1 m", "pressure", "0 Pa", "gas", ofGas(t, r), "temperature", r.in["T"]).Value
		return 12 / math.Pi * c
	},
	"conductance_molecular_kinetic": func(t *testing.T, r row) float64 {
		return hose(t, r, "molecular", "gas", ofGas(t, r), "temperature", r.in["T"])
	},
	"conductance_aperture_molecular": holeOf,
	"conductance_aperture_kinetic":   holeOf,
	// Sutherland's law for air, turned round by halving, gives the temperature at which its
	// viscosity is that of the row.
	"conductance_viscous_poiseuille": func(t *testing.T, r row) float64 {
		low, high := 250.0, 350.0
		for range 60 {
			middle := (low + high) / 2
			if 1.716e-5*math.Pow(middle/273.15, 1.5)*(273.15+110.4)/(middle+110.4) < r.number(t, "eta") {
				low = middle
			} else {
				high = middle
			}
		}
		return hose(t, r, "viscous", "temperature", text(low, "K"))
	},
	// What two tubes and a pump pass, less the pump's own resistance.
	"conductance_series": func(t *testing.T, r row) float64 {
		net := behind(t, "20 L/s", litres(t, r, "C1"), litres(t, r, "C2")).Value
		return 1 / (1/net - 1.0/20)
	},
}, whole: map[string]func(t *testing.T, r row){
	"flow_regime": func(t *testing.T, r row) { flowIs(t, r, r.in["p"], r.in["d"]) },
	// A bore of 1 cm, and the pressure at which the Knudsen number is that of the row.
	"flow_regime_kn": func(t *testing.T, r row) {
		at := ask(t, "conductance", "knudsen", "", "bore", "1 cm", "length", "1 m", "pressure", "1 mbar").Value
		flowIs(t, r, text(at/r.number(t, "Kn"), "mbar"), "1 cm")
	},
}, left: map[string]string{
	"05-O036": "a bound printed with one figure: the calculator goes by the Knudsen number 0.01, which is 0.66 mbar·cm; calc/pumping holds it to 12 %",
	"05-O037": "a bound printed with two figures: the calculator goes by the Knudsen number 0.5; calc/pumping holds it to 12 %",
	"05-O039": "tubes side by side: a line is a chain, so no calculator has them",
}})
