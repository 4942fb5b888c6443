package diagnostic

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/clipperhouse/uax29/v2/graphemes"
	"github.com/mattn/go-runewidth"
)

// cell is a letter with its marks, as a terminal shows it, or a sign in place of what cannot be seen.
type cell struct {
	text  string
	width int // columns that it takes
}

const (
	tabWidth  = 4
	mostMarks = 4   // on one letter: more would climb over the lines around
	sign      = "·" // for a byte that is no text, or a control character
)

// terminal has no part that depends on where the program runs: the same content gives the same bytes.
var terminal = &runewidth.Condition{StrictEmojiNeutral: true}

// cells parts a text into what stands in a column of its own; column is where the text begins.
func cells(text string, column int) []cell {
	var out []cell
	for letters := graphemes.FromString(text); letters.Next(); {
		for _, c := range visible(letters.Value()) {
			if c.text == "\t" {
				c = cell{strings.Repeat(" ", tabWidth-column%tabWidth), tabWidth - column%tabWidth}
			}
			out = append(out, c)
			column += c.width
		}
	}
	return out
}

// visible shows one letter as it is, or rune by rune if something in it cannot be seen or could steer the terminal.
func visible(letter string) []cell {
	if letter == "\t" {
		return []cell{{letter, 1}}
	}
	runes, hidden := 0, false
	for _, r := range letter {
		runes++
		hidden = hidden || signOf(r) != ""
	}
	if !hidden && runes <= 1+mostMarks {
		return []cell{{letter, terminal.StringWidth(letter)}}
	}
	var out []cell
	for i, r := range []rune(letter) {
		switch s := signOf(r); {
		case s != "":
			out = append(out, cell{s, utf8.RuneCountInString(s)})
		case i <= mostMarks || terminal.RuneWidth(r) > 0:
			out = append(out, cell{string(r), terminal.RuneWidth(r)})
		}
	}
	return out
}

// signOf stands for what has no look of its own: a dot for bytes and control characters, the code point for what turns
// or hides the text around it, such as a change of the writing's direction.
func signOf(r rune) string {
	switch {
	case unicode.IsControl(r), r == utf8.RuneError:
		return sign
	case !unicode.IsGraphic(r), unicode.Is(unicode.Other_Default_Ignorable_Code_Point, r):
		return fmt.Sprintf("<U+%04X>", r)
	}
	return ""
}

func columns(list []cell) int {
	sum := 0
	for _, c := range list {
		sum += c.width
	}
	return sum
}

// Clean keeps a text from the content from steering the terminal: what cannot be seen is shown as a sign.
func Clean(text string) string {
	if strings.IndexFunc(text, func(r rune) bool { return signOf(r) != "" }) < 0 {
		return text
	}
	var b strings.Builder
	for _, r := range text {
		if s := signOf(r); s != "" {
			b.WriteString(s)
		} else {
			b.WriteRune(r)
		}
	}
	return b.String()
}
