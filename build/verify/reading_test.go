package verify

import (
	"math"
	"os"
	"testing"

	"blankoff/build/load"
)

// Syllables as a dictionary parts them, from memory; counted by hand.
func TestSyllables(t *testing.T) {
	for n, words := range map[int][]string{
		1: {"the", "pump", "hole", "holes", "turned", "gauge", "trap", "leak", "ice", "seal", "valve", "hours", "closed", "through", "350", "mtorr", "°c", "whole", "looked", "smoke", "bee", "eye", "stays"},
		2: {"table", "tables", "boxes", "tested", "vapour", "water", "chamber", "safely", "motion", "sensor", "gauges", "quiet", "drying", "freezer", "people", "switches", "machine", "wiring", "needle", "something", "reading", "needed", "pressure", "diet", "open", "reading's", "oily"},
		3: {"radio", "usual", "atmosphere", "condenser", "technician", "electric", "battery", "connector", "area", "completely"},
		4: {"calculator", "evaporate", "thermometer", "material", "refrigerant", "temperature", "ability"},
		5: {"electricity", "refrigerator", "examination", "capability"},
	} {
		for _, word := range words {
			if got := syllables(folded(word)); got != n {
				t.Errorf("%s: %d syllables, want %d", word, got, n)
			}
		}
	}
}

// The formula by hand: 6 words, 1 sentence, 6 syllables; and 12 words, 2 sentences, 24 syllables.
func TestGradeByHand(t *testing.T) {
	for _, c := range []struct {
		r    reading
		want float64
	}{
		{reading{words: 6, sentences: 1, syllables: 6}, -1.45},
		{reading{words: 12, sentences: 2, syllables: 24}, 10.35},
	} {
		if got := c.r.grade(); math.Abs(got-c.want) > 0.005 {
			t.Errorf("%+v: %v, want %v", c.r, got, c.want)
		}
	}
}

// TestOurPagesForCustomers tells the grade of each (-v), and holds it below the limit.
func TestOurPagesForCustomers(t *testing.T) {
	library, found, err := load.Load(os.DirFS("../../content"), "content")
	if err != nil || len(found) > 0 {
		t.Fatal(found, err)
	}
	pages := 0
	for _, page := range library.Guides {
		if page.Reader.Text != "customer" {
			continue
		}
		pages++
		r := readingOf(passages(page))
		t.Logf("grade %4.1f, %4.1f words a sentence: %s", r.grade(), float64(r.words)/float64(r.sentences), page.File.Path)
		if r.grade() > mostGrade || r.words < fewestWords {
			t.Errorf("%s: grade %.1f of %d words", page.File.Path, r.grade(), r.words)
		}
	}
	if pages < 10 {
		t.Errorf("only %d pages for customers", pages)
	}
}
