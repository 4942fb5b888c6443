package ladder

// want is a label that would like its middle at a place, and the room it takes along the axis.
type want struct {
	at, size float64
}

// spread gives the middles of labels, in order of place, so that none overlaps its
// neighbour, none leaves the room between low and high, and together they move as
// little as possible (least squares: neighbours that collide form a group, which
// rests on the mean of what its members want). If the labels need more room than
// there is, they start at low and run over high; the caller makes the room first.
func spread(wants []want, low, high float64) []float64 {
	groups := make([]cluster, 0, len(wants))
	for i, w := range wants {
		groups = append(groups, cluster{first: i, count: 1, size: w.size, sum: w.at - w.size/2})
		groups[len(groups)-1].rest(low, high)
		for len(groups) > 1 && groups[len(groups)-2].end() > groups[len(groups)-1].start {
			last := groups[len(groups)-1]
			groups = groups[:len(groups)-1]
			groups[len(groups)-1].take(last)
			groups[len(groups)-1].rest(low, high)
		}
	}
	middles := make([]float64, len(wants))
	for _, group := range groups {
		at := group.start
		for i := group.first; i < group.first+group.count; i++ {
			middles[i] = at + wants[i].size/2
			at += wants[i].size
		}
	}
	return middles
}

// cluster is a run of labels that touch one another.
type cluster struct {
	first, count int
	size, start  float64
	sum          float64 // of the starts that the members want for the whole cluster
}

func (c *cluster) end() float64 { return c.start + c.size }

// take puts a following cluster behind this one.
func (c *cluster) take(next cluster) {
	c.sum += next.sum - c.size*float64(next.count)
	c.count += next.count
	c.size += next.size
}

// rest finds the start that suits the members best within the room.
func (c *cluster) rest(low, high float64) {
	c.start = c.sum / float64(c.count)
	c.start = max(low, min(c.start, high-c.size))
}
