package guide

import (
	"github.com/yuin/goldmark/ast"

	"blankoff/build/source"
)

// Kinds of the nodes that stand in the tree in place of plain Markdown.
var (
	KindStepList        = ast.NewNodeKind("StepList")
	KindStep            = ast.NewNodeKind("Step")
	KindAction          = ast.NewNodeKind("Action")
	KindExpect          = ast.NewNodeKind("Expect")
	KindIfNot           = ast.NewNodeKind("IfNot")
	KindRest            = ast.NewNodeKind("Rest")
	KindHazardRef       = ast.NewNodeKind("HazardRef")
	KindStopRef         = ast.NewNodeKind("StopRef")
	KindCalculatorBlock = ast.NewNodeKind("CalculatorBlock")
	KindFact            = ast.NewNodeKind("Fact")
)

// StepList replaces an ordered list under "Steps" or "Checks". Its children are Steps.
type StepList struct{ ast.BaseBlock }

// Step is one step. Its children, in this order: the HazardRefs before the action, Action (if
// there is one), each Expect, each IfNot, Rest (if there is any). The fields point at the same nodes.
type Step struct {
	ast.BaseBlock
	Number      int         // counted through the whole page; the anchor is step-NUMBER
	Span        source.Span // of the action's text
	Hazards     []*HazardRef
	Action      *Action
	Expects     []*Expect
	IfNots      []*IfNot
	Rest        *Rest
	Stops       []*StopRef         // anywhere in the step
	Calculators []*CalculatorBlock // anywhere in the step
}

// Action holds what to do: the step's first paragraph, as a TextBlock or a Paragraph.
type Action struct {
	ast.BaseBlock
	Span source.Span
}

// Expect holds what a bullet "Expect: …" says, without the word. Mostly one TextBlock.
type Expect struct {
	ast.BaseBlock
	Span source.Span
}

// IfNot holds what a bullet "If not: …" says, without the words; a StopRef at the
// end of its line has become a child block after the text.
type IfNot struct {
	ast.BaseBlock
	Span source.Span
}

// Rest holds all other blocks of a step in the order of the text: calculators, tables, paragraphs, bullets.
type Rest struct{ ast.BaseBlock }

// HazardRef replaces a paragraph that holds nothing but a hazard: link. No children:
// what to show is in the catalogue.
type HazardRef struct {
	ast.BaseBlock
	Name     string
	NameSpan source.Span
	Said     string // as the author wrote it, signal word first
	SaidSpan source.Span
	Step     *Step // nil outside steps
	Late     bool  // stands after the action of its step
}

// StopRef replaces a paragraph that holds nothing but a stop: link. No children.
type StopRef struct {
	ast.BaseBlock
	Name     string
	NameSpan source.Span
	Said     string
	SaidSpan source.Span
	Step     *Step // nil outside steps
}

// CalculatorBlock replaces a fenced block with the info string `calculator ID`. No children.
type CalculatorBlock struct {
	ast.BaseBlock
	Index   int // from 1 through the whole page: the element's id is cINDEX
	ID      string
	IDSpan  source.Span
	Presets []Preset
	Step    *Step // nil outside steps
}

// Preset is one input of a calculator with the text written for it.
type Preset struct {
	Name     string
	NameSpan source.Span
	Text     string // as written; spec:NAME when Spec is set
	Span     source.Span
	Spec     *SpecRef
}

// SpecRef names a value of the machine data.
type SpecRef struct {
	Machine string // "" means every machine in the header
	Name    string
	Span    source.Span
}

// Fact replaces a link with the scheme spec: or calc:. Its children are the link's text.
type Fact struct {
	ast.BaseInline
	Said     string
	SaidSpan source.Span // inside the brackets
	Target   string
	Span     source.Span // of the target
	Spec     *SpecRef    // for spec:
	Calc     *CalcRef    // for calc:
	Step     *Step       // nil outside steps
}

// CalcRef is a calculation: calc:ID?input=text&…&out=NAME.
type CalcRef struct {
	ID      string
	IDSpan  source.Span
	Inputs  []Preset
	Out     string // "" means the calculator's first output
	OutSpan source.Span
}

// Link is a link to another place, or a picture.
type Link struct {
	Node     ast.Node
	Target   string // as a browser would read it
	Span     source.Span
	Text     string
	TextSpan source.Span
	Picture  bool
	Auto     bool // written <target>, without a text
}

// Kind implements ast.Node.
func (*StepList) Kind() ast.NodeKind { return KindStepList }

// Kind implements ast.Node.
func (*Step) Kind() ast.NodeKind { return KindStep }

// Kind implements ast.Node.
func (*Action) Kind() ast.NodeKind { return KindAction }

// Kind implements ast.Node.
func (*Expect) Kind() ast.NodeKind { return KindExpect }

// Kind implements ast.Node.
func (*IfNot) Kind() ast.NodeKind { return KindIfNot }

// Kind implements ast.Node.
func (*Rest) Kind() ast.NodeKind { return KindRest }

// Kind implements ast.Node.
func (*HazardRef) Kind() ast.NodeKind { return KindHazardRef }

// Kind implements ast.Node.
func (*StopRef) Kind() ast.NodeKind { return KindStopRef }

// Kind implements ast.Node.
func (*CalculatorBlock) Kind() ast.NodeKind { return KindCalculatorBlock }

// Kind implements ast.Node.
func (*Fact) Kind() ast.NodeKind { return KindFact }

// Dump implements ast.Node, as do the methods below.
func (n *StepList) Dump(source []byte, level int) { ast.DumpHelper(n, source, level, nil, nil) }

// Dump implements ast.Node.
func (n *Step) Dump(source []byte, level int) { ast.DumpHelper(n, source, level, nil, nil) }

// Dump implements ast.Node.
func (n *Action) Dump(source []byte, level int) { ast.DumpHelper(n, source, level, nil, nil) }

// Dump implements ast.Node.
func (n *Expect) Dump(source []byte, level int) { ast.DumpHelper(n, source, level, nil, nil) }

// Dump implements ast.Node.
func (n *IfNot) Dump(source []byte, level int) { ast.DumpHelper(n, source, level, nil, nil) }

// Dump implements ast.Node.
func (n *Rest) Dump(source []byte, level int) { ast.DumpHelper(n, source, level, nil, nil) }

// Dump implements ast.Node.
func (n *HazardRef) Dump(source []byte, level int) {
	ast.DumpHelper(n, source, level, map[string]string{"Name": n.Name}, nil)
}

// Dump implements ast.Node.
func (n *StopRef) Dump(source []byte, level int) {
	ast.DumpHelper(n, source, level, map[string]string{"Name": n.Name}, nil)
}

// Dump implements ast.Node.
func (n *CalculatorBlock) Dump(source []byte, level int) {
	ast.DumpHelper(n, source, level, map[string]string{"ID": n.ID}, nil)
}

// Dump implements ast.Node.
func (n *Fact) Dump(source []byte, level int) {
	ast.DumpHelper(n, source, level, map[string]string{"Target": n.Target}, nil)
}
