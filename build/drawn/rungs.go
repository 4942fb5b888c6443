package drawn

import (
	"math"

	"blankoff/build/ladder"
	"blankoff/build/load"
	"blankoff/build/picture"
	"blankoff/calc/constant"
	"blankoff/calc/quantity"
	"blankoff/calc/vacuum"
	"blankoff/calc/vapour"
)

// Rungs is the ladder of a machine before the pressures of a page stand on it.
type Rungs struct {
	Caption string
	Ladder  ladder.Ladder
}

// The names in a machine's file that have a place on its ladder.
const (
	condenserTemperature = "condenser-temperature"
	readyLimit           = "ready-limit"
	dryEmptyLimit        = "dry-empty-limit"
	blankOffNew          = "blank-off-new"
	sensorFloor          = "sensor-floor"
)

// RungsOf computes what physics and the machine's file put on the ladder; of no machine, what physics alone does.
func RungsOf(l *load.Library, m *load.Machine) *Rungs {
	unit := pressureUnit(l)
	air, label := air(l)
	r := &Rungs{Caption: "Pressure", Ladder: ladder.Ladder{
		Scale: ladder.Scale{TopPa: air, BottomPa: unit.To(10), Unit: unit},
		Rungs: []ladder.Rung{
			{Pa: air, Label: label, Short: "air", Kind: ladder.Air},
			{Pa: vapour.TriplePointPressure, Label: "water boils at 0 °C", Short: "triple point", Kind: ladder.TriplePoint},
		},
	}}
	if m != nil {
		r.Caption = m.Title.Text
		r.addMachine(m)
	}
	return r
}

func (r *Rungs) addMachine(m *load.Machine) {
	add := func(pa float64, label, short string, kind ladder.Kind) {
		r.Ladder.Rungs = append(r.Ladder.Rungs, ladder.Rung{Pa: pa, Label: label, Short: short, Kind: kind})
	}
	floor := 0.0
	if trap, ok := valueOf(m, condenserTemperature, quantity.Temperature); ok && trap.Value < vapour.TriplePointKelvin {
		floor = vapour.IcePressure(trap.Value)
		add(floor, "ice floor, trap "+quantity.Format(trap.Value, -1, trap.Unit, 3), "ice floor", ladder.IceFloor)
	}
	if ready, ok := valueOf(m, readyLimit, quantity.Pressure); ok {
		add(ready.Value, "ready limit", "ready", ladder.Limit)
		if floor > 0 {
			r.Ladder.Band = ladder.Band{FromPa: ready.Value, ToPa: floor, Label: "working band"}
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
func (r *Rungs) reach(pa float64) {
	decade := math.Pow(10, math.Floor(math.Log10(r.Ladder.Scale.Unit.From(pa))+1e-9))
	r.Ladder.Scale.BottomPa = math.Min(r.Ladder.Scale.BottomPa, r.Ladder.Scale.Unit.To(decade))
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
func air(l *load.Library) (pa float64, label string) {
	q, problem := quantity.Parse(l.Shop.Altitude.Text, quantity.Length)
	if problem != nil {
		return constant.Atmosphere, "air at sea level"
	}
	return vacuum.StandardAtmosphere(q.Value), "air here, " + quantity.Format(q.Value, -1, q.Unit, 4)
}

// pressureUnit is the unit in which the shop shows pressures.
func pressureUnit(l *load.Library) quantity.Unit {
	for _, u := range l.Shop.Units {
		if u.Name == "pressure" {
			if unit, ok := quantity.FindUnit(u.Text.Text); ok && unit.Kind == quantity.Pressure {
				return unit
			}
		}
	}
	return quantity.MustUnit("mTorr")
}

// ladderOf is the ladder of a machine as a picture in the text, where a page has it not in its margin.
func ladderOf(l *load.Library, m *load.Machine) (*picture.Drawing, error) {
	rungs := RungsOf(l, m)
	figure, err := ladder.Figure(rungs.Ladder)
	if err != nil {
		return nil, err
	}
	return picture.Framed(picture.Frame{
		Title: "Pressure ladder of the " + rungs.Caption, Words: figure.Words, Tells: figure.Tells,
		Class: "rungs", Width: figure.Width, Height: figure.Height, Body: figure.Body,
		Scale: picture.Scale{Key: figure.Numbers.Key, Kind: quantity.Pressure, In: figure.Numbers.In},
	}), nil
}
