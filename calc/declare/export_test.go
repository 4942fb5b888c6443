package declare

import (
	"math"
	"math/rand/v2"
)

// MonteCarlo draws entries and influences from normal distributions with their standard
// uncertainties, puts each draw through the calculator's own Eval, and gives the standard
// deviation of each output. Refused counts the draws that Eval would not take.
func MonteCarlo(c *Calculator, request Request, draws int, random *rand.Rand) (deviations []float64, refused int, fault *Fault) {
	n := &Numbers{c: c}
	if fault := n.read(request.In); fault != nil {
		return nil, 0, fault
	}
	if c.Study != nil {
		if n.studied = c.Study(n); n.fault != nil {
			return nil, 0, n.fault
		}
	}
	r := &Result{Numbers: n}
	u := r.uncertainties()
	nominal := n.x
	n.x, n.out, n.set = make([]float64, len(nominal)), make([]float64, len(c.Outputs)), make([]bool, len(c.Outputs))
	count, mean, squares := 0.0, make([]float64, len(c.Outputs)), make([]float64, len(c.Outputs))
	for range draws {
		n.fault = nil
		clear(n.out)
		clear(n.set)
		for i := range nominal {
			n.x[i] = nominal[i] + u[i]*random.NormFloat64()
		}
		c.Eval(n)
		if n.fault != nil {
			refused++
			continue
		}
		count++
		for i, value := range n.out { // Welford's running mean and sum of squares
			off := value - mean[i]
			mean[i] += off / count
			squares[i] += off * (value - mean[i])
		}
	}
	for i := range squares {
		squares[i] = math.Sqrt(squares[i] / (count - 1))
	}
	return squares, refused, nil
}
