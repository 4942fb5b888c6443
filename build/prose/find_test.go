package prose

import (
	"fmt"
	"strings"
	"testing"
)

// What must be found, in braces with its kind and, where that says more, its form. The sentences are our own.
var marked = []struct{ text, why string }{
	// Values.
	{"Hold {340 micron|pressure value} and then {200 mTorr|pressure value}.", "the trade's two names of one unit"},
	{"no more than {0.02 mbar·L/s|leak rate value}", "a unit of three parts"},
	{"The trap shows {-35 °C|temperature value} or {−35 °C|temperature value} or {–35 °C|temperature value}.", "hyphen, minus sign and en dash as signs"},
	{"{20°C|temperature value}, {500mTorr|pressure value}, {80%|ratio value}, {80 %|ratio value}", "no space"},
	{"{200\nmicron|pressure value} {5\u00a0Pa|pressure value} {5\u202fPa|pressure value} {1\u2009000\u202fPa|pressure value}", "a line break and spaces that do not break"},
	{"{2,000 mTorr|pressure value} {0,02 mbar|pressure value} {12,345.6 Pa|pressure value} {101 325 Pa|pressure value} {.5 bar|pressure value}", "thousands and decimals as calc/quantity reads them"},
	{"{4.1×10⁻⁵ mbar·L/s|leak rate value} {4.1 x 10^-5 mbar L/s|leak rate value} {1e-5 mbar·L/s|leak rate value}", "powers of ten"},
	{"({2.24 ± 0.12)×10⁻⁵ mbar·L/s|leak rate value}", "a shared power of ten; the bracket is the mark's, see below"},
	{">{1 MΩ|resistance value}, about {30 min|time value}, at most {42 mA|electric current value}", "what stands before is no part of it"},
	{"a {12 mm|length value} bore, a {12-mm|length value} bore, a {30-minute|time value} run, a {6 mm|length value}-wide gap", "joined by a hyphen"},
	{"{120 V|voltage value} AC, {16 AWG|wire gauge value}, {28 TPI|thread count value}, {28 threads per inch|thread count value}", "AC is no unit"},
	{"{-28 inHg gauge|pressure value}, {5 psig|pressure value}, {29.9 inHg absolute|pressure value}, {14.7 psia|pressure value}, {-28 inHg (gauge)|pressure value}", "counted from the air or from nothing"},
	{"At {350 mTorr|pressure value} gauge and reference agree.", "behind a mTorr a gauge is an instrument"},
	{"{20 CFM|volume flow rate value} is {20 cfm|volume flow rate value}; {5 m³/h|volume flow rate value} is {5 m³ / h|volume flow rate value}", "capitals, a spaced slash"},
	{"{8 mTorr per minute|rate of pressure change value}, {5 L|volume value} per batch", "a rate in words, and none"},
	{"{minus 18 °C|temperature value} is not 5 minus {18 °C|temperature value}", "a sign in words"},
	{"{5 L|volume value}/batch, {120 V|voltage value}/60 Hz", "a unit ends before a slash that goes on with something else"},
	{"{2 m|length value} of hose; open {24 h|time value}; {3 s|time value}; {5 A|electric current value}; {6 V|voltage value}; {4 g|mass value}; {6 ft|length value}", "letters that are units"},
	{"The {10k|resistance value} resistor", "trade shorthand where resistance is spoken of"},
	{"{11/16 in|length value} hose, {1-1/8 in|length value}, {1 1/8 in|length value}, {3/8\"|length value}, {1½ in|length value}", "fractions"},
	{"{3 in|length value} long, {3 in|length value}. A {3-in|length value} hose, {2.5 in|length value} copper, {3 in|length value}", "the inch"},
	{"{1h30|time value}, {1 h 30 min|time value}, {1 min 30 s|time value}, {5 ft 3 in|length value}, {2 d 12 h|time value}", "chains"},
	{"{5 min|time value} at {200 mTorr|pressure value}. {10 min|time value}, {2 Torr|pressure value}", "of different kinds"},
	{"it warmed by {12 K|temperature difference value} to {-22 °C|temperature value}, by {5 °C|temperature difference value} to {20 °C|temperature value}", "a change and where it led"},
	{"within {1 °C|temperature difference value}; a drop of {9 °F|temperature difference value}; {3 °C|temperature difference value} colder; {5 °C|temperature difference value} above the trap; plus or minus {2 °C|temperature difference value}", "differences"},
	{"at {20 °C|temperature value} above all, {-30 °C|temperature value} below, {293 K|temperature value}", "no differences"},
	// Ranges.
	{"{3 to 9 ohm|resistance range}, {8–11 mV|voltage range}, {8-11 mV|voltage range}, {5 - 8 mV|voltage range}, {8…11 mV|voltage range}, {8 .. 11 mV|voltage range}", "one unit, at the end"},
	{"{6.9 Ω to 9.3 Ω|resistance range}, {500 mΩ to 2 Ω|resistance range}", "each its unit"},
	{"between {6 and 9 Ω|resistance range}, Between {6 Ω and 9 Ω|resistance range}", "between makes a range"},
	{"{-34 to -30 °C|temperature range}, {−34 – −30 °C|temperature range}, {-34–-30 °C|temperature range}", "signs at both ends"},
	{"a {10-15-minute|time range} wait, {10- to 15-minute|time range}", "hyphens"},
	{"{-28 to -26 inHg gauge|pressure range}", "the word counts for both"},
	{"{1/4 to 3/8 in|length range}", "of fractions"},
	// Lists.
	{"{100, 200 and 300 mTorr|pressure list}, {212, 211, 47,300, 209, 212 mTorr|pressure list}, {6 or 7 V|voltage list}", "one unit for all"},
	{"after {5/15/30 min|time list}; {598/250 mTorr|pressure list}", "slashes that are no fractions"},
	{"the ratios 0.7 and 0.4, {24 h|time value} of drying", "a list does not go on behind its last and"},
	{"on the 4, {5 min|time value} later", "two numbers and a comma are no list"},
	// Tolerances.
	{"{24.0 L ± 1.0 L|volume value}, {24 ± 1 L|volume value}, {28 L ± 2 %|volume value}, {20 °C ± 1 K|temperature value}, {24 L +/- 1 L|volume value}, {24 L +- 500 mL|volume value}", "with their value"},
	{"{± 10 %|ratio spread}, {±2 K|temperature difference spread}, {± 2 °C|temperature difference spread}, {+/- 5 V|voltage spread}", "by themselves"},
	{"{8 to 11 mV|voltage range} {± 10 %|ratio spread}, {20 °C|temperature value} {± 5 %|ratio spread}", "what belongs to no single value stands by itself"},
	// Threads and counts.
	{"{1/8-27 NPT|thread}, {R 1/8|thread}, {3/8-18 NPT|thread}, {G 1/4|thread}, {M10x1|thread}, {M10 × 1|thread}, {M8|thread}, {1/4 NPT|thread}, {3/8 in NPT|thread}, {1/4-20 UNC-2A|thread}, {Rc 1 1/4|thread}", "designations of open standards"},
	{"{5 wraps|count}, {1 turn|count}, {3 or 4 drops|count}, {1 to 1½ turns|count}, {2 rinses|count}, {10 cycles|count}", "counted nouns of the trade"},
	{"nine readings, a turn", "only digits count"},
}

// What must be left alone.
var alone = []struct{ text, why string }{
	{"TQ-4, CN14-2617-00473-J, AS568-210, RV-2205, 40-118-A, 00473-J, TX4", "parts and serials"},
	{"O-ring 012", "sizes with a leading zero"},
	{"2027-06-01, 1 June 2027, 12/11/2026, in 2026, the 1990s", "dates and years"},
	{"14:30, 9:05 h, 10:1, 1:30 min", "times of day and ratios"},
	{"the Cindle 14 in the garage, the Torrask 38 A, the Oskel B9", "names of machines"},
	{"step 3 in the guide, page 4 m, section 2.5, equation 7, Fig. 4 A, pins 1 and 4, pin 6 and 7, steps 5 to 9", "references"},
	{"Step 5 turns the pump off, step 3 drops the trap, steps 3 and 4 turns", "verbs that look like counted nouns"},
	{"ISO 7-1, EN 1779, 29 CFR 1910.147, EPA 608, NIST SP 811, ANSI Z535.6, IEC 60584-1", "standards"},
	{"B 3740 and nothing else", "a probe's constant"},
	{"3 A batteries, 3 AA batteries, two 9 V's", "sizes of batteries; an apostrophe"},
	{"4 in the morning, 3 in a row, 1 in 10, 3-in-one, 2 in use, 4 in turn", "in is a word"},
	{"at 5 a reading, 7 M of them, 2 S, 9 k, 10k of them, 4 us, 8 AM", "letters of another case"},
	{"1/2 alone, 50 Hz, 62 dB, 90°, 470 µF, 12 N·m, 5 W/m², 3 mm/s", "units that are not known, or of no kind here"},
	{"take 2 meter readings, 3 meter leads", "the instrument, not the metre"},
	{"$40, €5 m, #5 m, v2.5, version 3 s, firmware 2.4.1, 1.2.3 m, 1.234,5 Pa", "prices, versions, and numbers that cannot be read"},
	{"http://x.example/5m and x_5 m", "addresses"},
	{"500mTorrs, 5 minx, 5 Pascalx, 5 m2x", "a unit ends at a word's border"},
	{"5 °C² and 3D print, a 3d drawing", "nothing of the kind"},
	{"24/7 and 16/3 cord, half, ½", "no unit"},
	{`write "500" or '500' or "30"`, "quotation marks"},
	{"turn it by 90 degrees", "an angle"},
	{"5\n\nmin", "a new paragraph"},
}

// What could be read in two ways: the place, and a word of what is said.
var doubtful = []struct{ text, message, hint string }{
	{"{28 inches of vacuum}", "below the air", "write -28 inHg gauge"},
	{"{28 inHg}, {28 inHg vacuum}, {25 to 28 inHg}, {20 in Hg}, {-28 inHg}", "below the air", "inHg gauge"},
	{"The vacuum is {5 psi}.", "from the air or from nothing", "gauge or absolute"},
	{"It fell from air to {0.1 bar} in the chamber.", "from the air or from nothing", "gauge or absolute"},
	{"{-5 psi} at the line", "below nothing", "gauge"},
	{"{10 lb of pressure}", "pound", "write 10 psi gauge"},
	{"{500 mT}", "magnetic", "write 500 mTorr"},
	{"{0.5 Mtorr}", "million", "small m"},
	{"{5 deg}, and the room at {5 degrees}", "angle", "write 5 °C"},
	{`{30"} wide`, "inches, seconds", "write 30 in"},
	{"{5'} long", "feet, minutes", "write 5 ft"},
	{"{2 sccm}", "reference temperature", "at 0 °C"},
	{"{50 C}, {20 to 30 C}", "coulomb", "°C"},
	{"{50 F}", "farad", "write 50 °F"},
	{"a {12 K} resistor", "kelvin", "write 12 kΩ"},
	{"at {5 -8 mV}", "minus sign", "write to"},
	{"{1h30m}, {10 m 30 s}", "minutes", "min"},
}

// clear are sentences that must raise no doubt.
var clear = []string{
	"The compressor gives 5 psi and 2 bar.", "2 sccm, counted at 0 °C", "Each 1 K moves the floor.", "-28 inHg gauge", "MTORR on the display: 500 MTORR",
	"fig. 4 C, step 5 C", `"30" it said`, "-5 mTorr of drift", "10 lb of ice", "the 90 degrees of a turn in a warm room",
}

// plain is a text without its braces and what is said in them.
func plain(labels string) string { return readLabels("", 0, labels).text }

func TestMarked(t *testing.T) {
	for _, c := range marked {
		want := readLabels("", 0, c.text)
		marks, doubts := Find(want.text)
		for _, m := range marks {
			place := fmt.Sprint(m.From, ":", m.To)
			if strings.HasPrefix(want.text[m.From:], "(2.24") { // its bracket cannot stand inside the braces and outside
				place = fmt.Sprint(m.From+1, ":", m.To)
			}
			if named(m) != want.marks[place] {
				t.Errorf("%s: %q is a %q, want %q", c.why, want.text[m.From:m.To], named(m), want.marks[place])
			}
			delete(want.marks, place)
		}
		if len(want.marks) > 0 || len(doubts) > 0 {
			t.Errorf("%s: %q misses %v, doubts %+v", c.why, want.text, want.marks, doubts)
		}
	}
}

// named is what the table above says of a mark: the kind and the form, or the form alone.
func named(m Mark) string {
	if m.Form == Thread || m.Form == Count {
		return kindName(m)
	}
	return m.Kind.Name() + " " + [...]string{Value: "value", Range: "range", List: "list", Spread: "spread"}[m.Form]
}

func TestLeftAlone(t *testing.T) {
	for _, c := range alone {
		marks, doubts := Find(c.text)
		for _, m := range marks {
			t.Errorf("%s: %q is marked in %q", c.why, c.text[m.From:m.To], c.text)
		}
		for _, d := range doubts {
			t.Errorf("%s: %q is in doubt in %q", c.why, c.text[d.From:d.To], c.text)
		}
	}
}

func TestDoubts(t *testing.T) {
	for _, c := range doubtful {
		want := readLabels("", 0, strings.ReplaceAll(c.text, "{", "{?"))
		marks, doubts := Find(want.text)
		for _, d := range doubts {
			place := fmt.Sprint(d.From, ":", d.To)
			if !want.doubts[place] || !strings.Contains(d.Message, c.message) || !strings.Contains(d.Hint, c.hint) {
				t.Errorf("%q: %q: %s; %s", want.text, want.text[d.From:d.To], d.Message, d.Hint)
			}
			delete(want.doubts, place)
		}
		if len(want.doubts) > 0 {
			t.Errorf("%q: no doubt at %v", want.text, want.doubts)
		}
		if standard := strings.Contains(want.text, "sccm"); len(marks) > 0 != standard {
			t.Errorf("%q: %d marks; only a standard flow is marked and in doubt", want.text, len(marks))
		}
	}
	for _, text := range clear {
		if _, doubts := Find(text); len(doubts) > 0 {
			t.Errorf("%q: a doubt too many: %+v", text, doubts)
		}
	}
}
