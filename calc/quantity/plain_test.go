package quantity

import (
	"reflect"
	"testing"
)

// FuzzPlain holds the quick way to what the long way reads.
func FuzzPlain(f *testing.F) {
	for _, text := range []string{"120 mTorr", "24 L ± 1 L", "24.50 L ± 2 %", "-0 °C", "-.5 V", "5. V", "0.0224 mbar·L/s", "20 % ± 1 %", "20 °C ± 2 K", "300 K", "5 counts", "5 L ± 1 gal", "1  L", "007 m", "50 sccm ± 1 sccm"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		for k := None; k < lastKind; k++ {
			kinds := []Kind{k}
			if k == None {
				kinds = nil
			}
			quick, ok := parsePlain(text, kinds)
			if !ok {
				continue
			}
			if slow, problem := parseTidy(tidy(text), kinds, false); problem != nil || !reflect.DeepEqual(slow, quick) {
				t.Fatalf("%q of kinds %v: the quick way reads %+v, the long way %+v, %+v", text, kinds, quick, slow, problem)
			}
		}
	})
}
