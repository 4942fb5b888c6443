// Package declare holds what a calculator is: one declaration from which the form,
// the worked example, the WebAssembly call, the terminal command, the reference
// page, the messages and the generic tests are all derived.
//
// A declaration has up to three functions. Study, where there is one, runs once and
// makes of a log what Eval needs of it: a fit, a sorted list. Eval is the formula:
// numbers in SI units in, numbers out; it is called again and again to propagate
// uncertainty, so it must not depend on anything else. Judge runs once afterwards and
// turns numbers with uncertainty into a verdict, working and cautions. A calculator whose
// answer is better seen than read has Plot besides.
package declare

import (
	"blankoff/calc/plot"
	"blankoff/calc/quantity"
)

// Calculator is one declaration. IDs are lower-case words joined by hyphens.
type Calculator struct {
	ID       string
	Title    string
	Group    string // one of Groups
	Decision string // the question it settles, as a sentence
	Inputs   []Input
	// Influences are effects that have no entry of their own: the scale error of a
	// gauge, the step of a display. Their expected value is zero.
	Influences []Influence
	Outputs    []Output
	Formula    []string // in the symbols of inputs and outputs
	Sources    []Source
	Cautions   []string // shown with every result; quantities in braces, see Result.Fill
	Hazards    []string // hazards of the catalogue that go with taking the readings
	Limits     []string // what it cannot do
	// Performance says how it did in a study that the tests repeat. Lines that begin
	// with | are rows of a table, the first of them its head.
	Performance []string
	Example     Example
	Converts    bool // its results in further units are what it is for, whatever units the reader chose
	Study       func(x *Numbers) any
	Eval        func(x *Numbers)
	Judge       func(r *Result)
	Plot        *Plot // what is better seen than read; nil: nothing
}

// Plot says what a calculator draws, if that is asked for. Draw runs last and adds the
// parts, in SI units; one without parts is not shown. Names of parts may hold figures in
// braces.
type Plot struct {
	Title string
	X, Y  PlotAxis
	Draw  func(r *Result, p *plot.Plot)
}

// PlotAxis is an axis of a plot. Its unit is that in which the column of a table, or an
// entry, was written (Of, and Column for a table), else Unit.
type PlotAxis struct {
	_           [0]func() // never compared: saves the code for it
	Label, Unit string
	Of, Column  string
	Log         bool
}

// The groups: what a technician is doing when a calculator is wanted.
const (
	PressureAndGas          = "Pressure and gas"
	Leaks                   = "Leaks"
	PumpAndLines            = "Pump and lines"
	GaugeAndSensor          = "Gauge and sensor"
	TemperaturePowerFitting = "Temperature, power, fitting"
)

// Groups lists them in the order in which a page shows them.
func Groups() []string {
	return []string{PressureAndGas, Leaks, PumpAndLines, GaugeAndSensor, TemperaturePowerFitting}
}

// Input is one entry that the reader makes.
type Input struct {
	ID, Label, Symbol, Help string
	Kinds                   []quantity.Kind // what it may be; nil for a choice or a table
	Choices                 []Choice
	Columns                 []Column // of a table, typed as comma-separated text
	Unit                    string   // the unit assumed by nobody and offered first
	Units                   []string // further units offered
	Min, Max                string   // physical range, as quantities; outside it the entry is refused
	UsualLow, UsualHigh     string   // outside it the entry is accepted with a caution
	Default                 string   // used when the entry is blank
	Because                 string   // why that default; shown whenever it is used
	Accuracy                string   // ± assumed when none is written, such as "5 %"
	Required                bool
	Gauge                   bool // may be counted from the ambient pressure
	MayBeOver               bool // a meter's over-range sign has a meaning here
	Negative                bool // a minus sign is normal, so the keypad must offer it
	Fixed                   bool // of a formula that takes this unit alone: what is said of it stays in it
	// Rising says how the first output moves when this input rises: +1, -1, or 0
	// when nothing is promised. The generic tests hold the calculator to it.
	Rising int

	least, most, usualLeast, usualMost bound             // the four ranges, read by Prepare
	fallback                           quantity.Quantity // of Default
}

// Choice is one option of an input that is not a quantity.
type Choice struct {
	_            [0]func() // never compared: saves the code for it
	Value, Label string
}

// Column is one column of a table that is entered, or of one that is given. Without
// Kinds it holds words.
type Column struct {
	ID, Label string
	Kinds     []quantity.Kind
	Unit      string // of an entered table: the one that the sample shows
	Min, Max  string // physical range of an entered number
	Required  bool   // an entered table must have it

	least, most bound
}

// Head is what stands above the column: its label, and its unit where it has one.
func (c *Column) Head() string {
	if c.Unit == "" {
		return c.Label
	}
	return c.Label + ", " + c.Unit
}

// Influence is an effect with expected value zero and the standard uncertainty U,
// in the unit that Eval expects of it.
type Influence struct {
	ID, Text string
	U        func(x *Numbers) float64
}

// Output is one result. Without a kind and columns it is a text.
type Output struct {
	ID, Label, Symbol string
	Kind              quantity.Kind
	Unit              string   // shown unless the request asks for another
	UnitOf            string   // an input: where it was written in some unit, that one is shown
	Also              []string // further units that the page shows
	Fixed             bool     // of a formula that takes this unit alone: no choice changes it
	// Derived outputs are set by Judge from other results and carry no uncertainty.
	Derived bool
	Columns []Column // of a table, whose rows Judge adds
}

// Source names where a formula or a value comes from. Mark is one of Published,
// Computed, CommonPractice, Memory.
type Source struct {
	_                  [0]func() // never compared: saves the code for it
	Title, Where, Mark string
}

// The marks of sources.
const (
	Published      = "published"
	Computed       = "computed"
	CommonPractice = "common practice, no source"
	Memory         = "from memory"
)

// Example is a worked case: shown on the reference page, checked in the tests.
type Example struct {
	In   []Pair
	Want []Pair // output → its text
	From string // where the expected values come from
}

// Pair is a name with a text.
type Pair struct {
	_          [0]func() // never compared: saves the code for it
	Name, Text string
}

// Request asks a calculator for an answer. Units may choose units by kind, as pressure or
// temperature, for results, tables, sentences and plot; Out by output, which counts before. With Plot
// the answer carries a plot, where the calculator has one; Axes may choose its units alone.
type Request struct {
	ID    string
	In    []Pair
	Out   []Pair
	Units []Pair
	Plot  bool
	Axes  []Pair
}

// Answer is what a calculator says. With Fault set all else but ID is empty.
type Answer struct {
	ID       string
	Out      []Given
	Verdict  Verdict
	Working  []string
	Cautions []string
	Plot     *plot.Drawing
	Fault    *Fault
}

// Given is one result: a text, or a value with its unit and uncertainty.
type Given struct {
	ID, Label, Unit, Text string
	Value, U              float64 // in Unit; U is the standard uncertainty
	HasValue, HasU        bool
	Also                  []string
	SI                    float64
	Kind                  quantity.Kind
	Columns               []Column // of a table
	Rows                  [][]Cell
}

// Cell is one place of a table: a number in SI units with its standard uncertainty, or
// a text. In an answer Text is what a page shows, Value is in the column's unit, and
// IsNumber tells the two apart.
type Cell struct {
	_        [0]func() // never compared: saves the code for it
	Value, U float64
	Text     string
	IsNumber bool
}

// Verdict is a decision with its reason. Is is empty for a calculator that only
// converts.
type Verdict struct {
	_        [0]func() // never compared: saves the code for it
	Is, Text string
}

// The three verdicts.
const (
	Pass       = "pass"
	Fail       = "fail"
	CannotTell = "cannot tell"
)

// Fault is what is wrong with one entry, as a sentence for the person who made it.
// Field is empty when the request as a whole is wrong.
type Fault struct {
	_           [0]func() // never compared: saves the code for it
	Field, Text string
}

// Input finds an input by its ID, or gives nil.
func (c *Calculator) Input(id string) *Input {
	if i := c.inputAt(id); i >= 0 {
		return &c.Inputs[i]
	}
	return nil
}

// Output finds an output by its ID, or gives nil.
func (c *Calculator) Output(id string) *Output {
	if i := c.outputAt(id); i >= 0 {
		return &c.Outputs[i]
	}
	return nil
}
