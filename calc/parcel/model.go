package parcel

// A chance is that the next bit is a one, in 4096ths. All is reckoned in whole numbers, since the phone that packs and the one
// that unpacks must come to the same ones, bit by bit.
const chanceBits = 12

// reach says after how many letters each memory knows a bit. The long ones know what was said before word by word. These and the
// numbers below were tried on jobs; others differ by one or two per cent.
var reach = [...]int{0, 1, 2, 3, 4, 6, 10, 18}

const (
	slotBits = 17
	patience = 20    // a chance is moved by a part in so many at least: what was true of the beginning may not be so now
	whose    = 1023  // the bits of a slot that tell after which letters it is, nearly; others take it over
	swiftly  = 18    // how fast trust moves, 65536ths
	trustful = 20000 // in each memory at first, 65536ths
)

// model foretells bits. Each memory keeps how often a one came after the same letters; how far each is trusted is learned too.
type model struct {
	read     []byte
	begun    uint64 // the bits of the letter that is being read, behind a one
	foretold int
	context  [len(reach)]uint64
	slot     [len(reach)]uint64
	said     [len(reach)]int // as stretched chances
	trust    [len(reach)]int
	moves    [patience + 1]int // by how often it was moved before, the part of the way that a chance is moved, 65536ths
	slopes   [1 << chanceBits]int16
	memory   [len(reach)][1 << slotBits]uint32 // 16 bits of chance, 6 of count, 10 of whose
}

func (m *model) begin() {
	m.begun = 1
	for i := range reach {
		m.trust[i] = trustful
	}
	for n := range m.moves {
		m.moves[n] = 1 << 17 / (2*n + 3)
	}
	x := -2047
	for chance := range m.slopes {
		for x < 2047 && squash(x) < chance {
			x++
		}
		m.slopes[chance] = int16(x)
	}
}

// curve is 4096 / (1 + exp(-x/256)) at every 128 from -2048 on; between them it is taken as straight.
var curve = [...]int16{1, 2, 3, 6, 10, 16, 27, 45, 73, 120, 194, 310, 488, 747, 1101, 1546, 2047, 2549, 2994, 3348, 3607, 3785, 3901, 3975, 4022, 4050, 4068, 4079, 4085, 4089, 4092, 4093, 4094}

// squash gives the chance for which all memories together speak; slopes is its inverse.
func squash(x int) int {
	x = min(max(x, -2047), 2047) + 2048
	i, part := x>>7, x&127
	return (int(curve[i])*(128-part) + int(curve[i+1])*part + 64) >> 7
}

// chance foretells the next bit: between 1 and 4095.
func (m *model) chance() int {
	all := 0
	for i := range reach {
		where := (m.context[i] ^ m.begun) * 0x9E3779B97F4A7C15
		at := where >> (64 - slotBits)
		m.slot[i] = at
		is, mine := uint64(m.memory[i][at]), where>>20&whose|1 // an empty slot is nobody's
		if is&whose != mine {
			is = 1<<31 | mine
			m.memory[i][at] = uint32(is)
		}
		said := int(m.slopes[is>>20&4095])
		m.said[i] = said
		all += said * m.trust[i]
	}
	m.foretold = squash(all >> 16)
	return m.foretold
}

// learn takes what the bit was. A chance moves towards it, the less the more often it was moved before.
func (m *model) learn(bit int) {
	missed := (bit<<chanceBits - m.foretold) * swiftly
	for i := range reach {
		m.trust[i] += (m.said[i]*missed + 1<<15) >> 16
		slot := &m.memory[i][m.slot[i]]
		is := int(*slot)
		p, n := is>>16, is>>10&63
		p += (bit<<16 - bit - p) * m.moves[n] >> 16
		if n < patience {
			n++
		}
		*slot = uint32(p<<16 | n<<10 | is&whose)
	}
	m.begun = m.begun<<1 | uint64(bit)
	if m.begun < 256 {
		return
	}
	m.read = append(m.read, byte(m.begun))
	m.begun = 1
	for i := range reach {
		m.context[i] = m.before(reach[i])
	}
}

// before sums up so many letters before this one.
func (m *model) before(far int) uint64 {
	h := uint64(far)
	for i := max(0, len(m.read)-far); i < len(m.read); i++ {
		h = mix(h, uint64(m.read[i]))
	}
	return h
}

func mix(h, next uint64) uint64 {
	h = (h ^ next) * 0x9E3779B97F4A7C15
	return h ^ h>>29
}
