package search_test

import (
	"bytes"
	"compress/gzip"
	"io"
	"math/rand/v2"
	"strings"
	"testing"
)

// TestAnyTextIsAQuery: whatever is typed, or stands in an address that somebody sent, is answered, if by nothing.
func TestAnyTextIsAQuery(t *testing.T) {
	_, index := site(t)
	asks := asked{Queries: [][2]any{{0, ""}, {0, " "}, {0, "constructor __proto__ toString"}, {0, strings.Repeat("1 ", 5000)}, {0, strings.Repeat("a", 20000)}, {0, "1e999 Pa"}, {0, "-0 Pa 0 mTorr 1/0 in ,,, mm"}}}
	r := rand.New(rand.NewPCG(1, 2))
	pieces := strings.Split(`500| |mTorr|-|1/8|°C|C|(|)|[|\|*|+|?|.|^|$|{|}|</script>|"|'|%|%00|&|#|é|Ω|µ|𝟙|‮|`+"\x00|\n|\u200b"+`|5 ſ|5 μtorr|5 K|senser|vac pump|hoses|a|the|zzzzzzzz|,|1,500`, "|")
	for range 600 {
		typed := ""
		for range r.IntN(12) {
			typed += pieces[r.IntN(len(pieces))]
		}
		asks.Queries = append(asks.Queries, [2]any{0, typed})
	}
	for i, answer := range shipped(t, asks, index).Answers {
		if answer.Fault != "" {
			t.Errorf("%.100q: %s", asks.Queries[i][1], answer.Fault)
		}
		for _, f := range answer.Found {
			if !(f.Score >= 0) {
				t.Errorf("%.100q: %s is worth %v", asks.Queries[i][1], f.Address, f.Score)
			}
		}
	}
}

// TestADamagedIndexEndsInAFault, or in an answer: it neither hangs nor takes all memory. That the script ends shows it.
func TestADamagedIndexEndsInAFault(t *testing.T) {
	_, index := site(t)
	packed, err := gzip.NewReader(bytes.NewReader(index))
	if err != nil {
		t.Fatal(err)
	}
	plain, err := io.ReadAll(packed)
	if err != nil {
		t.Fatal(err)
	}
	head := bytes.IndexByte(plain, '\n')
	r := rand.New(rand.NewPCG(3, 4))
	var asks asked
	var indexes [][]byte
	for i := range 120 {
		spoilt := bytes.Clone(plain)
		switch i % 4 {
		case 0: // cut off
			spoilt = spoilt[:r.IntN(len(spoilt))]
		case 1: // numbers that never end
			for k := range spoilt[head+1:] {
				spoilt[head+1+k] |= 0x80
			}
		case 2: // a few bytes of the numbers
			for range 1 + r.IntN(20) {
				spoilt[head+1+r.IntN(len(spoilt)-head-1)] = byte(r.Uint32())
			}
		case 3: // a few letters of the head
			for range 1 + r.IntN(20) {
				spoilt[r.IntN(head)] = "0\"[]{},: a"[r.IntN(10)]
			}
		}
		indexes = append(indexes, spoilt)
		asks.Queries = append(asks.Queries, [2]any{i, "milky oil 500 mtorr"})
	}
	faults := 0
	for _, answer := range shipped(t, asks, indexes...).Answers {
		if answer.Fault != "" {
			faults++
		}
	}
	t.Logf("%d of %d spoilt indexes were refused", faults, len(indexes))
	if faults < len(indexes)/2 {
		t.Errorf("only %d of %d spoilt indexes were refused", faults, len(indexes))
	}
}
