package command

import (
	"io"
	"os"

	"golang.org/x/term"

	"blankoff/build/diagnostic"
)

// styleOf uses colours on a terminal, unless its owner asked for none (https://no-color.org).
func styleOf(w io.Writer) diagnostic.Style {
	file, ok := w.(*os.File)
	return diagnostic.Style{Colour: ok && os.Getenv("NO_COLOR") == "" && term.IsTerminal(int(file.Fd()))}
}
