// Package guide reads one Markdown page: its YAML header, and its body as a goldmark tree in
// which steps, hazards, stops, calculators and checked facts are nodes of their own
// (nodes.go tells each). It says what cannot be read; whether what was read is
// true and complete is verified elsewhere.
//
//	page, faults := guide.Parse(file, guide.Procedure)
//	html := guide.Markdown(goldmark.WithRendererOptions(…)).Renderer()
//	html.Render(w, page.Source, page.Doc)
package guide

import (
	"path"
	"strings"

	"github.com/yuin/goldmark/ast"

	"blankoff/build/source"
)

// Kind is what a page is for; it follows from the folder.
type Kind string

// The kinds of pages, named as their folders.
const (
	Procedure Kind = "procedures"
	Symptom   Kind = "symptoms"
	Page      Kind = "pages"
)

// Readers are those for whom a page can be written.
var Readers = []string{"customer", "technician", "shop"}

// Text is a word or sentence of the header with its place.
type Text struct {
	Text string
	Span source.Span
}

// Guide is one page.
type Guide struct {
	File *source.File
	Kind Kind
	Name string // of the file, without .md: the last part of the address

	Header   *source.Mapping // all keys as written; its Span is the --- line
	Title    Text
	Reader   Text
	Time     Text
	People   Text
	Revision Text
	Approver Text
	Review   Text
	Machines []Text
	Families []Text // the page covers every machine of these too
	Does     []Text
	Parts    []Text // of the machine, with rules of their own about what must not be done to them
	Tools    []Text
	Supplies []Text
	Spares   []Text

	Doc      ast.Node
	Source   []byte // give this to the renderer with Doc; as long as the file, the header blanked
	Summary  []ast.Node
	Sections []*Section
	Steps    []*Step

	// Everything below is in the order of the text.
	Facts       []*Fact
	Quantities  []*Quantity // of the running text
	Doubts      []Doubt     // about them
	HazardRefs  []*HazardRef
	StopRefs    []*StopRef
	Calculators []*CalculatorBlock
	Links       []*Link // and pictures
	Headings    []*Heading
	Strays      []source.Span // `Expect:` and `If not:` outside of steps
	RawHTML     []source.Span
	Examples    []*ExampleBlock
	Drawings    []*Drawing
	Logs        []Log // blocks of readings that are to be drawn
}

// Section is a part of the page under a heading of the second level.
type Section struct {
	Heading *Heading
	Title   string
	ID      string // the anchor
	Nodes   []ast.Node
}

// Heading is any heading. Its node carries the attribute id.
type Heading struct {
	Node  *ast.Heading
	Level int
	Text  string
	ID    string
	Span  source.Span
}

// Path is where the page lies in the content folder, without .md: procedures/rise-test.
func (g *Guide) Path() string { return string(g.Kind) + "/" + g.Name }

// Anchors lists the places of the page that a link can name.
func (g *Guide) Anchors() []string {
	var anchors []string
	for _, h := range g.Headings {
		anchors = append(anchors, h.ID)
	}
	for _, s := range g.Steps {
		anchors = append(anchors, s.Anchor())
	}
	return anchors
}

// Section gives the section of an anchor, or nil.
func (g *Guide) Section(id string) *Section {
	for _, s := range g.Sections {
		if s.ID == id {
			return s
		}
	}
	return nil
}

// SummaryText is the summary as one plain line.
func (g *Guide) SummaryText() string {
	var parts []string
	for _, n := range g.Summary {
		if n.Kind() == ast.KindParagraph {
			parts = append(parts, plain(n, g.Source))
		}
	}
	return strings.Join(parts, " ")
}

// Parse reads a page. The guide is never nil; what could not be read is empty in it.
func Parse(file *source.File, kind Kind) (*Guide, []source.Fault) {
	g := &Guide{File: file, Kind: kind, Name: strings.TrimSuffix(path.Base(file.Path), ".md")}
	header, body, faults := source.SplitHeader(file)
	mapping, more := source.ParseMapping(file, header)
	mapping.Span = fenceSpan(file, header)
	g.readHeader(mapping)
	faults = append(faults, more...)

	g.Source = body
	if fault, bad := unreadable(file, body); bad {
		faults = append(faults, fault)
		g.Source = blanked(body)
	}
	g.Doc = parseMarkdown(g.Source)
	if fault, bad := nested(file, g.Doc); bad {
		faults = append(faults, fault)
		g.Source = blanked(body)
		g.Doc = parseMarkdown(g.Source)
	}
	s := &shaper{guide: g, file: file, body: g.Source}
	s.shape()
	return g, append(faults, s.faults...)
}

// blanked stands for a body that is not read.
func blanked(body []byte) []byte { return []byte(strings.Repeat(" ", len(body))) }

// fenceSpan is the place for what is missing in a header.
func fenceSpan(file *source.File, header source.Span) source.Span {
	line := strings.TrimRight(file.Text[:header.Start], "\r\n \t")
	if !strings.HasSuffix(line, source.Fence) {
		return file.Whole()
	}
	return file.Span(len(line)-len(source.Fence), len(line))
}

func (g *Guide) readHeader(m *source.Mapping) {
	g.Header = m
	for key, text := range map[string]*Text{
		"title": &g.Title, "reader": &g.Reader, "time": &g.Time, "people": &g.People,
		"revision": &g.Revision, "approver": &g.Approver, "review": &g.Review,
	} {
		if v := m.Text(key); v.Shape == source.Text {
			*text = Text{v.Text, v.Span}
		}
	}
	for key, list := range map[string]*[]Text{
		"machines": &g.Machines, "families": &g.Families, "does": &g.Does, "parts": &g.Parts, "tools": &g.Tools, "supplies": &g.Supplies, "spares": &g.Spares,
	} {
		for _, item := range m.Text(key).Items {
			if item.Shape == source.Text {
				*list = append(*list, Text{item.Text, item.Span})
			}
		}
	}
}
