package load

import (
	"fmt"
	"io/fs"
	"path"
	"strings"

	"blankoff/build/guide"
	"blankoff/build/parallel"
	"blankoff/build/source"
)

// unparsed is a page whose text was read.
type unparsed struct {
	file *source.File
	kind guide.Kind
}

// pages gives the reader for the Markdown files of one kind.
func pages(kind guide.Kind) func(*loader, string) error {
	return func(l *loader, at string) error {
		file, usable, err := l.text(at)
		if err == nil && usable {
			l.unparsed = append(l.unparsed, unparsed{file, kind})
		}
		return err
	}
}

// parse turns all texts into pages; no page needs another for that.
func (l *loader) parse() {
	guides, faults := make([]*guide.Guide, len(l.unparsed)), make([][]source.Fault, len(l.unparsed))
	parallel.Each(len(l.unparsed), func(i int) {
		guides[i], faults[i] = guide.Parse(l.unparsed[i].file, l.unparsed[i].kind)
	})
	for i := range guides {
		l.add(faults[i]...)
		l.library.addGuide(guides[i])
	}
}

// largestPicture is what a phone on a slow line can be asked to keep.
const largestPicture = 4 << 20

func (l *loader) picture(at string) error {
	data, err := fs.ReadFile(l.fsys, at)
	if err != nil {
		return l.unreadable(at, err)
	}
	if len(data) > largestPicture {
		l.refuse("file", l.place(at), fmt.Sprintf("the picture has %d bytes; %d is the most", len(data), largestPicture), "save it smaller: 1,600 pixels are enough")
		return nil
	}
	l.library.Pictures = append(l.library.Pictures, &Picture{Path: at, Data: data})
	return nil
}

// mapping reads a YAML file and hands it on.
func (l *loader) mapping(at string, read func(*loader, *source.File, *source.Mapping)) error {
	file, usable, err := l.text(at)
	if err != nil || !usable {
		return err
	}
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
		case !plainName(e.Key):
			l.refuse("name", e.KeySpan, "the name "+source.Quote(e.Key)+" of "+what+" cannot be used in links", "use lower-case words with hyphens: "+suggestion(e.Key))
		case e.Value.Shape != source.Text:
			l.refuse("shape", e.Value.Span, e.Key+" holds "+e.Value.Shape.String()+", not a text", "write it as `"+e.Key+": 24.0 L`")
		default:
			list = append(list, Named{Name: e.Key, NameSpan: e.KeySpan, Text: Text{Text: e.Value.Text, Span: e.Value.Span}})
		}
	}
	return list
}

var shopFields = []source.Field{
	{Key: "name", Shape: source.Text, Required: true},
	{Key: "town", Shape: source.Text},
	{Key: "altitude", Shape: source.Text, Required: true},
	{Key: "summary", Shape: source.Text, Required: true},
	{Key: "units", Shape: source.Nested},
}

func (l *loader) shop(file *source.File, m *source.Mapping) {
	l.check(m, "the shop", shopFields)
	l.library.Shop = Shop{
		File: file, Name: text(m, "name"), Town: text(m, "town"), Altitude: text(m, "altitude"), Summary: text(m, "summary"),
		Units: l.named(m.Text("units").Map, "a unit"),
	}
}

var machineFields = []source.Field{
	{Key: "title", Shape: source.Text, Required: true},
	{Key: "code", Shape: source.Text},
	{Key: "summary", Shape: source.Text, Required: true},
	{Key: "values", Shape: source.Nested, Required: true},
}

func (l *loader) machine(at string) error {
	return l.mapping(at, func(l *loader, file *source.File, m *source.Mapping) {
		l.check(m, "a machine", machineFields)
		l.library.Machines = append(l.library.Machines, &Machine{
			Name: strings.TrimSuffix(path.Base(at), ".yaml"), File: file,
			Title: text(m, "title"), Code: text(m, "code"), Summary: text(m, "summary"),
			Values: l.named(m.Text("values").Map, "a value"),
		})
	})
}
