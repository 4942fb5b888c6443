package qr

import (
	stdbytes "bytes"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"sync"
	"testing"
)

// picture draws a code as a camera would see it, three pixels to a module.
func picture(c *Code) image.Image {
	const scale = 3
	side := (c.Size + 2*Quiet) * scale
	img := image.NewGray(image.Rect(0, 0, side, side))
	for y := range side {
		for x := range side {
			shade := uint8(255)
			if c.Dark(x/scale-Quiet, y/scale-Quiet) {
				shade = 0
			}
			img.SetGray(x, y, color.Gray{Y: shade})
		}
	}
	return img
}

// read gives what zbar (Debian's zbar-tools), which others wrote, reads from each code.
func read(t *testing.T, codes []*Code) []string {
	t.Helper()
	program, err := exec.LookPath("zbarimg")
	if err != nil {
		t.Fatal("zbarimg is not here: install zbar-tools")
	}
	folder := t.TempDir()
	said, faults := make([]string, len(codes)), make([]error, len(codes))
	var all sync.WaitGroup
	next := make(chan int)
	for range runtime.NumCPU() {
		all.Go(func() {
			for i := range next {
				said[i], faults[i] = readOne(program, filepath.Join(folder, fmt.Sprint(i, ".png")), codes[i])
			}
		})
	}
	for i := range codes {
		next <- i
	}
	close(next)
	all.Wait()
	for i, fault := range faults {
		if fault != nil {
			t.Errorf("version %d, %v, mask %d: %v", codes[i].Version, codes[i].Level, codes[i].Mask, fault)
		}
	}
	return said
}

func readOne(program, path string, c *Code) (string, error) {
	var file stdbytes.Buffer
	if err := png.Encode(&file, picture(c)); err != nil {
		return "", err
	}
	if err := os.WriteFile(path, file.Bytes(), 0o600); err != nil {
		return "", err
	}
	said, err := exec.Command(program, "--quiet", "--raw", "-Sdisable", "-Sqrcode.enable", "--nodbus", path).Output()
	return strings.TrimSuffix(string(said), "\n"), err
}

// text is a random one that fills a code of that version and level in a mode, or nearly.
func text(r *rand.Rand, m *mode, version int, level Level) string {
	var letters []rune
	switch m {
	case &numeric:
		letters = []rune("0123456789")
	case &alphanumeric:
		letters = []rune(alphabet)
	default:
		letters = []rune("abcxyz/?#&=_;,.%+-~<>\"'{}|^`\\ 012ABC")
	}
	room := 8 * dataWords(version, level)
	var b strings.Builder
	for {
		next := string(letters[r.IntN(len(letters))])
		s := &segment{text: b.String() + next, mode: m}
		if s.bits(version) > room {
			return b.String()
		}
		b.WriteString(next)
	}
}

// TestAReaderReadsAllOfThem: every version at every level, full to the brim, in all modes and masks.
func TestAReaderReadsAllOfThem(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 18004))
	modes := []*mode{&bytes, &alphanumeric, &numeric}
	var codes []*Code
	var texts []string
	for version := 1; version <= versions; version++ {
		for level := range levels {
			m := modes[len(codes)%3]
			said := text(r, m, version, level)
			c, err := Encode(said, level)
			if err != nil || c.Version != version {
				t.Fatalf("a text for version %d, %v: %v", version, level, err)
			}
			c.mask(c.Mask) // what was best makes room for each of them
			c.mask(len(codes) / 3 % masks)
			codes, texts = append(codes, c), append(texts, said)
		}
	}
	for i, got := range read(t, codes) {
		if got != texts[i] {
			t.Errorf("version %d, %v, mask %d: read %.60q, want %.60q", codes[i].Version, codes[i].Level, codes[i].Mask, got, texts[i])
		}
	}
}

// TestAReaderReadsUTF8: the letters of units, of other scripts, and pictures.
func TestAReaderReadsUTF8(t *testing.T) {
	texts := []string{"0.017 ± 0.001 Torr·L/s", "25 µm, 8.4 Ω, −35 °C", "Gefriertrockner", "漏れ 350", "утечка", "😀", "é", strings.Repeat("µ·Ω±", 300)}
	var codes []*Code
	for _, text := range texts {
		c, err := Strongest(text)
		if err != nil {
			t.Fatal(err)
		}
		codes = append(codes, c)
	}
	for i, got := range read(t, codes) {
		if got != texts[i] {
			t.Errorf("read %.60q, want %.60q", got, texts[i])
		}
	}
}

// TestAReaderReadsWhatIsDamaged spoils as many words of each block as its level promises to mend: half of the check words,
// less those that small versions keep to notice a wrong reading (from memory: three in 1-L, two in 1-M and 2-L, one in 1-Q, 1-H and 3-L).
func TestAReaderReadsWhatIsDamaged(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 18004))
	kept := map[string]int{"1 L": 3, "1 M": 2, "2 L": 2, "1 Q": 1, "1 H": 1, "3 L": 1}
	var codes []*Code
	var texts []string
	for _, version := range []int{1, 2, 3, 4, 5, 7, 9, 10, 13, 17, 21, 25, 26, 27, 32, 36, 40} {
		for level := range levels {
			said := text(r, &bytes, version, level)
			s := segmentOf(said)
			n, check := int(blocks[level][version-1]), int(checkWords[level][version-1])
			data := dataWords(version, level)
			laid := protect(s.words(version, data), version, level)
			for b := range n {
				own := ownWords(b, n, data, len(laid))
				r.Shuffle(len(own), func(i, j int) { own[i], own[j] = own[j], own[i] })
				for _, at := range own[:(check-kept[fmt.Sprint(version, level)])/2] {
					laid[at] ^= byte(1 + r.IntN(255))
				}
			}
			c := blank(version, level)
			c.place(laid)
			c.mask(r.IntN(masks))
			codes, texts = append(codes, c), append(texts, said)
		}
	}
	for i, got := range read(t, codes) {
		if got != texts[i] {
			t.Errorf("version %d, %v: read %.60q, want %.60q", codes[i].Version, codes[i].Level, got, texts[i])
		}
	}
}

// ownWords lists the places of one block's words among all.
func ownWords(b, n, data, all int) (own []int) {
	for at := range data / n * n {
		if at%n == b {
			own = append(own, at)
		}
	}
	if longer := data % n; b >= n-longer {
		own = append(own, data/n*n+b-(n-longer))
	}
	for at := data; at < all; at++ {
		if (at-data)%n == b {
			own = append(own, at)
		}
	}
	return own
}

// TestAReaderReadsDigitsBehindAnAddress: of every length, in two segments as soon as that is shorter.
func TestAReaderReadsDigitsBehindAnAddress(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 18004))
	var codes []*Code
	var texts []string
	for _, n := range []int{0, 1, 5, 6, 7, 30, 31, 32, 900, 2000, 2645, 3141, 6900} {
		for _, front := range []string{"https://example.org/record/#job=", "HTTPS://EXAMPLE.ORG/", "µ"} {
			said := front
			for range n {
				said += string(rune('0' + r.IntN(10)))
			}
			c, err := Strongest(said)
			if err != nil {
				t.Fatal(err)
			}
			if one := segmentOf(said); n > 30 && (one.bits(c.Version) <= segmentsOf(said).bits(c.Version)) {
				t.Errorf("%d digits behind %s take no less room", n, front)
			}
			codes, texts = append(codes, c), append(texts, said)
		}
	}
	for i, got := range read(t, codes) {
		if got != texts[i] {
			t.Errorf("read %.60q, want %.60q", got, texts[i])
		}
	}
}
