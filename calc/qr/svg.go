package qr

import "strconv"

// Quiet is the width of the light margin that readers need, in modules.
const Quiet = 4

// SVG is the whole code with its quiet zone, black on white whatever surrounds it. On paper a module is half a millimetre. The label is for
// those who cannot see it, and must not hold what XML escapes.
func (c *Code) SVG(label string) string {
	side := strconv.Itoa(c.Size + 2*Quiet)
	mm := strconv.Itoa(c.Size/2+Quiet) + ".5mm" // sizes are odd
	return `<svg class="code" width="` + mm + `" height="` + mm + `" viewBox="0 0 ` + side + " " + side + `" shape-rendering="crispEdges" role="img" aria-label="` + label +
		`"><path fill="#fff" d="M0 0h` + side + "v" + side + `H0z"/><path fill="#000" d="` + c.Path() + `"/></svg>`
}

// Path draws the dark modules, each run of a row as one rectangle.
func (c *Code) Path() string {
	var out []byte
	number := func(before string, n int) { out = strconv.AppendInt(append(out, before...), int64(n), 10) }
	for y := range c.Size {
		for x := 0; x < c.Size; x++ {
			from := x
			for c.Dark(x, y) {
				x++
			}
			if x > from {
				number("M", from+Quiet)
				number(" ", y+Quiet)
				number("h", x-from)
				number("v1h-", x-from)
				out = append(out, 'z')
			}
		}
	}
	return string(out)
}
