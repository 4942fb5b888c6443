//go:build wasip1

package main

import "unsafe"

var talk exchange

//go:wasmexport request
func request(n int32) int32 {
	room, ok := talk.request(int(n))
	if !ok {
		return -1 // no address: a host that writes there all the same is stopped by its own bounds check
	}
	return address(room)
}

//go:wasmexport model
func model(n int32) { talk.know(int(n)) }

//go:wasmexport answer
func answer(n int32) int32 { return int32(talk.answer(int(n))) }

//go:wasmexport reply
func reply() int32 { return address(talk.out) }

// address stays true while the exchange holds the buffer: Go does not move what lies on its heap.
func address(buffer []byte) int32 {
	return int32(uintptr(unsafe.Pointer(unsafe.SliceData(buffer))))
}
