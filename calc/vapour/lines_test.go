package vapour

import (
	"math"
	"testing"

	"blankoff/calc/constant"
)

// line is a vapour pressure with its inverse, where it has one, and its range in K.
type line struct {
	name      string
	pressure  func(kelvin float64) float64
	back      func(pascal float64) float64
	low, high float64
}

var lines = []line{
	{"ice, Murphy and Koop", IcePressure, IceTemperature, 110, TriplePointKelvin},
	{"ice, IAPWS", SublimationPressure, SublimationTemperature, 50, TriplePointKelvin},
	{"water, IAPWS", WaterPressure, WaterTemperature, 273.15, 646},
	{"supercooled water", SupercooledPressure, nil, 123, 332},
}

// TestThereAndBack: a temperature is found again from its pressure, as far as a float
// can hold it (0.2 µK; the two roots of IF97 near the critical point are the worst).
func TestThereAndBack(t *testing.T) {
	for _, l := range lines {
		for i := 0; l.back != nil && i <= 2000; i++ {
			kelvin := l.low + (l.high-l.low)*float64(i)/2000
			if got := l.back(l.pressure(kelvin)); !(math.Abs(got-kelvin) < 2e-7) {
				t.Errorf("%s: %v K comes back as %v K", l.name, kelvin, got)
			}
		}
	}
}

func TestPressureRisesWithTemperature(t *testing.T) {
	for _, l := range lines {
		last := 0.0
		for kelvin := l.low; kelvin <= l.high; kelvin += 0.5 {
			now := l.pressure(kelvin)
			if !(now > last) {
				t.Errorf("%s: %v K: %v Pa, not above %v", l.name, kelvin, now, last)
			}
			last = now
		}
	}
}

// TestLinesMeetAtTheTriplePoint: 611.657 Pa (IAPWS R14-08), within a few millionths.
func TestLinesMeetAtTheTriplePoint(t *testing.T) {
	for _, l := range lines {
		if got := l.pressure(TriplePointKelvin); !(math.Abs(got/TriplePointPressure-1) < 1e-6) {
			t.Errorf("%s: %v Pa, want %v", l.name, got, TriplePointPressure)
		}
	}
}

// TestTwoSourcesAgree: what the two lines of ice, and the two of water, differ by is what
// the calculators take as their uncertainty.
func TestTwoSourcesAgree(t *testing.T) {
	for kelvin := 173.15; kelvin <= TriplePointKelvin; kelvin += 0.25 {
		if off := math.Abs(IcePressure(kelvin)/SublimationPressure(kelvin) - 1); !(off < 1.05e-3) {
			t.Errorf("ice, %v K: the two differ by %v", kelvin, off)
		}
	}
	for kelvin := TriplePointKelvin; kelvin <= 323.15; kelvin += 0.25 {
		if off := math.Abs(SupercooledPressure(kelvin)/WaterPressure(kelvin) - 1); !(off < 1e-4) {
			t.Errorf("water, %v K: the two differ by %v", kelvin, off)
		}
	}
}

// TestLiquidStaysAboveIce: water that has not frozen gives more vapour than ice.
func TestLiquidStaysAboveIce(t *testing.T) {
	for kelvin := 200.0; kelvin < 273; kelvin++ {
		if liquid, ice := SupercooledPressure(kelvin), IcePressure(kelvin); !(liquid > ice) {
			t.Errorf("%v K: liquid %v Pa, ice %v Pa", kelvin, liquid, ice)
		}
	}
}

// TestSlopesAgainstDifferences checks the derivatives that Newton's steps use.
func TestSlopesAgainstDifferences(t *testing.T) {
	for name, line := range map[string]func(float64) (float64, float64){"ice": iceLine, "sublimation": sublimationLine} {
		for kelvin := 110.0; kelvin <= 273; kelvin += 7 {
			const h = 1e-3
			up, _ := line(kelvin + h)
			down, _ := line(kelvin - h)
			if _, slope := line(kelvin); math.Abs(slope/((up-down)/(2*h))-1) > 1e-6 {
				t.Errorf("%s at %v K: slope %v, differences give %v", name, kelvin, slope, (up-down)/(2*h))
			}
		}
	}
}

// TestHeatIsThatOfTheSlope: L = R T²/M · d ln p/dT (Clausius and Clapeyron, ideal gas),
// an independent way to the same heat. The two sources agree to 0.1 % where ice matters.
func TestHeatIsThatOfTheSlope(t *testing.T) {
	for kelvin := 193.15; kelvin <= 273.15; kelvin += 5 {
		_, slope := sublimationLine(kelvin)
		want := constant.Gas * kelvin * kelvin / constant.Water * slope
		if got := SublimationHeat(kelvin); !(math.Abs(got/want-1) < 1.5e-3) {
			t.Errorf("%v K: %v J/kg, the slope gives %v", kelvin, got, want)
		}
	}
}

// TestOutsideItsRange nothing is invented.
func TestOutsideItsRange(t *testing.T) {
	for _, x := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), -1, 0, 1e300, 1e-300} {
		for name, got := range map[string]float64{
			"SublimationPressure": SublimationPressure(x), "WaterPressure": WaterPressure(x), "WaterTemperature": WaterTemperature(x),
			"IceTemperature": IceTemperature(x), "SublimationTemperature": SublimationTemperature(x), "Boiling": Boiling(x), "Saturation": Saturation(x),
		} {
			if !math.IsNaN(got) {
				t.Errorf("%s(%v) = %v, want NaN", name, x, got)
			}
		}
	}
	for name, got := range map[string]float64{"ice over 0.01 °C": SublimationPressure(273.17), "ice over 612 Pa": IceTemperature(612), "water under 611 Pa": WaterTemperature(611), "steam over the critical point": WaterPressure(647.2)} {
		if !math.IsNaN(got) {
			t.Errorf("%s: %v, want NaN", name, got)
		}
	}
}

// TestBoilingCurve goes over the triple point without a step, in both directions.
func TestBoilingCurve(t *testing.T) {
	const h = 1e-6
	if below, above := Boiling(TriplePointPressure-h), Boiling(TriplePointPressure+h); !(above > below && above-below < 1e-6) {
		t.Errorf("boiling goes from %v to %v K over the triple point", below, above)
	}
	if below, above := Saturation(TriplePointKelvin-h), Saturation(TriplePointKelvin+h); !(above > below && above-below < 1e-3) {
		t.Errorf("saturation goes from %v to %v Pa over the triple point", below, above)
	}
	if got := Boiling(101325) - 273.15; math.Abs(got-99.974) > 0.001 { // 99.974 °C: from memory, as all steam tables print
		t.Errorf("at one atmosphere water boils at %v °C, want 99.974", got)
	}
}

// TestVolume: twice the pressure, half the volume; twice the temperature, twice it.
func TestVolume(t *testing.T) {
	one := Volume(1e-3, 250, 20)
	for name, got := range map[string]float64{"pressure": 2 * Volume(1e-3, 250, 40), "temperature": Volume(1e-3, 500, 20) / 2, "mass": Volume(2e-3, 250, 20) / 2} {
		if math.Abs(got/one-1) > 1e-14 {
			t.Errorf("%s: %v m³, want %v", name, got, one)
		}
	}
}

func BenchmarkIceTemperature(b *testing.B) {
	for b.Loop() {
		IceTemperature(24.9)
	}
}
