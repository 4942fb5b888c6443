package fault

import (
	"blankoff/build/source"
	"blankoff/calc/triage"
)

func (r *reader) cause(e source.Entry) {
	m := e.Value.Map
	r.reserved(e.Key, e.KeySpan, "a cause", triage.NotListed)
	c := &Cause{Named: named(e, "title"), Group: text(m, "group"), Weight: r.weight(text(m, "weight"), e.Key)}
	r.model.Causes = append(r.model.Causes, c)
	shows := m.Text("shows").Map
	if shows == nil {
		return
	}
	for _, s := range shows.Entries {
		f := r.model.Finding(s.Key)
		if f == nil {
			r.refuse("triage-name", s.KeySpan, "there is no finding "+source.Quote(s.Key), r.meant(s.Key, r.findingNames()))
			continue
		}
		shown := Shown{Finding: Text{s.Key, s.KeySpan}}
		switch {
		case f.Measured():
			curve, ok := r.curve(s.Value, f)
			if ok && curve.Log != f.Plain.Log && f.Plain.Spread > 0 {
				r.refuse("triage-unit", s.Value.Span, s.Key+" is spread by a factor in one place and by a value in the other", "write it as in `usual:` of the finding")
			}
			shown.Curve = curve
		case len(f.Answers) > 1:
			shown.Given = r.shares(s.Value, f)
		}
		c.Shows = append(c.Shows, shown)
	}
}

func (r *reader) findingNames() []string {
	var names []string
	for _, f := range r.model.Findings {
		names = append(names, f.Name)
	}
	return names
}

// Finding finds a finding by name, or gives nil.
func (m *Model) Finding(name string) *Finding {
	for _, f := range m.Findings {
		if f.Name == name {
			return f
		}
	}
	return nil
}

// shown is what a cause makes of a finding; nil where that is as usual.
func (c *Cause) shown(finding string) *Shown {
	for i := range c.Shows {
		if c.Shows[i].Finding.Text == finding {
			return &c.Shows[i]
		}
	}
	return nil
}
