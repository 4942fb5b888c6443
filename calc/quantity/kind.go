// Package quantity reads, converts and prints physical quantities as the trade
// writes them: `340 micron`, `0,02 mbar`, `-28 inHg gauge`, `1h30`, `11/16 in`,
// `1.8 kΩ`, `24 L ± 1 L`, and a meter's over-range sign `OL`.
//
// Inside the program every number is in coherent SI units; conversion happens
// here, at the edge. A quantity has a Kind as well as a dimension, because a leak
// rate and a power share their dimension and must still not be exchanged.
//
// Smallest use:
//
//	q, problem := quantity.Parse("340 micron", quantity.Pressure)
//	// q.Value is 45.33 (Pa); quantity.Format(q.Value, -1, mbar, 4) is "0.4533 mbar"
//
// A stated accuracy (`± 1 L`, `± 2 %`) is read as an expanded uncertainty with
// coverage factor 2, so U holds half of it (JCGM 100:2008, 6.2; the reason for
// not dividing by √3 stands in DEVELOPERS.md).
package quantity

import "blankoff/calc/letters"

// Dim holds the exponents of length, mass, time, electric current,
// thermodynamic temperature and amount of substance.
type Dim [6]int8

var dimNames = [6]string{"length", "mass", "time", "current", "temperature", "amount"}

// Times is the dimension of a product with another quantity raised to a power.
func (d Dim) Times(other Dim, power int8) Dim {
	for i := range d {
		d[i] += other[i] * power
	}
	return d
}

// String writes the dimension in words: "mass·length⁻¹·time⁻²"; "a plain number"
// when there is none.
func (d Dim) String() string {
	text := ""
	for _, i := range [6]int{1, 0, 2, 3, 4, 5} {
		if d[i] == 0 {
			continue
		}
		if text != "" {
			text += "·"
		}
		text += dimNames[i]
		if d[i] != 1 {
			text += superscript(int(d[i]))
		}
	}
	if text == "" {
		return "a plain number"
	}
	return text
}

// Kind is what a quantity is in the trade's terms. Kinds are plain numbers, so that a
// declaration is data that the compiler lays down, not code that runs on a phone.
type Kind uint8

// The kinds that the trade meets. Where two share a dimension the one that a compound
// unit means comes first.
const (
	None Kind = iota // no kind: a text, or a unit that nothing here is measured in
	Ratio
	Length
	Area
	Volume
	Time
	Mass
	Amount
	Temperature
	TemperatureDifference
	Pressure
	PressureRate
	VolumeFlow
	// StandardFlow counts gas as the volume it would fill at 101,325 Pa and a
	// stated reference temperature; without that temperature it is no amount.
	StandardFlow
	Throughput
	MolarFlow
	MassFlow
	Current
	Voltage
	Resistance
	Power
	Energy
	Density
	MolarMass
	SpecificEnergy
	Sensitivity // millivolts of a sensor for a pressure
	PitchCount  // threads for a length
	WireGauge   // the American gauge of a wire: a number that falls as the wire thickens
	lastKind
)

// kinds holds the name of each kind, without its article, its dimension and the coherent
// unit that values are held in.
var kinds = [lastKind]struct {
	name string
	dim  Dim
	si   string
}{
	None:                  {name: "quantity"},
	Ratio:                 {"ratio", Dim{}, "1"},
	Length:                {"length", Dim{1}, "m"},
	Area:                  {"area", Dim{2}, "m²"},
	Volume:                {"volume", Dim{3}, "m³"},
	Time:                  {"time", Dim{0, 0, 1}, "s"},
	Mass:                  {"mass", Dim{0, 1}, "kg"},
	Amount:                {"amount of substance", Dim{0, 0, 0, 0, 0, 1}, "mol"},
	Temperature:           {"temperature", Dim{0, 0, 0, 0, 1}, "K"},
	TemperatureDifference: {"temperature difference", Dim{0, 0, 0, 0, 1}, "K"},
	Pressure:              {"pressure", Dim{-1, 1, -2}, "Pa"},
	PressureRate:          {"rate of pressure change", Dim{-1, 1, -3}, "Pa/s"},
	VolumeFlow:            {"volume flow rate", Dim{3, 0, -1}, "m³/s"},
	StandardFlow:          {"standard flow", Dim{3, 0, -1}, "m³/s at 101,325 Pa"},
	Throughput:            {"leak rate", Dim{2, 1, -3}, "Pa·m³/s"},
	MolarFlow:             {"molar flow", Dim{0, 0, -1, 0, 0, 1}, "mol/s"},
	MassFlow:              {"mass flow", Dim{0, 1, -1}, "kg/s"},
	Current:               {"electric current", Dim{0, 0, 0, 1}, "A"},
	Voltage:               {"voltage", Dim{2, 1, -3, -1}, "V"},
	Resistance:            {"resistance", Dim{2, 1, -3, -2}, "Ω"},
	Power:                 {"power", Dim{2, 1, -3}, "W"},
	Energy:                {"energy", Dim{2, 1, -2}, "J"},
	Density:               {"density", Dim{-3, 1}, "kg/m³"},
	MolarMass:             {"molar mass", Dim{0, 1, 0, 0, 0, -1}, "kg/mol"},
	SpecificEnergy:        {"energy per mass", Dim{2, 0, -2}, "J/kg"},
	Sensitivity:           {"sensitivity", Dim{3, 0, -1, -1}, "V/Pa"},
	PitchCount:            {"thread count", Dim{-1}, "1/m"},
	WireGauge:             {"wire gauge", Dim{}, "AWG"},
}

// Name is the kind in words, without an article: "leak rate".
func (k Kind) Name() string { return kinds[k].name }

// Dim is the dimension of the kind.
func (k Kind) Dim() Dim { return kinds[k].dim }

// SI is the coherent unit that values are held in.
func (k Kind) SI() string { return kinds[k].si }

// Kinds lists every kind, in the order in which a compound unit is matched.
func Kinds() []Kind {
	list := make([]Kind, 0, lastKind)
	for k := Ratio; k < lastKind; k++ {
		list = append(list, k)
	}
	return list
}

// Describe names a kind with its dimension, as messages need it.
func (k Kind) Describe() string { return describe(k, k.Dim()) }

// describe does so for a unit that is of no kind, but has a dimension.
func describe(k Kind, d Dim) string { return article(k.Name()) + " (" + d.String() + ")" }

func article(noun string) string {
	switch noun[0] {
	case 'a', 'e', 'i', 'o', 'u':
		return "an " + noun
	}
	return "a " + noun
}

func superscript(n int) string {
	digits := [10]string{"⁰", "¹", "²", "³", "⁴", "⁵", "⁶", "⁷", "⁸", "⁹"}
	text := ""
	for _, c := range letters.Whole(n) {
		if c == '-' {
			text += "⁻"
		} else {
			text += digits[c-'0']
		}
	}
	return text
}
