package command

import (
	"fmt"
	"io/fs"
	"os"
	"regexp"
	"strings"

	"blankoff/calc/plot"
	"blankoff/site"
)

// writePlot writes a plot as a file of its own, which brings the look of the pages with it.
func writePlot(path, id string, d *plot.Drawing) error {
	if d == nil {
		return fmt.Errorf("%s has no plot for these entries; leave --svg out", id)
	}
	picture, err := standalone(site.Files, d)
	if err != nil {
		return err
	}
	if err := os.WriteFile(path, []byte(picture), 0o666); err != nil {
		return fmt.Errorf("cannot write the plot: %w", err)
	}
	return nil
}

// palette finds the colours of the pages, light and dark.
var palette = regexp.MustCompile(`(?s):root \{.*?\n\}\n@media \(prefers-color-scheme: dark\) \{\n.*?\n\}\n`)

// standalone gives a plot a name space, its colours and a ground. Only what a drawing needs is taken of the sheets.
func standalone(files fs.FS, d *plot.Drawing) (string, error) {
	look, err := fs.ReadFile(files, "look.css")
	if err != nil {
		return "", err
	}
	drawn, err := fs.ReadFile(files, "drawn.css")
	if err != nil {
		return "", err
	}
	var style strings.Builder
	style.WriteString(string(palette.Find(look)) + ".drawn { background: var(--paper); font-family: sans-serif; }\n")
	for line := range strings.Lines(string(drawn)) {
		if strings.HasPrefix(line, ".drawn ") && !strings.HasPrefix(line, ".drawn {") {
			style.WriteString(line)
		}
	}
	style.WriteString(".drawn { fill: none; stroke: var(--ink); stroke-width: 1.5; stroke-linejoin: round; }\n")
	head, rest, _ := strings.Cut(d.SVG(), ">")
	return head + ` xmlns="http://www.w3.org/2000/svg"><style>` + style.String() + "</style>" + rest + "\n", nil
}
