package ladder

import (
	"math"
	"strings"

	"blankoff/calc/quantity"
)

// tick is one line of the scale: a power of ten in the unit, or 2 to 9 times one.
type tick struct {
	pa     float64
	number string // empty between the powers of ten
}

// lines draws the ticks as two paths, the long ones of the powers of ten and the short ones between. Within a decade the
// short ones are told by their distances, which are the same in each decade: a compressed page has them but once.
func (c *canvas) lines(ticks []tick, place func(pa float64) float64, start func(at float64, long bool) string, next func(way float64) string) {
	var short, long strings.Builder
	last := math.NaN()
	for _, t := range ticks {
		at := place(t.pa)
		switch {
		case t.number != "":
			long.WriteString(start(at, true))
			last = math.NaN()
			continue
		case math.IsNaN(last):
			short.WriteString(start(at, false))
		default:
			short.WriteString(next(at - last))
		}
		last = at
	}
	c.put(`<path class="tick" d="%v"/><path class="decade" d="%v"/>`, short.String(), long.String())
}

// ticks gives the lines of the scale from top to bottom.
func (s Scale) ticks() []tick {
	top, bottom := s.Unit.From(s.TopPa), s.Unit.From(s.BottomPa)
	first, last := int(math.Floor(math.Log10(top))), int(math.Floor(math.Log10(bottom)))
	all := make([]tick, 0, 9*(first-last+1))
	for power := first; power >= last; power-- {
		for times := 9; times >= 1; times-- {
			pa := s.Unit.To(float64(times) * math.Pow10(power))
			if !s.holds(pa) {
				continue
			}
			line := tick{pa: pa}
			if times == 1 {
				line.number = powerOfTen(power)
			}
			all = append(all, line)
		}
	}
	return all
}

// powerOfTen writes the number out as the trade reads it: 100,000 and 0.01, not 1e5.
func powerOfTen(power int) string {
	if power < 0 {
		return "0." + strings.Repeat("0", -power-1) + "1"
	}
	return group("1" + strings.Repeat("0", power))
}

// amount writes a pressure in the ladder's unit to three figures, for those who hear the ladder instead of seeing it.
func (s Scale) amount(pa float64) string { return quantity.Format(pa, -1, s.Unit, 3) }

func group(digits string) string {
	for i := len(digits) - 3; i > 0; i -= 3 {
		digits = digits[:i] + "," + digits[i:]
	}
	return digits
}
