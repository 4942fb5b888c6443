package verify

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"blankoff/calc/quantity"
)

// sense is the side on which a limit lets a value lie.
type sense string

const (
	over    sense = ">"
	atLeast sense = "≥"
	under   sense = "<"
	atMost  sense = "≤"
)

// boundWords are the ways in which the trade writes a limit, those first that hold others.
var boundWords = []struct {
	words string
	sense sense
}{
	{"no less than ", atLeast}, {"not less than ", atLeast}, {"at least ", atLeast}, {">=", atLeast}, {"≥", atLeast},
	{"no more than ", atMost}, {"not more than ", atMost}, {"at most ", atMost}, {"up to ", atMost}, {"<=", atMost}, {"≤", atMost},
	{"more than ", over}, {"greater than ", over}, {"over ", over}, {"above ", over}, {">", over},
	{"less than ", under}, {"under ", under}, {"below ", under}, {"<", under},
}

var boundEndings = []struct {
	words string
	sense sense
}{
	{" or more", atLeast}, {" or higher", atLeast}, {" or less", atMost}, {" or lower", atMost},
}

// readBound reads a value with the words of a limit: at least 1 MΩ, > 1 MΩ, 1 MΩ or more.
func (m *measure) readBound(text string) bool {
	inner, sense := cutBound(text)
	q, problem := quantity.Parse(inner)
	if sense == "" || problem != nil || q.Over {
		return false
	}
	m.Low, m.High, m.Form, m.Sense = q, q, value, sense
	m.written, m.at = inner, strings.Index(text, inner) // what stands before it holds no digit
	return true
}

// cutBound takes the words of a limit off a text.
func cutBound(text string) (inner string, found sense) {
	text = strings.Trim(text, spaces)
	for _, b := range boundWords {
		if n := wordsAt(text, b.words); n > 0 {
			return strings.Trim(text[n:], spaces), b.sense
		}
	}
	for _, b := range boundEndings {
		for i := range text {
			if n := wordsAt(text[i:], b.words); n > 0 && i+n == len(text) {
				return strings.Trim(text[:i], spaces), b.sense
			}
		}
	}
	return text, ""
}

// wordsAt is the length of some words at the start of a text, 0 if others stand there. Any space and either case will do.
func wordsAt(text, words string) int {
	rest := text
	for i := range len(words) {
		r, size := utf8.DecodeRuneInString(rest)
		if strings.ContainsRune(spaces, r) {
			r = ' '
		}
		want, n := utf8.DecodeRuneInString(words[i:])
		if n > 1 { // ≥, in one piece
			if strings.HasPrefix(rest, words) {
				return len(words)
			}
			return 0
		}
		if unicode.ToLower(r) != want {
			return 0
		}
		rest = rest[size:]
	}
	return len(text) - len(rest)
}

// item is one value of a list.
type item struct {
	quantity.Quantity
	text string
	at   int // where it starts in the text as it stands
}

// readList reads 1 and 4, or 100, 200 and 300 mTorr: single values that share the last one's unit.
func (m *measure) readList(text string) bool {
	parts, joint := splitList(text)
	if len(parts) < 2 {
		return false
	}
	last, problem := quantity.Parse(parts[len(parts)-1].text)
	if problem != nil {
		return false
	}
	for i := range parts {
		q, problem := quantity.Parse(parts[i].text)
		if problem == nil && q.Unit.Symbol == "" && last.Unit.Symbol != "" {
			q, problem = quantity.Parse(parts[i].text + " " + last.Unit.Symbol)
		}
		if problem != nil || q.Over || q.HasU {
			return false
		}
		parts[i].Quantity = q
	}
	m.Low, m.High, m.Form, m.Items, m.Joint = parts[0].Quantity, last, list, parts, joint
	return true
}

// splitList parts a text at commas followed by a space, "and" and "or".
func splitList(text string) (parts []item, joint string) {
	joint = "and"
	at := 0
	for i := 0; i < len(text); {
		cut := 0
		for _, word := range []string{", and ", ", or ", " and ", " or ", ", "} {
			if cut = wordsAt(text[i:], word); cut > 0 {
				if strings.HasSuffix(word, "or ") {
					joint = "or"
				}
				break
			}
		}
		if cut == 0 {
			i++
			continue
		}
		parts = append(parts, item{text: text[at:i], at: at})
		i += cut
		at = i
	}
	return append(parts, item{text: text[at:], at: at}), joint
}
