package bundle

import (
	"bytes"
	"encoding/binary"
	"testing"
)

// tableOf is a head with its numbers, and what follows.
func tableOf(after string, numbers ...uint64) string {
	head := []byte(tableHead)
	for _, n := range numbers {
		head = binary.LittleEndian.AppendUint64(head, n)
	}
	return string(head) + after
}

func TestNamesAreTakenOut(t *testing.T) {
	const after = "a.f\x00b\x00" + "\x01\x02\x03" + "a.go\x00" + "rest"
	for _, c := range []struct{ name, module, want string }{
		{"both", "xy" + tableOf(after, 2, 1, 0, 72, 78, 81, 86, 90), "xy" + tableOf("\x00\x00\x00\x00\x00\x00\x01\x02\x03\x00\x00\x00\x00\x00rest", 2, 1, 0, 72, 78, 81, 86, 90)},
		{"no table", "xy" + after, ""},
		{"numbers that lead too far", tableOf(after, 2, 1, 0, 72, 900, 81, 901, 90), ""},
		{"numbers in another order", tableOf(after, 2, 1, 0, 78, 72, 86, 81, 90), ""},
		{"into the head", tableOf(after, 2, 1, 0, 7, 78, 6, 86, 90), ""},
		{"what are no texts", tableOf(after, 2, 1, 0, 72, 81, 80, 86, 90), ""},
		{"a head cut off", tableHead + "\x02\x00", ""},
	} {
		want := c.want
		if want == "" {
			want = c.module
		}
		if got := withoutNames([]byte(c.module)); string(got) != want {
			t.Errorf("%s: got %q, want %q", c.name, got, want)
		}
	}
}

// The Go of today lays its table out as we know it, or the file is larger than it need be.
func TestTheShippedFileHasNoNames(t *testing.T) {
	raw, err := compile(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	joined := joinSegments(raw)
	shipped := withoutNames(joined)
	if len(shipped) != len(joined) {
		t.Fatalf("%d bytes became %d", len(joined), len(shipped))
	}
	for _, name := range []string{"runtime.mallocgc", "main.answer", "internal/cpu/cpu_wasm.go"} {
		if !bytes.Contains(joined, []byte(name)) || bytes.Contains(shipped, []byte(name)) {
			t.Errorf("%s is in the linked file: %v, in the shipped one: %v", name, bytes.Contains(joined, []byte(name)), bytes.Contains(shipped, []byte(name)))
		}
	}
	changed := 0
	for i := range joined {
		if joined[i] != shipped[i] {
			changed++
			if shipped[i] != 0 || joined[i] < ' ' {
				t.Fatalf("byte %d was %#x and is %#x", i, joined[i], shipped[i])
			}
		}
	}
	if changed < 50_000 {
		t.Errorf("only %d bytes were taken out", changed)
	}
}
