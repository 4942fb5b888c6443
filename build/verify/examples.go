package verify

import (
	"blankoff/build/guide"
	explained "blankoff/build/rules"
	"blankoff/build/source"
)

// exampleBlocks checks that each rule whose example a page shows is one.
func (c *checker) exampleBlocks(page *guide.Guide) {
	for _, block := range page.Examples {
		rule, known := explained.Find(block.RuleName)
		switch {
		case block.RuleName == "":
			c.refuse("example-block", block.Span, "an example block needs the name of a rule", "write ```example step-expect")
		case !known:
			c.refuse("example-block", block.Span, "there is no rule "+source.Quote(block.RuleName), source.DidYouMean(block.RuleName, explained.Names()))
		case rule.Unshown != "":
			c.refuse("example-block", block.Span, "the rule "+block.RuleName+" has no example: "+rule.Unshown, "say in words what it holds")
		}
	}
}

// ruleLink checks a link to the page of a rule; without a name it leads to the list of all.
func (c *checker) ruleLink(link *guide.Link, name string) {
	if !c.library.Shop.HelpsAuthors() {
		c.refuse("rule-link", link.Span, "this site has no pages about its rules", "add `authoring: yes` to shop.yaml, or take the link out")
	}
	if _, known := explained.Find(name); !known && name != "" {
		c.refuse("rule-link", link.Span, "there is no rule "+source.Quote(name), source.DidYouMean(name, explained.Names()))
	}
}

// checkAuthoring: only a plain yes or no says whether a shop wants its rules on the site.
func (c *checker) checkAuthoring() {
	if a := c.library.Shop.Authoring; a.Text != "" && a.Text != "yes" && a.Text != "no" {
		c.refuse("authoring", a.Span, source.Quote(a.Text)+" is neither yes nor no", "write `authoring: yes` for a page about each rule, or leave the line out")
	}
}
