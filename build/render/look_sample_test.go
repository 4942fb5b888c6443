package render_test

import (
	"html/template"
	"strings"
	"testing"

	"blankoff/build/ladder"
	"blankoff/build/render"
	"blankoff/calc/declare"
	"blankoff/calc/quantity"
	"blankoff/calc/show"
)

// The sample pages of the look: the demo scenario, with as much on each page as a real one has.

var (
	pane     = render.HazardView{Word: "WARNING", Title: "The pane may burst inward", Harm: "The air presses on the door with the weight of a small car. Glass or acrylic can cut and blind.", Avoid: "Look the pane over before each use. Goggles on, guard in place, never tap it. A marked or crazed pane is not used."}
	vacuum   = render.HazardView{Word: "CAUTION", Title: "Vacuum in chamber and lines", Harm: "A joint that is loosened under vacuum snatches and throws parts.", Avoid: "Vent slowly to air and see the atmosphere on the gauge before you touch a joint."}
	mains    = render.HazardView{Word: "DANGER", Title: "Mains inside open covers", Harm: "Electric shock kills.", Avoid: "Pull the plug and keep it in your own hand or pocket.", Defer: "Live work is for a licensed electrician; local codes decide."}
	static   = render.HazardView{Word: "NOTICE", Title: "Static charge and test current", Harm: "Board or tube may be lost.", Avoid: "Wrist strap on; ordinary ohms only."}
	licensed = render.StopView{Title: "Refrigerant circuit", Who: "a certified refrigeration technician; local codes decide", Why: "Opening the circuit frees a gas under pressure that burns cold and may burn."}
)

func fact(si, text string) string {
	return `<data class="fact" value="` + si + `" data-kind="pressure">` + text + `</data>`
}

func frame(title, section, root string, ladder *render.LadderView) render.Frame {
	return render.Frame{
		Title: title, Description: "What to do when a freeze dryer does not reach its pressure.", Root: root, Edition: "1a2b3c4d5e6f", Style: "look.css", Below: "below.css", Lists: "lists.css", Early: []string{"lists.css"}, Signs: "signs.svg", Desk: "desk.css", Wide: "wide.css", Print: "print.css",
		Icon: "icon.svg", Shop: "Rookhollow Vacuum Bench", Section: section, Ladder: ladder,
	}
}

func cindleLadder(t *testing.T) *render.LadderView {
	mTorr := quantity.MustUnit("mTorr")
	drawing, err := ladder.Draw(ladder.Ladder{
		Scale: ladder.Scale{TopPa: 96266, BottomPa: mTorr.To(10), Unit: mTorr},
		Rungs: []ladder.Rung{
			{Pa: 96266, Label: "air here, 430 m", Short: "air", Kind: ladder.Air},
			{Pa: 611.657, Label: "triple point of water", Short: "triple point", Kind: ladder.TriplePoint},
			{Pa: mTorr.To(350), Label: "ready limit", Short: "ready", Kind: ladder.Limit},
			{Pa: mTorr.To(187), Label: "ice floor, trap −34 °C", Short: "ice floor", Kind: ladder.IceFloor},
			{Pa: mTorr.To(25), Label: "pump blanked off", Short: "blank-off", Kind: ladder.Floor},
		},
		Band:  ladder.Band{FromPa: mTorr.To(600), ToPa: mTorr.To(187), Label: "working band"},
		Marks: []ladder.Mark{{Pa: mTorr.To(120), Label: "120 mTorr"}, {Pa: mTorr.To(480), Label: "480 mTorr"}, {Pa: mTorr.To(2000), Label: "2,000 mTorr"}},
	})
	if err != nil {
		t.Fatal(err)
	}
	return &render.LadderView{Caption: "Cindle 14", Tall: template.HTML(drawing.Tall), Strip: template.HTML(drawing.Strip)}
}

func units(chosen string, others ...string) []render.Option {
	all := []render.Option{{Value: chosen, Label: chosen, Chosen: true}}
	for _, other := range others {
		all = append(all, render.Option{Value: other, Label: other})
	}
	return all
}

type executed = func(name string, view any) template.HTML

// fields executes the entries of a calculator.
func fields(part executed, views ...render.InputView) []template.HTML {
	var list []template.HTML
	for _, view := range views {
		list = append(list, part("input", view))
	}
	return list
}

func riseTest(part executed, block, href string) render.CalculatorView {
	return render.CalculatorView{
		Block: block, ID: "rise-test", Title: "Chamber rise test", Href: href,
		Inputs: fields(part,
			render.InputView{Block: block, Name: "volume", Label: "Chamber volume", Symbol: "V", Value: "24.0 ± 1.0", Units: units("L", "m³", "mL"), Known: true},
			render.InputView{Block: block, Name: "start", Label: "First reading", Symbol: "p₁", Value: "120", Units: units("mTorr", "Pa", "mbar"), Help: "After the first 2 min, valve closed."},
			render.InputView{Block: block, Name: "end", Label: "Last reading", Symbol: "p₂", Value: "480", Units: units("mTorr", "Pa", "mbar")},
			render.InputView{Block: block, Name: "time", Label: "Time between", Symbol: "t", Value: "10", Units: units("min", "s", "h")},
			render.InputView{Block: block, Name: "limit", Label: "Limit", Value: "0.0107", Units: units("mbar·L/s", "Torr·L/s", "Pa·m³/s"), Known: true},
			render.InputView{Block: block, Name: "gauge", Label: "Accuracy of the gauge", Value: "20 %", Text: true},
		),
		Answer: said(declare.Answer{
			Verdict:  declare.Verdict{Is: declare.Fail, Text: "0.0192 mbar·L/s is above the limit of 0.0107 mbar·L/s, by more than the uncertainty of 0.0078 mbar·L/s."},
			Out:      []declare.Given{{ID: "leak", Label: "Gas load", Value: 0.0192, HasValue: true, Text: "0.0192 ± 0.0078 mbar·L/s", Also: []string{"0.0144 ± 0.0059 Torr·L/s", "1.06 sccm at 0 °C"}}, {ID: "rate", Label: "Rate of rise", Value: 36, HasValue: true, Text: "36 ± 14 mTorr/min"}, {ID: "decide", Label: "Time to decide", Value: 6, HasValue: true, Text: "6 min"}},
			Working:  []string{"Q = V · (p₂ − p₁) / t", "Q = 24.0 L · (480 mTorr − 120 mTorr) / 10 min = 0.0192 mbar·L/s"},
			Cautions: []string{"A straight rise is gas from outside; a bend is vapour. Two readings cannot tell them apart."},
		}),
	}
}

func continuityTest(part executed, block string) render.CalculatorView {
	return render.CalculatorView{
		Block: block, ID: "continuity", Title: "Continuity", Href: "../../calculators/continuity/",
		Inputs: fields(part,
			render.InputView{Block: block, Name: "reading", Label: "Reading", Value: "8.1", Units: units("Ω", "kΩ", "MΩ"), CanOver: true},
			render.InputView{Block: block, Name: "expect", Label: "Expected", Choices: []render.Option{{Value: "wire", Label: "a wire", Chosen: true}, {Value: "no connection", Label: "no connection"}}},
		),
		Answer: said(declare.Answer{
			Verdict: declare.Verdict{Is: declare.CannotTell, Text: "The meter's error is as large as the distance to the limit; a meter with 0.01 Ω steps would settle it."},
			Out:     []declare.Given{{ID: "resistance", Label: "Resistance", Value: 7.8, HasValue: true, Text: "7.8 ± 0.4 Ω"}, {ID: "state", Label: "State", Text: "continuous"}},
		}),
	}
}

func said(a declare.Answer) template.HTML { return template.HTML(show.Answer(&a)) }

// parts executes the templates that go into a page's text.
func parts(t *testing.T, templates *template.Template) executed {
	return func(name string, view any) template.HTML {
		var text strings.Builder
		if err := templates.ExecuteTemplate(&text, name, view); err != nil {
			t.Fatal(err)
		}
		return template.HTML(text.String())
	}
}

func procedure(t *testing.T, part func(string, any) template.HTML) render.GuideView {
	pass := continuityTest(part, "c3")
	pass.Answer = said(declare.Answer{Verdict: declare.Verdict{Is: declare.Pass, Text: "7.8 Ω lies in 6.9 to 9.3 Ω with its whole uncertainty."}})
	steps := []render.StepView{
		{Number: 1, Hazards: []template.HTML{part("hazard", pane)}, Action: template.HTML("<p>Pump until the reading changes by less than 2 % in 5 min. Note it: it is usually below " + fact("20", "150 mTorr") + ".</p>"),
			Expect: "the reading stands still.", IfNot: template.HTML(`note it all the same: a plateau of ` + fact("40", "300 mTorr") + ` can be tested.`)},
		{Number: 2, Action: "<p>Close the valve at the chamber and start the clock. Leave the pump running.</p>",
			Expect: "the reading begins to climb slowly.", IfNot: `it jumps at once, so <a href="x">the valve seat leaks</a>. It falls: no valve is closed.`},
		{Number: 3, Action: template.HTML("<p>Let 2 min pass. Then write a reading down each minute for 10 min, or until " + fact("266.6", "2,000 mTorr") + ".</p>"),
			Expect: "eight readings or more.", Rest: part("calculator", riseTest(part, "c1", "../../calculators/rise-test/"))},
		{Number: 4, Action: "<p>Repeat with the trap in the other state, cold or warm.</p>", IfNot: "the trap does not get cold.", Stops: []template.HTML{part("stop", licensed)}},
		{Number: 5, Hazards: []template.HTML{part("hazard", mains), part("hazard", static)}, Action: "<p>Measure pin 1 to pin 4 with the probes pressed.</p>", Rest: part("calculator", continuityTest(part, "c2")) + part("calculator", pass)},
	}
	body := template.HTML(`<section class="part" id="before-you-start"><h2>Before you start</h2><ul><li>The chamber is empty, dry and wiped.</li><li>The pump has run for <data class="fact" value="1800" data-kind="time">30 min</data> or more with its ballast closed.</li><li>You know whether the trap is cold or warm, and you write it down.</li></ul></section><section class="part" id="steps"><h2>Steps</h2><ol class="steps">`)
	for _, step := range steps {
		body += part("step", step)
	}
	body += template.HTML(`</ol></section><section class="part" id="afterwards"><h2>Afterwards</h2><p>Vent slowly. Leave the drain open for 10 min.</p><table><thead><tr><th>Model</th><th>Rise limit</th></tr></thead><tbody><tr><td>Cindle 14</td><td>20 mTorr/min</td></tr></tbody></table><pre class="chroma" tabindex="0"><code>12:04  120
12:14  480</code></pre></section><section class="part" id="record"><h2>Record</h2><ul><li>Volume and where it comes from</li><li>Readings and times</li><li>Trap temperature, room temperature</li><li>Gauge and its check date</li><li>Verdict</li></ul></section>`)
	return render.GuideView{
		Frame: frame("Chamber rise test", "procedures", "../../", cindleLadder(t)), Heading: "Chamber rise test", Sheet: true, Revision: "revision 3, review by 2027-06-01",
		Summary: "Finds out whether gas enters the closed chamber, and how much.",
		Facts:   []render.FactRow{{Name: "Who", Value: "technician, one person"}, {Name: "Time", Value: `<data class="fact" value="2400" data-kind="time">40 min</data>`}, {Name: "Bring", Value: "independent gauge, blanking cap, watch"}, {Name: "Machines", Value: `<a href="m">Cindle 14</a>, <a href="m">Torrask 38</a>`}, {Name: "Revision", Value: "3, review by 2027-06-01"}},
		Hazards: []template.HTML{part("hazard-brief", mains), part("hazard-brief", pane), part("hazard-brief", vacuum), part("hazard-brief", static)}, Body: body,
	}
}

func symptoms() []render.Entry {
	return []render.Entry{
		{Href: "s/", Title: "It pumps, but stays above the ready limit", Said: "The display settles between 400 and 2,000 mTorr and goes no lower.", Notes: []string{"first checks 15 min", "no tools"}},
		{Href: "s/", Title: "The reading jumps or makes no sense", Said: "Tens of thousands one second, a few hundred the next.", Notes: []string{"first checks 10 min", "no tools"}},
	}
}

func stages() []render.Group {
	return []render.Group{
		{ID: "reading", Title: "Is the reading true?", Entries: []render.Entry{
			{Href: "p/", Title: "Machine gauge against an independent gauge", Said: "Is the vacuum bad, or does the sensor say so?", Notes: []string{"technician", "40 min"}},
			{Href: "p/", Title: "Sensor electrical check", Said: "Is the tube open, intact or short to its case?", Notes: []string{"technician", "20 min"}}}},
		{ID: "gas", Title: "Does gas come in?", Entries: []render.Entry{{Href: "p/", Title: "Chamber rise test", Said: "How much gas enters the closed chamber?", Notes: []string{"technician", "40 min"}}}},
	}
}

func calculators() []render.Entry {
	return []render.Entry{
		{Href: "c/", Title: "Pressure", Said: "Are two readings the same number, here at this height?"}, {Href: "c/", Title: "Throughput", Said: "Is this leak above the limit, whatever unit it comes in?"},
		{Href: "c/", Title: "Chamber rise test", Said: "Does the chamber leak, and must it run longer to know?"}, {Href: "c/", Title: "Continuity", Said: "Is this wire whole, and could this meter tell?"},
	}
}

// samples gives every kind of page by the place of its file, filled.
func samples(t *testing.T, part func(string, any) template.HTML) map[string]any {
	guide := procedure(t, part)
	plain := guide
	plain.Frame.Section, plain.Sheet, plain.Frame.Ladder, plain.Hazards = "record", false, nil, nil
	return map[string]any{
		"home.html": render.HomeView{
			Frame: frame("Freeze dryer does not reach its pressure", "", "", cindleLadder(t)), Heading: "The freeze dryer does not reach its pressure",
			First:    `Note the number <b>and its unit</b>, do not open a cover, and take the line below that fits; smoke, a burning smell or a cracked pane means <a href="stop">stop now</a>.`,
			Body:     `<p>A small pump cannot hide much: the pressure stays up because gas comes in, because water is left, because the pump or the trap is tired, or because the sensor says so. We find out which by measuring, in that order of cheapness.</p>`,
			Symptoms: symptoms(), Stages: stages(), Calculators: calculators(),
			Machines: []render.Entry{{Href: "m/", Title: "Cindle 14", Said: "Home machine, 24 L, service tee only.", Notes: []string{"CN14"}}},
		},
		"procedures/rise-test/index.html": guide,
		"pages/plain/index.html":          plain,
		"procedures/index.html":           render.IndexView{Frame: frame("Procedures", "procedures", "../", nil), Heading: "Procedures", Lead: "In the order of the job: first the reading, then the gas.", Groups: stages()},
		"calculators/rise-test/index.html": render.ReferenceView{
			Frame: frame("Chamber rise test", "calculators", "../../", cindleLadder(t)), Heading: "Chamber rise test", Decision: "Does the chamber leak more than its limit, and must the test run longer to know?",
			Hazards: []render.HazardView{vacuum}, Calculator: riseTest(part, "c1", ""),
			Inputs:  []render.InputRow{{Label: "Chamber volume", Symbol: "V", Units: "L, mL, m³", Usual: "5 L to 100 L", Possible: "0.1 L to 500 L", Blank: "must be given", Accuracy: "5 %"}, {Label: "Accuracy of the gauge", Units: "%, mTorr", Usual: "5 % to 25 %", Possible: "0 to 100 %", Blank: "20 %"}},
			Outputs: []render.OutputRow{{Label: "Gas load", Symbol: "Q", Units: "in mbar·L/s, Torr·L/s"}},
			Formula: []render.FormulaRow{{Math: `<math display="block"><semantics><mrow><mi>Q</mi><mo>=</mo><mi>V</mi></mrow><annotation encoding="text/plain">Q = V</annotation></semantics></math>`, Plain: "Q = V", Words: "in words", Long: true}},
			Counted: []string{"scale error of the gauge"}, Performed: []render.PerformedView{{Text: "2,000 simulated logs: none wrong."}, {Head: []string{"Leak", "logs"}, Rows: [][]string{{"small", "12"}}}},
			Example: render.ExampleView{Entries: []render.ExampleRow{{Label: "Chamber volume", Text: "24 L"}}, Results: []render.ExampleRow{{Label: "Gas load", Text: "0.02 mbar·L/s"}}, From: "by hand"},
			Sources: []render.SourceRow{{Title: "EN 13184", Where: "pressure change method", Mark: "published, scope read"}}, Limits: []string{"Below 2,000 mTorr only: a thermocouple gauge bends above it."},
			Cautions: []string{"Count the lines up to the closed valve into the volume."}, Terminal: "blankoff calc rise-test volume='24.0 L ± 1.0 L' start='120 mTorr' end='480 mTorr' time='10 min'", Used: stages()[1].Entries,
		},
		"machines/cindle-14/index.html": render.MachineView{
			Frame: frame("Cindle 14", "machines", "../../", cindleLadder(t)), Heading: "Cindle 14", Code: "CN14", Summary: "Home machine with a service tee instead of an isolation valve.",
			Mark: "invented", From: []string{"tube TQ-4"}, Groups: []render.ValueGroup{{ID: "of-chamber", Title: "Chamber", Rows: []render.ValueRow{{ID: "chamber-volume", Label: "chamber volume", Value: template.HTML(`<data class="fact" value="0.024" data-kind="volume">24.0 L ± 1.0 L</data>`)}, {ID: "ready-limit", Label: "ready limit", Value: template.HTML(fact("46.7", "350 mTorr"))}, {ID: "heater-pair", Label: "heater pair", Value: `<data class="fact" value="8" data-kind="resistance">6.9 to 9.3 Ω</data>`}, {ID: "thread", Label: "sensor thread", Value: "R 1/8"}}}, {ID: "of-sensor", Title: "Vacuum sensor", Rows: []render.ValueRow{{ID: "gauge-accuracy", Label: "Accuracy", Value: "20 %", Said: "memory; 15 to 25 % is common"}}}},
			Guides: stages()[0].Entries,
		},
		"writing/fact/index.html": render.RuleView{
			Frame: frame("The text of a checked fact is true", "", "../../", nil), Heading: "The text of a checked fact is true", Name: "fact",
			Text: "<p>A limit that was changed on the card and not in the guide sends somebody home with a machine that is not ready.</p>",
			Example: &render.RuleExampleView{
				Bad:  []render.SampleView{{Name: "pages/limits.md", Rows: []render.RowView{{Number: "⋮"}, {Number: "6", HTML: "At most [<mark>340 mTorr</mark>](spec:ready-limit).", Wrong: true}}}},
				Told: []render.ToldView{{Head: "content/pages/limits.md:6:10: error: the text is not true [fact]", Excerpt: "    6 | At most [340 mTorr]\n      |          ^~~~~~~~~\n", Hints: []string{"write 350 mTorr"}}},
				Good: []render.SampleView{{Name: "pages/limits.md", Rows: []render.RowView{{Number: "6", HTML: "At most [350 mTorr](spec:ready-limit).", New: true}}}},
			},
			Family: render.Link{Href: "../#facts", Text: "Quantities and checked facts"}, All: "../",
		},
		"404.html": render.MissingView{Frame: frame("No such page", "", "/", nil)},
	}
}

// templateOf names the template of a view.
func templateOf(view any) string {
	switch view.(type) {
	case render.HomeView:
		return "home"
	case render.GuideView:
		return "guide"
	case render.IndexView:
		return "index"
	case render.ReferenceView:
		return "reference"
	case render.MachineView:
		return "machine"
	case render.RuleView:
		return "rule"
	}
	return "missing"
}
