package render

import (
	"html/template"
	"math"
	"sort"

	"blankoff/build/ladder"
	"blankoff/build/load"
	"blankoff/calc/constant"
	"blankoff/calc/quantity"
	"blankoff/calc/vacuum"
	"blankoff/calc/vapour"
)

// rungs is the ladder of a machine before the pressures of a page stand on it.
type rungs struct {
	caption string
	ladder  ladder.Ladder
}

// The names in a machine's file that have a place on its ladder.
const (
	condenserTemperature = "condenser-temperature"
	readyLimit           = "ready-limit"
	dryEmptyLimit        = "dry-empty-limit"
	blankOffNew          = "blank-off-new"
	sensorFloor          = "sensor-floor"
)

// mostMarks is how many pressures of a text a ladder shows before it becomes a crowd.
const mostMarks = 6

// rungsOf computes what physics and the machine's file put on the ladder.
func (b *book) rungsOf(m *load.Machine) *rungs {
	unit := b.pressureUnit()
	air, label := b.air()
	r := &rungs{caption: "Pressure", ladder: ladder.Ladder{
		Scale: ladder.Scale{TopPa: air, BottomPa: unit.To(10), Unit: unit},
		Rungs: []ladder.Rung{
			{Pa: air, Label: label, Short: "air", Kind: ladder.Air},
			{Pa: vapour.TriplePointPressure, Label: "water boils at 0 °C", Short: "triple point", Kind: ladder.TriplePoint},
		},
	}}
	if m != nil {
		r.caption = m.Title.Text
		r.addMachine(m)
	}
	return r
}

func (r *rungs) addMachine(m *load.Machine) {
	add := func(pa float64, label, short string, kind ladder.Kind) {
		r.ladder.Rungs = append(r.ladder.Rungs, ladder.Rung{Pa: pa, Label: label, Short: short, Kind: kind})
	}
	floor := 0.0
	if trap, ok := valueOf(m, condenserTemperature, quantity.Temperature); ok && trap.Value < vapour.TriplePointKelvin {
		floor = vapour.IcePressure(trap.Value)
		add(floor, "ice floor, trap "+quantity.Format(trap.Value, -1, trap.Unit, 3), "ice floor", ladder.IceFloor)
	}
	if ready, ok := valueOf(m, readyLimit, quantity.Pressure); ok {
		add(ready.Value, "ready limit", "ready", ladder.Limit)
		if floor > 0 {
			r.ladder.Band = ladder.Band{FromPa: ready.Value, ToPa: floor, Label: "working band"}
		}
	}
	if dry, ok := valueOf(m, dryEmptyLimit, quantity.Pressure); ok {
		add(dry.Value, "empty and dry limit", "dry limit", ladder.Limit)
	}
	if pump, ok := valueOf(m, blankOffNew, quantity.Pressure); ok {
		add(pump.Value, "pump blanked off", "blank-off", ladder.Floor)
		r.reach(pump.Value)
	}
	if sensor, ok := valueOf(m, sensorFloor, quantity.Pressure); ok {
		add(sensor.Value, "sensor's floor", "sensor", ladder.Floor)
		r.reach(sensor.Value)
	}
}

// reach makes the scale end at or below a pressure, at a whole decade of its unit.
func (r *rungs) reach(pa float64) {
	decade := math.Pow(10, math.Floor(math.Log10(r.ladder.Scale.Unit.From(pa))+1e-9))
	r.ladder.Scale.BottomPa = math.Min(r.ladder.Scale.BottomPa, r.ladder.Scale.Unit.To(decade))
}

func valueOf(m *load.Machine, name string, kind quantity.Kind) (quantity.Quantity, bool) {
	v, found := m.Value(name)
	if !found {
		return quantity.Quantity{}, false
	}
	q, problem := quantity.Parse(v.Text.Text, kind)
	return q, problem == nil && !q.Over && !q.Gauge
}

// air is the standard pressure at the shop's altitude.
func (b *book) air() (pa float64, label string) {
	q, problem := quantity.Parse(b.library.Shop.Altitude.Text, quantity.Length)
	if problem != nil {
		return constant.Atmosphere, "air at sea level"
	}
	return vacuum.StandardAtmosphere(q.Value), "air here, " + quantity.Format(q.Value, -1, q.Unit, 4)
}

// pressureUnit is the unit in which the shop shows pressures.
func (b *book) pressureUnit() quantity.Unit {
	for _, u := range b.library.Shop.Units {
		if u.Name == "pressure" {
			if unit, ok := quantity.FindUnit(u.Text.Text); ok && unit.Kind == quantity.Pressure {
				return unit
			}
		}
	}
	return quantity.MustUnit("mTorr")
}

// speak notes a pressure of the text for the ladder.
func (p *page) speak(pa float64, label string) {
	p.spoken = append(p.spoken, pressure{pa, label})
}

// ladder draws the ladder of a page. It must be called after the text was rendered,
// since the text says which pressures stand on it.
func (p *page) ladder(m *load.Machine) *LadderView {
	base := p.ladders[""]
	if m != nil {
		base = p.ladders[m.Name]
	} else if len(p.library.Machines) == 1 {
		base = p.ladders[p.library.Machines[0].Name]
	}
	l := base.ladder
	l.Marks = p.marks(l)
	drawing, err := ladder.Draw(l)
	if err != nil {
		return nil // a shop without a usable scale has pages without a ladder
	}
	return &LadderView{Caption: base.caption, Tall: template.HTML(drawing.Tall), Strip: template.HTML(drawing.Strip)}
}

// marks are the pressures spoken of that no rung shows already, the most frequent first.
func (p *page) marks(l ladder.Ladder) []ladder.Mark {
	var marks []ladder.Mark
	count := map[float64]int{}
	for _, s := range p.spoken {
		key := math.Round(math.Log(s.pa) * 200)
		if s.pa <= 0 || onRung(l, s.pa) {
			continue
		}
		if count[key]++; count[key] == 1 {
			marks = append(marks, ladder.Mark{Pa: s.pa, Label: s.label})
		}
	}
	sort.SliceStable(marks, func(i, j int) bool {
		return count[math.Round(math.Log(marks[i].Pa)*200)] > count[math.Round(math.Log(marks[j].Pa)*200)]
	})
	return marks[:min(len(marks), mostMarks)]
}

func onRung(l ladder.Ladder, pa float64) bool {
	for _, r := range l.Rungs {
		if math.Abs(math.Log(pa/r.Pa)) < 0.005 {
			return true
		}
	}
	return false
}
