package render

import (
	"html/template"
	"strings"
	"unicode/utf8"
)

// form is a template executed once, with marks in place of the texts that differ from one use to the next. To fill it in
// costs a tenth of executing the template again, and all pages consist of the same few parts.
//
// Marks are characters of a private range of Unicode. What an author writes may hold them, so it must come in by a slot
// and never stand in the form itself; no declaration and no template holds one.
type form struct {
	pieces []string // of the template; after each but the last comes
	slots  []int    // the text with this number
}

// formKey is what the pieces of a form depend on.
type formKey struct {
	name    string // of the template
	fixed   any    // whatever else the template shows or asks for: of few kinds, and comparable
	present string // which of the texts are not empty
}

// fillIn writes the named template with its view. texts point at the parts of the view that differ from use to use: a
// *string between tags or in a quoted attribute that is no address, a *template.HTML, or a list of HTML that the template
// shows with nothing in between. The view must be a pointer.
func (b *book) fillIn(out *memory, name string, view, fixed any, texts ...any) {
	present := make([]byte, len(texts))
	for i, text := range texts {
		if !empty(text) {
			present[i] = 1
		}
	}
	key := formKey{name, fixed, string(present)}
	kept, found := b.forms.Load(key)
	if !found {
		kept = b.newForm(name, view, texts)
		b.forms.Store(key, kept)
	}
	f := kept.(form)
	for i, slot := range f.slots {
		out.WriteString(f.pieces[i])
		out.put(texts[slot])
	}
	out.WriteString(f.pieces[len(f.slots)])
}

func empty(text any) bool {
	switch text := text.(type) {
	case *string:
		return *text == ""
	case *template.HTML:
		return *text == ""
	}
	return len(*text.(*[]template.HTML)) == 0
}

func (m *memory) put(text any) {
	switch text := text.(type) {
	case *string:
		m.WriteString(template.HTMLEscapeString(*text))
	case *template.HTML:
		m.WriteString(string(*text))
	case *[]template.HTML:
		for _, html := range *text {
			m.WriteString(string(html))
		}
	}
}

const firstMark = '\uE000'

// newForm executes the template with marks in the view and cuts it at them.
func (b *book) newForm(name string, view any, texts []any) form {
	for i, text := range texts {
		if !empty(text) {
			defer mark(text, string(firstMark+rune(i)))()
		}
	}
	var f form
	rest := string(b.part(name, view))
	isMark := func(r rune) bool { return r >= firstMark && r < firstMark+rune(len(texts)) }
	for at := strings.IndexFunc(rest, isMark); at >= 0; at = strings.IndexFunc(rest, isMark) {
		found, size := utf8.DecodeRuneInString(rest[at:])
		f.pieces = append(f.pieces, rest[:at])
		f.slots = append(f.slots, int(found-firstMark))
		rest = rest[at+size:]
	}
	f.pieces = append(f.pieces, rest)
	return f
}

// mark puts a mark in place of a text until it is undone.
func mark(text any, mark string) (undo func()) {
	switch text := text.(type) {
	case *string:
		said := *text
		*text = mark
		return func() { *text = said }
	case *template.HTML:
		said := *text
		*text = template.HTML(mark)
		return func() { *text = said }
	}
	list := text.(*[]template.HTML)
	said := *list
	*list = []template.HTML{template.HTML(mark)}
	return func() { *list = said }
}
