package wire

import (
	"encoding/json"
	"math"
	"reflect"
	"strings"
	"testing"
	"unicode/utf8"

	"blankoff/calc"
	"blankoff/calc/declare"
	"blankoff/calc/quantity"
	"blankoff/calc/show"
)

// answer is the contract, as encoding/json reads it.
type answer struct {
	ID    string `json:"id"`
	Error *struct {
		Field *string `json:"field"`
		Text  string  `json:"text"`
	} `json:"error"`
	Out map[string]struct {
		Value *float64 `json:"value"`
		Unit  *string  `json:"unit"`
		U     *float64 `json:"u"`
		Text  string   `json:"text"`
		Also  []string `json:"also"`

		Columns []struct{ Name, Label, Unit string } `json:"columns"`
		Rows    [][]any                              `json:"rows"`
		Shown   [][]string                           `json:"shown"`
	} `json:"out"`
	Verdict  *struct{ Is, Text string } `json:"verdict"`
	Working  []string                   `json:"working"`
	Cautions []string                   `json:"cautions"`
}

// check serves a request and holds the answer to the contract.
func check(t *testing.T, request []byte) answer {
	t.Helper()
	const before = "kept"
	raw := Serve([]byte(before), request)
	if string(raw[:len(before)]) != before {
		t.Fatalf("%.200q: what stood before the answer is gone", request)
	}
	raw = raw[len(before):]
	var a answer
	d := json.NewDecoder(strings.NewReader(string(raw)))
	d.DisallowUnknownFields()
	if err := d.Decode(&a); err != nil || !utf8.Valid(raw) || !json.Valid(raw) {
		t.Fatalf("%.200q: answer %.500q: %v", request, raw, err)
	}
	if strings.ContainsAny(string(raw), "<>&") {
		t.Errorf("%.200q: the answer could end a page's script: %s", request, raw)
	}
	if (a.Error == nil) == (a.Out == nil) || a.Error != nil && (a.Error.Text == "" || a.Error.Field == nil || a.Working != nil) || a.Error == nil && (a.Working == nil || a.Cautions == nil) {
		t.Errorf("%.200q: answer %s", request, raw)
	}
	for id, g := range a.Out {
		if (g.Value == nil) != (g.Unit == nil) || g.U != nil && (g.Value == nil || *g.U <= 0) || g.Text == "" && g.Columns == nil || strings.Contains(string(raw), ":null") || strings.Contains(string(raw), "[null") || strings.Contains(string(raw), ",null") {
			t.Errorf("%.200q: output %s in %s", request, id, raw)
		}
	}
	return a
}

func TestServeGivesTheContract(t *testing.T) {
	for _, c := range calc.All() {
		data, err := json.Marshal(map[string]any{"id": c.ID, "in": entries(c.Example.In)})
		if err != nil {
			t.Fatal(err)
		}
		got, want := check(t, data), calc.Answer(declare.Request{ID: c.ID, In: c.Example.In})
		if got.ID != c.ID || got.Error != nil || len(got.Out) != len(want.Out) || (got.Verdict == nil) != (want.Verdict.Is == "") ||
			!reflect.DeepEqual(got.Working, append([]string{}, want.Working...)) || !reflect.DeepEqual(got.Cautions, append([]string{}, want.Cautions...)) {
			t.Errorf("%s: got %+v, want %+v", c.ID, got, want)
		}
		if got.Verdict != nil && (got.Verdict.Is != want.Verdict.Is || got.Verdict.Text != want.Verdict.Text) {
			t.Errorf("%s: verdict %+v, want %+v", c.ID, got.Verdict, want.Verdict)
		}
		for _, g := range want.Out {
			o := got.Out[g.ID]
			if len(o.Columns) != len(g.Columns) || len(o.Rows) != len(g.Rows) || len(o.Shown) != len(g.Rows) {
				t.Errorf("%s: table %s is %+v, want %+v", c.ID, g.ID, o, g)
			}
			for i, row := range g.Rows {
				for j, cell := range row {
					if number, is := o.Rows[i][j].(float64); o.Shown[i][j] != cell.Text || is != cell.IsNumber || is && number != cell.Value {
						t.Errorf("%s: row %d of %s is %v, %q, want %+v", c.ID, i, g.ID, o.Rows[i], o.Shown[i], row)
					}
				}
			}
			if o.Text != g.Text || !reflect.DeepEqual(o.Also, g.Also) || g.HasValue != (o.Value != nil) || g.HasValue && (*o.Value != g.Value || *o.Unit != g.Unit) || g.HasU != (o.U != nil) || g.HasU && *o.U != g.U {
				t.Errorf("%s: output %s is %+v, want %+v", c.ID, g.ID, o, g)
			}
		}
	}
}

func entries(pairs []declare.Pair) map[string]string {
	m := map[string]string{}
	for _, p := range pairs {
		m[p.Name] = p.Text
	}
	return m
}

// TestServeKeepsTheDeclaredOrder: a page shows the first output first.
func TestServeKeepsTheDeclaredOrder(t *testing.T) {
	got := string(Serve(nil, []byte(`{"id":"throughput","in":{"rate":"1 mbar·L/s"}}`)))
	last := 0
	for _, id := range []string{`"leak":`, `"standard":`, `"molar":`, `"air":`, `"water":`, `"working":`, `"cautions":`} {
		at := strings.Index(got, id)
		if at <= last {
			t.Errorf("%s stands at %d, after %d in %s", id, at, last, got)
		}
		last = at
	}
}

// TestServeWritesPages: asked as a page shows it, every worked example comes as HTML and in the words of a record; a fault comes as always.
func TestServeWritesPages(t *testing.T) {
	for _, c := range calc.All() {
		plain := declare.Request{ID: c.ID, In: c.Example.In, Plot: true}
		request, err := json.Marshal(map[string]any{"id": c.ID, "in": entries(c.Example.In), "plot": true, "page": true})
		if err != nil {
			t.Fatal(err)
		}
		var got struct {
			ID, HTML string
			Told     map[string]string
			Out      any
		}
		if err := json.Unmarshal(Serve(nil, request), &got); err != nil {
			t.Fatal(err)
		}
		a := calc.Answer(plain)
		if got.ID != c.ID || got.HTML != show.Answer(&a) || got.Out != nil {
			t.Errorf("%s: got %+v", c.ID, got)
		}
		for _, one := range show.Told(&a) {
			if got.Told[one.Name] != one.Text {
				t.Errorf("%s: told %q of %s, want %q", c.ID, got.Told[one.Name], one.Name, one.Text)
			}
		}
	}
	if got := string(Serve(nil, []byte(`{"id":"pressure","in":{"value":"500"},"page":true}`))); !strings.HasPrefix(got, `{"id":"pressure","error":{"field":"value"`) {
		t.Errorf("got %s", got)
	}
}

func all() string {
	var ids []string
	for _, c := range calc.All() {
		ids = append(ids, c.ID)
	}
	return strings.Join(ids, ", ")
}

func TestServeErrors(t *testing.T) {
	for _, c := range []struct{ request, want string }{
		{``, `{"id":"","error":{"field":"","text":"request, byte 1: a JSON object is expected"}}`},
		{`{"id":"<b>"}`, `{"id":"\u003cb\u003e","error":{"field":"","text":"there is no calculator “\u003cb\u003e”; there are ` + all() + `"}}`},
		{`{"id":"pressure","in":{"value":"500"}}`, `{"id":"pressure","error":{"field":"value","text":"“500” has no unit: write 500 mTorr or 500 Pa, whichever it is"}}`},
		{`{"id":"pressure","in":{"value":"1 Pa"},"page":1}`, `{"id":"pressure","error":{"field":"","text":"request, byte 47: true is expected"}}`},
		{`{"id":"pressure","in":{"value":"1 Pa"},"x":1}`, `{"id":"pressure","error":{"field":"","text":"request, byte 44: unknown member “x”; a request has id, in, out, units, plot and page"}}`},
	} {
		if got := string(Serve(nil, []byte(c.request))); got != c.want {
			t.Errorf("%s:\ngot  %s\nwant %s", c.request, got, c.want)
		}
	}
	for _, request := range []string{`{"id":"pressure","in":{"value":"\u0000\ufffd\"<script>"}}`, "{\"id\":\"\xff\"}", `{"id":"` + strings.Repeat("x", MaxRequest-9) + `"}`, strings.Repeat("[", 1<<20), `{"id":"rise-test","in":{"volume":"` + strings.Repeat("9", 1<<19) + `"}}`} {
		if a := check(t, []byte(request)); a.Error == nil {
			t.Errorf("%.80s is answered with %+v", request, a)
		} else if len(a.Error.Text) > 2000 {
			t.Errorf("%.80s: the sentence is %d bytes long", request, len(a.Error.Text))
		}
	}
}

// TestAppendAnswerEscapes whatever an answer may come to hold.
func TestAppendAnswerEscapes(t *testing.T) {
	odd := "\"\\\x00\x1f\x7f<>&\xff\u2028😀µ"
	want := "\"\\\x00\x1f\x7f<>&\uFFFD\u2028😀µ"
	raw := AppendAnswer(nil, declare.Answer{ID: odd, Verdict: declare.Verdict{Is: odd, Text: odd}, Working: []string{odd, ""}, Cautions: []string{odd},
		Out: []declare.Given{{ID: odd, Unit: odd, Text: odd, Value: 1e-7, U: 2e21, HasValue: true, HasU: true, Also: []string{odd}, Kind: quantity.Pressure}}})
	var a answer
	if err := json.Unmarshal(raw, &a); err != nil {
		t.Fatalf("%s: %v", raw, err)
	}
	o := a.Out[want]
	if a.ID != want || a.Verdict.Is != want || a.Verdict.Text != want || a.Working[0] != want || a.Cautions[0] != want || o.Text != want || *o.Unit != want || o.Also[0] != want || *o.Value != 1e-7 || *o.U != 2e21 {
		t.Errorf("%s", raw)
	}
	for x, want := range map[float64]string{0: "0", -1.5: "-1.5", 1e300: "1e+300", math.NaN(): "null", math.Inf(1): "null"} {
		var w writer
		w.number(x)
		if got := string(w.out); got != want || !json.Valid([]byte(got)) {
			t.Errorf("%v: got %s, want %s", x, got, want)
		}
	}
}

func BenchmarkServe(b *testing.B) {
	for _, c := range calc.All() {
		b.Run(c.ID, func(b *testing.B) {
			request, err := json.Marshal(map[string]any{"id": c.ID, "in": entries(c.Example.In)})
			if err != nil {
				b.Fatal(err)
			}
			var out []byte
			b.ReportAllocs()
			for b.Loop() {
				out = Serve(out[:0], request)
			}
		})
	}
}

func BenchmarkDecodeRequest(b *testing.B) {
	request := []byte(`{"id":"rise-test","in":{"volume":"28 L","start":"120 mTorr","end":"480 mTorr","time":"10 min"},"out":{"leak":"mbar·L/s"}}`)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := DecodeRequest(request); err != nil {
			b.Fatal(err)
		}
	}
}
