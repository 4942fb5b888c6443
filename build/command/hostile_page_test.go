//go:build unix

package command

import (
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"unicode"

	"golang.org/x/net/html"

	"blankoff/build/bundle"
	"blankoff/build/source"
	pagesite "blankoff/site"
)

// lookForHarm reads every page and drawing of a site as a browser would (the HTML standard's parser, golang.org/x/net/html)
// and looks for what could run, load or mislead.
func lookForHarm(t *testing.T, out string) {
	t.Helper()
	site := os.DirFS(out)
	pages := 0
	err := fs.WalkDir(site, ".", func(name string, entry fs.DirEntry, err error) error {
		if entry != nil && entry.IsDir() && name == "calculators" {
			return fs.SkipDir // no content reaches these
		}
		if err != nil || entry.IsDir() || !slices.Contains([]string{".html", ".svg"}, path.Ext(name)) {
			return err
		}
		file, err := site.Open(name)
		if err != nil {
			return err
		}
		defer file.Close()
		tree, err := html.Parse(file)
		if err != nil {
			return err
		}
		pages++
		for n := range tree.Descendants() {
			if harm := harmOf(site, name, n); harm != "" {
				t.Errorf("%s: <%s>: %s", name, n.Data, harm)
			}
		}
		return nil
	})
	if err != nil || pages == 0 {
		t.Errorf("%d pages of %s read: %v", pages, filepath.Base(out), err)
	}
}

var (
	foreignElements = []string{"iframe", "object", "embed", "base", "style", "frame", "frameset", "applet", "portal", "foreignobject"}
	addresses       = []string{"href", "src", "action", "formaction", "poster", "cite", "data", "background", "ping", "srcset", "manifest", "longdesc"}
	harmlessSchemes = []string{"http", "https", "mailto", "tel"}
)

func harmOf(site fs.FS, page string, n *html.Node) string {
	if n.Type == html.TextNode && n.Parent.Data != "mo" { // MathML has operators that are not seen
		if _, r, found := source.Invisible(n.Data); found {
			return source.NameInvisible(r) + " in a text"
		}
	}
	if n.Type != html.ElementNode {
		return ""
	}
	if slices.Contains(foreignElements, strings.ToLower(n.Data)) && !isOwnLook(page, n) {
		return "does not belong in a page"
	}
	if n.Data == "script" {
		return harmOfScript(site, page, n)
	}
	for _, a := range n.Attr {
		if harm := harmOfAttribute(n, a); harm != "" {
			return a.Key + "=" + a.Val + ": " + harm
		}
	}
	return ""
}

// harmOfScript: a page has scripts from the site's own files alone.
func harmOfScript(site fs.FS, page string, n *html.Node) string {
	if n.FirstChild != nil {
		return "a script stands in the page"
	}
	for _, a := range n.Attr {
		if a.Key != "src" {
			continue
		}
		if info, err := fs.Stat(site, path.Join(path.Dir(page), a.Val)); err != nil || info.IsDir() || path.Ext(a.Val) != ".js" {
			return "the script " + a.Val + " is not ours"
		}
		return ""
	}
	return "a script without a source"
}

func harmOfAttribute(n *html.Node, a html.Attribute) string {
	key := strings.ToLower(a.Key)
	if _, r, found := source.Invisible(a.Val); found && r != '\n' {
		return source.NameInvisible(r)
	}
	switch {
	case strings.HasPrefix(key, "on"):
		return "runs something"
	case key == "style", key == "srcdoc":
		return "is not written by us"
	case key == "http-equiv" && !strings.EqualFold(a.Val, "Content-Security-Policy"):
		return "steers the browser"
	case key == "id" && a.Val == "":
		return "is empty"
	case slices.Contains(addresses, key):
		return harmOfAddress(a.Val)
	}
	return ""
}

// harmOfAddress reads a scheme as the URL standard does: white space and controls before it, tabulators and line ends in it
// count for nothing.
func harmOfAddress(address string) string {
	address = strings.TrimLeftFunc(address, func(r rune) bool { return r <= ' ' })
	address = strings.Map(func(r rune) rune {
		if unicode.IsControl(r) {
			return -1
		}
		return r
	}, address)
	scheme, _, found := strings.Cut(address, ":")
	if !found || strings.ContainsAny(scheme, "/?#") {
		if strings.HasPrefix(address, "//") || strings.HasPrefix(address, `\`) {
			return "leads to another host"
		}
		return ""
	}
	if !slices.Contains(harmlessSchemes, strings.ToLower(scheme)) {
		return "has the scheme " + scheme
	}
	return ""
}

// isOwnLook: a picture that is a file begins with the program's own style sheet, in which nothing of the content stands.
func isOwnLook(page string, n *html.Node) bool {
	look, err := bundle.PictureStyle(pagesite.Files)
	if path.Ext(page) != ".svg" || n.Data != "style" || n.PrevSibling != nil || n.FirstChild == nil || err != nil {
		return false
	}
	return len(n.FirstChild.Data) < len(look) && strings.HasPrefix(n.FirstChild.Data, ":root{color-scheme:light dark;--ink:") && !strings.Contains(n.FirstChild.Data, "url(")
}
