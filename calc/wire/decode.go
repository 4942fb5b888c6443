// Package wire is the JSON contract of the calculators: one request in, one answer
// out. The browser's WebAssembly and the terminal's --json and --lines use the same
// code. It is written by hand because encoding/json and the reflection under it would
// more than double what a phone loads; see DEVELOPERS.md.
//
//	{"id":"rise-test","in":{"volume":"28 L","start":"120 mTorr"},"out":{"leak":"mbar·L/s"}}
//
// With "units":{"pressure":"Pa"} what it gives and says is in these units, by kind. With "plot":true,
// or "plot":{"pressure":"Pa"} for other units of the axes, the answer carries an SVG and the
// table behind it. With "page":true the answer is {"id":…,"html":…,"told":{…}} instead: as a page shows it, and in the words that a
// record keeps, by label.
package wire

import (
	"unicode/utf16"
	"unicode/utf8"

	"blankoff/calc/declare"
	"blankoff/calc/letters"
	"blankoff/calc/quantity"
)

// MaxRequest is the largest request accepted, in bytes.
const MaxRequest = 1 << 20

// maxPairs bounds the entries of one request; no calculator has as many.
const maxPairs = 200

// DecodeRequest reads one request. Entries may be JSON texts, numbers or null (blank);
// what else stands there is an error that names the place.
func DecodeRequest(data []byte) (declare.Request, error) {
	r, _, err := decode(data)
	return r, err
}

// decode also tells whether the answer is wanted as a page shows it, of which no calculator knows.
func decode(data []byte) (r declare.Request, page bool, err error) {
	if len(data) > MaxRequest {
		return r, false, requestError("the request is larger than 1 MiB")
	}
	d := decoder{text: data}
	err = d.object(func(key string) (err error) {
		switch key {
		case "id":
			r.ID, err = d.str()
		case "in":
			r.In, err = d.pairs()
		case "out":
			r.Out, err = d.pairs()
		case "units":
			r.Units, err = d.pairs()
		case "plot":
			r.Axes, err = d.plot()
			r.Plot = true
		case "page":
			err = d.yes()
			page = true
		default:
			err = d.fail("unknown member " + quantity.Quote(key) + "; a request has id, in, out, units, plot and page")
		}
		return err
	})
	if err == nil {
		if d.space(); d.at < len(d.text) {
			err = d.fail("something follows after the request")
		}
	}
	if err == nil && r.ID == "" {
		err = requestError(`the request names no calculator: "id" is missing`)
	}
	return r, page, err
}

// requestError says what is wrong with a request.
type requestError string

func (e requestError) Error() string { return string(e) }

// decoder reads JSON (RFC 8259) as far as requests use it: one object, two levels.
type decoder struct {
	text []byte
	at   int
}

func (d *decoder) fail(what string) error {
	return requestError("request, byte " + letters.Whole(d.at+1) + ": " + what)
}

func (d *decoder) space() {
	for d.at < len(d.text) && letters.IndexByte(" \t\r\n", d.text[d.at]) >= 0 {
		d.at++
	}
}

// take steps over c, if it comes next.
func (d *decoder) take(c byte) bool {
	d.space()
	if d.at < len(d.text) && d.text[d.at] == c {
		d.at++
		return true
	}
	return false
}

func (d *decoder) object(member func(key string) error) error {
	if !d.take('{') {
		return d.fail("a JSON object is expected")
	}
	if d.take('}') {
		return nil
	}
	for {
		key, err := d.str()
		if err != nil {
			return err
		}
		if !d.take(':') {
			return d.fail("a colon is expected")
		}
		if err := member(key); err != nil {
			return err
		}
		if d.take('}') {
			return nil
		}
		if !d.take(',') {
			return d.fail("a comma or } is expected")
		}
	}
}

func (d *decoder) pairs() ([]declare.Pair, error) {
	var list []declare.Pair
	err := d.object(func(key string) error {
		if len(list) == maxPairs {
			return d.fail("too many entries")
		}
		text, err := d.entry()
		list = append(list, declare.Pair{Name: key, Text: text})
		return err
	})
	return list, err
}

// plot reads true, or the units of the axes by kind: {"pressure":"Pa"}.
func (d *decoder) plot() ([]declare.Pair, error) {
	if d.isTrue() {
		return nil, nil
	}
	return d.pairs()
}

func (d *decoder) isTrue() bool {
	d.space()
	end := d.at + 4
	if end > len(d.text) || string(d.text[d.at:end]) != "true" {
		return false
	}
	d.at = end
	return true
}

func (d *decoder) yes() error {
	if !d.isTrue() {
		return d.fail("true is expected")
	}
	return nil
}

// entry reads a text, a number or null.
func (d *decoder) entry() (string, error) {
	d.space()
	if d.at < len(d.text) && d.text[d.at] == '"' {
		return d.str()
	}
	start := d.at
	for d.at < len(d.text) && letters.IndexByte("+-.eE0123456789nul", d.text[d.at]) >= 0 {
		d.at++
	}
	text := string(d.text[start:d.at])
	if text == "null" {
		return "", nil
	}
	if _, ok := letters.Float(text); !ok || !isNumber(text) {
		d.at = start
		return "", d.fail("an entry must be a text, such as \"28 L\"")
	}
	return text, nil
}

// isNumber tells whether what letters.Float reads is a number of JSON as well, which has
// digits on both sides of its point, no plus sign and no needless nought in front.
func isNumber(text string) bool {
	text = letters.TrimPrefix(text, "-")
	whole, fraction, hasPoint := letters.Cut(text, ".")
	digit := func(s string) bool { return s != "" && s[0] >= '0' && s[0] <= '9' }
	return digit(whole) && (whole[0] != '0' || len(whole) == 1 || !digit(whole[1:])) && (!hasPoint || digit(fraction)) && !letters.HasAny(text, "nul")
}

func (d *decoder) str() (string, error) {
	if !d.take('"') {
		return "", d.fail("a text in quotation marks is expected")
	}
	start := d.at
	for d.at < len(d.text) {
		switch c := d.text[d.at]; {
		case c == '"':
			text := d.text[start:d.at]
			d.at++
			return letters.Valid(string(text)), nil
		case c == '\\':
			return d.escaped(start)
		case c < ' ':
			return "", d.fail("a control character inside a text")
		}
		d.at++
	}
	return "", d.fail("a text is not closed")
}

// escaped reads the rest of a text that has a backslash at d.at.
func (d *decoder) escaped(start int) (string, error) {
	out := append([]byte(nil), d.text[start:d.at]...)
	for d.at < len(d.text) {
		c := d.text[d.at]
		d.at++
		switch {
		case c == '"':
			return letters.Valid(string(out)), nil
		case c < ' ':
			return "", d.fail("a control character inside a text")
		case c != '\\':
			out = append(out, c)
			continue
		}
		r, ok := d.escape()
		if !ok {
			return "", d.fail("an unknown escape")
		}
		out = utf8.AppendRune(out, r)
	}
	return "", d.fail("a text is not closed")
}

// escape reads what follows a backslash.
func (d *decoder) escape() (rune, bool) {
	if d.at >= len(d.text) {
		return 0, false
	}
	c := d.text[d.at]
	d.at++
	if at := letters.IndexByte(`"\/bfnrt`, c); at >= 0 {
		return rune("\"\\/\b\f\n\r\t"[at]), true
	}
	if c != 'u' {
		return 0, false
	}
	r, ok := d.hex()
	if !ok || !utf16.IsSurrogate(r) {
		return r, ok
	}
	if d.at+6 <= len(d.text) && d.text[d.at] == '\\' && d.text[d.at+1] == 'u' {
		mark := d.at
		d.at += 2
		low, ok := d.hex()
		if whole := utf16.DecodeRune(r, low); ok && whole != utf8.RuneError {
			return whole, true
		}
		d.at = mark
	}
	return utf8.RuneError, true
}

func (d *decoder) hex() (rune, bool) {
	if d.at+4 > len(d.text) {
		return 0, false
	}
	n := rune(0)
	d.at += 4
	for _, c := range d.text[d.at-4 : d.at] {
		if c >= 'A' && c <= 'F' {
			c |= ' '
		}
		value := letters.IndexByte("0123456789abcdef", c)
		if value < 0 {
			return 0, false
		}
		n = n<<4 | rune(value)
	}
	return n, true
}
