package source

import "strings"

// mostOfName is what fits into an address and a line of a message.
const mostOfName = 60

// PlainName tells lower-case words with hyphens, the form of all names in content.
func PlainName(name string) bool {
	for word := range strings.SplitSeq(name, "-") {
		if word == "" || strings.Trim(word, "abcdefghijklmnopqrstuvwxyz0123456789") != "" {
			return false
		}
	}
	return len(name) <= mostOfName
}

// SuggestName makes a plain name of what was written, or of nothing an example of one.
func SuggestName(written string) string {
	words := strings.FieldsFunc(strings.ToLower(written), func(r rune) bool {
		return (r < 'a' || r > 'z') && (r < '0' || r > '9')
	})
	name := strings.Join(words, "-")
	if name == "" || len(name) > mostOfName {
		return "rise-test"
	}
	return name
}
