package search

import (
	"encoding/json"
	"slices"
	"strings"
)

// Weights say what a match is worth. They were chosen on the labelled queries of testdata/search-queries.txt.
type Weights struct {
	Places []float64 `json:"places"` // by Place
	Same   float64   `json:"same"`   // another word for the same
	Prefix float64   `json:"prefix"` // a word that begins so, by the share of it that is typed
	Near   []float64 `json:"near"`   // one or two letters off
	All    float64   `json:"all"`    // the power to which the share of the words found counts
}

var weights = Weights{
	Places: []float64{
		aside * 2: 0.25, aside*2 + 1: 0.375,
		text * 2: 1, text*2 + 1: 1.5,
		heading * 2: 2.2, heading*2 + 1: 3.3,
		title * 2: 7, title*2 + 1: 10.5,
	},
	Same:   0.85,
	Prefix: 0.7,
	Near:   []float64{0.6, 0.4},
	All:    1.25,
}

// The power to which a page's length, as a share of the mean, counts for the words of its text, and the ends of what comes of it.
const (
	lengthCounts = 0.7
	leastOfLong  = 0.4
	mostOfShort  = 1.5
)

// kindsOfPages puts symptoms first: who searches has a machine that does not work, and a procedure without the symptom's
// checks is done in vain. The last one takes what lies in no folder of its own.
var kindsOfPages = []KindOfPage{
	{Name: "Symptom", Weight: 1.6, Folder: "symptoms/"},
	{Name: "Procedure", Weight: 1.2, Folder: "procedures/"},
	{Name: "Calculator", Weight: 1, Folder: "calculators/"},
	{Name: "Machine", Weight: 1, Folder: "machines/"},
	{Name: "Rule of writing", Weight: 0.4, Folder: "writing/", Brief: true},
	{Name: "Fault finding", Weight: 0.6, Folder: "triage/", Brief: true},
	{Name: "Page", Weight: 0.9, Folder: ""},
}

// KindOfPage is what a result is called, and the factor by which pages of that kind count.
type KindOfPage struct {
	Name   string
	Weight float64
	Folder string // where they lie; not in the index
	Brief  bool   // known by title, headings and summary alone; the rest tells of other pages. Not in the index
}

// MarshalJSON writes what the script needs.
func (k KindOfPage) MarshalJSON() ([]byte, error) { return json.Marshal([]any{k.Name, k.Weight}) }

// UnmarshalJSON reads what MarshalJSON writes.
func (k *KindOfPage) UnmarshalJSON(text []byte) error {
	return json.Unmarshal(text, &[]any{&k.Name, &k.Weight})
}

func kindOfPage(address string) int {
	return slices.IndexFunc(kindsOfPages, func(kind KindOfPage) bool { return strings.HasPrefix(address, kind.Folder) })
}
