package letters

import "math"

// Whole writes a whole number.
func Whole(n int) string {
	var digits [20]byte
	at := len(digits)
	rest := uint64(n)
	if n < 0 {
		rest = -rest
	}
	for {
		at--
		digits[at] = '0' + byte(rest%10)
		if rest /= 10; rest == 0 {
			break
		}
	}
	if n < 0 {
		return "-" + string(digits[at:])
	}
	return string(digits[at:])
}

// tens are the powers of ten that a double holds exactly.
var tens = [23]float64{1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15, 1e16, 1e17, 1e18, 1e19, 1e20, 1e21, 1e22}

// Float reads a decimal number: digits with one point at most, a sign before them and an
// exponent after. Up to 15 figures and 22 places it is the nearest double, beyond that it
// may be one or two units in the last place beside it; a number beyond all doubles is
// refused.
func Float(s string) (float64, bool) {
	negative := false
	if s != "" && (s[0] == '-' || s[0] == '+') {
		negative, s = s[0] == '-', s[1:]
	}
	mantissa, exponent, digits, used := figures(s)
	if digits == 0 {
		return 0, false
	}
	if s = s[used:]; s != "" {
		power, ok := exponentOf(s)
		if !ok {
			return 0, false
		}
		exponent += power
	}
	x := Scale(float64(mantissa), exponent)
	if negative {
		x = -x
	}
	return x, !math.IsInf(x, 0)
}

// figures reads the digits before and after the point as one whole number, the first 19
// of them, and the power of ten that belongs to it.
func figures(s string) (mantissa uint64, exponent, digits, used int) {
	point := false
	for ; used < len(s); used++ {
		c := s[used]
		if c == '.' && !point {
			point = true
			continue
		}
		if c < '0' || c > '9' {
			break
		}
		digits++
		switch {
		case mantissa < 1e18:
			mantissa = mantissa*10 + uint64(c-'0')
			if point {
				exponent--
			}
		case !point:
			exponent++
		}
	}
	return mantissa, exponent, digits, used
}

// exponentOf reads "e-3".
func exponentOf(s string) (int, bool) {
	if s[0] != 'e' && s[0] != 'E' {
		return 0, false
	}
	s = s[1:]
	sign := 1
	if s != "" && (s[0] == '-' || s[0] == '+') {
		if s[0] == '-' {
			sign = -1
		}
		s = s[1:]
	}
	power := 0
	for i := 0; i < len(s); i++ {
		if s[i] < '0' || s[i] > '9' {
			return 0, false
		}
		power = min(power*10+int(s[i]-'0'), 10_000)
	}
	return sign * power, s != ""
}

// Scale multiplies by a power of ten, in as few steps as the exact powers allow.
func Scale(x float64, exponent int) float64 {
	exponent = max(-700, min(exponent, 700)) // beyond the whole range of doubles
	for ; exponent > 22; exponent -= 22 {
		x *= 1e22
	}
	for ; exponent < -22; exponent += 22 {
		x /= 1e22
	}
	if exponent < 0 {
		return x / tens[-exponent]
	}
	return x * tens[exponent]
}
