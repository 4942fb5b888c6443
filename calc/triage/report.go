package triage

import "blankoff/calc/declare"

// report is all of it as text for the shop: what was said and done, what is believed, what would come next.
func (s *sheaf) report() {
	text := s.lines("answers", MaxFindings, "_\n  _ _\n", 5, 6, 7) + s.lines("done", MaxSteps, "_: _\n", 1, 2) +
		"\n" + s.Verdict.Text + "\nMost likely:\n" + s.lines("causes", 4, "  _ (_)\n", 1, 4) +
		"Next:\n" + s.lines("steps", 2, "  _\n", 6) + "These are the shop's starting values, no proof.\n"
	s.Out = append(s.Out, declare.Given{ID: "report", Label: "For the shop", Text: text})
}

// lines writes cells of the first rows of a table into a sentence.
func (s *sheaf) lines(table string, most int, sentence string, cells ...int) string {
	text, words := "", make([]string, len(cells))
	for i := range s.Out {
		if s.Out[i].ID != table {
			continue
		}
		for n, row := range s.Out[i].Rows {
			if n == most {
				break
			}
			for k, at := range cells {
				words[k] = row[at].Text
			}
			text += put(sentence, words...)
		}
	}
	return text
}
