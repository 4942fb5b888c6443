package wire

import (
	"encoding/json"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"
	"unicode/utf8"

	"blankoff/calc/declare"
)

func TestDecodeRequest(t *testing.T) {
	for _, c := range []struct {
		text string
		want declare.Request
	}{
		{`{"id":"rise-test","in":{"volume":"28 L","start":"120 mTorr"},"out":{"leak":"mbar·L/s"}}`, // design.md
			declare.Request{ID: "rise-test", In: []declare.Pair{{Name: "volume", Text: "28 L"}, {Name: "start", Text: "120 mTorr"}}, Out: []declare.Pair{{Name: "leak", Text: "mbar·L/s"}}}},
		{` { "id" : "x" } `, declare.Request{ID: "x"}},
		{"{\"out\":{},\r\n\t\"in\":{},\"id\":\"x\"}", declare.Request{ID: "x"}},
		{`{"id":"x","in":{"a":3,"b":-1.5e-3,"c":null,"d":0}}`, declare.Request{ID: "x", In: []declare.Pair{{Name: "a", Text: "3"}, {Name: "b", Text: "-1.5e-3"}, {Name: "c"}, {Name: "d", Text: "0"}}}},
		{`{"id":"x","in":{"a":"\"\\\/\b\f\n\r\t\u00b5\u03a9 \ud83d\ude00"}}`, declare.Request{ID: "x", In: []declare.Pair{{Name: "a", Text: "\"\\/\b\f\n\r\tµΩ 😀"}}}},
		{`{"id":"x","in":{"a":"\ud83d","b":"\ud83dA","c":"\ude00"}}`, declare.Request{ID: "x", In: []declare.Pair{{Name: "a", Text: "\uFFFD"}, {Name: "b", Text: "\uFFFDA"}, {Name: "c", Text: "\uFFFD"}}}},
		{`{"id":"\u0078"}`, declare.Request{ID: "x"}},
		{"{\"id\":\"x\xff\"}", declare.Request{ID: "x\uFFFD"}},
		{"{\"id\":\"x\xff\\n\"}", declare.Request{ID: "x\uFFFD\n"}},
		{`{"id":"x","units":{"pressure":"Pa"}}`, declare.Request{ID: "x", Units: []declare.Pair{{Name: "pressure", Text: "Pa"}}}},
		{`{"id":"x","plot":true}`, declare.Request{ID: "x", Plot: true}},
		{`{"id":"x","plot": {"pressure":"Pa"} }`, declare.Request{ID: "x", Plot: true, Axes: []declare.Pair{{Name: "pressure", Text: "Pa"}}}},
		{`{"id":"a","id":"b"}`, declare.Request{ID: "b"}},
	} {
		got, err := DecodeRequest([]byte(c.text))
		if err != nil || !reflect.DeepEqual(got, c.want) {
			t.Errorf("%s: got %+v, %v, want %+v", c.text, got, err, c.want)
		}
	}
}

func TestDecodeErrors(t *testing.T) {
	many := strings.Repeat(`"a":"b",`, maxPairs) + `"a":"b"`
	for _, c := range []struct{ text, want string }{
		{``, `request, byte 1: a JSON object is expected`},
		{`   `, `request, byte 4: a JSON object is expected`},
		{`[]`, `request, byte 1: a JSON object is expected`},
		{`null`, `request, byte 1: a JSON object is expected`},
		{`"x"`, `request, byte 1: a JSON object is expected`},
		{"\ufeff{}", `request, byte 1: a JSON object is expected`},
		{`{`, `request, byte 2: a text in quotation marks is expected`},
		{`{}`, `the request names no calculator: "id" is missing`},
		{`{"id":""}`, `the request names no calculator: "id" is missing`},
		{`{"id"}`, `request, byte 6: a colon is expected`},
		{`{"id":}`, `request, byte 7: a text in quotation marks is expected`},
		{`{"id":5}`, `request, byte 7: a text in quotation marks is expected`},
		{`{"id":"x"`, `request, byte 10: a comma or } is expected`},
		{`{"id":"x",}`, `request, byte 11: a text in quotation marks is expected`},
		{`{"id":"x" "in":{}}`, `request, byte 11: a comma or } is expected`},
		{`{"id":"x"}}`, `request, byte 11: something follows after the request`},
		{`{"id":"x"} {}`, `request, byte 12: something follows after the request`},
		{`{"id":"x","unit":{}}`, `request, byte 18: unknown member “unit”; a request has id, in, out, units, plot and page`},
		{`{"id":"x","plot":false}`, `request, byte 18: a JSON object is expected`},
		{`{"id":"x","plot":truer}`, `request, byte 22: a comma or } is expected`},
		{`{"id":"x","plot":tr`, `request, byte 18: a JSON object is expected`},
		{`{"id":"x","plot":{"a":true}}`, `request, byte 23: an entry must be a text, such as "28 L"`},
		{`{"id":"x","in":[]}`, `request, byte 16: a JSON object is expected`},
		{`{"id":"x","in":null}`, `request, byte 16: a JSON object is expected`},
		{`{"id":"x","in":{"a":true}}`, `request, byte 21: an entry must be a text, such as "28 L"`},
		{`{"id":"x","in":{"a":[1]}}`, `request, byte 21: an entry must be a text, such as "28 L"`},
		{`{"id":"x","in":{"a":{}}}`, `request, byte 21: an entry must be a text, such as "28 L"`},
		{`{"id":"x","in":{"a":}}`, `request, byte 21: an entry must be a text, such as "28 L"`},
		{`{"id":"x","in":{"a":NaN}}`, `request, byte 21: an entry must be a text, such as "28 L"`},
		{`{"id":"x","in":{"a":nul}}`, `request, byte 21: an entry must be a text, such as "28 L"`},
		{`{"id":"x","in":{"a":nulll}}`, `request, byte 21: an entry must be a text, such as "28 L"`},
		{`{"id":"x","in":{"a":+5}}`, `request, byte 21: an entry must be a text, such as "28 L"`},
		{`{"id":"x","in":{"a":05}}`, `request, byte 21: an entry must be a text, such as "28 L"`},
		{`{"id":"x","in":{"a":-05}}`, `request, byte 21: an entry must be a text, such as "28 L"`},
		{`{"id":"x","in":{"a":.5}}`, `request, byte 21: an entry must be a text, such as "28 L"`},
		{`{"id":"x","in":{"a":5.}}`, `request, byte 21: an entry must be a text, such as "28 L"`},
		{`{"id":"x","in":{"a":5.e1}}`, `request, byte 21: an entry must be a text, such as "28 L"`},
		{`{"id":"x","in":{"a":-}}`, `request, byte 21: an entry must be a text, such as "28 L"`},
		{`{"id":"x","in":{"a":1e400}}`, `request, byte 21: an entry must be a text, such as "28 L"`},
		{`{"id":"x","in":{"a":0x1}}`, `request, byte 22: a comma or } is expected`},
		{`{"id":"x","in":{` + many + `}}`, `request, byte 1621: too many entries`},
		{`{"id":"x`, `request, byte 9: a text is not closed`},
		{`{"id":"x\`, `request, byte 10: an unknown escape`},
		{`{"id":"x\n`, `request, byte 11: a text is not closed`},
		{`{"id":"x\q"}`, `request, byte 11: an unknown escape`},
		{`{"id":"x\u12"}`, `request, byte 15: an unknown escape`},
		{`{"id":"x\u12`, `request, byte 11: an unknown escape`},
		{`{"id":"x\u12G4"}`, `request, byte 15: an unknown escape`},
		{"{\"id\":\"a\nb\"}", `request, byte 9: a control character inside a text`},
		{"{\"id\":\"\\n\x01\"}", `request, byte 11: a control character inside a text`},
		{strings.Repeat(" ", MaxRequest+1), `the request is larger than 1 MiB`},
	} {
		_, err := DecodeRequest([]byte(c.text))
		if err == nil || err.Error() != c.want {
			t.Errorf("%.80s: got %v, want %s", c.text, err, c.want)
		}
	}
	if _, err := DecodeRequest([]byte(`{"id":"x"}` + strings.Repeat(" ", MaxRequest-10))); err != nil {
		t.Errorf("a request of exactly 1 MiB: %v", err)
	}
}

// TestDecodesLikeEncodingJSON writes random requests with the standard library.
func TestDecodesLikeEncodingJSON(t *testing.T) {
	random := rand.New(rand.NewPCG(19, 20))
	signs := []rune("abc 09.,±·µΩ°⁻\"\\/<>&'\b\f\n\r\t\x00\x1f\x7f\u2028\uFFFD😀ß€")
	word := func() string {
		var b strings.Builder
		for range random.IntN(12) {
			b.WriteRune(signs[random.IntN(len(signs))])
		}
		return b.String()
	}
	for range 3000 {
		want := declare.Request{ID: "x" + word()}
		members := map[string]map[string]string{"in": {}, "out": {}}
		for _, m := range members {
			for range random.IntN(5) {
				m[word()] = word()
			}
		}
		data, err := json.Marshal(map[string]any{"id": want.ID, "in": members["in"], "out": members["out"]})
		if err != nil {
			t.Fatal(err)
		}
		got, err := DecodeRequest(data)
		if err != nil || got.ID != want.ID || !samePairs(got.In, members["in"]) || !samePairs(got.Out, members["out"]) {
			t.Fatalf("%s: got %+v, %v", data, got, err)
		}
	}
}

func samePairs(got []declare.Pair, want map[string]string) bool {
	if len(got) != len(want) {
		return false
	}
	for _, p := range got {
		if text, ok := want[p.Name]; !ok || text != p.Text {
			return false
		}
	}
	return true
}

func seed(f *testing.F) {
	for _, text := range []string{`{"id":"rise-test","in":{"volume":"28 L","start":"120 mTorr","end":"480 mTorr","time":"10 min"},"out":{"leak":"mbar·L/s"}}`,
		`{"id":"pressure","in":{"value":"-28 inHg gauge","altitude":"430 m"}}`, `{"id":"continuity","in":{"reading":"OL","leads":"0,2 Ω"}}`,
		`{"id":"throughput","in":{"rate":"1e299 mol/s ± 1 %"},"out":{"leak":"µPa·mm³/h"}}`, `{"id":"x","in":{"a":1e5,"b":null}}`, `{"id":"\ud83d\ude00\q"}`, `{`, ``, `{"id":5}`} {
		f.Add([]byte(text))
	}
}

func FuzzDecodeRequest(f *testing.F) {
	seed(f)
	f.Fuzz(func(t *testing.T, data []byte) {
		got, err := DecodeRequest(data)
		if err != nil {
			if err.Error() == "" {
				t.Errorf("%q: an error without a sentence", data)
			}
			return
		}
		if !json.Valid(data) {
			t.Errorf("%q is taken and is no JSON", data)
		}
		for _, s := range texts(got) {
			if !utf8.ValidString(s) {
				t.Errorf("%q gives %q", data, s)
			}
		}
		if !utf8.Valid(data) {
			return // encoding/json replaces each wrong byte, we replace each run of them
		}
		var theirs map[string]json.RawMessage
		var id string
		if json.Unmarshal(data, &theirs) != nil || json.Unmarshal(theirs["id"], &id) != nil || id != got.ID {
			t.Errorf("%q: id is %q, encoding/json says %q", data, got.ID, id)
		}
	})
}

func texts(r declare.Request) []string {
	list := []string{r.ID}
	for _, p := range append(r.In, r.Out...) {
		list = append(list, p.Name, p.Text)
	}
	return list
}

func FuzzServe(f *testing.F) {
	seed(f)
	f.Fuzz(func(t *testing.T, data []byte) { check(t, data) })
}
