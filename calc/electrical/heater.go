package electrical

import (
	"blankoff/calc/declare"
	"blankoff/calc/quantity"
	"blankoff/calc/uncertainty"
)

// Where a shelf heater's resistance lies, Ω (our notes of the trade); outside, something else was
// measured, or in another unit.
const leastHeater, mostHeater = 0.5, 200.0

// usualTolerance is how far a heater may be off where neither its card nor the reader says it.
const usualTolerance = 0.07

// Heater compares a shelf heater's resistance with its card or its plate.
//
// A card gives the cold resistance, so the cold reading is held against it. A plate
// gives the power of the hot element at its rated voltage, so the hot resistance is held
// against V²/P: measured hot, or carried up with a temperature coefficient; without
// either the cold one must do, which is right within 2 % for heating alloys and wrong by
// a third and more for copper.
var Heater = declare.Calculator{
	ID:       "heater",
	Title:    "Shelf heater",
	Group:    declare.TemperaturePowerFitting,
	Decision: "Is the heater whole, and does it give the power that it should?",
	Inputs: []declare.Input{
		{ID: "cold", Label: "Cold resistance", Symbol: "R₀", Kinds: []quantity.Kind{quantity.Resistance}, Unit: "Ω", Units: []string{"kΩ"},
			Min: "0 Ω", Max: "100 MΩ", Required: true, MayBeOver: true, Help: "At the heater's own plug, out of the machine's wiring, leads taken off. OL when the meter shows over-range."},
		{ID: "supply", Label: "Supply voltage", Symbol: "V", Kinds: []quantity.Kind{quantity.Voltage}, Unit: "V", Units: []string{"mV"},
			Min: "0.1 V", Max: "1000 V", UsualLow: "5 V", UsualHigh: "400 V", Required: true, Rising: 1, Help: "What the heater gets in service, from plate or card. Not to be measured here."},
		{ID: "card", Label: "Cold resistance on the card", Symbol: "R₁", Kinds: []quantity.Kind{quantity.Resistance}, Unit: "Ω", Units: []string{"kΩ"},
			Min: "0.01 Ω", Max: "1 MΩ", Help: "If the machine's card has it."},
		{ID: "power", Label: "Power on the plate", Symbol: "P₁", Kinds: []quantity.Kind{quantity.Power}, Unit: "W", Units: []string{"kW"},
			Min: "0.1 W", Max: "100 kW", Help: "Used where the card has no resistance."},
		{ID: "rated", Label: "Voltage on the plate", Symbol: "V₁", Kinds: []quantity.Kind{quantity.Voltage}, Unit: "V", Units: []string{"mV"},
			Min: "0.1 V", Max: "1000 V", Help: "Where it differs from the supply."},
		{ID: "tolerance", Label: "Tolerance", Symbol: "e", Kinds: []quantity.Kind{quantity.Ratio}, Unit: "%",
			Min: "0.1 %", Max: "100 %", Help: "How far the heater may be from card or plate. Blank: the ± of the card or plate, else 7 %."},
		{ID: "hot", Label: "Hot resistance", Symbol: "R₂", Kinds: []quantity.Kind{quantity.Resistance}, Unit: "Ω", Units: []string{"kΩ"},
			Min: "0.01 Ω", Max: "1 MΩ", Help: "Plug out, measured within a minute of heating, if you have it."},
		{ID: "coefficient", Label: "Change of resistance for each kelvin", Symbol: "α", Kinds: []quantity.Kind{quantity.Ratio}, Unit: "%", Units: []string{"ppm"},
			Min: "-1 %", Max: "1 %", Negative: true, Help: "0.017 % for a usual heating alloy, 0.393 % for copper."},
		{ID: "cold-temperature", Label: "Temperature when cold", Symbol: "T₀", Kinds: []quantity.Kind{quantity.Temperature}, Unit: "°C", Units: []string{"°F", "K"},
			Min: "-60 °C", Max: "100 °C", Default: "20 °C", Because: "a usual room", Negative: true, Help: "Of the heater, when the cold resistance was read."},
		{ID: "temperature", Label: "Temperature in service", Symbol: "T", Kinds: []quantity.Kind{quantity.Temperature}, Unit: "°C", Units: []string{"°F", "K"},
			Min: "-60 °C", Max: "1500 °C", Negative: true, Help: "Of the element; with the coefficient it gives the hot resistance that was not measured."},
	},
	Influences: []declare.Influence{
		{ID: "cold-error", Text: "error of a common meter, ± (1 % + 3 counts of 0.1 Ω), where no ± was entered", U: func(x *declare.Numbers) float64 { return unstatedU(x, "cold") }},
		{ID: "hot-error", Text: "the same of the hot resistance", U: func(x *declare.Numbers) float64 { return unstatedU(x, "hot") }},
		{ID: "plate-error", Text: "± 2 % where a plate is compared with the cold resistance alone", U: plateU},
	},
	Outputs: []declare.Output{
		{ID: "power", Label: "Power", Symbol: "P", Kind: quantity.Power, Unit: "W", Also: []string{"kW"}},
		{ID: "current", Label: "Current", Symbol: "I", Kind: quantity.Current, Unit: "A"},
		{ID: "working", Label: "Resistance in service", Symbol: "R", Kind: quantity.Resistance, Unit: "Ω", UnitOf: "cold"},
		{ID: "expected", Label: "Expected resistance", Symbol: "R₁", Kind: quantity.Resistance, Unit: "Ω", UnitOf: "card"},
		{ID: "deviation", Label: "Off by", Symbol: "x", Kind: quantity.Ratio, Unit: "%"},
		{ID: "allowed", Label: "Allowed, either way", Symbol: "e", Kind: quantity.Ratio, Unit: "%"},
		{ID: "element", Label: "Temperature of the hot element", Symbol: "T", Kind: quantity.Temperature, Unit: "°C", Also: []string{"°F"}},
		{ID: "state", Label: "State"},
	},
	Formula: []string{"P = V² / R", "I = V / R", "R = R₀ (1 + α (T − T₀)); or as measured hot, R₂", "R₁ = V₁² / P₁; where the card has no resistance", "x = R / R₁ − 1; against a card with R₀ in place of R",
		"T = T₀ + (R₂ / R₀ − 1) / α"},
	Sources: []declare.Source{
		{Title: "Power, current and resistance", Where: "Urone, College Physics, chapter 20, problem 53, in testdata/reference/14_heater_power.csv", Mark: declare.Published},
		{Title: "0.5 Ω to 200 Ω, and ± 7 %; a common meter", Mark: declare.CommonPractice},
		{Title: "Coefficient of a heating alloy, and ± 2 % from cold to hot", Mark: declare.Memory},
	},
	Cautions: []string{
		"Plug pulled, in your own hand, capacitors proven empty, heater unplugged at its connector. Live voltage, insulation tests, thermal cut-outs and mains wiring belong to a licensed electrician or qualified person; local codes decide.",
		"It does not show that the heater is safe: each of its leads to the frame must have more than 10 MΩ. If not, stop and tag the machine out.",
	},
	Hazards: []string{"mains", "stored-charge"},
	Limits:  []string{"One heater at its own plug. Several in parallel measure together, and one broken branch then shows as too much resistance.", "Power at the supply as entered: 5 % less voltage is 10 % less power."},
	Example: declare.Example{
		In:   []declare.Pair{{Name: "cold", Text: "35.1 Ω ± 0.7 Ω"}, {Name: "supply", Text: "120 V"}, {Name: "card", Text: "35.1 Ω"}},
		Want: []declare.Pair{{Name: "power", Text: "410.3 ± 8.2 W"}, {Name: "current", Text: "3.419 ± 0.068 A"}, {Name: "state", Text: "as on the card"}},
		From: "our notes of the trade, section 10, machine CN14: 410 W at 120 V, 35.1 Ω; ± by hand, 2 % of each",
	},
	Eval:  heaterEval,
	Judge: heaterJudge,
}

// The findings on a heater: # stands for the card or the plate, * for advice.
var (
	heaterShorted = finding{uncertainty.Fail, "shorted", "The heater is shorted, or the probes touch each other. Do not plug it in. Repeat once; then the maker's part, or a licensed electrician."}
	heaterOpen    = finding{uncertainty.Fail, "open", "No connection on this range: the element, its thermal fuse or a joint is broken, or a probe did not touch. Set a higher range, wipe, press and repeat; then the maker's part, or a licensed electrician."}
	heaterFits    = finding{uncertainty.Pass, "as on #", "{deviation} from #, within ± {allowed}: the element is whole. That is all it proves."}
	heaterUnsure  = finding{uncertainty.CannotTell, "whole, but near the tolerance", "{deviation} from # may lie on either side of ± {allowed}. *"}
	heaterLow     = finding{uncertainty.Fail, "too low", "{deviation}, below #: part of it is shorted, something is connected beside it, or it is another heater. Repeat at the heater's own plug; then the maker's part, or a licensed electrician."}
	heaterHigh    = finding{uncertainty.Fail, "too high", "{deviation}, above #: part of it is broken, a joint is bad, or it is another heater. Repeat at the heater's own plug; then the maker's part, or a licensed electrician."}
)

// unstatedU is the uncertainty of a resistance that was entered without ±: the counts of
// a common meter are a tenth of what a heater for 24 V has.
func unstatedU(x *declare.Numbers, id string) float64 {
	if typed := x.Typed(id); typed.HasU || typed.Over || !x.Has(id) {
		return 0
	}
	return uncertainty.FromAccuracy(uncertainty.MeterLimit(x.In(id), 0.01, 3, 0.1))
}

// plateU is that of a cold resistance in place of the hot one that a plate means.
func plateU(x *declare.Numbers) float64 {
	if x.Has("card") || !x.Has("power") || x.Has("hot") || x.In("coefficient") != 0 && x.Has("temperature") {
		return 0
	}
	return uncertainty.FromAccuracy(0.02)
}

func heaterEval(x *declare.Numbers) {
	cold, supply, coefficient := x.In("cold"), x.In("supply"), x.In("coefficient")
	if x.Typed("cold").Over || cold == 0 {
		return
	}
	cold += x.Influence("cold-error")
	start, hot := x.In("cold-temperature"), x.Has("hot")
	work := cold
	if hot {
		work = x.In("hot") + x.Influence("hot-error")
	} else if coefficient != 0 && x.Has("temperature") {
		work *= 1 + coefficient*(x.In("temperature")-start)
	}
	if work < 1e-9 || cold < 1e-9 {
		x.Refuse("cold", "the resistance in service comes out at nought or below; check resistances, coefficient and temperatures")
		return
	}
	x.Set("working", work)
	x.Set("power", supply*supply/work)
	x.Set("current", supply/work)
	heaterCompare(x, cold, work)
	if hot && coefficient != 0 {
		element := start + (work/cold-1)/coefficient
		if element < 0 || element > 5000 {
			x.Refuse("hot", "hot and cold resistance with this coefficient give an element of an impossible temperature; check all three")
		}
		x.Set("element", element)
	}
}

// heaterCompare holds the heater against its card or plate. The ± printed there is the
// maker's leave for the part. It bounds what may be found and makes nothing less sure, so
// the nominal value is taken, and only the meter's ± is an uncertainty.
func heaterCompare(x *declare.Numbers, cold, work float64) {
	against, expected, compared := x.Typed("card"), x.Typed("card").Value, cold
	if !x.Has("card") {
		if !x.Has("power") {
			return
		}
		against = x.Typed("power")
		rated := x.Or("rated", x.In("supply"))
		expected, compared = rated*rated/against.Value, work*(1+x.Influence("plate-error"))
	}
	allowed := usualTolerance
	switch {
	case x.Written("tolerance"):
		allowed = x.Typed("tolerance").Value
	case against.U > 0:
		allowed = uncertainty.K * against.U / against.Value
	}
	x.Set("expected", expected)
	x.Set("allowed", allowed)
	x.Set("deviation", compared/expected-1)
}

func heaterJudge(r *declare.Result) {
	cold := r.In("cold")
	over := r.Typed("cold").Over
	if over || cold == 0 {
		line, found := "The meter shows 0 Ω with its leads taken off.", &heaterShorted
		if over {
			line, found = "The meter shows OL: the resistance is above the top of its range.", &heaterOpen
		}
		r.Work(line)
		tell(r, found, "", "")
		return
	}
	r.Work("P = V² / R = ({supply})² / {working} = {power}")
	r.Work("I = V / R = {supply} / {working} = {current}")
	if cold < leastHeater || cold > mostHeater {
		r.Caution("A shelf heater has 0.5 Ω to 200 Ω: check the unit, the plug and what else is connected.")
	}
	if r.In("coefficient") >= 0 && r.Or("hot", cold) < cold {
		r.Caution("Hot it has less resistance than cold: repeat both readings.")
	}
	if unstatedU(r.Numbers, "cold")+unstatedU(r.Numbers, "hot") > 0 {
		r.Caution("Resistance given without ±: ± (1 % + 0.3 Ω) taken, as for a common meter.")
	}
	if plateU(r.Numbers) > 0 {
		r.Caution("A plate means the hot heater: ± 2 % taken for the cold one, as for a heating alloy.")
	}
	heaterVerdict(r)
}

func heaterVerdict(r *declare.Result) {
	expected, _ := r.Out("expected")
	if expected == 0 {
		r.Text("state", "not compared")
		r.Caution("Without a card or plate there is nothing to hold the heater against: these are plain figures, no verdict.")
		return
	}
	against, line := "the card", "x = {in:cold} / {expected} − 1 = {deviation}; allowed are ± {allowed}"
	if !r.Has("card") {
		against, line = "the plate", "x = {working} / {expected} − 1 = {deviation}; allowed are ± {allowed}"
		r.Work("R₁ = V₁² / P₁ = {expected}")
	}
	r.Work(line)
	x, u := r.Out("deviation")
	tolerance, _ := r.Out("allowed")
	if !r.Written("tolerance") && r.Typed("card").U+r.Typed("power").U == 0 {
		r.Caution("No tolerance given: ± 7 % taken, as common practice, no source.")
	}
	is, found := uncertainty.Within(x, uncertainty.K*u, -tolerance, tolerance), &heaterHigh
	switch {
	case is == uncertainty.Pass:
		found = &heaterFits
	case is == uncertainty.CannotTell:
		found = &heaterUnsure
	case x < 0:
		found = &heaterLow
	}
	advice := "The hot resistance would settle it."
	if plateU(r.Numbers) == 0 {
		advice = goodTo(expected * distance(x, -tolerance, tolerance))
	}
	tell(r, found, against, advice)
}
