// Package calc is the whole of the computations, as the build step and the reader's
// browser use them: every calculator by name, and one call that answers a request.
//
// It and everything below it import the standard library alone, and of that nothing
// that reads a file, a clock or a network. See DEVELOPERS.md for the reasons.
package calc

import (
	"blankoff/calc/declare"
	"blankoff/calc/electrical"
	"blankoff/calc/fitting"
	"blankoff/calc/gauge"
	"blankoff/calc/letters"
	"blankoff/calc/load"
	"blankoff/calc/parcel"
	"blankoff/calc/pumping"
	"blankoff/calc/qr"
	"blankoff/calc/quantity"
	"blankoff/calc/temperature"
	"blankoff/calc/triage"
	"blankoff/calc/vacuum"
	"blankoff/calc/vapour"
)

// list is all calculators, in the order in which a page shows them.
var list = [...]*declare.Calculator{
	&vacuum.Pressure,
	&vacuum.Throughput,
	&vacuum.RiseTest,
	&vacuum.RiseLog,
	&electrical.Continuity,
	&electrical.TubeCheck,
	&vacuum.Balance,
	&vacuum.Hole,
	&vacuum.TestPlan,
	&electrical.TestCurrent,
	&electrical.Meter,
	&electrical.Heater,
	&electrical.CordDrop,
	&gauge.Compare,
	&gauge.Jump,
	&gauge.GasCorrection,
	&gauge.TubeSignal,
	&pumping.Conductance,
	&pumping.NetSpeed,
	&pumping.PumpDown,
	&pumping.PumpDownLog,
	&pumping.BlankOff,
	&pumping.Reached,
	&pumping.OilLife,
	&vapour.IceFloor,
	&vapour.WaterBoil,
	&vapour.VapourVolume,
	&load.IceLoad,
	&load.DryingTime,
	&load.Energy,
	&vapour.SolventVapour,
	&temperature.Thermocouple,
	&temperature.RTD,
	&temperature.Thermistor,
	&fitting.Length,
	&fitting.Thread,
}

// Find gives the calculator with an ID, or nil.
func Find(id string) *declare.Calculator {
	for i, c := range list {
		if c.ID == id {
			return ready(i)
		}
	}
	return nil
}

// Answer runs the calculator that the request names, weighs what was found on a machine, draws a QR code, or packs a job. It never panics.
func Answer(request declare.Request) declare.Answer { return AnswerBy(nil, request) }

// AnswerBy does so by a fault model that was read before, where a request brings none.
func AnswerBy(model *triage.Known, request declare.Request) declare.Answer {
	if request.ID == triage.ID {
		return model.Reply(request)
	}
	if request.ID == qr.ID {
		return qr.Reply(request)
	}
	if request.ID == parcel.ID {
		return parcel.Reply(request)
	}
	c := Find(request.ID)
	if c == nil {
		return declare.Answer{ID: request.ID, Fault: &declare.Fault{Text: "there is no calculator " + quantity.Quote(request.ID) + "; there are " + names()}}
	}
	return c.Answer(request)
}

func names() string {
	ids := make([]string, len(list))
	for i, c := range list {
		ids[i] = c.ID
	}
	return letters.Join(ids, ", ")
}
