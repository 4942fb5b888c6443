package rules

import "strings"

// File is a file of a content folder: its path in the folder, and its text.
type File struct{ Name, Text string }

// Archive is several files written below each other in one text, each below a line `-- NAME --`.
type Archive struct {
	Comment string // what stands before the first file
	Files   []File
}

// ParseArchive parts a text into its files. No text is faulty: without such a line all of it is comment.
func ParseArchive(text string) Archive {
	var a Archive
	for line := range strings.Lines(text) {
		name, isName := fileLine(line)
		switch {
		case isName:
			a.Files = append(a.Files, File{Name: name})
		case len(a.Files) == 0:
			a.Comment += line
		default:
			a.Files[len(a.Files)-1].Text += line
		}
	}
	return a
}

// fileLine reads the line above a file.
func fileLine(line string) (name string, is bool) {
	inner, opens := strings.CutPrefix(strings.TrimSpace(line), "-- ")
	name, closes := strings.CutSuffix(inner, " --")
	return strings.TrimSpace(name), opens && closes
}
