package verify

import (
	"fmt"
	"path"
	"slices"
	"strconv"
	"strings"

	"blankoff/build/guide"
)

// The steps of a page as a graph: who is at a step goes on to the next when it went as expected, unless the step says to
// go elsewhere, and from an "If not" to the places it names. It is read generously: every step that is named anywhere in
// a step is a way there. What is still out of reach then has been forgotten, or a stop stands before it.

// ways out of a step.
type exits struct {
	to   []int // numbers of steps
	ends bool  // the reader may leave the steps here: at a stop, by a link, by calling somebody, after the last step
}

// flow checks that each step can be reached, and can be left.
func (c *checker) flow(page *guide.Guide) {
	if len(page.Steps) == 0 {
		return
	}
	c.knownSteps(page)
	graph := c.graph(page)
	onward := func(n int) []int { return graph[n].to }
	reached, lost := map[int]bool{}, map[int]bool{}
	reach(reached, c.entrances(page), onward)
	for _, step := range page.Steps {
		if !reached[step.Number] && !lost[step.Number] {
			c.refuse("unreachable-step", step.Span, fmt.Sprintf("no way leads to step %d", step.Number),
				fmt.Sprintf("lead to it from another step, as [step %d](#%s), or take it out\na stop in the body of a step ends everything: one for a special case belongs into an `If not`", step.Number, step.Anchor()))
			reach(lost, []int{step.Number}, onward) // what only it leads to needs no message of its own
		}
	}
	c.endless(page, graph, reached)
}

// endless refuses the last of the steps from which no way leads out: there is the place to mend it.
func (c *checker) endless(page *guide.Guide, graph []exits, reached map[int]bool) {
	back := make([][]int, len(graph))
	var out []int
	for n, e := range graph {
		for _, to := range e.to {
			back[to] = append(back[to], n)
		}
		if e.ends {
			out = append(out, n)
		}
	}
	left := map[int]bool{}
	reach(left, out, func(n int) []int { return back[n] })
	for _, step := range slices.Backward(page.Steps) {
		if reached[step.Number] && !left[step.Number] {
			c.refuse("endless-step", step.Span, fmt.Sprintf("who comes to step %d goes round for ever: all ways lead back", step.Number),
				"let one of its ways go on, to a later step, another page or a stop")
			return
		}
	}
}

// reach adds to what was seen all that can be come to from some steps.
func reach(seen map[int]bool, from []int, next func(int) []int) {
	for len(from) > 0 {
		n := from[len(from)-1]
		from = from[:len(from)-1]
		if !seen[n] {
			seen[n] = true
			from = append(from, next(n)...)
		}
	}
}

// entrances are the steps at which someone can begin: the first of each section, and those to which the rest of the page
// or another page links.
func (c *checker) entrances(page *guide.Guide) []int {
	var list []int
	for _, section := range page.Sections {
		for _, n := range section.Nodes {
			if steps, ok := n.(*guide.StepList); ok {
				if first, ok := steps.FirstChild().(*guide.Step); ok {
					list = append(list, first.Number)
				}
				break // a second list in a section goes on from the first
			}
		}
	}
	for _, p := range c.text {
		for _, link := range p.links {
			if n := stepOf(link.Target); p.step == nil && n > 0 {
				list = append(list, n)
			}
		}
	}
	list = append(list, c.linked[page]...)
	return slices.DeleteFunc(list, func(n int) bool { return n > len(page.Steps) }) // a place that is not there is refused with the links
}

// linkedSteps finds all links from one page to a step of another.
func linkedSteps(guides []*guide.Guide, find func(string) *guide.Guide) map[*guide.Guide][]int {
	linked := map[*guide.Guide][]int{}
	for _, from := range guides {
		for _, link := range from.Links {
			file, anchor, _ := strings.Cut(link.Target, "#")
			if n := stepOf("#" + anchor); n > 0 && file != "" {
				if to := find(strings.TrimSuffix(path.Join(path.Dir(from.File.Path), file), ".md")); to != nil && to != from {
					linked[to] = append(linked[to], n)
				}
			}
		}
	}
	return linked
}

// stepOf is the number in #step-3, or 0.
func stepOf(target string) int {
	digits, found := strings.CutPrefix(target, "#step-")
	n, err := strconv.Atoi(digits)
	if !found || err != nil {
		return 0
	}
	return n
}

// graph finds the ways out of each step; index 0 is none.
func (c *checker) graph(page *guide.Guide) []exits {
	last := len(page.Steps)
	graph := make([]exits, last+1)
	for _, step := range page.Steps {
		e := &graph[step.Number]
		if bodyStop(step) {
			e.ends = true
			continue
		}
		onward := c.collectExits(step, e)
		if onward && step.Number < last {
			e.to = append(e.to, step.Number+1)
		}
		e.ends = e.ends || len(step.Stops) > 0 || onward && step.Number == last
		e.to = slices.DeleteFunc(e.to, func(n int) bool { return n > last }) // a step that is not there is refused elsewhere
	}
	return graph
}

// bodyStop tells whether a stop stands in the step itself, not in one of its ways.
func bodyStop(step *guide.Step) bool {
	return slices.ContainsFunc(step.Stops, func(stop *guide.StopRef) bool {
		parent := stop.Parent()
		return parent != nil && (parent.Kind() == guide.KindRest || parent.Kind() == guide.KindStep)
	})
}

// collectExits gathers the places that a step names; onward tells whether the next step follows.
func (c *checker) collectExits(step *guide.Step, e *exits) (onward bool) {
	expects, elsewhere := 0, 0
	for _, p := range c.ofStep[step] {
		mentioned := stepMentions(p.words)
		e.take(p, mentioned)
		switch p.part {
		case ifNotPart:
			onward = onward || goesOn(p.words)
			e.ends = e.ends || len(handsOver().find(p.words)) > 0
		case expectPart:
			expects++
			if sendsAway(p, len(mentioned)) {
				elsewhere++
			}
		}
	}
	return onward || elsewhere < max(expects, 1)
}

// take adds the links and the numbered steps of a passage.
func (e *exits) take(p *passage, mentioned []mention) {
	for _, link := range p.links {
		if n := stepOf(link.Target); n > 0 {
			e.to = append(e.to, n)
		} else {
			e.ends = true
		}
	}
	for _, m := range mentioned {
		e.to = append(e.to, m.number)
	}
}

// knownSteps refuses steps by numbers that the page does not have.
func (c *checker) knownSteps(page *guide.Guide) {
	for _, p := range c.text {
		if !isWork(page, p) {
			continue
		}
		for _, m := range stepMentions(p.words) {
			if m.number > len(page.Steps) {
				c.refuse("no-such-step", p.span(page.File, m.from, m.to), fmt.Sprintf("the page has no step %d", m.number), "it has "+count(len(page.Steps), "step"))
			}
		}
	}
}
