package journey

import (
	"fmt"
	"slices"
	"testing"
)

// TestTriageOnASlowPhone: on a phone of a quarter of the speed each tap of the six jobs brings a new belief too. It tells how
// long that takes, and until it is to be seen.
func TestTriageOnASlowPhone(t *testing.T) {
	h := serve(t, filesOf(t, publish(t)))
	b := phone(t)
	for _, slower := range []int{1, 4} {
		must(t, b.Slow(slower))
		var all []pause
		for _, s := range services {
			must(t, b.Open(h.address+"record/"))
			must(t, b.Open(h.address+"triage/#who="+s.who+"&clear=yes"))
			all = append(all, paced(t, b, s)...)
		}
		if len(all) < 3*len(services) {
			t.Errorf("slowed down by %d, only %d answers were taken", slower, len(all))
		}
		t.Logf("slowed down by %d, %d answers: from the tap to the new belief %s, until it is to be seen %s", slower, len(all),
			spread(all, func(p pause) float64 { return p.Known }), spread(all, func(p pause) float64 { return p.Seen }))
	}
}

// pause is how long a reader waits after a tap, in ms: until the page holds the new belief, and until the frame with it is drawn.
type pause struct{ Known, Seen float64 }

func spread(all []pause, of func(pause) float64) string {
	var ms []float64
	for _, p := range all {
		ms = append(ms, of(p))
	}
	slices.Sort(ms)
	return fmt.Sprintf("%.1f ms (median; nine of ten %.1f, at most %.1f)", ms[len(ms)/2], ms[len(ms)*9/10], ms[len(ms)-1])
}

// paced answers what is asked until the repair that ends the job is offered.
func paced(t *testing.T, b *Browser, s service) (all []pause) {
	t.Helper()
	for len(all) < 40 {
		shown := now(t, b)
		switch {
		case shown.Finding != "":
			all = append(all, timed(t, b, s.told[shown.Finding]))
		case slices.Contains(s.repairs, shown.Step) || shown.Step == "":
			return all
		default:
			all = append(all, timed(t, b, ""))
		}
	}
	t.Fatalf("%s does not end", s.name)
	return nil
}

// timed gives an answer, or says that it is unknown or did not help, from within the page: a tap of the driver takes longer than
// what is to be timed.
func timed(t *testing.T, b *Browser, answer string) (p pause) {
	t.Helper()
	must(t, b.Script(nil, `
		const [answer] = arguments;
		const find = (css) => document.querySelector(".now " + css);
		const entry = answer && find(".value-of input");
		if (entry) entry.value = answer;
		const key = entry ? find(".value-of button:not([type])") : answer ? find("[value=" + answer + "]") : find(".unknown") ?? find(".no-help") ?? find(".answers button");
		const begun = performance.now();
		window.pause = { Known: 0, Seen: 0 };
		new MutationObserver((_, watch) => {
			watch.disconnect();
			window.pause.Known = performance.now() - begun;
			requestAnimationFrame(() => setTimeout(() => (window.pause.Seen = performance.now() - begun)));
		}).observe(document.querySelector(".belief"), { childList: true, subtree: true });
		key.click();`, answer))
	must(t, b.Until("the new belief is to be seen", func() (bool, error) {
		err := b.Script(&p, "return window.pause")
		return p.Seen > 0, err
	}))
	return p
}
