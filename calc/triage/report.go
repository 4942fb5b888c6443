package triage

import "blankoff/calc/declare"

// report is all of it as text for the shop: what was said and done, what is believed, what would come next.
func (s *sheaf) report() {
	var text []byte
	line := func(parts ...string) {
		for _, part := range parts {
			text = append(text, part...)
		}
		text = append(text, '\n')
	}
	each := func(table string, most int, tell func(row []declare.Cell)) {
		for i := range s.Out {
			if g := &s.Out[i]; g.ID == table {
				for _, row := range g.Rows[:min(most, len(g.Rows))] {
					tell(row)
				}
			}
		}
	}
	each("answers", MaxFindings, func(row []declare.Cell) {
		line(row[5].Text, "\n  ", row[6].Text)
		if row[7].Text != "" {
			line("  ", row[7].Text)
		}
	})
	each("done", MaxSteps, func(row []declare.Cell) { line(row[1].Text, ": ", row[2].Text) })
	line("\n", s.Verdict.Text, "\nMost likely:")
	each("causes", 4, func(row []declare.Cell) { line("  ", row[1].Text, " (", row[4].Text, ")") })
	line("Next:")
	each("steps", 2, func(row []declare.Cell) { line("  ", row[6].Text) })
	line("These are the shop's starting values, no proof.")
	s.Out = append(s.Out, declare.Given{ID: "report", Label: "For the shop", Text: string(text)})
}
