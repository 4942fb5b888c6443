package prose

import (
	"strings"
	"unicode/utf8"
)

// threadAround finds the designation of a thread in which a digit is the first: 1/8-27 NPT, R 1/8, M10x1.
func threadAround(text string, at int) (from, to int, ok bool) {
	if from, to, ok = letteredThread(text, at); ok {
		return from, to, true
	}
	if r, _ := utf8.DecodeLastRuneInString(text[:at]); at > 0 && (isWord(r) || r == '.' || r == ',' || r == '-') {
		return 0, 0, false
	}
	to, ok = sizedThread(text, at)
	return at, to, ok
}

// letteredThread reads what begins with a letter: R 1/8 and G 1/4 (ISO 7-1, ISO 228-1), M10x1 (ISO 261).
func letteredThread(text string, at int) (from, to int, ok bool) {
	end := at
	if size := spaceBefore(text, at); size > 0 {
		end -= size
	}
	from = end
	for from > 0 && end-from < 3 && (text[from-1]|0x20) >= 'a' && (text[from-1]|0x20) <= 'z' {
		from--
	}
	if wordEnds(text, from) || from > 0 && (text[from-1] == '-' || text[from-1] == '/') {
		return 0, 0, false
	}
	switch letters := text[from:end]; {
	case letters == "M" && end == at:
		to, ok = metricThread(text, at)
	case letters == "R" || letters == "Rc" || letters == "Rp" || letters == "G":
		to, ok = pipeSize(text, at, true)
		if ok {
			to = threadCount(text, to)
		}
	case letters == "NPT" || letters == "UNC" || letters == "UNF":
		to, ok = pipeSize(text, at, true)
	}
	return from, to, ok && !wordBegins(text, to) && hyphenAt(text, to) == 0
}

func spaceBefore(text string, at int) int {
	r, size := utf8.DecodeLastRuneInString(text[:at])
	if r == ' ' || r == '\u00a0' || r == '\u202f' || r == '\n' {
		return size
	}
	return 0
}

// metricSizes are the first choice of ISO 261, as written, and some of the second.
var metricSizes = setOf("1.6 2 2.5 3 4 5 6 7 8 10 12 14 16 18 20 22 24 27 30 33 36")

func metricThread(text string, at int) (to int, ok bool) {
	f, ok := readFigures(text, at)
	if !ok || !metricSizes[text[at:f.to]] {
		return 0, false
	}
	mark := skipGap(text, f.to)
	for _, times := range []string{"x", "×"} {
		if after, has := strings.CutPrefix(text[mark:], times); has {
			from := skipGap(text, len(text)-len(after))
			if pitch, ok := readFigures(text, from); ok && digitAt(text, from) && !wordBegins(text, pitch.to) {
				return pitch.to, true
			}
		}
	}
	return f.to, true
}

// pipeSize reads the size of a pipe thread: 1/8, 1 1/4; a whole number only where a name follows.
func pipeSize(text string, at int, fraction bool) (to int, ok bool) {
	n, ok := readNumber(text, at)
	return n.to, ok && !n.signed && (n.fraction || n.whole && !fraction && n.value <= 24)
}

// threadCount takes in the number of threads per inch behind a size: 1/8-27.
func threadCount(text string, at int) int {
	r, size := utf8.DecodeRuneInString(text[at:])
	if end := digitsEnd(text, min(len(text), at+size)); (r == '-' || r == '–') && end > at+size && end <= at+size+2 {
		return end
	}
	return at
}

// threadNames are those of ASME B1.20.1 and B1.1 and of the British pipe threads.
var threadNames = setOf("NPT NPTF NPS NPSM NPSC NPTR UNC UNF UNEF BSP BSPT BSPP")

// sizedThread reads what begins with a size: 1/8-27 NPT, 3/8 in NPT, 1/4-20 UNC-2A.
func sizedThread(text string, at int) (to int, ok bool) {
	if !sizeBegins(text, at) {
		return 0, false
	}
	if to, ok = pipeSize(text, at, false); !ok {
		return 0, false
	}
	to = threadCount(text, to)
	from := skipGap(text, to)
	for _, inch := range []string{`"`, "″", "in", "-in", "inch", "-inch"} {
		if end, is := matchWords(text, from, inch); is && skipGap(text, end) > end {
			from = skipGap(text, end)
		}
	}
	name := wordAt(text, from)
	to = from + len(name)
	if from < len(text) && text[from] == '-' || !threadNames[name] {
		return 0, false
	}
	if rest := text[to:]; len(rest) > 2 && rest[0] == '-' && rest[1] >= '1' && rest[1] <= '3' && (rest[2] == 'A' || rest[2] == 'B') {
		to += 3
	}
	return to, !wordBegins(text, to)
}

// sizeBegins sorts out the many numbers that no thread's name can follow.
func sizeBegins(text string, at int) bool {
	end := digitsEnd(text, at)
	if end-at > 2 || end >= len(text) {
		return false
	}
	switch text[end] {
	case '/', '-', '"':
		return true
	}
	next := skipGap(text, end)
	if digitAt(text, next) { // 1 1/4
		end = digitsEnd(text, next)
		return end < len(text) && text[end] == '/'
	}
	return next < len(text) && strings.IndexByte("NUBi", text[next]) >= 0
}
