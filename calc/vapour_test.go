package calc_test

import (
	"testing"

	"blankoff/calc/vapour"
)

// kelvinText is the temperature of a row, which is named T in K and t in °C.
func kelvinText(r row) string { return r.in["T"] + r.in["t"] }

var _ = topicOf(topic{file: "07_vapour_pressure.csv", rows: 44, numbers: map[string]func(*testing.T, row) float64{
	"vapour_pressure_ice":         boils,
	"vapour_pressure_water":       boils,
	"saturation_pressure_if97":    boils,
	"saturation_temperature_if97": boilsAt,
	"ice_temperature_at_pressure": boilsAt,
	"vapour_pressure_ice_mk2005": func(t *testing.T, r row) float64 {
		return ask(t, "ice-floor", "floor", r.unit, "temperature", kelvinText(r)).Value
	},
	// Above the triple point the calculator gives the line of IAPWS; the equation is used
	// for water that has not frozen, and is checked there as a function.
	"vapour_pressure_water_mk2005": func(t *testing.T, r row) float64 {
		switch kelvinText(r) {
		case "20 degC":
			return vapour.SupercooledPressure(293.15)
		case "300 K":
			return vapour.SupercooledPressure(300)
		}
		return ask(t, "water-boil", "unfrozen", r.unit, "temperature", kelvinText(r)).Value
	},
}})

func boils(t *testing.T, r row) float64 {
	return ask(t, "water-boil", "vapour", r.unit, "temperature", kelvinText(r)).Value
}

func boilsAt(t *testing.T, r row) float64 {
	return ask(t, "water-boil", "boiling", r.unit, "pressure", r.in["p"]).Value
}

var _ = topicOf(topic{file: "08_latent_heat.csv", rows: 19, numbers: map[string]func(*testing.T, row) float64{
	// 1 kg in 1,000 s takes as many watts as its heat has joules per gram.
	"latent_heat_sublimation": func(t *testing.T, r row) float64 {
		return ask(t, "drying-time", "needed", "W", "water", "1 kg", "planned", "1000 s", "ice", kelvinText(r)).Value
	},
	"water_vapour_volume": func(t *testing.T, r row) float64 {
		return ask(t, "vapour-volume", "volume", r.unit, "mass", r.in["m"], "temperature", r.in["t"], "pressure", r.in["p"]).Value
	},
	"sublimation_power": func(t *testing.T, r row) float64 {
		return ask(t, "drying-time", "needed", r.unit, "water", text(r.number(t, "mdot"), "kg"), "planned", "1 h", "heat", r.in["L"]).Value
	},
	"sublimation_rate": func(t *testing.T, r row) float64 {
		return ask(t, "drying-time", "rate", r.unit, "water", "1 kg", "power", r.in["P"], "heat", r.in["L"]).Value
	},
	"vapour_volume_flow": func(t *testing.T, r row) float64 {
		return ask(t, "vapour-volume", "flow", r.unit, "mass", text(r.number(t, "mdot"), "g"), "time", "1 h", "temperature", r.in["t"], "pressure", r.in["p"]).Value
	},
}})

// Requests that take each branch of a formula and of a verdict.
var (
	_ = work("ice-floor",
		pairs("temperature", "-42 °C ± 0.5 K", "reading", "95 mTorr", "principle", "capacitance", "gauge", "1 %"),
		pairs("temperature", "-34 °C ± 1 K", "reading", "617 mTorr ± 30 mTorr"),
		pairs("temperature", "-22 °C", "reading", "90 mTorr", "gauge", "15 %"),
		pairs("temperature", "6 °C ± 2 K"),
		pairs("reading", "4 mbar", "principle", "capacitance", "gauge", "0.5 %"),
		pairs("reading", "12 mbar ± 0.1 mbar", "principle", "capacitance"))
	_ = work("water-boil",
		pairs("pressure", "20 mbar ± 1 mbar"), pairs("pressure", "950 mbar ± 5 mbar"), pairs("pressure", "611.657 Pa"),
		pairs("temperature", "-25 °C ± 1 K"), pairs("temperature", "-60 °C ± 0.5 K"), pairs("temperature", "21 °C ± 0.5 K"))
	_ = work("vapour-volume",
		pairs("mass", "1 g ± 0.01 g", "pressure", "100 mTorr ± 20 %"),
		pairs("mass", "3.6 kg ± 5 %", "pressure", "450 mTorr ± 10 %", "temperature", "10 °C ± 5 K", "time", "20 h ± 1 h"),
		pairs("mass", "2 g", "pressure", "30 mbar", "temperature", "20 °C", "time", "10 min"))
	_ = work("solvent-vapour",
		pairs("amount", "5 mL", "solvent", "isopropyl alcohol", "space", "30 m³", "place", "room"),
		pairs("amount", "50 mL ± 5 mL", "solvent", "ethanol", "space", "25 m³", "place", "room", "temperature", "28 °C ± 3 K", "ambient", "950 mbar ± 10 mbar"),
		pairs("amount", "0.1 mL", "solvent", "isopropyl alcohol", "space", "24 L", "place", "closed"),
		pairs("amount", "100 mL", "solvent", "acetone", "space", "40 m³ ± 4 m³", "place", "room"),
		pairs("amount", "38 mL", "solvent", "isopropyl alcohol", "space", "30 m³", "place", "room"),
		pairs("amount", "10 mL", "solvent", "other", "space", "30 m³", "place", "room", "density", "1.5 g/mL ± 1 %", "molar-mass", "250 g/mol", "lower", "1.2 % ± 0.1 %", "upper", "9 %", "exposure", "200 ppm"))
	_ = work("ice-load",
		pairs("mass", "4.0 kg ± 0.1 kg", "water", "87 %", "capacity", "3.6 kg"),
		pairs("mass", "3 kg", "water", "70 % ± 2 %", "residual", "4 % ± 1 %", "capacity", "3.6 kg ± 0.1 kg"),
		pairs("mass", "20 lb", "water", "99 % ± 0.5 %"))
	_ = work("drying-time",
		pairs("water", "3.6 kg", "power", "410 W ± 20 W", "share", "50 % ± 10 %", "ice", "-25 °C ± 2 K", "planned", "20 h"),
		pairs("water", "3.6 kg", "power", "410 W", "trap", "150 g/h ± 10 %", "planned", "20 h ± 1 h"),
		pairs("water", "2.2 kg", "speed", "40 L/s ± 10 %", "port", "30 mm ± 1 mm", "pressure", "250 mTorr ± 20 %", "ice", "-25 °C", "trap", "2 kg/h"),
		pairs("water", "3 kg", "power", "100 W ± 10 %", "trap", "127 g/h ± 10 %", "planned", "40 h"))
	_ = work("energy",
		pairs("power", "900 W", "time", "30 min", "price", "0.30"),
		pairs("power", "1,100 W ± 5 %", "time", "24 h ± 1 h", "price", "0.25 ± 0.02", "ice", "3.6 kg ± 0.1 kg", "temperature", "-34 °C ± 3 K"),
		pairs("ice", "2.2 kg", "temperature", "-52 °C"))
)
