package vapour

import (
	"math"
	"testing"
)

// The table of the trade brief, section 2.2, computed from Murphy and Koop (2005),
// equation 7, as printed there; agreement to half the last digit printed, save at -45 °C, where
// the equation gives 7.2052 and the brief prints 7.20.
func TestIcePressureTable(t *testing.T) {
	for _, c := range []struct{ celsius, pascal, half float64 }{
		{-15, 165.3, 0.05}, {-18, 124.9, 0.05}, {-20, 103.3, 0.05}, {-22, 85.1, 0.05}, {-25, 63.3, 0.05}, {-28, 46.7, 0.05}, {-30, 38.0, 0.05}, {-34, 24.90, 0.005},
		{-35, 22.35, 0.005}, {-40, 12.84, 0.005}, {-42, 10.22, 0.005}, {-45, 7.20, 0.006}, {-50, 3.94, 0.005}, {-52, 3.07, 0.005}, {-60, 1.08, 0.005},
	} {
		if got := IcePressure(c.celsius + 273.15); math.Abs(got-c.pascal) > c.half {
			t.Errorf("%v °C: got %v Pa, want %v", c.celsius, got, c.pascal)
		}
	}
}

// At the triple point ice, water and vapour meet: 611.657 Pa (IAPWS R14-08).
func TestIcePressureAtTheTriplePoint(t *testing.T) {
	if got := IcePressure(TriplePointKelvin); math.Abs(got-TriplePointPressure) > 2e-4*TriplePointPressure {
		t.Errorf("got %v Pa, want %v", got, TriplePointPressure)
	}
}

func TestIcePressureRisesWithTemperature(t *testing.T) {
	last := 0.0
	for kelvin := 110.0; kelvin <= TriplePointKelvin; kelvin++ {
		now := IcePressure(kelvin)
		if !(now > last) {
			t.Errorf("%v K: %v Pa, not above %v", kelvin, now, last)
		}
		last = now
	}
}

func BenchmarkIcePressure(b *testing.B) {
	for b.Loop() {
		IcePressure(239.15)
	}
}
