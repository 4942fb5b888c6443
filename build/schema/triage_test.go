package schema

import (
	"math/rand/v2"
	"os"
	"regexp"
	"strings"
	"testing"

	"github.com/goccy/go-yaml"

	"blankoff/build/fault"
	"blankoff/build/source"
)

const goodTriage = `unlisted: 1
proof: 15 min
costs: {part: 1 h 30 min}
hand-over: {customer: 3 h, technician: 12 h}
rule-outs:
  smoke: {ask: Is there smoke?, do: Leave., stop: electrical}
findings:
  hiss: {ask: Is there a hiss?, called: the hiss, answers: {yes: There is., no: There is none.}, usual: {yes: 3 %, no: 97 %}}
  shape: {ask: How does it climb?, from: rise-log, usual: {straight: 4 %, bending: 4 %, within: 92 %}}
  size: {ask: How far over the limit?, kind: ratio, cuts: [3, 30], usual: {middle: 1.6, factor: 1.5}, when: {shape: [straight, bending]}}
  trap: {ask: How cold is the trap?, kind: temperature, unit: °C, cuts: [-30 °C, -10 °C], usual: {middle: -34 °C, spread: 2 K}}
causes:
  seal: {title: A crumb, group: door, weight: 9, shows: {hiss: 40 %, shape: {straight: 85 %, bending: 5 %}, size: {middle: 8, factor: 4}}}
  water: {title: Water left, group: load, weight: "9.5", shows: {shape: {straight: 5 %, within: 15 %}, size: {middle: 3, factor: 2}}}
  charge: {title: Charge lost, group: cold, weight: 2.5, shows: {trap: {middle: -20 °C, spread: 5 K}}}
pairs:
  - {causes: [seal, water], weight: 0.5}
tests:
  listen: {title: Listen, guide: pages/listen, time: 3 min, who: [customer, technician], tells: [hiss]}
  rise: {title: Rise test, guide: pages/rise, time: 30 min, who: [technician], tools: [watch], needs: [listen], tells: [shape, size]}
  touch: {title: Trap, guide: pages/trap, time: 2 min, who: [technician], tells: [trap]}
repairs:
  wipe: {title: Wipe it, do: Wipe it once., time: 10 min, who: [customer, technician], cures: {seal: 95 %}}
  dry: {title: Dry it, do: Dry it., time: 30 min, who: [technician], cures: {water: 90 %}}
  call: {title: Call, do: Call., time: 30 min, cost: part, who: [technician], cures: {charge: 90 %}, stop: refrigeration}
`

// modelFaults is what verify says of a fault model by itself.
func modelFaults(text string) []source.Fault {
	file := &source.File{Name: "content/triage.yaml", Path: "triage.yaml", Text: text}
	mapping, faults := source.ParseMapping(file, file.Span(0, len(text)))
	if mapping == nil {
		return faults
	}
	_, more := fault.Read(file, mapping)
	return append(faults, more...)
}

func TestTriageOfOurContent(t *testing.T) {
	text, err := os.ReadFile("../../content/triage.yaml")
	if err != nil {
		t.Fatal(err)
	}
	if err := compiled(t)["triage"].Validate(decoded(t, string(text))); err != nil {
		t.Error(err)
	}
}

// TestTriageSameAsVerify: what the schema refuses, verify refuses too; and these it refuses, or takes.
func TestTriageSameAsVerify(t *testing.T) {
	schema := compiled(t)["triage"]
	for _, c := range []struct {
		name, old, new string
		good           bool
	}{
		{"as it is", "", "", true},
		{"other spellings", "time: 3 min", "time: 0.05h", true},
		{"a time in two units", "time: 30 min", "time: 1h30", true},
		{"percent in words", "hiss: 40 %", "hiss: 40 percent", true},
		{"keys with nothing behind them", "cost: part, ", "cost: , tools: , needs: , guide: , ", true},
		{"no pairs", "pairs:\n  - {causes: [seal, water], weight: 0.5}\n", "pairs:\n", true},
		{"a result", "from: rise-log,", "from: rise-log/shape,", true},
		{"a number for a title", "title: A crumb", "title: 12", true},

		{"a key", "unlisted: 1", "unlisted: 1\nextra: 1", false},
		{"a key of a finding", "called:", "named:", false},
		{"no tests", "tests:\n", "tests:\nothers:\n", false},
		{"no question", "ask: Is there a hiss?, ", "", false},
		{"a weight of nothing", "weight: 9,", "weight: 0,", false},
		{"a weight in words", "weight: 9,", "weight: yes,", false},
		{"a share without its sign", "hiss: 40 %", "hiss: 0.4", false},
		{"a time without its unit", "time: 3 min", "time: 3", false},
		{"a time of another kind", "time: 3 min", "time: 3 mTorr", false},
		{"a reader", "{customer: 3 h, technician: 12 h}", "{customer: 3 h, owner: 12 h}", false},
		{"one reader only", "customer: 3 h, technician", "technician", false},
		{"somebody else", "who: [technician], tools", "who: [owner], tools", false},
		{"nobody", "who: [technician], tools", "who: [], tools", false},
		{"told twice", "tells: [trap]", "tells: [trap, trap]", false},
		{"one answer", "{yes: 3 %, no: 97 %}", "{yes: 100 %}", false},
		{"nine answers", "{yes: 3 %, no: 97 %}", "{yes: 3 %, a: 0 %, b: 0 %, c: 0 %, d: 0 %, e: 0 %, f: 0 %, g: 0 %, no: 97 %}", false},
		{"an answer that means none", "{yes: 3 %, no: 97 %}", "{yes: 3 %, unknown: 97 %}", false},
		{"a finding that a request has", "  hiss: {ask", "  who: {ask", false},
		{"a step that means none", "  touch: {title", "  hand-over: {title", false},
		{"a cause that means none", "  charge: {title", "  unlisted: {title", false},
		{"a name with a capital", "  touch: {title", "  Touch: {title", false},
		{"a kind", "kind: temperature", "kind: warmth", false},
		{"a value without cuts", "cuts: [3, 30], ", "", false},
		{"a value with answers", "kind: ratio,", "kind: ratio, answers: {yes: Yes.},", false},
		{"a choice with a unit", "called: the hiss", "unit: Pa", false},
		{"a value that has shares", "usual: {middle: 1.6, factor: 1.5}", "usual: {yes: 5 %, no: 95 %}", false},
		{"two spreads", "spread: 2 K", "spread: 2 K, factor: 2", false},
		{"no spread", ", spread: 2 K", "", false},
		{"a factor below 1", "factor: 1.5", "factor: 0.5", false},
		{"a calculator", "from: rise-log", "from: rise-logs", false},
		{"a result of nobody", "from: rise-log", "from: rise-log/speed", false},
		{"a pair of three", "[seal, water], weight", "[seal, water, charge], weight", false},
		{"a pair of itself", "[seal, water], weight", "[seal, seal], weight", false},
		{"causes as a list", "causes:\n  seal: {", "causes:\n  - {", false},
	} {
		t.Run(c.name, func(t *testing.T) {
			text := strings.Replace(goodTriage, c.old, c.new, 1)
			if text == goodTriage && c.old != "" {
				t.Fatalf("there is no %q", c.old)
			}
			var out any
			if yaml.Unmarshal([]byte(text), &out) == nil {
				if err := schema.Validate(decoded(t, text)); (err == nil) != c.good {
					t.Errorf("the schema says: %v", err)
				}
			}
			if faults := modelFaults(text); (len(faults) == 0) != c.good {
				t.Errorf("verify says: %+v", faults)
			}
		})
	}
}

// TestTriageNeverStricterThanVerify: of random edits the schema takes all that verify takes.
func TestTriageNeverStricterThanVerify(t *testing.T) {
	schema, random := compiled(t)["triage"], rand.New(rand.NewPCG(3, 7))
	token := regexp.MustCompile(`[A-Za-z0-9.%°-]+`)
	by := append(token.FindAllString(goodTriage, -1), "0", "1e3", "100", "½", "0,5", "2 h", "90 s", "5 %", "20 percent", "null", "~", `""`, "'7'", "[]", "{}", "yes", "K", "Pa")
	taken, refused := 0, 0
	for range 1200 {
		text := goodTriage
		for range 1 + random.IntN(2) {
			places := token.FindAllStringIndex(text, -1)
			place := places[random.IntN(len(places))]
			text = text[:place[0]] + by[random.IntN(len(by))] + text[place[1]:]
		}
		if len(modelFaults(text)) > 0 {
			refused++
			continue
		}
		taken++
		if err := schema.Validate(decoded(t, text)); err != nil {
			t.Errorf("verify takes it, the schema says %v\n%s", err, text)
		}
	}
	if taken < 100 || refused < 100 {
		t.Errorf("%d taken, %d refused: the edits are no test", taken, refused)
	}
}
