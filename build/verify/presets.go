package verify

import (
	"fmt"

	"blankoff/build/guide"
	"blankoff/build/load"
	"blankoff/build/source"
	"blankoff/calc"
	"blankoff/calc/declare"
	"blankoff/calc/quantity"
)

// farOut is how many times an entry may be beyond the usual range before it is taken for a mistake: a wrong prefix or unit.
const farOut = 10

// presets warns of entries that are possible and most unusual. It is a warning: a page may show an extreme on purpose.
func (c *checker) presets(page *guide.Guide) {
	for _, block := range page.Calculators {
		calculator := calc.Find(block.ID)
		if calculator == nil {
			continue
		}
		for _, preset := range block.Presets {
			for i := range calculator.Inputs {
				if in := &calculator.Inputs[i]; in.ID == preset.Name {
					c.preset(page, in, preset)
				}
			}
		}
	}
}

func (c *checker) preset(page *guide.Guide, in *declare.Input, preset guide.Preset) {
	for _, text := range c.presetTexts(page, preset) {
		q, problem := in.Parse(text)
		if problem != nil || q.Over || q.Gauge { // what cannot be read has been refused
			continue
		}
		if isFarOut(&q, in) {
			c.warn("preset-unusual", preset.Span, fmt.Sprintf("%s for %q is far outside the usual range, %s to %s", source.Quote(text), in.ID, in.UsualLow, in.UsualHigh),
				"look at the number and its unit")
			return
		}
	}
}

// presetTexts gives what stands there, or what the machines say.
func (c *checker) presetTexts(page *guide.Guide, preset guide.Preset) []string {
	if preset.Spec == nil {
		return []string{preset.Text}
	}
	machines := c.headerMachines(page)
	if m := c.library.Machine(preset.Spec.Machine); m != nil {
		machines = []*load.Machine{m} // never into the slice, which is the page's own
	}
	var list []string
	for _, m := range machines {
		if v, found := m.Value(preset.Spec.Name); found {
			list = append(list, v.Text.Text)
		}
	}
	return list
}

// isFarOut compares a value with the usual range: by factor where the range is above zero, else by its width. What is
// counted in another kind than the range, such as a wire gauge beside square millimetres, has no place in it.
func isFarOut(q *quantity.Quantity, in *declare.Input) bool {
	low, noLow := quantity.Parse(in.UsualLow, in.Kinds...)
	high, noHigh := quantity.Parse(in.UsualHigh, in.Kinds...)
	if noLow == nil && low.Kind != q.Kind || noHigh == nil && high.Kind != q.Kind {
		return false
	}
	value := q.Value
	affine := noLow == nil && noHigh == nil && (low.Value <= 0 || low.Kind == quantity.Temperature)
	width := high.Value - low.Value
	switch {
	case affine:
		return value < low.Value-width || value > high.Value+width
	case noHigh == nil && high.Value > 0 && value > farOut*high.Value:
		return true
	}
	return noLow == nil && low.Value > 0 && value > 0 && value < low.Value/farOut
}
