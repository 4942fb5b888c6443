package load

import (
	"slices"
	"strings"

	"blankoff/build/guide"
	"blankoff/build/source"
)

// SignalWords are the words of ANSI Z535.6 and ISO 3864-2, the gravest first.
var SignalWords = []string{"DANGER", "WARNING", "CAUTION", "NOTICE"}

var (
	catalogueFields = []source.Field{
		{Key: "hazards", Shape: source.Nested, Required: true},
		{Key: "acts", Shape: source.Nested, Required: true},
		{Key: "stops", Shape: source.Nested},
		{Key: "parts", Shape: source.Nested},
	}
	hazardFields = []source.Field{
		{Key: "word", Shape: source.Text, Required: true},
		{Key: "title", Shape: source.Text, Required: true},
		{Key: "harm", Shape: source.Text, Required: true},
		{Key: "avoid", Shape: source.Text, Required: true},
		{Key: "defer", Shape: source.Text},
	}
	actFields = []source.Field{
		{Key: "means", Shape: source.Text, Required: true},
		{Key: "hazards", Shape: source.List},
		{Key: "words", Shape: source.List},
		{Key: "readers", Shape: source.List},
		{Key: "stop", Shape: source.Text},
	}
	stopFields = []source.Field{
		{Key: "title", Shape: source.Text, Required: true},
		{Key: "who", Shape: source.Text, Required: true},
		{Key: "why", Shape: source.Text, Required: true},
	}
)

func (l *loader) catalogue(file *source.File, m *source.Mapping) {
	l.check(m, "the catalogue", catalogueFields)
	c := &l.library.Catalogue
	c.File = file
	l.each(m, "hazards", "a hazard", hazardFields, func(e source.Entry) {
		h := e.Value.Map
		c.Hazards = append(c.Hazards, &Hazard{
			Name: e.Key, NameSpan: e.KeySpan, Word: text(h, "word"), Title: text(h, "title"),
			Harm: text(h, "harm"), Avoid: text(h, "avoid"), Defer: text(h, "defer"),
		})
	})
	l.each(m, "acts", "an act", actFields, func(e source.Entry) {
		m := e.Value.Map
		c.Acts = append(c.Acts, &Act{
			Name: e.Key, NameSpan: e.KeySpan, Means: text(m, "means"), Hazards: l.texts(m, "hazards"),
			Words: l.phrases(m, "words"), Readers: l.texts(m, "readers"), Stop: text(m, "stop"),
		})
	})
	l.each(m, "stops", "a stop", stopFields, func(e source.Entry) {
		s := e.Value.Map
		c.Stops = append(c.Stops, &Stop{Name: e.Key, NameSpan: e.KeySpan, Title: text(s, "title"), Who: text(s, "who"), Why: text(s, "why")})
	})
	l.parts(m, c)
	l.catalogueLinks(c)
}

// each reads the named mappings below a key.
func (l *loader) each(m *source.Mapping, key, what string, fields []source.Field, read func(source.Entry)) {
	below := m.Text(key).Map
	if below == nil {
		return
	}
	for _, e := range below.Entries {
		switch {
		case !source.PlainName(e.Key):
			l.refuse("name", e.KeySpan, "the name "+source.Quote(e.Key)+" of "+what+" cannot be used in links", "use lower-case words with hyphens: "+source.SuggestName(e.Key))
		case e.Value.Shape != source.Nested:
			l.refuse("shape", e.KeySpan, e.Key+" holds "+e.Value.Shape.String()+", not a mapping", "write its parts in indented `key: text` lines below")
		default:
			l.check(e.Value.Map, what, fields)
			read(e)
		}
	}
}

// catalogueLinks checks what the catalogue says about itself.
func (l *loader) catalogueLinks(c *Catalogue) {
	var names []string
	for _, h := range c.Hazards {
		names = append(names, h.Name)
		if word := h.Word.Text; word != "" && !slices.Contains(SignalWords, word) {
			l.refuse("signal-word", h.Word.Span, source.Quote(word)+" is no signal word", "use "+strings.Join(SignalWords, ", "))
		}
	}
	stops := map[string]bool{"": true}
	var known []string
	for _, stop := range c.Stops {
		stops[stop.Name] = true
		known = append(known, stop.Name)
	}
	for _, act := range c.Acts {
		for _, need := range act.Hazards {
			if !slices.Contains(names, need.Text) {
				l.refuse("unknown-hazard", need.Span, "the catalogue has no hazard "+source.Quote(need.Text), source.DidYouMean(need.Text, names))
			}
		}
		if !stops[act.Stop.Text] {
			l.refuse("unknown-stop", act.Stop.Span, "the catalogue has no stop "+source.Quote(act.Stop.Text), source.DidYouMean(act.Stop.Text, known))
		}
		for _, reader := range act.Readers {
			if !slices.Contains(guide.Readers, reader.Text) {
				l.refuse("reader", reader.Span, "there is no reader "+source.Quote(reader.Text), source.DidYouMean(reader.Text, guide.Readers))
			}
		}
	}
}
