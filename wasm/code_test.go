package main

import (
	"encoding/json"
	"strings"
	"testing"

	"blankoff/calc/qr"
	"blankoff/calc/wire"
)

// TestCodesAreTheSameOnThePhone: of every size, also of none, in the shipped module and natively, letter for letter.
func TestCodesAreTheSameOnThePhone(t *testing.T) {
	phone := load(t)
	for n := 0; n <= 3000; n += 60 {
		for _, in := range []map[string]string{
			{"text": strings.Repeat("https://example.org/#c1/µ", n/25)},
			{"text": strings.Repeat("07", n), "level": "Q"},
		} {
			request, _ := json.Marshal(map[string]any{"id": qr.ID, "in": in}) // texts always have a JSON form
			if got, want := string(phone.serve(t, request)), string(wire.Serve(nil, request)); got != want {
				t.Fatalf("%.200s\nnative %.300s\nphone  %.300s", request, want, got)
			}
		}
	}
}
