package bundle

import (
	"io/fs"
	"regexp"
	"strings"
)

// palette finds the colours of the pages, light and dark.
var palette = regexp.MustCompile(`(?s):root \{.*?\n\}\n@media \(prefers-color-scheme: dark\) \{\n.*?\n\}\n`)

// PictureStyle is the look of a drawing that is a file of its own: the colours of the pages, and what a drawing needs of
// drawn.css.
func PictureStyle(site fs.FS) (string, error) {
	look, err := fs.ReadFile(site, "look.css")
	if err != nil {
		return "", fault("look.css", err)
	}
	drawn, err := fs.ReadFile(site, "drawn.css")
	if err != nil {
		return "", fault("drawn.css", err)
	}
	var style strings.Builder
	style.Write(palette.Find(look))
	style.WriteString(".drawn { fill: none; stroke: var(--ink); stroke-width: 1.5; stroke-linejoin: round; font-family: sans-serif; }\n")
	for line := range strings.Lines(string(drawn)) {
		if strings.HasPrefix(line, ".drawn ") && !strings.HasPrefix(line, ".drawn {") {
			style.WriteString(line)
		}
	}
	return style.String(), nil
}
