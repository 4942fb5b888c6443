package verify

import (
	"slices"

	"blankoff/build/guide"
	"blankoff/build/source"
)

// mixtures refuses a calculator on a page for several machines that takes one value from each machine's card and another from
// one card alone, where these differ: whoever has another machine would calculate with a mixture.
func (c *checker) mixtures(page *guide.Guide) {
	machines := c.headerMachines(page)
	if len(machines) < 2 {
		return
	}
	differ := func(p guide.Preset) bool {
		if p.Spec == nil {
			return false
		}
		first, _ := machines[0].Value(p.Spec.Name)
		for _, m := range machines[1:] {
			if v, _ := m.Value(p.Spec.Name); v.Text.Text != first.Text.Text {
				return true
			}
		}
		return false
	}
	for _, block := range page.Calculators {
		follows := slices.IndexFunc(block.Presets, func(p guide.Preset) bool { return differ(p) && p.Spec.Machine == "" })
		stays := slices.IndexFunc(block.Presets, func(p guide.Preset) bool { return differ(p) && p.Spec.Machine != "" })
		if follows < 0 || stays < 0 {
			continue
		}
		of := block.Presets[stays].Spec
		c.refuse("mixed-machines", block.Presets[stays].Span, source.Quote(block.Presets[follows].Name)+" is taken from the card of the reader's machine, and "+source.Quote(block.Presets[stays].Name)+" always from that of "+of.Machine,
			"write spec:"+of.Name+" here, or name the machine in all of them")
	}
}
