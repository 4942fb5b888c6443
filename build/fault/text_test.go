package fault

import (
	"math"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"blankoff/calc/triage"
)

// TestTextBringsTheModelWhole: what a phone reckons with is what the file says, to the nine figures of the text.
func TestTextBringsTheModelWhole(t *testing.T) {
	model := demo(t)
	text, err := model.Text()
	if err != nil {
		t.Fatal(err)
	}
	sheet, wrong := triage.ReadSheet(text)
	if wrong != "" {
		t.Fatal(wrong)
	}
	for i, worker := range []string{Customer, Technician} {
		want := model.For(worker)
		got := sheet.Model
		if got.Call = sheet.Calls[i].Minutes; sheet.Calls[i].Who != Worker(worker) {
			t.Errorf("%s has place %d", worker, i)
		}
		if path := unlike(reflect.ValueOf(*want), reflect.ValueOf(got), "model"); path != "" {
			t.Errorf("for the %s: %s differs", worker, path)
		}
	}
	for i, cause := range model.Causes {
		if sheet.Titles[i] != cause.Title.Text || sheet.Groups[i] != cause.Group.Text {
			t.Errorf("%s is called %q, %q", cause.Name, sheet.Titles[i], sheet.Groups[i])
		}
	}
	for i, step := range model.Steps() {
		if sheet.Does[i] != step.Title.Text || sheet.Times[i] != step.Minutes {
			t.Errorf("%s is called %q and takes %g min", step.Name, sheet.Does[i], sheet.Times[i])
		}
	}
	for i, f := range model.Findings {
		if sheet.Kinds[i] != f.Kind || strings.Join(sheet.Names[i], " ") != strings.Join(f.answerNames(), " ") {
			t.Errorf("%s: %v %q", f.Name, sheet.Kinds[i], sheet.Names[i])
		}
		if sheet.Asks[i] != f.Title.Text {
			t.Errorf("%s is asked as %q", f.Name, sheet.Asks[i])
		}
		for o, answer := range f.Answers {
			if want := answer.Text; want != "" && sheet.Says[i][o] != want {
				t.Errorf("%s=%s is worded %q", f.Name, answer.Name, sheet.Says[i][o])
			}
		}
	}
}

// unlike is the path of the first difference; nil and empty lists are the same, numbers agree to eight figures.
func unlike(a, b reflect.Value, path string) string {
	switch a.Kind() {
	case reflect.Struct:
		for i := range a.NumField() {
			if at := unlike(a.Field(i), b.Field(i), path+"."+a.Type().Field(i).Name); at != "" {
				return at
			}
		}
		return ""
	case reflect.Slice, reflect.Array:
		if a.Len() != b.Len() {
			return path
		}
		for i := range a.Len() {
			if at := unlike(a.Index(i), b.Index(i), path+"["+number(float64(i))+"]"); at != "" {
				return at
			}
		}
		return ""
	case reflect.Float64:
		if x, y := a.Float(), b.Float(); math.Abs(x-y) > 1e-8*math.Max(1e-3, math.Abs(x)) {
			return path
		}
		return ""
	}
	if !a.Equal(b) {
		return path
	}
	return ""
}

// TestTextOfOurModel holds the text for the tests of those who may not read YAML.
func TestTextOfOurModel(t *testing.T) {
	text, err := demo(t).Text()
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join("..", "..", "testdata", "triage-model.txt")
	if *update {
		if err := os.WriteFile(path, []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil || string(want) != text {
		t.Errorf("%s is not the text of content/triage.yaml (%v); -update writes it anew", path, err)
	}
	if len(text) > 32<<10 {
		t.Errorf("%d bytes go to the calculators with each request", len(text))
	}
}

func TestTextOfFaultyFile(t *testing.T) {
	if text, err := (&Model{faulty: true}).Text(); err == nil {
		t.Errorf("%q", text)
	}
}

func TestToolNames(t *testing.T) {
	for name, want := range map[string]string{"independent gauge": "independent-gauge", "ohm-meter": "ohm-meter", "cap,  and plug": "cap-and-plug"} {
		if got := Tool(name); got != want {
			t.Errorf("%q: %q", name, got)
		}
	}
}
