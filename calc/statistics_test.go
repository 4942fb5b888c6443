package calc_test

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"blankoff/calc/fit"
	"blankoff/calc/uncertainty"
)

// The rows of statistics are put to the functions that the calculators of logs stand on:
// no calculator gives a line or a factor by itself.

var _ = topicOf(topic{file: "15_statistics.csv", rows: 22, numbers: map[string]func(*testing.T, row) float64{
	"linear_regression": func(t *testing.T, r row) float64 {
		l, _ := fit.Straight(xy(t, r))
		return ofLine(t, r, l)
	},
	"weighted_linear_regression": func(t *testing.T, r row) float64 {
		x, y := xy(t, r)
		l, _ := fit.Weighted(x, y, dataColumn(t, r.in["data"], "sigma_mTorr"))
		return ofLine(t, r, l)
	},
	"regression_through_origin": func(t *testing.T, r row) float64 {
		l, _ := fit.Origin(xy(t, r))
		return ofLine(t, r, l)
	},
	"theil_sen": func(t *testing.T, r row) float64 {
		x, y := xy(t, r)
		slope, intercept, _ := fit.TheilSen(x, y)
		return map[string]float64{"slope": slope, "intercept_median_of_residuals": intercept}[r.in["quantity"]]
	},
	"saturating_exponential_fit": func(t *testing.T, r row) float64 {
		x, y := xy(t, r)
		c, _ := fit.Fit(x, y, fit.Bend, 1/r.number(t, "start_b2"))
		return map[string]float64{"b1": c.Rise, "b2": 1 / c.Tau, "b1_se": c.URise, "residual_ss": c.SS, "residual_sd": c.S}[r.in["quantity"]]
	},
	"offset_exponential_fit": func(t *testing.T, r row) float64 {
		x, y := xy(t, r)
		c, _ := fit.Fit(x, y, fit.Start|fit.Bend, x[len(x)-1]/3)
		return map[string]float64{"amplitude": c.Rise, "rate": 1 / c.Tau}[r.in["quantity"]]
	},
}})

func ofLine(t *testing.T, r row, l fit.Line) float64 {
	t.Helper()
	value, known := map[string]float64{"slope": l.Slope, "intercept": l.Intercept, "slope_se": l.USlope, "residual_sd": l.S, "r_squared": l.RSquared}[r.in["quantity"]]
	if !known {
		t.Fatalf("%s: a line has no %q", r.id, r.in["quantity"])
	}
	return value
}

// xy are the two columns of the data of a row: the places are called x or t.
func xy(t *testing.T, r row) (x, y []float64) {
	t.Helper()
	if strings.Contains(r.in["data"], "rise_log") {
		return dataColumn(t, r.in["data"], "t_s"), dataColumn(t, r.in["data"], "p_mTorr")
	}
	return dataColumn(t, r.in["data"], "x"), dataColumn(t, r.in["data"], "y")
}

func dataColumn(t *testing.T, name, head string) (list []float64) {
	t.Helper()
	file, err := os.Open(filepath.Join("..", "testdata", "reference", name))
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	lines, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for i, field := range lines[0] {
		for _, line := range lines[1:] {
			v, err := strconv.ParseFloat(line[i], 64)
			if field == head && err != nil {
				t.Fatal(err)
			} else if field == head {
				list = append(list, v)
			}
		}
	}
	if list == nil {
		t.Fatalf("%s has no column %s", name, head)
	}
	return list
}

// gumH2 works the example H.2 of the GUM from its readings: R = V/I cos φ, X = V/I sin φ,
// Z = V/I, of five sets of readings taken together, so that V, I and φ are correlated.
func gumH2(t *testing.T, r row) float64 {
	t.Helper()
	volts, milliamps, phi := dataColumn(t, r.in["data"], "V_volt"), dataColumn(t, r.in["data"], "I_milliampere"), dataColumn(t, r.in["data"], "phi_radian")
	lists := [3][]float64{volts, milliamps, phi}
	var mean, u [3]float64
	c := make([][]float64, 3)
	for i := range lists {
		s, _ := fit.Repeat(lists[i])
		mean[i], u[i] = s.Mean, s.U
		for j := range lists {
			share, _ := fit.Correlation(lists[i], lists[j])
			c[i] = append(c[i], share)
		}
	}
	mean[1], u[1] = mean[1]/1000, u[1]/1000
	out := impedance(mean, u, c)
	out["u_V"], out["u_phi"], out["r_VI"], out["r_Vphi"] = u[0], u[2], c[0][1], c[0][2]
	value, known := out[r.in["quantity"]]
	if !known {
		t.Fatalf("%s: nothing gives %q", r.id, r.in["quantity"])
	}
	return value
}

// impedance propagates with the derivatives written out.
func impedance(x, u [3]float64, c [][]float64) map[string]float64 {
	z := x[0] / x[1]
	sin, cos := math.Sincos(x[2])
	changes := func(part, turned float64) []float64 {
		return []float64{part / x[0] * u[0], -part / x[1] * u[1], turned * u[2]}
	}
	r, reactance, size := changes(z*cos, -z*sin), changes(z*sin, z*cos), changes(z, 0)
	uR, uX, uZ := uncertainty.Correlated(r, c), uncertainty.Correlated(reactance, c), uncertainty.Correlated(size, c)
	return map[string]float64{"mean_R": z * cos, "mean_Z": z, "u_R": uR, "u_Z": uZ,
		"r_RZ": uncertainty.Covariance(r, size, c) / uR / uZ, "r_XZ": uncertainty.Covariance(reactance, size, c) / uX / uZ}
}

// correlatedInputs is the same example from its rounded inputs.
func correlatedInputs(t *testing.T, r row) map[string]float64 {
	x := [3]float64{r.number(t, "V"), r.number(t, "I"), r.number(t, "phi")}
	u := [3]float64{r.number(t, "uV"), r.number(t, "uI"), r.number(t, "uphi")}
	a, b, d := r.number(t, "rVI"), r.number(t, "rVphi"), r.number(t, "rIphi")
	return impedance(x, u, [][]float64{{1, a, b}, {a, 1, d}, {b, d, 1}})
}

func effective(t *testing.T, r row) float64 {
	var u, freedom []float64
	for i := 1; r.in["u"+strconv.Itoa(i)] != ""; i++ {
		u, freedom = append(u, r.number(t, "u"+strconv.Itoa(i))), append(freedom, r.number(t, "dof"+strconv.Itoa(i)))
	}
	return fit.Effective(u, freedom)
}

// statistics are the rows of 12_uncertainty.csv that ask for no calculator either.
var statistics = map[string]func(t *testing.T, r row) float64{
	"gum_h2":                  gumH2,
	"correlated_u_R":          func(t *testing.T, r row) float64 { return correlatedInputs(t, r)["u_R"] },
	"correlated_u_Z":          func(t *testing.T, r row) float64 { return correlatedInputs(t, r)["u_Z"] },
	"effective_dof":           effective,
	"coverage_factor_t":       func(t *testing.T, r row) float64 { return fit.Coverage(r.number(t, "p"), r.number(t, "dof")) },
	"effective_dof_truncated": func(t *testing.T, r row) float64 { return math.Floor(effective(t, r)) }, // as GUM G.4.1 advises
	"expanded_uncertainty": func(t *testing.T, r row) float64 {
		return fit.Coverage(r.number(t, "p"), r.number(t, "dof")) * r.number(t, "uc")
	},
}

// They are added to those of the calculators, as both stand in one table.
var _ = func() bool {
	for name, run := range statistics {
		checked[name] = run
	}
	return true
}()
