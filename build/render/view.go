package render

import "html/template"

// This file is the view model: what the templates of site/templates take. It holds
// words, numbers as text and HTML that is already safe, and decides nothing.
//
// Every page template takes a view of its own with a Frame in it:
//
//	home       HomeView        the first page
//	guide      GuideView       procedures, symptoms and plain pages
//	index      IndexView       a list: symptoms, procedures, calculators, machines
//	reference  ReferenceView   a calculator
//	machine    MachineView     a machine
//	rule       RuleView        a rule of verify, for those who write
//	triage     TriageView      the fault model, one question after the other (triageview.go)
//	sheet      TriageSheetView the whole of it, for paper
//	search     SearchView     the search, and every page by its name
//	missing    MissingView     an address that does not exist (404.html)
//
// Parts that a page's text contains are executed by themselves into the text:
//
//	hazard HazardView · stop StopView · step StepView · calculator CalculatorView
//
// For those who write there is rule-example, for a RuleExampleView.
//
// Steps stand in <ol class="steps">, sections in <section class="part" id="...">
// with an <h2>; the section of what to write down has the id "record", so that a
// printed sheet gives each of its list items a blank line.

// Frame is what surrounds every page.
type Frame struct {
	Title       string   // of the window; the shop's name is added to it
	Description string   // one plain sentence for lists and search results; may be empty
	Root        string   // the way to the site's first page: "../../", "" on the first page itself
	Edition     string   // identifies all files of one publication
	Style       string   // names from bundle.Parts, in the site's root
	Below       string   // that of what stands below the first view; linked before the first of it
	Desk        string   // that of reference pages and examples; empty on other pages
	Bar         string   // that of the bar, linked before it
	Scales      string   // the file of pictures in other units
	Lists       string   // that of lists of pages
	Early       []string // others that the first view waits for: of the fault model, of the search
	Wide        string   // the style sheets for wide screens and for paper; may be empty
	Print       string
	Script      string
	Calc        string // may be empty: then the page is read only
	Manifest    string // may be empty
	Icon        string // may be empty
	Signs       string // the drawings of header and bar
	Shop        string
	Section     string      // symptoms, procedures, calculators, machines or record: where the page belongs; else empty
	Ladder      *LadderView // nil where no pressure has a place
}

// LadderView is a pressure ladder drawn by package ladder.
type LadderView struct {
	Caption     string // whose ladder: "Cindle 14"
	Tall, Strip template.HTML
}

// Link leads somewhere.
type Link struct {
	Href, Text string
}

// Entry is one line of a list of pages.
type Entry struct {
	Href, Title string
	Said        template.HTML // inline: what it is for or decides, one sentence; may be empty
	Notes       []string      // short: "technician", "40 min"
}

// Group is a list under its own heading, such as a stage of the job. An empty Title has no heading.
type Group struct {
	ID      string // in the page: where a link to the group leads; may be empty
	Title   string
	Entries []Entry
}

// HomeView is the first page. Its reader has a freeze dryer that does not reach its pressure.
type HomeView struct {
	Frame
	Heading     string
	First       template.HTML // inline: the sentence that says what to do now
	Body        template.HTML // blocks: the rest of pages/home.md; may be empty
	Urgent      []Entry       // what must be read before anything is tried; may be empty
	Begin       []Entry       // the way to the fault model's page; may be empty
	Symptoms    []Entry
	Stages      []Group // procedures, by the stage of the job
	Calculators []Entry // their groups
	Machines    []Entry
}

// IndexView is a list of pages.
type IndexView struct {
	Frame
	Heading string
	Lead    template.HTML // inline; may be empty
	Urgent  []Entry       // as on the first page; may be empty
	Begin   []Entry       // what stands before the groups; may be empty
	Groups  []Group
}

// SearchView is the search page. Without scripts it is the list of all pages.
type SearchView struct {
	Frame
	Heading string
	Index   string // the file's name, in the site's root
	Groups  []Group
}

// GuideView is a procedure, a symptom or a plain page.
type GuideView struct {
	Frame
	Heading  string
	Summary  template.HTML   // inline
	Facts    []FactRow       // Who, Time, Bring, Supplies, Machines, Revision ...
	Hazards  []template.HTML // all of the page, the gravest first: the part "hazard-brief"
	Body     template.HTML   // the sections
	Text     string          // what all of it digests to: another one says something else
	Machines []string        // of the shop, for the page of the jobs alone
	Sheet    bool            // a procedure: it prints with boxes, blanks and a place to sign
	Revision string          // for the foot of a printed sheet: "revision 3, review by 2027-06-01"; may be empty
}

// FactRow is a line of the table at the top of a guide.
type FactRow struct {
	Name  string
	Value template.HTML // inline
}

// HazardView is a hazard from the catalogue.
type HazardView struct {
	Word  string        // DANGER, WARNING, CAUTION or NOTICE
	Title template.HTML // inline, as the others
	Harm  template.HTML
	Avoid template.HTML
	Defer template.HTML // who is allowed; may be empty
}

// Level is the word as the style sheet knows it.
func (h HazardView) Level() string {
	switch h.Word {
	case "DANGER":
		return "danger"
	case "WARNING":
		return "warning"
	case "CAUTION":
		return "caution"
	}
	return "notice"
}

// StopView is where work ends for those without the licence.
type StopView struct {
	Title, Who, Why template.HTML // inline
}

// StepView is one step. Hazards and Stops are the parts of those names, executed; all
// other HTML but Rest is inline.
type StepView struct {
	Number  int
	Hazards []template.HTML
	Action  template.HTML
	Expect  template.HTML   // may be empty
	IfNot   template.HTML   // may be empty
	Stops   []template.HTML // what an 'if not' ends in
	Rest    template.HTML   // blocks: calculators, tables, paragraphs; may be empty
}

// CalculatorView is a live calculator with its worked answer. Its entries are the part
// "input" executed for an InputView each.
type CalculatorView struct {
	Block    string // id in the page: "c1"
	ID       string // declared: "rise-test"
	Title    string
	Href     string   // its reference page; empty on that page itself
	Machines []Option // whose card it can be filled in from, the first one's as it is; none where that makes no difference
	Whose    string   // the machine that it is filled in for, where there is no choice and the page has others; may be empty
	Inputs   []template.HTML
	More     []template.HTML // entries that may stay blank and are: folded away
	Folded   string          // the file that holds them, where they are not in the page
	Answer   template.HTML   // calc/show
	Sheet    template.HTML   // the style sheet of pictures, where the page does not have it yet
}

// InputView is one entry of a calculator.
type InputView struct {
	Block   string // of the calculator, for ids
	Name    string
	Label   string
	Symbol  template.HTML // as in the formula; may be empty
	Help    string        // may be empty
	Value   string        // as it would be typed, without the unit if Units holds it
	Text    bool          // needs letters: the phone shows its whole keyboard
	Table   bool          // lines of comma-separated text
	Taps    string        // of a table whose readings can be taken by tap: see taps
	Broad   bool          // does not fit beside its label on a phone
	Units   []Option
	Choices []Option      // if any, the entry is a choice among them
	CanOver bool          // a meter may show over-range here
	Known   bool          // set by the machine, not read by the reader: a printed sheet shows it instead of a blank
	Cards   template.HTML // what each machine of the page has there, in <b>, in the order of the page; may be empty
}

// Option is one of a choice.
type Option struct {
	Value, Label string
	Chosen       bool
}

// ReferenceView is the page of a calculator.
type ReferenceView struct {
	Frame
	Heading    string
	Text       string // what all of it digests to
	Decision   string
	Hazards    []HazardView
	Calculator CalculatorView
	Inputs     []InputRow
	Outputs    []OutputRow
	Formula    []FormulaRow
	Counted    []string // what enters the ± besides the accuracies of the entries
	Sources    []SourceRow
	Example    ExampleView
	Limits     []string
	Performed  []PerformedView // how it did when it was put to the test; may be empty
	Cautions   []string
	Terminal   string  // the same example for a terminal; may be empty
	Used       []Entry // guides that place this calculator
}

// FormulaRow is one line of the formula.
type FormulaRow struct {
	Math  template.HTML // MathML; empty where the line cannot be set
	Plain string        // the line as it was written
	Words string        // what is said of it; may be empty
	Long  bool          // a phone may have to scroll it
}

// ExampleView is the case that the page shows worked, as a table.
type ExampleView struct {
	Entries, Results []ExampleRow
	From             string // where the expected results come from
}

// ExampleRow is an entry or a result with what it is.
type ExampleRow struct {
	Label, Text string
}

// InputRow tells what an input accepts.
type InputRow struct {
	Label    string
	Symbol   template.HTML
	Units    string // "L, mL, m³"
	Usual    string // "5 L to 100 L"; may be empty
	Possible string // "0.1 L to 500 L"; may be empty
	Blank    string // what stands in for an empty entry, and why
	Accuracy string // ± taken where none is written; may be empty
}

// OutputRow tells what an output is.
type OutputRow struct {
	Label, Units string
	Symbol       template.HTML
}

// SourceRow is where a formula comes from.
type SourceRow struct {
	Title, Where string
	Mark         string // "published", "computed", "common practice, no source" ...
}

// MachineView is the page of a machine.
type MachineView struct {
	Frame
	Heading  string
	Code     string
	Summary  template.HTML // inline
	Mark     string        // how the values are known that say nothing else: "invented"; may be empty
	From     []string
	Groups   []ValueGroup
	Pictures []template.HTML // figures; may be empty
	Guides   []Entry         // those that concern the machine
}

// ValueGroup is a table of values under a heading.
type ValueGroup struct {
	ID, Title string
	Rows      []ValueRow
}

// ValueRow is one value of a machine.
type ValueRow struct {
	ID    string // "chamber-volume": what a page refers to
	Label string // "chamber volume"
	Value template.HTML
	Said  string // how it is known, where that is not as for most, and what belongs beside it; may be empty
}

// MissingView is the answer to a wrong address. Its Root is an absolute path, because nobody knows where it will be shown.
type MissingView struct {
	Frame
}

// PerformedView is a sentence about how a calculator did, or a table of it.
type PerformedView struct {
	Text string
	Head []string // of the table; empty for a sentence
	Rows [][]string
}

// RuleView is the page of a rule.
type RuleView struct {
	Frame
	Heading string
	Name    string        // as it stands behind a message
	Text    template.HTML // blocks
	Example *RuleExampleView
	Unshown string // why there is no example; else empty
	Family  Link
	All     string // the address of the list
}

// RuleExampleView is what breaks a rule, what is said of it, and what keeps the rule.
type RuleExampleView struct {
	Bad        []SampleView
	Told       []ToldView // of the bad files
	Good       []SampleView
	ToldOfGood []ToldView // none, as it should be
	Rule       Link       // to the rule's page; empty on that page itself
}

// SampleView is a file of an example.
type SampleView struct {
	Name string // in the content folder
	Rows []RowView
}

// RowView is a line of a file.
type RowView struct {
	Number string        // in its file
	HTML   template.HTML // inline; what is wrong in it is marked
	Wrong  bool          // something in it is marked
	New    bool          // is other than in the bad file
}

// ToldView is one message of verify.
type ToldView struct {
	Head    string
	Excerpt string // the line and its caret; may be empty
	Hints   []string
}
