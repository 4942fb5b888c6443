package main

import (
	"encoding/json"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"blankoff/calc/triage"
	"blankoff/calc/wire"
)

// triages are the moments at which somebody waits for the next question.
var triages = []struct {
	name string
	in   map[string]string
}{
	{"at-first", map[string]string{}},
	{"technician-at-first", map[string]string{"who": "technician"}},
	{"half-way", map[string]string{"who": "technician", "answers": "over-range=no; levels-off=yes; oil-looks-wrong=yes; load-or-defrost=yes; slow=no"}},
	{"late", map[string]string{"who": "technician", "done": "oil-change", "answers": "over-range=no; levels-off=yes; oil-looks-wrong=yes; load-or-defrost=yes; slow=no; " +
		"trap-warm=no; room-out-of-range=no; blank-off-ratio=15; rise-shape=straight; rise-size=0.75 ± 20 %; gauge-ratio=1.05; hiss=unknown"}},
}

// modelText is the fault model of the content folder, as it is published.
var modelText = func() string {
	text, err := os.ReadFile(filepath.Join("..", "testdata", "triage-model.txt"))
	if err != nil {
		panic(err)
	}
	return string(text)
}()

func triaging(in map[string]string) []byte { return triagingBy(modelText, in) }

// triagingBy brings no model where it is empty: then it was handed over before.
func triagingBy(model string, in map[string]string) []byte {
	with := map[string]string{"model": model}
	if model == "" {
		delete(with, "model")
	}
	for name, text := range in {
		with[name] = text
	}
	request, _ := json.Marshal(map[string]any{"id": triage.ID, "in": with}) // texts always have a JSON form
	return request
}

// TestTriageIsTheSameOnThePhone answers 500 random triages in the shipped module and natively, letter for letter: all numbers
// of a triage are rounded to what does not depend on the machine. Every other one brings the model, the rest count on what was handed over.
func TestTriageIsTheSameOnThePhone(t *testing.T) {
	phone := load(t)
	sheet, wrong := triage.ReadSheet(modelText)
	if wrong != "" {
		t.Fatal(wrong)
	}
	random := rand.New(rand.NewPCG(31, 7))
	phone.know(t, modelText)
	for i := range 500 {
		in := randomTriage(random, sheet)
		request := triaging(in)
		native := string(wire.Serve(nil, request))
		if i%2 == 1 {
			request = triagingBy("", in)
		}
		if got := string(phone.serve(t, request)); got != native {
			t.Fatalf("%s\nnative %s\nphone  %s", request[:min(300, len(request))], native, got)
		}
		if strings.Contains(native, `"error"`) {
			t.Fatal(native)
		}
	}
}

func randomTriage(r *rand.Rand, sheet *triage.Sheet) map[string]string {
	in := map[string]string{"who": []string{"", "customer", "technician"}[r.IntN(3)], "tools": []string{"", "none", "independent-gauge, ohm-meter"}[r.IntN(3)]}
	var answers, done []string
	for f := range sheet.Findings {
		if r.IntN(3) == 0 {
			answers = append(answers, sheet.Findings[f].ID+"="+randomAnswer(r, sheet, f))
		}
	}
	for range r.IntN(3) {
		done = append(done, sheet.Steps[r.IntN(len(sheet.Steps))].ID)
	}
	in["answers"], in["done"] = strings.Join(answers, "; "), strings.Join(done, ", ")
	return in
}

func randomAnswer(r *rand.Rand, sheet *triage.Sheet, f int) string {
	names := sheet.Names[f]
	switch {
	case r.IntN(8) == 0:
		return "unknown"
	case names != nil:
		return names[r.IntN(len(names))]
	}
	return []string{"0.2", "1", "1.3 ± 10 %", "4.8", "12 ± 3", "800", "0"}[r.IntN(7)]
}
