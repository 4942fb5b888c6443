package guide

import (
	"slices"

	"github.com/yuin/goldmark/ast"

	"blankoff/build/source"
)

// shaper turns the plain Markdown tree of a page into the tree of a guide.
type shaper struct {
	guide  *Guide
	file   *source.File
	body   []byte
	faults []source.Fault
	pieces []*ast.Text // memory of searchText
}

func (s *shaper) refuse(rule string, span source.Span, message, hint string) {
	s.faults = append(s.faults, source.Fault{Rule: rule, Span: span, Message: message, Hint: hint})
}

// shape works from the inside out: first links and blocks, then steps that hold them, then
// the page's lists of what it holds.
func (s *shaper) shape() {
	found := s.gather(ast.KindLink, ast.KindParagraph, ast.KindTextBlock, ast.KindFencedCodeBlock, ast.KindHeading)
	for _, n := range found[ast.KindLink] {
		s.shapeFact(n.(*ast.Link))
	}
	for _, n := range append(found[ast.KindParagraph], found[ast.KindTextBlock]...) {
		s.shapeDrawing(n)
		s.shapeNotices(n)
	}
	for _, n := range found[ast.KindFencedCodeBlock] {
		s.shapeCalculator(n.(*ast.FencedCodeBlock))
		s.shapeExample(n.(*ast.FencedCodeBlock))
		s.noteLog(n.(*ast.FencedCodeBlock))
	}
	s.shapeSections(found[ast.KindHeading])
	s.shapeSteps()
	s.collect()
}

// gather lists the nodes of some kinds, so that the tree may change while they are gone through.
func (s *shaper) gather(kinds ...ast.NodeKind) map[ast.NodeKind][]ast.Node {
	found := map[ast.NodeKind][]ast.Node{}
	_ = ast.Walk(s.guide.Doc, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if entering && slices.Contains(kinds, n.Kind()) {
			found[n.Kind()] = append(found[n.Kind()], n)
		}
		return ast.WalkContinue, nil
	})
	return found
}

// shapeSections names all headings and gathers what stands below each of the second level.
func (s *shaper) shapeSections(found []ast.Node) {
	names := anchors{}
	headings := map[ast.Node]*Heading{}
	for _, n := range found {
		h := &Heading{Node: n.(*ast.Heading), Level: n.(*ast.Heading).Level, Text: plain(n, s.body), Span: blockPlace(n, s.file)}
		h.ID = names.take(h.Text)
		n.SetAttributeString("id", []byte(h.ID))
		headings[n] = h
		s.guide.Headings = append(s.guide.Headings, h)
	}
	var section *Section
	for n := s.guide.Doc.FirstChild(); n != nil; n = n.NextSibling() {
		if h := headings[n]; h != nil && h.Level == 2 {
			section = &Section{Heading: h, Title: h.Text, ID: h.ID}
			s.guide.Sections = append(s.guide.Sections, section)
			continue
		}
		if section != nil {
			section.Nodes = append(section.Nodes, n)
		} else if headings[n] == nil {
			s.guide.Summary = append(s.guide.Summary, n)
		}
	}
}

// HoldsSteps tells whether the ordered lists of a section are steps.
func (s *Section) HoldsSteps() bool { return s.ID == "steps" || s.ID == "checks" }

func (s *shaper) shapeSteps() {
	var written []writtenNumber
	for _, section := range s.guide.Sections {
		if !section.HoldsSteps() {
			continue
		}
		found := false
		for i, n := range section.Nodes {
			if list, ok := n.(*ast.List); ok && list.IsOrdered() {
				for _, item := range children(list) {
					written = append(written, s.numberOf(item))
				}
				section.Nodes[i] = s.stepList(list)
				found = true
			}
		}
		if !found {
			s.refuse("steps", section.Heading.Span, "the section "+source.Quote(section.Title)+" has no numbered list",
				"write each step as `1. What to do.` with bullets `- Expect: …` and `- If not: …` indented below it")
		}
		s.strayParts(section)
	}
	s.checkNumbers(written)
}

func (s *shaper) stepList(list *ast.List) *StepList {
	steps := &StepList{}
	steps.SetPos(list.Pos())
	for _, item := range children(list) {
		step := s.step(item)
		step.Number = len(s.guide.Steps) + 1
		s.guide.Steps = append(s.guide.Steps, step)
		steps.AppendChild(steps, step)
	}
	list.Parent().ReplaceChild(list.Parent(), list, steps)
	return steps
}

// step sorts the blocks of a list item into the parts of a step.
func (s *shaper) step(item ast.Node) *Step {
	step := &Step{Rest: &Rest{}, Span: blockPlace(item, s.file)}
	step.SetPos(item.Pos())
	for _, block := range children(item) {
		switch b := block.(type) {
		case *HazardRef:
			if step.Action != nil {
				b.Late = true
				step.Rest.AppendChild(step.Rest, b)
				continue
			}
			step.Hazards = append(step.Hazards, b)
			step.AppendChild(step, b)
		case *ast.List:
			s.bullets(step, b)
		default:
			if step.Action == nil && isText(b) {
				step.Action = &Action{Span: blockPlace(b, s.file)}
				step.Action.AppendChild(step.Action, b)
				step.Span = step.Action.Span
				continue
			}
			step.Rest.AppendChild(step.Rest, b)
		}
	}
	s.assemble(step)
	return step
}

// assemble hangs the parts into the step in their fixed order.
func (s *shaper) assemble(step *Step) {
	if step.Action != nil {
		step.AppendChild(step, step.Action)
	}
	for _, n := range step.Expects {
		step.AppendChild(step, n)
	}
	for _, n := range step.IfNots {
		step.AppendChild(step, n)
	}
	if step.Rest.HasChildren() {
		step.AppendChild(step, step.Rest)
	} else {
		step.Rest = nil
	}
}

func isText(n ast.Node) bool {
	return n.Kind() == ast.KindParagraph || n.Kind() == ast.KindTextBlock
}

// bullets takes "Expect:" and "If not:" out of a list; what remains stays a list in Rest.
func (s *shaper) bullets(step *Step, list *ast.List) {
	for _, item := range children(list) {
		first := item.FirstChild()
		if list.IsOrdered() || first == nil || !isText(first) {
			continue
		}
		span := blockPlace(first, s.file)
		switch {
		case s.cutWord(first, "expect:"):
			part := &Expect{Span: span}
			adopt(part, item)
			step.Expects = append(step.Expects, part)
		case s.cutWord(first, "if not:"):
			part := &IfNot{Span: span}
			adopt(part, item)
			s.endingStop(part, first)
			step.IfNots = append(step.IfNots, part)
		default:
			continue
		}
		list.RemoveChild(list, item)
	}
	if list.HasChildren() {
		step.Rest.AppendChild(step.Rest, list)
	}
}

// collect walks the finished tree once and lists what the page holds.
func (s *shaper) collect() {
	var step *Step
	_ = ast.Walk(s.guide.Doc, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if here, ok := n.(*Step); ok {
			step = nil
			if entering {
				step = here
			}
			return ast.WalkContinue, nil
		}
		if entering {
			s.searchText(n) // before its children are walked: quantities are among them then
			s.take(n, step)
		}
		return ast.WalkContinue, nil
	})
}

func (s *shaper) take(n ast.Node, step *Step) {
	g := s.guide
	switch n := n.(type) {
	case *Fact:
		n.Step = step
		g.Facts = append(g.Facts, n)
	case *Quantity:
		n.Step = step
		g.Quantities = append(g.Quantities, n)
	case *HazardRef:
		n.Step = step
		n.Late = step != nil && n.Parent() != ast.Node(step)
		g.HazardRefs = append(g.HazardRefs, n)
	case *StopRef:
		if n.Step = step; step != nil {
			step.Stops = append(step.Stops, n)
		}
		g.StopRefs = append(g.StopRefs, n)
	case *CalculatorBlock:
		n.Index = len(g.Calculators) + 1
		if n.Step = step; step != nil {
			step.Calculators = append(step.Calculators, n)
		}
		g.Calculators = append(g.Calculators, n)
	case *Drawing:
		s.checkDrawing(n)
	case *ast.HTMLBlock:
		g.RawHTML = append(g.RawHTML, blockPlace(n, s.file))
	case *ast.RawHTML:
		if n.Segments.Len() > 0 {
			g.RawHTML = append(g.RawHTML, s.file.Span(n.Segments.At(0).Start, n.Segments.At(n.Segments.Len()-1).Stop))
		}
	default:
		s.takeLink(n)
	}
}

func children(n ast.Node) []ast.Node {
	var list []ast.Node
	for child := n.FirstChild(); child != nil; child = child.NextSibling() {
		list = append(list, child)
	}
	return list
}

// adopt moves all children of one node to another.
func adopt(parent, from ast.Node) {
	for _, child := range children(from) {
		parent.AppendChild(parent, child)
	}
}
