// Package fault reads the fault model of a shop: triage.yaml, with what can be asked and measured, what can be wrong, what
// each cause shows, and the tests and repairs with their time and cost. It gives the numbers to package triage, which
// reckons with them, and keeps the words.
//
//	model, faults := fault.Read(file, mapping)
//	reckoning := model.For(fault.Technician)
//	answers, err := model.Answers([]fault.Told{{"hiss", "yes"}, {"blank-off-size", "2.4"}})
//	plan := reckoning.Plan(triage.Bench{Who: triage.Technician}, answers, triage.Look)
//
// It knows no page: whether a guide or a stop is there, and what a customer may do, is verified elsewhere.
package fault

import (
	"blankoff/build/source"
	"blankoff/calc/quantity"
	"blankoff/calc/triage"
)

// Those who can do a step. Licensed people are called by a repair that names a stop.
const (
	Customer   = "customer"
	Technician = "technician"
)

// Workers are those who can do a step, as triage.yaml names them.
var Workers = []string{Customer, Technician}

// Model is triage.yaml.
type Model struct {
	File     *source.File
	Unlisted float64            // weight of a cause that the file does not list
	Proof    float64            // minutes to see whether a repair has helped
	Costs    map[string]float64 // a class of parts → the minutes of work that they are worth
	HandOver []HandOver
	RuleOuts []*RuleOut
	Findings []*Finding
	Causes   []*Cause
	Pairs    []Pair
	Tests    []*Step
	Repairs  []*Step

	unlistedAt source.Span
	faulty     bool
}

// Text is something that was written, with its place.
type Text struct {
	Text string
	Span source.Span
}

// Named is a text that others can name.
type Named struct {
	Name     string
	NameSpan source.Span
	Title    Text
}

// HandOver is what giving the job away costs one reader.
type HandOver struct {
	Reader  Text
	Minutes float64
}

// RuleOut is a question of safety, asked before all others. A yes ends the job at once.
type RuleOut struct {
	Named
	Ask, Do Text
	Stop    Text // the stop of the catalogue; may be empty
}

// Finding is something that can be asked or measured.
type Finding struct {
	Named             // its title is the question
	Called  Text      // what sentences call it; may be empty
	From    Text      // "ice-floor/ratio" or "rise-test": a calculator, with the result that is the value; may be empty
	Answers []Answer  // of a choice
	Usual   []float64 // of a choice: probability of each answer where nothing bears on it
	Kind    quantity.Kind
	Unit    quantity.Unit // of a measured one
	Cuts    []float64     // SI, rising
	Plain   triage.Curve  // SI
	When    []Guard
}

// Measured tells whether the answer is a value.
func (f *Finding) Measured() bool { return f.Kind != quantity.None }

// Answer is one that can be given.
type Answer struct {
	Name string
	Text string // in words; may be empty
}

// Guard says that a finding counts only where another was answered in one of some ways.
type Guard struct {
	Finding Text
	Answers []Text
}

// Cause is one thing that can be wrong.
type Cause struct {
	Named
	Group  Text
	Weight float64
	Shows  []Shown // what differs from the usual
}

// Shown is what a cause makes of a finding: one or the other of the two.
type Shown struct {
	Finding Text
	Given   []float64
	Curve   triage.Curve
}

// Pair is two causes that are met together.
type Pair struct {
	Causes []Text
	Weight float64
	Span   source.Span
}

// Step is a test or a repair.
type Step struct {
	Named
	Guide   Text // a page of the content folder without .md; may be empty of a repair that says what to do
	Do      Text
	Minutes float64
	Cost    Text // a class of parts; empty is none
	Tools   []Text
	Who     []Text
	Needs   []Text
	Tells   []Text // findings, of a test
	Cures   []Cure // of a repair
	Stop    Text   // whose work it is, of a repair by licensed people
}

// Cure is a cause that a repair ends, and how often it does.
type Cure struct {
	Cause  Text
	Chance float64
}

// Usable tells whether the file was read without a fault, so that its numbers can be reckoned with.
func (m *Model) Usable() bool { return m != nil && !m.faulty }
