package quantity

import "testing"

func TestUnitsSideBySide(t *testing.T) {
	for _, test := range [][3]string{
		{"mm", "m", "m"}, {"mm", "ft", "m"}, {"mm", "cm", "mm"}, {"mm", "µm", "mm"}, {"mm", "in", "mm"},
		{"in", "m", "ft"}, {"in", "mm", "in"}, {"in", "cm", "in"}, {"in", "ft", "ft"},
		{"L", "L", "L"}, {"L", "gal", "L"}, {"L", "m³", "L"}, {"L", "mL", "mL"}, {"L", "cc", "mL"},
		{"gal", "L", "gal"}, {"gal", "m³", "gal"}, {"gal", "mL", "in³"}, {"in³", "L", "gal"},
		{"Pa", "mbar", "Pa"}, {"°F", "°C", "°F"}, {"micron", "Torr", "micron"},
	} {
		if got := MustUnit(test[0]).Beside(MustUnit(test[1])).Symbol; got != test[2] {
			t.Errorf("%s chosen, beside %s: %s, want %s", test[0], test[1], got, test[2])
		}
	}
}
