package render

import (
	"html/template"
	"path"
	"strconv"
	"strings"

	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/renderer"
	gmhtml "github.com/yuin/goldmark/renderer/html"
	"github.com/yuin/goldmark/util"

	"blankoff/build/guide"
)

// textRenderer is goldmark's HTML with our nodes in it. Making one costs as much as
// rendering a short page, so pages lend it from each other.
type textRenderer struct {
	renderer.Renderer
	nodes nodes
	out   memory // for the whole page
}

// lend takes a renderer for this page; giveBack must follow.
func (p *page) lend() {
	r, ok := p.renderers.Get().(*textRenderer)
	if !ok {
		r = &textRenderer{}
		own := renderer.WithNodeRenderers(util.Prioritized(&r.nodes, 100))
		r.Renderer = guide.Markdown(goldmark.WithRendererOptions(own)).Renderer()
	}
	r.out.Reset()
	r.nodes.page, p.markdown, p.out = p, r, &r.out
}

func (p *page) giveBack() {
	p.markdown.nodes.page = nil
	p.renderers.Put(p.markdown)
	p.markdown, p.out = nil, nil
}

// text renders nodes of the page's guide to HTML.
func (p *page) text(list ...ast.Node) template.HTML {
	return written(func(out *memory) { p.render(out, list) })
}

func (p *page) render(out *memory, list []ast.Node) {
	for _, n := range list {
		// Writing to memory cannot fail, and no node renderer of ours returns an error.
		_ = p.markdown.Render(out, p.guide.Source, n)
	}
}

// nodes renders what plain Markdown does not know, and links, which need addresses.
type nodes struct{ page *page }

// RegisterFuncs implements goldmark's renderer.NodeRenderer.
func (n *nodes) RegisterFuncs(r renderer.NodeRendererFuncRegisterer) {
	r.Register(guide.KindStepList, n.stepList)
	r.Register(guide.KindStep, n.step)
	r.Register(guide.KindAction, pass)
	r.Register(guide.KindExpect, pass)
	r.Register(guide.KindIfNot, pass)
	r.Register(guide.KindRest, pass)
	r.Register(guide.KindHazardRef, n.hazard)
	r.Register(guide.KindStopRef, n.stop)
	r.Register(guide.KindCalculatorBlock, n.calculator)
	r.Register(guide.KindFact, n.fact)
	r.Register(guide.KindQuantity, n.quantity)
	r.Register(guide.KindDrawing, n.drawing)
	r.Register(ast.KindLink, n.link)
	r.Register(ast.KindFencedCodeBlock, n.listing)
	r.Register(guide.KindExampleBlock, n.example)
}

func pass(util.BufWriter, []byte, ast.Node, bool) (ast.WalkStatus, error) {
	return ast.WalkContinue, nil
}

func (n *nodes) stepList(w util.BufWriter, _ []byte, node ast.Node, entering bool) (ast.WalkStatus, error) {
	if entering {
		_, _ = w.WriteString("<ol class=\"steps\"")
		if first, ok := node.FirstChild().(*guide.Step); ok && first.Number > 1 {
			_, _ = w.WriteString(" start=\"" + strconv.Itoa(first.Number) + "\"")
		}
		_, _ = w.WriteString(">\n")
	} else {
		_, _ = w.WriteString("</ol>\n")
	}
	return ast.WalkContinue, nil
}

func (n *nodes) step(w util.BufWriter, _ []byte, node ast.Node, entering bool) (ast.WalkStatus, error) {
	if entering {
		v := n.page.stepView(node.(*guide.Step))
		n.page.fillIn(w.(*memory), "step", &v, v.Number, &v.Hazards, &v.Action, &v.Expect, &v.IfNot, &v.Stops, &v.Rest)
	}
	return ast.WalkSkipChildren, nil
}

func (p *page) stepView(s *guide.Step) StepView {
	view := StepView{Number: s.Number}
	for _, ref := range s.Hazards {
		if shown, known := p.shown["hazard:"+ref.Name]; known {
			view.Hazards = append(view.Hazards, shown)
		}
	}
	if s.Action != nil {
		view.Action = p.lines(s.Action)
	}
	for _, e := range s.Expects {
		view.Expect = join(view.Expect, p.lines(e))
	}
	for _, e := range s.IfNots {
		view.IfNot = join(view.IfNot, p.lines(e))
		for c := e.FirstChild(); c != nil; c = c.NextSibling() {
			if ref, ok := c.(*guide.StopRef); ok {
				if shown, known := p.shown["stop:"+ref.Name]; known {
					view.Stops = append(view.Stops, shown)
				}
			}
		}
	}
	if s.Rest != nil {
		view.Rest = p.text(s.Rest)
	}
	return view
}

func join(a, b template.HTML) template.HTML {
	if a == "" {
		return b
	}
	return a + " " + b
}

// lines renders the paragraphs of a part of a step as one run of inline HTML.
func (p *page) lines(parent ast.Node) template.HTML {
	var all template.HTML
	for c := parent.FirstChild(); c != nil; c = c.NextSibling() {
		if c.Kind() != guide.KindStopRef {
			all = join(all, p.inline([]byte(p.text(c))))
		}
	}
	return all
}

func (n *nodes) hazard(w util.BufWriter, _ []byte, node ast.Node, entering bool) (ast.WalkStatus, error) {
	if entering {
		_, _ = w.WriteString(string(n.page.shown["hazard:"+node.(*guide.HazardRef).Name]))
	}
	return ast.WalkContinue, nil
}

func (n *nodes) stop(w util.BufWriter, _ []byte, node ast.Node, entering bool) (ast.WalkStatus, error) {
	if entering {
		_, _ = w.WriteString(string(n.page.shown["stop:"+node.(*guide.StopRef).Name]))
	}
	return ast.WalkContinue, nil
}

func (n *nodes) calculator(w util.BufWriter, _ []byte, node ast.Node, entering bool) (ast.WalkStatus, error) {
	if entering {
		if view, ok := n.page.placed(node.(*guide.CalculatorBlock)); ok {
			n.page.calculator(w.(*memory), view)
		}
	}
	return ast.WalkContinue, nil
}

// fact shows a checked figure as data. A text such as a thread's name stays text.
func (n *nodes) fact(w util.BufWriter, _ []byte, node ast.Node, entering bool) (ast.WalkStatus, error) {
	fact := node.(*guide.Fact)
	text := n.page.checked(fact.Said)
	switch {
	case text.mark == nil && entering:
		_, _ = w.WriteString(n.page.ofMachine(fact, `<span class="`+checkedQuantity+`">`))
	case text.mark == nil:
		_, _ = w.WriteString(`</span>`)
	case entering:
		n.page.speakQuantity(text.said, text.mark)
		_, _ = w.WriteString(n.page.ofMachine(fact, text.tag))
	default:
		_, _ = w.WriteString(`</data>`)
	}
	return ast.WalkContinue, nil
}

// quantity shows a quantity of the running text.
func (n *nodes) quantity(w util.BufWriter, _ []byte, node ast.Node, entering bool) (ast.WalkStatus, error) {
	if entering {
		q := node.(*guide.Quantity)
		n.page.speakQuantity(q.Said, &q.Mark)
		_, _ = w.WriteString(quantityHTML(plainQuantity, q.Said, &q.Mark))
	}
	return ast.WalkSkipChildren, nil
}

// link writes a link with the address that its target is published under.
func (n *nodes) link(w util.BufWriter, _ []byte, node ast.Node, entering bool) (ast.WalkStatus, error) {
	if !entering {
		_, _ = w.WriteString("</a>")
		return ast.WalkContinue, nil
	}
	link := node.(*ast.Link)
	_, _ = w.WriteString(`<a href="`)
	_, _ = w.Write(util.EscapeHTML(util.URLEscape([]byte(n.page.href(resolved(link.Destination))), false)))
	_ = w.WriteByte('"')
	if len(link.Title) > 0 {
		_, _ = w.WriteString(` title="`)
		gmhtml.DefaultWriter.Write(w, link.Title)
		_ = w.WriteByte('"')
	}
	_ = w.WriteByte('>')
	return ast.WalkContinue, nil
}

// resolved undoes Markdown's ways of writing a character, such as \* and &amp;, before anybody looks for a scheme.
func resolved(target []byte) string {
	return string(util.ResolveEntityNames(util.ResolveNumericReferences(util.UnescapePunctuations(target))))
}

// href is where a link of the text leads on the published page.
func (p *page) href(target string) string {
	if id, ok := strings.CutPrefix(target, "calculator:"); ok {
		return p.root + "calculators/" + id + "/"
	}
	if name, ok := strings.CutPrefix(target, "rule:"); ok {
		return p.root + ruleAddress(name)
	}
	file, anchor, _ := strings.Cut(target, "#")
	if anchor != "" {
		anchor = "#" + anchor
	}
	if name, ok := strings.CutPrefix(file, "machine:"); ok {
		return p.root + "machines/" + name + "/" + anchor
	}
	if !strings.HasSuffix(file, ".md") || strings.Contains(file, ":") {
		if dangerous(target) {
			return "#"
		}
		return target
	}
	to := p.library.Guide(strings.TrimSuffix(path.Join(string(p.guide.Kind), file), ".md"))
	if to == nil {
		return anchor
	}
	if address := p.root + addressOf(to); address != "" {
		return address + anchor
	}
	return "./" + anchor
}

// dangerous tells a scheme that runs or smuggles something; verification refuses it,
// and a page must not carry it even so.
func dangerous(target string) bool {
	return gmhtml.IsDangerousURL([]byte(target)) || strings.Contains(strings.ToLower(target), "script:")
}

func esc(text string) string { return template.HTMLEscapeString(text) }
