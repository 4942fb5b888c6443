package bundle

import (
	"bytes"
	"encoding/binary"
	"slices"
)

// What of a module's binary form matters here (WebAssembly Core Specification 2.0, chapter 5, Binary Format).
const (
	preamble      = "\x00asm\x01\x00\x00\x00"
	memorySection = 5
	dataSection   = 11
	dataCount     = 12
	atConstant    = "\x00\x41" // an active segment in memory 0, its place an i32.const
	endOfPlace    = 0x0b
	farthestPlace = 1 << 31
)

// widestGap is how many zeros are written out at most: wider gaps save another kilobyte and cost 100 when inflated.
const widestGap = 64

// segment is a piece of the memory that a module begins with.
type segment struct {
	at    int
	bytes []byte
}

// joinSegments writes the zeros between pieces of the memory out. Go's linker leaves out every run of more than eight, and begins
// a new segment behind it, whose place hardly compresses, as zeros would: 47,000 segments where 500 do, most of them in the
// table that finds the function of an address. That is a tenth of the file that a phone loads. The memory begins as before, since
// what no segment covers is zero. A module that is laid out otherwise than Go's linker does it today is left as it is.
func joinSegments(module []byte) []byte {
	if !bytes.HasPrefix(module, []byte(preamble)) {
		return module
	}
	out, rest, hasMemory := []byte(preamble), module[len(preamble):], false
	for len(rest) > 0 {
		kind := rest[0]
		body, after, ok := sized(rest[1:])
		if !ok || kind == dataCount {
			return module
		}
		hasMemory = hasMemory || kind == memorySection // of its own: one that the host gives need not begin as zeros
		if kind == dataSection {
			segments, ok := readSegments(body)
			if !ok || !hasMemory {
				return module
			}
			body = writeSegments(joined(segments))
		}
		out, rest = appendSized(append(out, kind), body), after
	}
	return out
}

// inOrder sorts segments by their places, unless one covers another: then it matters which is written last.
func inOrder(all []segment) ([]segment, bool) {
	sorted := slices.SortedStableFunc(slices.Values(all), func(a, b segment) int { return a.at - b.at })
	for i := 1; i < len(sorted); i++ {
		if sorted[i].at < sorted[i-1].end() {
			return nil, false
		}
	}
	return sorted, true
}

// joined puts segments together that lie close to each other.
func joined(segments []segment) []segment {
	var all []segment
	for _, next := range segments {
		if len(all) == 0 || next.at-all[len(all)-1].end() > widestGap {
			all = append(all, segment{next.at, bytes.Clone(next.bytes)})
			continue
		}
		last := &all[len(all)-1]
		last.bytes = append(last.bytes, make([]byte, next.at-last.end())...)
		last.bytes = append(last.bytes, next.bytes...)
	}
	return all
}

func (s segment) end() int { return s.at + len(s.bytes) }

// readSegments takes a data section apart. It gives the segments in the order of their places.
func readSegments(section []byte) (all []segment, ok bool) {
	count, rest, ok := number(section)
	for ; ok && count > 0; count-- {
		var next segment
		next, rest, ok = readSegment(rest)
		all = append(all, next)
	}
	if !ok || len(rest) > 0 {
		return nil, false
	}
	return inOrder(all)
}

func readSegment(from []byte) (s segment, rest []byte, ok bool) {
	rest, ok = bytes.CutPrefix(from, []byte(atConstant))
	if !ok {
		return s, nil, false
	}
	at, after, ok := number(rest)
	if !ok || at >= farthestPlace || negative(rest[:len(rest)-len(after)]) || len(after) == 0 || after[0] != endOfPlace {
		return s, nil, false
	}
	s.at = int(at)
	s.bytes, rest, ok = sized(after[1:])
	return s, rest, ok
}

// negative tells whether a signed number in LEB128 is below zero: the highest bit of its last seven is its sign.
func negative(signed []byte) bool { return signed[len(signed)-1]&0x40 != 0 }

func writeSegments(all []segment) []byte {
	out := binary.AppendUvarint(nil, uint64(len(all)))
	for _, s := range all {
		out = append(appendSigned(append(out, atConstant...), s.at), endOfPlace)
		out = appendSized(out, s.bytes)
	}
	return out
}

// number reads an unsigned LEB128, which is what encoding/binary calls a uvarint.
func number(from []byte) (n uint64, rest []byte, ok bool) {
	n, width := binary.Uvarint(from)
	if width <= 0 {
		return 0, nil, false
	}
	return n, from[width:], true
}

// sized reads bytes with their count before them.
func sized(from []byte) (body, rest []byte, ok bool) {
	n, rest, ok := number(from)
	if !ok || n > uint64(len(rest)) {
		return nil, nil, false
	}
	return rest[:n:n], rest[n:], true
}

func appendSized(out, body []byte) []byte {
	return append(binary.AppendUvarint(out, uint64(len(body))), body...)
}

// appendSigned writes a number that is not negative as a signed LEB128: its last byte must not have the bit of the sign.
func appendSigned(out []byte, n int) []byte {
	for ; n >= 0x40; n >>= 7 {
		out = append(out, byte(n)|0x80)
	}
	return append(out, byte(n))
}
