package load

import (
	"strings"

	"blankoff/build/guide"
	"blankoff/build/parallel"
	"blankoff/build/source"
)

// unread is a page that is still to be read.
type unread struct {
	at   string
	kind guide.Kind
}

// pages gives the reader for the Markdown files of one kind. It only notes them, see parse.
func pages(kind guide.Kind) func(*loader, string) error {
	return func(l *loader, at string) error {
		l.unread = append(l.unread, unread{at, kind})
		return nil
	}
}

// parse reads and parses all pages at once; no page needs another for that.
func (l *loader) parse() error {
	type page struct {
		reading
		guide  *guide.Guide
		faults []source.Fault
	}
	pages := make([]page, len(l.unread))
	parallel.Each(len(pages), func(i int) {
		p := &pages[i]
		if p.reading = l.read(l.unread[i].at); p.usable() {
			p.guide, p.faults = guide.Parse(p.file, l.unread[i].kind)
		}
	})
	for _, p := range pages {
		if usable, err := l.take(p.reading); err != nil {
			return err
		} else if usable {
			l.add(p.faults...)
			l.library.addGuide(p.guide)
		}
	}
	return nil
}

// mapping reads a YAML file and hands it on.
func (l *loader) mapping(at string, read func(*loader, *source.File, *source.Mapping)) error {
	yaml := l.read(at)
	if usable, err := l.take(yaml); err != nil || !usable {
		return err
	}
	file := yaml.file
	whole := file.Span(len(file.Text)-len(strings.TrimPrefix(file.Text, "\ufeff")), len(file.Text))
	mapping, faults := source.ParseMapping(file, whole)
	l.add(faults...)
	if len(faults) > 0 && len(mapping.Entries) == 0 {
		read(l, file, nil) // one message is enough for a file that cannot be read
		return nil
	}
	read(l, file, mapping)
	return nil
}

func text(m *source.Mapping, key string) Text {
	v := m.Text(key)
	return Text{Text: v.Text, Span: v.Span}
}

func (l *loader) check(m *source.Mapping, what string, fields []source.Field) {
	if m != nil {
		l.add(m.Faults(what, fields)...)
	}
}

// named reads a mapping of plain names to texts.
func (l *loader) named(m *source.Mapping, what string) []Named {
	var list []Named
	if m == nil {
		return nil
	}
	for _, e := range m.Entries {
		switch {
		case !source.PlainName(e.Key):
			l.refuse("name", e.KeySpan, "the name "+source.Quote(e.Key)+" of "+what+" cannot be used in links", "use lower-case words with hyphens: "+source.SuggestName(e.Key))
		case e.Value.Shape != source.Text:
			l.refuse("shape", e.Value.Span, e.Key+" holds "+e.Value.Shape.String()+", not a text", "write it as `"+e.Key+": 24.0 L`")
		default:
			list = append(list, Named{Name: e.Key, NameSpan: e.KeySpan, Text: Text{Text: e.Value.Text, Span: e.Value.Span}})
		}
	}
	return list
}
