package verify

import (
	"blankoff/build/guide"
)

// calculatorBlocks checks each placed calculator: the page prints its result, so the presets must give one.
// A block without presets shows the calculator's own example.
func (c *checker) calculatorBlocks(page *guide.Guide) {
	for _, block := range page.Calculators {
		if block.IDSpan.Text() != block.ID {
			continue // already said: no name, or more than one
		}
		calculator := c.calculator(block.ID, block.IDSpan)
		if calculator == nil || !c.knownInputs(calculator, block.Presets) || len(block.Presets) == 0 {
			continue
		}
		cases, ok := c.cases(page, block.Presets)
		if !ok {
			continue
		}
		for _, in := range cases {
			answer := c.answers.of(block.ID, in)
			if answer.Fault != nil {
				c.refuse("preset", faultPlace(answer.Fault, block.Presets, block.IDSpan), faultText(calculator, answer.Fault),
					"the page prints the result of the preset, so give inputs that have one")
				break
			}
		}
	}
}
