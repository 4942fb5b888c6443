package calc_test

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"blankoff/calc"
	"blankoff/calc/declare"
)

// pipeThread puts a thread's own measures to the calculator and gives the row of its
// table; form is NPT, R or G.
func pipeThread(t *testing.T, name, diameter, count, angle string) ([]declare.Cell, declare.Answer) {
	t.Helper()
	a := mustAnswer(t, declare.Request{ID: "thread", In: pairs("diameter", diameter, "pitch", count, "angle", angle, "taper", "yes")})
	for _, g := range a.Out {
		for _, cells := range g.Rows {
			if cells[0].Text == name {
				return cells, a
			}
		}
	}
	t.Fatalf("%s is not among the candidates for %s, %s", name, diameter, count)
	return nil, a
}

// measures are the diameter and count of each size as the reference table has them.
func measures(r row) (name, diameter, count, angle string) {
	size := r.in["size"]
	if strings.HasPrefix(r.quantity, "npt") {
		pair := map[string][2]string{"1/16": {"0.3125 in", "27 TPI"}, "1/8": {"0.405 in", "27 TPI"}, "1/4": {"0.54 in", "18 TPI"}, "1/2": {"0.84 in", "14 TPI"}, "1": {"1.315 in", "11.5 TPI"}}[size]
		return size + " NPT", pair[0], pair[1], "60"
	}
	pair := map[string][2]string{"1/16": {"7.723 mm", "28 TPI"}, "1/8": {"9.728 mm", "28 TPI"}, "3/8": {"16.662 mm", "19 TPI"}, "1/2": {"20.955 mm", "14 TPI"}, "3/4": {"26.441 mm", "14 TPI"}}[size]
	return "R " + size, pair[0], pair[1], "55"
}

// column reads a column of the table, in mm or TPI.
func column(at int, factor float64) func(*testing.T, row) float64 {
	return func(t *testing.T, r row) float64 {
		name, diameter, count, angle := measures(r)
		cells, _ := pipeThread(t, name, diameter, count, angle)
		return cells[at].Value * factor
	}
}

// output reads an output, in the unit of the row or, without one, in turns.
func threadOutput(id, unit string) func(*testing.T, row) float64 {
	return func(t *testing.T, r row) float64 {
		_, diameter, count, angle := measures(r)
		return ask(t, "thread", id, unit, "diameter", diameter, "pitch", count, "angle", angle, "taper", "yes").Value
	}
}

// fromWorking reads a length in mm that the working names after a word.
func fromWorking(word string) func(*testing.T, row) float64 {
	return func(t *testing.T, r row) float64 {
		name, diameter, count, angle := measures(r)
		_, a := pipeThread(t, name, diameter, count, angle)
		_, after, found := strings.Cut(strings.Join(a.Working, "\n"), word)
		if !found {
			t.Fatalf("%s: the working lacks %q: %q", r.id, word, a.Working)
		}
		number, _, _ := strings.Cut(after, " mm")
		return parse(t, number) / 25.4
	}
}

var _ = topicOf(topic{file: "13_threads.csv", rows: 71, numbers: map[string]func(*testing.T, row) float64{
	"npt_outside_diameter": column(1, 1/25.4),
	"npt_threads_per_inch": column(3, 1),
	"npt_pitch":            threadOutput("pitch", "in"),
	"npt_L1":               threadOutput("engagement", "in"),
	"npt_L1_threads": func(t *testing.T, r row) float64 {
		return threadOutput("engagement", "in")(t, r) / threadOutput("pitch", "in")(t, r)
	},
	"npt_L2":               fromWorking("L₂ = (0.8 D + 6.8) p = "),
	"npt_E0":               fromWorking("E₀ = "),
	"bsp_threads_per_inch": column(3, 1),
	"bsp_pitch":            threadOutput("pitch", "mm"),
	"bsp_major_diameter":   column(1, 1),
	"bsp_minor_diameter": func(t *testing.T, r row) float64 { // as a hole
		_, _, count, _ := measures(r)
		a := mustAnswer(t, declare.Request{ID: "thread", In: pairs("diameter", r.expected+" mm", "pitch", count, "part", "female", "taper", "no")})
		for _, g := range a.Out {
			if g.ID == "candidates" && strings.HasPrefix(g.Rows[0][0].Text, "G "+r.in["size"]) {
				return g.Rows[0][1].Value
			}
		}
		return math.NaN()
	},
	"bspt_gauge_length": threadOutput("engagement", "mm"),
	"hex_across_flats_mm": func(t *testing.T, r row) float64 {
		return ask(t, "length", "length", "mm", "size", r.in["size"], "shape", "hexagon").Value
	},
	"hex_across_corners_mm": func(t *testing.T, r row) float64 {
		return ask(t, "length", "corners", "mm", "size", r.in["across_flats"], "shape", "hexagon").Value
	},
}})

var _ = work("length",
	pairs("size", "11/16 in"),
	pairs("size", "1 3/8 in ± 0.01 in"),
	pairs("size", "1.2 m"),
	pairs("size", "13.02 mm", "shape", "hexagon"),
	pairs("size", "18.66 mm ± 0.1 mm", "shape", "hexagon"),
	pairs("size", "15.45 mm ± 0.02 mm", "shape", "hexagon"),
)

var _ = work("thread",
	pairs("diameter", "10.3 mm", "pitch", "27 TPI"),
	pairs("diameter", "13.2 mm ± 0.1 mm", "pitch", "1.34 mm ± 0.01 mm"),
	pairs("diameter", "0.83 in", "pitch", "14 TPI ± 0.2 TPI", "taper", "yes"),
	pairs("diameter", "8.6 mm", "pitch", "28 TPI", "part", "female", "taper", "no"),
	pairs("diameter", "12 mm ± 0.05 mm", "pitch", "1.25 mm ± 0.01 mm"),
	pairs("diameter", "17.1 mm"),
)

// TestThreadVerdicts: the pairs that the trade mixes up, and what tells them apart.
func TestThreadVerdicts(t *testing.T) {
	for _, c := range []struct {
		name string
		in   []string
		want []string // in the verdict
		tape string
	}{
		{"R 1/8 of the Cindle", []string{"diameter", "9.75 mm", "pitch", "28 TPI", "taper", "yes"}, []string{"pass", "R 1/8 fits"}, "2 to 3 tight wraps on the male thread, clockwise seen from its end"},
		{"1/4 NPT of the Torrask", []string{"diameter", "13.7 mm", "pitch", "1.41 mm"}, []string{"pass", "1/4 NPT fits"}, "2 to 3 tight wraps on the male thread, clockwise seen from its end"},
		{"3/8 NPT of the Oskel", []string{"diameter", "17.15 mm", "pitch", "18 TPI"}, []string{"pass", "3/8 NPT fits"}, "starting one thread back"},
		{"G 1/4", []string{"diameter", "13.1 mm", "pitch", "19 TPI", "taper", "no"}, []string{"pass", "G 1/4 fits"}, "none"},
		{"R or G", []string{"diameter", "9.75 mm", "pitch", "28 TPI"}, []string{"cannot tell", "R 1/8 or G 1/8", "Whether it tapers would settle it"}, ""},
		{"no pitch", []string{"diameter", "10.29 mm"}, []string{"cannot tell", "Its pitch", "would settle it"}, ""},
		{"1/2 inch: the same count", []string{"diameter", "21.1 mm", "pitch", "14 TPI", "taper", "yes"}, []string{"cannot tell", "1/2 NPT", "R 1/2", "flank angle would settle it"}, ""},
		{"1/2 inch by its angle", []string{"diameter", "21.25 mm", "pitch", "14 TPI", "taper", "yes", "angle", "60"}, []string{"pass", "1/2 NPT"}, "2 to 3"},
		{"1/2 inch, taper not known", []string{"diameter", "21.1 mm ± 0.4 mm", "pitch", "14 TPI ± 0.1 TPI"}, []string{"cannot tell", "The flank angle, together with whether it tapers, would settle it: hold"}, ""},
		{"a coarse count", []string{"diameter", "10 mm", "pitch", "27.5 TPI", "taper", "yes"}, []string{"cannot tell", "A thread gauge laid in"}, ""},
		{"a coarse caliper", []string{"diameter", "9.75 mm ± 0.35 mm", "pitch", "28 TPI ± 0.1 TPI", "taper", "yes"}, []string{"cannot tell", "R 1/8", "would settle it"}, ""},
		{"a metric thread", []string{"diameter", "12 mm", "pitch", "1.25 mm"}, []string{"fail", "Screw nothing on it"}, ""},
		{"contradiction", []string{"diameter", "10.29 mm", "pitch", "27 TPI", "angle", "55"}, []string{"fail"}, ""},
	} {
		a := mustAnswer(t, declare.Request{ID: "thread", In: pairs(c.in...)})
		verdict, tape := a.Verdict.Is+": "+a.Verdict.Text, ""
		for _, g := range a.Out {
			if g.ID == "tape" {
				tape = g.Text
			}
		}
		for _, want := range c.want {
			if !strings.Contains(verdict, want) {
				t.Errorf("%s: %q lacks %q", c.name, verdict, want)
			}
		}
		if !strings.HasPrefix(tape, c.tape) && !strings.Contains(tape, c.tape) || c.tape == "" && tape != "" {
			t.Errorf("%s: tape is %q, want %q", c.name, tape, c.tape)
		}
		if !strings.Contains(strings.Join(a.Cautions, "\n"), "Never force a thread") {
			t.Errorf("%s: nothing warns of force: %q", c.name, a.Cautions)
		}
	}
}

func TestSpannerVerdicts(t *testing.T) {
	for _, c := range []struct{ size, want string }{
		{"18.9 mm ± 0.05 mm", "pass: 19 mm or 3/4 in: it fits"},
		{"12.9 mm", "pass: 13 mm: it fits"},
		{"9/16 in", "pass: 9/16 in: it fits"},
		{"13 mm", "pass: 13 mm: it fits"},
		{"15.45 mm ± 0.01 mm", "fail: No usual spanner fits: the nearest is 5/8 in"},
		{"18.66 mm ± 0.05 mm", "cannot tell: 19 mm may fit. Try it without force"},
		{"2 mm", "fail: No usual spanner"},
		{"80 mm", "fail: No usual spanner"},
	} {
		if got := probeVerdict(t, "length", "size", c.size, "shape", "hexagon"); !strings.HasPrefix(got, c.want) {
			t.Errorf("%s: %q, want %q", c.size, got, c.want)
		}
	}
	if got := probeVerdict(t, "length", "size", "13 mm"); got != ": " {
		t.Errorf("a plain length gets the verdict %q", got)
	}
}

func TestThreadRefusesInWords(t *testing.T) {
	for _, pitch := range []string{"0 mm", "0 TPI", "-27 TPI", "1 TPI", "25 mm", "1 µm"} {
		a := calc.Answer(declare.Request{ID: "thread", In: pairs("diameter", "10 mm", "pitch", pitch)})
		if a.Fault == nil || a.Fault.Field != "pitch" || !strings.Contains(a.Fault.Text, "27 TPI") {
			t.Errorf("%s gives %+v", pitch, a.Fault)
		}
	}
}

func parse(t *testing.T, number string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(number, 64)
	if err != nil {
		t.Fatal(err)
	}
	return x
}
