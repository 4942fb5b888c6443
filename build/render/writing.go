package render

import (
	"bytes"
	"html/template"
	"sync"

	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/util"

	"blankoff/build/example"
	"blankoff/build/guide"
	"blankoff/build/rules"
)

// writingAddress is where the rules of verify are explained to those who write.
const writingAddress = "writing/"

// ruleAddress is the page of a rule, or without a name the list of all.
func ruleAddress(name string) string {
	if name == "" {
		return writingAddress
	}
	return writingAddress + name + "/"
}

// writing lists the pages about writing: none, unless the shop asks for them.
func (b *book) writing() []job {
	if !b.library.Shop.HelpsAuthors() {
		return nil
	}
	jobs := []job{{writingAddress, (*page).ruleIndex}}
	for _, rule := range rules.All() {
		jobs = append(jobs, job{ruleAddress(rule.Name), func(p *page) error { return p.rule(rule) }})
	}
	return jobs
}

// writingHeading is the title of the list of all rules.
const writingHeading = "The rules of writing"

const ruleLead = "What is checked before anything is published. Each page shows what is wrong, what verify says of it, and what is right."

// ruleIndex lists all rules by what an author is doing.
func (p *page) ruleIndex() error {
	view := IndexView{Frame: p.writingFrame(writingHeading, ruleLead), Heading: writingHeading, Lead: ruleLead}
	view.Early = []string{p.assets.Lists}
	for _, family := range rules.Families() {
		group := Group{ID: guide.Slug(family.Title), Title: family.Title}
		for _, rule := range family.Rules {
			group.Entries = append(group.Entries, Entry{Href: p.root + ruleAddress(rule.Name), Title: rule.Title, Notes: []string{rule.Name}})
		}
		view.Groups = append(view.Groups, group)
	}
	return p.write("index", view)
}

// writingFrame has no ladder: no pressure has a place there.
func (p *page) writingFrame(title, description string) Frame {
	p.atDesk = true
	frame := p.frame(title, description, "", nil)
	frame.Ladder = nil
	return frame
}

// rule makes the page of one rule.
func (p *page) rule(rule rules.Rule) error {
	view := RuleView{
		Frame: p.writingFrame(rule.Title, ""), Heading: rule.Title, Name: rule.Name, Text: ruleText(rule.Text), Unshown: rule.Unshown,
		All: p.root + writingAddress,
	}
	for _, family := range rules.Families() {
		if family.ID == rule.Family {
			view.Family = Link{Href: view.All + "#" + guide.Slug(family.Title), Text: family.Title}
		}
	}
	if rule.Unshown == "" {
		shown := ruleExample(rule, outcomeOf(rule))
		view.Example = &shown
	}
	return p.write("rule", view)
}

var plainMarkdown = sync.OnceValue(func() goldmark.Markdown { return guide.Markdown() })

// ruleText is the explanation of a rule as HTML. The text is the program's own.
func ruleText(text string) template.HTML {
	var out bytes.Buffer
	_ = plainMarkdown().Convert([]byte(text), &out) // writing to memory cannot fail
	return template.HTML(out.String())
}

// outcomes keeps what is said of the examples, for the life of the program: it does not depend on the content.
var outcomes sync.Map // a rule's name → example.Outcome

func outcomeOf(rule rules.Rule) example.Outcome {
	if kept, found := outcomes.Load(rule.Name); found {
		return kept.(example.Outcome)
	}
	outcome := example.Of(rule)
	outcomes.Store(rule.Name, outcome)
	return outcome
}

// example shows the example of a rule inside a guide.
func (n *nodes) example(w util.BufWriter, _ []byte, node ast.Node, entering bool) (ast.WalkStatus, error) {
	rule, known := rules.Find(node.(*guide.ExampleBlock).RuleName)
	if !entering || !known || rule.Unshown != "" {
		return ast.WalkContinue, nil
	}
	view := ruleExample(rule, outcomeOf(rule))
	for _, samples := range [][]SampleView{view.Bad, view.Good} {
		for i := range samples {
			samples[i].Rows = brief(samples[i].Rows)
		}
	}
	if n.page.library.Shop.HelpsAuthors() {
		view.Rule = Link{Href: n.page.root + ruleAddress(rule.Name), Text: rule.Title}
	}
	n.page.atDesk = true
	_, _ = w.WriteString(string(n.page.part("rule-example", view)))
	return ast.WalkContinue, nil
}
