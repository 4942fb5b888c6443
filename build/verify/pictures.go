package verify

import (
	"path"
	"strings"

	"blankoff/build/guide"
	"blankoff/build/source"
)

// noText holds words that say that there is a picture and not what is on it.
var noText = wordSet("picture image photo photograph figure drawing illustration icon sketch diagram pic img untitled placeholder alt text of the a an here")

// pictureTexts refuses texts of pictures that tell nothing: the name of the file, or "picture". That there is no text at
// all is said with the links.
func (c *checker) pictureTexts(page *guide.Guide) {
	for _, link := range page.Links {
		if !link.Picture || link.Text == "" {
			continue
		}
		file := path.Base(link.Target)
		switch {
		case sameName(link.Text, file):
			c.refuse("picture-text", link.TextSpan, source.Quote(link.Text)+" is only the name of the file", tellPicture)
		case emptyTalk(link.Text):
			c.refuse("picture-text", link.TextSpan, source.Quote(link.Text)+" does not tell what the picture shows", tellPicture)
		}
	}
}

const tellPicture = "write what it shows: ![the drain valve, handle across](…)"

// sameName compares a text with the name of a file, with or without its ending: door-pane.png, door pane.
func sameName(text, file string) bool {
	plain := func(s string) string { return strings.Join(wordsText(s), " ") }
	stem := strings.TrimSuffix(file, path.Ext(file))
	return strings.Contains(strings.TrimSpace(text), ".") && plain(text) == plain(file) || strings.ContainsAny(text, "-_") && plain(text) == plain(stem)
}

func wordsText(text string) []string {
	var list []string
	for _, w := range wordsOf(strings.ReplaceAll(text, "_", " ")) {
		list = append(list, w.text)
	}
	return list
}

func emptyTalk(text string) bool {
	for _, w := range wordsText(text) {
		if !noText[w] && strings.Trim(w, "0123456789") != "" {
			return false
		}
	}
	return true
}
