//go:build unix

package command

import (
	"fmt"
	"strings"
)

const (
	cardHead = "title: Hostile\nsummary: Small.\n"
	tubeText = "title: TQ\nconstruction: insulated\npins: {1: heater, 4: heater, 6: couple, 7: couple}\n"
)

// hostileData are cases of the files that pages are checked against: data that lead to themselves, and data by the thousand.
func hostileData() []hostileCase {
	return append(rings(), manyData()...)
}

func rings() []hostileCase {
	return []hostileCase{
		{name: "a family of itself", want: "family-cycle", files: map[string]string{
			"families/a.yaml": cardHead + "family: a\n", "machines/hostile.yaml": cardHead + "family: a\n"}},
		{name: "families in a ring", want: "family-cycle", files: familiesInRow(100, true)},
		{name: "a machine of a machine", want: "unknown-family", files: map[string]string{"machines/hostile.yaml": cardHead + "family: hostile\n"}},
		{name: "a tube of itself", want: "unknown-key", files: map[string]string{
			"tubes/a.yaml": tubeText + "tube: a\n", "machines/hostile.yaml": cardHead + "tube: a\n"}},
		{name: "a tube that a value points to", want: "value-form", files: map[string]string{
			"machines/hostile.yaml": cardHead + "values: {ready-limit: spec:ready-limit}\n"}},
		{name: "a value that is computed from itself", want: "computed-value", files: map[string]string{
			"machines/hostile.yaml": cardHead + "values:\n  ice: {is: 187 mTorr, calc: ice-floor?temperature=spec:ice}\n"}},
		{name: "values that are computed in a ring", want: "computed-value", files: map[string]string{"machines/hostile.yaml": computedInRow(4000)}},
		{name: "values that are computed from two others each", want: "computed-value", files: map[string]string{"machines/hostile.yaml": computedFromTwo(1000)}},
	}
}

func manyData() []hostileCase {
	return []hostileCase{
		{name: "a chain of 20 families", want: harmless, files: familiesInRow(20, false)},
		{name: "a chain of 1,000 families", want: "family-cycle", files: familiesInRow(1000, false)},
		{name: "a machine of 10,000 values", want: "yaml", files: map[string]string{"machines/hostile.yaml": cardHead + "values:\n" + numbered("  v%d: 1 L\n", 10000)}},
		{name: "a machine of 4,900 values", want: harmless, files: map[string]string{"machines/hostile.yaml": cardHead + "values:\n" + numbered("  own-value-%d: 1 L\n", 4900)}},
		{name: "10,000 other words", want: harmless, files: map[string]string{
			"words.yaml": "tools:\n  torch:\n    also:\n" + numbered("    - lamp of kind %d\n", 10000), "procedures/hostile.md": wordySteps("Use the lamp of kind 7.", 500, "torch")}},
		{name: "4,900 tools", want: harmless, files: map[string]string{
			"words.yaml": "tools:\n" + numbered("  lamp of kind %d: {means: a lamp}\n", 4900), "procedures/hostile.md": wordySteps("Look at the lamps of all kinds.", 500, "")}},
		{name: "10,000 phrases of an act", want: "act-unnamed", files: map[string]string{
			"hazards.yaml":          "hazards:\n  pane: {word: WARNING, title: The pane may burst inward, harm: It cuts., avoid: Guard in place.}\nacts:\n  turns:\n    means: turns something\n    hazards: [pane]\n    words:\n" + numbered("    - turn … knob %d\n", 10000),
			"procedures/hostile.md": wordySteps("Turn the knob 7.", 500, "")}},
		{name: "10,000 forbidden phrases", want: "forbidden", files: map[string]string{
			"hazards.yaml":          "hazards:\n  pane: {word: WARNING, title: The pane may burst inward, harm: It cuts., avoid: Guard in place.}\nacts: {}\nparts:\n  any:\n    title: Any part\n    forbidden:\n    - why: It hurts.\n      instead: something else\n      words:\n" + numbered("      - cleaner %d\n", 10000),
			"procedures/hostile.md": wordySteps("Wipe it with cleaner 7.", 500, "")}},
		{name: "a phrase of 3,000 words", want: harmless, files: map[string]string{
			"words.yaml": "tools:\n  torch:\n    also:\n    - " + filled("a ", 6000) + "\n", "procedures/hostile.md": wordySteps(filled("a ", 6000), 20, "")}},
		{name: "a phrase of gaps", want: "tool-unlisted", files: map[string]string{
			"words.yaml": "tools:\n  torch:\n    also: [\"look " + filled("… at ", 6*60) + "\"]\n", "procedures/hostile.md": wordySteps("Look "+filled("at this ", 800)+"now.", 20, "")}},
		{name: "a preset of a billion steps", want: "preset", files: map[string]string{hostilePage: hostileHead + preset("time: 1 to 1000000000 min") + preset("time: 1e9 min ± 1e9 min") + preset("time: 1–1000000000 s")}},
		{name: "a log of a billion minutes", want: "preset", files: map[string]string{
			hostilePage: hostileHead + "```calculator rise-log\nvolume: 24 L\nlog: |\n  time min,pressure mTorr\n  0,100\n  1,120\n  2,140\n  1000000000,160\n```\n"}},
	}
}

func preset(line string) string {
	return "```calculator rise-test\nvolume: 24 L\nstart: 447 mTorr\nend: 1547 mTorr\n" + line + "\n```\n\n"
}

// familiesInRow gives each family the next one; the last has none, or the first.
func familiesInRow(n int, ring bool) map[string]string {
	files := map[string]string{"machines/hostile.yaml": cardHead + "family: f0\n"}
	for i := range n {
		text := fmt.Sprintf("title: Family %d\nsummary: Small.\nvalues: {own-value-%d: 1 L}\n", i, i)
		if ring || i < n-1 {
			text += fmt.Sprintf("family: f%d\n", (i+1)%n)
		}
		files[fmt.Sprintf("families/f%d.yaml", i)] = text
	}
	return files
}

// computedInRow computes each value from the next one; the last from the first.
func computedInRow(n int) string {
	var b strings.Builder
	b.WriteString(cardHead + "values:\n")
	for i := range n {
		fmt.Fprintf(&b, "  v%d: {is: 1 Pa, calc: ice-floor?temperature=spec:v%d}\n", i, (i+1)%n)
	}
	return b.String()
}

// computedFromTwo computes each value from the next one, named twice: as many ways lead to the last as two to the power of n.
func computedFromTwo(n int) string {
	var b strings.Builder
	b.WriteString(cardHead + "values:\n")
	for i := range n {
		fmt.Fprintf(&b, "  v%d: {is: 1 L, calc: rise-test?volume=spec:v%d&start=spec:v%d&end=spec:v%d&time=1 min}\n", i, i+1, i+1, i+1)
	}
	fmt.Fprintf(&b, "  v%d: 1 L\n", n)
	return b.String()
}

// wordySteps is a procedure whose steps all say the same.
func wordySteps(text string, n int, tool string) string {
	head := "---\ntitle: Hostile\nreader: technician\ndoes: []\ntools: [" + tool + "]\n---\n\nLooks.\n\n## Before you start\n\nLook.\n\n## Steps\n\n"
	return head + strings.Repeat("1. "+text+"\n   - Expect: this.\n   - If not: wait a minute and look again.\n", n) + "\n## Afterwards\n\nLook.\n\n## Record\n\nWrite.\n"
}
