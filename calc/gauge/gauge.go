// Package gauge holds the calculators that ask whether a vacuum gauge tells the truth:
// two gauges side by side, a reading that jumps, a thermal gauge in another gas, and the
// millivolts of its tube. The tube's wires are a matter of calc/electrical.
package gauge

import "blankoff/calc/constant"

// ceiling is the pressure above which a thermocouple gauge bends and its readings are
// no measurement, Pa: 2,000 mTorr (our notes of the trade, common practice).
const ceiling = 2 * constant.Torr

// thermalAccuracy is what a thermocouple gauge without a certificate is taken to keep,
// as a share of its reading.
const (
	thermalAccuracy = "20 %"
	thermalBecause  = "from memory for a thermocouple gauge without a certificate"
)

// In water vapour a thermal gauge that is set for air shows this many times the true
// pressure. Kinetic theory gives 1.49 to 1.62, one maker's published factor of 0.5 means
// 2.0; nothing seen says which is nearer for a given tube, so both ends are kept.
const vapourLow, vapourHigh = 1.49, 2.0

// tie lets entries that are equal in different units compare as equal.
const tie = 1e-12
