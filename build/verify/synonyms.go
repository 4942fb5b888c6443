package verify

import (
	"bytes"
	"strings"

	"blankoff/build/load"
	"blankoff/build/source"
)

// synonyms looks at what readers type into the search for words of the pages: a word that stands on no page leads nowhere,
// and what is typed for two words leads to both. One on a list of tools or supplies has its other spellings there.
func (c *checker) synonyms() {
	first := map[string]*load.Word{}
	for _, w := range c.library.Words.Synonyms {
		if !c.stands(w.Name) {
			c.refuse("synonym", w.NameSpan, "no page has the word "+source.Quote(w.Name), "write the word that the pages use, and what readers type under `also:`")
		}
		for _, also := range w.Also {
			key := strings.ToLower(also.Text)
			if other := first[key]; other != nil {
				c.refuse("synonym", also.Span, source.Quote(also.Text)+" stands for "+source.Quote(other.Name)+" already", "let it stand for one of the two")
			} else {
				first[key] = w
			}
		}
	}
}

// stands tells whether a guide has a word, in small letters or large.
func (c *checker) stands(word string) bool {
	small := []byte(strings.ToLower(word))
	for _, page := range c.library.Guides {
		if bytes.Contains(bytes.ToLower(page.Source), small) || strings.Contains(strings.ToLower(page.Title.Text), string(small)) {
			return true
		}
	}
	return false
}
