package pumping

import "math"

// Load is the gas that enters the chamber while it is pumped.
type Load struct {
	Leak       float64 // constant, Pa·m³/s
	Outgassing float64 // what the walls give off an hour after the start, Pa·m³/s; falls as 1/t
}

const (
	hour = 3600.0
	// steady is the time up to which outgassing is held, s: 1/t has no beginning, and in
	// the first minute the gas of the chamber hides it.
	steady = 60.0
)

// at gives the load at a time after the start of pumping, and how fast it changes.
func (l Load) at(t float64) (flow, rate float64) {
	if t < steady {
		return l.Leak + l.Outgassing*hour/steady, 0
	}
	wall := l.Outgassing * hour / t
	return l.Leak + wall, -wall / t
}

// descent is the pump-down of a volume: V dp/dt = load(t) − Q(p). It is integrated in
// y = ln(p − blank-off), in which a pump without hose and load comes down on a straight
// line. Time runs in seconds.
type descent struct {
	volume float64
	table  *flowTable
	load   Load
}

// slopes is dy/dt with its derivatives by y and by t.
func (d *descent) slopes(t, y float64) (f, byY, byT float64) {
	load, rate := d.load.at(t)
	inverse := math.Exp(-y) / d.volume
	z, tilt := d.table.at(y)
	out := math.Exp(z) * inverse
	return load*inverse - out, -load*inverse - out*(tilt-1), rate * inverse
}

// step goes on by h with a Rosenbrock method of order four and its embedded one of order
// three, and says by how much the two differ (RODAS: E. Hairer, G. Wanner, Solving Ordinary
// Differential Equations II; coefficients from memory, their order is tested). It needs no
// iteration, and near the floor, where the pressure merely follows the load and an explicit
// method would have to creep, its steps stay as long as the curve is smooth.
func (d *descent) step(t, y, h, f, byY, byT float64) (next, failure float64) {
	var k [6]float64
	a := 4/h - byY
	at, mix := 0, y
	for i := range k {
		if i > 0 {
			mix = y
			push := 0.0
			for j := range i {
				mix += rodasA[at] * k[j]
				push += rodasC[at] * k[j]
				at++
			}
			f, _, _ = d.slopes(t+rodasAt[i]*h, mix)
			f += push / h
		}
		k[i] = (f + h*rodasT[i]*byT) / a
	}
	return mix + k[5], k[5]
}

// The coefficients of RODAS, row by row, in the form that needs no product with the Jacobian.
var (
	rodasA = [15]float64{1.544,
		0.9466785280815826, 0.2557011698983284,
		3.314825187068521, 2.896124015972201, 0.9986419139977817,
		1.221224509226641, 6.019134481288629, 12.53708332932087, -0.6878860361058950,
		1.221224509226641, 6.019134481288629, 12.53708332932087, -0.6878860361058950, 1}
	rodasC = [15]float64{-5.6688,
		-2.430093356833875, -0.2063599157091915,
		-0.1073529058151375, -9.594562251023355, -20.47028614809616,
		7.496443313967647, -10.24680431464352, -33.99990352819905, 11.70890893206160,
		8.083246795921522, -7.981132988064893, -31.52159432874371, 16.31930543123136, -6.058818238834054}
	rodasAt = [6]float64{0, 0.386, 0.21, 0.63, 1, 1}
	rodasT  = [6]float64{0.25, -0.1043, 0.1035, -0.03620000000000023, 0, 0}
)

// tolerance of one step in ln(p − blank-off). The table behind it is good to some 1e-5.
const tolerance = 4e-6

// mostSteps ends what cannot be reached in reason; 60 are usual.
const mostSteps = 4000

// run goes down from y, and puts in place of each of the levels, which fall, the time at which
// it is reached for the first time. It returns how many were reached.
//
// Steps are whole powers of two of a second. Were they what the error suggests to the last
// figure, then the last figure of an entry, or of another machine's exp, would change all
// the steps after it, and the result in its seventh figure.
func (d *descent) run(y float64, levels []float64) int {
	t, reached := 0.0, 0
	first, _, _ := d.slopes(0, y)
	h := math.Ldexp(1, int(math.Floor(math.Log2(0.07/max(math.Abs(first), 1e-12)))))
	for range mostSteps {
		for reached < len(levels) && y <= levels[reached]+1e-13 {
			levels[reached] = t
			reached++
		}
		if reached == len(levels) || !(t < 1e100) {
			break
		}
		for t < steady && t+h > steady && d.load.Outgassing > 0 { // the bend of the load is the end of a step
			h /= 2
		}
		f, byY, byT := d.slopes(t, y)
		next, failure := d.step(t, y, h, f, byY, byT)
		size := math.Abs(failure) / tolerance
		if !(size <= 1) && h > 1e-9*(t+1e-6) {
			h /= 2
			continue
		}
		for reached < len(levels) && next <= levels[reached] {
			// The part of the step that ends on the level: taken again with other lengths until it does.
			t, y, level := t, y, levels[reached]
			miss := func(part float64) float64 {
				if part <= 0 {
					return level - y
				}
				end, _ := d.step(t, y, part, f, byY, byT)
				return level - end
			}
			levels[reached] = t + closeIn(miss, 0, h, level-y, level-next)
			reached++
		}
		t, y = t+h, next
		if size < 1.0/40 {
			h *= 2
		}
	}
	return reached
}

// Times turns pressures of the chamber, which fall and lie above the blank-off, into the times
// at which a volume comes down to them from start. It says how many are reached.
func (l *Line) Times(volume float64, load Load, start float64, ends []float64) int {
	low := ends[len(ends)-1]
	if start <= low { // it is there already
		clear(ends)
		return len(ends)
	}
	base := l.Pump.Ultimate
	first, _ := load.at(0)
	_, highest := l.For(first)
	d := descent{volume: volume, load: load, table: newFlowTable(l, low, max(start, highest))}
	for i, p := range ends {
		ends[i] = math.Log(p - base)
	}
	return d.run(math.Log(start-base), ends)
}
