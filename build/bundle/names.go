package bundle

import (
	"bytes"
	"encoding/binary"
	"slices"
)

// The head of the table by which Go's runtime finds the function of an address (runtime/symtab.go, pcHeader): eight bytes that say
// what it is, then eight numbers of eight bytes.
const (
	tableHead    = "\xf1\xff\xff\xff\x00\x00\x01\x08"
	tableNumbers = 8
	namesAt      = 3 // of the numbers: where the names of functions begin, behind the head's first byte
	namesEnd     = 4
	filesAt      = 5 // where the names of source files begin
	filesEnd     = 6
)

// withoutNames writes zeros over the names of functions and files in a module whose segments are joined. They are what a trace is printed
// with, for somebody at a terminal, and weigh 19 kB on the way to a phone; where a fault lies, native code tells as well. Functions
// themselves are found by number. A table that is laid out otherwise than today's is left as it is.
func withoutNames(module []byte) []byte {
	at := bytes.Index(module, []byte(tableHead))
	if at < 0 {
		return module
	}
	table := bytes.Clone(module[at:])
	clear(texts(table, namesAt, namesEnd))
	clear(texts(table, filesAt, filesEnd))
	return slices.Concat(module[:at], table)
}

// texts are the bytes between two numbers of the head, if they are texts that end in zeros; else none.
func texts(table []byte, from, to int) []byte {
	if len(table) < len(tableHead)+8*tableNumbers {
		return nil
	}
	number := func(i int) uint64 { return binary.LittleEndian.Uint64(table[len(tableHead)+8*i:]) }
	first, last := number(from), number(to)
	if first > last || last > uint64(len(table)) || first < uint64(len(tableHead)+8*tableNumbers) {
		return nil
	}
	found := table[first:last]
	for _, b := range found {
		if b != 0 && b < ' ' {
			return nil
		}
	}
	return found
}
