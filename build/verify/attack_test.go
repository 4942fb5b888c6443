package verify

import (
	"testing"

	"blankoff/calc/quantity"
)

// attacks are texts that once passed though they are false, were refused though they are true, or that stand at a limit.
var attacks = []struct{ reason, said, right, want string }{
	// Numbers that are no plain decimals.
	{"no minutes are exact too", "1 h 0 min", "80 min", otherFigure},
	{"a chain is known to its last part", "1h30", "90.4 min", agrees},
	{"a chain, half a minute off", "1h30", "90.6 min", otherFigure},
	{"seconds in a chain", "10 min 30 s", "630.4 s", agrees},
	{"a chain that ends in hours", "2 d 0 h", "2.3 d", otherFigure},
	{"feet and inches", "5 ft 3 in", "1600 mm", agrees},
	{"below zero a chain counts down", "-1h30", "-90 min", agrees},
	{"a fraction that is whole is exact", "1/1 in", "1.4 in", otherFigure},
	{"a mixed number is no decimal number", "1 1/10 in", "1.14 in", otherFigure},
	{"a mixed number", "1 1/8 in", "28.575 mm", agrees},
	{"a fraction is not rounded", "11/16 in", "17.46 mm", otherFigure},
	{"data of a fraction, rounded", "17.46 mm", "11/16 in", agrees},
	{"half an hour", "1/2 h", "30 min", agrees},

	// Marks, spaces, signs.
	{"no-break space before the unit", "350\u00a0mTorr", "350 mTorr", agrees},
	{"narrow no-break space in the number", "2\u202f000 mTorr", "2,000 mTorr", agrees},
	{"thin space in the number", "22\u2009500 mTorr", "22,500 mTorr", agrees},
	{"apostrophe in the number", "22'500 mTorr", "22,500 mTorr", agrees},
	{"typographic apostrophe, off by a digit", "22’501 mTorr", "22,500 mTorr", otherFigure},
	{"decimal comma with grouping spaces", "22 500,0 mTorr", "22,500 mTorr", agrees},
	{"three figures behind a comma are thousands", "2,000 Torr", "2.000 Torr", otherFigure},
	{"minus as a sign of its own", "−34 °C", "-34 °C", agrees},
	{"hyphen for a minus that is missing", "34 °C", "−34 °C", otherFigure},
	{"a plus says nothing", "+34 °C", "34 °C", agrees},
	{"minus nought is nought", "-0 °C", "0 °C", agrees},
	{"no figure before the point", ".35 Torr", "350 mTorr", agrees},
	{"unit glued on", "350mTorr", "350 mTorr", agrees},
	{"point behind the unit", "350 mTorr.", "350 mTorr", agrees},
	{"micro sign and Greek letter", "500 μbar", "500 µbar", agrees},

	// The written last digit.
	{"24 for 24.0", "24 L", "24.0 L", agrees},
	{"24.0 for 24", "24.0 L", "24 L", agrees},
	{"24.0 is closer than 24", "24.0 L", "24.06 L", otherFigure},
	{"zeros of a whole number count in data", "2,000 mTorr", "1,960 mTorr", otherFigure},
	{"half, upward", "3 mTorr", "2.5 mTorr", agrees},
	{"half, downward", "2 mTorr", "2.5 mTorr", agrees},
	{"a hair beyond half", "2 mTorr", "2.500001 mTorr", otherFigure},
	{"half of a tenth degree at zero", "0.0 °C", "0.05 °C", agrees},
	{"more figures than data are a claim", "24.00000001 L", "24 L", otherFigure},
	{"thirteen figures in two units", "0.1333223684211 kPa", "1 Torr", agrees},

	// Powers of ten.
	{"as printed, with an accuracy", "(2.2 ± 0.1)×10⁻⁵ mbar·L/s", "2.23e-5 mbar·L/s ± 0.1e-5 mbar·L/s", agrees},
	{"as printed, off", "(2.3 ± 0.1)×10⁻⁵ mbar·L/s", "2.23e-5 mbar·L/s ± 0.1e-5 mbar·L/s", otherFigure},
	{"as printed, accuracy off", "(2.2 ± 0.2)×10⁻⁵ mbar·L/s", "2.23e-5 mbar·L/s ± 0.1e-5 mbar·L/s", otherFigure},
	{"spaces around the sign", "1.8 × 10^-2 mbar·L/s", "0.0184 mbar·L/s", agrees},
	{"a large power has a large step", "1e3 Pa", "1400 Pa", agrees},
	{"with a figure more it has not", "1.0e3 Pa", "1400 Pa", otherFigure},

	// Scales and kinds.
	{"Fahrenheit", "90 °F", "32 °C", agrees},
	{"Fahrenheit off", "91 °F", "32 °C", otherFigure},
	{"kelvin", "239 K", "-34 °C", agrees},
	{"a difference is no temperature", "5 °C", "5 K", otherFigure},
	{"units of no kind, other dimension", "5 kg/s²", "5 mol·s", otherKind},
	{"units of no kind, same dimension", "5 mol/kg", "5 mol/kg", agrees},
	{"counts are no percentage", "5 counts", "500 %", otherKind},
	{"percent and ppm", "0.02 %", "200 ppm", agrees},
	{"percent is no plain number", "20 %", "20", otherFigure},
	{"dial", "-28.0 inHg gauge", "-28 inHg gauge", agrees},
	{"dial, other word", "28 inHg vacuum", "-28 inHg gauge", agrees},
	{"dial, other word, off", "27 inHg vacuum", "-28 inHg gauge", otherFigure},
	{"pressure above the air's", "0.3 barg", "5 psig", agrees},
	{"a meter's sign, other spelling", "O.L", "OL", agrees},
	{"an open valve is no meter's sign", "OL", "open", otherWords},
	{"flow of gas counted at a temperature", "0.59 sccm", "0.01 mbar·L/s", otherKind},
	{"a heater is no leak", "410 W", "410 Pa·m³/s", otherKind},

	// Accuracies.
	{"only in the text", "24 L ± 1 L", "24.0 L", noAccuracy},
	{"only in the data", "24 L", "24.0 L ± 1.0 L", agrees},
	{"in another unit", "24 L ± 1000 mL", "24.0 L ± 1.0 L", agrees},
	{"in another unit, no-break spaces", "24\u00a0L\u00a0±\u00a01000\u00a0mL", "24.0 L ± 1.0 L", agrees},
	{"in another unit, off", "24 L ± 900 mL", "24.0 L ± 1.0 L", otherFigure},
	{"no-break spaces, off", "24\u00a0L\u00a0±\u00a0900\u00a0mL", "24.0 L ± 1.0 L", otherFigure},
	{"percent with its unit behind", "24 ± 4 % L", "24.0 L ± 1.0 L", agrees},
	{"percent in the data", "24 L ± 0.96 L", "24 L ± 4 %", agrees},
	{"kelvin beside Celsius", "-34 °C ± 2 K", "-34 °C ± 2 °C", agrees},
	{"Fahrenheit beside Celsius", "-34 °C ± 3.6 °F", "-34 °C ± 2 K", agrees},
	{"plus, slash, minus", "24 +/- 1 L", "24.0 L ± 1.0 L", agrees},
	{"plus, slash, minus, off", "24 +/- 2 L", "24.0 L ± 1.0 L", otherFigure},
	{"range for an accuracy", "23–25 L", "24.0 L ± 1.0 L", agrees},
	{"range for an accuracy, off", "22–25 L", "24.0 L ± 1.0 L", otherFigure},
	{"accuracy for a range", "24 L ± 1 L", "23 to 25 L", agrees},
	{"accuracy for a range, off", "24 L ± 2 L", "23 to 25 L", otherFigure},
	{"the middle of a range is not the range", "24 L", "23 to 25 L", otherForm},

	// Ranges.
	{"unit at both ends", "8 °C to 32 °C", "8 to 32 °C", agrees},
	{"two units", "900 mTorr to 1.2 Torr", "900 to 1200 mTorr", agrees},
	{"other unit", "46 to 90 °F", "8 to 32 °C", agrees},
	{"reversed", "32 to 8 °C", "8 to 32 °C", otherForm},
	{"inside", "10 to 30 °C", "8 to 32 °C", otherFigure},
	{"powers of ten with hyphens", "1e-5-2e-5 mbar·L/s", "1e-5 to 2e-5 mbar·L/s", agrees},
	{"below zero, dashes", "−34–−30 °C", "-34 to -30 °C", agrees},
	{"below zero, hyphens", "-34--30 °C", "-34 to -30 °C", agrees},
	{"accuracies in a range", "6.9 ± 0.1 Ω to 9.3 ± 0.1 Ω", "6.9 to 9.3 Ω", otherForm},
	{"a plain factor", "1.5–1.62", "1.5 to 1.62", agrees},
	{"no unit", "8 to 32", "8 to 32 °C", otherKind},
	{"two dots", "8 .. 32 °C", "8 to 32 °C", agrees},

	// Lists.
	{"pins", "1 and 4", "1 and 4", agrees},
	{"pins with a comma", "1, 4", "1 and 4", agrees},
	{"pins, off", "1 and 5", "1 and 4", otherFigure},
	{"pins the other way round", "4 and 1", "1 and 4", otherFigure},
	{"one pin too few", "1", "1 and 4", otherForm},
	{"one pin too many", "1, 4 and 5", "1 and 4", otherForm},
	{"or is not and", "1 or 4", "1 and 4", otherWords},
	{"list with one unit, other unit", "13.3, 26.7 and 40.0 Pa", "100, 200 and 300 mTorr", agrees},
	{"list with each unit", "9.5 A and 28 A", "9.5 and 28 A", agrees},
	{"list of two kinds", "120 V and 28 A", "120 V and 28 A", agrees},
	{"list of two kinds, swapped", "28 A and 120 V", "120 V and 28 A", otherKind},
	{"list of wholes", "1 and 4.2", "1 and 4", otherFigure},

	// Bounds.
	{"over", "over 10 MΩ", "> 10 MΩ", agrees},
	{"more than", "more than 10,000 kΩ", "over 10 MΩ", agrees},
	{"at least", "at least 1 MΩ", "≥ 1 MΩ", agrees},
	{"no less than", "no less than 1 MΩ", "1 MΩ or more", agrees},
	{"over is not at least", "over 1 MΩ", "at least 1 MΩ", otherSense},
	{"at most is not at least", "at most 1 MΩ", "at least 1 MΩ", otherSense},
	{"a bound, off", "at least 2 MΩ", "at least 1 MΩ", otherFigure},
	{"the word is missing", "1 MΩ", "at least 1 MΩ", otherSense},
	{"the word belongs outside", "at most 350 mTorr", "350 mTorr", otherSense},
	{"capital at the start of a sentence", "At least 1 MΩ", "at least 1 MΩ", agrees},
	{"up to", "up to 350 mTorr", "≤ 350 mTorr", agrees},

	// Words.
	{"a word may start a sentence", "Insulated junction", "insulated junction", agrees},
	{"a sentence in the data", "insulated junction", "Insulated junction", agrees},
	{"other case elsewhere", "insulated Junction", "insulated junction", otherWords},
	{"a designation keeps its case", "r 1/8", "R 1/8", otherWords},
	{"a name keeps its case", "pt100", "Pt100", otherWords},
	{"no-break space", "R\u00a01/8", "R 1/8", agrees},
	{"two spaces", "R  1/8", "R 1/8", agrees},
	{"no-break hyphen", "TQ\u20114", "TQ-4", agrees},
	{"dash", "TQ–4", "TQ-4", agrees},
	{"no space", "R1/8", "R 1/8", otherWords},
	{"another thread", "R 1/4", "R 1/8", otherWords},
	{"about", "about 350 mTorr", "350 mTorr", otherForm},
	{"two units", "350 mTorr (47 Pa)", "350 mTorr", otherForm},
	{"Arabic figures are no figures here", "٣٥٠ mTorr", "350 mTorr", otherForm},

	// Very large, very small.
	{"tiny", "1e-280 Pa", "1.2e-280 Pa", agrees},
	{"tiny, off", "1e-280 Pa", "2e-280 Pa", otherFigure},
	{"huge", "1e280 Pa", "1.4e280 Pa", agrees},
	{"nought is not tiny", "0 Pa", "1e-20 Pa", agrees},
	{"tiny is not nought", "1e-20 Pa", "0 Pa", otherFigure},
}

func TestAttacks(t *testing.T) {
	for _, c := range attacks {
		t.Run(c.reason, func(t *testing.T) {
			if got := disagreement(read(c.said), read(c.right)); got != c.want {
				t.Errorf("%q against %q: %q, want %q", c.said, c.right, got, c.want)
			}
		})
	}
}

// TestDifference: a kelvin of a result that is a difference is no temperature.
func TestDifference(t *testing.T) {
	kelvin, _ := quantity.FindUnit("K")
	right := given("1.2 K", quantity.Quantity{Value: 1.2, Kind: quantity.TemperatureDifference, Unit: kelvin.Difference()})
	for _, c := range []struct{ said, want string }{
		{"1.20 K", agrees}, {"1.2 °C", agrees}, {"2.2 °F", agrees}, {"1.3 K", otherFigure}, {"1.2 Pa", otherKind}, {"1.0 to 1.2 K", otherForm},
	} {
		if got := disagreement(read(c.said), right); got != c.want {
			t.Errorf("%s: %q, want %q", c.said, got, c.want)
		}
	}
	if q, _ := quantity.Parse("5 K"); q.Kind != quantity.Temperature {
		t.Error("a kelvin has become a difference for everybody")
	}
}
