package fault

import (
	"fmt"
	"slices"

	"blankoff/build/source"
)

// Read reads triage.yaml and says what is wrong in it by itself. The model always comes back; it is Usable when there are no faults.
func Read(file *source.File, m *source.Mapping) (*Model, []source.Fault) {
	r := &reader{model: &Model{File: file, Costs: map[string]float64{"none": 0}}}
	r.check(m, "triage.yaml", Fields)
	r.scales(m)
	r.each(m, "rule-outs", "a rule-out", RuleOutFields, r.ruleOut)
	r.each(m, "findings", "a finding", FindingFields, r.finding)
	r.guards(m)
	r.each(m, "causes", "a cause", CauseFields, r.cause)
	r.pairs(m)
	r.each(m, "tests", "a test", TestFields, r.test)
	r.each(m, "repairs", "a repair", RepairFields, r.repair)
	if len(r.faults) == 0 { // of half a model much would seem to be missing
		r.names()
		r.reach()
	}
	if len(r.faults) == 0 {
		r.reckoned()
	}
	r.model.faulty = len(r.faults) > 0
	return r.model, r.faults
}

type reader struct {
	model  *Model
	faults []source.Fault
}

func (r *reader) refuse(rule string, span source.Span, message, hint string) {
	r.faults = append(r.faults, source.Fault{Rule: rule, Span: span, Message: message, Hint: hint})
}

func (r *reader) check(m *source.Mapping, what string, fields []source.Field) {
	if m != nil {
		r.faults = append(r.faults, m.Faults(what, fields)...)
	}
}

// each reads the named mappings below a key.
func (r *reader) each(m *source.Mapping, key, what string, fields []source.Field, read func(source.Entry)) {
	below := m.Text(key).Map
	if below == nil {
		return
	}
	for _, e := range below.Entries {
		if !r.plain(e, what) {
			continue
		}
		if e.Value.Shape != source.Nested {
			r.refuse("shape", e.KeySpan, e.Key+" holds "+e.Value.Shape.String()+", not a mapping", "write its parts in indented `key: text` lines below")
			continue
		}
		r.check(e.Value.Map, what, fields)
		read(e)
	}
}

func (r *reader) plain(e source.Entry, what string) bool {
	if source.PlainName(e.Key) {
		return true
	}
	r.refuse("name", e.KeySpan, "the name "+source.Quote(e.Key)+" of "+what+" is not plain", "use lower-case words with hyphens: "+source.SuggestName(e.Key))
	return false
}

func text(m *source.Mapping, key string) Text { return textOf(m.Text(key)) }

func textOf(v source.Value) Text { return Text{v.Text, v.Span} }

// texts reads a list of texts.
func (r *reader) texts(key string, v source.Value) []Text {
	var list []Text
	for _, item := range v.Items {
		if item.Shape != source.Text {
			r.refuse("shape", item.Span, key+" holds "+item.Shape.String()+" in its list", "write it as `"+key+": [one, two]`")
			continue
		}
		list = append(list, textOf(item))
	}
	return list
}

func named(e source.Entry, title string) Named {
	return Named{Name: e.Key, NameSpan: e.KeySpan, Title: text(e.Value.Map, title)}
}

// scales reads what holds for the whole file.
func (r *reader) scales(m *source.Mapping) {
	r.model.unlistedAt = text(m, "unlisted").Span
	r.model.Unlisted = r.weight(text(m, "unlisted"), "unlisted")
	if proof := text(m, "proof"); proof.Text != "" {
		r.model.Proof = r.minutes(proof, "proof")
	}
	if costs := m.Text("costs").Map; costs != nil {
		for _, e := range costs.Entries {
			if r.plain(e, "a class of parts") {
				r.model.Costs[e.Key] = r.minutes(textOf(e.Value), e.Key)
			}
		}
	}
	if over := m.Text("hand-over"); over.Map != nil {
		for _, name := range Workers {
			if _, found := over.Map.Find(name); !found {
				r.refuse("triage-who", over.Span, "hand-over says nothing of the "+name, "write what giving the job away costs: `hand-over: {"+name+": 4 h}`")
			}
		}
		for _, e := range over.Map.Entries {
			if !slices.Contains(Workers, e.Key) {
				r.refuse("triage-who", e.KeySpan, "nobody is called "+source.Quote(e.Key)+" here", r.meant(e.Key, Workers))
				continue
			}
			before := len(r.faults)
			minutes := r.minutes(textOf(e.Value), e.Key)
			if minutes == 0 && len(r.faults) == before {
				r.refuse("triage-reach", e.Value.Span, "giving the job away costs the "+e.Key+" nothing, so no step would ever come before it", "write what it is worth to end the job here: 3 h")
			}
			r.model.HandOver = append(r.model.HandOver, HandOver{Text{e.Key, e.KeySpan}, minutes})
		}
	}
}

func (r *reader) ruleOut(e source.Entry) {
	m := e.Value.Map
	r.model.RuleOuts = append(r.model.RuleOuts, &RuleOut{Named: named(e, "ask"), Ask: text(m, "ask"), Do: text(m, "do"), Stop: text(m, "stop")})
}

// pairs reads the causes that are met together.
func (r *reader) pairs(m *source.Mapping) {
	for _, item := range m.Text("pairs").Items {
		if item.Shape != source.Nested {
			r.refuse("shape", item.Span, "a pair holds "+item.Shape.String()+", not a mapping", "write `- {causes: [one, two], weight: 0.2}`")
			continue
		}
		item.Map.Span = item.Span
		r.check(item.Map, "a pair", PairFields)
		pair := Pair{r.texts("causes", item.Map.Text("causes")), r.weight(text(item.Map, "weight"), "the pair"), item.Span}
		if len(pair.Causes) != 2 || pair.Causes[0].Text == pair.Causes[1].Text {
			r.refuse("shape", item.Span, fmt.Sprintf("a pair is two different causes; here %s written", are(len(pair.Causes))), "write `causes: [one, two]`")
			continue
		}
		r.model.Pairs = append(r.model.Pairs, pair)
	}
}

func are(n int) string {
	switch n {
	case 0:
		return "none is"
	case 1:
		return "one is"
	case 2:
		return "the same is twice"
	}
	return fmt.Sprintf("%d are", n)
}
