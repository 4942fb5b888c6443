package command

import (
	"fmt"
	"io/fs"
	"os"
	"strings"

	"blankoff/build/bundle"
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

// standalone gives a plot a name space, its colours and a ground. Only what a drawing needs is taken of the sheets.
func standalone(files fs.FS, d *plot.Drawing) (string, error) {
	style, err := bundle.PictureStyle(files)
	if err != nil {
		return "", err
	}
	head, rest, _ := strings.Cut(d.SVG(), ">")
	return head + ` xmlns="http://www.w3.org/2000/svg"><style>` + style + ".drawn { background: var(--paper); }\n</style>" + rest + "\n", nil
}
