package machine

import (
	"maps"
	"slices"
	"strings"
	"testing"

	"blankoff/build/source"
	"blankoff/calc/quantity"
)

// TestVocabulary holds the table together: each row can be found, is in a group of the card, and its own example passes.
func TestVocabulary(t *testing.T) {
	for _, e := range Entries {
		name := strings.Replace(strings.Replace(e.Name, "-N", "-2", 1), "-N", "-3", 1)
		if found, ok := Find(name); !ok || found.Means != e.Means || found.Name != name {
			t.Errorf("%s is not found", name)
		}
		if !slices.Contains(Groups, e.Group) || e.Means == "" || !strings.HasSuffix(e.Means, ".") {
			t.Errorf("%s: group %q, meaning %q", e.Name, e.Group, e.Means)
		}
		if problem := e.Check(e.Example); problem != nil {
			t.Errorf("%s: its own example: %+v", e.Name, *problem)
		}
		quantified := e.Form == Exact || e.Form == Measure || e.Form == Range
		if quantified != (e.Kind != quantity.None) {
			t.Errorf("%s: form and kind do not fit", e.Name)
		}
		if least, most := e.bounds(); quantified && !(least < most) {
			t.Errorf("%s: least %v, most %v", e.Name, least, most)
		}
		if Label(name) == "" || strings.Contains(Label(name), "N ") {
			t.Errorf("%s: label %q", name, Label(name))
		}
	}
	if len(rows) != len(Entries) {
		t.Error("a name stands twice")
	}
	for _, name := range Derived {
		if _, known := Find(name); !known {
			t.Errorf("%s is not in the vocabulary", name)
		}
	}
}

// TestNamesAreFarApart: a name of ours must not be taken for a slip of another.
func TestNamesAreFarApart(t *testing.T) {
	for _, name := range Names() {
		others := slices.DeleteFunc(Names(), func(other string) bool { return other == name })
		if near := source.NearMiss(name, others); near != "" && !strings.ContainsAny(name, "N") {
			t.Errorf("%s is taken for %s", name, near)
		}
	}
}

func TestCheck(t *testing.T) {
	for _, c := range []struct{ name, text, rule string }{
		{"chamber-volume", "24.0 L ± 1.0 L", ""},
		{"chamber-volume", "24,0 L", ""},
		{"chamber-volume", "24,000 cc ± 4 %", ""},
		{"chamber-volume", "0.5 L", ""},
		{"chamber-volume", "28 m³", "value-size"},
		{"chamber-volume", "-3 L", "value-size"},
		{"chamber-volume", "410 W", "value-kind"},
		{"chamber-volume", "24", "value-kind"},
		{"chamber-volume", "large", "value-form"},
		{"chamber-volume", "OL", "value-form"},
		{"chamber-volume", "20 to 30 L", "value-form"},
		{"chamber-volume", "24 L ± 30 L", "value-form"},
		{"condenser-temperature", "-34 °C ± 2 K", ""},
		{"condenser-temperature", "34 °C", "value-size"},
		{"ready-limit", "350 mTorr", ""},
		{"ready-limit", "350 mTorr ± 10 mTorr", "value-form"},
		{"ready-limit", "-28 inHg gauge", "value-form"},
		{"ready-limit", "20 mTorr/min", "value-kind"},
		{"leak-limit", "0.0107 mbar·L/s", ""},
		{"leak-limit", "410 W", "value-kind"},
		{"room-range", "8 to 32 °C", ""},
		{"room-range", "46 to 90 °F", ""},
		{"room-range", "32 to 8 °C", "value-form"},
		{"room-range", "8 °C", "value-form"},
		{"room-range", "8 to 320 °C", "value-size"},
		{"room-range", "8 to 32 L", "value-kind"},
		{"vapour-factor", "1.5 to 1.62", ""},
		{"vapour-factor", "15 to 16.2", "value-size"},
		{"thread", "R 1/8", ""},
		{"thread", "1/4 NPT", ""},
		{"thread", "R 1/7", "value-form"},
		{"sensor-construction", "insulated junction", ""},
		{"sensor-construction", "insulated", "value-form"},
		{"heater-pins", "1 and 4", ""},
		{"heater-pins", "1 and 1", "value-form"},
		{"heater-pins", "1", "value-form"},
		{"heater-pins", "1 and 15", "value-form"},
		{"condenser-probe", "anything at all", ""},
	} {
		e, known := Find(c.name)
		if !known {
			t.Fatalf("no %s", c.name)
		}
		got := ""
		if problem := e.Check(c.text); problem != nil {
			got = problem.Rule
			if problem.Hint == "" || !strings.HasPrefix(problem.Message, c.name) {
				t.Errorf("%s: %s: %+v", c.name, c.text, *problem)
			}
		}
		if got != c.rule {
			t.Errorf("%s: %s: %q, want %q", c.name, c.text, got, c.rule)
		}
	}
}

// sound are values that do not contradict each other, from the demo scenario (invented).
var sound = map[string]string{
	"heater-pair-low": "6.9 Ω", "heater-pair-high": "9.3 Ω", "couple-pair-low": "12.4 Ω", "couple-pair-high": "16.8 Ω",
	"blank-off-new": "25 mTorr", "blank-off-limit": "45 mTorr", "dry-empty-limit": "150 mTorr", "ready-limit": "350 mTorr",
	"condenser-temperature": "-34 °C", "sensor-floor": "1 mTorr", "gauge-ceiling": "2,000 mTorr",
	"running-current": "9.5 A", "start-current": "28 A", "dry-curve-2-min": "1,170 mTorr", "dry-curve-12-min": "125 mTorr",
	"chamber-volume": "24.0 L ± 1.0 L", "rise-limit": "20 mTorr/min", "leak-limit": "0.0107 mbar·L/s",
}

// TestBetween: the ice floor at -34 °C is 24.90 Pa or 187 mTorr (Murphy and Koop 2005, equation 7, worked out by another program).
func TestBetween(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"heater-pair-low", "9.3 Ω", "heater-pair-low"},
		{"couple-pair-high", "1.68 Ω", "couple-pair-low"},
		{"blank-off-limit", "25 mTorr", "blank-off-new"},
		{"dry-empty-limit", "45 mTorr", "blank-off-limit"},
		{"ready-limit", "186 mTorr", "ready-limit"},
		{"ready-limit", "188 mTorr", ""},
		{"condenser-temperature", "-28 °C", "ready-limit"}, // 350.1 mTorr
		{"sensor-floor", "3 Torr", "sensor-floor"},
		{"start-current", "9.5 A", ""},
		{"start-current", "9.4 A", "running-current"},
		{"dry-curve-12-min", "1.25 Torr", "dry-curve-12-min"},
		{"dry-curve-12-min", "unknown", ""},
		{"supply", "120 V", ""},
		{"leak-limit", "0.01 mbar·L/s", "leak-limit"}, // by hand: 20 × 1.33322e-3 mbar / 60 s × 24 L = 0.01067
		{"leak-limit", "0.0105 mbar·L/s", ""},
		{"rise-limit", "8 mTorr/min", "leak-limit"},
		{"rise-limit", "1.2 Torr/h", ""},
	} {
		values := maps.Clone(sound)
		values[c.name] = c.text
		names := slices.Sorted(maps.Keys(values))
		var got []string
		for _, conflict := range Between(names, func(name string) (string, bool) { text, has := values[name]; return text, has }) {
			got = append(got, conflict.Name)
			if conflict.Hint == "" || conflict.Other == "" {
				t.Errorf("%+v", conflict)
			}
		}
		if strings.Join(got, " ") != c.want {
			t.Errorf("%s: %s: %q, want %q", c.name, c.text, got, c.want)
		}
	}
}

func TestPins(t *testing.T) {
	tq4 := []Pin{{6, "couple"}, {1, "heater"}, {4, "heater"}, {7, "couple"}, {8, "none"}} // invented
	for name, want := range map[string]string{"sensor-tube": "TQ-4", "sensor-construction": "insulated junction", "heater-pins": "1 and 4", "couple-pins": "6 and 7"} {
		if got := Derive(name, "TQ-4", "insulated", tq4); got != want {
			t.Errorf("%s: %q, want %q", name, got, want)
		}
	}
	if got := CheckPins(tq4); len(got) > 0 {
		t.Errorf("%v", got)
	}
	if got := CheckPins(tq4[1:]); len(got) != 1 || !strings.Contains(got[0].Message, "1 for the couple") {
		t.Errorf("%v", got)
	}
	for name, good := range map[string]bool{"pair-1-4": true, "pair-1-7": true, "pair-4-1": false, "pair-1-8": false, "pair-1-5": false, "pair-4-4": false, "warm-up": true} {
		if (CheckPair(name, tq4) == nil) != good {
			t.Errorf("%s: good is %v", name, !good)
		}
	}
}

func TestCompare(t *testing.T) {
	names := []string{"own-b", "supply", "dry-curve-12-min", "chamber-volume", "own-a", "dry-curve-2-min"}
	slices.SortStableFunc(names, Compare)
	if got := strings.Join(names, " "); got != "chamber-volume dry-curve-2-min dry-curve-12-min supply own-b own-a" {
		t.Error(got)
	}
}
