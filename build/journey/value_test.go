package journey

import (
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"blankoff/build/command"
)

// TestTriageTakesValues: what is typed gets the unit that stands beside it, below zero and with an accuracy too, and the
// question leads to the calculator that answers it.
func TestTriageTakesValues(t *testing.T) {
	t.Parallel()
	content, site := t.TempDir(), filepath.Join(t.TempDir(), "site")
	must(t, os.CopyFS(content, os.DirFS("../../content")))
	path := filepath.Join(content, "triage.yaml")
	text, err := os.ReadFile(path)
	must(t, err)
	changed := strings.NewReplacer(
		"\ncauses:\n", "  trap-shows:\n    ask: What does the trap show?\n    from: thermocouple/temperature\n    kind: temperature\n    unit: °C\n    cuts: [-28 °C, -15 °C]\n    usual: {middle: -34 °C, spread: 2 K}\n"+
			"  inlet:\n    ask: What does the inlet show?\n    kind: pressure\n    unit: mTorr\n    cuts: [100 mTorr]\n    usual: {middle: 50 mTorr, factor: 2}\n\ncauses:\n",
		"    title: The sealed cooling circuit has lost charge or strength\n    group: cold trap\n    weight: 2.5\n    shows:\n",
		"    title: The sealed cooling circuit has lost charge or strength\n    group: cold trap\n    weight: 2.5\n    shows:\n      trap-shows: {middle: -15 °C, spread: 5 K}\n      inlet: {middle: 90 mTorr, factor: 2}\n",
		"tells: [trap-warm, ice-ratio]", "tells: [trap-warm, ice-ratio, trap-shows, inlet]",
	).Replace(string(text))
	must(t, os.WriteFile(path, []byte(changed), 0o666))
	var out, wrong strings.Builder
	if code := command.Run([]string{"publish", content, "--out", site}, &out, &wrong); code != 0 {
		t.Fatal(out.String(), wrong.String())
	}
	h := serve(t, filesOf(t, site))
	b := phone(t)
	for _, c := range []struct{ finding, typed, said string }{
		{"trap-shows", "-28", "-28 °C"},
		{"trap-shows", "-28 ± 1", "-28 ± 1 °C"},
		{"trap-shows", "−28,5 +/- 1", "−28,5 +/- 1 °C"},
		{"trap-shows", "4 °F", "4 °F"},
		{"inlet", "350", "350 mTorr"},
		{"inlet", "350 ± 10 %", "350 mTorr ± 10 %"},
		{"inlet", "0.35 ± 0.1 Torr", "0.35 ± 0.1 Torr"},
		{"inlet", "0.35 Torr", "0.35 Torr"},
		{"gauge-ratio", "4.5 ± 20 %", "4.5 ± 20 %"},
	} {
		must(t, b.Open(h.address+"record/"))
		must(t, b.Open(h.address+"triage/#who=technician&clear=yes&edit="+c.finding))
		if shown := now(t, b); shown.Finding != c.finding {
			t.Fatalf("asked is %q, not %q", shown.Finding, c.finding)
		}
		say(t, b, c.finding, c.typed)
		if shown := now(t, b); !strings.Contains(strings.ReplaceAll(shown.Given, "\u00a0", " "), c.said) || shown.Fault != "" {
			t.Errorf("%s: after %q the page holds %q, want %q; %s", c.finding, c.typed, shown.Given, c.said, shown.Fault)
		}
		var address string
		must(t, b.Script(&address, "return location.hash"))
		if said, err := url.QueryUnescape(strings.ReplaceAll(address, "+", "%2B")); err != nil || !strings.Contains(said, c.finding+":"+c.said) {
			t.Errorf("the address holds %q", said)
		}
	}
	must(t, b.Open(h.address+"record/"))
	must(t, b.Open(h.address+"triage/#who=technician&clear=yes&edit=gauge-ratio"))
	now(t, b)
	picture(t, b, "triage value with its calculator")
	follow(t, b, ".now .sources a", "calculators/gauge-compare/")
	wantQuietConsole(t, b)
}
