// A reactor with the exports of the real one that can be made to break, to test how a page runs it.
package main

import (
	"strconv"
	"strings"
	"unsafe"
)

var (
	request  []byte
	answer   []byte
	answered int
	handed   []string // the models that were handed over
)

//go:wasmexport request
func takeRequest(n int32) int32 {
	request = make([]byte, n)
	return int32(uintptr(unsafe.Pointer(unsafe.SliceData(request))))
}

//go:wasmexport model
func takeModel(n int32) { handed = append(handed, string(request[:n])) }

//go:wasmexport answer
func giveAnswer(n int32) int32 {
	asked := string(request[:n])
	if strings.Contains(asked, "always breaks") || (strings.Contains(asked, "breaks when used") && answered > 0) {
		panic("broken on purpose")
	}
	answered++
	answer = []byte(`{"id":"count","out":{"count":{"text":"` + strconv.Itoa(answered) + `"},"models":{"text":` + strconv.Quote(strings.Join(handed, " ")) + `}},"working":[` + strconv.Quote(asked) + `]}`)
	return int32(len(answer))
}

//go:wasmexport reply
func giveReply() int32 { return int32(uintptr(unsafe.Pointer(unsafe.SliceData(answer)))) }

func main() {}
