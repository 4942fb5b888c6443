package fault

import "blankoff/build/source"

// most bounds what a plan has to reckon with, and the tools that fit into its 64 bits.
const (
	mostCauses = 200
	mostTools  = 64
)

// names looks up what the parts of the file say of each other.
func (r *reader) names() {
	m := r.model
	var causes, steps []string
	for _, c := range m.Causes {
		causes = append(causes, c.Name)
	}
	seen := map[string]bool{}
	for _, s := range m.Steps() {
		if seen[s.Name] {
			r.refuse("triage-name", s.NameSpan, source.Quote(s.Name)+" is the name of a test and of a repair", "give one of them another name")
		}
		seen[s.Name] = true
		steps = append(steps, s.Name)
	}
	for _, s := range m.Steps() {
		r.known(s.Tells, "finding", r.findingNames())
		r.known(s.Needs, "test or repair", steps)
		for _, c := range s.Cures {
			r.known([]Text{c.Cause}, "cause", causes)
		}
	}
	for _, p := range m.Pairs {
		r.known(p.Causes, "cause", causes)
	}
	r.bounds()
}

// known refuses each name that is not in a list.
func (r *reader) known(list []Text, what string, names []string) {
	for _, t := range list {
		found := false
		for _, name := range names {
			found = found || name == t.Text
		}
		if !found {
			r.refuse("triage-name", t.Span, "there is no "+what+" "+source.Quote(t.Text), source.DidYouMean(t.Text, names))
		}
	}
}

func (r *reader) bounds() {
	m := r.model
	if n := len(m.Causes) + len(m.Pairs); n > mostCauses {
		r.refuse("triage-reach", m.Causes[0].NameSpan, "there are too many causes and pairs for a plan on a phone", "keep to 200; put rare ones together")
	}
	if len(m.Tools()) > mostTools {
		r.refuse("triage-reach", m.Tests[0].NameSpan, "there are too many tools for a plan", "keep to 64; leave out what everybody has")
	}
}
