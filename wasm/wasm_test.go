package main

import (
	"bytes"
	"compress/gzip"
	"context"
	"encoding/json"
	"io"
	"math"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"github.com/tetratelabs/wazero"
	"github.com/tetratelabs/wazero/api"
	"github.com/tetratelabs/wazero/imports/wasi_snapshot_preview1"

	"blankoff/build/bundle"
	"blankoff/calc"
	"blankoff/calc/declare"
	"blankoff/calc/quantity"
	"blankoff/calc/wire"
)

// shipped is the module that a phone loads, run by a host that is not a browser.
type shipped struct {
	memory                        api.Memory
	request, model, answer, reply api.Function
}

func load(t testing.TB) *shipped {
	t.Helper()
	ctx := context.Background()
	code := unpacked(t)
	runtime := wazero.NewRuntime(ctx)
	t.Cleanup(func() { runtime.Close(ctx) })
	wasi_snapshot_preview1.MustInstantiate(ctx, runtime)
	module, err := runtime.InstantiateWithConfig(ctx, code, wazero.NewModuleConfig().WithStartFunctions("_initialize"))
	if err != nil {
		t.Fatal(err)
	}
	s := &shipped{module.Memory(), module.ExportedFunction("request"), module.ExportedFunction("model"), module.ExportedFunction("answer"), module.ExportedFunction("reply")}
	if s.request == nil || s.model == nil || s.answer == nil || s.reply == nil || s.memory == nil {
		t.Fatalf("the module exports %v", module.ExportedFunctionDefinitions())
	}
	return s
}

// unpacked is the module as it runs.
func unpacked(t testing.TB) []byte {
	t.Helper()
	built, err := bundle.WebAssembly(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	unzip, err := gzip.NewReader(bytes.NewReader(built.Stored))
	if err != nil {
		t.Fatal(err)
	}
	code, err := io.ReadAll(unzip)
	if err != nil || len(code) != built.Raw {
		t.Fatalf("%d bytes inflated, %d expected: %v", len(code), built.Raw, err)
	}
	return code
}

// serve does what site/host.ts does.
func (s *shipped) serve(t testing.TB, request []byte) []byte {
	s.put(t, request)
	length := s.call(t, s.answer, uint64(len(request)))
	place := s.call(t, s.reply)
	answer, ok := s.memory.Read(place, length)
	if !ok {
		t.Fatalf("no %d bytes at %d", length, place)
	}
	return answer
}

// know hands a fault model over.
func (s *shipped) know(t testing.TB, model string) {
	s.put(t, []byte(model))
	if _, err := s.model.Call(context.Background(), uint64(len(model))); err != nil {
		t.Fatal(err)
	}
}

func (s *shipped) put(t testing.TB, text []byte) {
	place := s.call(t, s.request, uint64(len(text)))
	if !s.memory.Write(place, text) {
		t.Fatalf("no %d bytes at %d", len(text), place)
	}
}

func (s *shipped) call(t testing.TB, f api.Function, arguments ...uint64) uint32 {
	results, err := f.Call(context.Background(), arguments...)
	if err != nil {
		t.Fatalf("%s%v: %v", f.Definition().Name(), arguments, err)
	}
	return uint32(results[0])
}

// TestShippedModuleAnswersAsTheNativeBuild: numbers to 1e-12 relative, all else letter for letter.
func TestShippedModuleAnswersAsTheNativeBuild(t *testing.T) {
	const requests = 10_000
	module, random := load(t), rand.New(rand.NewPCG(21, 22))
	verdicts, faults := map[string]int{}, map[string]int{}
	for range requests {
		request := anyRequest(random)
		native, theirs := wire.Serve(nil, request), module.serve(t, request)
		var want, got any
		if err := json.Unmarshal(native, &want); err != nil {
			t.Fatalf("%q: %v in %s", request, err, native)
		}
		if err := json.Unmarshal(theirs, &got); err != nil {
			t.Fatalf("%q: %v in %s", request, err, theirs)
		}
		if place := differ(got, want, ""); place != "" {
			t.Errorf("%q:\nmodule %s\nnative %s\ndiffer at %s", request, theirs, native, place)
		}
		count(verdicts, faults, want.(map[string]any))
	}
	t.Logf("answered: %v; refused: %v", verdicts, faults)
	for _, c := range calc.All() {
		answered := 0
		for _, is := range []string{"", " pass", " fail", " cannot tell"} {
			answered += verdicts[c.ID+is]
		}
		if least := requests / len(calc.All()) / 20; faults[c.ID] < least || answered < least {
			t.Errorf("%s refused %d requests and answered %d: too few to compare", c.ID, faults[c.ID], answered)
		}
	}
	for _, name := range []string{"pressure", "throughput", "rise-test", "rise-test pass", "rise-test fail", "rise-test cannot tell", "continuity pass", "continuity fail", "continuity cannot tell"} {
		if verdicts[name] < requests/len(calc.All())/30 {
			t.Errorf("%q was answered %d times: too few to compare", name, verdicts[name])
		}
	}
}

func count(verdicts, faults map[string]int, answer map[string]any) {
	id, _ := answer["id"].(string)
	if answer["error"] != nil {
		faults[id]++
		return
	}
	verdict, _ := answer["verdict"].(map[string]any)
	is, _ := verdict["is"].(string)
	verdicts[strings.TrimSpace(id+" "+is)]++
}

// closeDoubts compares two standard uncertainties. Each is the difference of two results, and so holds their last bits.
func closeDoubts(got, want map[string]any) bool {
	value, _ := want["value"].(float64)
	u, _ := want["u"].(float64)
	other, ok := got["u"].(float64)
	return ok && math.Abs(other-u) <= 1e-12*u+1e-14*math.Abs(value)
}

// differ gives the place where two answers differ, empty if nowhere.
func differ(got, want any, place string) string {
	switch want := want.(type) {
	case map[string]any:
		other, ok := got.(map[string]any)
		if !ok || len(other) != len(want) {
			return place + "{}"
		}
		for key, value := range want {
			if key == "u" && closeDoubts(other, want) {
				continue
			}
			if at := differ(other[key], value, place+"."+key); at != "" {
				return at
			}
		}
		return ""
	case []any:
		other, ok := got.([]any)
		if !ok || len(other) != len(want) {
			return place + "[]"
		}
		for i, value := range want {
			if at := differ(other[i], value, place+"["+strconv.Itoa(i)+"]"); at != "" {
				return at
			}
		}
		return ""
	case float64:
		if other, ok := got.(float64); ok && math.Abs(other-want) <= 1e-12*math.Abs(want) {
			return ""
		}
		return place
	}
	if got != want {
		return place
	}
	return ""
}

// anyRequest is a request to some calculator: mostly answerable, often odd, at times hostile.
func anyRequest(random *rand.Rand) []byte {
	all := calc.All()
	c := all[random.IntN(len(all))]
	in, out := map[string]any{}, map[string]string{}
	// Every second request is the calculator's own example with most of its entries moved a little.
	if random.IntN(2) == 0 {
		for _, pair := range c.Example.In {
			in[pair.Name] = moved(random, c.Input(pair.Name), pair.Text)
		}
	}
	for i := range c.Inputs {
		if input := &c.Inputs[i]; in[input.ID] == nil && len(in) < len(c.Example.In) && (input.Required || random.IntN(2) == 0) || random.IntN(20) == 0 {
			in[input.ID] = anyEntry(random, c, input)
		}
	}
	for _, output := range c.Outputs {
		if output.Kind != quantity.None && random.IntN(6) == 0 {
			out[output.ID] = append(output.Also, output.Unit, "furlong", "Pa")[random.IntN(len(output.Also)+3)]
		}
	}
	request := map[string]any{"id": c.ID, "in": in}
	if random.IntN(3) == 0 {
		request["out"] = out
	}
	if c.Plot != nil && random.IntN(2) == 0 {
		request["plot"] = []any{true, map[string]string{"pressure": "Pa"}, map[string]string{"pressure": "inHg", "temperature": "°F"}, map[string]string{"time": "furlong"}}[random.IntN(4)]
	}
	if random.IntN(3) == 0 {
		request["page"] = true
	}
	data, err := json.Marshal(request)
	if err != nil {
		panic(err)
	}
	if random.IntN(100) == 0 { // torn on its way
		data = data[:random.IntN(len(data))]
	}
	return data
}

var hostile = []string{"", "OL", "NaN", "-1", "0", "1e299 Pa", "9e99 mol/s", "5 kg", "±", "5 ± 5 ± 5", "1:30", "\x00", "<b>", "½ in", "12 34 mbar", "1/0 in", "6.9 to 9.3 Ω", "5 mpa", "三 mbar", strings.Repeat("9", 300)}

func anyEntry(random *rand.Rand, c *declare.Calculator, input *declare.Input) any {
	switch random.IntN(30) {
	case 0:
		return hostile[random.IntN(len(hostile))]
	case 1:
		return math.Round(1000 * random.Float64()) // a bare number
	case 2:
		return nil
	}
	if input.Columns != nil {
		return anyTable(random, c, input)
	}
	if input.Kinds == nil {
		return input.Choices[random.IntN(len(input.Choices))].Value
	}
	return usual(random, c, input)
}

// moved is an entry of an example, at times with other figures.
func moved(random *rand.Rand, input *declare.Input, text string) string {
	if input.Columns != nil {
		return shaken(random, text)
	}
	q, problem := quantity.Parse(text, input.Kinds...)
	if input.Kinds == nil || problem != nil || q.Over || q.Gauge || random.IntN(3) == 0 {
		return text
	}
	moved := q.Value * (0.7 + 0.6*random.Float64())
	if q.Unit.Affine() {
		moved = q.Value + q.Unit.Span(20*random.Float64()-10)
	}
	return strings.TrimSpace(strconv.FormatFloat(q.Unit.From(moved), 'g', 4, 64) + " " + q.Unit.Symbol)
}

// anyTable is the example's table, shaken, or one line under a header.
func anyTable(random *rand.Rand, c *declare.Calculator, input *declare.Input) string {
	for _, pair := range c.Example.In {
		if pair.Name == input.ID && random.IntN(4) > 0 {
			return shaken(random, pair.Text)
		}
	}
	return input.Header() + "\n1,2,3\n2,3,5"
}

// shaken leaves rows out, changes figures, and at times breaks a line.
func shaken(random *rand.Rand, text string) string {
	lines := strings.Split(strings.TrimSpace(text), "\n")
	kept := lines[:1:1]
	for _, line := range lines[1:] {
		fields := strings.Split(line, ",")
		last := len(fields) - 1
		if x, err := strconv.ParseFloat(fields[last], 64); err == nil && random.IntN(2) == 0 {
			fields[last] = strconv.FormatFloat(x*(0.98+0.04*random.Float64()), 'g', 5, 64)
		}
		switch random.IntN(60) {
		case 0:
			continue
		case 1:
			fields[last] = ""
		case 2:
			if random.IntN(4) == 0 {
				fields[last] = "four"
			}
		}
		kept = append(kept, strings.Join(fields, ","))
	}
	return strings.Join(kept, "\n")
}

// usual is an entry in or about the usual range, in any unit of the field, as somebody might type it.
func usual(random *rand.Rand, c *declare.Calculator, input *declare.Input) string {
	unit := append([]string{input.Unit}, input.Units...)[random.IntN(len(input.Units)+1)]
	if c.ID == "pressure" && input.ID == "value" && random.IntN(3) == 0 {
		return strconv.FormatFloat(1-30*random.Float64(), 'f', random.IntN(4), 64) + " inHg gauge"
	}
	low, high := ends(c, input)
	u, known := quantity.FindUnit(unit)
	if !known || u.Kind != low.Kind { // a limit as a rise, a rate in sccm, counts
		return strconv.FormatFloat(100*random.Float64(), 'g', 1+random.IntN(5), 64) + " " + unit
	}
	x := low.Value + (high.Value-low.Value)*random.Float64()
	if low.Value > 0 {
		x = low.Value * math.Pow(high.Value/low.Value, random.Float64())
	}
	text := strconv.FormatFloat(u.From(x), "gef"[random.IntN(3)], 1+random.IntN(6), 64)
	if random.IntN(8) == 0 {
		text = strings.Replace(text, ".", ",", 1)
	}
	text += " " + unit
	if random.IntN(3) == 0 {
		text += " ± " + []string{"1 %", "5 %", "0.3", "20%", "0"}[random.IntN(5)]
	}
	return text
}

// narrow are ranges in which readings fit together, so that verdicts of all three kinds come up.
var narrow = map[string][2]string{
	"rise-test volume": {"5 L", "100 L"}, "rise-test start": {"20 mTorr", "300 mTorr"}, "rise-test end": {"100 mTorr", "2,000 mTorr"}, "rise-test time": {"2 min", "60 min"},
	"rise-test limit": {"0.001 mbar·L/s", "0.5 mbar·L/s"}, "rise-test gauge": {"0.5 %", "40 %"}, "rise-test step": {"0.1 mTorr", "10 mTorr"}, "rise-test ceiling": {"1,900 mTorr", "100 Torr"},
	"continuity reading": {"0.3 Ω", "30 Ω"}, "continuity leads": {"0 Ω", "0.5 Ω"}, "continuity percent": {"0.1 %", "3 %"}, "continuity counts": {"0", "10"},
	"continuity resolution": {"1 mΩ", "0.1 Ω"}, "continuity low": {"0.5 Ω", "9 Ω"}, "continuity high": {"8 Ω", "40 Ω"},
	"pressure value": {"0.1 Pa", "110 kPa"}, "pressure ambient": {"80 kPa", "104 kPa"}, "pressure altitude": {"-400 m", "3000 m"}, "throughput rate": {"1e-6 mbar·L/s", "100 mbar·L/s"},
	"throughput gas-temperature": {"-40 °C", "80 °C"}, "throughput reference": {"0 °C", "25 °C"},
}

func ends(c *declare.Calculator, input *declare.Input) (low, high quantity.Quantity) {
	texts, ok := narrow[c.ID+" "+input.ID]
	if !ok {
		texts = [2]string{"1 " + input.Unit, "10 " + input.Unit} // a new calculator is tried all the same
	}
	low, _ = quantity.Parse(texts[0], input.Kinds...)
	high, _ = quantity.Parse(texts[1], input.Kinds...)
	return low, high
}

// TestShippedModuleKeepsAnswering: one bad request must not end the instance for the page, nor may
// requests of growing length overwrite each other.
func TestShippedModuleKeepsAnswering(t *testing.T) {
	module := load(t)
	good := []byte(`{"id":"pressure","in":{"value":"340 micron"}}`)
	want := string(wire.Serve(nil, good))
	for _, bad := range [][]byte{nil, []byte("{"), bytes.Repeat([]byte("["), 1<<20), []byte(`{"id":"pressure","in":{"value":"` + strings.Repeat("9", 1<<19) + `"}}`), bytes.Repeat([]byte{0xff}, 70000)} {
		if answer := module.serve(t, bad); !json.Valid(answer) || !bytes.Contains(answer, []byte(`"error"`)) {
			t.Errorf("%.40q is answered with %.200q", bad, answer)
		}
		if got := string(module.serve(t, good)); got != want {
			t.Errorf("after %.40q: got %s, want %s", bad, got, want)
		}
	}
	if place := int32(module.call(t, module.request, 1<<21)); place != -1 {
		t.Errorf("room for 2 MiB at %d, want -1", place)
	}
}

// BenchmarkServe sets the shipped module beside the native build.
func BenchmarkServe(b *testing.B) {
	module := load(b)
	for _, c := range calc.All() {
		in := map[string]string{}
		for _, pair := range c.Example.In {
			in[pair.Name] = pair.Text
		}
		request, err := json.Marshal(map[string]any{"id": c.ID, "in": in})
		if err != nil {
			b.Fatal(err)
		}
		b.Run(c.ID+"/native", func(b *testing.B) {
			var out []byte
			for b.Loop() {
				out = wire.Serve(out[:0], request)
			}
		})
		b.Run(c.ID+"/module", func(b *testing.B) {
			for b.Loop() {
				module.serve(b, request)
			}
		})
	}
	b.Run("nothing/module", func(b *testing.B) { // what a call costs by itself
		for b.Loop() {
			module.call(b, module.reply)
		}
	})
}
