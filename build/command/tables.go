package command

import (
	"fmt"
	"io"
	"os"
	"strings"
	"unicode/utf8"

	"github.com/spf13/cobra"

	"blankoff/calc"
	"blankoff/calc/declare"
	"blankoff/calc/wire"
)

// tableFile is the option that reads a table from a file; it bears the name of the entry.
type tableFile struct {
	input string
	path  *string
}

// tableFlags adds an option for every entry of any calculator that is a table.
func tableFlags(verb *cobra.Command) []tableFile {
	var files []tableFile
	for _, c := range calc.All() {
		for i := range c.Inputs {
			in := &c.Inputs[i]
			if in.Columns == nil || verb.Flags().Lookup(in.ID) != nil {
				continue
			}
			path := verb.Flags().String(in.ID, "", "read the table "+in.ID+" from `FILE`, as comma-separated text")
			files = append(files, tableFile{in.ID, path})
		}
	}
	return files
}

// given are the options that name a file.
func given(files []tableFile) (all []tableFile) {
	for _, file := range files {
		if *file.path != "" {
			all = append(all, file)
		}
	}
	return all
}

func (f tableFile) read(t terminal) (string, error) {
	from := t.in
	if *f.path != "-" {
		file, err := os.Open(*f.path)
		if err != nil {
			return "", fmt.Errorf("cannot read the table of --%s: %w", f.input, err)
		}
		defer file.Close()
		from = file
	}
	text, err := io.ReadAll(io.LimitReader(from, wire.MaxRequest+1))
	switch {
	case err != nil:
		return "", fmt.Errorf("cannot read the table of --%s: %w", f.input, err)
	case len(text) > wire.MaxRequest:
		return "", fmt.Errorf("the table of --%s is larger than 1 MiB; leave rows out", f.input)
	}
	return string(text), nil
}

// writeTable sets a table in columns, numbers to the right.
func writeTable(out *strings.Builder, g declare.Given) {
	if g.Columns == nil {
		return
	}
	heads, widths := make([]string, len(g.Columns)), make([]int, len(g.Columns))
	for i, column := range g.Columns {
		heads[i] = column.Label
		if column.Unit != "" {
			heads[i] += ", " + column.Unit
		}
		widths[i] = utf8.RuneCountInString(heads[i])
		for _, row := range g.Rows {
			widths[i] = max(widths[i], utf8.RuneCountInString(row[i].Text))
		}
	}
	line := func(text func(i int) (string, bool)) {
		out.WriteString("   ")
		for i := range g.Columns {
			said, right := text(i)
			gap := strings.Repeat(" ", widths[i]-utf8.RuneCountInString(said))
			if right {
				out.WriteString(" " + gap + said)
			} else {
				out.WriteString(" " + said + gap)
			}
		}
		out.WriteString("\n")
	}
	line(func(i int) (string, bool) { return heads[i], g.Columns[i].Kinds != nil })
	for _, row := range g.Rows {
		line(func(i int) (string, bool) { return row[i].Text, g.Columns[i].Kinds != nil })
	}
}
