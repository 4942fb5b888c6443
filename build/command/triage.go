package command

import (
	"errors"
	"fmt"
	"os"
	"slices"
	"strings"
	"sync"

	"blankoff/build/fault"
	"blankoff/build/load"
	"blankoff/calc"
	"blankoff/calc/declare"
	"blankoff/calc/triage"
)

// models reads the fault model of a folder once, when a triage asks for it.
type models struct {
	folder string
	once   sync.Once
	model  *fault.Model
	known  *triage.Known // the same, for those requests that bring none
	wrong  error
}

func (m *models) read() (*fault.Model, *triage.Known, error) {
	m.once.Do(func() { m.model, m.known, m.wrong = modelOf(m.folder) })
	return m.model, m.known, m.wrong
}

func modelOf(named string) (*fault.Model, *triage.Known, error) {
	folder, err := contentFolder(slices.DeleteFunc([]string{named}, func(name string) bool { return name == "" }))
	if err != nil {
		return nil, nil, err
	}
	library, _, err := load.Load(os.DirFS(folder), folder)
	switch {
	case err != nil:
		return nil, nil, err
	case library.Triage == nil:
		return nil, nil, fmt.Errorf("%s has no triage.yaml, or none that can be read; %s verify %s tells more", folder, nameOfAll, folder)
	case !library.Triage.Usable():
		return nil, nil, fmt.Errorf("triage.yaml of %s has faults; %s verify %s tells which", folder, nameOfAll, folder)
	}
	text, err := library.Triage.Text()
	return library.Triage, triage.Know(text), err
}

// triage answers one triage: entries by their names, all else as answers.
func (o calcOptions) triage(t terminal, args []string) error {
	if len(o.units)+len(given(o.files)) > 0 {
		return errors.New("calc triage takes neither --unit nor tables; leave them out")
	}
	all, err := pairs(args, "jumps=yes")
	if err != nil {
		return err
	}
	request, answers := declare.Request{ID: triage.ID}, []string(nil)
	for _, pair := range all {
		if slices.Contains(triage.Entries, pair.Name) {
			request.In = append(request.In, pair)
		} else {
			answers = append(answers, pair.Name+"="+pair.Text)
		}
	}
	if len(answers) > 0 {
		request.In = append(request.In, declare.Pair{Name: "answers", Text: strings.Join(answers, "\n")})
	}
	model, known, err := o.models.read()
	if err != nil {
		return err
	}
	return o.tell(t, calc.AnswerBy(known, request), failed, func(answer declare.Answer) string { return triaged(model, answer) })
}

// triaged is a triage for people.
func triaged(model *fault.Model, answer declare.Answer) string {
	table, left := map[string][][]declare.Cell{}, ""
	for _, given := range answer.Out {
		table[given.ID] = given.Rows
		if given.ID == "left" {
			left = ": " + given.Text
		}
	}
	var out strings.Builder
	out.WriteString("Triage\n\nWhat it may be\n")
	for _, row := range table["causes"] {
		if row[2].Value >= 0.02 || row[0].Text == triage.NotListed {
			fmt.Fprintf(&out, "  %9s  %s  (%s)\n", row[2].Text, row[1].Text, row[0].Text)
		}
	}
	out.WriteString("\nBy group\n")
	for _, row := range table["groups"] {
		fmt.Fprintf(&out, "  %9s  %s\n", row[1].Text, row[0].Text)
	}
	section(&out, "What the answers weigh, in tenths of a ban", rowsOf(table["answers"], func(row []declare.Cell) string {
		return strings.TrimSpace(fmt.Sprintf("%5s  %s=%s  %s %s", row[2].Text, row[0].Text, row[1].Text, row[4].Text, row[7].Text))
	}))
	out.WriteString("\nNext, the best first" + left + "\n")
	for i, row := range table["steps"] {
		fmt.Fprintf(&out, "  %d. %s\n     %s\n", i+1, stepLine(model, row), row[5].Text)
	}
	section(&out, "What would change this", rowsOf(table["turns"], func(row []declare.Cell) string {
		return fmt.Sprintf("%s=%s: “%s”, %s", row[0].Text, row[1].Text, row[2].Text, row[3].Text)
	}))
	out.WriteString("\nVerdict: " + answer.Verdict.Is + ". " + answer.Verdict.Text + "\n")
	section(&out, "Cautions", answer.Cautions)
	return out.String()
}

func rowsOf(rows [][]declare.Cell, line func([]declare.Cell) string) (lines []string) {
	for _, row := range rows {
		lines = append(lines, line(row))
	}
	return lines
}

// stepLine names a step with what it asks for.
func stepLine(model *fault.Model, row []declare.Cell) string {
	name, kind := row[0].Text, row[1].Text
	step := model.Step(name)
	if step == nil {
		return "Hand the job over"
	}
	about := fmt.Sprintf("%s (%s %s, %s min)", step.Title.Text, kind, name, row[3].Text)
	for _, tell := range step.Tells {
		f := model.Finding(tell.Text)
		about += "\n     " + f.Name + ": " + f.Title.Text + " " + ways(f)
	}
	return about
}

// ways are the answers to a question, as they are typed.
func ways(f *fault.Finding) string {
	if f.Measured() {
		return strings.TrimSpace("A number " + f.Unit.Symbol)
	}
	var names []string
	for _, a := range f.Answers {
		names = append(names, a.Name)
	}
	return "(" + strings.Join(names, ", ") + ")"
}
