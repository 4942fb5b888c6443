package render

import "blankoff/build/guide"

// searchPage is where the search is published.
const searchPage = "search/"

const (
	searchHeading     = "Search"
	searchDescription = "Finds pages by word, by reading and unit, and by what the machine does. All pages by name."
)

// search makes the page of the search: a field for those with scripts, a list of all pages for everybody.
func (p *page) search() error {
	frame := p.listFrame(searchHeading, searchDescription, "", nil)
	frame.Early, frame.Ladder = append(frame.Early, p.assets.Search), nil // no pressure has a place on this page
	return p.write("search", SearchView{Frame: frame, Heading: searchHeading, Index: p.assets.Index, Groups: p.everything()})
}

// everything lists all pages but the lists themselves, by kind.
func (p *page) everything() []Group {
	var all []Group
	add := func(id, title string, entries []Entry) {
		if len(entries) > 0 {
			all = append(all, Group{ID: id, Title: title, Entries: entries})
		}
	}
	add("symptoms", "Symptoms", append(p.triageEntry(), p.guides(guide.Symptom)...))
	add("procedures", "Procedures", p.guides(guide.Procedure))
	add("calculators", "Calculators", p.calculatorEntries())
	add("machines", "Machines", p.machineEntries())
	var pages []Entry
	for _, g := range p.library.Guides {
		if g.Kind == guide.Page && g.Path() != homePage {
			pages = append(pages, p.entry(g))
		}
	}
	if p.library.Shop.HelpsAuthors() {
		pages = append(pages, Entry{Href: p.root + writingAddress, Title: writingHeading})
	}
	add("pages", "Other pages", pages)
	return all
}

func (p *page) calculatorEntries() []Entry {
	var entries []Entry
	for _, group := range p.calculatorGroups() {
		entries = append(entries, group.Entries...)
	}
	return entries
}
