// Package temperature holds the calculators for the probes of a freeze dryer:
// thermocouples, platinum resistors and thermistors.
//
// The curves work in the units in which the standards print them, °C, mV and Ω; the
// calculators convert.
package temperature

import "math"

func findCouple(name string) *couple {
	for i := range couples {
		if couples[i].name == name {
			return &couples[i]
		}
	}
	return nil
}

func (c *couple) lowest() float64  { return c.spans[0].low }
func (c *couple) highest() float64 { return c.spans[1].high }

// emf is the voltage in mV of a junction at t °C against one at 0 °C, and its slope in
// mV/°C. Valid from lowest to highest; monotone there.
func (c *couple) emf(t float64) (mV, slope float64) {
	s := &c.spans[0]
	if t > s.high {
		s = &c.spans[1]
	}
	for i := len(s.coefficients) - 1; i >= 0; i-- {
		slope = slope*t + mV
		mV = mV*t + s.coefficients[i]
	}
	if c.name == "K" && t > 0 {
		d := t - bumpPlace
		bump := bumpSize * math.Exp(bumpWidth*d*d)
		mV += bump
		slope += 2 * bumpWidth * d * bump
	}
	return mV, slope
}

// celsius is the inverse of emf, by Newton's method kept between bounds that close in.
// It needs no second table, and holds below −200 °C too, where the inverse polynomials of
// the source end. NaN outside the range.
func (c *couple) celsius(mV float64) float64 {
	low, high := c.lowest(), c.highest()
	least, _ := c.emf(low)
	most, _ := c.emf(high)
	if !(mV >= least-rounding && mV <= most+rounding) {
		return math.NaN()
	}
	t := low + (high-low)*(mV-least)/(most-least)
	for range 100 {
		at, slope := c.emf(t)
		if at < mV {
			low = t
		} else {
			high = t
		}
		next := t - (at-mV)/slope
		if !(next > low && next < high) {
			next = (low + high) / 2
		}
		if math.Abs(next-t) < 1e-10 {
			return next
		}
		t = next
	}
	return t
}

// rounding is half the last digit of the printed tables, mV: an end of a range may be
// typed as the table prints it.
const rounding = 0.0005

// allowed is the largest error of a class (1 to 3) at t °C, in kelvin; ok is false where
// the class says nothing. An end of a class may be typed in any unit.
func (c *couple) allowed(number int, t float64) (kelvin float64, ok bool) {
	k := &c.classes[number-1]
	if k.fixed == 0 || t < k.low-tie || t > k.high+tie {
		return 0, false
	}
	return math.Max(k.fixed, k.share*math.Abs(t)), true
}
