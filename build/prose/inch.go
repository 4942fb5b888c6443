package prose

import "strings"

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
		return !digitAt(text, next) && (next == end || strings.IndexByte(text[next:next+1], '(') == 0 || strings.HasPrefix(text[next:], "×") || strings.HasPrefix(text[next:], "±") || strings.HasPrefix(text[next:], "–"))
	case n.fraction || joined || !n.whole || n.to == end-len("in"):
		return !notInch[word]
	}
	return withInch[word]
}

var withInch = setOf("long wide deep high thick tall across apart away bore bores hose hoses pipe pipes tube tubes tubing line lines id od diameter dia of from by x " +
	"port ports fitting fittings flange flanges gap gaps nut nuts spanner spanners wrench socket sockets bolt bolts drill hole gauge dial shorter longer above below " +
	"to and or hex plug plugs valve valves tee tees clearance stub lead cable square round radius wrenches O ring rings seal copper steel rubber thread npt nipple elbow adaptor " +
	"inside outside pane panes clear free is are with")

var notInch = setOf("the a an this that these those each every any all one two three four five six seven eight nine ten your our its their his her some which what " +
	"total place front order turn addition case fact use water air oil step steps row sequence parallel series pencil winter summer spring")
