package verify

import (
	"fmt"
	"slices"
	"strings"

	"blankoff/build/guide"
	"blankoff/build/source"
)

// procedureSections are the parts of a procedure in the order of the work.
var procedureSections = []struct{ id, title, holds string }{
	{"before-you-start", "Before you start", "what must be so before step 1, and the hazards of the whole work"},
	{"steps", "Steps", "the work"},
	{"afterwards", "Afterwards", "how the machine is left: joints closed, tools counted, what proves the work"},
	{"record", "Record", "what is written down"},
}

// nearTitle finds the section whose title is nearly the wanted one.
func nearTitle(page *guide.Guide, title string) *guide.Section {
	for _, section := range page.Sections {
		if source.Nearest(strings.ToLower(section.Title), []string{strings.ToLower(title)}) != "" {
			return section
		}
	}
	return nil
}

// sections checks that a procedure has its four parts, in their order.
func (c *checker) sections(page *guide.Guide) {
	if page.Kind != guide.Procedure {
		return
	}
	last := -1
	for _, section := range page.Sections {
		i := slices.IndexFunc(procedureSections, func(s struct{ id, title, holds string }) bool { return s.id == section.ID })
		switch {
		case i < 0:
		case i < last:
			c.refuse("sections", section.Heading.Span, "the section "+source.Quote(section.Title)+" comes after "+source.Quote(procedureSections[last].title),
				"the order is Before you start, Steps, Afterwards, Record: that of the work")
		default:
			last = i
		}
		if i >= 0 && len(section.Nodes) == 0 && section.ID != "steps" { // for empty steps there is a rule of its own
			c.refuse("sections", section.Heading.Span, "the section "+source.Quote(section.Title)+" is empty", "write "+procedureSections[i].holds)
		}
	}
	var missing, holds []string
	for _, want := range procedureSections {
		if page.Section(want.id) == nil && want.id != "steps" {
			missing = append(missing, source.Quote(want.title))
			if near := nearTitle(page, want.title); near != nil {
				holds = append(holds, fmt.Sprintf("the heading %s in line %d is nearly it: write `## %s`", source.Quote(near.Title), near.Heading.Span.Position().Line, want.title))
				continue
			}
			holds = append(holds, "write `## "+want.title+"` with "+want.holds)
		}
	}
	if len(missing) > 0 {
		c.refuse("sections", page.Header.Span, "the procedure has no section "+either(missing), strings.Join(holds, "\n"))
	}
}
