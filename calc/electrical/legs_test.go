package electrical

import (
	"math"
	"math/rand/v2"
	"testing"
)

var none = math.NaN()

func even(u float64) *[6]float64 { return &[6]float64{u, u, u, u, u, u} }

func pairsOf(legs [4]float64) (net [6]float64) {
	for i, ends := range pairEnds {
		net[i] = legs[ends[0]] + legs[ends[1]]
	}
	return net
}

func TestFourLegs(t *testing.T) {
	for _, c := range []struct {
		name           string // with its source
		net            [6]float64
		found          bool
		leg            [4]float64
		residual       [6]float64
		spare, reached int
	}{
		{"trade brief, section 3: pairs of legs 3.9, 4.2, 6.8, 7.3", [6]float64{8.1, 10.7, 11.2, 11.0, 11.5, 14.1}, true, [4]float64{3.9, 4.2, 6.8, 7.3}, [6]float64{}, 2, 4},
		{"trade brief, section 3: 1.2 Ω of contact in A–B leaves +0.40 on two pairs and −0.20 on four; its legs A and B by hand (S − T)/2 take +0.4, C and D −0.2",
			[6]float64{9.3, 10.7, 11.2, 11.0, 11.5, 14.1}, true, [4]float64{4.3, 4.6, 6.6, 7.1}, [6]float64{0.4, -0.2, -0.2, -0.2, -0.2, 0.4}, 2, 4},
		{"the same in B–C", [6]float64{8.1, 10.7, 11.2, 12.2, 11.5, 14.1}, true, [4]float64{3.7, 4.6, 7.2, 7.1}, [6]float64{-0.2, -0.2, 0.4, 0.4, -0.2, -0.2}, 2, 4},
		{"trade brief, case 4: leg 2, here A, is open, three pairs left", [6]float64{none, none, none, 11.0, 11.5, 14.1}, true, [4]float64{0, 4.2, 6.8, 7.3}, [6]float64{}, 0, 3},
		{"five pairs: one left over", [6]float64{none, 10.7, 11.2, 11.0, 11.5, 14.1}, true, [4]float64{3.9, 4.2, 6.8, 7.3}, [6]float64{}, 1, 4},
		{"a ring of four pairs has no triangle", [6]float64{none, 10.7, 11.2, 11.0, 11.5, none}, false, [4]float64{}, [6]float64{}, 0, 4},
		{"two pairs that share no pin", [6]float64{8.1, none, none, none, none, 14.1}, false, [4]float64{}, [6]float64{}, -2, 4},
		{"one pair", [6]float64{8.1, none, none, none, none, none}, false, [4]float64{}, [6]float64{}, -1, 2},
	} {
		f := fitLegs(&c.net, even(0.1), 0)
		reached := 0
		for i := range f.reached {
			if f.reached[i] {
				reached++
			}
			if f.found && math.Abs(f.leg[i]-c.leg[i]) > 1e-12 {
				t.Errorf("%s: leg %s is %v, want %v", c.name, pinNames[i], f.leg[i], c.leg[i])
			}
		}
		for i := range f.residual {
			if math.Abs(f.residual[i]-c.residual[i]) > 1e-12 {
				t.Errorf("%s: residual of %s is %v, want %v", c.name, pairNames[i], f.residual[i], c.residual[i])
			}
		}
		if f.found != c.found || f.spare != c.spare || reached != c.reached {
			t.Errorf("%s: found %v, %d to spare, %d reached, want %v, %d, %d", c.name, f.found, f.spare, reached, c.found, c.spare, c.reached)
		}
	}
}

// By hand, six readings with u each: var r = (3·(1/3)² + 3·(1/6)²) u² = 5/12 u², for
// r_A = (R_AB + R_AC + R_AD)/3 − (R_BC + R_BD + R_CD)/6; a residual is (I − H) y with
// h = 2/3, so its variance is u²/3; the leads enter each leg with one half.
func TestLegUncertaintyByHand(t *testing.T) {
	net := pairsOf([4]float64{3.9, 4.2, 6.8, 7.3})
	f := fitLegs(&net, even(0.2), 0)
	g := fitLegs(&net, even(0), 0.2)
	for i := range 4 {
		if math.Abs(f.u[i]-0.2*math.Sqrt(5.0/12)) > 1e-12 || math.Abs(g.u[i]-0.1) > 1e-12 {
			t.Errorf("leg %d: u %v and %v", i, f.u[i], g.u[i])
		}
	}
	for i := range 6 {
		if math.Abs(f.residualU[i]-0.2/math.Sqrt(3)) > 1e-12 || math.Abs(g.residualU[i]) > 1e-12 {
			t.Errorf("pair %d: residual u %v and %v", i, f.residualU[i], g.residualU[i])
		}
	}
}

// TestLegUncertaintyAgainstDraws: legs and residuals scatter as their u say, also with
// pairs missing and readings of unequal quality.
func TestLegUncertaintyAgainstDraws(t *testing.T) {
	random := rand.New(rand.NewPCG(41, 42))
	u := [6]float64{0.1, 0.3, 0.2, 0.15, 0.25, 0.05}
	for _, missing := range []int{-1, 0, 4} {
		truth := pairsOf([4]float64{3.9, 4.2, 6.8, 7.3})
		var legs [4]float64
		var residuals [6]float64
		var f legFit
		const draws = 40000
		for range draws {
			net, lead := truth, 0.2*random.NormFloat64()
			for i := range net {
				net[i] += u[i]*random.NormFloat64() + lead
			}
			if missing >= 0 {
				net[missing] = none
			}
			f = fitLegs(&net, &u, 0.2)
			for i, leg := range [4]float64{3.9, 4.2, 6.8, 7.3} {
				legs[i] += math.Pow(f.leg[i]-leg, 2) / draws
			}
			for i := range residuals {
				residuals[i] += f.residual[i] * f.residual[i] / draws
			}
		}
		for i := range legs {
			if got := math.Sqrt(legs[i]); math.Abs(got-f.u[i]) > 0.02*f.u[i] {
				t.Errorf("without %d: leg %d scatters by %v, u is %v", missing, i, got, f.u[i])
			}
		}
		for i := range residuals {
			if got := math.Sqrt(residuals[i]); math.Abs(got-f.residualU[i]) > 0.02*f.residualU[i]+1e-12 {
				t.Errorf("without %d: residual %d scatters by %v, u is %v", missing, i, got, f.residualU[i])
			}
		}
	}
}

// TestAnyLegsComeBack: what legs are put in comes out, whatever three or more pairs with
// a triangle are measured.
func TestAnyLegsComeBack(t *testing.T) {
	random := rand.New(rand.NewPCG(43, 44))
	for range 2000 {
		legs := [4]float64{10 * random.Float64(), 10 * random.Float64(), 10 * random.Float64(), 10 * random.Float64()}
		net := pairsOf(legs)
		keep := random.IntN(64)
		for i := range net {
			if keep>>i&1 == 0 {
				net[i] = none
			}
		}
		f := fitLegs(&net, even(0.1), 0.1)
		triangle := keep&0b001011 == 0b001011 || keep&0b010101 == 0b010101 || keep&0b100110 == 0b100110 || keep&0b111000 == 0b111000
		if f.found != triangle && keep != 0 {
			t.Errorf("pairs %06b: found %v, a triangle %v", keep, f.found, triangle)
		}
		for i := range legs {
			if f.found && f.reached[i] && math.Abs(f.leg[i]-legs[i]) > 1e-9 {
				t.Errorf("pairs %06b: leg %d is %v, want %v", keep, i, f.leg[i], legs[i])
			}
		}
	}
}

func TestOpenLegs(t *testing.T) {
	all := [6]bool{true, true, true, true, true, true}
	for _, c := range []struct {
		name        string
		given, over [6]bool
		want        uint8
		found       bool
	}{
		{"nothing open", all, [6]bool{}, 0, true},
		{"trade brief, case 4: every pair of leg 2, here A, is open", all, [6]bool{true, true, true, false, false, false}, 0b0001, true},
		{"A and B broken: C–D alone is left", all, [6]bool{true, true, true, true, true, false}, 0b0011, true},
		{"all open: any three legs", all, all, 0, true},
		{"one pair alone cannot be open", all, [6]bool{true, false, false, false, false, false}, 15, false},
		{"the four pairs across open: no leg explains it", all, [6]bool{false, true, true, true, true, false}, 15, false},
		{"A–B alone measured and open: A or B", [6]bool{true, false, false, false, false, false}, [6]bool{true, false, false, false, false, false}, 0, true},
		{"A–B open, A–C whole: B", [6]bool{true, true, false, false, false, false}, [6]bool{true, false, false, false, false, false}, 0b0010, true},
		{"A–B and A–C open, no other measured: A, or B and C", [6]bool{true, true, false, false, false, false}, [6]bool{true, true, false, false, false, false}, 0, true},
		{"the same with B–C whole: A", [6]bool{true, true, false, true, false, false}, [6]bool{true, true, false, false, false, false}, 0b0001, true},
	} {
		if sure, found := openLegs(&c.given, &c.over); sure != c.want || found != c.found {
			t.Errorf("%s: got %04b, %v, want %04b, %v", c.name, sure, found, c.want, c.found)
		}
	}
	// Every set of one or two broken legs is told from six readings.
	for mask := uint8(1); mask < 15; mask++ {
		var over [6]bool
		whole := 0
		for i, ends := range pairEnds {
			over[i] = mask&(1<<ends[0]|1<<ends[1]) != 0
			if !over[i] {
				whole++
			}
		}
		if sure, found := openLegs(&all, &over); whole > 0 && (!found || sure != mask) {
			t.Errorf("legs %04b broken: got %04b", mask, sure)
		}
	}
}
