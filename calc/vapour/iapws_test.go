package vapour

import (
	"bytes"
	"encoding/json"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"testing"
)

// script answers lists of temperatures and pressures with what the package iapws says, in
// Pa and K. The sublimation line is in the package under a name of its own.
const script = `
import json, sys
try:
    from iapws import iapws97
    from iapws._iapws import _Sublimation_Pressure
except ImportError:
    sys.exit(3)
q = json.load(sys.stdin)
json.dump({
    "Ice": [_Sublimation_Pressure(t) * 1e6 for t in q["Ice"]],
    "Water": [iapws97._PSat_T(t) * 1e6 for t in q["Water"]],
    "Boiling": [iapws97._TSat_P(p / 1e6) for p in q["Boiling"]],
}, sys.stdout)
`

const missing = "the Python package iapws is not installed, and ice and steam cannot be checked against it: install the package python3-iapws (Debian: apt-get install python3-iapws)"

// lists are what is asked, and what is answered.
type lists struct{ Ice, Water, Boiling []float64 }

// askIAPWS runs one python3, Debian's own where there is one: that is the one for which
// the package is installed.
func askIAPWS(t *testing.T, questions lists) lists {
	t.Helper()
	python := "/usr/bin/python3"
	if _, err := os.Stat(python); err != nil {
		if python, err = exec.LookPath("python3"); err != nil {
			t.Fatal("there is no python3: " + missing)
		}
	}
	in, err := json.Marshal(questions)
	if err != nil {
		t.Fatal(err)
	}
	var complaint bytes.Buffer
	cmd := exec.Command(python, "-c", script)
	cmd.Env = []string{"LC_ALL=C", "PATH=/usr/bin:/bin", "HOME=" + t.TempDir(), "OPENBLAS_NUM_THREADS=1"}
	cmd.Stdin, cmd.Stderr = bytes.NewReader(in), &complaint
	said, err := cmd.Output()
	if cmd.ProcessState != nil && cmd.ProcessState.ExitCode() == 3 {
		t.Fatal(missing)
	}
	if err != nil {
		t.Fatalf("python3: %v\n%s", err, complaint.Bytes())
	}
	var answers lists
	if err := json.Unmarshal(said, &answers); err != nil || len(answers.Ice) != len(questions.Ice) || len(answers.Water) != len(questions.Water) || len(answers.Boiling) != len(questions.Boiling) {
		t.Fatalf("iapws: %v; not as many answers as questions", err)
	}
	return answers
}

// TestAgreesWithIAPWS: 1,000 random temperatures of ice and 1,000 of water, and 1,000
// boiling pressures. The package evaluates the same published equations, so only
// rounding may differ.
func TestAgreesWithIAPWS(t *testing.T) {
	random := rand.New(rand.NewPCG(7, 2026))
	var q lists
	for range 1000 {
		q.Ice = append(q.Ice, 60+(TriplePointKelvin-60)*random.Float64())
		q.Water = append(q.Water, 273.15+(647-273.15)*random.Float64())
		q.Boiling = append(q.Boiling, 612*math.Pow(22e6/612, random.Float64()))
	}
	worst := [3]float64{}
	compare := func(kind int, name string, at, ours, theirs float64) {
		off := math.Abs(ours/theirs - 1)
		worst[kind] = math.Max(worst[kind], off)
		if !(off <= 1e-12) {
			t.Errorf("%s at %v: we say %.15g, iapws says %.15g", name, at, ours, theirs)
		}
	}
	answers := askIAPWS(t, q)
	for i := range q.Ice {
		compare(0, "ice", q.Ice[i], SublimationPressure(q.Ice[i]), answers.Ice[i])
		if back := SublimationTemperature(answers.Ice[i]); math.Abs(back-q.Ice[i]) > 1e-9 {
			t.Errorf("ice of %v Pa: we say %v K, iapws was asked at %v K", answers.Ice[i], back, q.Ice[i])
		}
		if at := q.Ice[i]; at > 173.15 && math.Abs(IcePressure(at)/answers.Ice[i]-1) > 1.05e-3 {
			t.Errorf("ice at %v K: Murphy and Koop give %v, iapws says %v", at, IcePressure(at), answers.Ice[i])
		}
		compare(1, "water", q.Water[i], WaterPressure(q.Water[i]), answers.Water[i])
		compare(2, "boiling", q.Boiling[i], WaterTemperature(q.Boiling[i]), answers.Boiling[i])
	}
	t.Logf("largest differences: ice %.1e, water %.1e, boiling %.1e", worst[0], worst[1], worst[2])
}
