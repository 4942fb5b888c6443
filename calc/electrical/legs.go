package electrical

import "math"

// Four pins A, B, C, D make six pairs; pair i and pair 5 − i share no pin.
var (
	pairEnds  = [6][2]int8{{0, 1}, {0, 2}, {0, 3}, {1, 2}, {1, 3}, {2, 3}}
	pairIDs   = [6]string{"ab", "ac", "ad", "bc", "bd", "cd"}
	pairNames = [6]string{"A–B", "A–C", "A–D", "B–C", "B–D", "C–D"}
	pinNames  = [4]string{"A", "B", "C", "D"}
)

// legFit is what resistances between pins say of four legs that meet at one point.
type legFit struct {
	found               bool       // the readings determine every leg that they reach
	reached             [4]bool    // by any reading
	leg, u              [4]float64 // Ω, with standard uncertainty
	fitted              [6]float64 // what the legs give for a pair that was read
	residual, residualU [6]float64 // Ω; nought where nothing is left to compare
	spare               int        // readings more than unknowns: 2 for all six pairs
}

// fitLegs solves R_ij = r_i + r_j for the legs by least squares with equal weights.
//
// net are the pair resistances in Ω, NaN where there is none; u their standard
// uncertainties, each reading's own; common is that of an error which all readings
// share, as that of the subtracted leads: it moves every leg and no residual. For six
// readings r_i = (S_i − T) / 2 with S_i the sum at a pin and T a third of all, and a
// contact that adds δ to one pair leaves δ/3 there and at the pair that shares no pin
// with it, and −δ/6 at the four others.
func fitLegs(net, u *[6]float64, common float64) (f legFit) {
	var matrix [4][8]float64 // normal equations beside a unit matrix
	unknown := 0
	for i, ends := range pairEnds {
		if math.IsNaN(net[i]) {
			continue
		}
		f.spare++
		for _, end := range ends {
			f.reached[end] = true
			for _, other := range ends {
				matrix[end][other]++
			}
		}
	}
	for i := range f.reached {
		matrix[i][4+i] = 1
		if f.reached[i] {
			unknown++
		} else {
			matrix[i][i] = 1 // keeps the matrix regular; such a leg is not looked at
		}
	}
	f.spare -= unknown
	if f.found = invert(&matrix); f.found {
		f.solve(&matrix, net, u, common)
	}
	return f
}

// solve fills in legs and residuals; the right half of the matrix is the inverse.
func (f *legFit) solve(inverse *[4][8]float64, net, u *[6]float64, common float64) {
	var weight [4][6]float64 // of a reading in a leg
	for leg := range weight {
		sum, variance := 0.0, 0.0
		for i, ends := range pairEnds {
			if math.IsNaN(net[i]) {
				continue
			}
			w := inverse[leg][4+ends[0]] + inverse[leg][4+ends[1]]
			weight[leg][i] = w
			f.leg[leg] += w * net[i]
			variance += w * w * u[i] * u[i]
			sum += w
		}
		f.u[leg] = math.Sqrt(variance + sum*sum*common*common)
	}
	for i, ends := range pairEnds {
		if math.IsNaN(net[i]) {
			continue
		}
		f.fitted[i] = f.leg[ends[0]] + f.leg[ends[1]]
		f.residual[i] = net[i] - f.fitted[i]
		variance := 0.0
		for j := range u {
			share := -weight[ends[0]][j] - weight[ends[1]][j]
			if j == i {
				share++
			}
			if !math.IsNaN(net[j]) {
				variance += share * share * u[j] * u[j]
			}
		}
		f.residualU[i] = math.Sqrt(variance)
	}
}

// invert turns the left half into a unit matrix and so the right half into the inverse;
// false when the left half has none: the entries are small whole numbers, so a pivot is
// either nought but for rounding, or far from it.
func invert(m *[4][8]float64) bool {
	for col := range 4 {
		best := col
		for row := col; row < 4; row++ {
			if math.Abs(m[row][col]) > math.Abs(m[best][col]) {
				best = row
			}
		}
		if math.Abs(m[best][col]) < 1e-9 {
			return false
		}
		m[col], m[best] = m[best], m[col]
		pivot := m[col][col]
		for k := range m[col] {
			m[col][k] /= pivot
		}
		for row := range m {
			factor := m[row][col]
			if row == col || factor == 0 {
				continue
			}
			for k := range m[row] {
				m[row][k] -= factor * m[col][k]
			}
		}
	}
	return true
}

// openLegs says which legs must be broken for exactly the pairs marked over, among those
// given, to show no connection. masks are the smallest sets of legs that would do, bit 0
// for A; none: no set does, as where a probe missed its pin.
func openLegs(given, over *[6]bool) (masks []uint8) {
	size := 5
	for mask := uint8(0); mask < 16; mask++ {
		n := 0
		for bit := range 4 {
			n += int(mask >> bit & 1)
		}
		if n > size || !explains(mask, given, over) {
			continue
		}
		if n < size {
			masks, size = masks[:0], n
		}
		masks = append(masks, mask)
	}
	return masks
}

func explains(mask uint8, given, over *[6]bool) bool {
	for i, ends := range pairEnds {
		broken := mask&(1<<ends[0]|1<<ends[1]) != 0
		if given[i] && broken != over[i] {
			return false
		}
	}
	return true
}
