package load

import (
	"slices"
	"strings"

	"blankoff/build/source"
)

// Words is words.yaml: the words of the trade with their other spellings. The file may be missing.
type Words struct {
	File          *source.File
	Tools         []*Word
	Supplies      []*Word
	Abbreviations []*Word
	Synonyms      []*Word // what readers type into the search; tools and supplies have theirs beside them
}

// Word is a word of the trade.
type Word struct {
	Name     string // as it is shown; singular
	NameSpan source.Span
	Also     []Text // other spellings, and plural forms that no rule of English gives
	Means    Text   // in a sentence or less; of an abbreviation, what it stands for
	// Verb says that the word is a verb as well: in a step it counts only behind an article or a number.
	Verb bool
}

// Same lists the words that mean one thing, a group each, for the search.
func (w Words) Same() [][]string {
	var groups [][]string
	for _, word := range slices.Concat(w.Synonyms, w.Tools, w.Supplies, w.Abbreviations) {
		group := word.Spellings()
		// An abbreviation is explained by the words that it stands for, or by a description, which nobody types.
		if slices.Contains(w.Abbreviations, word) && strings.Count(word.Means.Text, " ") < 3 {
			group = append(group, word.Means.Text)
		}
		if len(group) > 1 {
			groups = append(groups, group)
		}
	}
	return groups
}

// Spellings lists the name and the other spellings.
func (w *Word) Spellings() []string {
	list := []string{w.Name}
	for _, other := range w.Also {
		list = append(list, other.Text)
	}
	return list
}

var (
	wordsFields = []source.Field{
		{Key: "tools", Shape: source.Nested},
		{Key: "supplies", Shape: source.Nested},
		{Key: "abbreviations", Shape: source.Nested},
		{Key: "synonyms", Shape: source.Nested},
	}
	wordFields = []source.Field{
		{Key: "also", Shape: source.List},
		{Key: "means", Shape: source.Text},
		{Key: "verb", Shape: source.Text},
	}
	abbreviationFields = []source.Field{
		{Key: "means", Shape: source.Text, Required: true},
		{Key: "also", Shape: source.List},
	}
	synonymFields = []source.Field{
		{Key: "also", Shape: source.List, Required: true},
	}
)

func (l *loader) words(file *source.File, m *source.Mapping) {
	l.check(m, "the list of words", wordsFields)
	l.library.Words = Words{
		File: file, Tools: l.wordList(m, "tools", wordFields), Supplies: l.wordList(m, "supplies", wordFields),
		Abbreviations: l.wordList(m, "abbreviations", abbreviationFields), Synonyms: l.wordList(m, "synonyms", synonymFields),
	}
}

// wordList reads words with what is said of each; a word may stand alone, `torch:`, or with its meaning alone,
// `ESD: electrostatic discharge`.
func (l *loader) wordList(m *source.Mapping, key string, fields []source.Field) []*Word {
	var list []*Word
	if m = m.Text(key).Map; m == nil {
		return nil
	}
	for _, e := range m.Entries {
		l.phrase(Text{Text: e.Key, Span: e.KeySpan})
		below := e.Value.Map
		switch e.Value.Shape {
		case source.Nested:
		case source.Text:
			list = append(list, &Word{Name: e.Key, NameSpan: e.KeySpan, Means: Text{Text: e.Value.Text, Span: e.Value.Span}})
			continue
		case source.Empty:
			below = &source.Mapping{Span: e.KeySpan}
		default:
			l.refuse("shape", e.Value.Span, e.Key+" holds "+e.Value.Shape.String()+", not a mapping", "write `"+e.Key+": {also: [other spelling]}`")
			continue
		}
		l.check(below, "the word "+source.Quote(e.Key), fields)
		if verb := below.Text("verb"); verb.Text != "" && verb.Text != "yes" {
			l.refuse("shape", verb.Span, "verb holds "+source.Quote(verb.Text)+", not yes", "write `verb: yes`, or leave it out")
		}
		list = append(list, &Word{
			Name: e.Key, NameSpan: e.KeySpan, Also: l.phrases(below, "also"), Means: text(below, "means"), Verb: below.Text("verb").Text == "yes",
		})
	}
	return list
}
