package parcel

// The coder reckons in numbers of so many digits.
const places, first = 18, 1e17

// coder narrows a range of numbers, bit by bit: the likelier a bit, the less. The digits that both ends of the range begin
// with are settled, and written. Who reads them narrows the same range to where they lie.
type coder struct {
	model
	out       []byte
	digits    string // to read
	low, high uint64
	value     uint64 // of the digits that lie in the range
	at        int    // the next digit; beyond the end there are zeros
	reading   bool
}

// ready gives a coder whose model has read the primer.
func ready() *coder {
	c := &coder{}
	c.begin()
	c.high = first*10 - 1
	for i := range len(primer) {
		c.number(int(primer[i]), 8, true)
	}
	c.out, c.low, c.high = nil, 0, first*10-1
	return c
}

// number codes the bits of a number, foretold by the model or taken as they come; reading, it gives what it was.
func (c *coder) number(n, bits int, told bool) (is int) {
	for bits--; bits >= 0; bits-- {
		chance := 1 << (chanceBits - 1)
		if told {
			chance = c.chance()
		}
		bit := c.code(n>>bits&1, chance)
		if told {
			c.learn(bit)
		}
		is = is<<1 | bit
	}
	return is
}

func (c *coder) code(bit, chance int) int {
	border := c.low + (c.high-c.low)>>chanceBits*uint64(chance)
	if c.reading {
		bit = 0
		if c.value <= border {
			bit = 1
		}
	}
	if bit == 1 {
		c.high = border
	} else {
		c.low = border + 1
	}
	for {
		digit := c.low / first
		if c.high/first != digit {
			return bit
		}
		c.low = (c.low - digit*first) * 10
		c.high = (c.high-digit*first)*10 + 9
		c.value -= digit * first
		c.take()
		c.out = append(c.out, byte('0'+digit))
	}
}

// take takes the next digit in. What is none spoils the sum.
func (c *coder) take() {
	c.value *= 10
	if c.at < len(c.digits) {
		c.value += uint64(c.digits[c.at]) - '0'
	}
	c.at++
}
