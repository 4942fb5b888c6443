// Package bundle turns what lies in site/ and wasm/ into the files that a browser gets: script, style, calculators,
// icons, manifest and service worker. Names carry a digest of the content, so a page can never meet the wrong one.
//
//	parts, err := bundle.Make(ctx, site.Files, bundle.Options{Calculators: true})
//	files := append(pages, parts.Files...)
//	list, worker, err := bundle.ServiceWorker(site.Files, edition.Of(files))
package bundle

import (
	"context"
	"fmt"
	"io/fs"

	"blankoff/build/edition"
)

// File is one file of the site.
type File = edition.File

// Options of Make. The zero value makes a site without calculators that run.
type Options struct {
	Calculators bool // build wasm/, which needs the Go tool
	Live        bool // the author's preview: pages load again after a rebuild
	Shop        string
}

// Parts are the files beside the pages, and the names under which pages refer to them.
type Parts struct {
	Files               []File
	Pictures            string // not a name: the style sheet within pictures that are files of their own
	Style, Wide, Print  string // of every screen, and what wide ones and printers need besides
	Below               string // of what stands below the first view of a page; linked in the text
	Lists               string // of lists of pages
	Desk                string // what reference pages and examples need besides
	Triage              string // what the page of the fault model needs besides
	Search              string // what the search page needs besides
	Drawn               string // what pictures drawn from data need besides; linked where the first of a page stands
	Script, Calc        string
	Icon, Manifest      string
	Signs               string // drawings that all pages share
	CalcRaw, CalcStored int    // bytes of the WebAssembly as it runs and as it is stored
}

// Make gives all parts whose content does not depend on the pages.
func Make(ctx context.Context, site fs.FS, options Options) (Parts, error) {
	var parts Parts
	entry := `import "./page";`
	if options.Live {
		entry += `import "./live";`
	}
	script, lazy, err := Script(site, entry)
	if err != nil {
		return parts, err
	}
	parts.Script = parts.Add("page", ".js", script)
	parts.Files = append(parts.Files, lazy...)
	for _, sheet := range []struct {
		file string
		name *string
	}{{"look", &parts.Style}, {"below", &parts.Below}, {"lists", &parts.Lists}, {"desk", &parts.Desk}, {"drawn", &parts.Drawn}, {"wide", &parts.Wide}, {"print", &parts.Print}, {"triage", &parts.Triage}, {"search", &parts.Search}} {
		style, err := Style(site, sheet.file+".css")
		if err != nil {
			return parts, err
		}
		*sheet.name = parts.Add(sheet.file, ".css", style)
	}
	pictures, err := PictureStyle(site)
	if err != nil {
		return parts, err
	}
	small, err := smallStyle("drawn.css", pictures)
	if err != nil {
		return parts, err
	}
	parts.Pictures = string(small)
	if err := parts.sign(site, options.Shop); err != nil {
		return parts, err
	}
	if options.Calculators {
		module, err := WebAssembly(ctx)
		if err != nil {
			return parts, err
		}
		parts.Calc = parts.Add("calc", ".bin", module.Stored)
		parts.CalcRaw, parts.CalcStored = module.Raw, len(module.Stored)
	}
	return parts, nil
}

// Add puts a file among the parts, under a name that carries its digest.
func (p *Parts) Add(name, suffix string, content []byte) string {
	path := digested(name, suffix, content)
	p.Files = append(p.Files, File{Path: path, Bytes: content})
	return path
}

func digested(name, suffix string, content []byte) string {
	return name + "." + edition.Short(content) + suffix
}

// fault is about a file of the program itself.
func fault(name string, err error) error {
	return fmt.Errorf("site/%s: error: %w", name, err)
}
