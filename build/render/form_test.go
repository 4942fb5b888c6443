package render

import (
	"html"
	"html/template"
	"testing"

	"blankoff/build/load"
)

// A filled form is the executed template, whatever came before in the same form and whatever an author wrote.
func TestFormsAreWhatTemplatesGive(t *testing.T) {
	b := newBook(&load.Library{}, Assets{})
	hostile := `"5" + <b> & 'x' ` + string(firstMark) + string(firstMark+1)
	for _, v := range []StepView{
		{Number: 1, Action: "first", Rest: "<p>rest</p>"},
		{Number: 1, Action: "second"},
		{Number: 1, Action: "third", Expect: "e", IfNot: "i", Hazards: []template.HTML{"h1", "h2"}, Stops: []template.HTML{"s1", "s2"}},
		{Number: 2, Action: template.HTML(firstMark), Hazards: []template.HTML{template.HTML(firstMark + 1)}},
	} {
		want := b.part("step", v)
		got := written(func(out *memory) {
			b.fillIn(out, "step", &v, v.Number, &v.Hazards, &v.Action, &v.Expect, &v.IfNot, &v.Stops, &v.Rest)
		})
		if got != want {
			t.Errorf("step\n got %s\nwant %s", got, want)
		}
	}
	for _, title := range []string{"plain", hostile, ""} {
		v := GuideView{Frame: Frame{Title: title, Shop: title, Description: title, Root: "../"}, Heading: title, Body: "<p>body</p>",
			Facts: []FactRow{{Name: title, Value: "value"}}}
		v.Ladder = &LadderView{Caption: title, Tall: "<svg></svg>"}
		want := string(b.part("guide", v))
		p := &page{book: b, out: new(memory)}
		p.writeGuide(&v)
		// The two write a character such as + in different ways.
		if got := p.out.String(); html.UnescapeString(got) != html.UnescapeString(want) {
			t.Errorf("guide %q\n got %s\nwant %s", title, got, want)
		}
	}
}
