package bundle

import (
	"bytes"
	"testing"

	"github.com/tetratelabs/wazero"
	"github.com/tetratelabs/wazero/imports/wasi_snapshot_preview1"
)

// section is one section of a module.
func section(kind byte, body string) string {
	return string(appendSized([]byte{kind}, []byte(body)))
}

// withMemory is a module of two pages of memory and a data section.
func withMemory(data string) string {
	return preamble + section(memorySection, "\x01\x00\x02") + section(dataSection, data)
}

// The bytes are written by hand from the specification, chapter 5: 41 is i32.const, 0b ends it, then come length and bytes.
func TestSegmentsAreJoined(t *testing.T) {
	for _, c := range []struct{ name, data, want string }{
		{"a gap of three", "\x02\x00\x41\x08\x0b\x02ab\x00\x41\x0d\x0b\x01c", "\x01\x00\x41\x08\x0b\x06ab\x00\x00\x00c"},
		{"none between", "\x02\x00\x41\x08\x0b\x01a\x00\x41\x09\x0b\x01b", "\x01\x00\x41\x08\x0b\x02ab"},
		{"the wrong order", "\x02\x00\x41\x0a\x0b\x01b\x00\x41\x08\x0b\x01a", "\x01\x00\x41\x08\x0b\x03a\x00b"},
		{"the widest gap", "\x02\x00\x41\x00\x0b\x01a\x00\x41\xc1\x00\x0b\x01b", "\x01\x00\x41\x00\x0b\x42a" + string(make([]byte, 64)) + "b"},
		{"a wider one", "\x02\x00\x41\x00\x0b\x01a\x00\x41\xc2\x00\x0b\x01b", "\x02\x00\x41\x00\x0b\x01a\x00\x41\xc2\x00\x0b\x01b"},
		{"a place of two bytes, whose sign is a bit of its own", "\x01\x00\x41\xc0\x00\x0b\x01a", "\x01\x00\x41\xc0\x00\x0b\x01a"},
		{"numbers longer than they need be", "\x81\x00\x00\x41\x88\x00\x0b\x81\x00a", "\x01\x00\x41\x08\x0b\x01a"},
		{"none at all", "\x00", "\x00"},
	} {
		if got := joinSegments([]byte(withMemory(c.data))); string(got) != withMemory(c.want) {
			t.Errorf("%s: got %q, want %q", c.name, got, withMemory(c.want))
		}
	}
}

func TestWhatCannotBeJoinedIsLeft(t *testing.T) {
	two := "\x02\x00\x41\x08\x0b\x01a\x00\x41\x0a\x0b\x01b"
	for name, module := range map[string]string{
		"no module":                    "\x00asm\x02\x00\x00\x00" + withMemory(two)[len(preamble):],
		"one covers another":           withMemory("\x02\x00\x41\x08\x0b\x02ab\x00\x41\x09\x0b\x01c"),
		"a passive segment":            withMemory("\x02\x00\x41\x08\x0b\x01a\x01\x01b"),
		"a memory named":               withMemory("\x01\x02\x00\x41\x08\x0b\x01a"),
		"a place that is a global":     withMemory("\x01\x00\x23\x00\x0b\x01a"),
		"a place below zero":           withMemory("\x01\x00\x41\x7f\x0b\x01a"),
		"a place with no end":          withMemory("\x01\x00\x41\x08\x0c\x01a"),
		"fewer segments than said":     withMemory("\x02\x00\x41\x08\x0b\x01a"),
		"more segments than said":      withMemory("\x01" + two[1:]),
		"fewer bytes than said":        withMemory("\x01\x00\x41\x08\x0b\x02a"),
		"a section cut off":            withMemory(two)[:len(withMemory(two))-1],
		"segments counted beforehand":  preamble + section(memorySection, "\x01\x00\x02") + section(dataCount, "\x02") + section(dataSection, two),
		"a memory that the host gives": preamble + section(dataSection, two),
		"nothing":                      "",
	} {
		if got := joinSegments([]byte(module)); string(got) != module {
			t.Errorf("%s: got %q, want %q", name, got, module)
		}
	}
}

// memory is what a module's memory holds before it runs, as an engine that is not ours reads it; nil where it refuses the module.
func memory(t testing.TB, module []byte) []byte {
	runtime := wazero.NewRuntimeWithConfig(t.Context(), wazero.NewRuntimeConfigInterpreter())
	defer runtime.Close(t.Context())
	wasi_snapshot_preview1.MustInstantiate(t.Context(), runtime)
	running, err := runtime.InstantiateWithConfig(t.Context(), module, wazero.NewModuleConfig().WithStartFunctions())
	if err != nil {
		return nil
	}
	held, _ := running.Memory().Read(0, running.Memory().Size())
	return bytes.Clone(held)
}

func TestTheMemoryBeginsAsBefore(t *testing.T) {
	raw, err := compile(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	joined := joinSegments(raw)
	if before, after := memory(t, raw), memory(t, joined); before == nil || !bytes.Equal(before, after) {
		t.Errorf("the memory is another: %d bytes, %d before", len(after), len(before))
	}
	if again := joinSegments(joined); !bytes.Equal(again, joined) {
		t.Errorf("joined twice, other bytes")
	}
	one, _ := pack(joined)
	other, _ := pack(raw)
	t.Logf("%d bytes inflated, %d before; %d gzipped, %d before", len(joined), len(raw), len(one), len(other))
	if len(one) > len(other)*95/100 {
		t.Errorf("%d bytes are hardly less than %d: Go's linker may write another layout now", len(one), len(other))
	}
}

// FuzzJoinSegments: whatever stands in a data section, an engine sees the same memory afterwards.
func FuzzJoinSegments(f *testing.F) {
	for _, data := range []string{"\x00", "\x02\x00\x41\x08\x0b\x02ab\x00\x41\x0d\x0b\x01c", "\x02\x00\x41\x0a\x0b\x02bc\x00\x41\x0b\x0b\x01a", "\x02\x00\x41\xff\xff\x07\x0b\x01a\x00\x41\x7f\x0b\x00", "\x01\x01\x01b"} {
		f.Add([]byte(data))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		module := []byte(withMemory(string(data)))
		joined := joinSegments(module)
		if bytes.Equal(joined, module) { // nothing to compare, and the engine might make room for a billion segments
			return
		}
		if before := memory(t, module); before != nil && !bytes.Equal(before, memory(t, joined)) {
			t.Errorf("%q becomes %q, which holds another memory", module, joined)
		}
	})
}
