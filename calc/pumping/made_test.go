package pumping

// Nameplate is a pump of one speed.
func Nameplate(speed, ultimate float64) Pump { return Pump{Ultimate: ultimate, speed: speed} }

// Curved is a pump by its curve: inlet pressures, rising, and the speeds measured there.
// ok is false when a row lies at or under the blank-off pressure.
func Curved(pressure, speed []float64, ultimate float64) (pump Pump, ok bool) {
	curve := make([]point, len(pressure))
	for i, q := range pressure {
		curve[i] = point{x: q, y: speed[i], row: i}
	}
	pump.Ultimate = ultimate
	return pump, pump.bend(curve, 1)
}

// NewLine joins a pump and its parts for a gas at t kelvin.
func NewLine(pump Pump, gasName string, t float64, parts []Part) *Line {
	l := &Line{Pump: pump}
	l.join(findGas(gasName), t, parts, 1)
	return l
}
