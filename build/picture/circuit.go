package picture

import "strings"

// Circuit is the way of the gas through a machine, with what its card says of each part. An empty text is not drawn.
type Circuit struct {
	Machine    string
	Chamber    string // its volume
	Trap       string // its temperature
	Drain      string // its bore
	Bore       string // of the hose
	Length     string // of the hose
	Pump       string // its speed
	Tube       string // the sensor
	Thread     string // of the sensor
	Separation Separation
}

// Separation is where the chamber can be closed off from the pump.
type Separation int

// The ways to close a chamber off. Unknown draws a plain line.
const (
	Unknown Separation = iota
	Valve
	Tee
)

// The chamber's walls, the height of the line to the pump, and where hose and pump are.
const (
	wallLeft, wallRight = 84.0, 226.0
	wallTop, wallBottom = 60.0, 182.0
	lineY               = 116.0
	hoseX               = 292.0
	pumpY, pumpSize     = 270.0, 20.0
)

// Draw draws the circuit from door to pump.
func (k Circuit) Draw() *Drawing {
	var c canvas
	c.chamber(k)
	c.sensor(k)
	c.drain(k)
	c.separation(k.Separation)
	c.hose(k)
	c.pump(k)
	d := &Drawing{Title: "Vacuum circuit of the " + k.Machine, Words: k.inWords(), Tells: []string{"chamber", "hose", "pump"}}
	if word := k.Separation.word(); word != "" {
		d.Tells = append(d.Tells, word)
	}
	return c.done(d, pumpY+pumpSize+8)
}

func (s Separation) word() string { return [...]string{"", "valve", "tee"}[s] }

// label writes the name of a part and its value under it, as far as there is one.
func (c *canvas) label(anchor string, x, y float64, part, value string, width float64) {
	c.text(bold, anchor, x, y, part)
	if value != "" {
		c.text("", anchor, x, y+lead, shorten(value, width))
	}
}

func (c *canvas) chamber(k Circuit) {
	c.path(face, m(wallLeft, wallTop)+"H"+px(wallRight)+"V"+px(wallBottom)+"H"+px(wallLeft)+"z")
	c.path(bold, m(wallLeft-7, wallTop+4)+"V"+px(wallBottom-4))
	c.text(bold, end, wallLeft-14, lineY+4, "door")
	const inside = wallRight - wallLeft - 8
	x := (wallLeft + wallRight) / 2
	c.label(middle, x, wallTop+20, "chamber", k.Chamber, inside)
	c.label(middle, x, wallTop+66, "cold trap", k.Trap, inside)
	c.path(bold, m(wallLeft+17, wallBottom-19)+strings.Repeat("l9 10l9 -10", 6)) // the trap's coil
}

func (c *canvas) sensor(k Circuit) {
	const x, y, r = wallLeft + 30, 30.0, 13.0
	c.path("", m(x, wallTop)+"V"+px(y+r))
	c.circle(hand, x, y, r)
	c.path("", m(x-6, y+4)+l(x-1, y-5)+l(x+6, y+4)) // a couple on its wire
	value := k.Tube
	if k.Thread != "" {
		value = strings.TrimPrefix(value+", "+k.Thread, ", ")
	}
	c.label(start, x+r+8, y-4, "vacuum sensor", value, wide-x-r-10)
}

// drain draws the drain with its valve below the chamber.
func (c *canvas) drain(k Circuit) {
	const x, y = wallLeft + 30, wallBottom + 28
	c.path("", m(x, wallBottom)+"V"+px(y-10)+m(x, y+10)+"v12")
	c.path(hand, m(x-8, y-10)+"h16l-16 20h16z")
	c.label(end, x-16, y, "drain valve", k.Drain, x-18)
}

func (c *canvas) separation(s Separation) {
	const x = 258.0
	switch s {
	case Valve:
		c.path("", m(wallRight, lineY)+"H"+px(x-12)+m(x+12, lineY)+"H"+px(hoseX))
		c.path(hand, m(x-12, lineY-9)+"v18l24 -18v18z")
		c.text(bold, middle, 278, lineY-40, "isolation", "valve")
	case Tee:
		c.path("", m(wallRight, lineY)+"H"+px(hoseX)+m(x, lineY)+"v-14")
		c.path(bold, m(x-8, lineY-14)+"h16")
		c.label(middle, 280, lineY-40, "service tee", "no valve", 100)
	default:
		c.path("", m(wallRight, lineY)+"H"+px(hoseX))
	}
}

// hose draws the hose as two walls.
func (c *canvas) hose(k Circuit) {
	c.path("", m(hoseX, lineY)+"v4"+m(hoseX-4, lineY+4)+"V"+px(pumpY-pumpSize)+m(hoseX+4, lineY+4)+"V"+px(pumpY-pumpSize))
	c.path(bold, m(hoseX-9, lineY+4)+"h18"+m(hoseX-9, pumpY-pumpSize)+"h18")
	value := k.Bore
	if k.Length != "" {
		value = strings.TrimPrefix(value+" × "+k.Length, " × ")
	}
	c.label(end, hoseX-16, wallBottom+14, "hose", value, 150)
}

func (c *canvas) pump(k Circuit) {
	c.circle(face, hoseX, pumpY, pumpSize)
	c.path("", m(hoseX-14, pumpY-12)+l(hoseX, pumpY+18)+l(hoseX+14, pumpY-12))
	c.label(end, hoseX-pumpSize-10, pumpY-4, "pump", k.Pump, 200)
}

func (k Circuit) inWords() string {
	with := func(what, word, value string) string {
		if value == "" {
			return what
		}
		return what + " " + word + " " + value
	}
	between := map[Separation]string{Valve: "an isolation valve, ", Tee: "a service tee and no valve, "}[k.Separation]
	hose := with(with("a hose", "of bore", k.Bore), "of length", k.Length)
	return with("chamber", "of", k.Chamber) + " with door, drain valve and vacuum sensor, the cold trap inside; then " + between + hose + "; then the pump"
}
