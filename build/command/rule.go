package command

import (
	"fmt"
	"strings"

	"blankoff/build/diagnostic"
	"blankoff/build/example"
	"blankoff/build/rules"
	"blankoff/build/source"
)

// listOfRules stands in place of a rule's name and asks for all of them.
const listOfRules = "list"

const (
	inset     = "    "
	lineWidth = 100
)

// explain tells a rule, or lists all.
func explain(t terminal, name string) error {
	if name == listOfRules {
		fmt.Fprint(t.out, ruleList())
		return nil
	}
	rule, known := rules.Find(name)
	if !known {
		return fmt.Errorf("there is no rule %s%s", source.Quote(name), nearRule(name))
	}
	fmt.Fprint(t.out, ruleText(rule, styleOf(t.out)))
	return nil
}

func nearRule(name string) string {
	if near := source.Nearest(name, rules.Names()); near != "" {
		return ", did you mean " + near + "?"
	}
	return "; `verify --rule " + listOfRules + "` tells all rules"
}

// ruleList gives all rules with their titles, by what an author is doing.
func ruleList() string {
	var b strings.Builder
	for i, family := range rules.Families() {
		if i > 0 {
			b.WriteByte('\n')
		}
		b.WriteString(family.Title + "\n")
		for _, rule := range family.Rules {
			fmt.Fprintf(&b, "  %-20s %s\n", rule.Name, rule.Title)
		}
	}
	return b.String()
}

// ruleText is a rule's page for the terminal: its words, and what verify says of its examples at this moment.
func ruleText(rule rules.Rule, style diagnostic.Style) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s: %s\n\n", rule.Name, rule.Title)
	for paragraph := range strings.SplitSeq(rule.Text, "\n\n") {
		b.WriteString(wrapped(paragraph) + "\n")
	}
	if rule.Unshown != "" {
		b.WriteString("There is no example: " + rule.Unshown + ".\n")
		return b.String()
	}
	outcome := example.Of(rule)
	exampleText(&b, "Wrong", rule.Bad)
	b.WriteString("verify says\n\n" + diagnostic.List(outcome.Bad, style) + "\n")
	exampleText(&b, "Right", rule.Good)
	if len(outcome.Good) == 0 {
		b.WriteString("verify says nothing.\n")
	} else {
		b.WriteString("verify says\n\n" + diagnostic.List(outcome.Good, style))
	}
	return b.String()
}

func exampleText(b *strings.Builder, what string, files []rules.File) {
	for _, file := range files {
		fmt.Fprintf(b, "%s, %s/%s\n\n", what, example.Folder, file.Name)
		for line := range strings.Lines(file.Text) {
			b.WriteString(strings.TrimRight(inset+strings.TrimRight(line, "\n"), " ") + "\n")
		}
		b.WriteByte('\n')
	}
}

// wrapped breaks a paragraph into lines that a terminal shows whole.
func wrapped(paragraph string) string {
	var b strings.Builder
	column := 0
	for word := range strings.FieldsSeq(paragraph) {
		length := len([]rune(word))
		switch {
		case column == 0:
		case column+1+length > lineWidth:
			b.WriteByte('\n')
			column = 0
		default:
			b.WriteByte(' ')
			column++
		}
		b.WriteString(word)
		column += length
	}
	return b.String() + "\n"
}
