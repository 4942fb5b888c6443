package temperature

import (
	"math"
	"strconv"
	"testing"

	"blankoff/calc/constant"
	"blankoff/calc/declare"
)

// TestPlatinumTable: the entries of the trade brief and of the ends of IEC 60751; the
// reference table goes through the calculator in calc/temperature_test.go.
func TestPlatinumTable(t *testing.T) {
	for _, c := range []struct {
		name       string
		t, ohms    float64
		resolution float64
	}{
		{"trade brief, computed", -42, 83.48, 0.005},
		{"trade brief, computed", 55, 121.32, 0.005},
		{"lower end, from memory", -200, 18.52, 0.005},
		{"upper end, from memory", 850, 390.48, 0.005},
	} {
		if got, _ := platinumRatio(c.t); math.Abs(100*got-c.ohms) > c.resolution {
			t.Errorf("%s: %v °C gives %.4f Ω, want %v", c.name, c.t, 100*got, c.ohms)
		}
	}
}

func TestPlatinumThereAndBack(t *testing.T) {
	last := 0.0
	for at := float64(platinumLow - 2); at <= platinumHigh+5; at += 0.1 {
		ratio, slope := platinumRatio(at)
		if ratio <= last {
			t.Fatalf("not rising at %v °C", at)
		}
		last = ratio
		if back := platinumCelsius(ratio); !(math.Abs(back-at) < 1e-7) {
			t.Errorf("%v °C comes back as %v", at, back)
		}
		up, _ := platinumRatio(at + 1e-3)
		down, _ := platinumRatio(at - 1e-3)
		if math.Abs((up-down)/2e-3-slope) > 1e-8 {
			t.Errorf("at %v °C the slope is %v, by differences %v", at, slope, (up-down)/2e-3)
		}
	}
}

func TestPlatinumClasses(t *testing.T) {
	for _, c := range []struct {
		class    string
		t, limit float64
	}{{"A", 0, 0.15}, {"A", -200, 0.55}, {"B", 0, 0.3}, {"B", -42, 0.51}, {"B", 100, 0.8}} {
		if got := platinumAllowed(c.class, c.t); math.Abs(got-c.limit) > 1e-12 {
			t.Errorf("class %s at %v °C allows %v K, want %v", c.class, c.t, got, c.limit)
		}
	}
}

// TestBetaOfTheCondenserProbe: NTC 10 kΩ, B 3740, trade brief, computed.
func TestBetaOfTheCondenserProbe(t *testing.T) {
	s := betaCurve(10e3, 3740)
	for _, c := range []struct{ t, ohms, resolution float64 }{{-34, 220.8e3, 50}, {0, 31.5e3, 50}, {21, 11.86e3, 5}, {25, 10e3, 1e-6}} {
		if got := s.ohms(c.t + constant.ZeroCelsius); math.Abs(got-c.ohms) > c.resolution {
			t.Errorf("%v °C gives %.1f Ω, want %v", c.t, got, c.ohms)
		}
	}
}

func TestThermistorThereAndBack(t *testing.T) {
	for name, s := range map[string]steinhart{
		"beta":           betaCurve(10e3, 3740),
		"Steinhart–Hart": {0.001129148, 0.000234125, 8.76741e-8},
		"c below nought": {0.0011, 0.00024, -1e-8},
		"a few ohms":     betaCurve(5, 3000),
		"a megohm":       betaCurve(1e6, 4500),
	} {
		last := math.Inf(1)
		for at := -80.0; at <= 200; at += 0.5 {
			r := s.ohms(at + constant.ZeroCelsius)
			if !(r < last) {
				t.Fatalf("%s: resistance does not fall at %v °C: %v", name, at, r)
			}
			last = r
			if back := s.kelvin(r); !(math.Abs(back-at-constant.ZeroCelsius) < 1e-9) {
				t.Errorf("%s: %v °C comes back as %v", name, at, back-constant.ZeroCelsius)
			}
		}
	}
}

// TestFitsGoThroughTheirPoints, and give the curve back that the points were taken from.
func TestFitsGoThroughTheirPoints(t *testing.T) {
	want := steinhart{0.001129148, 0.000234125, 8.76741e-8}
	kelvins := []float64{230, 273.15, 320}
	ohms := []float64{want.ohms(230), want.ohms(273.15), want.ohms(320)}
	got := throughThree(ohms, kelvins)
	for name, pair := range map[string][2]float64{"a": {got.a, want.a}, "b": {got.b, want.b}, "c": {got.c, want.c}} {
		if math.Abs(pair[0]-pair[1]) > 1e-9*math.Abs(pair[1]) {
			t.Errorf("%s is %v, want %v", name, pair[0], pair[1])
		}
	}
	// A different order of the points makes no difference.
	other := throughThree([]float64{ohms[2], ohms[0], ohms[1]}, []float64{kelvins[2], kelvins[0], kelvins[1]})
	if math.Abs(other.c-got.c) > 1e-9*got.c {
		t.Errorf("in another order c is %v instead of %v", other.c, got.c)
	}
	beta, two := throughTwo(ohms[:2], kelvins[:2])
	for i := range 2 {
		if math.Abs(two.kelvin(ohms[i])-kelvins[i]) > 1e-9 {
			t.Errorf("the beta form misses its point %d by %v K", i, two.kelvin(ohms[i])-kelvins[i])
		}
	}
	if want := math.Log(ohms[0]/ohms[1]) / (1/kelvins[0] - 1/kelvins[1]); beta != want {
		t.Errorf("beta is %v, want %v", beta, want)
	}
}

// TestNoThermistorRises: a curve that is none gives no number.
func TestNoThermistorRises(t *testing.T) {
	for name, s := range map[string]steinhart{"rising": {0.005, -0.0002, 0}, "nothing": {}, "turns round": {0.001, 0.0002, -1e-5}} {
		if got := s.kelvin(10e3); !math.IsNaN(got) {
			t.Errorf("%s: 10 kΩ gives %v K", name, got)
		}
		if got := s.ohms(298.15); !math.IsNaN(got) && !(got > 0 && s.falls(math.Log(got))) {
			t.Errorf("%s: 25 °C gives %v Ω", name, got)
		}
	}
	if got := betaCurve(10e3, 3740).kelvin(0); !math.IsNaN(got) {
		t.Errorf("no ohms give %v K", got)
	}
}

// TestAFormIsAsDoubtfulAsItIs: a sensor of the usual coefficients, and the published table of
// testdata/reference/10_rtd_ntc.csv, lie within the doubt of every curve laid through some of
// their points, and fill a good part of it.
func TestAFormIsAsDoubtfulAsItIs(t *testing.T) {
	usual := steinhart{0.001129148, 0.000234125, 8.76741e-8}
	at := func(celsius float64) float64 { return usual.ohms(celsius + constant.ZeroCelsius) }
	table := map[float64]float64{0: 32128, 10: 19549, 20: 12262, 25: 9814, 30: 7908, 50: 3542}
	published := func(celsius float64) float64 { return table[celsius] }
	for _, c := range []struct {
		name     string
		ohms     func(float64) float64
		points   []float64 // °C; of a typed beta the two that it was made from
		typed    bool
		others   []float64
		rounding float64 // K, of the printed table
	}{
		{"beta 25/50", at, []float64{25, 50}, true, []float64{-60, -34, 0, 20, 60, 85, 120}, 0},
		{"beta 25/85", at, []float64{25, 85}, true, []float64{-60, -34, 0, 20, 60, 120}, 0},
		{"beta 25/100", at, []float64{25, 100}, true, []float64{-60, -34, 0, 20, 60, 85, 120}, 0},
		{"two points", at, []float64{-40, 0}, false, []float64{-60, -20, 20, 60}, 0},
		{"two published points", published, []float64{25, 50}, false, []float64{0, 10, 20, 30}, 0.003},
		{"three published points", published, []float64{10, 20, 30}, false, []float64{0, 25, 50}, 0.003},
	} {
		filled := 0.0
		for _, other := range c.others {
			r, k := []float64{}, []float64{}
			for _, point := range c.points {
				r, k = append(r, c.ohms(point)), append(k, point+constant.ZeroCelsius)
			}
			in := []string{"reading", full(c.ohms(other), "Ω")}
			if beta, _ := throughTwo(r[:2], k[:2]); c.typed {
				in = append(in, "r25", full(r[0], "Ω"), "beta", full(beta, "K"))
			} else {
				text := "resistance Ω,temperature K"
				for i := range r {
					text += "\n" + full(r[i], "") + "," + full(k[i], "")
				}
				in = append(in, "points", text)
			}
			doubt, kelvin := doubtOf(t, in...)
			share := math.Max(0, math.Abs(kelvin-constant.ZeroCelsius-other)-c.rounding) / doubt
			if filled = math.Max(filled, share); share > 1 {
				t.Errorf("%s: %v °C is told as %v °C ± %v K", c.name, other, kelvin-constant.ZeroCelsius, doubt)
			}
		}
		if filled < 0.3 && len(c.points) == 2 {
			t.Errorf("%s: the doubt is at least %v times too wide", c.name, 1/filled)
		}
	}
}

// doubtOf asks the thermistor, and gives the doubt of the form and the temperature, K.
func doubtOf(t *testing.T, in ...string) (doubt, kelvin float64) {
	t.Helper()
	request := declare.Request{ID: "thermistor"}
	for i := 0; i < len(in); i += 2 {
		request.In = append(request.In, declare.Pair{Name: in[i], Text: in[i+1]})
	}
	c := Thermistor
	judge := c.Judge
	c.Judge = func(r *declare.Result) {
		p, _ := r.Studied().(*resistor)
		doubt = p.doubt
		kelvin, _ = r.Out("temperature")
		judge(r)
	}
	if a := c.Prepare().Answer(request); a.Fault != nil {
		t.Fatalf("%v: %+v", in, a.Fault)
	}
	return doubt, kelvin
}

func full(x float64, unit string) string { return strconv.FormatFloat(x, 'g', 17, 64) + " " + unit }
