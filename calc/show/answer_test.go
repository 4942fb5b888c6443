package show

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"golang.org/x/net/html"

	"blankoff/calc"
	"blankoff/calc/declare"
)

// TestWhatIsWrittenIsReadBack: whatever stands in the texts, an HTML parser finds it in the element where it belongs, and no
// element that is none of ours.
func TestWhatIsWrittenIsReadBack(t *testing.T) {
	for _, hostile := range []string{"plain", `<script>alert("1")</script>`, `" onclick="x`, "a & b &amp; c", "'single'", "</dd></dl>", "5 ± 1 mbar", "\u00a0"} {
		a := declare.Answer{
			Verdict: declare.Verdict{Is: declare.CannotTell, Text: hostile},
			Out: []declare.Given{
				{ID: "leak", Label: hostile, HasValue: true, Value: 0.1, Text: hostile, Also: []string{hostile, hostile}},
				{ID: "rows", Label: hostile, Columns: []declare.Column{{Label: hostile, Unit: hostile}}, Rows: [][]declare.Cell{{{Text: hostile}}}},
			},
			Working: []string{hostile}, Cautions: []string{hostile},
		}
		root, err := html.Parse(strings.NewReader(Answer(&a)))
		if err != nil {
			t.Fatal(err)
		}
		want := strings.ReplaceAll(hostile, "\u00a0", " ")
		texts := map[string]string{}
		for node := range root.Descendants() {
			if node.Type == html.ElementNode {
				if !strings.Contains(" html head body p strong span dl div dt dd data details summary ol li ul table thead tbody tr th td ", " "+node.Data+" ") {
					t.Errorf("%q makes an element %s", hostile, node.Data)
				}
				for _, attr := range node.Attr {
					if strings.HasPrefix(attr.Key, "on") {
						t.Errorf("%q makes an attribute %s", hostile, attr.Key)
					}
				}
			}
			if node.Type == html.TextNode {
				texts[node.Parent.Data] += strings.ReplaceAll(node.Data, "\u00a0", " ")
			}
		}
		for element, said := range map[string]string{"strong": "Cannot tell yet", "dt": want + want, "data": want, "span": want + "= " + want + "; " + want, "th": want + ", " + want, "td": want, "li": want + want} {
			if texts[element] != said {
				t.Errorf("%q: <%s> holds %q, want %q", hostile, element, texts[element], said)
			}
		}
	}
}

// TestNumbersAreReadBack as HTML reads them: a valid floating-point number, and the one that was written.
func TestNumbersAreReadBack(t *testing.T) {
	valid := regexp.MustCompile(`^-?(\d+|\d*\.\d+)(e[-+]?\d+)?$`) // of the HTML Standard, from memory
	for x, want := range map[float64]string{
		0: "0", 1: "1", 0.02: "0.02", -28: "-28", 1.0 / 3: "0.333333333333", 15.0012336541: "15.0012336541", 1200: "1200", 1.5e-10: "1.5e-10", 2.5e22: "2.5e+22",
	} {
		got := number(x)
		if got != want || !valid.MatchString(got) {
			t.Errorf("%v is written %s, want %s", x, got, want)
		}
		if back, err := strconv.ParseFloat(got, 64); err != nil || math.Abs(back-x) > 1e-11*math.Abs(x) {
			t.Errorf("%v is written %s", x, got)
		}
	}
}

// TestRecordsAreTold: every worked example by its labels, in the order of the page.
func TestRecordsAreTold(t *testing.T) {
	for _, c := range calc.All() {
		request := declare.Request{ID: c.ID}
		for _, in := range c.Example.In {
			request.In = append(request.In, in)
		}
		a := calc.Answer(request)
		if a.Fault != nil {
			t.Fatalf("%s: %s", c.ID, a.Fault.Text)
		}
		told := Told(&a)
		i := 0
		if a.Verdict.Is != "" {
			if told[0].Name != "Verdict" || !strings.HasSuffix(told[0].Text, a.Verdict.Text) {
				t.Errorf("%s: %v", c.ID, told[0])
			}
			i++
		}
		for _, g := range a.Out {
			if told[i].Name != g.Label || g.Columns == nil && told[i].Text != g.Text || strings.Count(told[i].Text, "\n") != max(len(g.Rows)-1, 0) {
				t.Errorf("%s: %v, want %s", c.ID, told[i], g.Label)
			}
			i++
		}
		if len(a.Working) > 0 {
			if told[i].Name != "Working" || told[i].Text != strings.Join(a.Working, "\n") {
				t.Errorf("%s: %v", c.ID, told[i])
			}
			i++
		}
		if i != len(told) {
			t.Errorf("%s: %d told, want %d", c.ID, len(told), i)
		}
	}
}

// TestLinesHold: the space between a number and what follows, and around ±, does not break.
func TestLinesHold(t *testing.T) {
	for text, want := range map[string]string{
		"0.50 ± 0.10 mbar·L/s": "0.50~±~0.10~mbar·L/s", "20 %, -34 °C, 8.4 Ω": "20~%, -34~°C, 8.4~Ω", "24 L × (3 − 2)": "24~L × (3 − 2)",
		"1 2 3": "1 2 3", "3 µV": "3~µV", "a b": "a b", "5 → 6": "5 → 6", " 5": " 5", "5 ": "5 ",
	} {
		w := writer{}
		w.text(text)
		if got := strings.ReplaceAll(string(w.out), noBreak, "~"); got != want {
			t.Errorf("%q becomes %q, want %q", text, got, want)
		}
	}
}
