package pumping

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"blankoff/calc/declare"
)

// course is the pressure of a machine while it is pumped, mTorr by minutes: its times at many pressures, straight in ln p between.
func course(m machine, load Load) func(minutes float64) float64 {
	const rows = 400
	_, floor := m.line().For(load.Leak)
	ends, times := make([]float64, rows), make([]float64, rows)
	for i := range ends {
		ends[i] = 101325 * math.Pow(floor*1.001/101325, float64(i)/(rows-1))
	}
	copy(times, ends)
	reached := m.line().Times(m.volume, load, 101325, times)
	return func(minutes float64) float64 {
		i, _ := slices.BinarySearch(times[:reached], 60*minutes)
		i = max(1, min(i, reached-1))
		part := (60*minutes - times[i-1]) / (times[i] - times[i-1])
		return ends[i-1] * math.Pow(ends[i]/ends[i-1], part) / mTorr
	}
}

// pumped is a log that goes on, beside the curve of the sound machine.
type pumped struct {
	at               func(minutes float64) float64
	curve, log       string
	gauge, off, late float64 // accuracy in per cent, error as a factor, min by which the clock was started late
	random           *rand.Rand
	now              float64 // min
}

func (p *pumped) read() {
	p.now += 0.5
	if p.now > 5 {
		p.now += 0.5
	}
	shown := math.Round(p.at(p.now+p.late) * p.off * (1 + 0.005*p.random.NormFloat64()))
	p.log += fmt.Sprintf("\n%g,%g", p.now, shown)
}

// somePumped: one of three machines with the loads of TestStoredCurves, sound or with up to forty times the leak.
func somePumped(random *rand.Rand) *pumped {
	i := random.IntN(3)
	leak, wall := []float64{0.006, 0.006, 0.004}[i], []float64{0.4, 0.6, 0.25}[i]
	sound := course(machines[i], Load{Leak: leak / 10, Outgassing: wall / 600})
	p := &pumped{curve: "time min,pressure mTorr", log: "time min,pressure mTorr", random: random, gauge: []float64{5, 10, 20}[random.IntN(3)], late: 0.1 * random.Float64()}
	for _, minute := range []float64{0.5, 1, 1.5, 2, 3, 5, 8, 12, 20, 30} {
		p.curve += fmt.Sprintf("\n%g,%.3g", minute, sound(minute))
	}
	if random.IntN(5) > 1 {
		leak *= math.Pow(40, random.Float64())
	}
	p.at = course(machines[i], Load{Leak: leak / 10, Outgassing: wall / 600 * (0.8 + 0.4*random.Float64())})
	p.off = 1 + p.gauge/200*random.NormFloat64()
	return p
}

// TestAhead: of the times that an open log foresees, four in five are long enough, and half to the minute; where it says that no
// longer log is likely to decide, two in three never do within the half hour.
func TestAhead(t *testing.T) {
	random := rand.New(rand.NewPCG(2027, 6))
	log := PumpDownLog.Prepare()
	var shares []float64
	hopeless, decidedAllTheSame := 0, 0
	for range 400 {
		p := somePumped(random)
		type promise struct {
			at, more float64
			hopeless bool
		}
		var all []promise
		decided := math.Inf(1)
		for p.now < 30 && math.IsInf(decided, 1) {
			p.read()
			a := log.Answer(declare.Request{ID: "pump-down-log", In: []declare.Pair{{Name: "log", Text: p.log}, {Name: "volume", Text: fmt.Sprintf("%g L", 1000*machines[0].volume)},
				{Name: "expected", Text: p.curve}, {Name: "gauge", Text: fmt.Sprintf("%g %%", p.gauge)}}})
			if a.Fault != nil {
				t.Fatalf("%+v\n%s", a.Fault, p.log)
			}
			said := promise{at: p.now}
			for _, out := range a.Out {
				switch out.ID {
				case "more":
					said.more = out.Value
				case "stands":
					said.hopeless = strings.Contains(out.Text, "not likely")
				}
			}
			if a.Verdict.Is != declare.CannotTell {
				decided = p.now
			} else if n := strings.Count(p.log, "\n"); n%4 == 0 {
				all = append(all, said)
			}
		}
		for _, said := range all {
			switch {
			case said.more > 0:
				shares = append(shares, (decided-said.at)/said.more)
			case said.hopeless:
				hopeless++
				if !math.IsInf(decided, 1) {
					decidedAllTheSame++
				}
			}
		}
	}
	slices.Sort(shares)
	at := func(share float64) float64 { return shares[int(share*float64(len(shares)-1))] }
	within := func(times float64) float64 {
		n, _ := slices.BinarySearch(shares, times*(1+1e-9))
		return float64(n) / float64(len(shares))
	}
	t.Logf("%d times foreseen; decided after this share of it: a tenth %.2f, a quarter %.2f, half %.2f, three quarters %.2f; long enough %.2f, by twice %.2f; %d not likely, %d did",
		len(shares), at(0.1), at(0.25), at(0.5), at(0.75), within(1), within(2), hopeless, decidedAllTheSame)
	if len(shares) < 300 || within(1) < 0.8 || within(0.9) > 0.4 {
		t.Error("the times foreseen are not what they promise")
	}
	if hopeless < 50 || decidedAllTheSame*3 > hopeless {
		t.Errorf("of %d logs that are not likely to decide %d did", hopeless, decidedAllTheSame)
	}
}
