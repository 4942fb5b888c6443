package fault

import (
	"fmt"
	"strings"
	"testing"
)

// TestManyFaults: of a file in which every name is wrong, all are told, and a near one is looked for of the first ones only.
func TestManyFaults(t *testing.T) {
	wrong := strings.Replace(good, "tells: [hiss]", "tells: ["+many(2000, func(i int) string { return fmt.Sprintf("hizz-%d, ", i) })+"hiss]", 1)
	_, faults := readText(strings.Replace(wrong, ", hizz", ",\n    hizz", -1))
	guessed := 0
	for _, f := range faults {
		if strings.HasPrefix(f.Hint, "did you mean") || strings.HasPrefix(f.Hint, "known: ") {
			guessed++
		}
	}
	if len(faults) != 2000 || guessed != mostGuesses+1 {
		t.Errorf("%d faults told, of %d a name was guessed", len(faults), guessed)
	}
}
