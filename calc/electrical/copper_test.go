package electrical

import (
	"math"
	"testing"
)

// Values of testdata/reference/11_copper.csv, which calc/electrical_test.go puts to the
// calculators row by row.
func TestCopper(t *testing.T) {
	for _, c := range []struct {
		name      string
		got, want float64
		tolerance float64 // relative; the row's own
	}{
		{"11-O002: 12 AWG is 2.052525388494 mm thick", math.Sqrt(gaugeArea(12)*4/math.Pi) * 1000, 2.052525388494, 1e-9},
		{"11-O011: 36 AWG is 0.005 in by definition", math.Sqrt(gaugeArea(36)*4/math.Pi) / 0.0254, 0.005, 1e-12},
		{"ASTM B258: 0000 is 0.46 in by definition, written −3 here", math.Sqrt(gaugeArea(-3)*4/math.Pi) / 0.0254, 0.46, 1e-12},
		{"11-O016: 1,000 ft of 16 AWG at 20 °C have 4.016 Ω", copperResistance(304.8, gaugeArea(16), 293.15), 4.016, 0.0015},
		{"11-O032: 0.017241 Ω·mm²/m at 20 °C", copperResistance(1, 1e-6, 293.15), 0.017241, 5e-7 / 0.017241},
		{"11-O040: 5.5 Ω at 20 °C are 6.688825 Ω at 75 °C", 5.5 * copperResistance(1, 1e-6, 348.15) / copperResistance(1, 1e-6, 293.15), 6.688825, 1e-9},
	} {
		if math.Abs(c.got-c.want) > c.tolerance*c.want {
			t.Errorf("%s: got %.13g, want %.13g", c.name, c.got, c.want)
		}
	}
}

func TestCopperMoves(t *testing.T) {
	for gauge := -3.0; gauge < 40; gauge++ {
		if ratio := gaugeArea(gauge) / gaugeArea(gauge+6); math.Abs(ratio-math.Pow(92, 12.0/39)) > 1e-12*ratio {
			t.Errorf("six gauges from %v divide the area by %v, want 92^(12/39) = 4.02", gauge, ratio)
		}
	}
	for kelvin := 233.15; kelvin < 363; kelvin += 10 {
		if copperResistance(1, 1e-6, kelvin+10) <= copperResistance(1, 1e-6, kelvin) {
			t.Errorf("at %v K warmer copper does not have more resistance", kelvin)
		}
	}
}
