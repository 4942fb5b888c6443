package pumping

// point is a row of a table of two columns, with its place there.
type point struct {
	_    [0]func() // never compared: saves the code for it
	x, y float64
	row  int
}

// ascending sorts points by x, those of equal x by their row (Shell's sort: quick enough for
// any order, and small).
func ascending(list []point) {
	gap := 1
	for gap < len(list) {
		gap = 3*gap + 1
	}
	for ; gap > 0; gap /= 3 {
		for i := gap; i < len(list); i++ {
			p, at := list[i], i
			for ; at >= gap; at -= gap {
				q := &list[at-gap]
				if q.x < p.x || q.x == p.x && q.row < p.row {
					break
				}
				list[at] = *q
			}
			list[at] = p
		}
	}
}
