package parcel

import (
	"bytes"
	"compress/flate"
	"flag"
	"math/rand/v2"
	"os"
	"strings"
	"testing"

	"blankoff/calc/declare"
	"blankoff/calc/qr"
)

var update = flag.Bool("update", false, "write what the job is packed into, once more")

// job is one of eight ticked steps with two notes and three results, each with formula and working.
func job(t testing.TB) string {
	t.Helper()
	text, err := os.ReadFile("testdata/job.json")
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

func packed(t testing.TB, text string) string {
	t.Helper()
	digits, ok := Pack(text)
	if !ok {
		t.Fatalf("%.40q… of %d bytes is not packed", text, len(text))
	}
	return digits
}

func TestTextsComeBack(t *testing.T) {
	noise := make([]byte, 3000)
	r := rand.New(rand.NewPCG(1, 2))
	for i := range noise {
		noise[i] = byte(r.Uint32())
	}
	for _, text := range []string{"", "a", "\x00", "µ·Ω 真空 😀", job(t), primer, string(noise), strings.Repeat("0", Most), strings.Repeat("340 mTorr\n", 9000)} {
		digits := packed(t, text)
		if got, ok := Unpack(digits); !ok || got != text {
			t.Errorf("%.40q came back as %.200q, %v", text, got, ok)
		}
	}
}

// TestPackedOnceIsReadForEver: addresses lie in messages and on paper.
func TestPackedOnceIsReadForEver(t *testing.T) {
	const path = "testdata/packed.txt"
	if *update {
		if err := os.WriteFile(path, []byte(packed(t, job(t))+"\n"), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	digits, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if got, ok := Unpack(strings.TrimSpace(string(digits))); !ok || got != job(t) {
		t.Errorf("%s gives %.200q, %v", path, got, ok)
	}
}

// TestAJobOfEightStepsFitsAPhone: its code finds room on a screen of 360 px at 2.6 px a module, where the sheet leaves 336 (site/hand.ts).
func TestAJobOfEightStepsFitsAPhone(t *testing.T) {
	text := job(t)
	var flat bytes.Buffer
	w, _ := flate.NewWriter(&flat, flate.BestCompression)
	w.Write([]byte(text))
	w.Close()
	digits := packed(t, text)
	code, err := qr.Encode("https://guides.workshop.example/freeze-dryers/record/#job="+digits, qr.L)
	if err != nil {
		t.Fatal(err)
	}
	t.Logf("%d bytes: %d by deflate, %d digits, a code of version %d", len(text), flat.Len(), len(digits), code.Version)
	if side := code.Size + 2*qr.Quiet; float64(side)*2.6 > 336 {
		t.Errorf("a code of %d modules is too wide", side)
	}
}

func TestWhatIsTooLong(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	noise := make([]byte, 6000)
	for i := range noise {
		noise[i] = byte('0' + r.IntN(64))
	}
	for _, text := range []string{strings.Repeat("0", Most+1), string(noise)} {
		if digits, ok := Pack(text); ok {
			t.Errorf("%.20q… of %d bytes is packed into %d digits", text, len(text), len(digits))
		}
	}
}

// TestWhatIsDamaged: cut off, changed or made up, no other text comes of it.
func TestWhatIsDamaged(t *testing.T) {
	text := job(t)
	digits := packed(t, text)
	refuse := func(what, digits string) {
		t.Helper()
		if got, ok := Unpack(digits); ok && got != text {
			t.Errorf("%s: %.200q", what, got)
		}
	}
	for n := 0; n < len(digits); n += 97 {
		refuse("cut off", digits[:n])
		refuse("a digit changed", digits[:n]+string('0'+('9'-digits[n]))+digits[n+1:])
		refuse("a digit lost", digits[:n]+digits[n+1:])
		refuse("two digits swapped", digits[:n]+"75"+digits[n:])
		refuse("a letter", digits[:n]+"x"+digits[n+1:])
	}
	for _, made := range []string{"", "0", "%%%", "\xff\x00", strings.Repeat("0", 4000), strings.Repeat("9", 4000), strings.Repeat("7", 1e6), "٣"} {
		if got, ok := Unpack(made); ok {
			t.Errorf("%.20q gives %.40q", made, got)
		}
	}
}

func TestRequests(t *testing.T) {
	ask := func(pairs ...declare.Pair) (id, text, fault string) {
		answer := Reply(declare.Request{ID: ID, In: pairs})
		if answer.Fault != nil {
			return "", "", answer.Fault.Field + ": " + answer.Fault.Text
		}
		return answer.Out[0].ID, answer.Out[0].Text, ""
	}
	id, digits, _ := ask(declare.Pair{Name: "text", Text: "{}"})
	if id != "digits" {
		t.Fatalf("a text gives %s", id)
	}
	if id, text, _ := ask(declare.Pair{Name: "digits", Text: digits}); id != "text" || text != "{}" {
		t.Errorf("digits give %s %q", id, text)
	}
	for want, in := range map[string][]declare.Pair{
		": a parcel has one entry: text or digits":                                     {},
		"level: a parcel has one entry: text or digits":                                {{Name: "level", Text: "M"}},
		"text: this is too long for an address":                                        {{Name: "text", Text: strings.Repeat("0", Most+1)}},
		"digits: This address holds no whole work record: it was cut off, or changed.": {{Name: "digits", Text: digits[:5]}},
	} {
		if _, _, got := ask(in...); got != want {
			t.Errorf("said %q, want %q", got, want)
		}
	}
}

// FuzzPack: every text comes back.
func FuzzPack(f *testing.F) {
	for _, text := range []string{"", "{}", primer, "\xff\x00", job(f)} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		digits, ok := Pack(text)
		if !ok {
			if len(text) < 2500 {
				t.Errorf("%d bytes are too long", len(text))
			}
			return
		}
		if got, ok := Unpack(digits); !ok || got != text {
			t.Errorf("%q came back as %q", text, got)
		}
	})
}

// FuzzUnpack: whatever stands in an address, there is an end to it, and no panic.
func FuzzUnpack(f *testing.F) {
	f.Add("")
	f.Add("0")
	f.Add("x9")
	digits, _ := Pack(job(f))
	f.Add(digits)
	f.Add(digits[:900])
	f.Fuzz(func(t *testing.T, digits string) {
		if text, _ := Unpack(digits); len(text) > Most {
			t.Errorf("%d bytes", len(text))
		}
	})
}

func BenchmarkPack(b *testing.B) {
	text := job(b)
	for b.Loop() {
		Pack(text)
	}
}

func BenchmarkUnpack(b *testing.B) {
	digits := packed(b, job(b))
	for b.Loop() {
		Unpack(digits)
	}
}
