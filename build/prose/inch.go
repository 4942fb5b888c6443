package prose

import (
	"strings"
	"unicode/utf8"

	"blankoff/calc/quantity"
)

// isInch decides whether the word in behind a number is the inch, by what follows: 3 in long, 11/16 in hose, but 3 in the
// chamber and 1 in 10. Whole numbers need a word that goes with a length; what only lengths are written with (a fraction,
// a point, a hyphen) needs one that speaks against it.
func isInch(text string, end int, n number, joined bool) bool {
	next := skipGap(text, end)
	if next >= len(text) {
		return true
	}
	word := strings.ToLower(wordAt(text, next))
	switch {
	case word == "":
		r, _ := utf8.DecodeRuneInString(text[next:])
		return next == end && r != '/' && !digitAt(text, next) || strings.ContainsRune("(×±–", r)
	case n.fraction || joined || !n.whole || n.to == end-len("in"):
		return !notInch[word]
	}
	return withInch[word]
}

var withInch = setOf("long wide deep high thick tall across apart away bore bores hose hoses pipe pipes tube tubes tubing line lines id od diameter dia of from by x " +
	"port ports fitting fittings flange flanges gap gaps nut nuts spanner spanners wrench socket sockets bolt bolts drill hole gauge dial shorter longer above below " +
	"to and or hex plug plugs valve valves tee tees clearance stub lead cable square round radius wrenches o ring rings seal copper steel rubber thread npt nipple elbow adaptor " +
	"inside outside pane panes clear is")

var notInch = setOf("the a an this that these those each every any all one two three four five six seven eight nine ten your our its their his her some which what " +
	"total place front order turn addition case fact use water air oil step steps row sequence parallel series pencil winter summer spring")

// quotes counts the quotation marks up to a place.
type quotes struct {
	to   int
	open bool
}

// quoted tells whether a straight quotation mark before a place is still open.
func (s *scanner) quoted(at int) bool {
	for ; s.quotes.to < at; s.quotes.to++ {
		if s.text[s.quotes.to] == '"' {
			s.quotes.open = !s.quotes.open
		}
	}
	return s.quotes.open
}

// primeUnit reads the signs for inches and feet. Only behind a fraction are they sure: 11/16" is a size, 30" may be many things.
func primeUnit(text string, from int, n number) unit {
	if from != n.to {
		return unit{}
	}
	for _, sign := range []struct {
		text  string
		worry worry
	}{{`"`, inchMark}, {"″", inchMark}, {"'", footMark}, {"′", footMark}} {
		end := from + len(sign.text)
		if !strings.HasPrefix(text[from:], sign.text) || wordBegins(text, end) {
			continue
		}
		u := unit{from: from, to: end, worry: sign.worry}
		if n.fraction && sign.worry == inchMark {
			u.worry, u.Unit = 0, inch
		}
		return u
	}
	return unit{}
}

var inch = quantity.MustUnit("in")

// apostrophe tells whether a single quotation mark is open in front of a place, in the words just before it.
func apostrophe(text string, at int) bool {
	before := text[max(0, at-60):at]
	i := strings.LastIndexByte(before, '\'')
	return i >= 0 && (i == 0 || !wordEnds(before, i))
}

// isQuote tells whether the sign that would be inches or feet closes a quotation.
func (s *scanner) isQuote(u unit) bool {
	switch s.text[u.from] {
	case '"':
		if s.quoted(u.from) {
			return true
		}
		s.quotes.to = u.to
	case '\'':
		return apostrophe(s.text, u.from)
	}
	return false
}
