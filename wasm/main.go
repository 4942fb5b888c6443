// Command wasm is the calculators as a WASI reactor: the same calc that wrote the worked answers into the pages.
//
// A host calls _initialize once. Then, for each request:
//
//	place = request(n)    // n writable bytes there; -1 if n is more than maxRequest
//	                      // write the JSON request
//	length = answer(n)    // n again; bytes of the JSON answer
//	place = reply()       // the answer is there until the next request
//
// A host that asks for a triage more than once hands the fault model over beforehand. From then on a triage that brings no model
// is answered by this one, letter for letter as if it had brought it:
//
//	place = request(n)    // as above
//	                      // write the text of the model, in UTF-8
//	model(n)
//
// Only calc is linked here. What else would come along, and at which price, stands in policy_test.go.
package main

// main is never called in a reactor, but the linker asks for it.
func main() {}
