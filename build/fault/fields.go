package fault

import "blankoff/build/source"

// Fields are the keys of triage.yaml.
var Fields = []source.Field{
	{Key: "unlisted", Shape: source.Text, Required: true, Means: "weight of a cause that is not listed, on the scale of the causes' weights"},
	{Key: "proof", Shape: source.Text, Means: "work to see whether a repair has helped: 15 min"},
	{Key: "costs", Shape: source.Nested, Means: "classes of parts with the work that they are worth: {small: 20 min}"},
	{Key: "hand-over", Shape: source.Nested, Required: true, Means: "what giving the job away costs each reader, as work: {customer: 4 h}"},
	{Key: "rule-outs", Shape: source.Nested, Means: "questions of safety, asked before all others"},
	{Key: "findings", Shape: source.Nested, Required: true, Means: "what can be asked or measured"},
	{Key: "causes", Shape: source.Nested, Required: true, Means: "what can be wrong"},
	{Key: "pairs", Shape: source.List, Means: "causes that are met together: - {causes: [one, two], weight: 0.2}"},
	{Key: "tests", Shape: source.Nested, Required: true, Means: "what is done to find out"},
	{Key: "repairs", Shape: source.Nested, Required: true, Means: "what is done to end a cause"},
}

var (
	ruleOutFields = []source.Field{
		{Key: "ask", Shape: source.Text, Required: true},
		{Key: "do", Shape: source.Text, Required: true},
		{Key: "stop", Shape: source.Text},
	}
	findingFields = []source.Field{
		{Key: "ask", Shape: source.Text, Required: true},
		{Key: "answers", Shape: source.Nested},
		{Key: "kind", Shape: source.Text},
		{Key: "unit", Shape: source.Text},
		{Key: "cuts", Shape: source.List},
		{Key: "usual", Shape: source.Nested, Required: true},
		{Key: "when", Shape: source.Nested},
	}
	curveFields = []source.Field{
		{Key: "middle", Shape: source.Text, Required: true},
		{Key: "spread", Shape: source.Text},
		{Key: "factor", Shape: source.Text},
	}
	causeFields = []source.Field{
		{Key: "title", Shape: source.Text, Required: true},
		{Key: "group", Shape: source.Text, Required: true},
		{Key: "weight", Shape: source.Text, Required: true},
		{Key: "shows", Shape: source.Nested},
	}
	pairFields = []source.Field{
		{Key: "causes", Shape: source.List, Required: true},
		{Key: "weight", Shape: source.Text, Required: true},
	}
	testFields = []source.Field{
		{Key: "title", Shape: source.Text, Required: true},
		{Key: "guide", Shape: source.Text},
		{Key: "time", Shape: source.Text, Required: true},
		{Key: "cost", Shape: source.Text},
		{Key: "tools", Shape: source.List},
		{Key: "who", Shape: source.List, Required: true},
		{Key: "needs", Shape: source.List},
		{Key: "tells", Shape: source.List},
	}
	repairFields = []source.Field{
		{Key: "title", Shape: source.Text, Required: true},
		{Key: "guide", Shape: source.Text},
		{Key: "do", Shape: source.Text},
		{Key: "time", Shape: source.Text, Required: true},
		{Key: "cost", Shape: source.Text},
		{Key: "tools", Shape: source.List},
		{Key: "who", Shape: source.List, Required: true},
		{Key: "needs", Shape: source.List},
		{Key: "cures", Shape: source.Nested},
		{Key: "stop", Shape: source.Text},
	}
)
