// Package rules explains each rule of `verify` to the person who writes: what the rule holds, why it matters at the
// machine, and an example that breaks it beside one that keeps it.
//
//	rule, known := rules.Find("step-expect")
//	fmt.Println(rule.Title, rule.Bad[0].Text)
//
// The explanations are data, a file of pages/ for each rule. Package example says what verify says of the examples, so
// that no page can promise what the program does not do.
package rules

import (
	"embed"
	"slices"
	"strings"
	"sync"
)

//go:embed shop.txt pages/*.txt
var files embed.FS

// Rule is the explanation of one rule.
type Rule struct {
	Name   string // as it stands behind a message: step-expect
	Title  string // what a page does that keeps it: "A step says what to expect"
	Family string // the ID of a Family
	Text   string // Markdown
	Bad    []File // put into the shop, verify reports this rule; none if Unshown
	Good   []File // put into the shop, verify reports nothing
	// Unshown says why no text can show the trouble: a symbolic link, say. Else empty.
	Unshown string
}

// Family is a part of the work of writing, with the rules about it.
type Family struct {
	ID, Title string
	Rules     []Rule // by name
}

// families in the order in which an author meets them. The last takes the rules whose pages name none.
var families = []Family{
	{ID: "header", Title: "The header of a page"},
	{ID: "text", Title: "Text and headings"},
	{ID: "links", Title: "Links and pictures"},
	{ID: "steps", Title: "Steps and sections"},
	{ID: "hazards", Title: "Hazards and stops"},
	{ID: "words", Title: "Words, tools and abbreviations"},
	{ID: "numbers", Title: "Quantities and checked facts"},
	{ID: "calculators", Title: "Calculators in a page"},
	{ID: "machines", Title: "Machines and the shop"},
	{ID: "triage", Title: "The fault model"},
	{ID: "files", Title: "Files and folders"},
	{ID: "", Title: "More rules"},
}

// All gives every rule, by name.
func All() []Rule { return slices.Clone(all()) }

// Find gives the rule of a name.
func Find(name string) (Rule, bool) {
	i, found := slices.BinarySearchFunc(all(), name, func(r Rule, name string) int { return strings.Compare(r.Name, name) })
	if !found {
		return Rule{}, false
	}
	return all()[i], true
}

// Names lists the names of all rules.
func Names() []string {
	var names []string
	for _, rule := range all() {
		names = append(names, rule.Name)
	}
	return names
}

// Families gives the rules by what an author is doing; a family without rules is left out.
func Families() []Family {
	var list []Family
	for _, family := range families {
		for _, rule := range all() {
			if rule.Family == family.ID {
				family.Rules = append(family.Rules, rule)
			}
		}
		if len(family.Rules) > 0 {
			list = append(list, family)
		}
	}
	return list
}

// Shop is the content folder in which all examples play; all is well in it.
func Shop() []File {
	text, _ := files.ReadFile("shop.txt") // embedded, so it is there
	return ParseArchive(string(text)).Files
}

// all reads the pages once. A page that cannot be read is a fault in the program, which the tests meet.
var all = sync.OnceValue(func() []Rule {
	entries, _ := files.ReadDir("pages") // in the order of the names
	list := make([]Rule, 0, len(entries))
	for _, entry := range entries {
		text, _ := files.ReadFile("pages/" + entry.Name())
		rule, err := parse(strings.TrimSuffix(entry.Name(), ".txt"), string(text))
		if err != nil {
			panic(err.Error())
		}
		list = append(list, rule)
	}
	slices.SortFunc(list, func(a, b Rule) int { return strings.Compare(a.Name, b.Name) })
	return list
})
