package fault

import "blankoff/build/source"

// Fields are the keys of triage.yaml.
var Fields = []source.Field{
	{Key: "unlisted", Shape: source.Text, Required: true, Means: "Weight of a cause that is not listed, on the scale of the causes' weights."},
	{Key: "proof", Shape: source.Text, Means: "Work to see whether a repair has helped: 15 min."},
	{Key: "costs", Shape: source.Nested, Means: "Classes of parts with the work that they are worth: {small: 20 min}."},
	{Key: "hand-over", Shape: source.Nested, Required: true, Means: "What giving the job away costs each reader, as work: {customer: 3 h, technician: 12 h}."},
	{Key: "rule-outs", Shape: source.Nested, Means: "Questions of safety, asked before all others. A yes ends the job."},
	{Key: "findings", Shape: source.Nested, Required: true, Means: "What can be asked or measured."},
	{Key: "causes", Shape: source.Nested, Required: true, Means: "What can be wrong."},
	{Key: "pairs", Shape: source.List, Means: "Causes that are met together: - {causes: [one, two], weight: 0.2}."},
	{Key: "tests", Shape: source.Nested, Required: true, Means: "What is done to find out."},
	{Key: "repairs", Shape: source.Nested, Required: true, Means: "What is done to end a cause."},
}

// The keys below those.
var (
	RuleOutFields = []source.Field{
		{Key: "ask", Shape: source.Text, Required: true, Means: "The question, answered with yes or no."},
		{Key: "do", Shape: source.Text, Required: true, Means: "What to do at a yes."},
		{Key: "stop", Shape: source.Text, Means: "The stop of hazards.yaml, which says who goes on."},
	}
	FindingFields = []source.Field{
		{Key: "ask", Shape: source.Text, Required: true, Means: "The question, as the reader sees it."},
		{Key: "called", Shape: source.Text, Means: "What sentences about it call it, in a few words; left out, its name with blanks."},
		{Key: "answers", Shape: source.Nested, Means: "Of a choice: each answer in words. Its answers are those of `usual`."},
		{Key: "kind", Shape: source.Text, Means: "Of what is measured: pressure, temperature, ratio, …"},
		{Key: "unit", Shape: source.Text, Means: "Of what is measured: the unit that the reader is asked for."},
		{Key: "cuts", Shape: source.List, Means: "Of what is measured: the values, rising, at which something else would be done."},
		{Key: "usual", Shape: source.Nested, Required: true, Means: "What is seen where nothing bears on it: the probability of each answer, or a median with its spread."},
		{Key: "when", Shape: source.Nested, Means: "Counts only beside these answers of another finding: {rise-shape: [straight, bending]}."},
		{Key: "from", Shape: source.Text, Means: "The calculator that gives it, with its result where that is the value itself: ice-floor/ratio, or rise-test."},
	}
	CurveFields = []source.Field{
		{Key: "middle", Shape: source.Text, Required: true, Means: "The median."},
		{Key: "spread", Shape: source.Text, Means: "The standard deviation."},
		{Key: "factor", Shape: source.Text, Means: "In place of a spread: two thirds of all values lie between the median divided by this and times this."},
	}
	CauseFields = []source.Field{
		{Key: "title", Shape: source.Text, Required: true, Means: "What is wrong, in words."},
		{Key: "group", Shape: source.Text, Required: true, Means: "The part of the machine."},
		{Key: "weight", Shape: source.Text, Required: true, Means: "How often it is met beside the others, as a plain number."},
		{Key: "shows", Shape: source.Nested, Means: "The findings that differ from the usual, and how."},
	}
	PairFields = []source.Field{
		{Key: "causes", Shape: source.List, Required: true, Means: "Two causes."},
		{Key: "weight", Shape: source.Text, Required: true, Means: "How often both are met at once, on the scale of the causes' weights."},
	}
	TestFields = append(stepFields(true),
		source.Field{Key: "tells", Shape: source.List, Means: "The findings that are known then."})
	RepairFields = append(stepFields(false),
		source.Field{Key: "do", Shape: source.Text, Means: "What to do, in a sentence."},
		source.Field{Key: "cures", Shape: source.Nested, Means: "The causes that it ends, and how often: {oil-wet: 92 %}."},
		source.Field{Key: "stop", Shape: source.Text, Means: "Of work for licensed people: the stop of hazards.yaml, which says who they are."})
)

// stepFields are what tests and repairs have in common.
func stepFields(test bool) []source.Field {
	guide := "The page that tells how it is done, without .md: procedures/rise-test."
	if test {
		guide += " Every test has one."
	}
	return []source.Field{
		{Key: "title", Shape: source.Text, Required: true, Means: "What is done, in a few words."},
		{Key: "guide", Shape: source.Text, Means: guide},
		{Key: "time", Shape: source.Text, Required: true, Means: "The work, not the waiting: 25 min."},
		{Key: "cost", Shape: source.Text, Means: "The class of its parts, of `costs`."},
		{Key: "tools", Shape: source.List, Means: "What must be at hand."},
		{Key: "who", Shape: source.List, Required: true, Means: "Who may do it: customer, technician."},
		{Key: "needs", Shape: source.List, Means: "Tests or repairs that must be done before."},
	}
}
