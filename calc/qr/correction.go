package qr

// checkWords of a block and number of blocks, by level and version from 1 on.
var (
	checkWords = [levels]string{
		"\x07\x0a\x0f\x14\x1a\x12\x14\x18\x1e\x12\x14\x18\x1a\x1e\x16\x18\x1c\x1e\x1c\x1c\x1c\x1c\x1e\x1e\x1a\x1c\x1e\x1e\x1e\x1e\x1e\x1e\x1e\x1e\x1e\x1e\x1e\x1e\x1e\x1e",
		"\x0a\x10\x1a\x12\x18\x10\x12\x16\x16\x1a\x1e\x16\x16\x18\x18\x1c\x1c\x1a\x1a\x1a\x1a\x1c\x1c\x1c\x1c\x1c\x1c\x1c\x1c\x1c\x1c\x1c\x1c\x1c\x1c\x1c\x1c\x1c\x1c\x1c",
		"\x0d\x16\x12\x1a\x12\x18\x12\x16\x14\x18\x1c\x1a\x18\x14\x1e\x18\x1c\x1c\x1a\x1e\x1c\x1e\x1e\x1e\x1e\x1c\x1e\x1e\x1e\x1e\x1e\x1e\x1e\x1e\x1e\x1e\x1e\x1e\x1e\x1e",
		"\x11\x1c\x16\x10\x16\x1c\x1a\x1a\x18\x1c\x18\x1c\x16\x18\x18\x1e\x1c\x1c\x1a\x1c\x1e\x18\x1e\x1e\x1e\x1e\x1e\x1e\x1e\x1e\x1e\x1e\x1e\x1e\x1e\x1e\x1e\x1e\x1e\x1e",
	}
	blocks = [levels]string{
		"\x01\x01\x01\x01\x01\x02\x02\x02\x02\x04\x04\x04\x04\x04\x06\x06\x06\x06\x07\x08\x08\x09\x09\x0a\x0c\x0c\x0c\x0d\x0e\x0f\x10\x11\x12\x13\x13\x14\x15\x16\x18\x19",
		"\x01\x01\x01\x02\x02\x04\x04\x04\x05\x05\x05\x08\x09\x09\x0a\x0a\x0b\x0d\x0e\x10\x11\x11\x12\x14\x15\x17\x19\x1a\x1c\x1d\x1f\x21\x23\x25\x26\x28\x2b\x2d\x2f\x31",
		"\x01\x01\x02\x02\x04\x04\x06\x06\x08\x08\x08\x0a\x0c\x10\x0c\x11\x10\x12\x15\x14\x17\x17\x19\x1b\x1d\x22\x22\x23\x26\x28\x2b\x2d\x30\x33\x35\x38\x3b\x3e\x41\x44",
		"\x01\x01\x02\x04\x04\x04\x05\x06\x08\x08\x0b\x0b\x10\x10\x12\x10\x13\x15\x19\x19\x19\x22\x1e\x20\x23\x25\x28\x2a\x2d\x30\x33\x36\x39\x3c\x3f\x42\x46\x4a\x4d\x51",
	}
)

// words is how many a code has in all: the modules that no pattern takes, in bytes.
func words(version int) int {
	modules := (16*version+128)*version + 64
	if version >= 2 {
		n := version/7 + 2
		modules -= (25*n-10)*n - 55
	}
	if version >= 7 {
		modules -= 36
	}
	return modules / 8
}

func dataWords(version int, level Level) int {
	return words(version) - int(checkWords[level][version-1])*int(blocks[level][version-1])
}

// protect cuts the data into blocks, computes the check words of each, and lays all of them out in turn. Of the blocks the
// last ones are longer by a word, where it does not come out even.
func protect(data []byte, version int, level Level) []byte {
	n, check := int(blocks[level][version-1]), int(checkWords[level][version-1])
	out := make([]byte, words(version))
	divisor := generator(check)
	short := len(data) / n
	longer := len(data) % n
	for b, from := 0, 0; b < n; b++ {
		size := short
		if b >= n-longer {
			size++
		}
		block := data[from : from+size]
		from += size
		for i, word := range block {
			at := i*n + b
			if i == short {
				at = i*n + b - (n - longer)
			}
			out[at] = word
		}
		for i, word := range remainder(block, divisor) {
			out[len(data)+i*n+b] = word
		}
	}
	return out
}

// generator is the product of (x - 2^i) for i below n, without its leading 1, the highest power first.
func generator(n int) []byte {
	g := make([]byte, n)
	g[n-1] = 1
	root := byte(1)
	for range n {
		for j := range g {
			g[j] = product(g[j], root)
			if j+1 < n {
				g[j] ^= g[j+1]
			}
		}
		root = product(root, 2)
	}
	return g
}

// remainder of the block times x^n by the generator: the check words after Reed and Solomon.
func remainder(block, divisor []byte) []byte {
	n := len(divisor)
	rest := make([]byte, n)
	for _, word := range block {
		factor := word ^ rest[0]
		copy(rest, rest[1:])
		rest[n-1] = 0
		for i, d := range divisor {
			rest[i] ^= product(d, factor)
		}
	}
	return rest
}

// product in the field of 256 elements, modulo x^8 + x^4 + x^3 + x^2 + 1.
func product(a, b byte) byte {
	z := 0
	for i := 7; i >= 0; i-- {
		z = z<<1 ^ z>>7*0x11D
		z ^= int(b>>i&1) * int(a)
	}
	return byte(z)
}
