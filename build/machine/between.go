package machine

import (
	"math"
	"slices"
	"strings"

	"blankoff/calc/quantity"
	"blankoff/calc/vapour"
)

// order says that one value lies below another.
type order struct {
	low, high string
	equal     bool // or is equal to it
	do        string
}

// orders hold for every machine. The first two follow from what the words mean; the others are said in their hints.
var orders = []order{
	{"heater-pair-low", "heater-pair-high", false, "exchange the two, or correct one"},
	{"couple-pair-low", "couple-pair-high", false, "exchange the two, or correct one"},
	{"blank-off-new", "blank-off-limit", false, "a pump is serviced when it has become worse than new; correct one"},
	{"blank-off-limit", "dry-empty-limit", false, "no chamber goes lower than its pump alone; correct one"},
	{"sensor-floor", "gauge-ceiling", false, "a sensor reads between its floor and its ceiling; correct one"},
	{"running-current", "start-current", true, "nothing draws less as it starts; correct one"},
}

// Conflict is a value that another one contradicts.
type Conflict struct {
	Name, Other   string // the value to be marked, and the other
	Message, Hint string
}

// Between compares the values of one machine with each other. text gives what the machine has.
func Between(names []string, text func(name string) (string, bool)) []Conflict {
	b := between{text: text}
	for _, o := range orders {
		b.compare(o)
	}
	b.iceFloor()
	b.leak()
	b.falling(names)
	return b.found
}

type between struct {
	text  func(name string) (string, bool)
	found []Conflict
}

// read gives a value, if the machine has one that can be read; if not, that is said elsewhere.
func (b *between) read(name string) (quantity.Quantity, bool) {
	text, has := b.text(name)
	entry, known := Find(name)
	if !has || !known {
		return quantity.Quantity{}, false
	}
	value, problem := quantity.Parse(text, entry.Kind)
	return value, problem == nil && !value.Over && !value.Gauge
}

func (b *between) compare(o order) {
	low, ok := b.read(o.low)
	high, also := b.read(o.high)
	if !ok || !also || low.Value < high.Value || o.equal && low.Value == high.Value {
		return
	}
	is := ", is above "
	if low.Value == high.Value {
		is = ", is not below "
	}
	b.found = append(b.found, Conflict{o.low, o.high, o.low + ", " + low.Text + is + o.high + ", " + high.Text, o.do})
}

// iceFloor holds the ready limit against the ice in the trap: a loaded chamber cannot go below its vapour pressure.
func (b *between) iceFloor() {
	ready, ok := b.read("ready-limit")
	trap, also := b.read("condenser-temperature")
	if !ok || !also || trap.Value > vapour.TriplePointKelvin {
		return
	}
	if floor := vapour.IcePressure(trap.Value); ready.Value <= floor {
		unit := ready.Unit
		b.found = append(b.found, Conflict{"ready-limit", "condenser-temperature",
			"ready-limit, " + ready.Text + ", cannot be reached: ice in a trap of " + trap.Text + " holds " + quantity.Format(floor, -1, unit, 3),
			"raise ready-limit above that, or correct condenser-temperature"})
	}
}

// leak holds the two ways of stating one limit against each other: Q = V dp/dt. A twentieth is for rounding.
func (b *between) leak() {
	leak, ok := b.read("leak-limit")
	rise, also := b.read("rise-limit")
	volume, too := b.read("chamber-volume")
	if !ok || !also || !too {
		return
	}
	if flow := rise.Value * volume.Value; math.Abs(leak.Value-flow) > flow/20 {
		b.found = append(b.found, Conflict{"leak-limit", "rise-limit",
			"leak-limit, " + leak.Text + ", is not rise-limit, " + rise.Text + ", in chamber-volume, " + volume.Text + ": that is " + quantity.Format(flow, -1, leak.Unit, 3),
			"correct one of the three, or take leak-limit out"})
	}
}

// falling holds the curve of a dry chamber against time: while the pump runs, the pressure falls.
func (b *between) falling(names []string) {
	curve := slices.SortedFunc(slices.Values(slices.DeleteFunc(slices.Clone(names), func(name string) bool {
		return !strings.HasPrefix(name, "dry-curve-") || pattern(name) != "dry-curve-N-min"
	})), Compare)
	for i := 1; i < len(curve); i++ {
		before, ok := b.read(curve[i-1])
		after, also := b.read(curve[i])
		if ok && also && after.Value > before.Value {
			b.found = append(b.found, Conflict{curve[i], curve[i-1], curve[i] + ", " + after.Text + ", is above " + curve[i-1] + ", " + before.Text,
				"while the pump runs the pressure falls; correct one"})
		}
	}
}
