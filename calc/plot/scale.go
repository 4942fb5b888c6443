package plot

import (
	"math"

	"blankoff/calc/letters"
	"blankoff/calc/quantity"
)

// tick is a line of an axis; without a label it is a short one.
type tick struct {
	_     [0]func()
	at    float64 // in the axis' unit
	label string
}

// place is where a number of the axis' unit stands.
func (a *Axis) place(x float64) float64 {
	low, high := a.low, a.high
	if a.Log {
		x, low, high = math.Log(x), math.Log(low), math.Log(high)
	}
	return a.from + (a.to-a.from)*((x-low)/(high-low))
}

// of is the place of an SI value; what is below a logarithmic axis stands at its foot.
func (a *Axis) of(si float64) float64 {
	if !a.shows(si) {
		return a.from
	}
	return a.place(a.Unit.From(si))
}

// shows tells whether a value can stand on the axis at all.
func (a *Axis) shows(si float64) bool {
	x := a.Unit.From(si)
	return math.Abs(x) < 1e30 && (!a.Log || x > 1e-30)
}

// take makes the axis reach to a value.
func (a *Axis) take(si float64) {
	if a.shows(si) {
		x := a.Unit.From(si)
		a.low, a.high = min(a.low, x), max(a.high, x)
	}
}

// narrow is the ratio of the ends below which a logarithmic axis has even numbers.
const narrow = 3

// settle gives the axis its ends and lines, once it has taken all values. Where they are all
// alike, or nearly so, it gets room.
func (a *Axis) settle() {
	if a.Most != 0 {
		a.high = min(a.high, a.Unit.From(a.Most))
	}
	switch size := max(math.Abs(a.low), math.Abs(a.high)); {
	case a.low > a.high:
		a.low, a.high = 1, 10 // there is nothing to show
	case a.high-a.low > 1e-6*size:
	case a.Log:
		a.low, a.high = size/1.5, size*1.5
	default:
		size += 1e-6
		a.low -= size / 10
		a.high += size / 10
	}
	if a.Log && a.high >= narrow*a.low {
		a.decades()
		return
	}
	low, high := a.low, a.high
	for about := 6; !a.even(low, high, about) && about > 2; {
		about--
	}
}

// even is the loose labelling with about so many numbers of Heckbert, Nice numbers for graph
// labels, in: Graphics Gems (1990) 61, from memory: ends that hold low and high, and round
// numbers between them. It tells whether the numbers have room.
func (a *Axis) even(low, high float64, about int) bool {
	times, power := nice(high-low, false)
	times, power = nice(letters.Scale(times, power)/float64(about-1), true)
	step := letters.Scale(times, power)
	n := math.Floor(low/step + 1e-9)
	a.ticks = a.ticks[:0]
	a.low = letters.Scale(n*times, power)
	if a.Log && a.low <= 0 { // a foot at nought has no logarithm
		n++
		a.low = low
	}
	for last := math.Ceil(high/step - 1e-9); n <= last; n++ {
		a.high = letters.Scale(n*times, power)
		a.tick(a.high)
	}
	fits := true
	for i := range a.ticks {
		fits = a.label(&a.ticks[i]) && fits
	}
	return fits
}

func (a *Axis) tick(x float64) {
	a.ticks = append(a.ticks, tick{})
	a.ticks[len(a.ticks)-1].at = x
}

// nice is the nearest of 1, 2, 5 and 10 times a power of ten to a length, or the next above.
func nice(x float64, nearest bool) (times float64, power int) {
	times, power = mantissa(x)
	one, two, five := 1+1e-9, 2+1e-9, 5+1e-9
	if nearest {
		one, two, five = 1.5, 3, 7
	}
	switch {
	case times <= one:
		times = 1
	case times <= two:
		times = 2
	case times <= five:
		times = 5
	default:
		times = 1
		power++
	}
	return times, power
}

// mantissa writes x as times 10^power.
func mantissa(x float64) (times float64, power int) {
	power = int(math.Floor(math.Log10(x) + 1e-9))
	return letters.Scale(x, -power), power
}

// decades gives a logarithmic axis ends at 1, 2 or 5 times a power of ten, lines at 1 to 9
// times, and numbers at as many of them as have room, the powers of ten first.
func (a *Axis) decades() {
	times, power := nice(1/a.low, false)
	first := -power - 1
	a.low = letters.Scale(10/times, first)
	times, last := nice(a.high, false)
	a.high = letters.Scale(times, last)
	for power := first; power <= last; power++ {
		for times := 1.0; times < 10; times++ {
			if x := letters.Scale(times, power); x >= a.low*(1-1e-9) && x <= a.high*(1+1e-9) {
				a.tick(x)
			}
		}
	}
	for _, wanted := range [4]float64{1, 2, 5, 3} {
		for i := range a.ticks {
			t := &a.ticks[i]
			if times, _ := mantissa(t.at); math.Abs(times-wanted) < 1e-6 {
				a.label(t)
			}
		}
	}
}

// label gives a line its number, unless that would run into another one.
func (a *Axis) label(t *tick) bool {
	label := number(t.at)
	for i := range a.ticks {
		if other := &a.ticks[i]; other.label != "" {
			need := lead
			if a.lying {
				need = (width(label)+width(other.label))/2 + 8
			}
			if math.Abs(a.place(t.at)-a.place(other.at)) < need {
				return false
			}
		}
	}
	t.label = label
	return true
}

func number(x float64) string { return quantity.Format(x, -1, quantity.One, 6) }

// show is an SI value as words have it.
func (a *Axis) show(si float64) string { return quantity.Format(si, -1, a.Unit, 4) }
