package electrical

import "math"

// Four pins A, B, C, D make six pairs; pair i and pair 5 − i share no pin.
var (
	pairEnds  = [6][2]uint8{{0, 1}, {0, 2}, {0, 3}, {1, 2}, {1, 3}, {2, 3}}
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
	for i := range pairEnds {
		if net[i] != net[i] { // not read
			continue
		}
		f.spare++
		a, b := pairEnds[i][0]&3, pairEnds[i][1]&3
		f.reached[a], f.reached[b] = true, true
		matrix[a][a]++
		matrix[b][b]++
		matrix[a][b]++
		matrix[b][a]++
	}
	for i := range f.reached {
		matrix[i][4+i] = 1
		if f.reached[i] {
			f.spare--
		} else {
			matrix[i][i] = 1 // keeps the matrix regular; such a leg is not looked at
		}
	}
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
		for i := range pairEnds {
			if net[i] != net[i] { // not read
				continue
			}
			w := inverse[leg][4+pairEnds[i][0]&3] + inverse[leg][4+pairEnds[i][1]&3]
			weight[leg][i] = w
			f.leg[leg] += w * net[i]
			variance += w * w * u[i] * u[i]
			sum += w
		}
		f.u[leg] = math.Sqrt(variance + sum*sum*common*common)
	}
	for i := range pairEnds {
		if net[i] != net[i] { // not read
			continue
		}
		a, b := pairEnds[i][0]&3, pairEnds[i][1]&3
		f.fitted[i] = f.leg[a] + f.leg[b]
		f.residual[i] = net[i] - f.fitted[i]
		variance := 0.0
		for j := range u { // a pair that was not read has no weight
			share := -weight[a][j] - weight[b][j]
			if j == i {
				share++
			}
			variance += share * share * u[j] * u[j]
		}
		f.residualU[i] = math.Sqrt(variance)
	}
}

// invert turns the left half into a unit matrix and so the right half into the inverse;
// false when the left half has none. The normal equations are symmetric and never
// negative, so the diagonal will do for pivots; their entries are small whole numbers, so
// a pivot is either nought but for rounding, or far from it.
func invert(m *[4][8]float64) bool {
	for col := range 4 {
		pivot := m[col][col]
		if math.Abs(pivot) < 1e-9 {
			return false
		}
		for k := range 8 {
			m[col][k] /= pivot
		}
		for row := range 4 {
			if factor := m[row][col]; row != col {
				for k := range 8 {
					m[row][k] -= factor * m[col][k]
				}
			}
		}
	}
	return true
}

// openLegs says which legs must be broken for exactly the pairs marked over, among those
// given, to show no connection: those of every set of legs that would do, bit 0 for A.
// Not found: no set does, as where a probe missed its pin.
func openLegs(given, over *[6]bool) (sure uint8, found bool) {
	sure = 15
	for mask := range uint8(16) {
		fits := true
		for i := range pairEnds {
			broken := (mask>>(pairEnds[i][0]&3)|mask>>(pairEnds[i][1]&3))&1 != 0
			fits = fits && (!given[i] || broken == over[i])
		}
		if fits {
			sure, found = sure&mask, true
		}
	}
	return sure, found
}
