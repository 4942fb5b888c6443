package qr

// blank gives a code with all of its patterns and without data; format and version are written with the mask.
func blank(version int, level Level) *Code {
	size := 4*version + 17
	c := &Code{Version: version, Level: level, Size: size, dark: make([]bool, size*size), fixed: make([]bool, size*size)}
	for i := range size { // the two dotted lines that give the pace
		c.set(6, i, i%2 == 0)
		c.set(i, 6, i%2 == 0)
	}
	c.rings(3, 3, 4, 2)
	c.rings(size-4, 3, 4, 2)
	c.rings(3, size-4, 4, 2)
	places := alignments(version)
	last := len(places) - 1
	for i, x := range places {
		for j, y := range places {
			if i == 0 && j == 0 || i == 0 && j == last || i == last && j == 0 {
				continue // there are the finders
			}
			c.rings(x, y, 2, 1)
		}
	}
	c.format(0) // takes the room
	c.version()
	return c
}

func (c *Code) set(x, y int, dark bool) {
	if x < 0 || y < 0 || x >= c.Size || y >= c.Size {
		return // the light ring of a finder reaches over the edge
	}
	c.dark[y*c.Size+x], c.fixed[y*c.Size+x] = dark, true
}

// rings draws squares around a place, light where the distance is that of light or of the outermost of four.
func (c *Code) rings(x, y, reach, light int) {
	for dy := -reach; dy <= reach; dy++ {
		for dx := -reach; dx <= reach; dx++ {
			far := max(dx, -dx, dy, -dy)
			c.set(x+dx, y+dy, far != light && far != 4)
		}
	}
}

// alignments lists the coordinates of the small squares: 6, then evenly spaced from the far edge back.
func alignments(version int) []int {
	if version == 1 {
		return nil
	}
	n := version/7 + 2
	step := (version*4 + n*2 + 1) / (n*2 - 2) * 2
	if version == 32 {
		step = 26
	}
	places := make([]int, n)
	places[0] = 6
	for i, at := n-1, 4*version+10; i > 0; i, at = i-1, at-step {
		places[i] = at
	}
	return places
}

// checked appends the remainder by a generator of so many bits.
func checked(value, generator, bits int) int {
	rest := value
	for range bits {
		rest = rest<<1 ^ rest>>(bits-1)*generator
	}
	return value<<bits | rest
}

// format writes level and mask, twice.
func (c *Code) format(mask int) {
	// Of the levels the standard numbers M first, then L, H and Q.
	bits := checked(int(c.Level^1)<<3|mask, 0x537, 10) ^ 0x5412
	for i := range 15 {
		dark := bits>>i&1 == 1
		// Down the eighth column, past the dotted line, and on at the lower edge.
		y := i
		switch {
		case i >= 8:
			y = c.Size - 15 + i
		case i >= 6:
			y++
		}
		c.set(8, y, dark)
		// From the right edge along the eighth row, and on at the left.
		x := c.Size - 1 - i
		switch {
		case i >= 9:
			x = 14 - i
		case i == 8:
			x = 7
		}
		c.set(x, 8, dark)
	}
	c.set(8, c.Size-8, true)
}

// version writes the version, twice, from the seventh on.
func (c *Code) version() {
	if c.Version < 7 {
		return
	}
	bits := checked(c.Version, 0x1F25, 12)
	for i := range 18 {
		dark := bits>>i&1 == 1
		a, b := c.Size-11+i%3, i/3
		c.set(a, b, dark)
		c.set(b, a, dark)
	}
}

// place lays the words into what is free: two columns at a time, from the right, up and down in turn.
func (c *Code) place(words []byte) {
	at := 0
	for right := c.Size - 1; right > 0; right -= 2 {
		if right == 6 {
			right-- // the dotted line
		}
		for i := range c.Size {
			y := i
			if (right+1)&2 == 0 {
				y = c.Size - 1 - i
			}
			for x := right; x > right-2; x-- {
				if !c.fixed[y*c.Size+x] && at < 8*len(words) {
					c.dark[y*c.Size+x] = words[at>>3]>>(7-at&7)&1 == 1
					at++
				}
			}
		}
	}
}
