// Package constant holds the constants of nature that several subjects share.
package constant

const (
	// Gas is the molar gas constant, J/(mol·K): exact (SI Brochure, 9th ed., 2019).
	Gas = 8.31446261815324
	// Atmosphere is the standard atmosphere, Pa: exact by definition.
	Atmosphere = 101325.0
	// Torr is a 760th of it, Pa.
	Torr = Atmosphere / 760
	// ZeroCelsius is the zero of the Celsius scale, K: exact by definition.
	ZeroCelsius = 273.15
)

// Molar masses, kg/mol. Air: dry air as in the check values of
// testdata/reference/02_throughput_units.csv; water: IAPWS.
const (
	Air   = 0.0289647
	Water = 0.018015268
)
