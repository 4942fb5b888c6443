package load

import (
	"fmt"
	"strings"
	"unicode"

	"blankoff/build/source"
)

// AnyPart is the part whose rules hold on every page.
const AnyPart = "any"

// Part is something of a machine that not every solvent and not every habit is good for.
type Part struct {
	Name      string
	NameSpan  source.Span
	Title     Text
	Forbidden []*Forbidden
}

// Forbidden is what must not be done to a part.
type Forbidden struct {
	Words   []Text // phrases that name it
	Why     Text
	Instead Text
}

var (
	partFields = []source.Field{
		{Key: "title", Shape: source.Text, Required: true},
		{Key: "forbidden", Shape: source.List, Required: true},
	}
	forbiddenFields = []source.Field{
		{Key: "words", Shape: source.List, Required: true},
		{Key: "why", Shape: source.Text, Required: true},
		{Key: "instead", Shape: source.Text, Required: true},
	}
)

func (l *loader) parts(m *source.Mapping, c *Catalogue) {
	l.each(m, "parts", "a part", partFields, func(e source.Entry) {
		part := &Part{Name: e.Key, NameSpan: e.KeySpan, Title: text(e.Value.Map, "title")}
		for _, item := range e.Value.Map.Text("forbidden").Items {
			if item.Shape != source.Nested {
				l.refuse("shape", item.Span, "what is forbidden for a part holds "+item.Shape.String()+", not a mapping",
					"write `- words: [one, two]` with `why:` and `instead:` indented below")
				continue
			}
			item.Map.Span = item.Span
			l.check(item.Map, "what is forbidden", forbiddenFields)
			part.Forbidden = append(part.Forbidden, &Forbidden{Words: l.phrases(item.Map, "words"), Why: text(item.Map, "why"), Instead: text(item.Map, "instead")})
		}
		c.Parts = append(c.Parts, part)
	})
}

// phrases reads a list of phrases.
func (l *loader) phrases(m *source.Mapping, key string) []Text {
	list := l.texts(m, key)
	for _, phrase := range list {
		l.phrase(phrase)
	}
	return list
}

// mostGaps is how many gaps a phrase may have: each is tried in every width, so that their number multiplies the cost.
const mostGaps = 3

// phrase refuses what would never be found, or would be looked for too long.
func (l *loader) phrase(phrase Text) {
	gaps := strings.Count(strings.ReplaceAll(phrase.Text, "...", "…"), "…")
	switch {
	case strings.IndexFunc(phrase.Text, unicode.IsLetter) < 0:
		l.refuse("phrase", phrase.Span, "the phrase "+source.Quote(phrase.Text)+" holds no word", "write the words by which it is known in a step; … stands for up to three words")
	case gaps > mostGaps:
		l.refuse("phrase", phrase.Span, fmt.Sprintf("the phrase %s has %d gaps; %d is the most", source.Quote(phrase.Text), gaps, mostGaps), "write several shorter phrases")
	}
}

// texts reads a list of texts.
func (l *loader) texts(m *source.Mapping, key string) []Text {
	var list []Text
	for _, item := range m.Text(key).Items {
		if item.Shape != source.Text {
			l.refuse("shape", item.Span, key+" holds "+item.Shape.String()+" in its list", "write it as `"+key+": [one, two]`; put a text with a colon or comma into quotes")
			continue
		}
		list = append(list, Text{Text: item.Text, Span: item.Span})
	}
	return list
}
