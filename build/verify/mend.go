package verify

import (
	"slices"
	"strings"

	"blankoff/build/guide"
	"blankoff/calc/quantity"
)

// mend says how a stale fact can be made true.
func (c *checker) mend(page *guide.Guide, fact *guide.Fact, stale right, all []right, why string) string {
	if r := cure(fact, all); r.text != "" {
		if r.because != "" {
			return join("write "+r.text, "`verify --fix` leaves it to you: "+r.because)
		}
		return "write " + r.text + ", or let `verify --fix` do it"
	}
	if differ(all) {
		return c.howTheyDiffer(page, fact, all)
	}
	if outside := wordsOutside(fact, all); outside != "" {
		return outside
	}
	return correction(read(fact.Said), stale, why)
}

// correction names what is wrong beyond the figures, and what is right.
func correction(said measure, stale right, why string) string {
	right := stale.measure
	write := "write " + right.Text
	switch why {
	case otherKind:
		return kindCorrection(said, right)
	case otherCounted:
		return join(write, "one is counted from the air pressure (a dial's reading), the other from nought")
	case noAccuracy:
		return "leave the ± out: " + stale.from + " states no accuracy"
	case otherSense:
		return join(write, "the words of a limit belong to it: over, at least, under, at most")
	case otherForm:
		switch {
		case right.Form == span:
			return "write both ends, the low one first: " + right.Text
		case right.Form == list:
			return "write the whole list: " + right.Text
		}
		return write
	case otherFigure:
		return join(write, whyByHand(said, right))
	}
	return write
}

func kindCorrection(said, right measure) string {
	a, b := said.Low, right.Low
	switch {
	case said.Form != list && a.Unit.Symbol == "":
		return "write the unit too: " + right.Text
	case said.Form == list || right.Form == list || a.Kind == b.Kind:
		return "write " + right.Text
	case a.Kind == quantity.StandardFlow && b.Kind == quantity.Throughput, b.Kind == quantity.StandardFlow && a.Kind == quantity.Throughput:
		return join("write "+right.Text, "a standard flow is a leak rate only at a stated reference temperature: the calculator throughput takes one")
	}
	return "the text is " + a.Kind.Describe() + "; " + right.Text + " is " + b.Kind.Describe()
}

// whyByHand tells why figures alone cannot be written anew.
func whyByHand(said, right measure) string {
	claims, _ := pair(said, right)
	for _, c := range claims {
		switch {
		case c.isTrue():
		case c.chain != nil:
			return "the numbers of a chain change together"
		case c.fraction && c.end > 0:
			return "a fraction is taken as exact; where the value is rounded, write it as a decimal number"
		case c.x < 0 != (c.want < 0):
			return "the sign turns: look whether the words around still hold"
		}
	}
	return ""
}

// differ tells whether no text can be true for two of the machines.
func differ(all []right) bool {
	return slices.ContainsFunc(all, func(r right) bool {
		return disagreement(all[0].measure, r.measure) != agrees && disagreement(r.measure, all[0].measure) != agrees
	})
}

// howTheyDiffer lists what is right for each machine of the page: of several rights each belongs to one of the header.
func (c *checker) howTheyDiffer(page *guide.Guide, fact *guide.Fact, all []right) string {
	const most = 4
	machines := c.headerMachines(page)
	var each []string
	for i, r := range all[:min(len(all), most)] {
		each = append(each, r.Text+" of "+machines[i].Name)
	}
	if len(all) > most {
		each = append(each, "…")
	}
	example := "spec:" + machines[0].Name + "/NAME"
	if fact.Spec != nil {
		example = "spec:" + machines[0].Name + "/" + fact.Spec.Name
	}
	return join("the machines of this page differ: "+strings.Join(each, ", "),
		"say of which you speak, as in "+example+", or take one out of the header")
}

// mostWords is in how many words a value is looked for: each part of them is read as one.
const mostWords = 24

// wordsOutside tells an author who put words around a value into the brackets, as in [at most 350 mTorr](spec:…), to
// take them out: what they say is not proved.
func wordsOutside(fact *guide.Fact, all []right) string {
	parts := strings.Fields(fact.Said)
	if len(parts) > mostWords {
		return ""
	}
	for size := len(parts) - 1; size > 0; size-- {
		for from := 0; from+size <= len(parts); from++ {
			inner := strings.Join(parts[from:from+size], " ")
			if read(inner).Form == words || strings.ContainsAny(strings.Join(append(slices.Clone(parts[:from]), parts[from+size:]...), ""), "0123456789±<>≤≥") {
				continue
			}
			fresh, ok := restate(inner, all[0].measure)
			if !ok || !holds(fresh, all) {
				continue
			}
			link := "[" + fresh + "](" + shortTarget(fact) + ")"
			outside := append(append(slices.Clone(parts[:from]), link), parts[from+size:]...)
			return "only the value is proved, so only the value belongs between the brackets: write " + strings.Join(outside, " ")
		}
	}
	return ""
}

// shortTarget is the target as a hint shows it.
func shortTarget(fact *guide.Fact) string {
	if fact.Spec != nil {
		return fact.Target
	}
	return "calc:" + fact.Calc.ID + "?…"
}
