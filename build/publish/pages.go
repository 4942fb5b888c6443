package publish

import (
	"bytes"
	"cmp"
	"context"
	"errors"
	"fmt"
	"path"
	"slices"
	"sync"

	"github.com/tdewolff/minify/v2"
	"github.com/tdewolff/minify/v2/html"

	"blankoff/build/bundle"
	"blankoff/build/parallel"
	"blankoff/build/render"
)

// minifier keeps what style sheet and scripts look for: type="text" is a default value, but a name to them.
var minifier = sync.OnceValue(func() *minify.M {
	m := minify.New()
	m.Add("text/html", &html.Minifier{KeepDefaultAttrVals: true, KeepDocumentTags: true, KeepEndTags: true})
	return m
})

// minified gives the pages without what only people who read the source would miss.
func minified(ctx context.Context, pages []render.File) ([]bundle.File, error) {
	files := make([]bundle.File, len(pages))
	err := inParallel(ctx, len(pages), func(i int) error {
		if !isPage(pages[i].Path) {
			files[i] = pages[i]
			return nil
		}
		small, err := minifier().Bytes("text/html", pages[i].Bytes)
		if err != nil {
			return fmt.Errorf("%s: the page's HTML is faulty: %w; this is a fault in the program", pages[i].Path, err)
		}
		files[i] = bundle.File{Path: pages[i].Path, Bytes: small}
		return nil
	})
	return files, err
}

// nameThe writes a name that follows from the pages into them. All else has no place for it.
func nameThe(files []bundle.File, place, name string) {
	parallel.Each(len(files), func(i int) {
		if isPage(files[i].Path) {
			files[i].Bytes = named(files[i].Bytes, place, name)
		}
	})
}

// named works in the page's own memory, for the name is the shorter one.
func named(page []byte, place, name string) []byte {
	out := page[:0]
	for {
		at := bytes.Index(page, []byte(place))
		if at < 0 {
			return append(out, page...)
		}
		out = append(append(out, page[:at]...), name...)
		page = page[at+len(place):]
	}
}

func isPage(name string) bool { return path.Ext(name) == ".html" }

func sortByPath(files []bundle.File) {
	slices.SortFunc(files, func(a, b bundle.File) int { return cmp.Compare(a.Path, b.Path) })
}

// inParallel does each of n things once, on all processors; after an interrupt the rest is left undone.
func inParallel(ctx context.Context, n int, do func(i int) error) error {
	faults := make([]error, n)
	parallel.Each(n, func(i int) {
		if ctx.Err() == nil {
			faults[i] = do(i)
		}
	})
	return errors.Join(append(faults, ctx.Err())...)
}
