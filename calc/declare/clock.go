package declare

import (
	"blankoff/calc/letters"
	"blankoff/calc/quantity"
)

// clock is a column of times of a table that may be written with colons, as watches, loggers
// and spreadsheets do: 4:30, 1:04:30, 14:05:00.
type clock struct {
	_           [0]func() // never compared: saves the code for it
	bare        bool      // the first line gives it no unit: then every cell needs its colons
	first       float64   // what the first of two figures counts, in s; 0 where nobody said
	began, last float64   // s; of a time of day
	day         bool      // the cells are times of day
	seen        bool
}

// readUnit takes what stands beside the name of a column of times, and tells whether it is one
// of the forms with colons, or nothing at all.
func (c *clock) readUnit(text string) bool {
	first := byte(0)
	if text != "" {
		first = text[0] | 0x20
	}
	switch colons := letters.IndexByte(text, ':') > 0; {
	case quantity.SameWord(text, "clock"), colons && first == 'h':
		c.first = 3600
	case colons && first == 'm':
		c.first = 60
	case text != "":
		return false
	}
	c.bare = true
	return true
}

// unit takes the unit of the column: of 4:30 the 4 are such.
func (c *clock) unit(u quantity.Unit) {
	if c.first = u.To(1); c.first < 60 { // of a column of seconds minutes
		c.first = 60
	}
}

// read reads a cell with colons as seconds, or says what is wrong.
func (c *clock) read(field string) (seconds float64, wrong string) {
	rest, parts := field, 0
	for more := true; more; parts++ {
		var figure string
		figure, rest, more = letters.Cut(rest, ":")
		x, ok := letters.Float(letters.Replace(figure, ",", "."))
		if !ok || x < 0 || parts > 0 && x >= 60 || parts > 2 || len(figure) > 12 {
			return 0, quantity.Quote(field) + " is no time such as 4:30 or 1:04:30"
		}
		seconds = seconds*60 + x
	}
	if parts == 2 {
		if c.first == 0 {
			return 0, quantity.Quote(field) + " may be minutes and seconds, or hours and minutes; write “time m:ss” or “time h:mm” in the first line"
		}
		seconds *= c.first / 60
	}
	if !c.bare || c.first == 60 {
		return seconds, ""
	}
	// A log of a few hours does not begin in its second hour: then it is the time of day, which starts anew at midnight.
	if !c.seen {
		c.seen, c.began, c.last, c.day = true, seconds, seconds, seconds >= 3600
	}
	if !c.day {
		return seconds, ""
	}
	for seconds < c.last-43200 {
		seconds += 86400
	}
	c.last = seconds
	return seconds - c.began, ""
}
