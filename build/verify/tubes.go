package verify

import (
	"fmt"
	"slices"
	"strconv"

	"blankoff/build/load"
	"blankoff/build/machine"
	"blankoff/build/source"
)

// tube checks a file of tubes/.
func (c *checker) tube(t *load.Tube) {
	if k := t.Construction; k.Text != "" && !slices.Contains(machine.Constructions, k.Text) {
		c.refuse("construction", k.Span, "there is no construction "+source.Quote(k.Text),
			join(source.DidYouMean(k.Text, machine.Constructions), "insulated: heater and couple do not touch; joined: the couple is welded to the heater"))
	}
	c.mark(t.Mark)
	c.pinMap(t)
	for _, v := range t.Own {
		if slices.Contains(machine.Derived, v.Name) {
			c.refuse("pins", v.NameSpan, v.Name+" follows from title, construction and pins of this file", "take this line out")
			continue
		}
		c.value(v)
		if problem := machine.CheckPair(v.Name, t.PinMap()); problem != nil && len(t.Pins) > 0 {
			c.refuse(problem.Rule, v.NameSpan, problem.Message, problem.Hint)
		}
	}
}

// pinMap checks the pins against the base and against what can be measured between them.
func (c *checker) pinMap(t *load.Tube) {
	most, ok := c.base(t)
	whole := ok && len(t.Pins) > 0
	for _, pin := range t.Pins {
		if n, err := strconv.Atoi(pin.Number.Text); err != nil || strconv.Itoa(n) != pin.Number.Text || n < 1 || n > most {
			whole = false
			c.refuse("pins", pin.Number.Span, "the base has no position "+source.Quote(pin.Number.Text), fmt.Sprintf("positions are 1 to %d; a larger base says so with `base: NUMBER`", most))
		}
		if !slices.Contains(machine.Roles, pin.Role.Text) {
			whole = false
			c.refuse("pins", pin.Role.Span, "a pin cannot be "+source.Quote(pin.Role.Text), source.DidYouMean(pin.Role.Text, machine.Roles))
		}
	}
	if !whole {
		return // one mistake is said once
	}
	for _, problem := range machine.CheckPins(t.PinMap()) {
		c.refuse(problem.Rule, t.PinsSpan, problem.Message, problem.Hint)
	}
}

// base is the number of positions of a tube's base.
func (c *checker) base(t *load.Tube) (int, bool) {
	if t.Base.Text == "" {
		return machine.UsualPins, true
	}
	n, err := strconv.Atoi(t.Base.Text)
	if err != nil || n < 4 || n > machine.MostPins {
		c.refuse("pins", t.Base.Span, "a base cannot have "+source.Quote(t.Base.Text)+" positions", fmt.Sprintf("write a whole number from 4 to %d", machine.MostPins))
		return machine.MostPins, false
	}
	return n, true
}
