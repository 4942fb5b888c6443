package command

import (
	"cmp"
	"encoding/json"
	"fmt"
	"slices"

	"blankoff/build/diagnostic"
	"blankoff/build/guide"
	"blankoff/build/load"
	"blankoff/build/prose"
	"blankoff/build/source"
)

// foundQuantity is a quantity of the running text, or a place in doubt, as `verify --quantities` tells it. Lines and
// columns are those of a diagnostic's JSON.
type foundQuantity struct {
	File      string    `json:"file"`
	Line      int       `json:"line"`
	Column    int       `json:"column"`
	EndLine   int       `json:"endLine"`
	EndColumn int       `json:"endColumn"`
	Text      string    `json:"text"`
	Kind      string    `json:"kind,omitempty"` // "thread" and "count" for what is in no unit; absent where it is in doubt
	SI        []float64 `json:"si,omitempty"`   // in the order of the text; what stands behind ± too
	Doubt     string    `json:"doubt,omitempty"`
}

// tellQuantities lists what was recognised in the text of the guides, in the order of files and places.
func tellQuantities(t terminal, library *load.Library, asJSON bool) error {
	var all []foundQuantity
	for _, page := range library.Guides {
		all = append(all, quantitiesOf(page)...)
	}
	if asJSON {
		return quantitiesJSON(t, all)
	}
	for _, q := range all {
		kind := q.Kind
		if q.Doubt != "" {
			kind = "in doubt: " + q.Doubt
		}
		fmt.Fprintf(t.out, "%s:%d:%d: %s, %s\n", diagnostic.Clean(q.File), q.Line, q.Column, diagnostic.Clean(q.Text), kind)
	}
	return nil
}

func quantitiesJSON(t terminal, all []foundQuantity) error {
	encoder := json.NewEncoder(t.out)
	encoder.SetEscapeHTML(false)
	encoder.SetIndent("", "  ")
	if all == nil {
		all = []foundQuantity{} // an empty list, not null
	}
	return encoder.Encode(all)
}

func quantitiesOf(page *guide.Guide) []foundQuantity {
	var list []foundQuantity
	for _, q := range page.Quantities {
		one := foundAt(q.Span, q.Said)
		one.Kind = kindOf(q.Mark)
		for _, n := range q.Mark.Numbers {
			one.SI = append(one.SI, n.SI)
		}
		list = append(list, one)
	}
	for _, d := range page.Doubts {
		one := foundAt(d.Span, d.Span.Text())
		one.Doubt = d.Message
		list = append(list, one)
	}
	slices.SortStableFunc(list, func(a, b foundQuantity) int {
		return cmp.Or(cmp.Compare(a.Line, b.Line), cmp.Compare(a.Column, b.Column))
	})
	return list
}

func foundAt(span source.Span, text string) foundQuantity {
	start, end := span.Position(), source.Span{File: span.File, Start: span.End()}.Position()
	return foundQuantity{File: span.File.Name, Line: start.Line, Column: start.Column, EndLine: end.Line, EndColumn: end.Column, Text: text}
}

func kindOf(m prose.Mark) string {
	switch m.Form {
	case prose.Thread:
		return "thread"
	case prose.Count:
		return "count"
	}
	return m.Kind.Name()
}
