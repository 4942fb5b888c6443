// Package example says what verify says of the examples of a rule, by loading and checking them as any content is.
//
//	outcome := example.Of(rule)
//	fmt.Print(diagnostic.List(outcome.Bad, diagnostic.Style{}))
//
// An example is a file or two put into the shop of package rules, where all else is well.
package example

import (
	"testing/fstest"
	"time"

	"blankoff/build/diagnostic"
	"blankoff/build/load"
	"blankoff/build/rules"
	"blankoff/build/verify"
)

// Folder is what the content folder of the shop is called in messages.
const Folder = "content"

// day is the day on which all examples are checked, so that what is said of them never changes by itself.
var day = time.Date(2026, time.November, 25, 12, 0, 0, 0, time.UTC)

// Outcome is what verify says of the two examples of a rule. Nothing is said of a rule that cannot be shown.
type Outcome struct {
	Bad, Good []diagnostic.Diagnostic
}

// Of checks both examples of a rule.
func Of(rule rules.Rule) Outcome {
	if rule.Unshown != "" {
		return Outcome{}
	}
	return Outcome{Bad: Check(rule.Bad), Good: Check(rule.Good)}
}

// Check puts files into the shop and gives what is said of them, sorted.
func Check(files []rules.File) []diagnostic.Diagnostic {
	folder := fstest.MapFS{}
	for _, file := range append(rules.Shop(), files...) {
		folder[file.Name] = &fstest.MapFile{Data: []byte(file.Text)}
	}
	library, found, err := load.Load(folder, Folder)
	if err != nil { // memory can always be read
		panic(err.Error())
	}
	more, _ := verify.Check(library, day)
	return diagnostic.Sorted(append(found, more...))
}
