package verify

import (
	"strings"

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
	m.written, m.at = inner, strings.Index(text, inner)
	return true
}

// cutBound takes the words of a limit off a text.
func cutBound(text string) (inner string, found sense) {
	plain := strings.ToLower(strings.Map(plainSpace, text))
	if len(plain) != len(text) { // no letter of these words changes its length
		plain = text
	}
	start := len(plain) - len(strings.TrimLeft(plain, " "))
	for _, b := range boundWords {
		if strings.HasPrefix(plain[start:], b.words) {
			return strings.Trim(text[start+len(b.words):], spaces), b.sense
		}
	}
	for _, b := range boundEndings {
		if strings.HasSuffix(plain, b.words) {
			return strings.Trim(text[:len(text)-len(b.words)], spaces), b.sense
		}
	}
	return text, ""
}

func plainSpace(r rune) rune {
	if r == '\n' || r == '\t' {
		return ' '
	}
	return r
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
	plain := strings.Map(plainSpace, text)
	at := 0
	for i := 0; i < len(plain); {
		cut := 0
		for _, word := range []string{", and ", ", or ", " and ", " or ", ", "} {
			if strings.HasPrefix(plain[i:], word) {
				cut = len(word)
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
