package fit

import (
	"bytes"
	"encoding/json"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"testing"
)

// asked is one fit that scipy is asked for. Near is the truth that the readings were
// made from, where scipy's search begins; ours begins elsewhere.
type asked struct {
	Kind    string // line, weighted, saturating, both
	X, Y, U []float64
	Near    []float64
}

// told is scipy's answer: parameters in the order of its model, their standard
// uncertainties, and the sum of squares.
type told struct {
	P, U []float64
	SS   float64
}

// The two curves are given their derivatives, so that the covariance is as exact as ours.
const script = `
import json, sys
import numpy as np
try:
    from scipy import optimize, stats
except ImportError:
    sys.exit(3)
bend = lambda x, c, tau: c * (1 - np.exp(-x / tau))
def slope(x, c, tau):
    e = np.exp(-x / tau)
    return [1 - e, -c * x / tau**2 * e]
curves = {
    "saturating": (lambda x, a, c, tau: a + bend(x, c, tau), lambda x, a, c, tau: np.stack([x * 0 + 1] + slope(x, c, tau), 1)),
    "both": (lambda x, a, b, c, tau: a + b * x + bend(x, c, tau), lambda x, a, b, c, tau: np.stack([x * 0 + 1, x] + slope(x, c, tau), 1)),
}
out = []
for q in json.load(sys.stdin):
    x, y = np.array(q["X"]), np.array(q["Y"])
    if q["Kind"] == "line":
        r = stats.linregress(x, y)
        out.append({"P": [r.intercept, r.slope], "U": [r.intercept_stderr, r.stderr], "SS": float(((y - r.intercept - r.slope * x)**2).sum())})
    elif q["Kind"] == "weighted":
        u = np.array(q["U"])
        p, c = np.polyfit(x, y, 1, w=1 / u, cov="unscaled")
        out.append({"P": [p[1], p[0]], "U": [c[1, 1]**0.5, c[0, 0]**0.5], "SS": float((((y - p[1] - p[0] * x) / u)**2).sum())})
    else:
        f, jac = curves[q["Kind"]]
        p, c = optimize.curve_fit(f, x, y, q["Near"], jac=jac, ftol=1e-15, xtol=1e-15, gtol=1e-15, maxfev=20000)
        out.append({"P": list(p), "U": list(np.sqrt(np.diag(c))), "SS": float(((y - f(x, *p))**2).sum())})
json.dump(out, sys.stdout)
`

// python is Debian's own interpreter where there is one: that is the one for which the
// package python3-scipy is installed.
func python(t *testing.T) string {
	t.Helper()
	const own = "/usr/bin/python3"
	if _, err := os.Stat(own); err == nil {
		return own
	}
	path, err := exec.LookPath("python3")
	if err != nil {
		t.Fatal("there is no python3, and the fits cannot be checked against scipy: install the package python3-scipy (Debian: apt-get install python3-scipy)")
	}
	return path
}

func askScipy(t *testing.T, questions []asked) []told {
	t.Helper()
	in, err := json.Marshal(questions)
	if err != nil {
		t.Fatal(err)
	}
	var complaint bytes.Buffer
	cmd := exec.Command(python(t), "-c", script)
	cmd.Env = []string{"LC_ALL=C", "PATH=/usr/bin:/bin", "HOME=" + t.TempDir(), "OPENBLAS_NUM_THREADS=1"}
	cmd.Stdin, cmd.Stderr = bytes.NewReader(in), &complaint
	said, err := cmd.Output()
	if cmd.ProcessState != nil && cmd.ProcessState.ExitCode() == 3 || bytes.Contains(complaint.Bytes(), []byte("No module named")) {
		t.Fatal("scipy is not installed, and the fits cannot be checked against it: install the package python3-scipy (Debian: apt-get install python3-scipy)")
	}
	if err != nil {
		t.Fatalf("python3: %v\n%s", err, complaint.Bytes())
	}
	var answers []told
	if err := json.Unmarshal(said, &answers); err != nil || len(answers) != len(questions) {
		t.Fatalf("scipy: %v; %d answers to %d questions", err, len(answers), len(questions))
	}
	return answers
}

// question draws the readings of a random log or calibration.
func question(random *rand.Rand, kind string) asked {
	n := 12 + random.IntN(60)
	q := asked{Kind: kind, X: make([]float64, n), Y: make([]float64, n)}
	length := math.Exp(8 * (random.Float64() - 0.3))
	a, b, c := 1000*(random.Float64()-0.3), 300*(random.Float64()-0.3)/length, 100+300*random.Float64()
	tau, noise := length*(0.08+0.2*random.Float64()), 0.2+random.Float64()
	switch kind {
	case "line", "weighted":
		c, tau = 0, 1
	case "saturating":
		b, q.Near = 0, []float64{a, c, tau}
	default:
		q.Near = []float64{a, b, c, tau}
	}
	for i := range q.X {
		x := length * (float64(i) + 0.6*random.Float64()) / float64(n)
		u := noise
		if kind == "weighted" {
			u = noise * math.Exp(2*random.Float64()-1)
			q.U = append(q.U, u)
		}
		q.X[i], q.Y[i] = x, a+b*x-c*math.Expm1(-x/tau)+u*random.NormFloat64()
	}
	return q
}

// ours fits the same readings.
func ours(q asked) (told, bool) {
	switch q.Kind {
	case "line":
		l, ok := Straight(q.X, q.Y)
		return told{[]float64{l.Intercept, l.Slope}, []float64{l.UIntercept, l.USlope}, l.SS}, ok
	case "weighted":
		l, ok := Weighted(q.X, q.Y, q.U)
		return told{[]float64{l.Intercept, l.Slope}, []float64{l.UIntercept, l.USlope}, l.SS}, ok
	}
	start := q.X[len(q.X)-1] / 4
	if q.Kind == "saturating" {
		c, ok := Fit(q.X, q.Y, Start|Bend, start)
		return told{[]float64{c.Start, c.Rise, c.Tau}, []float64{c.UStart, c.URise, c.UTau}, c.SS}, ok
	}
	c, ok := Fit(q.X, q.Y, Start|Slope|Bend, start)
	return told{[]float64{c.Start, c.Slope, c.Rise, c.Tau}, []float64{c.UStart, c.USlope, c.URise, c.UTau}, c.SS}, ok
}

// TestFitsAgreeWithScipy: 250 fits of each kind. A parameter must agree to a
// hundred-thousandth of its own uncertainty or ten figures (scipy stops where the sum of
// squares no longer changes, which is about that far from the minimum), and ours must not
// fit worse.
func TestFitsAgreeWithScipy(t *testing.T) {
	random := rand.New(rand.NewPCG(15, 2026))
	var questions []asked
	for i := 0; i < 250; i++ {
		for _, kind := range []string{"line", "weighted", "saturating", "both"} {
			questions = append(questions, question(random, kind))
		}
	}
	worst := map[string]float64{}
	for i, theirs := range askScipy(t, questions) {
		q := questions[i]
		mine, ok := ours(q)
		if !ok || mine.SS > theirs.SS*(1+1e-9) {
			t.Errorf("%d %s: SS %v, scipy %v (%v)", i, q.Kind, mine.SS, theirs.SS, ok)
			continue
		}
		for j, p := range theirs.P {
			off := math.Max(0, math.Abs(mine.P[j]-p)-1e-10*math.Abs(p)) / theirs.U[j]
			offU := math.Abs(mine.U[j]/theirs.U[j] - 1)
			worst[q.Kind] = math.Max(worst[q.Kind], math.Max(off, offU))
			if !(off <= 1e-5) || !(offU <= 1e-5) {
				t.Errorf("%d %s, parameter %d: %.12g with u = %.9g, scipy says %.12g with u = %.9g", i, q.Kind, j, mine.P[j], mine.U[j], p, theirs.U[j])
			}
		}
	}
	t.Logf("%d fits; largest difference, in u or as a share of u: %v", len(questions), worst)
}
