package rules

import (
	"fmt"
	"slices"
	"strings"
)

// parse reads the page of a rule:
//
//	title: A step says what to expect
//	family: steps
//	---
//	What the rule holds, why, and what to do, in Markdown.
//	-- bad procedures/rise-test.md --
//	(the whole file)
//	-- good procedures/rise-test.md --
//	(the whole file)
//
// A rule whose trouble no text can show has a line `shown: no, WHY` in its head instead of the files.
func parse(name, text string) (Rule, error) {
	archive := ParseArchive(text)
	rule := Rule{Name: name}
	head, words, found := strings.Cut(archive.Comment, "---\n")
	if !found {
		return rule, fmt.Errorf("rule page %s: no line --- below its head", name)
	}
	for line := range strings.Lines(head) {
		if err := rule.read(line); err != nil {
			return rule, err
		}
	}
	rule.Text = strings.TrimSpace(words)
	for _, file := range archive.Files {
		if err := rule.add(file); err != nil {
			return rule, err
		}
	}
	return rule, rule.complete()
}

// read takes a line of the head.
func (r *Rule) read(line string) error {
	key, value, _ := strings.Cut(line, ":")
	value = strings.TrimSpace(value)
	switch strings.TrimSpace(key) {
	case "title":
		r.Title = value
	case "family":
		r.Family = value
	case "shown":
		why, no := strings.CutPrefix(value, "no, ")
		if !no || why == "" {
			return fmt.Errorf("rule page %s: write `shown: no, WHY`, or leave it out", r.Name)
		}
		r.Unshown = why
	default:
		return fmt.Errorf("rule page %s: its head has no key %q", r.Name, key)
	}
	return nil
}

// add takes a file of an example.
func (r *Rule) add(file File) error {
	kind, name, _ := strings.Cut(file.Name, " ")
	file.Name = strings.TrimSpace(name)
	switch kind {
	case "bad":
		r.Bad = append(r.Bad, file)
	case "good":
		r.Good = append(r.Good, file)
	default:
		return fmt.Errorf("rule page %s: a file is bad or good, not %q", r.Name, kind)
	}
	return nil
}

func (r *Rule) complete() error {
	known := slices.ContainsFunc(families, func(f Family) bool { return f.ID == r.Family })
	switch {
	case r.Title == "" || r.Text == "":
		return fmt.Errorf("rule page %s: its title or its words are missing", r.Name)
	case !known:
		return fmt.Errorf("rule page %s: there is no family %q", r.Name, r.Family)
	case r.Unshown != "" && len(r.Bad)+len(r.Good) > 0:
		return fmt.Errorf("rule page %s: says that it cannot be shown, and shows it", r.Name)
	case r.Unshown == "" && (len(r.Bad) == 0 || len(r.Good) == 0):
		return fmt.Errorf("rule page %s: the bad or the good example is missing", r.Name)
	}
	return nil
}
