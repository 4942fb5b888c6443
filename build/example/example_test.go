package example_test

import (
	"slices"
	"testing"

	"blankoff/build/diagnostic"
	"blankoff/build/example"
	"blankoff/build/rules"
)

// TestExamplesDoWhatTheySay: each bad example is told of under its own rule, each good one not at all.
func TestExamplesDoWhatTheySay(t *testing.T) {
	for _, rule := range rules.All() {
		if rule.Unshown != "" {
			continue
		}
		t.Run(rule.Name, func(t *testing.T) {
			outcome := example.Of(rule)
			if !slices.ContainsFunc(outcome.Bad, func(d diagnostic.Diagnostic) bool { return d.Rule == rule.Name }) {
				t.Errorf("nothing is said of the bad example under %s:\n%s", rule.Name, diagnostic.List(outcome.Bad, diagnostic.Style{}))
			}
			if len(outcome.Good) > 0 {
				t.Errorf("the good example is not good:\n%s", diagnostic.List(outcome.Good, diagnostic.Style{}))
			}
		})
	}
}

// TestTheShopIsWell: what is said of an example is said of its own files.
func TestTheShopIsWell(t *testing.T) {
	if found := example.Check(nil); len(found) > 0 {
		t.Errorf("the shop itself:\n%s", diagnostic.List(found, diagnostic.Style{}))
	}
}

func BenchmarkAllExamples(b *testing.B) {
	for b.Loop() {
		for _, rule := range rules.All() {
			example.Of(rule)
		}
	}
}
