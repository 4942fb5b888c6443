package fit

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"testing"
)

// data reads two columns of a table of testdata/reference.
func data(t testing.TB, name, yName, xName string) (x, y []float64) {
	t.Helper()
	file, err := os.Open(filepath.Join("..", "..", "testdata", "reference", name))
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	lines, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	column := func(head string) (list []float64) {
		for i, field := range lines[0] {
			if field != head {
				continue
			}
			for _, line := range lines[1:] {
				v, err := strconv.ParseFloat(line[i], 64)
				if err != nil {
					t.Fatalf("%s: %v", name, err)
				}
				list = append(list, v)
			}
		}
		if list == nil {
			t.Fatalf("%s has no column %s", name, head)
		}
		return list
	}
	return column(xName), column(yName)
}

// digits is the number of equal significant digits, the measure of NIST StRD.
func digits(got, want float64) float64 {
	if got == want {
		return 16
	}
	return -math.Log10(math.Abs(got-want) / math.Abs(want))
}

func agree(t *testing.T, what string, got, want, least float64) {
	t.Helper()
	if d := digits(got, want); !(d >= least) {
		t.Errorf("%s: got %.15g, certified %.15g: %.1f digits, want %v", what, got, want, d, least)
	}
}

// The certified values of the lines: NIST Statistical Reference Datasets, linear
// regression. Norris has 11 certified digits and more; those of testdata/reference were
// seen published, the standard deviation of the intercept and NoInt1's further values
// are from memory of the same files.
func TestLinesOfNIST(t *testing.T) {
	x, y := data(t, "15_data_norris.csv", "y", "x")
	norris, _ := Straight(x, y)
	agree(t, "Norris slope", norris.Slope, 1.00211681802045, 12)
	agree(t, "Norris intercept", norris.Intercept, -0.262323073774029, 10)
	agree(t, "Norris slope, standard deviation", norris.USlope, 0.429796848199937e-03, 10)
	agree(t, "Norris intercept, standard deviation", norris.UIntercept, 0.232818234301152, 10)
	agree(t, "Norris residual standard deviation", norris.S, 0.884796396144373, 10)
	agree(t, "Norris R squared", norris.RSquared, 0.999993745883712, 12)

	x, y = data(t, "15_data_noint1.csv", "y", "x")
	noInt, _ := Origin(x, y)
	agree(t, "NoInt1 slope", noInt.Slope, 2.07438016528926, 12)
	agree(t, "NoInt1 slope, standard deviation", noInt.USlope, 0.165289256198347e-01, 10)
	agree(t, "NoInt1 residual standard deviation", noInt.S, 3.56753034006338, 10)
	agree(t, "NoInt1 R squared", noInt.RSquared, 0.999365492298663, 12)
}

// The certified values of the curves, with both starts that NIST gives for b₂; b₁ needs
// no start here. Misra1a stands in testdata/reference; the standard deviation of its b₂
// and all of BoxBOD are from memory of NIST's files, and scipy_test.go fits them afresh.
func TestCurvesOfNIST(t *testing.T) {
	for _, c := range []struct {
		name, file       string
		starts           [2]float64
		b1, b2, u1, u2   float64
		squares, scatter float64
	}{
		{"Misra1a", "15_data_misra1a.csv", [2]float64{0.0001, 0.0005}, 2.3894212918e+02, 5.5015643181e-04, 2.7070075241e+00, 7.2668688436e-06, 1.2455138894e-01, 1.0187876330e-01},
		{"BoxBOD", "15_data_boxbod.csv", [2]float64{1, 0.75}, 2.1380940889e+02, 5.4723748542e-01, 1.2354515176e+01, 1.0455993237e-01, 1.1680088766e+03, 1.7088072423e+01},
	} {
		x, y := data(t, c.file, "y", "x")
		for _, b2 := range c.starts {
			curve, ok := Fit(x, y, Bend, 1/b2)
			if !ok {
				t.Fatalf("%s from b₂ = %v: no fit", c.name, b2)
			}
			rate := 1 / curve.Tau
			agree(t, c.name+" b₁", curve.Rise, c.b1, 8)
			agree(t, c.name+" b₂", rate, c.b2, 8)
			agree(t, c.name+" b₁, standard deviation", curve.URise, c.u1, 8)
			agree(t, c.name+" b₂, standard deviation", curve.UTau*rate*rate, c.u2, 8)
			agree(t, c.name+" residual sum of squares", curve.SS, c.squares, 8)
			agree(t, c.name+" residual standard deviation", curve.S, c.scatter, 8)
		}
	}
}
