package letters

import (
	"math"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"
)

// FuzzAgainstStandardLibrary holds every function to the one of strings or strconv that it stands for.
func FuzzAgainstStandardLibrary(f *testing.F) {
	for _, pair := range [][2]string{{"24 L ± 1 L", "±"}, {"", ""}, {" a  b\t", "b"}, {"\u00a05\u2009mTorr", "5"}, {"aaa", "aa"}, {"\xff\xfea", "\xfe"}, {"1e-7", "e"}, {"-12.500", ".0"}, {"18446744073709551616.5e-300", "5"}, {"x,y", ","}} {
		f.Add(pair[0], pair[1])
	}
	up := func(r rune) rune {
		if r == 'b' {
			return -1
		}
		return r + 1
	}
	f.Fuzz(func(t *testing.T, s, part string) {
		same := func(name string, got, want any) {
			if got != want {
				t.Errorf("%s(%q, %q) = %#v, want %#v", name, s, part, got, want)
			}
		}
		same("HasPrefix", HasPrefix(s, part), strings.HasPrefix(s, part))
		same("HasSuffix", HasSuffix(s, part), strings.HasSuffix(s, part))
		same("TrimPrefix", TrimPrefix(s, part), strings.TrimPrefix(s, part))
		same("TrimSuffix", TrimSuffix(s, part), strings.TrimSuffix(s, part))
		same("Index", Index(s, part), strings.Index(s, part))
		same("Contains", Contains(s, part), strings.Contains(s, part))
		same("IndexAny", IndexAny(s, part), strings.IndexAny(s, part))
		same("TrimSpace", TrimSpace(s), strings.TrimSpace(s))
		same("Tidy", Tidy(s), strings.Join(strings.Fields(s), " "))
		same("Map", Map(up, s), strings.Map(up, s))
		same("Valid", Valid(s), string([]rune(s)))
		same("Join", Join([]string{s, part, s}, part), strings.Join([]string{s, part, s}, part))
		before, after, found := Cut(s, part)
		b, a, ok := strings.Cut(s, part)
		same("Cut", [3]any{before, after, found}, [3]any{b, a, ok})
		if part != "" {
			same("Replace", Replace(s, part, "xy"), strings.ReplaceAll(s, part, "xy"))
			same("IndexByte", IndexByte(s, part[0]), strings.IndexByte(s, part[0]))
			same("Count", Count(s, part[0]), strings.Count(s, part[:1]))
		}
		if ascii(part) {
			same("Trim", Trim(s, part), strings.Trim(s, part))
			same("TrimLeft", TrimLeft(s, part), strings.TrimLeft(s, part))
			same("TrimRight", TrimRight(s, part), strings.TrimRight(s, part))
		}
		same("ContainsRune", ContainsRune(s, 'µ'), strings.ContainsRune(s, 'µ'))
		number(t, s)
	})
}

func ascii(s string) bool {
	return strings.IndexFunc(s, func(r rune) bool { return r >= utf8.RuneSelf }) < 0
}

// number compares Float with the nearest double: the same for what people type, otherwise to four units in the last place.
func number(t *testing.T, s string) {
	t.Helper()
	got, ok := Float(s)
	want, err := strconv.ParseFloat(s, 64)
	if ok && err != nil && !strings.Contains(err.Error(), "range") {
		t.Errorf("Float(%q) = %v, and %v", s, got, err)
	}
	plain := strings.Trim(s, "+-0123456789.eE") == ""
	if !ok && err == nil && plain {
		t.Errorf("Float(%q) is refused; it is %v", s, want)
	}
	if ok && err == nil && math.Abs(got-want) > 4*(math.Nextafter(math.Abs(want), math.Inf(1))-math.Abs(want)) {
		t.Errorf("Float(%q) = %v, want %v", s, got, want)
	}
}

func TestFloatIsExactForWhatPeopleType(t *testing.T) {
	for _, mantissa := range []float64{1, 7, 123, 9999999, 0.1 * 3, 123456.789, 999999999999999, 2.5e-7, 1.0 / 3} {
		for exponent := -15; exponent <= 15; exponent++ {
			for figures := 1; figures <= 15; figures++ {
				s := strconv.FormatFloat(mantissa*math.Pow(10, float64(exponent)), 'e', figures-1, 64)
				_, power, _ := strings.Cut(s, "e")
				if n, _ := strconv.Atoi(power); n-figures+1 < -22 || n > 22 {
					continue
				}
				want, _ := strconv.ParseFloat(s, 64)
				if got, ok := Float(s); !ok || got != want {
					t.Errorf("Float(%q) = %v, %v, want %v", s, got, ok, want)
				}
			}
		}
	}
	for _, s := range []string{"", "-", ".", "e5", "1e", "1e+", "1.2.3", "0x10", "1_000", "Inf", "NaN", "1 ", "1e400", "--1"} {
		if got, ok := Float(s); ok {
			t.Errorf("Float(%q) = %v", s, got)
		}
	}
}

func TestWhole(t *testing.T) {
	for _, n := range []int{0, 7, -7, 10, 123456789, math.MaxInt64, math.MinInt64} {
		if got := Whole(n); got != strconv.Itoa(n) {
			t.Errorf("Whole(%d) = %q", n, got)
		}
	}
}
