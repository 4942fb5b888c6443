// Package render turns a Library into the pages of a site: goldmark for the text, the
// templates of site/ for everything around it, the calculators themselves for the
// worked results. It reads no disk and trusts that verification has passed; what it
// still cannot show is left out, never invented.
package render

import (
	"html/template"
	"strings"
	"sync"

	"blankoff/build/drawn"
	"blankoff/build/edition"
	"blankoff/build/guide"
	"blankoff/build/load"
	"blankoff/build/parallel"
	"blankoff/calc/quantity"
	"blankoff/site"
)

// File is a finished page; Path is relative to the site's root.
type File = edition.File

// Assets are the names of the files that every page refers to, in the site's root.
type Assets struct {
	Style, Below, Bar, Lists, Desk, Drawn, Wide, Print, Script, Calc, Manifest, Icon, Signs string
	Triage, Model                                                                           string // the style sheet of the fault model's page, and its numbers
	Search, Index                                                                           string // the style sheet of the search page, and its index
	Pictures                                                                                string // the style sheet within pictures that are files; without it they stand in the page
	Entries                                                                                 string // the entries that guides leave folded, see Entries
	Edition                                                                                 string
	Scales                                                                                  string // the pictures with a scale in other units, see scales.go
	Choices                                                                                 func(kind quantity.Kind) map[string]quantity.Unit
}

// book is what all pages share. It is only read once the pages are being made, save for
// the caches at its end.
type book struct {
	library      *load.Library
	assets       Assets
	templates    *template.Template
	hazards      map[string]HazardView
	shown        map[string]template.HTML // hazards and stops as HTML: each is on many pages
	ladders      map[string]*drawn.Rungs  // by machine; "" is the ladder without a machine
	forms        sync.Map                 // formKey → form, see form.go
	drawnLadders sync.Map                 // a machine's name and marks → LadderView, see ladders.go
	checkedTexts sync.Map                 // a text → checkedText, see quantities.go
	pictures     sync.Map                 // the path of a picture → its File
	scales       sync.Map                 // see scales.go
	renderers    sync.Pool                // of *textRenderer
}

// templates are parsed once for the life of the program.
var templates = sync.OnceValue(func() *template.Template {
	return template.Must(template.New("").ParseFS(site.Files, "templates/*.html"))
})

// job makes one page.
type job struct {
	path string // of the page, "" for the home page, "procedures/rise-test/" else
	make func(*page) error
}

// Pages makes every page, in a fixed order, and after them the pictures that they show, in any, and the file of scales.
func Pages(library *load.Library, assets Assets) ([]File, error) {
	b := newBook(library, assets)
	jobs := b.jobs()
	files, errs := make([]File, len(jobs)), make([]error, len(jobs))
	parallel.Each(len(jobs), func(i int) { files[i], errs[i] = b.run(jobs[i]) })
	for _, err := range errs {
		if err != nil {
			return nil, err
		}
	}
	b.pictures.Range(func(_, picture any) bool {
		files = append(files, picture.(File))
		return true
	})
	scales, err := b.scaleFile()
	return append(files, scales), err
}

func newBook(library *load.Library, assets Assets) *book {
	b := &book{
		library: library, assets: assets, templates: templates(),
		hazards: map[string]HazardView{}, shown: map[string]template.HTML{}, ladders: map[string]*drawn.Rungs{},
	}
	for _, h := range library.Catalogue.Hazards {
		view := HazardView{Word: h.Word.Text, Title: withQuantities(h.Title.Text), Harm: withQuantities(h.Harm.Text), Avoid: withQuantities(h.Avoid.Text), Defer: withQuantities(h.Defer.Text)}
		b.hazards[h.Name] = view
		b.shown["hazard:"+h.Name] = b.part("hazard", view)
		b.shown["brief:"+h.Name] = b.part("hazard-brief", view)
	}
	for _, s := range library.Catalogue.Stops {
		b.shown["stop:"+s.Name] = b.part("stop", stopView(s))
	}
	for _, m := range library.Machines {
		b.ladders[m.Name] = drawn.RungsOf(library, m)
	}
	b.ladders[""] = drawn.RungsOf(library, nil)
	return b
}

func stopView(s *load.Stop) StopView {
	return StopView{Title: withQuantities(s.Title.Text), Who: withQuantities(strings.TrimSuffix(s.Who.Text, ".")), Why: withQuantities(s.Why.Text)}
}

// part executes a template whose data is always of the right shape; a failure is a
// mistake in the templates, which the tests meet.
func (b *book) part(name string, data any) template.HTML {
	return written(func(out *memory) {
		if err := b.templates.ExecuteTemplate(out, name, data); err != nil {
			panic("template " + name + ": " + err.Error())
		}
	})
}

// jobs lists every page of the site.
func (b *book) jobs() []job {
	jobs := []job{{"", (*page).home}}
	for _, section := range sections {
		jobs = append(jobs, job{section.address, func(p *page) error { return p.index(section) }})
	}
	for _, g := range b.library.Guides {
		if g.Path() != homePage {
			jobs = append(jobs, job{addressOf(g), func(p *page) error { return p.guideText(g) }})
		}
	}
	for _, c := range calculators() {
		jobs = append(jobs, job{"calculators/" + c.ID + "/", func(p *page) error { return p.reference(c) }})
	}
	for _, m := range b.library.Machines {
		jobs = append(jobs, job{"machines/" + m.Name + "/", func(p *page) error { return p.machine(m) }})
	}
	if b.library.Triage.Usable() {
		jobs = append(jobs, job{triagePage, (*page).triage}, job{triageSheet, (*page).triageSheet})
	}
	jobs = append(jobs, job{searchPage, (*page).search})
	jobs = append(jobs, b.writing()...)
	return append(jobs, job{"404.html", (*page).missing})
}

func (b *book) run(j job) (File, error) {
	p := &page{book: b, address: j.path, root: strings.Repeat("../", strings.Count(j.path, "/"))}
	p.lend()
	defer p.giveBack()
	if err := j.make(p); err != nil {
		return File{}, err
	}
	path := j.path
	if !strings.HasSuffix(path, ".html") {
		path += "index.html"
	}
	return File{Path: path, Bytes: unbroken(p.out.Bytes())}, nil
}

// The two pages of content that have an address of their own.
const (
	homePage   = "pages/home"
	recordPage = "pages/record"
)

// addressOf is where a guide is published, relative to the root.
func addressOf(g *guide.Guide) string {
	switch g.Path() {
	case homePage:
		return ""
	case recordPage:
		return "record/"
	}
	return g.Path() + "/"
}
