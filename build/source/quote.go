package source

import "strconv"

// Quote puts a word from a file in quotes for a message, cut to a readable length,
// with control characters made visible: a message must not be able to drive a terminal.
func Quote(text string) string {
	const most = 60
	runes := []rune(text)
	if len(runes) > most {
		text = string(runes[:most-1]) + "…"
	}
	return strconv.QuoteToGraphic(text)
}
