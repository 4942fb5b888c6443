package verify

import (
	"fmt"
	"slices"

	"blankoff/build/guide"
	"blankoff/build/load"
	"blankoff/build/source"
)

// facts checks that the text of each spec: and calc: link is true.
func (c *checker) facts(page *guide.Guide) {
	for _, fact := range page.Facts {
		if fact.Said == "" {
			c.refuse("fact", fact.Span, "the fact has no text", "write the value between the brackets")
			continue
		}
		if rights, ok := c.rights(page, fact); ok {
			c.compare(page, fact, rights)
		}
	}
}

// compare refuses a fact that is not true for one of its machines; one at a time is enough to mend.
func (c *checker) compare(page *guide.Guide, fact *guide.Fact, rights []right) {
	if c.isTrue(fact, rights) {
		return
	}
	rights = understood(rights)
	said := read(fact.Said)
	for _, right := range rights {
		if why := disagreement(said, right.measure); why != agrees {
			c.refuse("fact", fact.SaidSpan, untrue(fact, right), c.mend(page, fact, right, rights, why))
			return
		}
	}
}

// isTrue tells whether a fact is true for all its machines. Most say letter by letter what is right, and many say what
// another page says too.
func (c *checker) isTrue(fact *guide.Fact, rights []right) bool {
	return !slices.ContainsFunc(rights, func(r right) bool {
		if sameText(fact.Said, r.Text) {
			return false
		}
		if r.Computed {
			return disagreement(read(fact.Said), r.measure) != agrees
		}
		return !c.answers.agree(fact.Said, r.Text)
	})
}

// right is what a fact should say, and who says so.
type right struct {
	measure
	from string // "content/machines/cindle-14.yaml" or "rise-test"
}

// understood reads the texts that were only compared letter by letter so far.
func understood(rights []right) []right {
	list := slices.Clone(rights)
	for i, r := range list {
		if r.Form == words && !r.Computed {
			list[i].measure = read(r.Text)
		}
	}
	return list
}

// rights finds what a fact should say: one value, or one for each machine.
func (c *checker) rights(page *guide.Guide, fact *guide.Fact) ([]right, bool) {
	if fact.Spec != nil {
		return c.specRights(page, fact)
	}
	return c.calcRights(page, fact)
}

func untrue(fact *guide.Fact, right right) string {
	verb := "has"
	if fact.Calc != nil {
		verb = "gives"
	}
	return fmt.Sprintf("the text %s is not true: %s %s %s", source.Quote(fact.Said), right.from, verb, right.Text)
}

// whoSays is the file of a value. One that is stale there counts as it will be.
func whoSays(v load.Value) string {
	if v.Place.File != nil && v.Place.Text() != v.Text.Text {
		return v.Span.File.Name + ", computed anew,"
	}
	return v.Span.File.Name
}

// specRights looks the value up in every machine that the fact is about.
func (c *checker) specRights(page *guide.Guide, fact *guide.Fact) ([]right, bool) {
	machines, ok := c.machinesOf(page, fact.Spec)
	var list []right
	for _, m := range machines {
		v, found := c.specValue(m, fact.Spec)
		if found && v.Table {
			c.refuse("fact", fact.Span, fact.Spec.Name+" is a table, which no text can equal", "name one of its values, with a number in place of N")
			return nil, false
		}
		if ok = ok && found; found {
			list = append(list, right{measure{Text: v.Text.Text}, whoSays(v)})
		}
	}
	return list, ok
}
