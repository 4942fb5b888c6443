package vapour

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"
)

// reference gives the rows of a table of testdata/reference: see the README there.
func reference(t *testing.T, name string) [][]string {
	t.Helper()
	file, err := os.Open("../../testdata/reference/" + name)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	return rows[1:]
}

// entry is an input of a row in SI units: `t=-40 degC`, `p=0.1 MPa`.
func entry(t *testing.T, inputs, name string) float64 {
	t.Helper()
	for _, part := range strings.Split(inputs, ";") {
		key, value, _ := strings.Cut(part, "=")
		number, unit, _ := strings.Cut(value, " ")
		if key != name {
			continue
		}
		x, err := strconv.ParseFloat(number, 64)
		scale, known := map[string]float64{"K": 1, "Pa": 1, "MPa": 1e6, "mbar": 100, "mTorr": 101.325 / 760, "g": 1e-3, "g/mol": 1e-3}[unit]
		switch {
		case unit == "degC" && err == nil:
			return x + 273.15
		case err != nil || !known:
			t.Fatalf("%s: cannot read %q", name, value)
		}
		return x * scale
	}
	t.Fatalf("%q has no %s", inputs, name)
	return 0
}

func kelvinOf(t *testing.T, inputs string) float64 {
	if strings.HasPrefix(inputs, "T=") {
		return entry(t, inputs, "T")
	}
	return entry(t, inputs, "t")
}

// asked says how a row of a quantity is computed, in the unit of the row.
var asked = map[string]func(t *testing.T, in string) float64{
	"vapour_pressure_ice":          func(t *testing.T, in string) float64 { return SublimationPressure(kelvinOf(t, in)) },
	"vapour_pressure_ice_mk2005":   func(t *testing.T, in string) float64 { return IcePressure(kelvinOf(t, in)) },
	"vapour_pressure_water":        func(t *testing.T, in string) float64 { return WaterPressure(kelvinOf(t, in)) },
	"vapour_pressure_water_mk2005": func(t *testing.T, in string) float64 { return SupercooledPressure(kelvinOf(t, in)) },
	"saturation_pressure_if97":     func(t *testing.T, in string) float64 { return WaterPressure(kelvinOf(t, in)) / 1e6 },
	"saturation_temperature_if97":  func(t *testing.T, in string) float64 { return WaterTemperature(entry(t, in, "p")) },
	"ice_temperature_at_pressure":  func(t *testing.T, in string) float64 { return SublimationTemperature(entry(t, in, "p")) - 273.15 },
	"latent_heat_sublimation":      func(t *testing.T, in string) float64 { return SublimationHeat(kelvinOf(t, in)) / 1000 },
	"water_vapour_volume": func(t *testing.T, in string) float64 {
		return Volume(entry(t, in, "m"), entry(t, in, "t"), entry(t, in, "p"))
	},
}

// elsewhere are the rows that only calculators answer, in calc/vapour_test.go: heat and
// flow, which are one multiplication more.
var elsewhere = map[string]bool{"sublimation_power": true, "sublimation_rate": true, "vapour_volume_flow": true}

func TestAgainstReferenceTables(t *testing.T) {
	met := 0
	for _, name := range []string{"07_vapour_pressure.csv", "08_latent_heat.csv"} {
		for _, row := range reference(t, name) {
			id, quantity, inputs, source := row[0], row[1], row[2], row[8]
			want, err := strconv.ParseFloat(row[3], 64)
			relative, _ := strconv.ParseFloat(row[5], 64)
			absolute, _ := strconv.ParseFloat(row[6], 64)
			switch {
			case elsewhere[quantity]:
				continue
			case asked[quantity] == nil || err != nil || relative+absolute == 0:
				t.Fatalf("%s: nothing computes %s, or the row lacks its value or tolerance", id, quantity)
			}
			if got := asked[quantity](t, inputs); !(math.Abs(got-want) <= relative*math.Abs(want)+absolute) {
				t.Errorf("%s %s %s: got %.12g, want %v (rel %v, abs %v); %s", id, quantity, inputs, got, want, relative, absolute, source)
			}
			met++
		}
	}
	if met != 44+15 {
		t.Errorf("%d rows were met, want 59", met)
	}
}
