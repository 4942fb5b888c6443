package search

import (
	"bytes"
	"compress/gzip"
	"fmt"
	"io"
	"math/rand/v2"
	"reflect"
	"slices"
	"testing"

	"blankoff/build/edition"
)

func sample(t testing.TB) *Index {
	t.Helper()
	return Of([]edition.File{
		page("symptoms/oil/", "guide", "<h1>Milky oil</h1><p>Pump and pumps, pumping oil at <data value=66.66 data-kind=pressure>500 mTorr</data></p>"),
		page("machines/cindle-14/", "machine", "<h1>Cindle 14</h1><p>Pump of the Größe ½</p>"),
	}, [][]string{{"pump", "vac pump"}})
}

func packed(t testing.TB, plain []byte) []byte {
	t.Helper()
	var out bytes.Buffer
	w := gzip.NewWriter(&out)
	if _, err := w.Write(plain); err != nil {
		t.Fatal(err)
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

func inflated(t testing.TB, index []byte) []byte {
	t.Helper()
	r, err := gzip.NewReader(bytes.NewReader(index))
	if err != nil {
		t.Fatal(err)
	}
	plain, err := io.ReadAll(r)
	if err != nil {
		t.Fatal(err)
	}
	return plain
}

func same(a, b *Index) error {
	switch {
	case !slices.Equal(a.Terms, b.Terms):
		return fmt.Errorf("terms %q and %q", a.Terms, b.Terms)
	case !slices.EqualFunc(a.Postings, b.Postings, slices.Equal[[]Posting]):
		return fmt.Errorf("postings %v and %v", a.Postings, b.Postings)
	case !reflect.DeepEqual(a.Pages, b.Pages) || !reflect.DeepEqual(a.Units, b.Units) || !reflect.DeepEqual(a.Weights, b.Weights) || !slices.Equal(a.Same, b.Same):
		return fmt.Errorf("heads %+v and %+v", a.Head, b.Head)
	}
	return nil
}

func TestIndexIsReadAsItWasWritten(t *testing.T) {
	x := sample(t)
	for i := range 60 { // and indexes of any shape
		file, err := x.bytes()
		if err != nil {
			t.Fatal(err)
		}
		read, err := Read(file)
		if err != nil {
			t.Fatal(err)
		}
		if err := same(x, read); err != nil {
			t.Fatalf("index %d: %v", i, err)
		}
		if again, err := read.bytes(); err != nil || !bytes.Equal(again, file) {
			t.Fatalf("index %d is written in two ways: %v", i, err)
		}
		x = random(rand.New(rand.NewPCG(7, uint64(i))))
	}
}

func random(r *rand.Rand) *Index {
	x := &Index{Head: sampleHead}
	for i := range r.IntN(300) {
		x.Pages = append(x.Pages, Page{fmt.Sprintf("pages/p%d/", i), "Title \"<&", r.IntN(len(kindsOfPages)), r.IntN(150)})
	}
	terms := map[string]bool{}
	for range r.IntN(200) {
		term := ""
		for range 1 + r.IntN(9) {
			term += string([]rune("abcdeäßµ#1/9z")[r.IntN(13)])
		}
		terms[term] = true
	}
	for term := range terms {
		x.Terms = append(x.Terms, term)
	}
	slices.Sort(x.Terms)
	for range x.Terms {
		list := []Posting{}
		for n := range x.Pages {
			if r.IntN(4) == 0 {
				list = append(list, Posting{n, Place(r.IntN(places))})
			}
		}
		x.Postings = append(x.Postings, list)
	}
	return x
}

var sampleHead = Head{Stop: " a ", Weights: weights, Units: []Unit{{"pa", "p", 1, 0}}}

// TestTheSamePagesGiveTheSameBytes, in whatever order they come.
func TestTheSamePagesGiveTheSameBytes(t *testing.T) {
	var pages []edition.File
	for i := range 40 {
		pages = append(pages, page(fmt.Sprintf("pages/p%d/", i), "guide", fmt.Sprintf("<h1>Page %d</h1><p>TQ-%d leaks</p>", i, i)))
	}
	first, err := Make(pages, nil)
	if err != nil {
		t.Fatal(err)
	}
	slices.Reverse(pages)
	if second, err := Make(pages, nil); err != nil || !bytes.Equal(first, second) {
		t.Errorf("two indexes of %d and %d bytes, %v", len(first), len(second), err)
	}
}

// FuzzRead: a file that is no index is refused, and one that is comes out as it went in.
func FuzzRead(f *testing.F) {
	file, err := sample(f).bytes()
	if err != nil {
		f.Fatal(err)
	}
	plain := inflated(f, file)
	f.Add(plain)
	f.Add(plain[:len(plain)-3])
	f.Add([]byte("{}\n"))
	f.Add([]byte(`{"terms":"0a 1b","pages":[["a/","A",0]]}` + "\n\xff\xff\xff\xff\xff\xff"))
	f.Fuzz(func(t *testing.T, plain []byte) {
		x, err := Read(packed(t, plain))
		if err != nil {
			return
		}
		written, err := x.bytes()
		if err != nil {
			return // a weight that JSON has no number for, say
		}
		again, err := Read(written)
		if err != nil {
			t.Fatalf("what was written is not read: %v", err)
		}
		if err := same(x, again); err != nil {
			t.Fatal(err)
		}
	})
}

// FuzzPage: whatever stands on a page, its index can be read again.
func FuzzPage(f *testing.F) {
	f.Add(`<h1>A</h1><p class=summary>b <data value="1 x -3" data-kind=pressure>1 Pa</data>`)
	f.Add(`<svg><h1>x</svg></h1><li id=step-9 class=step><h2>`)
	f.Add("<h1>\x00\xff o-1-2-3/4 'İ</h1>")
	f.Fuzz(func(t *testing.T, main string) {
		x := Of([]edition.File{page("pages/a/", "guide", main)}, [][]string{{main, "x"}})
		file, err := x.bytes()
		if err != nil {
			t.Fatal(err)
		}
		read, err := Read(file)
		if err != nil {
			t.Fatal(err)
		}
		if !slices.Equal(read.Terms, x.Terms) || len(read.Pages) != len(x.Pages) {
			t.Errorf("%q and %q", read.Terms, x.Terms)
		}
	})
}
