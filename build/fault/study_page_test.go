package fault

import (
	"fmt"
	"os"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"blankoff/calc/letters"
)

// TestStudyPage: the page that tells readers how well faults are found has the figures of the study.
func TestStudyPage(t *testing.T) {
	page := readFile(t, "../../content/pages/fault-finding.md")
	text := readFile(t, "../../testdata/triage-study.txt")
	large, _, _ := strings.Cut(text, "\nThe small study")
	parts := strings.Split(large, "\nfewer minutes")
	if len(parts) != len(populations)+1 {
		t.Fatalf("the study has %d tables, want %d", len(parts)-1, len(populations))
	}
	var want []string
	for i, w := range populations[3].ways() {
		row := "| " + w.name
		for _, k := range [...]int{0, 1, 2, 3} {
			if k < 3 && i == len(ways) {
				row += " | -"
			} else {
				row += " | " + figures(t, parts[k], w.name)[0]
			}
		}
		want = append(want, row+" |")
	}
	for k, sentence := range []string{
		"%s fewer minutes than the best of the five others",
		"%s fewer where all odds are wrong",
		"%s fewer where the cause is not in the list",
		"%s fewer at the customer's",
	} {
		want = append(want, fmt.Sprintf(sentence, savedIn(t, parts[k+1], "the best of the five")))
	}
	want = append(want, fmt.Sprintf("%s fewer than with every test first", savedIn(t, parts[1], toTheEnd)))
	want = append(want, fmt.Sprintf("%s wrong repairs a job, against %s", figures(t, parts[0], ours)[1], figures(t, parts[0], "cheapest test first")[1]))
	calls := regexp.MustCompile(`(?m)^ours +(\d+) % +(\d+) ±`).FindStringSubmatch(parts[4])
	if calls == nil {
		t.Fatal("the study does not say when a customer calls")
	}
	want = append(want, "spends "+calls[2]+" min before the call", calls[1]+" % are ended")
	for _, w := range want {
		if !strings.Contains(page, w) {
			t.Errorf("the page lacks %q", w)
		}
	}
}

func readFile(t *testing.T, name string) string {
	t.Helper()
	data, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// figures are the minutes and the wrong repairs of a way, from its line in a table.
func figures(t *testing.T, table, way string) []string {
	t.Helper()
	line := regexp.MustCompile(`(?m)^` + regexp.QuoteMeta(way) + ` +(\d+) ± .* ([\d.]+) ± [\d.]+ +\d+ %$`).FindStringSubmatch(table)
	if line == nil {
		t.Fatalf("the study has no line for %q", way)
	}
	minutes, _ := strconv.Atoi(line[1])
	wrong, _ := strconv.ParseFloat(line[2], 64)
	return []string{grouped(minutes), strconv.FormatFloat(wrong, 'f', 1, 64)}
}

// grouped writes a number as the site does.
func grouped(n int) string {
	if n < 1000 {
		return letters.Whole(n)
	}
	return fmt.Sprintf("%d,%03d", n/1000, n%1000)
}

// savedIn is the share of minutes saved against another way, from the lines behind a table.
func savedIn(t *testing.T, line, way string) string {
	t.Helper()
	found := regexp.MustCompile(`than ` + way + `: ([\d.-]+) `).FindStringSubmatch(line)
	if found == nil {
		t.Fatalf("the study does not say what is saved: %.60q", line)
	}
	share, _ := strconv.ParseFloat(found[1], 64)
	return fmt.Sprintf("%.0f %%", share)
}
