// Package publish is the way from a content folder to the files of a site: load, verify, render, minify, and the
// service worker last, since it knows them all. It writes nothing; see package write.
//
//	result, err := publish.Site(ctx, os.DirFS("content"), publish.Options{Name: "content", Calculators: true})
//	if err == nil && result.Good() {
//		err = write.Swap("out", result.Files)
//	}
package publish

import (
	"context"
	"io/fs"
	"slices"
	"strings"
	"time"

	"blankoff/build/bundle"
	"blankoff/build/diagnostic"
	"blankoff/build/edition"
	"blankoff/build/fault"
	"blankoff/build/load"
	"blankoff/build/render"
	"blankoff/build/schema"
	"blankoff/build/search"
	"blankoff/build/verify"
	"blankoff/calc"
	"blankoff/site"
)

// Options of Site.
type Options struct {
	Name        string    // of the content folder, as messages call it
	Today       time.Time // decides whether reviews are due; it does not change the site
	Calculators bool      // compile the WebAssembly, which needs the Go tool
	Live        bool      // the author's preview
}

// Result is a site, or why there is none.
type Result struct {
	Files       []bundle.File // none if the content has errors
	Counts      Counts
	Diagnostics []diagnostic.Diagnostic // sorted
}

// Counts is what the summary tells.
type Counts struct {
	Pages       int // HTML pages
	Calculators int // declared
	Placed      int // calculators within guides
	Facts       int // values in the text that were compared with data or a calculation
	Hazards     int // hazards that guides carry, each guide's own
	Bytes       int // of all files
	CalcRaw     int // WebAssembly as it runs
	CalcStored  int // WebAssembly as it is sent
}

// Good says that there is a site.
func (r Result) Good() bool {
	faults, _ := diagnostic.Count(r.Diagnostics)
	return faults == 0
}

// Site publishes the content at the root of a file system. The error is about what no author can mend in the content:
// a folder that cannot be read, a missing tool.
func Site(ctx context.Context, content fs.FS, options Options) (Result, error) {
	library, found, err := load.Load(content, options.Name)
	if err != nil {
		return Result{}, err
	}
	more, checked := verify.Check(library, options.Today)
	result := Result{Diagnostics: diagnostic.Sorted(append(found, more...))}
	if !result.Good() {
		return result, nil
	}
	parts, err := bundle.Make(ctx, site.Files, bundle.Options{
		Calculators: options.Calculators, Live: options.Live, Shop: library.Shop.Name.Text,
	})
	if err != nil {
		return result, err
	}
	pageAssets := assets(parts)
	entries, err := minifier().Bytes("text/html", render.Entries())
	if err != nil {
		return result, err
	}
	pageAssets.Entries = parts.Add("entries", ".txt", entries)
	if pageAssets.Model, err = faultModel(library.Triage, &parts); err != nil {
		return result, err
	}
	pages, err := render.Pages(library, pageAssets)
	if err != nil {
		return result, err
	}
	result.Files, err = assemble(ctx, pages, parts, library)
	result.Counts = count(checked, parts, result.Files)
	return result, err
}

// These stand in the pages for names that follow from them: of the edition, of the index of the search, and of pictures in other units.
const (
	unnamed      = "edition-name-to-come"
	unnamedIndex = "name-of-the-search-index-to-come"
	unnamedScale = "name-of-the-file-of-scales-to-come"
)

func assets(parts bundle.Parts) render.Assets {
	return render.Assets{
		Style: parts.Style, Below: parts.Below, Bar: parts.Bar, Lists: parts.Lists, Pictures: parts.Pictures, Desk: parts.Desk, Drawn: parts.Drawn, Triage: parts.Triage, Search: parts.Search, Index: unnamedIndex, Wide: parts.Wide, Print: parts.Print, Script: parts.Script, Calc: parts.Calc, Icon: parts.Icon, Signs: parts.Signs, Manifest: parts.Manifest,
		Edition: unnamed, Scales: unnamedScale, Choices: bundle.Choices,
	}
}

// faultModel adds the numbers of the fault model, as the calculators read them, and gives the name of their file.
func faultModel(model *fault.Model, parts *bundle.Parts) (string, error) {
	if !model.Usable() {
		return "", nil
	}
	text, err := model.Text()
	if err != nil {
		return "", err
	}
	return parts.Add("triage", ".txt", []byte(text)), nil
}

// assemble puts the edition together; its files come in the order of their paths.
func assemble(ctx context.Context, pages []render.File, parts bundle.Parts, library *load.Library) ([]bundle.File, error) {
	files, err := minified(ctx, pages)
	if err != nil {
		return nil, err
	}
	for _, file := range files {
		if strings.HasPrefix(file.Path, render.ScalesName+".") {
			nameThe(files, unnamedScale, file.Path)
		}
	}
	index, err := search.Make(files, library.Words.Same())
	if err != nil {
		return nil, err
	}
	nameThe(files, unnamedIndex, parts.Add("search", ".bin", index))
	for _, picture := range library.Pictures {
		files = append(files, bundle.File{Path: picture.Path, Bytes: picture.Data})
	}
	files = append(append(append(files, schema.Files()...), formulas()...), parts.Files...)
	name := edition.Of(files).Edition
	nameThe(files, unnamed, name)
	record := edition.Of(files)
	record.Edition = name
	list, worker, err := bundle.ServiceWorker(site.Files, forReaders(record))
	if err != nil {
		return nil, err
	}
	files = append(files, list, worker, record.With(list).With(worker).File())
	sortByPath(files)
	return files, nil
}

// formulas are the calculators' formulas as text: a record of work keeps the one that gave a result.
func formulas() (files []bundle.File) {
	for _, c := range calc.All() {
		files = append(files, bundle.File{Path: "calculators/" + c.ID + "/formula.txt", Bytes: []byte(strings.Join(c.Formula, "\n") + "\n")})
	}
	return files
}

// forReaders leaves out what only authors use: a phone need not keep it.
func forReaders(record edition.Record) edition.Record {
	record.Files = slices.DeleteFunc(slices.Clone(record.Files), func(pair [2]string) bool { return strings.HasPrefix(pair[0], schema.Folder) })
	return record
}

func count(checked verify.Counts, parts bundle.Parts, files []bundle.File) Counts {
	counts := Counts{
		Calculators: len(calc.All()), Placed: checked.Calculators, Facts: checked.Facts, Hazards: checked.Hazards,
		CalcRaw: parts.CalcRaw, CalcStored: parts.CalcStored,
	}
	for _, file := range files {
		counts.Bytes += len(file.Bytes)
		if isPage(file.Path) {
			counts.Pages++
		}
	}
	return counts
}
