package prose

import (
	"bufio"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

const sentences = "../../testdata/sentences"

// labelled is one sentence with what somebody marked in it.
type labelled struct {
	file   string
	line   int
	text   string
	marks  map[string]string // "from:to" and the kind
	doubts map[string]bool
}

// TestLabelledSentences measures against sentences that were labelled before the scanner was run on them; how is told
// beside them. A mark counts when both ends fit.
func TestLabelledSentences(t *testing.T) {
	var right, wanted, found, doubts, kinds int
	for _, s := range readLabelled(t) {
		marks, doubtful := Find(s.text)
		wanted += len(s.marks)
		inDoubt := map[string]bool{}
		for _, d := range doubtful {
			place := fmt.Sprint(d.From, ":", d.To)
			inDoubt[place] = true
			if !s.doubts[place] {
				t.Errorf("%s:%d: a doubt that nobody has: %q in %q", s.file, s.line, s.text[d.From:d.To], s.text)
			}
		}
		for place := range s.doubts {
			if doubts++; !inDoubt[place] {
				t.Errorf("%s:%d: %s is no doubt in %q", s.file, s.line, place, s.text)
			}
		}
		seen := map[string]bool{}
		for _, m := range marks {
			place := fmt.Sprint(m.From, ":", m.To)
			if s.doubts[place] {
				continue // a doubt may come with a mark
			}
			found++
			seen[place] = true
			kind, is := s.marks[place]
			switch {
			case !is:
				say := t.Logf
				if strings.HasPrefix(s.file, "leave-") {
					say = t.Errorf
				}
				say("%s:%d: %q is marked in %q", s.file, s.line, s.text[m.From:m.To], s.text)
				continue
			case kind != kindName(m):
				kinds++
				t.Errorf("%s:%d: %q is a %s, want a %s: %q", s.file, s.line, s.text[m.From:m.To], kindName(m), kind, s.text)
			}
			right++
		}
		for place := range s.marks {
			if !seen[place] {
				var from, to int
				fmt.Sscanf(place, "%d:%d", &from, &to)
				t.Logf("%s:%d: %q is missed in %q", s.file, s.line, s.text[from:to], s.text)
			}
		}
	}
	precision, recall := float64(right)/float64(found), float64(right)/float64(wanted)
	t.Logf("%d marks wanted, %d found, %d of them right (%d of a wrong kind): precision %.4f, recall %.4f; %d doubts", wanted, found, right, kinds, precision, recall, doubts)
	if wanted < 300 || precision < 0.98 || recall < 0.98 {
		t.Errorf("of %d marks, precision %.4f and recall %.4f; both must be 0.98 or more", wanted, precision, recall)
	}
}

func kindName(m Mark) string {
	switch m.Form {
	case Thread:
		return "thread"
	case Count:
		return "count"
	}
	return m.Kind.Name()
}

// readLabelled reads the sentences: {200 mTorr|pressure} for a mark, {?28 inches of vacuum} for a doubt.
func readLabelled(t *testing.T) []labelled {
	t.Helper()
	files, err := filepath.Glob(filepath.Join(sentences, "*.txt"))
	if err != nil || len(files) == 0 {
		t.Fatalf("no sentences in %s: %v", sentences, err)
	}
	var all []labelled
	for _, path := range files {
		file, err := os.Open(path)
		if err != nil {
			t.Fatal(err)
		}
		lines := bufio.NewScanner(file)
		for n := 1; lines.Scan(); n++ {
			if line := lines.Text(); line != "" && line[0] != '#' {
				all = append(all, readLabels(filepath.Base(path), n, line))
			}
		}
		file.Close()
	}
	return all
}

func readLabels(file string, n int, line string) labelled {
	s := labelled{file: file, line: n, marks: map[string]string{}, doubts: map[string]bool{}}
	for line != "" {
		before, rest, open := strings.Cut(line, "{")
		s.text += before
		if !open {
			break
		}
		label, after, _ := strings.Cut(rest, "}")
		line = after
		from := len(s.text)
		if doubt, is := strings.CutPrefix(label, "?"); is {
			doubt, _, _ = strings.Cut(doubt, "|")
			s.text += doubt
			s.doubts[fmt.Sprint(from, ":", len(s.text))] = true
			continue
		}
		text, kind, _ := strings.Cut(label, "|")
		s.text += text
		s.marks[fmt.Sprint(from, ":", len(s.text))] = kind
	}
	return s
}
