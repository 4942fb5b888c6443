package quantity

import (
	"math"
	"strconv"

	"blankoff/calc/letters"
)

// DefaultFigures are shown of a value that carries no uncertainty: enough for a
// conversion, few enough not to pretend.
const DefaultFigures = 4

// Format writes a value (SI) with its standard uncertainty u (SI; negative or
// zero: none) in the unit: "0.0224 ± 0.0012 mbar·L/s". The number after ± is the
// expanded uncertainty (k = 2) to two significant figures, and the value stops at
// the same place (JCGM 100:2008, 7.2.6). Without u it has `figures` figures.
func Format(value, u float64, unit Unit, figures int) string {
	x := settle(unit.From(value))
	expanded := 0.0
	if !(u <= 0) {
		expanded = settle(CoverageFactor * u / math.Abs(unit.factor))
	}
	if !(math.Abs(x) < beyond && expanded < beyond) {
		return "beyond what can be computed"
	}
	if expanded > 0 {
		return withUncertainty(x, expanded, unit)
	}
	if figures < 1 {
		figures = DefaultFigures
	}
	return join(plain(x, figures), unit)
}

// Number is Format without the unit, as a table shows it below the head of its column.
func Number(value, u float64, unit Unit, figures int) string {
	m := *unit.measure
	m.Symbol = ""
	return Format(value, u, Unit{&m}, figures)
}

// beyond and nothing end what is printed: further out the powers of ten that scale a
// number overflow or vanish themselves. No quantity of the trade comes near.
const beyond, nothing = 1e290, 1e-290

// settle rounds to 12 significant figures, so that the same computation prints the
// same text natively and in WebAssembly, where the last bits may differ.
func settle(x float64) float64 {
	if math.Abs(x) < nothing {
		return 0
	}
	// A whole number of at most 12 figures and a power of ten up to 1e22 are exact, so
	// their product or quotient is the double nearest to the decimal number.
	n := 11 - int(math.Floor(math.Log10(math.Abs(x))))
	return letters.Scale(math.Round(letters.Scale(x, n)), -n) + 0 // + 0 turns -0 into 0
}

// place is the power of ten of the last of n significant figures of x, which rounds
// first: 0.0996 to two figures is 0.10.
func place(x float64, n int) int {
	a := math.Abs(x)
	if a == 0 {
		return 1 - n
	}
	exponent := int(math.Floor(math.Log10(a)))
	whole := math.RoundToEven(letters.Scale(a, n-1-exponent))
	switch { // the logarithm may be off by its last bit
	case whole >= letters.Scale(1, n):
		exponent++
	case whole < letters.Scale(1, n-1):
		exponent--
	}
	return exponent - n + 1
}

func withUncertainty(x, expanded float64, unit Unit) string {
	last := place(expanded, 2)
	if x != 0 && needsPower(x) && math.Abs(x) > expanded {
		exponent := place(x, 1)
		scale := math.Pow(10, float64(-exponent))
		return "(" + fixed(x*scale, last-exponent) + " ± " + fixed(expanded*scale, last-exponent) + ")×10" + superscript(exponent) + trailing(unit)
	}
	// Where the uncertainty is no smaller than the value, or finer than 15 places can
	// show, both are written by themselves.
	if needsPower(expanded) && (math.Abs(x) <= expanded || last < -15) {
		if math.Abs(x) > expanded {
			return join(plain(x, 12)+" ± "+plain(expanded, 2), unit)
		}
		return join(plain(x, 2)+" ± "+plain(expanded, 2), unit)
	}
	return join(fixed(x, last)+" ± "+fixed(expanded, last), unit)
}

// needsPower tells when a fixed-point number would be a row of zeros.
func needsPower(x float64) bool {
	a := math.Abs(x)
	return a != 0 && (a < 1e-4 || a >= 1e7)
}

// plain writes x to n significant figures, without zeros that say nothing.
func plain(x float64, n int) string {
	if x == 0 {
		return "0"
	}
	if needsPower(x) {
		exponent := place(x, n) + n - 1
		mantissa := x * math.Pow(10, float64(-exponent))
		return trimZeros(fixed(mantissa, -(n-1))) + "×10" + superscript(exponent)
	}
	return trimZeros(fixed(x, place(x, n)))
}

// fixed writes x rounded to the power of ten `last`, with thousands marks.
func fixed(x float64, last int) string {
	last = max(last, -15)
	if last > 22 || math.Abs(x) >= 1e22 {
		unit := math.Pow(10, float64(last))
		return groupThousands(strconv.FormatFloat(math.RoundToEven(settle(x/unit))*unit+0, 'f', 0, 64))
	}
	whole := math.RoundToEven(settle(letters.Scale(x, -last)))
	if math.Abs(whole) >= 1e15 {
		return groupThousands(strconv.FormatFloat(settle(x), 'f', max(-last, 0), 64))
	}
	return wholeUnits(whole, last)
}

// wholeUnits writes a whole number of units of the last place.
func wholeUnits(whole float64, last int) string {
	var buffer [48]byte // 15 figures, 22 noughts, seven marks and a sign at most
	at := len(buffer)
	rest := uint64(math.Abs(whole))
	if rest == 0 {
		last = min(last, 0)
	}
	for position := min(last, 0); rest > 0 || position <= 0; position++ { // from the right; before position 0 stands the point
		if position == 0 && last < 0 {
			at--
			buffer[at] = '.'
		}
		if position > 0 && position%3 == 0 {
			at--
			buffer[at] = ','
		}
		digit := byte('0')
		if position >= last {
			digit += byte(rest % 10)
			rest /= 10
		}
		at--
		buffer[at] = digit
	}
	if whole < 0 {
		return "−" + string(buffer[at:])
	}
	return string(buffer[at:])
}

func trimZeros(s string) string {
	if !letters.Contains(s, ".") {
		return s
	}
	return letters.TrimRight(letters.TrimRight(s, "0"), ".")
}

func groupThousands(s string) string {
	sign := ""
	if letters.HasPrefix(s, "-") {
		sign, s = "−", s[1:]
	}
	whole, fraction, hasPoint := letters.Cut(s, ".")
	for i := len(whole) - 3; i > 0; i -= 3 {
		whole = whole[:i] + "," + whole[i:]
	}
	if hasPoint {
		whole += "." + fraction
	}
	return sign + whole
}

func join(number string, unit Unit) string { return number + trailing(unit) }

func trailing(unit Unit) string {
	if unit.Symbol == "" {
		return ""
	}
	return " " + unit.Symbol
}
