package machine

import q "blankoff/calc/quantity"

// Groups are the headings of a card, in its order.
var Groups = []string{identity, chamber, pump, condenser, acceptance, dryCurve, sensor, supply, OwnGroup}

const (
	identity   = "Machine and room"
	chamber    = "Chamber"
	pump       = "Pump and hoses"
	condenser  = "Condenser"
	acceptance = "Acceptance"
	dryCurve   = "Pumping down, empty and dry"
	sensor     = "Vacuum sensor"
	supply     = "Supply and heat"
)

// Entries is the vocabulary. What is possible (Least, Most) is wide on purpose and our own judgement, without a source:
// it is to catch a wrong unit or a lost decimal mark, not to tell a good machine from a bad one.
var Entries = []Entry{
	{"serial-form", identity, "Serial number", Words, q.None, "", "", nil, "CN14-YYWW-sequence-letter", "How serial numbers of this model are built."},
	{"room-range", identity, "Room", Range, q.Temperature, "-40 °C", "60 °C", nil, "8 to 32 °C", "Temperatures of the room in which the machine may run."},

	{"chamber-volume", chamber, "Volume", Measure, q.Volume, "0.5 L", "500 L", nil, "24.0 L ± 1.0 L", "Volume that a closed valve shuts in: the chamber, and the lines up to the valve."},
	{"drain-bore", chamber, "Bore of the drain", Measure, q.Length, "1 mm", "60 mm", nil, "6 mm", "The largest hole that can open by itself."},
	{"isolation", chamber, "Isolation valve", Words, q.None, "", "", nil, "none fitted", "Where the chamber can be closed off from the pump."},

	{"pump-speed", pump, "Pumping speed, plate", Measure, q.VolumeFlow, "0.1 m³/h", "200 m³/h", nil, "5.1 m³/h", "Volume flow rate on the pump's plate."},
	{"hose-bore", pump, "", Measure, q.Length, "2 mm", "60 mm", nil, "12 mm", "Inner diameter of the hose between chamber and pump."},
	{"hose-length", pump, "", Measure, q.Length, "5 cm", "10 m", nil, "1.20 m", "Length of the hose between chamber and pump."},
	{"blank-off-new", pump, "Blank-off, new oil", Exact, q.Pressure, "0.1 mTorr", "10,000 mTorr", nil, "25 mTorr", "What a good pump reaches with its inlet closed, oil warm, gas ballast closed."},
	{"blank-off-limit", pump, "Blank-off, at most", Exact, q.Pressure, "0.1 mTorr", "10,000 mTorr", nil, "45 mTorr", "Above this the pump or its oil needs service."},
	{"oil-charge", pump, "", Measure, q.Volume, "20 mL", "20 L", nil, "0.55 L", "Oil for one filling of the pump."},
	{"oil-grade", pump, "", Words, q.None, "", "", nil, "vacuum pump oil of the pump's maker", "Which oil the pump takes."},
	{"warm-up", pump, "Warm-up of the oil", Exact, q.Time, "1 min", "4 h", nil, "30 min", "How long the pump runs before its oil is warm."},

	{"condenser-temperature", condenser, "Temperature", Measure, q.Temperature, "-110 °C", "0 °C", nil, "-34 °C", "Of the cold trap, pulled down, without a load."},
	{"pull-down", condenser, "Time to pull down", Exact, q.Time, "1 min", "12 h", nil, "40 min", "From switching the cold on to its temperature."},
	{"ice-floor", condenser, "", Exact, q.Pressure, "0.0001 mTorr", "4,600 mTorr", nil, "187 mTorr", "Pressure of water vapour over ice as cold as the trap: no chamber with ice in its trap goes lower."},
	{"ice-capacity", condenser, "", Exact, q.Mass, "50 g", "500 kg", nil, "3.6 kg", "Ice that the trap holds before it must be defrosted."},

	{"ready-limit", acceptance, "Ready, loaded, at most", Exact, q.Pressure, "0.1 mTorr", "5,000 mTorr", nil, "350 mTorr", "Loaded chamber, as displayed, after the ready time."},
	{"ready-time", acceptance, "", Exact, q.Time, "1 min", "12 h", nil, "30 min", "From the start of the pump to the reading."},
	{"dry-empty-limit", acceptance, "Empty and dry, at most", Exact, q.Pressure, "0.1 mTorr", "5,000 mTorr", nil, "150 mTorr", "Empty, dry chamber after the ready time."},
	{"rise-limit", acceptance, "Rise, at most", Exact, q.PressureRate, "0.01 mTorr/min", "5,000 mTorr/min", nil, "20 mTorr/min", "How fast the closed, dry chamber may rise."},
	{"leak-limit", acceptance, "Leak, at most", Exact, q.Throughput, "0.000001 mbar·L/s", "10 mbar·L/s", nil, "0.0107 mbar·L/s", "The same as a flow of gas: rise times volume."},

	{"dry-curve-N-min", dryCurve, "After N min", Exact, q.Pressure, "0.1 mTorr", "800,000 mTorr", nil, "208 mTorr", "Pressure of a good, dry, empty chamber so long after the start of the pump."},

	{"sensor-tube", sensor, "Tube", Words, q.None, "", "", nil, "TQ-4", "Type of the sensor tube; a tube's file gives it."},
	{"sensor-construction", sensor, "Construction", Choice, q.None, "", "", constructions, "insulated junction", "Whether the couple touches the heater; a tube's file gives it."},
	{"heater-pins", sensor, "", Pins, q.None, "", "", nil, "1 and 4", "Pins of the heater, from the pin side; a tube's file gives them."},
	{"couple-pins", sensor, "", Pins, q.None, "", "", nil, "6 and 7", "Pins of the thermocouple, from the pin side; a tube's file gives them."},
	{"heater-pair-low", sensor, "Heater pair, at least", Exact, q.Resistance, "0.1 Ω", "1 kΩ", nil, "6.9 Ω", "The lowest resistance of a good heater, leads taken off."},
	{"heater-pair-high", sensor, "Heater pair, at most", Exact, q.Resistance, "0.1 Ω", "1 kΩ", nil, "9.3 Ω", "The highest resistance of a good heater."},
	{"couple-pair-low", sensor, "Couple pair, at least", Exact, q.Resistance, "0.1 Ω", "1 kΩ", nil, "12.4 Ω", "The lowest resistance of a good thermocouple."},
	{"couple-pair-high", sensor, "Couple pair, at most", Exact, q.Resistance, "0.1 Ω", "1 kΩ", nil, "16.8 Ω", "The highest resistance of a good thermocouple."},
	{"pair-N-N", sensor, "Pins N and N", Measure, q.Resistance, "0.1 Ω", "1 kΩ", nil, "8.1 Ω ± 15 %", "Resistance between two pins of a joined tube."},
	{"cross-pair", sensor, "Heater to couple, at least", Exact, q.Resistance, "1 kΩ", "100 GΩ", nil, "1 MΩ", "Between heater and couple of a tube whose junction is insulated."},
	{"pin-to-case", sensor, "Any pin to the case, at least", Exact, q.Resistance, "1 kΩ", "100 GΩ", nil, "10 MΩ", "Between any pin and the case."},
	{"thread", sensor, "Thread of the port", Thread, q.None, "", "", nil, "R 1/8", "The pipe thread by which the sensor is fitted."},
	{"display-step", sensor, "", Exact, q.Pressure, "0.0001 mTorr", "1,000 mTorr", nil, "1 mTorr", "The smallest change that the display shows."},
	{"sensor-floor", sensor, "Floor of the sensor", Exact, q.Pressure, "0.00001 mTorr", "100 mTorr", nil, "1 mTorr", "Below this its reading says nothing."},
	{"gauge-ceiling", sensor, "Reads true up to", Exact, q.Pressure, "100 mTorr", "800,000 mTorr", nil, "2,000 mTorr", "Above this its reading is crude."},
	{"gauge-accuracy", sensor, "Accuracy, ± of the reading", Exact, q.Ratio, "0.01 %", "100 %", nil, "20 %", "How far off a reading may be."},
	{"vapour-factor", sensor, "Reads water vapour too high by", Range, q.Ratio, "1", "3", nil, "1.5 to 1.62", "Reading over true pressure, in water vapour."},

	{"supply", supply, "", Exact, q.Voltage, "10 V", "1 kV", nil, "120 V", "Voltage for which the machine is made."},
	{"running-current", supply, "", Measure, q.Current, "0.05 A", "200 A", nil, "9.5 A", "With pump and compressor running."},
	{"start-current", supply, "", Measure, q.Current, "0.05 A", "1,000 A", nil, "28 A", "For a moment, as pump or compressor starts."},
	{"shelf-heater", supply, "Shelf heater, power", Measure, q.Power, "1 W", "50 kW", nil, "410 W", "At its own voltage."},
	{"shelf-heater-supply", supply, "Shelf heater, voltage", Exact, q.Voltage, "1 V", "1 kV", nil, "120 V", "The voltage at which the heater gives its power."},
	{"shelf-heater-cold", supply, "Shelf heater, cold", Measure, q.Resistance, "0.05 Ω", "10 kΩ", nil, "35.1 Ω ± 7 %", "Its resistance at room temperature."},
	{"condenser-probe", supply, "", Words, q.None, "", "", nil, "NTC, 10 kΩ at 25 °C, B 3740", "Kind of the temperature probe on the trap."},
}

// Marks tell how a value came to be known.
var Marks = []string{"invented", "computed", "published", "common practice", "memory"}

// The marks that the program itself looks for.
const (
	Computed  = "computed"
	Published = "published"
)

// constructions of a sensor tube.
var constructions = []string{"insulated junction", "joined junction"}
