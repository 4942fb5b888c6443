package picture

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"
)

// Base is the foot of a sensor tube.
type Base struct {
	Name      string
	Joined    bool // the couple is welded to the heater
	Positions int
	Pins      []Pin // positions that are not named have no pin
}

// Pin is what a position is for: heater, couple, case, or any other word.
type Pin struct {
	Number int
	Role   string
}

const (
	heater = "heater"
	couple = "couple"
)

// Where the base stands in the picture, and how far from its middle pins and words are.
const (
	baseX, baseY = wide / 2, 112.0
	rim          = 76.0
	ring         = 54.0
	pinSize      = 9.5
	words        = 90.0
	post         = 17.0
)

// Pins draws a base as it is held for counting: its pins to the eye, its key up. Positions are counted clockwise from the key.
func Pins(b Base) (*Drawing, error) {
	if b.Positions < 3 || b.Positions > 14 {
		return nil, fmt.Errorf("a base of %d positions cannot be drawn: write base: 8, or what the tube has, from 3 to 14", b.Positions)
	}
	roles := map[int]string{}
	for _, pin := range b.Pins {
		if pin.Number < 1 || pin.Number > b.Positions {
			return nil, fmt.Errorf("pin %d is not on a base of %d positions", pin.Number, b.Positions)
		}
		roles[pin.Number] = pin.Role
	}
	if len(roles) == 0 {
		return nil, errors.New("there are no pins to draw")
	}
	var c canvas
	c.circle(face, baseX, baseY, rim)
	c.key(180 / float64(b.Positions))
	for n := 1; n <= b.Positions; n++ {
		c.pin(n, roles[n], (float64(n)-0.5)*360/float64(b.Positions))
	}
	c.text("", middle, baseX, 228, "seen from the pin side, key up")
	c.text("", middle, baseX, 228+lead, b.within())
	d := &Drawing{Title: "Pins of the " + b.Name + ", seen from the pin side", Words: b.inWords(roles), Tells: b.tells(roles)}
	return c.done(d, 254), nil
}

// key draws the post with its key, and the way in which is counted.
func (c *canvas) key(first float64) {
	c.circle("", baseX, baseY, post)
	top := baseY - post - 9
	c.path(solid, m(baseX-5, baseY-post+1)+l(baseX-5, top)+"h10"+l(baseX+5, baseY-post+1)+"z")
	c.path(dim, m(baseX, top-4)+l(baseX, baseY-rim-8))
	c.text("", middle, baseX, baseY-rim-14, "key")
	const r = 33.0
	ax, ay := polar(baseX, baseY, r, first)
	bx, by := polar(baseX, baseY, r, first+90)
	c.path("", m(ax, ay)+"A"+px(r)+" "+px(r)+" 0 0 1 "+px(bx)+" "+px(by))
	sx, sy := polar(baseX, baseY, r-5, first+80)
	ex, ey := polar(baseX, baseY, r+5, first+78)
	c.path("", m(sx, sy)+l(bx, by)+l(ex, ey))
}

// pin draws a position with its number and word. A heater's pin is striped, a couple's is full, any other is crossed.
func (c *canvas) pin(n int, role string, degrees float64) {
	x, y := polar(baseX, baseY, ring, degrees)
	label, class := strings.TrimSpace(strconv.Itoa(n)+" "+shorten(role, 62)), bold
	switch role {
	case heater:
		c.circle(hand, x, y, pinSize)
		c.path("", stripes(x, y, pinSize))
	case couple:
		c.circle(solid, x, y, pinSize)
	case "", "none":
		c.circle(dashed, x, y, pinSize)
		label, class = strconv.Itoa(n), dim
	default:
		const arm = pinSize * math.Sqrt2 / 2
		c.circle(hand, x, y, pinSize)
		c.path("", m(x-arm, y-arm)+l(x+arm, y+arm)+m(x+arm, y-arm)+l(x-arm, y+arm))
	}
	tx, ty := polar(baseX, baseY, words, degrees)
	anchor := start
	switch sin := math.Sin(degrees * math.Pi / 180); {
	case math.Abs(sin) < 0.01:
		anchor = middle
	case sin < 0:
		anchor = end
	}
	c.text(class, anchor, tx, ty+size*0.35, label)
}

// stripes fills a circle with slanting lines.
func stripes(x, y, r float64) string {
	var path strings.Builder
	for _, off := range []float64{-r / 2, 0, r / 2} {
		half := math.Sqrt(r*r - off*off)
		dx, dy := (off-half)/math.Sqrt2, (off+half)/math.Sqrt2
		ex, ey := (off+half)/math.Sqrt2, (off-half)/math.Sqrt2
		path.WriteString(m(x+dx, y+dy) + l(x+ex, y+ey))
	}
	return path.String()
}

func (b Base) within() string {
	if b.Joined {
		return "joined: couple welded to the heater"
	}
	return "insulated: couple free of the heater"
}

// inWords tells the map: heater on 1 and 4, couple on 6 and 7.
func (b Base) inWords(roles map[int]string) string {
	var parts []string
	seen := map[string]bool{"": true, "none": true}
	for n := 1; n <= b.Positions; n++ {
		if role := roles[n]; !seen[role] {
			seen[role] = true
			parts = append(parts, role+" on "+strings.Join(b.of(role, roles), " and "))
		}
	}
	return strings.Join(parts, ", ") + ", counted clockwise from the key over " + strconv.Itoa(b.Positions) + " positions"
}

func (b Base) of(role string, roles map[int]string) []string {
	var list []string
	for n := 1; n <= b.Positions; n++ {
		if roles[n] == role {
			list = append(list, strconv.Itoa(n))
		}
	}
	return list
}

func (b Base) tells(roles map[int]string) []string {
	var list []string
	for _, role := range []string{heater, couple} {
		if numbers := b.of(role, roles); len(numbers) > 0 {
			list = append(append(list, role), numbers...)
		}
	}
	return list
}
