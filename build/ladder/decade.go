package ladder

import (
	"math"
	"strconv"
	"strings"
)

// tick is one line of the scale: a power of ten in the unit, or 2 to 9 times one.
type tick struct {
	pa     float64
	number string // empty between the powers of ten
}

// ticks gives the lines of the scale from top to bottom.
func (s Scale) ticks() []tick {
	top, bottom := s.Unit.From(s.TopPa), s.Unit.From(s.BottomPa)
	var all []tick
	for power := int(math.Floor(math.Log10(top))); power >= int(math.Floor(math.Log10(bottom))); power-- {
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
func (s Scale) amount(pa float64) string {
	value := s.Unit.From(pa)
	digits := 2 - int(math.Floor(math.Log10(value)))
	if digits <= 0 {
		unit := math.Pow10(-digits)
		return group(strconv.FormatFloat(math.Round(value/unit)*unit, 'f', 0, 64)) + " " + s.Unit.Symbol
	}
	text := strconv.FormatFloat(value, 'f', digits, 64)
	if strings.Contains(text, ".") {
		text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	}
	return text + " " + s.Unit.Symbol
}

func group(digits string) string {
	for i := len(digits) - 3; i > 0; i -= 3 {
		digits = digits[:i] + "," + digits[i:]
	}
	return digits
}
