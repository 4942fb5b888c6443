package prose

import "strings"

// talk is what a sentence speaks of, found once for each.
type talk struct {
	from, to                              int
	vacuum, standard, kilohms, warm, turn bool
}

// about tells what the sentence at a place speaks of. Places come in order, so that no part of the text is read twice.
func (s *scanner) about(at int) talk {
	for at >= s.talk.to {
		from := s.talk.to
		to := sentenceEnd(s.text, from)
		s.talk = talk{from: from, to: to}
		if to <= at {
			continue
		}
		low := strings.ToLower(s.text[from:min(to, len(s.text))])
		has := func(words ...string) bool {
			for _, word := range words {
				if strings.Contains(low, word) {
					return true
				}
			}
			return false
		}
		s.talk.vacuum = has("vacuum", "evacuat", "suction", "chamber", "pump pulls", "pumped down", "pumps down", "pump-down", "pull-down")
		s.talk.standard = has("counted at", "reference", "standard", "sccm at", "slm at", "sccm (", "slm (")
		s.talk.kilohms = has("resist", "thermistor", "ntc", "potentiometer", "ohm", "ω", "probe", "meter")
		s.talk.warm = has("temperature", "trap", "room", "warm", "cold", "cool", "heat", "freez", "shelf", "oil")
		s.talk.turn = has("turn", "rotat", "angle", "apart", "clock", "handle", "bend", "tilt")
	}
	return s.talk
}

// sentenceEnd is where the sentence that begins at a place ends.
func sentenceEnd(text string, at int) int {
	for ; at < len(text); at++ {
		switch text[at] {
		case '.', '!', '?':
			if next := skipGap(text, at+1); next > at+1 && (next >= len(text) || text[next] < 'a' || text[next] > 'z') {
				return next
			}
		case '\n':
			if at+1 < len(text) && text[at+1] == '\n' {
				return at + 1
			}
		}
	}
	return len(text) + 1
}
