// Package load reads a content folder into a Library and says what cannot be read in it.
// It looks at shapes (folders, names, keys, characters); whether the content is true and
// complete is verified elsewhere.
//
//	library, problems, err := load.Load(os.DirFS("content"), "content")
//
// Names and everything that depends on order follow the alphabet, so the same folder
// always gives the same Library.
package load

import (
	"blankoff/build/fault"
	"blankoff/build/guide"
	"blankoff/build/source"
)

// Library is all that a shop has written.
type Library struct {
	Folder    string // as the user typed it
	Shop      Shop
	Machines  []*Machine // by name
	Families  []*Family  // by name
	Tubes     []*Tube    // by name
	Catalogue Catalogue
	Words     Words
	Triage    *fault.Model   // nil where the shop has no triage.yaml
	Guides    []*guide.Guide // by path: pages, procedures, symptoms
	Pictures  []*Picture     // by path
	Unread    []string       // paths of files that are there but hold no usable text

	pages    map[string]*guide.Guide // by path, for libraries of thousands of pages
	families map[string]*Family      // by name
	covered  map[*guide.Guide][]*Machine
}

// Text is a value with its place; its Text is empty when nothing was written.
type Text = guide.Text

// Shop is shop.yaml.
type Shop struct {
	File     *source.File
	Name     Text
	Town     Text
	Altitude Text
	Summary  Text
	Units    []Named // kind of quantity -> unit that pages show

	Authoring Text // yes: the site has pages for those who write it
}

// HelpsAuthors tells whether the site has a page for each rule of verify.
func (s Shop) HelpsAuthors() bool { return s.Authoring.Text == "yes" }

// Named is a key with its text, both with their places.
type Named struct {
	Name     string
	NameSpan source.Span
	Text
}

// Catalogue is hazards.yaml.
type Catalogue struct {
	File    *source.File
	Hazards []*Hazard
	Acts    []*Act
	Stops   []*Stop
	Parts   []*Part
}

// Hazard is what can hurt or break, in the parts of a hazard statement.
type Hazard struct {
	Name     string
	NameSpan source.Span
	Word     Text // DANGER, WARNING, CAUTION or NOTICE
	Title    Text
	Harm     Text
	Avoid    Text
	Defer    Text // may be empty
}

// Act is something a page can do, with the hazards it must then carry.
type Act struct {
	Name     string
	NameSpan source.Span
	Means    Text
	Hazards  []Text
	Words    []Text // phrases that name the act in a step
	Readers  []Text // who may do it; nobody named means everybody
	Stop     Text   // the stop at which it is left to licensed people; empty when it is not reserved
}

// Stop is where work ends for people without a licence.
type Stop struct {
	Name     string
	NameSpan source.Span
	Title    Text
	Who      Text
	Why      Text
}

// Hazard finds a hazard by name, or gives nil.
func (c *Catalogue) Hazard(name string) *Hazard {
	for _, h := range c.Hazards {
		if h.Name == name {
			return h
		}
	}
	return nil
}

// Part finds a part by name, or gives nil.
func (c *Catalogue) Part(name string) *Part {
	for _, p := range c.Parts {
		if p.Name == name {
			return p
		}
	}
	return nil
}

// Act finds an act by name, or gives nil.
func (c *Catalogue) Act(name string) *Act {
	for _, a := range c.Acts {
		if a.Name == name {
			return a
		}
	}
	return nil
}

// Stop finds a stop by name, or gives nil.
func (c *Catalogue) Stop(name string) *Stop {
	for _, s := range c.Stops {
		if s.Name == name {
			return s
		}
	}
	return nil
}

// Picture is a file of pictures/.
type Picture struct {
	Path string // pictures/door.svg
	Data []byte
}

// Guide finds a page by its path without .md: procedures/rise-test. Nil when there is none.
func (l *Library) Guide(path string) *guide.Guide { return l.pages[path] }

func (l *Library) addGuide(page *guide.Guide) {
	if l.pages == nil {
		l.pages = map[string]*guide.Guide{}
	}
	l.Guides = append(l.Guides, page)
	l.pages[page.Path()] = page
}

// Picture finds a picture by its path, or gives nil.
func (l *Library) Picture(path string) *Picture {
	for _, p := range l.Pictures {
		if p.Path == path {
			return p
		}
	}
	return nil
}
