package journey

import (
	"strings"
	"testing"
)

// reader is one walk: what the acts of it share.
type reader struct {
	*Browser
	host *host
}

// acts are what a reader does from the first look to the next step without a network, in order. Each begins where the one before ended.
var acts = []struct {
	name string
	do   func(t *testing.T, r reader)
}{
	{"find a symptom", func(t *testing.T, r reader) {
		must(t, r.Open(r.host.address))
		wantDressed(t, r.Browser)
		follow(t, r.Browser, "main #symptoms a", "symptoms/never-reaches-pressure/")
	}},
	{"follow it to a procedure", func(t *testing.T, r reader) {
		follow(t, r.Browser, "main a", risePage)
		tap(t, r.Browser, "#step-1 .tick input")
		var ticked bool
		must(t, r.Script(&ticked, `return document.querySelector("#step-1 .tick input").checked`))
		if !ticked {
			t.Error("a tap on the box of the first step does not tick it")
		}
	}},
	{"enter a rise", func(t *testing.T, r reader) { calculate(t, r.Browser, "rise-log", bentRise) }},
	{"choose units", func(t *testing.T, r reader) {
		must(t, r.Reload())
		written := quantitiesOf(t, r.Browser)
		openUnits(t, r.Browser)
		takeUnits(t, r.Browser, "SI")
		wantUnits(t, r.Browser, written, inSI)
		must(t, r.Reload())
		wantUnits(t, r.Browser, written, inSI)
	}},
	{"lose the network", func(t *testing.T, r reader) {
		r.untilText(t, "p.saved[data-saved=ready]", "Works offline")
		r.host.stop()
		must(t, r.Reload())
		r.untilText(t, "p.saved[data-saved=ready]", "Works offline")
		wantDressed(t, r.Browser)
	}},
	{"walk on by the thumb bar", func(t *testing.T, r reader) {
		for _, section := range []string{"symptoms", "procedures", "machines", "record"} {
			follow(t, r.Browser, "nav.thumb a", section+"/")
		}
	}},
	{"calculate again", func(t *testing.T, r reader) {
		walkTo(t, r.Browser, "rise-log")
		calculate(t, r.Browser, "rise-log", bentRise)
	}},
	{"answer a question of the triage", func(t *testing.T, r reader) {
		follow(t, r.Browser, "header a", "")
		follow(t, r.Browser, "main #begin a", "triage/")
		tap(t, r.Browser, ".answers .none")
		must(t, r.Until("it asks a question", func() (bool, error) { return now(t, r.Browser).Finding != "", nil }))
		tap(t, r.Browser, ".now .unknown")
		must(t, r.Until("it has taken the answer", func() (bool, error) {
			return strings.HasPrefix(now(t, r.Browser).Progress, "1 answered"), nil
		}))
	}},
}

// bentRise are readings of a chamber whose walls still give off water, invented, as a person types them.
var bentRise = []entry{
	{field: "log", typed: bentLog, means: bentLog},
	{field: "volume", typed: "24", unit: "L", means: "24 L"},
	{field: "limit", typed: "0.02", unit: "mbar·L/s", means: "0.02 mbar·L/s"},
}

var bentLog = strings.Join([]string{"time min,pressure mTorr", "2,260", "3,360", "4,442", "5,508", "6,562", "7,605", "8,641", "9,669", "10,693"}, "\n")

var inSI = map[string]string{"150 mTorr": "20.0 Pa", "2,000 mTorr": "267 Pa", "20 mTorr/min": "2.7 Pa/min"}

// TestReader is one journey in three engines.
func TestReader(t *testing.T) {
	inEachEngine(t, func(t *testing.T, b *Browser) {
		r := reader{b, serve(t, filesOf(t, publish(t)))}
		for _, act := range acts {
			if !t.Run(act.name, func(t *testing.T) { act.do(t, r) }) {
				t.Fatal("the walk ends here: the next acts would only wait in vain")
			}
			picture(t, b, t.Name()+" "+act.name)
		}
	})
}
