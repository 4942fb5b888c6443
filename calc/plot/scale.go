package plot

import (
	"math"

	"blankoff/calc/letters"
	"blankoff/calc/quantity"
)

// tick is a line of an axis; without a label it is a short one.
type tick struct {
	at    float64 // in the axis' unit
	label string
}

// scale is an axis that knows its ends.
type scale struct {
	low, high float64 // in the axis' unit
	from, to  float64 // pixels
	log       bool
	unit      quantity.Unit
	ticks     []tick
}

// place is where a number of the axis' unit stands.
func (s *scale) place(x float64) float64 {
	low, high := s.low, s.high
	if s.log {
		x, low, high = math.Log(x), math.Log(low), math.Log(high)
	}
	return s.from + (s.to-s.from)*((x-low)/(high-low))
}

// of is the place of an SI value.
func (s *scale) of(si float64) float64 { return s.place(s.unit.From(si)) }

// shows tells whether a value can stand on the axis at all.
func (a *Axis) shows(si float64) bool {
	x := a.Unit.From(si)
	return math.Abs(x) < 1e100 && (!a.Log || x > 1e-100)
}

// nice is the nearest of 1, 2, 5 and 10 times a power of ten to a length, or the next above.
// Heckbert, Nice numbers for graph labels, in: Graphics Gems (1990) 61; from memory.
func nice(x float64, nearest bool) (times float64, power int) {
	power = int(math.Floor(math.Log10(x) + 1e-9))
	share := letters.Scale(x, -power)
	limits := [3]float64{1 + 1e-9, 2 + 1e-9, 5 + 1e-9}
	if nearest {
		limits = [3]float64{1.5, 3, 7}
	}
	for i, times := range [3]float64{1, 2, 5} {
		if share <= limits[i] {
			return times, power
		}
	}
	return 1, power + 1
}

// even is Heckbert's loose labelling with about so many lines: ends that hold low and high,
// and round numbers between them.
func even(low, high float64, about int) []float64 {
	times, power := nice(high-low, false)
	times, power = nice(letters.Scale(times, power)/float64(about-1), true)
	step := letters.Scale(times, power)
	first, last := math.Floor(low/step+1e-9), math.Ceil(high/step-1e-9)
	var list []float64
	for n := first; n <= last; n++ {
		list = append(list, letters.Scale(n*times, power))
	}
	return list
}

// settle gives an axis room where all readings are alike, or nearly so.
func settle(low, high float64, log bool) (float64, float64) {
	switch middle := (low + high) / 2; {
	case low > high:
		return 1, 10 // there is nothing to show
	case high-low > 1e-6*math.Abs(middle):
	case log:
		return low / 1.5, high * 1.5
	case middle == 0:
		return 0, 1
	default:
		return low - math.Abs(middle)/10, high + math.Abs(middle)/10
	}
	return low, high
}

// straight puts an axis between its ends, with numbers that fit.
func (s *scale) straight(low, high float64, lying bool) {
	for about := 6; about > 1; about-- {
		list := even(low, high, about)
		s.low, s.high, s.ticks = list[0], list[len(list)-1], nil
		room := math.Abs(s.to-s.from) / float64(len(list)-1)
		fits := lying || room > lead
		for _, x := range list {
			label := number(x)
			fits = fits && !(lying && width(label)+8 > room)
			s.ticks = append(s.ticks, tick{x, label})
		}
		if fits {
			return
		}
	}
}

// narrow is the ratio of the ends below which a logarithmic axis has even numbers.
const narrow = 3

// logarithmic puts an axis between its ends: lines at 1 to 9 times each power of ten,
// numbers at as many of them as have room, the powers of ten first.
func (s *scale) logarithmic(low, high float64, lying bool) {
	if high < narrow*low {
		s.straight(low, high, lying)
		if s.low <= 0 { // a foot at nought has no logarithm
			s.low, s.ticks = low, s.ticks[1:]
		}
		return
	}
	s.low, s.high = roundDown(low), 1/roundDown(1/high)
	first, last := int(math.Floor(math.Log10(s.low)+1e-9)), int(math.Ceil(math.Log10(s.high)-1e-9))
	for power := first; power <= last; power++ {
		for times := 1.0; times < 10; times++ {
			if x := letters.Scale(times, power); x >= s.low*(1-1e-9) && x <= s.high*(1+1e-9) {
				s.ticks = append(s.ticks, tick{at: x})
			}
		}
	}
	for _, wanted := range [4]float64{1, 2, 5, 3} {
		for i := range s.ticks {
			if t := &s.ticks[i]; math.Abs(letters.Scale(t.at, -int(math.Floor(math.Log10(t.at)+1e-9)))-wanted) < 1e-9 {
				t.label = number(t.at)
				if s.crowded(i, lying) {
					t.label = ""
				}
			}
		}
	}
}

// crowded tells whether a number runs into another one.
func (s *scale) crowded(i int, lying bool) bool {
	for j := range s.ticks {
		if a, b := &s.ticks[i], &s.ticks[j]; i != j && b.label != "" {
			need := lead
			if lying {
				need = (width(a.label)+width(b.label))/2 + 8
			}
			if math.Abs(s.place(a.at)-s.place(b.at)) < need {
				return true
			}
		}
	}
	return false
}

// roundDown is the largest of 1, 2 and 5 times a power of ten that is not above x.
func roundDown(x float64) float64 {
	power := int(math.Floor(math.Log10(x) + 1e-9))
	for _, times := range [2]float64{5, 2} {
		if r := letters.Scale(times, power); r <= x*(1+1e-9) {
			return r
		}
	}
	return letters.Scale(1, power)
}

func number(x float64) string { return quantity.Format(x, -1, quantity.One, 6) }
