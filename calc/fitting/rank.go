package fitting

import "math"

// standing says how a thread of the list stands against what was measured.
type standing uint8

const (
	excluded standing = iota // cannot be it, uncertainty allowed for
	possible                 // may be it
	fits                     // is surely near enough in both measures
)

// What a real thread of the right kind may differ by. The diameter: how it was made, how
// worn it is, and how far along a taper it was measured (common practice, no source). The
// count: halfway to the next whole one.
const (
	nearDiameter = 0.35 // mm
	nearCount    = 0.5  // threads per inch
)

// tie lets what is equal in other units compare as equal.
const tie = 1e-9

// measured is a thread as the caliper and the thread gauge found it; accuracies are
// expanded. Count is NaN where the pitch was not taken.
type measured struct {
	_              [0]func() // never compared: saves the code for it
	diameter, wide float64   // mm
	count, apart   float64   // threads per inch
	female         bool
	taper          int // 0 not known, 1 yes, -1 no
	angle          int // 0 not known, else 55 or 60
}

// candidate is one thread of the list, compared.
type candidate struct {
	_                 [0]func() // never compared: saves the code for it
	pipe              *pipe
	expected          float64 // mm
	offWidth, offTurn float64 // measured less expected, mm and threads per inch
	misfit            float64 // both together, as shares of what is allowed
	standing          standing
	why               string // of an exclusion
}

// compare is the rule by which less uncertainty may settle a doubt and never reverses a
// verdict: what surely fits goes on to fit, and what is excluded stays so.
func (m *measured) compare(p *pipe) *candidate {
	c := &candidate{pipe: p, expected: p.major, standing: fits}
	if m.female {
		c.expected = p.minor()
	}
	c.offWidth, c.offTurn = settled(m.diameter-c.expected), settled(m.count-p.count)
	c.misfit = math.Abs(c.offWidth) / nearDiameter
	c.judge(m.wide, c.offWidth, nearDiameter, "diameter")
	c.judge(m.apart, c.offTurn, nearCount, "pitch")
	if m.count == m.count {
		c.misfit = math.Hypot(c.misfit, c.offTurn/nearCount)
	}
	c.require(m.taper == 0 || p.tapered() == (m.taper > 0), "taper")
	c.require(m.angle == 0 || (p.form == npt) == (m.angle == 60), "flank angle")
	return c
}

// settled takes the last bits of a unit conversion off: what is nought is shown as nought.
func settled(off float64) float64 {
	if math.Abs(off) < tie {
		return 0
	}
	return off
}

// judge compares one measure: how far it is off, how far that may be wrong, and how far
// it may be off. Without it, as NaN says, no thread is known.
func (c *candidate) judge(wrong, off, near float64, what string) {
	off = math.Abs(off)
	c.require(!(off-wrong >= near-tie), what)
	if !(off+wrong <= near+tie) && c.standing == fits {
		c.standing = possible
	}
}

func (c *candidate) require(met bool, what string) {
	if !met && c.standing != excluded {
		c.standing, c.why = excluded, what
	}
}

// rank compares the whole list: what is not excluded first, then by misfit. Threads alike
// in both keep the order of the list.
func (m *measured) rank() []*candidate {
	list := make([]*candidate, len(pipes))
	for i := range pipes {
		c, at := m.compare(&pipes[i]), i
		for ; at > 0; at-- {
			other := list[at-1]
			if !c.before(other) {
				break
			}
			list[at] = other
		}
		list[at] = c
	}
	return list
}

func (c *candidate) before(other *candidate) bool {
	if (c.standing == excluded) != (other.standing == excluded) {
		return other.standing == excluded
	}
	return c.misfit < other.misfit-tie
}
