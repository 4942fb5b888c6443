package main

import (
	"encoding/json"
	"strings"
	"testing"

	"blankoff/calc/triage"
	"blankoff/calc/wire"
)

// through does what a host does.
func through(t *testing.T, e *exchange, request string) string {
	t.Helper()
	room, ok := e.request(len(request))
	if !ok {
		t.Fatalf("no room for %d bytes", len(request))
	}
	copy(room, request)
	return string(e.out[:e.answer(len(request))])
}

func TestAnswersAreThoseOfTheWireWhateverCameBefore(t *testing.T) {
	var e exchange
	for _, request := range []string{
		`{"id":"pressure","in":{"value":"340 micron"}}`,
		strings.Repeat(" ", 5000) + `{"id":"pressure","in":{"value":"0,02 mbar"}}`,
		`{"id":"pressure","in":{"value":"three"}}`,
		`{"id":"none"}`,
		`{`,
		``,
		`{"id":"pressure","in":{"value":"1 bar"}}`,
	} {
		want := string(wire.Serve(nil, []byte(request)))
		if got := through(t, &e, request); got != want {
			t.Errorf("%.60q: got %s, want %s", request, got, want)
		}
	}
}

func TestWrongLengthsAreAnsweredWithASentence(t *testing.T) {
	var e exchange
	through(t, &e, `{"id":"none"}`)
	if _, ok := e.request(maxRequest); !ok {
		t.Errorf("no room for the longest request")
	}
	for _, n := range []int{-1, maxRequest + 1, 1 << 31} {
		if _, ok := e.request(n); ok {
			t.Errorf("room for %d bytes", n)
		}
		wantSentence(t, &e, n, "1 MiB")
	}
	var fresh exchange
	wantSentence(t, &fresh, 5, "room")
}

// TestAModelHandedOverAnswersAsOneThatIsBrought: good, faulty or replaced, and a triage that brings its own is answered by that one.
func TestAModelHandedOverAnswersAsOneThatIsBrought(t *testing.T) {
	var e exchange
	hand := func(model string) {
		room, ok := e.request(len(model))
		if !ok {
			t.Fatalf("no room for %d bytes", len(model))
		}
		copy(room, model)
		e.know(len(model))
	}
	through(t, &e, `{"id":"pressure","in":{"value":"1 bar"}}`)
	bare := string(wire.Serve(nil, []byte(`{"id":"triage"}`)))
	if got := through(t, &e, `{"id":"triage"}`); got != bare || !strings.Contains(got, "line 0") {
		t.Errorf("without a model: %s", got)
	}
	for _, model := range []string{modelText, "triage 2", "", modelText + "\xff", strings.Replace(modelText, "unlisted\t", "unlisted\t1", 1), modelText} {
		hand(model)
		for _, c := range triages {
			want := string(wire.Serve(nil, triagingBy(model, c.in)))
			if got := through(t, &e, string(triagingBy("", c.in))); got != want {
				t.Errorf("%s, by a model of %d bytes: got %s, want %s", c.name, len(model), got, want)
			}
			own := string(wire.Serve(nil, triaging(c.in)))
			if got := through(t, &e, string(triaging(c.in))); got != own {
				t.Errorf("%s, with its own model: got %s, want %s", c.name, got, own)
			}
		}
	}
	e.know(-1)
	e.know(1 << 30)
	if got := through(t, &e, `{"id":"triage"}`); got != bare {
		t.Errorf("after a model of no possible length: %s", got)
	}
}

func TestPanicBecomesAnAnswer(t *testing.T) {
	defer func() { serve = wire.ServeBy }()
	var e exchange
	before := through(t, &e, `{"id":"none"}`)
	serve = func(*triage.Known, []byte, []byte) []byte { panic("a calculator divided by nothing") }
	wantSentence(t, &e, 2, "please report")
	serve = wire.ServeBy
	if after := through(t, &e, `{"id":"none"}`); after != before {
		t.Errorf("after a panic: got %s, want %s", after, before)
	}
}

func wantSentence(t *testing.T, e *exchange, n int, want string) {
	t.Helper()
	var answer struct{ Error struct{ Text string } }
	if err := json.Unmarshal(e.out[:e.answer(n)], &answer); err != nil {
		t.Fatalf("%d bytes: %v in %s", n, err, e.out)
	}
	if !strings.Contains(answer.Error.Text, want) {
		t.Errorf("%d bytes: got %q, want a sentence with %q", n, answer.Error.Text, want)
	}
}

func TestBuffersAreUsedAgain(t *testing.T) {
	var e exchange
	const request = `{"id":"pressure","in":{"value":"340 micron"}}`
	through(t, &e, request)
	in, out := &e.in[0], &e.out[0]
	through(t, &e, request)
	if in != &e.in[0] || out != &e.out[0] {
		t.Errorf("a second request of the same length took new buffers")
	}
}
