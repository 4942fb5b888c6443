package main

import (
	"encoding/json"
	"os"
	"strings"
	"testing"

	"blankoff/calc/parcel"
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

// TestParcelsAreTheSameOnThePhone: what the module packs, native code unpacks, and the other way round.
func TestParcelsAreTheSameOnThePhone(t *testing.T) {
	phone := load(t)
	job, err := os.ReadFile("../calc/parcel/testdata/job.json")
	if err != nil {
		t.Fatal(err)
	}
	for _, text := range []string{"", "µ", string(job), strings.Repeat(string(job), 3), strings.Repeat("0", parcel.Most), strings.Repeat("0", parcel.Most+1)} {
		digits, _ := parcel.Pack(text)
		for _, in := range []map[string]string{{"text": text}, {"digits": digits}, {"digits": digits[:len(digits)/2]}} {
			request, _ := json.Marshal(map[string]any{"id": parcel.ID, "in": in})
			if got, want := string(phone.serve(t, request)), string(wire.Serve(nil, request)); got != want {
				t.Fatalf("%.200s\nnative %.300s\nphone  %.300s", request, want, got)
			}
		}
	}
}
