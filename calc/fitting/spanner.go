package fitting

import (
	"math"

	"blankoff/calc/letters"
)

// Sizes of spanners: in half millimetres, and in thirty-seconds of an inch (the usual
// sets; common practice, no source).
var (
	metricSizes = [...]uint8{8, 10, 11, 12, 14, 16, 18, 20, 22, 24, 26, 28, 30, 32, 34, 36, 38, 40, 42, 44, 46, 48, 50, 52, 54, 56, 58, 60, 64, 68, 72, 76, 82, 92, 100}
	inchSizes   = [...]uint8{6, 8, 10, 11, 12, 14, 16, 18, 20, 22, 24, 26, 28, 30, 32, 34, 36, 40, 42, 44, 46, 48, 52, 54, 58, 60, 64}
)

// spanner is one size against a hexagon.
type spanner struct {
	size   float64 // mm
	metric bool
	gap    float64 // jaws less hexagon, mm
}

// tight is how far a hexagon may exceed the size of its spanner, mm: jaws are made that
// much wider (from memory).
const tight = 0.05

// loose is the gap beyond which a spanner rounds the corners, mm: a hexagon is made up to
// 0.2 mm and 0.7 % of its size under it (from memory, after the usual tolerance h13).
func (s *spanner) loose() float64 { return 0.2 + 0.007*s.size }

// nearest gives the two closest sizes of each system to a hexagon of h mm across flats,
// the closest first.
func nearest(h float64) [4]spanner {
	list := [4]spanner{{gap: far}, {gap: far}, {gap: far}, {gap: far}}
	for i := range metricSizes {
		place(list[:2], float64(metricSizes[i])/2, h, true)
	}
	for i := range inchSizes {
		place(list[2:], float64(inchSizes[i])*inch/32, h, false)
	}
	for i := range list {
		s := list[i]
		place(list[:i+1], s.size, h, s.metric)
	}
	return list
}

// far is a gap wider than any, mm.
const far = 1e9

// place moves a size up from the last place of an ordered list to where its gap belongs; what
// stood last goes. One as near as the last takes its place; further up it must be nearer.
func place(list []spanner, size, h float64, metric bool) {
	s := spanner{size, metric, size - h}
	for i := len(list) - 1; i >= 0; i-- {
		other := &list[i]
		slack := -tie
		if i == len(list)-1 {
			slack = tie
		}
		if math.Abs(s.gap) > math.Abs(other.gap)+slack {
			break
		}
		if i < len(list)-1 {
			list[i+1] = *other
		}
		*other = s
	}
}

// sixtyFourths writes a length in mm as inches and the nearest sixty-fourth, reduced:
// "1 3/8 in". It also gives what is left over, in mm.
func sixtyFourths(mm float64) (text string, rest float64) {
	parts := int(math.Round(mm / inch * 64))
	rest = mm - float64(parts)*inch/64
	whole, top, bottom := parts>>6, parts&63, 64
	if top == 0 {
		return letters.Whole(whole) + " in", rest
	}
	for top&1 == 0 {
		top, bottom = top>>1, bottom>>1
	}
	text = letters.Whole(top) + "/" + letters.Whole(bottom) + " in"
	if whole > 0 {
		text = letters.Whole(whole) + " " + text
	}
	return text, rest
}
