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
	for _, half := range metricSizes {
		size := float64(half) / 2
		place(list[:2], spanner{size, true, size - h})
	}
	for _, part := range inchSizes {
		size := float64(part) * inch / 32
		place(list[2:], spanner{size, false, size - h})
	}
	for i := range list {
		place(list[:i+1], list[i])
	}
	return list
}

// far is a gap wider than any, mm.
const far = 1e9

// place moves s up from the last place of an ordered list to where its gap belongs; what
// stood last goes.
func place(list []spanner, s spanner) {
	i := len(list) - 1
	if math.Abs(s.gap) > math.Abs(list[i].gap)+tie {
		return
	}
	for ; i > 0 && math.Abs(s.gap) < math.Abs(list[i-1].gap)-tie; i-- {
		list[i] = list[i-1]
	}
	list[i] = s
}

// sixtyFourths writes a length in mm as inches and the nearest sixty-fourth, reduced:
// "1 3/8 in". It also gives what is left over, in mm.
func sixtyFourths(mm float64) (text string, rest float64) {
	parts := math.Round(mm / inch * 64)
	rest = mm - parts*inch/64
	whole := math.Floor(parts / 64)
	top, bottom := int(parts-64*whole), 64
	for top != 0 && top%2 == 0 {
		top, bottom = top/2, bottom/2
	}
	if whole > 0 || top == 0 {
		text = letters.Whole(int(whole))
	}
	if top != 0 {
		if text != "" {
			text += " "
		}
		text += letters.Whole(top) + "/" + letters.Whole(bottom)
	}
	return text + " in", rest
}
