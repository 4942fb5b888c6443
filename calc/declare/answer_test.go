package declare_test

import (
	"math"
	"strings"
	"testing"

	"blankoff/calc/declare"
	"blankoff/calc/quantity"
)

// trial is a small calculator whose formula can be made to misbehave.
func trial(eval func(x *declare.Numbers), judge func(r *declare.Result)) *declare.Calculator {
	if judge == nil {
		judge = func(*declare.Result) {}
	}
	return (&declare.Calculator{
		ID: "trial",
		Inputs: []declare.Input{
			{ID: "length", Label: "Length", Kinds: []quantity.Kind{quantity.Length}, Unit: "m", Units: []string{"mm"}, Required: true, Min: "0 m", Max: "1 km", UsualLow: "1 m", UsualHigh: "10 m"},
			{ID: "width", Label: "Width", Kinds: []quantity.Kind{quantity.Length}, Unit: "m", Default: "2 m", Because: "as most are", Accuracy: "10 %"},
			{ID: "shape", Label: "Shape", Choices: []declare.Choice{{Value: "flat"}, {Value: "round"}}, Default: "flat"},
		},
		Outputs: []declare.Output{{ID: "area", Label: "Area", Kind: quantity.Area, Unit: "m²", Also: []string{"mm²", "m²"}}, {ID: "name", Label: "Name"}},
		Eval:    eval, Judge: judge,
	}).Prepare()
}

func product(x *declare.Numbers) { x.Set("area", x.In("length")*x.In("width")) }

func asked(in ...string) declare.Request {
	r := declare.Request{ID: "trial"}
	for i := 0; i < len(in); i += 2 {
		r.In = append(r.In, declare.Pair{Name: in[i], Text: in[i+1]})
	}
	return r
}

func TestAnswerCarriesWhatWasAsked(t *testing.T) {
	a := trial(product, func(r *declare.Result) {
		r.Text("name", "a "+r.Choice("shape")+" one")
		r.Work("{length} × {width} = {area}")
	}).Answer(asked("length", "3 m ± 1 %", "shape", "ROUND"))
	if a.Fault != nil || len(a.Out) != 2 {
		t.Fatalf("%+v", a)
	}
	// By hand: 6 m², u/area = ½ √(0.01² + 0.1²), U = 0.603 m².
	if g := a.Out[0]; g.Text != "6.00 ± 0.60 m²" || math.Abs(g.U-3*math.Hypot(0.01, 0.1)) > 1e-12 || len(g.Also) != 1 || g.Also[0] != "6,000,000 ± 600,000 mm²" {
		t.Errorf("%+v", g)
	}
	if a.Out[1].Text != "a round one" || a.Working[0] != "3 m × 2 m = 6.00 ± 0.60 m²" {
		t.Errorf("%+v", a)
	}
	if want := []string{"Width given without ±: ± 10 % taken.", "Not given, so taken as most are: Width 2 m."}; strings.Join(a.Cautions, "|") != strings.Join(want, "|") {
		t.Errorf("cautions %q, want %q", a.Cautions, want)
	}
}

// TestTemperatureOutputs: the scale's zero moves the value and leaves the uncertainty alone.
func TestTemperatureOutputs(t *testing.T) {
	c := (&declare.Calculator{
		ID:      "warm",
		Inputs:  []declare.Input{{ID: "t", Label: "Temperature", Kinds: []quantity.Kind{quantity.Temperature}, Unit: "°C", Required: true}},
		Outputs: []declare.Output{{ID: "t", Label: "Temperature", Kind: quantity.Temperature, Unit: "°C", Also: []string{"°F", "K"}}},
		Eval:    func(x *declare.Numbers) { x.Set("t", x.In("t")) }, Judge: func(*declare.Result) {},
	}).Prepare()
	g := c.Answer(declare.Request{In: []declare.Pair{{Name: "t", Text: "20 °C ± 1 K"}}}).Out[0]
	if math.Abs(g.Value-20) > 1e-12 || math.Abs(g.U-0.5) > 1e-12 || g.Text != "20.0 ± 1.0 °C" || g.Also[0] != "68.0 ± 1.8 °F" || g.Also[1] != "293.2 ± 1.0 K" {
		t.Errorf("%+v", g)
	}
}

// TestShareOfAPlainNumber: a % after ± belongs to the number where that can bear no unit.
func TestShareOfAPlainNumber(t *testing.T) {
	c := (&declare.Calculator{
		ID: "twice",
		Inputs: []declare.Input{
			{ID: "a", Label: "Coefficient", Kinds: []quantity.Kind{quantity.Ratio}},
			{ID: "share", Label: "Share", Kinds: []quantity.Kind{quantity.Ratio}, Unit: "%"},
		},
		Outputs: []declare.Output{{ID: "a", Label: "a", Kind: quantity.Ratio}, {ID: "share", Label: "Share", Kind: quantity.Ratio, Unit: "%"}},
		Eval: func(x *declare.Numbers) {
			x.Set("a", x.In("a"))
			x.Set("share", x.In("share"))
		},
		Judge: func(*declare.Result) {},
	}).Prepare()
	a := c.Answer(declare.Request{In: []declare.Pair{{Name: "a", Text: "1.129e-3 ± 1 %"}, {Name: "share", Text: "20 ± 1 %"}}})
	if a.Fault != nil || math.Abs(a.Out[0].Value-1.129e-3) > 1e-15 || math.Abs(a.Out[0].U-1.129e-3*0.005) > 1e-12 || a.Out[1].Text != "20.0 ± 1.0 %" {
		t.Errorf("%+v", a)
	}
	if a := c.Answer(declare.Request{In: []declare.Pair{{Name: "a", Text: "5 %"}}}); a.Fault == nil {
		t.Errorf("a percentage is taken for a plain number: %+v", a)
	}
}

// TestAccuracyAssumedOfAPlainNumber: ± 5 % of 4 is 0.2, so u is 0.1; the number is not taken for 4 %.
func TestAccuracyAssumedOfAPlainNumber(t *testing.T) {
	c := (&declare.Calculator{
		Inputs:  []declare.Input{{ID: "times", Label: "Times", Kinds: []quantity.Kind{quantity.Ratio}, Min: "0", Max: "10", Accuracy: "5 %"}},
		Outputs: []declare.Output{{ID: "times", Label: "Times", Kind: quantity.Ratio}},
		Eval:    func(x *declare.Numbers) { x.Set("times", x.In("times")) },
		Judge:   func(*declare.Result) {},
	}).Prepare()
	for text, u := range map[string]float64{"4": 0.1, "4 ± 20 %": 0.4, "4 ± 0.4": 0.2} {
		if a := c.Answer(asked("times", text)); a.Fault != nil || a.Out[0].Value != 4 || math.Abs(a.Out[0].U-u) > 1e-9 {
			t.Errorf("%s: %+v", text, a)
		}
	}
}

func TestLaterEntryStands(t *testing.T) {
	if a := trial(product, nil).Answer(asked("length", "3 m", "length", "4 m", "width", "1 m ± 0 m")); a.Fault != nil || a.Out[0].Value != 4 {
		t.Errorf("%+v", a)
	}
}

func TestUnusualIsSaid(t *testing.T) {
	for text, want := range map[string]bool{"0.5 m": true, "1 m": false, "10 m": false, "10,5 m": true, "5 m": false} {
		a := trial(product, nil).Answer(asked("length", text))
		if got := strings.Contains(strings.Join(a.Cautions, "\n"), "outside its usual range"); got != want {
			t.Errorf("%s: %v, %q", text, got, a.Cautions)
		}
	}
	a := trial(product, nil).Answer(asked("length", "1,000 m"))
	if !strings.Contains(strings.Join(a.Cautions, "\n"), "1,000 is read as a number of thousands") {
		t.Errorf("an unusual number of thousands is not explained: %q", a.Cautions)
	}
}

// A formula at fault must give a sentence, never a number that is none and never a panic.
func TestMisbehavingFormulas(t *testing.T) {
	for _, c := range []struct {
		name string
		eval func(x *declare.Numbers)
		want string
	}{
		{"NaN", func(x *declare.Numbers) { x.Set("area", math.NaN()) }, "no finite result for “Area”"},
		{"infinite", func(x *declare.Numbers) { x.Set("area", 1/(x.In("width")-x.In("width"))) }, "no finite result for “Area”"},
		{"infinite on both sides of the entry", func(x *declare.Numbers) {
			value := 1.0
			if x.In("width") != 2 {
				value = math.Inf(1)
			}
			x.Set("area", value)
		}, "no finite result for “Area”"},
		{"refuses", func(x *declare.Numbers) { x.Refuse("width", "too wide"); x.Refuse("length", "too long") }, "too wide"},
		{"panics", func(x *declare.Numbers) { panic("oh") }, "please report it"},
		{"asks for an unknown input", func(x *declare.Numbers) { x.In("depth") }, "please report it"},
	} {
		a := trial(c.eval, nil).Answer(asked("length", "3 m"))
		if a.Fault == nil || !strings.Contains(a.Fault.Text, c.want) || len(a.Out) != 0 {
			t.Errorf("%s: %+v, want %q", c.name, a, c.want)
		}
	}
	judged := trial(product, func(r *declare.Result) { r.Set("area", math.NaN()) }).Answer(asked("length", "3 m"))
	if judged.Fault == nil {
		t.Errorf("Judge sets NaN: %+v", judged)
	}
}

func TestBadDeclarationPanicsWithTheInput(t *testing.T) {
	defer func() {
		if said, _ := recover().(string); !strings.Contains(said, "declaration of input depth") {
			t.Errorf("got %q", said)
		}
	}()
	(&declare.Calculator{Inputs: []declare.Input{{ID: "depth", Kinds: []quantity.Kind{quantity.Length}, Min: "5 L"}}}).Prepare()
}
