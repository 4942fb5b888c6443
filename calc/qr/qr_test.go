package qr

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"rsc.io/qr/coding"
)

// TestAnotherWriterDrawsTheSame compares every version, level and mask, module by module, with rsc.io/qr, which has its own
// tables and its own way to lay them out.
func TestAnotherWriterDrawsTheSame(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 18004))
	theirLevels := [levels]coding.Level{coding.L, coding.M, coding.Q, coding.H}
	for version := 1; version <= versions; version++ {
		for level := range levels {
			for mask := range masks {
				m := []*mode{&bytes, &alphanumeric, &numeric}[(version+int(level)+mask)%3]
				said := text(r, m, version, level)
				said = said[:len(said)-r.IntN(min(4, len(said)))] // sometimes not to the brim
				var theirs coding.Encoding
				switch s := segmentOf(said); s.mode {
				case &numeric:
					theirs = coding.Num(said)
				case &alphanumeric:
					theirs = coding.Alpha(said)
				default:
					theirs = coding.String(said)
				}
				plan, err := coding.NewPlan(coding.Version(version), theirLevels[level], coding.Mask(mask))
				if err != nil {
					t.Fatal(err)
				}
				want, err := plan.Encode(theirs)
				if err != nil {
					t.Fatal(err)
				}
				s := segmentOf(said)
				c := blank(version, level)
				c.place(protect(s.words(version, dataWords(version, level)), version, level))
				c.mask(mask)
				if at := differs(c, want); at != "" {
					t.Fatalf("version %d, %v, mask %d: %s", version, level, mask, at)
				}
			}
		}
	}
}

func differs(c *Code, want *coding.Code) string {
	if c.Size != want.Size {
		return fmt.Sprintf("size %d, want %d", c.Size, want.Size)
	}
	for y := range c.Size {
		for x := range c.Size {
			if c.Dark(x, y) != want.Black(x, y) {
				return fmt.Sprintf("module %d, %d differs", x, y)
			}
		}
	}
	return ""
}

// TestWhatIsTheMost: the capacities of version 40, as they are widely told; from memory.
func TestWhatIsTheMost(t *testing.T) {
	for _, c := range []struct {
		letter string
		level  Level
		most   int
	}{
		{"a", L, 2953}, {"a", M, 2331}, {"a", Q, 1663}, {"a", H, 1273},
		{"A", L, 4296}, {"A", H, 1852}, {"1", L, 7089}, {"1", M, 5596}, {"1", Q, 3993}, {"1", H, 3057},
	} {
		full, err := Encode(strings.Repeat(c.letter, c.most), c.level)
		if err != nil || full.Version != 40 {
			t.Errorf("%d times %s, %v: %v", c.most, c.letter, c.level, err)
		}
		var long *TooLong
		if _, err = Encode(strings.Repeat(c.letter, c.most+1), c.level); !errors.As(err, &long) {
			t.Errorf("%d times %s, %v: %v, want too long", c.most+1, c.letter, c.level, err)
		}
	}
	_, err := Strongest(strings.Repeat("a", 5000))
	if err == nil || err.Error() != "the text is too long for a QR code: it needs 5003 bytes, and 2956 is the most; hand it on in another way" {
		t.Errorf("5000 bytes: %v", err)
	}
}

func TestStrongestIsNoLarger(t *testing.T) {
	for n := 1; n < 1200; n += 7 {
		said := strings.Repeat("x", n)
		weak, err := Encode(said, L)
		if err != nil {
			t.Fatal(err)
		}
		strong, err := Strongest(said)
		if err != nil || strong.Version != weak.Version {
			t.Fatalf("%d bytes: %v", n, err)
		}
		if strong.Level < H {
			if more, err := Encode(said, strong.Level+1); err == nil && more.Version == strong.Version {
				t.Errorf("%d bytes: %v is not the strongest in version %d", n, strong.Level, strong.Version)
			}
		}
	}
}

// TestTheMaskIsTheLeastBad counts the penalties once more, from rows and columns written out as texts.
func TestTheMaskIsTheLeastBad(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 18004))
	for _, version := range []int{1, 2, 6, 7, 14, 25} {
		c, err := Encode(text(r, &bytes, version, M), M)
		if err != nil {
			t.Fatal(err)
		}
		chosen := c.Mask
		c.mask(chosen)
		least := 0
		for mask := range masks {
			c.mask(mask)
			want := counted(c)
			if got := c.penalty(); got != want {
				t.Errorf("version %d, mask %d: penalty %d, want %d", version, mask, got, want)
			}
			if mask == 0 || want < least {
				least = want
			}
			c.mask(mask)
		}
		c.mask(chosen)
		if got := counted(c); got != least {
			t.Errorf("version %d: mask %d has %d, the least is %d", version, chosen, got, least)
		}
	}
}

// counted states the four rules: runs, squares, what looks like a finder, the share of dark ones. From memory.
func counted(c *Code) int {
	sum, dark := 0, 0
	for i := range c.Size {
		var row, column strings.Builder
		for j := range c.Size {
			row.WriteByte("01"[sign(c.Dark(j, i))])
			column.WriteByte("01"[sign(c.Dark(i, j))])
			dark += sign(c.Dark(j, i))
			if d := c.Dark(j, i); i > 0 && j > 0 && d == c.Dark(j-1, i) && d == c.Dark(j, i-1) && d == c.Dark(j-1, i-1) {
				sum += 3
			}
		}
		for _, line := range []string{row.String(), column.String()} {
			for from, at := 0, 1; at <= len(line); at++ {
				if at == len(line) || line[at] != line[from] {
					if at-from >= 5 {
						sum += 3 + at - from - 5
					}
					from = at
				}
			}
			line = "0000" + line + "0000"
			for at := range len(line) - 10 {
				if part := line[at : at+11]; part == "00001011101" || part == "10111010000" {
					sum += 40
				}
			}
		}
	}
	percent := float64(dark) / float64(c.Size*c.Size) * 100
	away := percent - 50
	if away < 0 {
		away = -away
	}
	return sum + int(away/5)*10
}

func sign(dark bool) int {
	if dark {
		return 1
	}
	return 0
}

// FuzzEncode: whatever the text, no panic, and what is placed can be read back from the modules; each block divides by its generator.
func FuzzEncode(f *testing.F) {
	for _, text := range []string{"", "0", "0123456789", "A/B 7:$%*", "https://example.org/#c1/rise-test?volume=28_L", "µ", "\xff\x00", strings.Repeat("1", 7090), strings.Repeat("x", 2953), "#" + strings.Repeat("5", 3000)} {
		f.Add(text, 0)
		f.Add(text, 3)
	}
	f.Fuzz(func(t *testing.T, text string, level int) {
		c, err := Encode(text, Level(level&3))
		if err != nil {
			if len(text) < 1273 {
				t.Errorf("%d bytes: %v", len(text), err)
			}
			return
		}
		if got := readBack(t, c); got != text {
			t.Errorf("read back %.80q, want %.80q", got, text)
		}
	})
}

// readBack takes the way of a reader with perfect eyes.
func readBack(t *testing.T, c *Code) string {
	bare := *c
	bare.dark = append([]bool(nil), c.dark...)
	bare.mask(c.Mask)
	laid := make([]byte, words(c.Version))
	at := 0
	for right := c.Size - 1; right > 0; right -= 2 {
		if right == 6 {
			right = 5
		}
		for i := range c.Size {
			y := i
			if (right+1)&2 == 0 {
				y = c.Size - 1 - i
			}
			for _, x := range []int{right, right - 1} {
				if !bare.fixed[y*c.Size+x] && at < 8*len(laid) {
					laid[at/8] |= byte(sign(bare.Dark(x, y))) << (7 - at%8)
					at++
				}
			}
		}
	}
	n, data := int(blocks[c.Level][c.Version-1]), dataWords(c.Version, c.Level)
	var all []byte
	for b := range n {
		own := ownWords(b, n, data, len(laid))
		var block []byte
		for _, at := range own {
			block = append(block, laid[at])
		}
		for root, k := byte(1), 0; k < int(checkWords[c.Level][c.Version-1]); k++ {
			value := byte(0)
			for _, word := range block {
				value = times(value, root) ^ word
			}
			if value != 0 {
				t.Fatalf("block %d does not divide by its root %d", b, k)
			}
			root = times(root, 2)
		}
		all = append(all, block[:len(block)-int(checkWords[c.Level][c.Version-1])]...)
	}
	return spelt(all, c.Version)
}

// times multiplies in the field by long multiplication and division, as by hand.
func times(a, b byte) byte {
	wide := 0
	for i := range 8 {
		if b>>i&1 == 1 {
			wide ^= int(a) << i
		}
	}
	for i := 15; i >= 8; i-- {
		if wide>>i&1 == 1 {
			wide ^= 0x11D << (i - 8)
		}
	}
	return byte(wide)
}

func spelt(words []byte, version int) string {
	at := 0
	take := func(bits int) (value int) {
		for range bits {
			value = value<<1 | int(words[at/8]>>(7-at%8)&1)
			at++
		}
		return value
	}
	size := 0
	if version > 9 {
		size++
	}
	if version > 26 {
		size++
	}
	var out strings.Builder
	for 8*len(words)-at >= 4 {
		switch take(4) {
		case 0:
			return out.String()
		case 7:
			take(8)
		case 1:
			for n := take([]int{10, 12, 14}[size]); n > 0; n -= 3 {
				fmt.Fprintf(&out, "%0*d", min(n, 3), take([]int{0, 4, 7, 10}[min(n, 3)]))
			}
		case 2:
			for n := take([]int{9, 11, 13}[size]); n > 0; n -= 2 {
				if n == 1 {
					out.WriteByte(alphabet[take(6)])
					break
				}
				pair := take(11)
				out.WriteString(string(alphabet[pair/45]) + string(alphabet[pair%45]))
			}
		case 4:
			for n := take([]int{8, 16, 16}[size]); n > 0; n-- {
				out.WriteByte(byte(take(8)))
			}
		}
	}
	return out.String()
}
