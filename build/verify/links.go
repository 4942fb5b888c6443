package verify

import (
	"net/url"
	"path"
	"regexp"
	"slices"
	"strings"

	"blankoff/build/drawn"
	"blankoff/build/guide"
	"blankoff/build/load"
	"blankoff/build/source"
	"blankoff/calc"
	"blankoff/calc/declare"
)

// links checks every link and picture: there, and harmless.
func (c *checker) links(page *guide.Guide) {
	for _, link := range page.Links {
		if link.Picture {
			c.picture(page, link)
			continue
		}
		if link.Text == "" && !holdsPicture(page, link) {
			c.refuse("link-text", link.Span, "the link has no text", "write between the brackets where it leads")
		}
		c.link(page, link)
	}
}

// ofOurs are the schemes that a browser knows nothing of: written <machine:cindle-14>, they would lead nowhere.
var ofOurs = []string{"hazard", "stop", "calculator", "machine", "rule"}

func (c *checker) link(page *guide.Guide, link *guide.Link) {
	scheme, name, has := splitScheme(link.Target)
	if !has {
		c.pageLink(page, link)
		return
	}
	if written, _, _ := strings.Cut(link.Target, ":"); written != scheme && (slices.Contains(ofOurs, scheme) || scheme == "spec" || scheme == "calc") {
		c.refuse("scheme", link.Span, "links of the kind "+source.Quote(scheme+":")+" are written in small letters and without spaces", "write "+scheme+":"+name)
		return
	}
	if link.Auto && slices.Contains(ofOurs, scheme) {
		c.refuse("link-text", link.Span, "a "+scheme+" link needs a text", "write [TEXT]("+link.Target+")")
		return
	}
	switch scheme {
	case "http", "https", "mailto", "tel":
	case "hazard", "stop": // guide.Parse has said what is wrong with its place
	case "spec", "calc":
		c.refuse("link-text", link.Span, "a "+scheme+" link needs the text that it proves", "write [28 L]("+scheme+":…)")
	case "calculator":
		known := names(calc.All(), func(c *declare.Calculator) string { return c.ID })
		c.oneOf("unknown-calculator", link, "there is no calculator ", name, known)
	case "rule":
		c.ruleLink(link, name)
	case "machine":
		c.oneOf("unknown-machine", link, "there is no machine ", name, c.library.MachineNames())
	default:
		c.refuse("scheme", link.Span, "links of the kind "+source.Quote(scheme+":")+" are refused",
			"link to a page, or use https:, mailto:, tel:, calculator:, machine: or rule:")
	}
}

func (c *checker) oneOf(rule string, link *guide.Link, message, name string, known []string) {
	if !slices.Contains(known, name) {
		c.refuse(rule, link.Span, message+source.Quote(name), c.near(name, func() []string { return known }))
	}
}

// splitScheme finds a URL's scheme as browsers do, which skip control characters and white space.
func splitScheme(target string) (scheme, rest string, has bool) {
	squeezed := strings.Map(func(r rune) rune {
		if r <= ' ' || r == 0x7f {
			return -1
		}
		return r
	}, target)
	scheme, rest, has = strings.Cut(squeezed, ":")
	if !has || strings.ContainsAny(scheme, "/?#") {
		return "", "", false
	}
	return strings.ToLower(scheme), rest, true
}

// pageLink checks a link to a page of ours, or to a place in one.
func (c *checker) pageLink(from *guide.Guide, link *guide.Link) {
	target, anchor, hasAnchor := strings.Cut(link.Target, "#")
	at, err := url.PathUnescape(target)
	if err != nil || strings.HasPrefix(target, "/") || strings.ContainsAny(target, "?\\") {
		c.refuse("link", link.Span, source.Quote(link.Target)+" is no link to a page", "write the file as seen from here: ../symptoms/low.md")
		return
	}
	page := from
	if at != "" {
		at = path.Join(path.Dir(from.File.Path), at)
		if c.library.Picture(at) != nil && !hasAnchor {
			return
		}
		if page = c.library.Guide(strings.TrimSuffix(at, ".md")); page == nil || !strings.HasSuffix(at, ".md") {
			c.missingPage(from, link, at)
			return
		}
	} else if !hasAnchor {
		c.refuse("link", link.Span, "the link leads nowhere", "write where it leads: valve-check.md, #step-3")
		return
	}
	if hasAnchor && c.anchors.has(page, anchor) {
		c.otherStep(from, link, anchor)
	} else if hasAnchor {
		c.refuse("anchor", link.Span, page.File.Name+" has no place "+source.Quote(anchor),
			join(c.near(anchor, page.Anchors), "a place is a heading or a step: #before-you-start, #step-3"))
	}
}

var stepText = regexp.MustCompile(`(?i)^step (\d+)$`)

// otherStep tells of a link that says one step and leads to another.
func (c *checker) otherStep(page *guide.Guide, link *guide.Link, anchor string) {
	said := stepText.FindStringSubmatch(link.Text)
	if said == nil || strings.HasPrefix(link.Target, "#") && !slices.Contains(page.Anchors(), "step-"+said[1]) {
		return // of a step that is not there its own rule tells
	}
	if led, isStep := strings.CutPrefix(anchor, "step-"); isStep && led != said[1] {
		c.refuse("no-such-step", link.TextSpan, "the text says step "+said[1]+", and the link leads to step "+led, "make both the same")
	}
}

func (c *checker) missingPage(from *guide.Guide, link *guide.Link, at string) {
	if slices.Contains(c.library.Unread, at) {
		return // it is there; what is wrong with it has been said
	}
	target, _, _ := strings.Cut(link.Target, "#")
	hint := c.near(target, func() []string {
		return names(c.library.Guides, func(g *guide.Guide) string { return relative(path.Dir(from.File.Path), g.File.Path) })
	})
	for _, g := range c.library.Guides { // the right name in the wrong folder
		if path.Base(strings.TrimSuffix(at, ".md")) == g.Name {
			hint = "did you mean " + relative(path.Dir(from.File.Path), g.File.Path) + "?"
		}
	}
	c.refuse("link", link.Span, "there is no page "+source.Quote(target), hint)
}

// mostGuesses is for how many wrong links of a page the right one is looked for: each is compared with all that there are,
// and a page with more has another fault than a slip.
const mostGuesses = 100

// near is a hint for a wrong name, as long as the page has few of them.
func (c *checker) near(name string, known func() []string) string {
	if c.guesses++; c.guesses > mostGuesses {
		return ""
	}
	return source.DidYouMean(name, known())
}

// relative is the way from a folder to a file, both one level deep in the content folder.
func relative(folder, file string) string {
	if path.Dir(file) == folder {
		return path.Base(file)
	}
	return "../" + file
}

// picture checks that a picture is ours and can be told to those who do not see it.
func (c *checker) picture(page *guide.Guide, link *guide.Link) {
	if link.Text == "" {
		c.refuse("picture-text", link.TextSpan, "the picture has no text for those who cannot see it", "write what it shows: ![the drain valve, handle across](…)")
	}
	if strings.HasPrefix(link.Target, drawn.Scheme) {
		c.refuse("drawn", link.Span, "a drawn picture must stand alone in its paragraph", "put it into a paragraph of its own, with an empty line before and behind it")
		return
	}
	if _, _, has := splitScheme(link.Target); has || strings.HasPrefix(link.Target, "//") {
		c.refuse("picture", link.Span, "a picture must lie in pictures/", "save it there and write ../pictures/NAME.svg; pages load nothing from elsewhere")
		return
	}
	at, err := url.PathUnescape(link.Target)
	at = path.Join(path.Dir(page.File.Path), at)
	if err != nil || c.library.Picture(at) == nil {
		hint := c.near(link.Target, func() []string {
			return names(c.library.Pictures, func(p *load.Picture) string { return relative(path.Dir(page.File.Path), p.Path) })
		})
		c.refuse("picture", link.Span, "there is no picture "+source.Quote(link.Target), join(hint, "pictures lie in pictures/"))
	}
}

// holdsPicture tells whether a link's text is a picture.
func holdsPicture(page *guide.Guide, link *guide.Link) bool {
	return slices.ContainsFunc(page.Links, func(other *guide.Link) bool {
		return other.Picture && other.Node.Parent() == link.Node
	})
}
