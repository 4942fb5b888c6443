package fit

import "math"

// Line is y = Intercept + Slope x.
type Line struct {
	_                  [0]func() // never compared: saves the code for it
	Slope, Intercept   float64
	USlope, UIntercept float64
	Covariance         float64 // of slope and intercept
	S, SS              float64 // standard deviation and sum of squares of the residuals
	RSquared           float64
	Freedom            int
}

// At is the line at x.
func (l *Line) At(x float64) float64 { return l.Intercept + l.Slope*x }

// UAt is the standard uncertainty of the line at x.
func (l *Line) UAt(x float64) float64 {
	v := l.UIntercept*l.UIntercept + 2*x*l.Covariance + x*x*l.USlope*l.USlope
	return math.Sqrt(math.Max(0, v))
}

// Straight is the ordinary line of least squares; its uncertainties come from the
// scatter of the readings: u(b) = s/√Σ(x − x̄)² (Draper & Smith, Applied Regression
// Analysis, chapter 1; certified values of NIST StRD, Norris). It needs three readings
// at two places.
func Straight(x, y []float64) (Line, bool) {
	if len(x) != len(y) || len(x) < 3 || !finite(x, y) {
		return Line{}, false
	}
	dx, meanX := centred(x)
	dy, meanY := centred(y)
	sxx := dot(dx, dx)
	if !spread(sxx, meanX, len(x)) {
		return Line{}, false
	}
	slope := dot(dx, dy) / sxx
	total := dot(dy, dy)
	less(dy, slope, dx) // the residuals; what slope is left in them is rounding
	more := dot(dx, dy) / sxx
	less(dy, more, dx)
	l := Line{Slope: slope + more, SS: dot(dy, dy), Freedom: len(x) - 2, RSquared: 1}
	l.Intercept = meanY - l.Slope*meanX
	l.S = math.Sqrt(l.SS / float64(l.Freedom))
	if total > 0 {
		l.RSquared = 1 - l.SS/total
	}
	l.known(l.S*l.S/sxx, l.S*l.S/float64(len(x)), meanX)
	return l, true
}

// Weighted is the line of least squares through readings of which each has its own
// standard uncertainty. The uncertainties of the line come from those stated, not from
// the scatter; SS over Freedom near 1 says that the two agree.
func Weighted(x, y, u []float64) (Line, bool) {
	if len(x) != len(y) || len(x) != len(u) || len(x) < 2 || !finite(x, y, u) {
		return Line{}, false
	}
	weight, sum, meanX, meanY := make([]float64, len(x)), 0.0, 0.0, 0.0
	for i := range x {
		if !(u[i] > 0) {
			return Line{}, false
		}
		weight[i] = 1 / (u[i] * u[i])
		sum += weight[i]
	}
	for pass := 0; pass < 2; pass++ {
		offX, offY := 0.0, 0.0
		for i := range x {
			offX += weight[i] * (x[i] - meanX)
			offY += weight[i] * (y[i] - meanY)
		}
		meanX, meanY = meanX+offX/sum, meanY+offY/sum
	}
	dx, dy := make([]float64, len(x)), make([]float64, len(x)) // in units of u
	for i := range x {
		dx[i], dy[i] = (x[i]-meanX)/u[i], (y[i]-meanY)/u[i]
	}
	sxx := dot(dx, dx)
	if !spread(sxx/sum*float64(len(x)), meanX, len(x)) {
		return Line{}, false
	}
	slope, total := dot(dx, dy)/sxx, dot(dy, dy)
	less(dy, slope, dx)
	l := Line{Slope: slope, Intercept: meanY - slope*meanX, SS: dot(dy, dy), Freedom: len(x) - 2, RSquared: 1}
	if l.Freedom > 0 {
		l.S = math.Sqrt(l.SS / float64(l.Freedom))
	}
	if total > 0 {
		l.RSquared = 1 - l.SS/total
	}
	l.known(1/sxx, 1/sum, meanX)
	return l, true
}

// Origin is the line of least squares through the origin (NIST StRD, NoInt1).
func Origin(x, y []float64) (Line, bool) {
	if len(x) != len(y) || len(x) < 2 || !finite(x, y) {
		return Line{}, false
	}
	sxx := dot(x, x)
	if !(sxx > 0) || math.IsInf(sxx, 0) {
		return Line{}, false
	}
	l := Line{Slope: dot(x, y) / sxx, Freedom: len(x) - 1, RSquared: 1}
	rest := append([]float64(nil), y...)
	less(rest, l.Slope, x)
	l.SS = dot(rest, rest)
	l.S = math.Sqrt(l.SS / float64(l.Freedom))
	l.USlope = l.S / math.Sqrt(sxx)
	if total := dot(y, y); total > 0 {
		l.RSquared = 1 - l.SS/total // from the origin, as there is no mean in the model
	}
	return l, true
}

// known fills in the uncertainties from the variances of the slope and of the height at
// the mean of x, which are independent.
func (l *Line) known(slope, height, meanX float64) {
	l.USlope = math.Sqrt(slope)
	l.UIntercept = math.Sqrt(height + meanX*meanX*slope)
	l.Covariance = -meanX * slope
}

// spread tells whether the places of the readings differ by more than rounding.
func spread(sxx, meanX float64, n int) bool {
	least := 1e-14 * math.Abs(meanX)
	return sxx > float64(n)*least*least && !math.IsInf(sxx, 0)
}
