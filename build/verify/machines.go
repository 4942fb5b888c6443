package verify

import (
	"fmt"
	"slices"
	"strings"

	"blankoff/build/diagnostic"
	"blankoff/build/guide"
	"blankoff/build/load"
	"blankoff/build/machine"
	"blankoff/build/source"
)

// checkMachines checks machines, families and tubes: each file by itself, then the values of each machine with each
// other, wherever they stand.
func (c *checker) checkMachines() {
	for _, t := range c.library.Tubes {
		c.tube(t)
	}
	for _, f := range c.library.Families {
		c.card(&f.Card)
		c.cycle(f)
		if len(f.Machines) == 0 {
			c.warn("unused-family", titleOf(f), "no machine belongs to the family "+source.Quote(f.Name), "write `family: "+f.Name+"` into the file of a machine, or take the family out")
		}
	}
	for _, m := range c.library.Machines {
		c.card(&m.Card)
	}
	c.wrong = c.refused()
	stale := map[source.Span]bool{}
	for _, of := range computations(c.library) {
		if !c.computed(of) {
			stale[of.value.Span] = true
		}
	}
	said := map[source.Span]bool{} // what a family says wrongly is wrong once, not for each of its machines
	for _, m := range c.library.Machines {
		c.between(&m.Card, stale, said)
	}
	for _, f := range c.library.Families {
		c.between(&f.Card, stale, said)
	}
}

// refused lists the values that have been refused in their own file. What is said of a mistake once is not said again at
// each place that relies on it.
func (c *checker) refused() map[source.Span]bool {
	places := map[source.Span]bool{}
	for _, found := range c.found {
		if found.Severity == diagnostic.Error {
			places[found.Span] = true
		}
	}
	for _, t := range c.library.Tubes {
		whole := !places[t.Base.Span] && !slices.ContainsFunc(t.Pins, func(p load.Pin) bool { return places[p.Number.Span] || places[p.Role.Span] })
		if !whole {
			places[t.PinsSpan] = true // which pins a pair has follows from the whole map
		}
	}
	return places
}

// titleOf is the place of a family's title, or its file where it has none.
func titleOf(f *load.Family) source.Span {
	if f.Title.Span.File == nil {
		return f.File.Whole()
	}
	return f.Title.Span
}

// card checks what machines and families have in common.
func (c *checker) card(card *load.Card) {
	if f := card.Family; f.Text != "" && c.library.Family(f.Text) == nil {
		c.refuse("unknown-family", f.Span, "there is no family "+source.Quote(f.Text),
			join(source.DidYouMean(f.Text, c.library.FamilyNames()), "a family is a file families/NAME.yaml"))
	}
	if t := card.Tube; t.Text != "" && c.library.Tube(t.Text) == nil {
		c.refuse("unknown-tube", t.Span, "there is no tube "+source.Quote(t.Text),
			join(source.DidYouMean(t.Text, c.library.TubeNames()), "a tube is a file tubes/NAME.yaml"))
	}
	c.mark(card.Mark)
	tube := c.library.TubeOf(card)
	for _, v := range card.Own {
		if tube != nil && slices.Contains(machine.Derived, v.Name) {
			c.refuse("pins", v.NameSpan, v.Name+" follows from the tube, "+tube.File.Name, "take this line out; the tube's file says it once for all its machines")
			continue
		}
		c.value(v)
	}
}

// value checks a value by itself.
func (c *checker) value(v load.Value) {
	c.origin(v)
	entry, known := machine.Find(v.Name)
	if !known {
		c.nearMiss(v)
		return
	}
	if problem := entry.Check(v.Text.Text); problem != nil {
		c.refuse(problem.Rule, v.Span, problem.Message, problem.Hint)
	}
}

// nearMiss warns of a name that is nearly one of the vocabulary. Names of a shop's own are welcome.
func (c *checker) nearMiss(v load.Value) {
	near := numbered(v.Name)
	if near == "" {
		near = source.NearMiss(v.Name, machine.Names())
	}
	if near != "" {
		c.warn("value-name", v.NameSpan, source.Quote(v.Name)+" is nearly "+near+", a name that the checks know", "did you mean "+near+"?")
	}
}

// numbered finds the known name with a number in it of which a name is nearly one: dry-curv-5-min.
func numbered(name string) string {
	digits := strings.IndexFunc(name, func(r rune) bool { return r >= '1' && r <= '9' })
	if digits < 0 {
		return ""
	}
	n, _, _ := strings.Cut(name[digits:], "-")
	near := source.NearMiss(strings.Replace(name, n, "N", 1), machine.Names())
	return strings.Replace(near, "N", n, 1)
}

// origin checks how a value is said to be known.
func (c *checker) origin(v load.Value) {
	if v.Mark.Span != (source.Span{}) && v.Mark.Span.Start >= v.NameSpan.Start { // its own mark, not the file's
		c.mark(v.Mark)
	}
	switch {
	case v.Calc != nil && v.Mark.Text != machine.Computed:
		c.refuse("mark", v.Mark.Span, v.Name+" has a calculation, so it is computed, not "+source.Quote(v.Mark.Text), "leave `mark` out, or take `calc` out")
	case v.Mark.Text == machine.Published && v.Source.Text == "":
		c.refuse("mark", v.NameSpan, v.Name+" is marked as published, but no source is named", "add `source:` with the title and the place in it, or choose another mark")
	}
}

func (c *checker) mark(m load.Text) {
	if m.Text != "" && !slices.Contains(machine.Marks, m.Text) {
		c.refuse("mark", m.Span, "there is no mark "+source.Quote(m.Text), source.DidYouMean(m.Text, machine.Marks))
	}
}

// cycle refuses families that belong to themselves. A cycle is told once, at the first of its files.
func (c *checker) cycle(f *load.Family) {
	way := c.library.Above(&f.Card)
	at := slices.Index(way, f)
	if at < 0 {
		c.highChain(f, way)
		return
	}
	members := append([]*load.Family{f}, way[:at]...)
	if slices.ContainsFunc(members, func(other *load.Family) bool { return other.Name < f.Name }) {
		return
	}
	chain := strings.Join(names(members, func(f *load.Family) string { return f.Name }), " → ") + " → " + f.Name
	c.refuse("family-cycle", f.Family.Span, "the family "+source.Quote(f.Name)+" belongs to itself: "+shortened(chain), "take the key `family` out of one of them")
}

// highChain refuses a family that has too many others above it, be they a chain or a circle.
func (c *checker) highChain(f *load.Family, way []*load.Family) {
	if len(way) == load.MostAbove && way[load.MostAbove-1].Family.Text != "" {
		c.refuse("family-cycle", f.Family.Span, fmt.Sprintf("the family %s has more than %d families above it", source.Quote(f.Name), load.MostAbove), "put what is common into few families, and take the key `family` out of the highest")
	}
}

// shortened keeps both ends of a long text.
func shortened(text string) string {
	const most = 160
	runes := []rune(text)
	if len(runes) <= most {
		return text
	}
	return string(runes[:most/2]) + " … " + string(runes[len(runes)-most/2:])
}

// between compares the values of a card with each other. The message stands at the value that is nearer to the card.
func (c *checker) between(card *load.Card, stale, said map[source.Span]bool) {
	text := func(name string) (string, bool) {
		v, has := card.Value(name)
		return v.Text.Text, has
	}
	for _, conflict := range machine.Between(card.ValueNames(), text) {
		at, _ := card.Value(conflict.Name)
		other, _ := card.Value(conflict.Other)
		if stale[at.Span] || stale[other.Span] {
			continue // a stale one is mended first
		}
		if at.Span.File != card.File && other.Span.File == card.File {
			at, other = other, at
		}
		if !said[at.Span] {
			said[at.Span] = true
			c.refuse("value-order", at.Span, conflict.Message, join(conflict.Hint, elsewhere(at, other)))
		}
	}
}

// elsewhere says in which file the other of two values stands.
func elsewhere(at, other load.Value) string {
	if other.Span.File == at.Span.File {
		return ""
	}
	return other.Name + " stands in " + other.Span.File.Name
}

// families checks the families in a page's header.
func (c *checker) families(page *guide.Guide) {
	for _, name := range page.Families {
		f := c.library.Family(name.Text)
		switch {
		case f == nil:
			c.refuse("unknown-family", name.Span, "there is no family "+source.Quote(name.Text),
				join(source.DidYouMean(name.Text, c.library.FamilyNames()), "a family is a file families/NAME.yaml"))
		case len(f.Machines) == 0:
			c.warn("unused-family", name.Span, "no machine belongs to the family "+source.Quote(name.Text)+", so it adds none to this page", "write `family: "+f.Name+"` into the file of a machine, or take it out here")
		}
	}
}
