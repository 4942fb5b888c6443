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

import "strconv"

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

// Kind is what a quantity is in the trade's terms. Kinds are compared by pointer.
type Kind struct {
	Name string // with its article left off: "leak rate"
	Dim  Dim
	SI   string // the coherent unit that values are held in
	// Difference is the kind of a difference of two such values, where that is
	// another kind: only temperatures have a zero of their own.
	Difference *Kind
}

// The kinds that the trade meets.
var (
	Ratio                 = &Kind{Name: "ratio", SI: "1"}
	Length                = &Kind{Name: "length", Dim: Dim{1}, SI: "m"}
	Area                  = &Kind{Name: "area", Dim: Dim{2}, SI: "m²"}
	Volume                = &Kind{Name: "volume", Dim: Dim{3}, SI: "m³"}
	Time                  = &Kind{Name: "time", Dim: Dim{0, 0, 1}, SI: "s"}
	Mass                  = &Kind{Name: "mass", Dim: Dim{0, 1}, SI: "kg"}
	Amount                = &Kind{Name: "amount of substance", Dim: Dim{0, 0, 0, 0, 0, 1}, SI: "mol"}
	TemperatureDifference = &Kind{Name: "temperature difference", Dim: Dim{0, 0, 0, 0, 1}, SI: "K"}
	Temperature           = &Kind{Name: "temperature", Dim: Dim{0, 0, 0, 0, 1}, SI: "K", Difference: TemperatureDifference}
	Pressure              = &Kind{Name: "pressure", Dim: Dim{-1, 1, -2}, SI: "Pa"}
	PressureRate          = &Kind{Name: "rate of pressure change", Dim: Dim{-1, 1, -3}, SI: "Pa/s"}
	VolumeFlow            = &Kind{Name: "volume flow rate", Dim: Dim{3, 0, -1}, SI: "m³/s"}
	// StandardFlow counts gas as the volume it would fill at 101,325 Pa and a
	// stated reference temperature; without that temperature it is no amount.
	StandardFlow = &Kind{Name: "standard flow", Dim: Dim{3, 0, -1}, SI: "m³/s at 101,325 Pa"}
	Throughput   = &Kind{Name: "leak rate", Dim: Dim{2, 1, -3}, SI: "Pa·m³/s"}
	MolarFlow    = &Kind{Name: "molar flow", Dim: Dim{0, 0, -1, 0, 0, 1}, SI: "mol/s"}
	MassFlow     = &Kind{Name: "mass flow", Dim: Dim{0, 1, -1}, SI: "kg/s"}
	Current      = &Kind{Name: "electric current", Dim: Dim{0, 0, 0, 1}, SI: "A"}
	Voltage      = &Kind{Name: "voltage", Dim: Dim{2, 1, -3, -1}, SI: "V"}
	Resistance   = &Kind{Name: "resistance", Dim: Dim{2, 1, -3, -2}, SI: "Ω"}
	Power        = &Kind{Name: "power", Dim: Dim{2, 1, -3}, SI: "W"}
	Energy       = &Kind{Name: "energy", Dim: Dim{2, 1, -2}, SI: "J"}
)

// Kinds lists every kind. Where two share a dimension the one that a compound
// unit means comes first.
func Kinds() []*Kind {
	return []*Kind{
		Ratio, Length, Area, Volume, Time, Mass, Amount, Temperature, TemperatureDifference,
		Pressure, PressureRate, VolumeFlow, StandardFlow, Throughput, MolarFlow, MassFlow,
		Current, Voltage, Resistance, Power, Energy,
	}
}

// Describe names a kind with its dimension, as messages need it.
func (k *Kind) Describe() string { return article(k.Name) + " (" + k.Dim.String() + ")" }

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
	for _, c := range strconv.Itoa(n) {
		if c == '-' {
			text += "⁻"
		} else {
			text += digits[c-'0']
		}
	}
	return text
}
