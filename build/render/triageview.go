package render

import "html/template"

// TriageView is the page that leads from what is seen to what ends it, one question at a time. It is short, since a phone
// waits for it; the words of all questions and steps stand on the sheet, where the page's script finds them.
type TriageView struct {
	Frame
	Heading string
	Lead    string
	Model   string // the address of the fault model's numbers; empty where nothing computes
	Sheet   string // the address of the whole order
	Tools   []ToolView
	Stops   []RuleOutView
	First   *BranchView // the customer's order; nil where there is none
	Study   Link        // tells how well it does; may be empty
}

// TriageSheetView is the whole order, for paper and for readers without scripts.
type TriageSheetView struct {
	Frame
	Heading string
	Lead    string
	Talk    string // the address of the page with one question at a time
	Stops   []RuleOutView
	First   *BranchView
	Tests   []ProbeView
	Groups  []CauseGroup
	Repairs []RepairView
	Study   Link
	Hazards []NamedHazard // those of the tests and repairs, the gravest first
}

// NamedHazard is a hazard with the short name by which steps call it.
type NamedHazard struct {
	Name, Short string        // "hot-oil", "hot oil"
	Brief       template.HTML // the part "hazard-brief"
}

// RiskView is what a step's guide warns of with one signal word.
type RiskView struct {
	Word, Level string
	Hazards     []NamedHazard
}

// ToolView is a tool that some step needs.
type ToolView struct{ Name, Label string }

// RuleOutView is a question of safety. A yes ends everything else.
type RuleOutView struct {
	Name string
	Ask  template.HTML // inline, as the others
	Do   template.HTML
	Stop template.HTML // the part "stop"; may be empty
}

// BranchView is what to do at one place of the order, and what follows from how it ends.
type BranchView struct {
	Title string
	Notes []string
	Ends  []BranchEnd // none where the order stops
}

// BranchEnd is one way in which a step ends.
type BranchEnd struct {
	Answer string
	Leads  string // the cause that leads then, with its share
	Next   *BranchView
}

// ProbeView is a test with what it tells.
type ProbeView struct {
	Name, Title string
	Tells       string // names of its findings, apart by blanks
	Tools       string // names of its tools, apart by blanks
	Who         string // names of those who may do it, apart by blanks
	Notes       []string
	Guide       Link
	Risks       []RiskView
	Findings    []FindingView // those that no test before tells
}

// FindingView is what is asked.
type FindingView struct {
	Name    string
	Ask     template.HTML
	Unit    string // of a measured one; empty for a plain number
	Valued  bool   // the answer is a value
	When    string // "rise-shape=straight,bending": counts only beside these answers; may be empty
	Answers []TellingView
	Sources []Link // calculators that give it; of an answer in words the one that the model names
	From    string // which result of that calculator is the value, "rise-test/times"; "rise-log" where the reader draws the answer from it
	Keypad  string // of a measured one: the inputmode of its entry
}

// TellingView is an answer with what it speaks for.
type TellingView struct {
	Name  string // empty of a range
	Text  template.HTML
	Leans []string // titles of causes
}

// CauseGroup is what can be wrong with one part of the machine.
type CauseGroup struct {
	Title  string
	Causes []CauseView
}

// CauseView is one thing that can be wrong, with what ends it.
type CauseView struct {
	Name, Title string
	Ends        []Link
}

// RepairView is a repair.
type RepairView struct {
	Name, Title string
	Tools, Who  string
	Notes       []string
	Do          template.HTML // may be empty
	Guide       Link
	Risks       []RiskView
	Stop        template.HTML // the part "stop"; may be empty
}
