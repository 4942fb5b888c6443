package render

import (
	"strings"
	"testing"

	"blankoff/build/guide"
	"blankoff/build/prose"
)

func TestQuantitiesInHTML(t *testing.T) {
	for in, want := range map[string]string{
		"no number <b>":             `no number &lt;b&gt;`,
		"hold 350 mTorr, then":      `hold <data class="q" value="46.66283" data-kind="pressure" data-steps="0.1333">350 mTorr</data>, then`,
		"3 & 340 micron":            `3 &amp; <data class="q" value="45.32961" data-kind="pressure" data-steps="0.1333">340 micron</data>`,
		"-34 to -30 °C":             `<data class="q" value="239.15 243.15" data-kind="temperature" data-steps="|1| to |1|">-34 to -30 °C</data>`,
		"24.0 L ± 1.0 L":            `<data class="q" value="0.024 0.001" data-kind="volume" data-steps="|0.0001| ± |0.0001|">24.0 L ± 1.0 L</data>`,
		"28 L ± 2 %":                `<data class="q" value="0.028" data-kind="volume" data-steps="|0.001| ± 2 %">28 L ± 2 %</data>`,
		"100, 200 and 300 mTorr":    `<data class="q list" value="13.33224 26.66447 39.99671" data-kind="pressure" data-steps="|0.1333|, |0.1333| and |0.1333|">100, 200 and 300 mTorr</data>`,
		"-28 inHg gauge":            `<data class="q" value="-94818.88" data-kind="gauge pressure" data-steps="|3386| gauge">-28 inHg gauge</data>`,
		"5 psig":                    `<data class="q" value="34473.79" data-kind="gauge pressure" data-steps="|6895| gauge">5 psig</data>`,
		"within ± 2 K":              `within <data class="q" value="2" data-kind="temperature difference" data-steps="± |1|">± 2 K</data>`,
		"within ± 5 mTorr":          `within <data class="q" value="0.6666118" data-kind="pressure difference" data-steps="± |0.1333|">± 5 mTorr</data>`,
		"± 10 %":                    `<data class="q" value="0.1" data-kind="ratio">± 10 %</data>`,
		"10–15 min":                 `<data class="q" value="600 900" data-kind="time">10–15 min</data>`,
		"a 1/8-27 NPT thread":       `a <data class="q" value="1/8-27 NPT" data-kind="thread">1/8-27 NPT</data> thread`,
		"5 wraps":                   `<data class="q" value="5" data-kind="count">5 wraps</data>`,
		"part TQ-4, 2027-06-01, it": `part TQ-4, 2027-06-01, it`,
	} {
		if got := string(withQuantities(in)); got != want {
			t.Errorf("%s\n got %s\nwant %s", in, got, want)
		}
	}
}

func TestCheckedQuantities(t *testing.T) {
	for in, want := range map[string]string{
		"350 mTorr":          `<data class="fact" value="46.66283" data-kind="pressure" data-steps="0.1333">350 mTorr</data>`,
		"8 to 32 °C":         `<data class="fact" value="281.15 305.15" data-kind="temperature" data-steps="|1| to |1|">8 to 32 °C</data>`,
		"R 1/8":              `<data class="fact" value="R 1/8" data-kind="thread">R 1/8</data>`,
		"insulated junction": `insulated junction`,
		"pins 1 and 4":       `pins 1 and 4`,
		"2 sccm":             `<data class="fact" value="3.333333e-08" data-kind="standard flow">2 sccm</data>`,
	} {
		if got := string(new(book).checked(in).html()); got != want {
			t.Errorf("%s\n got %s\nwant %s", in, got, want)
		}
	}
}

// The first choices of each kind, as the page offers them.
const (
	pascal, millibar, milliTorr, micron, torr, inchOfMercury = 0, 1, 2, 3, 4, 5
	celsius, fahrenheit, kelvin                              = 0, 1, 2
	metric, american                                         = 0, 1
	torrLitre                                                = 2
)

// TestRewriting takes quantities as the trade writes them from their text to the text in other units. The numbers are
// worked by hand from the exact definitions that calc/quantity names with their sources; the last figures follow the rule
// in DEVELOPERS.md.
func TestRewriting(t *testing.T) {
	rows := []struct {
		said   string
		choice int
		want   string // empty: as the author wrote it
	}{
		{"350 mTorr", pascal, "46.7 Pa"},            // 350 × 0.133322 = 46.66; a step is 0.13 Pa
		{"2,000 mTorr", pascal, "267 Pa"},           // the third figure is a step: 1.3 Pa
		{"-35 °C", fahrenheit, "−31 °F"},            // -35 × 1.8 + 32
		{"11/16 in", metric, "17.5 mm"},             // 17.4625; a step is 0.4 mm
		{"1-1/8 in", metric, "28.6 mm"},             // 28.575
		{"340 micron", milliTorr, "340 mTorr"},      // by the trade's usage
		{"340 micron", micron, ""},                  // the unit asked for
		{"340 microns", torr, "0.340 Torr"},         // zeros that were known stay
		{"0.02 mbar", milliTorr, "15 mTorr"},        // 15.001; 20 mTorr would be 0.03 mbar
		{"101,325 Pa", pascal, ""},                  // kPa would be the same unit's larger one
		{"1013 mbar", pascal, "101.3 kPa"},          // from 10 kPa on
		{"760 Torr", inchOfMercury, "29.92 inHg"},   // 101,325 / 3,386.39; a step is 0.039
		{"-28 inHg gauge", pascal, "−95 kPa gauge"}, // 94.8; a step is 3.4 kPa
		{"5 psig", millibar, "340 mbar gauge"},      // 344.7; 300 mbar would be 4 psig
		{"14.7 psia", millibar, "1,014 mbar"},       // 1,013.5; 1,010 mbar would be 14.6 psi
		{"20 mTorr/min", pascal, "2.7 Pa/min"},      // 2.67; a step is 0.13
		{"0.0107 mbar·L/s", pascal, "0.00107 Pa·m³/s"},
		{"4.1×10⁻⁵ mbar·L/s", pascal, "4.1×10⁻⁶ Pa·m³/s"},
		{"4.1×10⁻⁵ mbar·L/s", torrLitre, "3.1×10⁻⁵ Torr·L/s"}, // 3.075
		{"-34 to -30 °C", fahrenheit, "−29 to −22 °F"},
		{"-34 to -30 °C", kelvin, "239 to 243 K"},
		{"0–5 °F", celsius, "−18 to −15 °C"}, // a dash before a minus would not be seen
		{"3–5 mTorr", pascal, "0.4–0.7 Pa"},
		{"24.0 L ± 1.0 L", american, "6.34 ± 0.26 gal"},
		{"24 ± 1 L", american, "6.3 ± 0.3 gal"},
		{"28 L ± 2 %", american, "7.4 gal ± 2 %"},
		{"50 mL", american, "3.05 in³"}, // 3.051; 3.1 in³ would be 51 mL
		{"20 °C ± 2 K", fahrenheit, "68 ± 4 °F"},
		{"steady within 1 °C", fahrenheit, "2 °F"}, // a difference: 1.8
		{"steady within 1 °C", celsius, ""},
		{"± 2 K", celsius, ""},
		{"± 2 K", fahrenheit, "± 4 °F"},
		{"100, 200 and 300 mTorr", pascal, "13.3, 26.7 and 40.0 Pa"},
		{"a 12-mm bore", american, "0.47-in"},
		{"a 2 m hose", american, "7 ft"}, // 6.56; a step is 3.3 ft
		{"430 m", american, "1,411 ft"},  // 1,410.8; a step is 3.3 ft, so ones
		{"5 ft 3 in", metric, "1.60 m"},  // 1.6002; a step is 25 mm
		{"0 °C", fahrenheit, "32 °F"},
		{"0 °F", celsius, "−18 °C"}, // −17.8
		{"32 °F", celsius, "0 °C"},  // and no minus before nought
	}
	var asked []rewriting
	for _, row := range rows {
		marks, _ := prose.Find(row.said)
		if len(marks) != 1 {
			t.Fatalf("%q: %d quantities", row.said, len(marks))
		}
		alone := guide.Alone(marks[0])
		asked = append(asked, put(t, row.said[marks[0].From:marks[0].To], &alone, row.choice))
	}
	for i, got := range script(t, asked) {
		if got := strings.ReplaceAll(got, "\u00a0", " "); got != rows[i].want {
			t.Errorf("%s, choice %d: got %q, want %q (%+v)", rows[i].said, rows[i].choice, got, rows[i].want, asked[i])
		}
	}
}

// TestPressuresOfTheTextStandOnTheLadder: one value, the ends of a range, each of a list; no difference, no dial's reading.
func TestPressuresOfTheTextStandOnTheLadder(t *testing.T) {
	p := &page{}
	for _, said := range []string{"350 mTorr", "100–200 mTorr", "5, 6 and 7 Pa", "340 ± 5 micron", "± 5 mTorr", "-28 inHg gauge", "20 °C", "R 1/8"} {
		marks, _ := prose.Find(said)
		p.speakQuantity(said, &marks[0])
	}
	var got []string
	for _, s := range p.spoken {
		got = append(got, s.label)
	}
	if want := "350 mTorr|100 mTorr|200 mTorr|5 Pa|6 Pa|7 Pa|340 micron"; strings.Join(got, "|") != want {
		t.Errorf("got %s, want %s", strings.Join(got, "|"), want)
	}
}
