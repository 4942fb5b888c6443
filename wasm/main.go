// Command wasm is the calculators as a WASI reactor: the same calc that wrote the worked answers into the pages.
//
// A host calls _initialize once. Then, for each request:
//
//	place = request(n)    // n writable bytes there; -1 if n is more than maxRequest
//	                      // write the JSON request
//	length = answer(n)    // n again; bytes of the JSON answer
//	place = reply()       // the answer is there until the next request
//
// Only calc is linked here. What else would come along, and at which price, stands in policy_test.go.
package main

// main is never called in a reactor, but the linker asks for it.
func main() {}
