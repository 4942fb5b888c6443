package fault

import (
	"maps"
	"slices"

	"blankoff/build/source"
	"blankoff/calc/triage"
)

func (r *reader) test(e source.Entry) {
	s := r.step(e)
	s.Tells = r.texts("tells", e.Value.Map.Text("tells"))
	r.model.Tests = append(r.model.Tests, s)
}

func (r *reader) repair(e source.Entry) {
	m := e.Value.Map
	s := r.step(e)
	s.Do, s.Stop = text(m, "do"), text(m, "stop")
	if cures := m.Text("cures").Map; cures != nil {
		for _, c := range cures.Entries {
			chance, ok := r.percent(Text{c.Value.Text, c.Value.Span}, c.Key)
			if ok && chance < triage.Tiny {
				r.refuse("probability", c.Value.Span, e.Key+" never ends "+source.Quote(c.Key), "write how often it does, or take the cause out")
			}
			s.Cures = append(s.Cures, Cure{Text{c.Key, c.KeySpan}, chance})
		}
	}
	r.model.Repairs = append(r.model.Repairs, s)
}

// step reads what tests and repairs have in common.
func (r *reader) step(e source.Entry) *Step {
	m := e.Value.Map
	r.reserved(e.Key, e.KeySpan, "a step", triage.HandingOver)
	s := &Step{
		Named: named(e, "title"), Guide: text(m, "guide"), Minutes: r.minutes(text(m, "time"), e.Key), Cost: text(m, "cost"),
		Tools: r.texts("tools", m.Text("tools")), Who: r.texts("who", m.Text("who")), Needs: r.texts("needs", m.Text("needs")),
	}
	for _, tool := range s.Tools {
		if Tool(tool.Text) == "" {
			r.refuse("shape", tool.Span, "a tool has no name", "write what must be at hand: `tools: [torch]`")
		}
		r.reserved(Tool(tool.Text), tool.Span, "a tool", triage.NoTool)
	}
	if _, known := r.model.Costs[s.Cost.Text]; !known && s.Cost.Text != "" {
		r.refuse("triage-name", s.Cost.Span, "there is no class of parts "+source.Quote(s.Cost.Text),
			r.meant(s.Cost.Text, slices.Sorted(maps.Keys(r.model.Costs))))
	}
	for _, who := range s.Who {
		if !slices.Contains(Workers, who.Text) {
			r.refuse("triage-who", who.Span, "nobody is called "+source.Quote(who.Text)+" here", r.meant(who.Text, Workers))
		}
	}
	if len(s.Who) == 0 && m.Text("who").Shape == source.List {
		r.refuse("triage-who", m.Text("who").Span, "nobody does "+source.Quote(e.Key), "write who: `who: [technician]`")
	}
	return s
}

// Steps are the tests and then the repairs, in the order in which a plan numbers them.
func (m *Model) Steps() []*Step { return append(slices.Clone(m.Tests), m.Repairs...) }

// Step finds a test or a repair by name, or gives nil.
func (m *Model) Step(name string) *Step {
	for _, list := range [][]*Step{m.Tests, m.Repairs} {
		for _, s := range list {
			if s.Name == name {
				return s
			}
		}
	}
	return nil
}

// For tells whether somebody may do a step.
func (s *Step) For(worker string) bool {
	return slices.ContainsFunc(s.Who, func(t Text) bool { return t.Text == worker })
}
