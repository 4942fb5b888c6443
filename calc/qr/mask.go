package qr

const masks = 8

// mask turns the data over where the mask says so, and writes the format; a second time takes it back.
func (c *Code) mask(mask int) {
	c.Mask = mask
	c.format(mask)
	for y := range c.Size {
		for x := range c.Size {
			if at := y*c.Size + x; !c.fixed[at] && masked(mask, x, y) {
				c.dark[at] = !c.dark[at]
			}
		}
	}
}

func masked(mask, x, y int) bool {
	switch mask {
	case 0:
		return (x+y)%2 == 0
	case 1:
		return y%2 == 0
	case 2:
		return x%3 == 0
	case 3:
		return (x+y)%3 == 0
	case 4:
		return (x/3+y/2)%2 == 0
	case 5:
		return x*y%2+x*y%3 == 0
	case 6:
		return (x*y%2+x*y%3)%2 == 0
	}
	return ((x+y)%2+x*y%3)%2 == 0
}

// penalty counts what makes a code hard to read.
func (c *Code) penalty() int {
	sum, dark := 0, 0
	for i := range c.Size {
		sum += c.line(i*c.Size, 1) + c.line(i, c.Size)
	}
	for y := 1; y < c.Size; y++ {
		for at := y*c.Size + 1; at < (y+1)*c.Size; at++ {
			if d := c.dark[at]; d == c.dark[at-1] && d == c.dark[at-c.Size] && d == c.dark[at-c.Size-1] {
				sum += 3 // a square of two by two
			}
		}
	}
	for _, d := range c.dark {
		if d {
			dark++
		}
	}
	// Ten for each whole 5 % away from half and half.
	all := len(c.dark)
	return sum + max(20*dark-10*all, 10*all-20*dark)/all*10
}

// line counts runs of five and more, and what looks like a finder with light on one side. What lies outside the code is light.
func (c *Code) line(at, step int) int {
	sum, run := 0, 0
	before := false
	recent := 0 // the last eleven, the newest lowest
	for i := range c.Size + 4 {
		d := i < c.Size && c.dark[at+i*step]
		if i < c.Size {
			if i > 0 && d == before {
				run++
			} else {
				run = 1
			}
			switch {
			case run == 5:
				sum += 3
			case run > 5:
				sum++
			}
			before = d
		}
		recent = recent << 1 & 0x7FF
		if d {
			recent |= 1
		}
		// 1:1:3:1:1 with four light modules before it or after it.
		if recent == 0b00001011101 && i < c.Size || recent == 0b10111010000 {
			sum += 40
		}
	}
	return sum
}
