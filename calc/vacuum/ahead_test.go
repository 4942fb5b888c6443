package vacuum_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"runtime"
	"slices"
	"strconv"
	"testing"

	"blankoff/calc/declare"
	"blankoff/calc/vacuum"
)

// running is a log that goes on.
type running struct {
	chamber
	meter
	random   *rand.Rand
	interval float64 // min
	log      string
	readings int
}

// read takes one more reading; false says that the gauge no longer reads true.
func (r *running) read() bool {
	at := float64(r.readings) * r.interval
	shown := r.shown(r.at(at)*(1+r.warming/293*at/10), r.interval, r.random)
	shown = math.Max(0, r.step*math.Round(shown/r.step))
	r.log += strconv.FormatFloat(60*at, 'f', 1, 64) + "," + strconv.FormatFloat(shown, 'f', 1, 64) + "\n"
	r.readings++
	return shown <= ceiling
}

func (r *running) ask() declare.Answer {
	return riseLog.Answer(declare.Request{ID: "rise-log", In: []declare.Pair{{Name: "log", Text: r.log}, {Name: "volume", Text: figures(r.volume) + " L"},
		{Name: "limit", Text: figures(r.limit) + " mTorr/min"}, {Name: "gauge", Text: figures(r.accuracy) + " %"}, {Name: "step", Text: figures(r.step) + " mTorr"}}})
}

// promise is what an open log said: how much longer, or that no longer log is likely to decide.
type promise struct {
	more, waited float64 // min; waited is infinite where it was never decided
	stands       string
}

// asked is after how many readings the promises are written down.
var asked = []int{8, 10, 13, 17, 22, 30}

// runOn reads until the verdict is sure, the gauge no longer reads true, or ninety readings are taken.
func runOn(r *running) (promises []promise) {
	waited := math.Inf(1)
	var at []float64
	for going := true; going && r.readings < 90; going = r.read() {
		if r.readings < asked[0] {
			continue
		}
		now := float64(r.readings-1) * r.interval
		a := r.ask()
		if a.Verdict.Is != declare.CannotTell {
			waited = now
			break
		}
		if slices.Contains(asked, r.readings) {
			promises = append(promises, promise{more: outOf(a, "more").Value, stands: outOf(a, "stands").Text})
			at = append(at, now)
		}
	}
	for i := range promises {
		promises[i].waited = waited - at[i]
	}
	return promises
}

// TestAhead: chambers and meters of the study (simulated_test.go), read once or twice a minute from the closing of the valve on.
// Of the times that an open log foresees, half are long enough, and three in four are within a factor of two; where it says that
// no longer log is likely to decide, three in four never do. Other seeds were used to find the factor of riseahead.go.
func TestAhead(t *testing.T) {
	random := rand.New(rand.NewPCG(2027, 5))
	var shares []float64 // of the time foreseen
	hopeless, late := 0, 0
	for range 1500 {
		c, _ := someChamber(random)
		r := &running{chamber: c, meter: someMeter(random), random: random, interval: one(random, 1, 1, 0.5), log: inSeconds + "\n"}
		for _, p := range runOn(r) {
			switch {
			case p.more > 0:
				shares = append(shares, p.waited/p.more)
			case p.stands == "a longer log is not likely to decide":
				hopeless++
				if !math.IsInf(p.waited, 1) {
					late++
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
	t.Logf("%d times foreseen; decided after this share of it: a tenth %.2f, a quarter %.2f, half %.2f, three quarters %.2f, nine tenths %.2f", len(shares), at(0.1), at(0.25), at(0.5), at(0.75), at(0.9))
	if len(shares) < 300 || within(1) < 0.45 || within(2) < 0.7 || within(8) < 0.85 || at(0.5) < 0.75 {
		t.Errorf("of %d times foreseen %.2f were long enough, %.2f by twice, %.2f by eight times", len(shares), within(1), within(2), within(8))
	}
	if hopeless < 100 || late*4 > hopeless {
		t.Errorf("of %d logs that are not likely to decide %d did", hopeless, late)
	}
	found := fmt.Sprintf("Of %d times that it foresaw for open logs, read on until they decided, %.0f %% were long enough, %.0f %% by twice the time and %.0f %% by eight times; of %d that were not likely to decide %.0f %% did.",
		len(shares), 100*within(1), 100*within(2), 100*within(8), hopeless, 100*float64(late)/float64(hopeless))
	if said := vacuum.RiseLog.Performance[len(vacuum.RiseLog.Performance)-1]; runtime.GOARCH == "amd64" && said != found {
		t.Errorf("the declaration says\n%s\nbut the study finds\n%s", said, found)
	}
}
