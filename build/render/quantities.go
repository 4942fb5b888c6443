package render

import (
	"html/template"
	"strconv"
	"strings"

	"blankoff/build/guide"
	"blankoff/build/prose"
	"blankoff/calc/quantity"
)

// A quantity stands on a page as data: value holds its numbers in SI, and what a reader can see in another unit has
// data-steps, from which units.ts writes it anew. Of one number without more, that is what one step of it is worth in SI;
// else it is words and steps in turn, "|" between them, the words before the first number first. What stands behind ± is
// a difference. A percentage and the word gauge are words.

// The classes of a quantity: as the author wrote it, and checked against machine data or a calculation.
const (
	plainQuantity   = "q"
	checkedQuantity = "fact"
)

// quantityHTML writes a quantity; said is its text, and the places of the mark are those in it.
func quantityHTML(class, said string, m *prose.Mark) string {
	return openingTag(class, said, m) + esc(said) + `</data>`
}

func openingTag(class, said string, m *prose.Mark) string {
	var b strings.Builder
	b.WriteString(`<data class="` + class)
	if m.Form == prose.List {
		b.WriteString(" list")
	}
	b.WriteString(`" value="` + esc(values(said, m)) + `" data-kind="` + kindName(m) + `"`)
	if n := numbers(said, m); n != "" {
		b.WriteString(` data-steps="` + esc(n) + `"`)
	}
	b.WriteString(`>`)
	return b.String()
}

// values are the numbers of a quantity in SI, without a percentage of the others; of a thread its designation.
func values(said string, m *prose.Mark) string {
	if m.Form == prose.Thread {
		return said
	}
	var list []string
	for _, n := range m.Numbers {
		if !n.Percent || m.Kind == quantity.Ratio {
			list = append(list, strconv.FormatFloat(n.SI, 'g', 7, 64))
		}
	}
	return strings.Join(list, " ")
}

// kindName is the kind as scripts know it. Only what has a place on the pressure ladder is a pressure to them.
func kindName(m *prose.Mark) string {
	switch {
	case m.Form == prose.Thread:
		return "thread"
	case m.Form == prose.Count:
		return "count"
	case m.Kind == quantity.Pressure && m.Form == prose.Spread:
		return "pressure difference"
	case m.Kind == quantity.Pressure && len(m.Numbers) > 0 && m.Numbers[0].Gauge:
		return "gauge pressure"
	case m.Kind == quantity.Temperature && m.Form == prose.Spread:
		return quantity.TemperatureDifference.Name()
	}
	return m.Kind.Name()
}

// switched are the kinds that a reader can see in a unit of choice.
var switched = map[quantity.Kind]bool{
	quantity.Pressure: true, quantity.PressureRate: true, quantity.Throughput: true,
	quantity.Temperature: true, quantity.TemperatureDifference: true, quantity.Length: true, quantity.Volume: true,
}

// numbers is the text of data-steps; empty where a quantity stays as it is.
func numbers(said string, m *prose.Mark) string {
	if !switched[m.Kind] || m.Form == prose.Thread || m.Form == prose.Count {
		return ""
	}
	var parts []string
	at, gauge := 0, false
	for _, n := range m.Numbers {
		if n.Percent {
			continue
		}
		if n.Step <= 0 || n.UnitTo > 0 && strings.Trim(said[min(n.To, n.UnitFrom):n.UnitFrom], " \u00a0\u202f\n-") != "" {
			return "" // 24 ± 2 % L: words stand where the new unit would
		}
		parts = append(parts, said[at:n.From], strconv.FormatFloat(n.Step, 'g', 4, 64))
		at, gauge = max(n.To, n.UnitTo), gauge || n.Gauge
	}
	tail := said[at:]
	if gauge {
		tail = " gauge"
	}
	switch {
	case len(parts) == 0 || strings.Contains(said, "|"):
		return ""
	case len(parts) == 2 && parts[0] == "" && tail == "":
		return parts[1]
	}
	return strings.Join(append(parts, tail), "|")
}

// withQuantities turns plain text into HTML in which quantities are data.
func withQuantities(text string) template.HTML {
	if !strings.ContainsAny(text, "0123456789") {
		return template.HTML(esc(text))
	}
	marks, _ := prose.Find(text)
	var b strings.Builder
	at := 0
	for i := range marks {
		from, to := marks[i].From, marks[i].To
		alone := guide.Alone(marks[i])
		b.WriteString(esc(text[at:from]) + quantityHTML(plainQuantity, text[from:to], &alone))
		at = to
	}
	b.WriteString(esc(text[at:]))
	return template.HTML(b.String())
}

// checkedText is what was compared with machine data or a calculation: one quantity, or a text.
type checkedText struct {
	said string
	mark *prose.Mark // nil for a text, such as the kind of a sensor tube
	tag  string      // the quantity's opening tag
}

// checked tells what a text is. What running text would leave in doubt is a quantity there, since its kind was checked; but
// it stays in its unit. The same figures are on many pages, so each is looked at once.
func (b *book) checked(said string) checkedText {
	if kept, found := b.checkedTexts.Load(said); found {
		return kept.(checkedText)
	}
	text := checkedText{said: said, mark: asOne(said)}
	if text.mark != nil {
		text.tag = openingTag(checkedQuantity, said, text.mark)
	}
	b.checkedTexts.Store(said, text)
	return text
}

// asOne gives the quantity that a text is; nil if it is none, or holds more.
func asOne(text string) *prose.Mark {
	marks, _ := prose.Find(text)
	if len(marks) == 1 && marks[0].From == 0 && marks[0].To == len(text) {
		return &marks[0]
	}
	if q, problem := quantity.Parse(text); problem == nil && q.Kind != quantity.None && !q.Over {
		return &prose.Mark{To: len(text), Kind: q.Kind, Numbers: []prose.Number{{SI: q.Value, Gauge: q.Gauge}}}
	}
	return nil
}

// html shows such a text; one that is no quantity stays text.
func (c checkedText) html() template.HTML {
	if c.mark == nil {
		return template.HTML(esc(c.said))
	}
	return template.HTML(c.tag + esc(c.said) + `</data>`)
}

// speakQuantity gives the pressures of a quantity their places on the ladder.
func (p *page) speakQuantity(said string, m *prose.Mark) {
	if m.Kind != quantity.Pressure {
		return
	}
	unit := ""
	for _, n := range m.Numbers {
		if n.UnitTo > 0 {
			unit = n.Unit.Symbol
		}
	}
	for _, n := range m.Numbers {
		switch {
		case n.Difference || n.Percent || n.Gauge:
		case len(m.Numbers) == 1:
			p.speak(n.SI, said)
		default:
			p.speak(n.SI, said[n.From:n.To]+" "+unit)
		}
	}
}
