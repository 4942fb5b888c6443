package guide

import (
	"strconv"
	"strings"
	"testing"

	"blankoff/build/source"
)

func TestExampleBlocks(t *testing.T) {
	const head = "---\ntitle: x\nreader: shop\n---\n"
	for _, c := range []struct{ name, text, rules, fault string }{
		{"alone", "```example step-expect\n```\n", "5:12 step-expect", ""},
		{"with spaces around", "```example   fact  \n```\n", "5:14 fact", ""},
		{"without a name", "```example\n```\n", "5:4 ", ""},
		{"two, one in a list", "```example a\n```\n\n- x\n\n  ```example b\n  ```\n", "5:12 a, 10:14 b", ""},
		{"with lines of its own", "```example fact\nx\n```\n", "5:12 fact", "5:12: example-block: the lines of an example block are not shown"},
		{"another language", "```examples fact\n```\n", "", ""},
		{"windows line ends", "```example fact\r\n```\r\n", "5:12 fact", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			g, faults := Parse(&source.File{Path: "pages/x.md", Text: head + c.text}, Page)
			var found []string
			for _, block := range g.Examples {
				found = append(found, shownAt(block.Span)+" "+block.RuleName)
			}
			if got := strings.Join(found, ", "); got != c.rules {
				t.Errorf("found %q, want %q", got, c.rules)
			}
			said := ""
			for _, f := range faults {
				said += shownAt(f.Span) + ": " + f.Rule + ": " + f.Message
			}
			if said != c.fault {
				t.Errorf("said %q, want %q", said, c.fault)
			}
		})
	}
}

func shownAt(span source.Span) string {
	at := span.Position()
	return strconv.Itoa(at.Line) + ":" + strconv.Itoa(at.Column)
}
