package quantity

// Exact definitions; constants are evaluated by the compiler in exact arithmetic
// and rounded once. Sources: SI Brochure 9th ed. (2019) for SI and accepted
// units; NIST SP 811 App. B conventions for Torr = atm/760, conventional mercury
// 13,595.1 kg/m³ and water 1,000 kg/m³ at 9.80665 m/s²; pound, inch and US gallon
// by the international yard and pound agreement (1959). Checked live against GNU
// units in calc/gnuunits_test.go.
const (
	atmosphere  = 101325.0
	torr        = atmosphere / 760
	gravity     = 9.80665
	inch        = 0.0254
	pound       = 0.45359237
	mercury     = 13595.1
	litre       = 1e-3
	cubicInch   = inch * inch * inch
	cubicFoot   = 1728 * cubicInch
	psi         = pound * gravity / (inch * inch)
	inchMercury = mercury * gravity * inch
)

// entry is one row of the table: a symbol with its other spellings and the SI
// prefixes that the trade puts before it.
type entry struct {
	symbol   string
	kind     Kind
	factor   float64 // SI value of one
	zero     float64 // SI value of the scale's zero, for °C and °F
	prefixes string  // each letter one prefix
	also     []string
}

// The micron of the trade is the micrometre of mercury; by usage it is taken as
// the mTorr, from which it differs by 1.4e-7 of its value.
var table = []entry{
	{symbol: "%", kind: Ratio, factor: 0.01, also: []string{"percent", "pct"}},
	{symbol: "ppm", kind: Ratio, factor: 1e-6},
	{symbol: "counts", kind: Ratio, factor: 1, also: []string{"count", "digits", "digit", "dgt"}},

	{symbol: "m", kind: Length, factor: 1, prefixes: "kcmµn", also: []string{"metre", "metres", "meter", "meters"}},
	{symbol: "in", kind: Length, factor: inch, also: []string{"inch", "inches", `"`, "″"}},
	{symbol: "ft", kind: Length, factor: 12 * inch, also: []string{"foot", "feet", "'", "′"}},

	{symbol: "L", kind: Volume, factor: litre, prefixes: "mµ", also: []string{"l", "litre", "litres", "liter", "liters"}},
	{symbol: "cc", kind: Volume, factor: 1e-6, also: []string{"ccm"}},
	{symbol: "gal", kind: Volume, factor: 231 * cubicInch, also: []string{"gallon", "gallons"}},

	{symbol: "s", kind: Time, factor: 1, prefixes: "mµ", also: []string{"sec", "secs", "second", "seconds"}},
	{symbol: "min", kind: Time, factor: 60, also: []string{"mins", "minute", "minutes"}},
	{symbol: "h", kind: Time, factor: 3600, also: []string{"hr", "hrs", "hour", "hours"}},
	{symbol: "d", kind: Time, factor: 86400, also: []string{"day", "days"}},

	{symbol: "g", kind: Mass, factor: 1e-3, prefixes: "kmµ", also: []string{"gram", "grams"}},
	{symbol: "lb", kind: Mass, factor: pound, also: []string{"lbs"}},
	{symbol: "oz", kind: Mass, factor: pound / 16},

	{symbol: "mol", kind: Amount, factor: 1, prefixes: "mµn"},

	{symbol: "K", kind: Temperature, factor: 1, also: []string{"kelvin"}},
	{symbol: "°C", kind: Temperature, factor: 1, zero: 273.15, also: []string{"C", "degC", "deg C", "degrees C", "celsius"}},
	{symbol: "°F", kind: Temperature, factor: 5.0 / 9, zero: 459.67 * 5 / 9, also: []string{"F", "degF", "deg F", "degrees F", "fahrenheit"}},

	{symbol: "Pa", kind: Pressure, factor: 1, prefixes: "khMmµ", also: []string{"pascal"}},
	{symbol: "bar", kind: Pressure, factor: 1e5, prefixes: "mµ"},
	{symbol: "atm", kind: Pressure, factor: atmosphere},
	{symbol: "Torr", kind: Pressure, factor: torr, prefixes: "mµ"},
	{symbol: "micron", kind: Pressure, factor: torr / 1000, also: []string{"microns", "µmHg", "µm Hg"}},
	{symbol: "mmHg", kind: Pressure, factor: mercury * gravity / 1000, also: []string{"mm Hg", "mm of mercury"}},
	{symbol: "inHg", kind: Pressure, factor: inchMercury, also: []string{"in Hg", "in. Hg", `"Hg`, "inches Hg", "inches of mercury"}},
	{symbol: "inH2O", kind: Pressure, factor: 1000 * gravity * inch, also: []string{"inH₂O", "in H2O", "inches of water"}},
	{symbol: "psi", kind: Pressure, factor: psi, also: []string{"lbf/in2", "lbf/in²"}},

	{symbol: "cfm", kind: VolumeFlow, factor: cubicFoot / 60},
	{symbol: "sccm", kind: StandardFlow, factor: 1e-6 / 60},
	{symbol: "slm", kind: StandardFlow, factor: 1e-3 / 60, also: []string{"slpm"}},
	{symbol: "lusec", kind: Throughput, factor: torr / 1000 * litre},

	{symbol: "A", kind: Current, factor: 1, prefixes: "mµ", also: []string{"amp", "amps"}},
	{symbol: "V", kind: Voltage, factor: 1, prefixes: "kmµ", also: []string{"volt", "volts"}},
	{symbol: "Ω", kind: Resistance, factor: 1, prefixes: "mkMG", also: []string{"ohm", "ohms"}},
	{symbol: "W", kind: Power, factor: 1, prefixes: "mkµ", also: []string{"watt", "watts"}},
	{symbol: "J", kind: Energy, factor: 1, prefixes: "kM"},
	{symbol: "Wh", kind: Energy, factor: 3600, prefixes: "k"},

	{symbol: "TPI", kind: PitchCount, factor: 1 / inch, also: []string{"threads per inch", "threads/inch"}},
	{symbol: "AWG", kind: WireGauge, factor: 1, also: []string{"ga"}},
}

// compounds are whole spellings that the expression grammar cannot split.
var compounds = [...]struct{ spelling, symbol string }{
	{"mbarl/s", "mbar·L/s"}, {"torrl/s", "Torr·L/s"}, {"cu ft", "ft³"}, {"cubic feet", "ft³"},
	{"std cc/min", "sccm"}, {"std cm3/min", "sccm"}, {"k", "kΩ"}, {"lpm", "L/min"},
	{"std cm³/min", "sccm"}, {"atm cc/s", "atm·cm³/s"}, {"m3/h", "m³/h"}, {"m3/hr", "m³/h"},
}

func prefixFactor(letter rune) float64 {
	switch letter {
	case 'G':
		return 1e9
	case 'M':
		return 1e6
	case 'k':
		return 1e3
	case 'h':
		return 1e2
	case 'c':
		return 1e-2
	case 'm':
		return 1e-3
	case 'µ':
		return 1e-6
	}
	return 1e-9 // 'n', the last that the table uses
}
