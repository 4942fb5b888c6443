package quantity

import (
	"fmt"
	"math/rand/v2"
	"testing"
)

// TestSpellingsAreFound against a map of Go, with many in one slot and several meanings of one spelling.
func TestSpellingsAreFound(t *testing.T) {
	dice := rand.New(rand.NewPCG(7, 8))
	var s, one spellings
	all, last := map[string][]Unit{}, map[string]Unit{}
	if _, at := s.find("", 0); at != 0 {
		t.Error("something is found where nothing is")
	}
	for i := range 5000 {
		spelling := fmt.Sprint(dice.IntN(3000), "µ"[:dice.IntN(3)])
		u := Unit{&measure{Symbol: fmt.Sprint(i)}}
		s.add(spelling, u)
		all[spelling] = append(all[spelling], u)
		one.set(spelling, u)
		last[spelling] = u
	}
	for spelling, want := range all {
		at := int16(0)
		for i, w := range want {
			u, next := s.find(spelling, at)
			if next == 0 || u != w {
				t.Fatalf("%q, meaning %d: %v at %d, want %v", spelling, i+1, u, next, w)
			}
			at = next
		}
		if _, next := s.find(spelling, at); next != 0 {
			t.Errorf("%q has one meaning too many", spelling)
		}
		if u, at := one.find(spelling, 0); at == 0 || u != last[spelling] {
			t.Errorf("%q means %v, want %v", spelling, u, last[spelling])
		}
	}
	for i := range 1000 {
		if _, at := s.find(fmt.Sprint("none ", i), 0); at != 0 {
			t.Errorf("an unknown spelling is found")
		}
	}
}

// TestEverySpellingOfTheTable has its place, and no slot is a long way to go.
func TestEverySpellingOfTheTable(t *testing.T) {
	for _, s := range []*spellings{&exact, &folded, &written} {
		longest := 0
		for _, at := range s.first {
			n := 0
			for ; at > 0; at = s.list[at].next {
				n++
			}
			longest = max(longest, n)
		}
		t.Logf("%d spellings, at most %d in a slot", len(s.list)-1, longest)
		if longest > 8 || len(s.list) < 50 {
			t.Errorf("%d spellings, %d of them in one slot", len(s.list)-1, longest)
		}
	}
}
