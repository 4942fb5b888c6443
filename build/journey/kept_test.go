package journey

import (
	"regexp"
	"testing"
)

// keptEntry is an entry of a job, as the browser's own store has it.
type keptEntry struct {
	Is, Page string
	Given    map[string]string
}

// entriesKept reads the store of the page: nothing where it has none yet, since a look must not make one. A look that the
// browser does not answer is tried again.
func entriesKept(t *testing.T, b *Browser) []keptEntry {
	t.Helper()
	var found *[]keptEntry
	must(t, b.Until("the store answers", func() (bool, error) {
		err := b.Script(&found, `return new Promise(async (resolve, reject) => {
			const name = "blankoff " + new URL(document.documentElement.dataset.root, location.href).pathname;
			if (!(await indexedDB.databases()).some((one) => one.name === name)) return resolve([]);
			setTimeout(() => resolve(null), 5000);
			const asked = indexedDB.open(name);
			asked.onerror = () => reject(asked.error);
			asked.onsuccess = () => {
				const all = asked.result.transaction("entries").objectStore("entries").getAll();
				all.onsuccess = () => { asked.result.close(); resolve(all.result.map(({ is, page, given }) => ({ is, page, given }))); };
			};
		})`)
		return found != nil, err
	}))
	return *found
}

// resultsKept are the calculators' answers that are kept, each by its page.
func resultsKept(t *testing.T, b *Browser) (pages []string) {
	t.Helper()
	for _, entry := range entriesKept(t, b) {
		if entry.Is == "result" {
			pages = append(pages, entry.Page)
		}
	}
	return pages
}

var pressure = regexp.MustCompile(`Pa|Torr`)

// readingsKept counts the readings of a log, and what was changed about them.
func readingsKept(t *testing.T, b *Browser) (n int) {
	t.Helper()
	for _, entry := range entriesKept(t, b) {
		if entry.Is != "reading" && entry.Is != "edit" {
			continue
		}
		for _, text := range entry.Given {
			if pressure.MatchString(text) {
				n++
				break
			}
		}
	}
	return n
}
