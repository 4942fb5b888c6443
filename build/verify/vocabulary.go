package verify

import "blankoff/build/load"

// vocabulary is what a shop has said about words, made once for all its pages.
type vocabulary struct {
	acts          *phrases[*load.Act]
	tools         *phrases[*load.Word] // tools and supplies
	forbidden     *phrases[ban]
	abbreviations map[string]bool
	avoid         map[string][]word // what each hazard asks for
}

// ban is one thing that must not be done to one part.
type ban struct {
	part *load.Part
	*load.Forbidden
}

func newVocabulary(library *load.Library) *vocabulary {
	v := &vocabulary{
		acts: newPhrases[*load.Act](), tools: newPhrases[*load.Word](), forbidden: newPhrases[ban](), abbreviations: map[string]bool{},
		avoid: map[string][]word{},
	}
	for _, h := range library.Catalogue.Hazards {
		v.avoid[h.Name] = wordsOf(h.Avoid.Text)
	}
	for _, act := range library.Catalogue.Acts {
		for _, words := range act.Words {
			v.acts.addDeed(words.Text, act)
		}
	}
	for _, part := range library.Catalogue.Parts {
		for _, f := range part.Forbidden {
			for _, words := range f.Words {
				v.forbidden.add(words.Text, ban{part, f})
			}
		}
	}
	for _, list := range [][]*load.Word{library.Words.Tools, library.Words.Supplies} {
		for _, w := range list {
			v.addTool(w)
		}
	}
	for _, w := range library.Words.Abbreviations {
		for _, text := range w.Spellings() {
			v.abbreviations[text] = true
		}
	}
	return v
}

func (v *vocabulary) addTool(w *load.Word) {
	for _, text := range w.Spellings() {
		if w.Verb {
			v.tools.addBehindArticle(text, w)
		} else {
			v.tools.add(text, w)
		}
	}
}
