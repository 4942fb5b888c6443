package verify

import (
	"cmp"
	"maps"
	"slices"

	"blankoff/build/load"
	"blankoff/build/source"
)

// mostRounds is how many values may hang one on the other in one run; a longer chain is mended by the next.
const mostRounds = 8

// fixMachines writes the figures of computed values anew, those first that others are computed from. It gives the
// library as it will be, and the files that change.
func fixMachines(library *load.Library) (*load.Library, map[string][]byte) {
	all := map[source.Span]rewriting{}
	for range mostRounds {
		texts := map[source.Span]string{}
		for span, r := range rewritings(library) {
			texts[span], all[span] = r.text, r
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
func rewritings(library *load.Library) map[source.Span]rewriting {
	c := &checker{library: library}
	rights, values := map[source.Span][]right{}, map[source.Span]load.Value{}
	hopeless := map[source.Span]bool{}
	for _, m := range library.Machines {
		for _, v := range m.Values {
			if v.Calc == nil {
				continue
			}
			right, ok := c.computedRight(m, v)
			hopeless[v.Span] = hopeless[v.Span] || !ok
			values[v.Span], rights[v.Span] = v, append(rights[v.Span], right)
		}
	}
	fresh := map[source.Span]rewriting{}
	for span, v := range values {
		if text, ok := freshValue(v, rights[span]); ok && !hopeless[span] {
			fresh[span] = rewriting{v, text}
		}
	}
	return fresh
}

// freshValue writes a computed value anew, if only its figures differ and the outcome is true for all machines.
func freshValue(v load.Value, rights []right) (string, bool) {
	if v.Place.File == nil {
		return "", false
	}
	fresh, ok := restate(v.Text.Text, rights[0].measure)
	for _, right := range rights[1:] {
		ok = ok && disagreement(read(fresh), right.measure) == agrees
	}
	return fresh, ok && fresh != v.Text.Text
}

// rewrittenFiles puts the new texts into their files, in place of the old; all other bytes stay.
func rewrittenFiles(all map[source.Span]rewriting) map[string][]byte {
	files := map[string][]byte{}
	for _, r := range slices.SortedFunc(maps.Values(all), func(a, b rewriting) int { // from the end, so that places before stay right
		return cmp.Or(cmp.Compare(a.value.Place.File.Path, b.value.Place.File.Path), b.value.Place.Start-a.value.Place.Start)
	}) {
		at := r.value.Place
		text := at.File.Text
		if done, has := files[at.File.Path]; has {
			text = string(done)
		}
		text = text[:at.Start] + r.text + text[at.End():]
		if readsAs(text, r) {
			files[at.File.Path] = []byte(text)
		}
	}
	return files
}

// readsAs tells whether a file, written anew, has the value: a comma that is new in a figure ends a plain text within
// braces, for one.
func readsAs(text string, r rewriting) bool {
	file := &source.File{Text: text}
	mapping, faults := source.ParseMapping(file, file.Span(0, len(text)))
	values, _ := mapping.Find("values")
	value, _ := values.Value.Map.Find(r.value.Name)
	return len(faults) == 0 && value.Value.Map.Text("is").Text == r.text
}
