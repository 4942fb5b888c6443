package journey

import "testing"

// engines are those that today's browsers are built from. What a reader does must work in each.
var engines = []struct {
	Make
	narrow View // a window as wide as a phone
}{
	{Chromium(), Phone},
	{Firefox(), Narrow},
	{WebKit(), Narrow},
}

// inEachEngine gives a test a browser of each make, as wide as a phone.
func inEachEngine(t *testing.T, test func(t *testing.T, b *Browser)) {
	for _, engine := range engines {
		t.Run(engine.Name, func(t *testing.T) {
			t.Parallel()
			test(t, open(t, engine.Make, engine.narrow))
		})
	}
}
