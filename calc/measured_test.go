package calc_test

import (
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"blankoff/calc"
	"blankoff/calc/declare"
)

// randomProbe is a probe compared with a reference near its allowed error, as often
// decided as not.
func randomProbe(random *rand.Rand) declare.Request {
	kelvins := func(low, high float64) string { return " ± " + text(draw(random, low, high), "K") }
	at := draw(random, -55, 60)
	shown := at + draw(random, -4, 4)
	in := pairs("reference", text(at, "°C")+kelvins(0.05, 1), "allowed", text(draw(random, 0.3, 3), "K"))
	switch random.IntN(3) {
	case 0:
		kind := string("KTJEN"[random.IntN(5)])
		in = append(in, pairs("type", kind, "cold", text(draw(random, 10, 35), "°C")+kelvins(0.1, 2))...)
		mV := expectedAt(declare.Request{ID: "thermocouple", In: in}, shown)
		return declare.Request{ID: "thermocouple", In: append(in, pairs("reading", text(mV*1000, "mV")+" ± "+text(draw(random, 0.002, 0.1), "mV"))...)}
	case 1:
		ohms := expectedAt(declare.Request{ID: "rtd", In: in}, shown)
		return declare.Request{ID: "rtd", In: append(in, pairs("reading", text(ohms, "Ω")+" ± "+text(draw(random, 0.01, 0.6), "Ω"))...)}
	}
	in = append(in, pairs("r25", "10 kΩ ± 0.5 %", "beta", "3740 K ± 0.5 %")...)
	ohms := expectedAt(declare.Request{ID: "thermistor", In: in}, shown)
	return declare.Request{ID: "thermistor", In: append(in, pairs("reading", text(ohms, "Ω")+" ± "+text(ohms*draw(random, 0.001, 0.05), "Ω"))...)}
}

// expectedAt is what a probe should show at a temperature, in V or Ω.
func expectedAt(r declare.Request, celsius float64) float64 {
	for _, g := range calc.Answer(with(r, "reference", text(celsius, "°C"))).Out {
		if g.ID == "expected" {
			return g.SI
		}
	}
	panic(r.ID + " expects nothing")
}

// randomThread is a thread of the list, measured as well or as badly as people do.
func randomThread(random *rand.Rand) declare.Request {
	sizes := [][2]float64{{10.287, 27}, {9.728, 28}, {13.716, 18}, {13.157, 19}, {17.145, 18}, {16.662, 19}, {21.336, 14}, {20.955, 14}, {33.249, 11}, {33.401, 11.5}}
	size := sizes[random.IntN(len(sizes))]
	in := pairs("diameter", text(size[0]+0.12*random.NormFloat64(), "mm")+" ± "+text(draw(random, 0.01, 0.4), "mm"), "taper", []string{"yes", "no", "unknown"}[random.IntN(3)],
		"angle", []string{"55", "60", "unknown", "unknown"}[random.IntN(4)], "part", "male")
	count := size[1] + 0.2*random.NormFloat64()
	switch random.IntN(3) {
	case 0:
		in = append(in, pairs("pitch", text(count, "TPI")+" ± "+text(draw(random, 0.05, 0.6), "TPI"))...)
	case 1:
		in = append(in, pairs("pitch", text(25.4/count, "mm")+" ± "+text(draw(random, 0.003, 0.03), "mm"))...)
	}
	return declare.Request{ID: "thread", In: in}
}

func randomHexagon(random *rand.Rand) declare.Request {
	return declare.Request{ID: "length", In: pairs("shape", "hexagon", "size", text(draw(random, 7, 30), "mm")+" ± "+text(draw(random, 0.005, 0.3), "mm"))}
}

// better makes every ± of a request smaller by a share.
func better(r declare.Request, share float64) declare.Request {
	r.In = append([]declare.Pair(nil), r.In...)
	for i, pair := range r.In {
		value, accuracy, found := strings.Cut(pair.Text, " ± ")
		if !found {
			continue
		}
		number, unit, _ := strings.Cut(accuracy, " ")
		x, _ := strconv.ParseFloat(number, 64)
		r.In[i].Text = value + " ± " + text(x*share, unit)
	}
	return r
}

// TestProbesAndFittingsBetterMeasured: less uncertainty settles doubts, reverses nothing,
// and a doubt says what settles it; the units change nothing.
func TestProbesAndFittingsBetterMeasured(t *testing.T) {
	random := rand.New(rand.NewPCG(31, 32))
	verdicts, settled := map[string]int{}, 0
	for k := range 2400 {
		base := []func(*rand.Rand) declare.Request{randomProbe, randomProbe, randomThread, randomHexagon}[k%4](random)
		first := mustAnswer(t, base)
		before := first.Verdict
		verdicts[base.ID+" "+before.Is]++
		other := inOtherUnits(calc.Find(base.ID), base, random)
		if b := mustAnswer(t, other); b.Verdict.Is != before.Is {
			t.Errorf("%v gives %q, but %v gives %q", base.In, before.Is, other.In, b.Verdict.Is)
		}
		for _, share := range []float64{0.6, 0.2, 0.03, 0} {
			now := mustAnswer(t, better(base, share)).Verdict
			if before.Is != now.Is && before.Is != declare.CannotTell {
				t.Errorf("%v: %q becomes %q at %v of the uncertainty: %s", base.In, before.Is, now.Is, share, now.Text)
			}
			if before.Is == declare.CannotTell && now.Is != before.Is {
				settled++
			}
			if now.Is == declare.CannotTell && !strings.Contains(now.Text, "would settle it") && !strings.Contains(now.Text, "on the limit itself") {
				t.Errorf("%v: the doubt is not settled by anything: %s", base.In, now.Text)
			}
			before = now
		}
	}
	if settled < 200 {
		t.Errorf("only %d doubts were settled", settled)
	}
	for _, id := range []string{"thermocouple", "rtd", "thermistor", "thread", "length"} {
		for _, is := range []string{declare.Pass, declare.Fail, declare.CannotTell} {
			if verdicts[id+" "+is] < 20 {
				t.Errorf("only %d cases of %s %s: the comparison says little", verdicts[id+" "+is], id, is)
			}
		}
	}
}

// TestWhatSettlesADoubtDoes: a reference as good as the verdict asks for decides it.
func TestWhatSettlesADoubtDoes(t *testing.T) {
	random := rand.New(rand.NewPCG(33, 34))
	tried := 0
	for range 2000 {
		base := randomProbe(random)
		a := mustAnswer(t, base)
		_, after, found := strings.Cut(a.Verdict.Text, "A reference good to ± ")
		if !found {
			continue
		}
		accuracy, _, _ := strings.Cut(after, " would")
		value, _, _ := strings.Cut(entry(base, "reference"), " ± ")
		if now := mustAnswer(t, with(base, "reference", value+" ± "+accuracy)); now.Verdict.Is == declare.CannotTell {
			t.Errorf("%v: ± %s of the reference does not settle it: %s", base.In, accuracy, now.Verdict.Text)
		}
		tried++
	}
	if tried < 100 {
		t.Errorf("only %d doubts named a reference", tried)
	}
}
