package verify

import (
	"math"
	"strconv"
	"strings"
	"unicode/utf8"
)

// figure is a number as it is written, with its places in the text. It is read by the rules by which quantities
// are read; whoever uses one compares its value with what was read (number.settle), so that the two cannot part unseen.
type figure struct {
	from, to int     // bytes of the digits, without sign and power of ten
	end      int     // behind the number as a whole
	value    float64 // with its sign and power of ten
	mantissa float64 // without them
	digits   int     // significant digits
	decimals int     // digits behind the decimal mark
	zeros    int     // at the end of a whole number
	decimal  string  // the decimal mark as written, "" if none
	group    string  // the thousands mark as written, "" if none
	fraction bool    // 11/16, 1 1/8: exact, and its value is not worked out here
	power    power
}

// power is the ×10⁻³ or e-3 behind a number.
type power struct {
	from, to int // bytes of its digits with their sign; both 0 if there is none
	value    int
	raised   bool // written in superscript figures
}

// scanFigure reads the number at the start of a text.
func scanFigure(text string) (figure, bool) {
	start := signLength(text)
	f := figure{from: start, to: start}
	body, marks := f.digitsOf(text)
	whole, fraction, decimal, group, ok := splitDigits(body)
	if space := strings.IndexByte(body, ' '); !ok && space > 0 { // a space may end the number: 1 1/8
		body = body[:space]
		f.to = start + space
		whole, fraction, decimal, group, ok = splitDigits(body)
	}
	if !ok {
		return figure{}, false
	}
	all := whole + fraction
	f.digits = max(len(strings.TrimLeft(all, "0")), 1)
	f.decimals, f.decimal, f.group = len(fraction), marks[decimal], marks[group]
	if f.decimals == 0 && f.digits > 1 {
		f.zeros = len(all) - len(strings.TrimRight(all, "0"))
	}
	f.end = f.to
	if n := fractionLength(text[f.to:]); n > 0 && f.decimals == 0 {
		f.fraction, f.end = true, f.to+n
		return f, true
	}
	f.mantissa, _ = strconv.ParseFloat(whole+"."+fraction, 64)
	f.readPower(text)
	value, err := strconv.ParseFloat(whole+"."+fraction+"e"+strconv.Itoa(f.power.value), 64)
	if f.value = value; strings.ContainsAny(text[:start], "-−–") {
		f.value = -value
	}
	return f, err == nil
}

// signLength is the length of a sign and the spaces behind it.
func signLength(text string) int {
	rest := text
	for _, sign := range []string{"-", "−", "–", "+"} {
		if after, found := strings.CutPrefix(text, sign); found {
			rest = strings.TrimLeft(after, " \u00a0\u2009\u202f")
		}
	}
	return len(text) - len(rest)
}

// digitsOf takes the digits and the marks between them, which it turns into plain ones and remembers.
func (f *figure) digitsOf(text string) (body string, marks map[byte]string) {
	marks = map[byte]string{}
	plain := make([]byte, 0, 16)
	for i := f.from; i < len(text); {
		r, size := utf8.DecodeRuneInString(text[i:])
		next := i + size
		switch c := plainMark(r); {
		case r >= '0' && r <= '9':
			plain = append(plain, byte(r))
		case c != 0 && next < len(text) && text[next] >= '0' && text[next] <= '9':
			plain = append(plain, c)
			marks[c] = text[i:next]
		default:
			return string(plain), marks
		}
		i, f.to = next, next
	}
	return string(plain), marks
}

func plainMark(r rune) byte {
	switch r {
	case '.', ',', '\'', ' ':
		return byte(r)
	case '’':
		return '\''
	case '\u00a0', '\u2009', '\u202f':
		return ' '
	}
	return 0
}

// splitDigits parts digits at the decimal mark and takes the thousands marks out: a comma before exactly three digits
// groups, any other single comma is a decimal comma.
func splitDigits(body string) (whole, fraction string, decimal, group byte, ok bool) {
	if strings.Trim(body, ".,' ") == "" || strings.Count(body, ".") > 1 {
		return "", "", 0, 0, false
	}
	whole = body
	for _, mark := range ".," {
		if before, after, found := strings.Cut(whole, string(mark)); found && decimal == 0 && (mark == '.' || strings.Count(body, ",") == 1 && !grouped(body, ',')) {
			whole, fraction, decimal = before, after, byte(mark)
		}
	}
	for _, mark := range []byte(",' ") {
		if strings.IndexByte(whole, mark) < 0 {
			continue
		}
		if !grouped(whole, mark) {
			return "", "", 0, 0, false
		}
		whole, group = strings.ReplaceAll(whole, string(mark), ""), mark
	}
	return whole, fraction, decimal, group, !strings.ContainsAny(fraction, ",' ")
}

// grouped tells whether a mark parts the digits in threes, as in 12,345,678.
func grouped(body string, mark byte) bool {
	groups := strings.Split(body, string(mark))
	if first := len(groups[0]); first < 1 || first > 3 || groups[0][0] == '0' {
		return false
	}
	for _, group := range groups[1:] {
		if len(group) != 3 || strings.Trim(group, "0123456789") != "" {
			return false
		}
	}
	return strings.Trim(groups[0], "0123456789") == ""
}

// fractionLength is the length of the rest of a fraction that stands behind a number: /16 of 11/16, 1/8 of 1 1/8.
func fractionLength(rest string) int {
	at := 0
	if r, size := utf8.DecodeRuneInString(rest); plainMark(r) == ' ' || r == '-' || r == '−' || r == '–' {
		at = size
		at += digitsAt(rest[at:])
		if at == size {
			return 0
		}
	}
	if at >= len(rest) || rest[at] != '/' {
		return 0
	}
	if n := digitsAt(rest[at+1:]); n > 0 {
		return at + 1 + n
	}
	return 0
}

func digitsAt(text string) int {
	return len(text) - len(strings.TrimLeft(text, "0123456789"))
}

const raisedDigits = "⁰¹²³⁴⁵⁶⁷⁸⁹"

// readPower reads e-5, E3, ×10^-5, x10-5 or ·10⁻⁵ behind the digits.
func (f *figure) readPower(text string) {
	rest := text[f.end:]
	tail := strings.TrimLeft(rest, " \u00a0\u2009\u202f")
	for _, mark := range []string{"e", "E", "×", "x", "·", "*"} {
		after, found := strings.CutPrefix(tail, mark)
		if !found {
			continue
		}
		if mark != "e" && mark != "E" {
			if after, found = strings.CutPrefix(strings.TrimLeft(after, " \u00a0\u2009\u202f"), "10"); !found {
				return
			}
			after = strings.TrimPrefix(after, "^")
		}
		f.takePower(len(text)-len(after), after)
		return
	}
}

func (f *figure) takePower(from int, text string) {
	n, sign, size := 0, 1, 0
	for i, r := range text {
		raised := strings.IndexRune(raisedDigits, r)
		switch {
		case i == 0 && strings.ContainsRune("-−–⁻", r):
			sign = -1
		case i == 0 && r == '+':
		case r >= '0' && r <= '9':
			n = n*10 + int(r-'0')
		case raised >= 0:
			n = n*10 + utf8.RuneCountInString(raisedDigits[:raised])
			f.power.raised = true
		default:
			r = utf8.RuneError
		}
		if r == utf8.RuneError || n > 999 {
			break
		}
		size = i + utf8.RuneLen(r)
	}
	if size == 0 || strings.Trim(text[:size], "-−–⁻+") == "" {
		return
	}
	f.power = power{from: from, to: from + size, value: sign * n, raised: f.power.raised}
	f.end = from + size
}

// step is the worth of the last digit.
func (f figure) step() float64 {
	return math.Pow(10, float64(f.power.value-f.decimals))
}
