package verify

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"blankoff/build/diagnostic"
)

// manyFaults is a page with thirty faults, each of which says the page's number and names its rule. The page goes on to be
// read after each of them.
const manyFaults = `---
title: Page %[1]d
reader: technicain
time: soon
people: one
revision: none
colour: brass
tools: a gauge
machines: [cindle-14, cindel-%[1]d]
does: [evacuates, explodes]
---
Hold [351 mTorr](spec:ready-limit) for [30 min](spec:warm-upp), see [that](none-%[1]d.md) and [this](#nowhere), or [](itself.md).

[1](<calc:rise-test?volume=24 L>), [1](calc:rize-test), [1](<calc:rise-test?begin=1>), [1](<calc:rise-test?volume=24 L&out=leek>)

[a](javascript:x), [b](machine:nothing), [c](calculator:nothing), ![d](../pictures/none.svg), ![](../pictures/none.svg) and <b>

#### Too deep

# Too high

##

[CAUTION: x](hazard:none)

[STOP: x](stop:none)

A [WARNING: pane](hazard:pane) in a line, and [STOP: here](stop:electrical) too.

` + "```calculator\n```\n\n```calculator nothing\n```\n\n```calculator rise-test\nvolume: 24 mTorr\n```" + `

## Steps

1. Look.
2. Look again.
   - Expect: this.

   [DANGER: pane](hazard:pane)

## Checks

None.
`

const manyPages = 40

func manyFolder(t *testing.T) fstest.MapFS {
	t.Helper()
	pages := map[string]string{}
	for i := range manyPages {
		pages[fmt.Sprintf("procedures/page-%d.md", i)] = fmt.Sprintf(manyFaults, i)
	}
	return archive{files: pages}.folder(t)
}

// TestManyFaultsAreAllTold: nobody should have to run it once for each mistake. Every page is told as fully as one page
// alone, in the order of files and lines, and the same the second time.
func TestManyFaultsAreAllTold(t *testing.T) {
	_, found := check(t, manyFolder(t))
	byFile, rules := map[string][]string{}, map[string]bool{}
	for _, d := range found {
		byFile[d.Span.File.Path] = append(byFile[d.Span.File.Path], d.Rule)
		rules[d.Rule] = true
	}
	if len(found) < 1200 || len(rules) < 25 || len(byFile) != manyPages {
		t.Errorf("%d faults of %d rules in %d files: %v", len(found), len(rules), len(byFile), slices.Sorted(maps.Keys(rules)))
	}
	_, alone := check(t, archive{files: map[string]string{"procedures/page-7.md": fmt.Sprintf(manyFaults, 7)}}.folder(t))
	want := rulesOf(alone)
	for name, got := range byFile {
		if !slices.Equal(got, want) {
			t.Errorf("%s: told %v, alone %v", name, got, want)
		}
	}
	if last := found[len(found)-1]; !inOrder(found) || last.Span.File.Path != "procedures/page-9.md" {
		t.Errorf("not in the order of files and lines; the last is of %s", last.Span.File.Path)
	}
	_, again := check(t, manyFolder(t))
	if !slices.Equal(lines(found), lines(again)) {
		t.Error("the second run says something else")
	}
}

// TestEveryFaultOfAPageIsTold: each line that is wrong is told, whatever stands before it.
func TestEveryFaultOfAPageIsTold(t *testing.T) {
	whole := fmt.Sprintf(manyFaults, 0)
	_, found := check(t, archive{files: map[string]string{"procedures/page-0.md": whole}}.folder(t))
	told := map[int]bool{}
	for _, d := range found {
		told[d.Span.Position().Line] = true
	}
	for _, wrong := range []string{
		"reader: t", "time: s", "revision: n", "colour:", "tools: a", "cindel-", "explodes", "[351", "[1](<calc", "[a](java", "#### Too", "# Too high",
		"hazard:none", "stop:none", "A [WARN", "```calculator\n", "```calculator nothing", "volume: 24 m", "1. Look.", "2. Look again", "[DANGER", "## Checks",
	} {
		at := strings.Index(whole, wrong)
		if line := strings.Count(whole[:at], "\n") + 1; at < 0 || !told[line] {
			t.Errorf("nothing is told of line %d, %q", line, wrong)
		}
	}
}

func rulesOf(found []diagnostic.Diagnostic) []string {
	var rules []string
	for _, d := range found {
		rules = append(rules, d.Rule)
	}
	return rules
}

func inOrder(found []diagnostic.Diagnostic) bool {
	return slices.IsSortedFunc(found, func(a, b diagnostic.Diagnostic) int {
		if order := strings.Compare(a.Span.File.Name, b.Span.File.Name); order != 0 {
			return order
		}
		return a.Span.Start - b.Span.Start
	})
}
