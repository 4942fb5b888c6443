package verify

import (
	"cmp"
	"maps"
	"slices"

	"blankoff/build/load"
	"blankoff/build/source"
)

// mostRounds is how many values may hang one on the other in one run; a longer chain is mended by the next.
const mostRounds = 100

// fixMachines writes the figures of computed values anew, those first that others are computed from. It gives the
// library as it will be, and the files that change.
func fixMachines(library *load.Library) (*load.Library, map[string][]byte) {
	all := map[source.Span]rewriting{}
	for range mostRounds {
		texts := map[source.Span]string{}
		for _, r := range rewritings(library) {
			texts[r.value.Span], all[r.value.Span] = r.text, r
		}
		if len(texts) == 0 {
			break
		}
		library = library.Rewritten(texts)
	}
	return library, rewrittenFiles(all)
}

// rewriting is a value with the text that it should have.
type rewriting struct {
	value load.Value
	text  string
}

// rewritings are the computed values whose figures are stale, with the figures that hold for all their machines.
func rewritings(library *load.Library) []rewriting {
	c := &checker{library: library} // what it finds on the way is Check's to say
	var list []rewriting
	for _, of := range computations(library) {
		if rights, ok := c.computedRights(of); ok {
			if text, ok := freshValue(of.value, rights); ok {
				list = append(list, rewriting{of.value, text})
			}
		}
	}
	return list
}

// freshValue writes a computed value anew, if its file can say that in the place of the old text.
func freshValue(v load.Value, rights []right) (string, bool) {
	fresh, ok := figures(v, rights)
	return fresh, ok && v.Place.File != nil && readsAs(v, fresh)
}

// figures gives a computed value with other figures alone, if there are some that are true for all machines.
func figures(v load.Value, rights []right) (string, bool) {
	if len(rights) == 0 {
		return "", false
	}
	fresh, ok := restate(v.Text.Text, rights[0].measure)
	for _, right := range rights[1:] {
		ok = ok && disagreement(read(fresh), right.measure) == agrees
	}
	return fresh, ok && fresh != v.Text.Text
}

// readsAs tells whether a file with a new text in it would be read so: a comma that is new in a figure ends a plain
// text within braces, for one.
func readsAs(v load.Value, fresh string) bool {
	text := v.Place.File.Text
	file := &source.File{Text: text[:v.Place.Start] + fresh + text[v.Place.End():]}
	mapping, _ := source.ParseMapping(file, file.Span(0, len(file.Text)))
	values, _ := mapping.Find("values")
	value, _ := values.Value.Map.Find(v.Name)
	return value.Value.Map.Text("is").Text == fresh
}

// rewrittenFiles puts the new texts into their files, in place of the old; all other bytes stay.
func rewrittenFiles(all map[source.Span]rewriting) map[string][]byte {
	files := map[string][]byte{}
	for _, r := range slices.SortedFunc(maps.Values(all), func(a, b rewriting) int { // from the end, so that places before stay right
		return cmp.Or(cmp.Compare(a.value.Place.File.Path, b.value.Place.File.Path), b.value.Place.Start-a.value.Place.Start)
	}) {
		at := r.value.Place
		text, has := files[at.File.Path]
		if !has {
			text = []byte(at.File.Text)
		}
		files[at.File.Path] = slices.Replace(text, at.Start, at.End(), []byte(r.text)...)
	}
	return files
}
