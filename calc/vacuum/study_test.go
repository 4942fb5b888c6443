package vacuum_test

import (
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"testing"

	"blankoff/calc/declare"
	"blankoff/calc/vacuum"
)

var update = flag.Bool("update", false, "write testdata/rise-log-study.txt afresh")

const studied = 2000

// population is printed with the results; simulated_test.go is what it describes.
const population = `Logs as a technician writes them who follows the procedure (trade brief, 2.5 and P-e), with
what he cannot know: 2,000 of them, drawn with a fixed seed; “evenly” means evenly on a
logarithmic scale. The population was written before the rules of the calculator were settled.
Changed since: the drift is three times larger; the error of the gauge is taken as ± of the
reading, which is how its accuracy is stated; the rise as a whole is judged from the second
minute on, as the procedure does.

Machines: 24 L with a limit of 20 mTorr/min, 62 L with 8, 17.5 L with 15; the true volume is
  off by 5 % (k = 2). The limit is given as a rise or as a leak rate, by turns of a coin.
Leak and vapour: 15 % tight and dry (leak 0.02 to 0.5 of the limit); 30 % a leak alone (0.3 to
  30 limits); 25 % vapour alone, in a chamber that is nearly tight (leak 0.005 to 0.1 of the
  limit); 30 % both (leak 0.1 to 10 limits). Vapour rises by 20 to 600 mTorr with a time
  constant of 0.5 to 10 min. All of these evenly. Start at 30 to 400 mTorr, evenly.
Log: every 15, 30 or 60 s over 10, 15 or 20 min, or until the display passes 2,000 mTorr,
  where half of the technicians go on for a while; closer where ten readings would not fit.
  Half begin as the valve closes, with a burst of up to 15 mTorr from the valve (time constant
  6 to 18 s), half two minutes later. Watches are read to half a second. A log with fewer than
  eight usable readings is taken again.
Gauge: ± 20 % of reading, one in four ± 5 % (k = 2), the same at all readings; bends so as to
  read 0 to 1 % low at 2,000 mTorr and more beyond (sixth power). Display step 1 mTorr, or 0.1,
  5 or 10 in three of seven, known to the technician.
Noise: 0.3 to 2 mTorr and 0.05 to 0.4 % of reading, evenly.
Drift: a wander of up to 1 mTorr and 0.3 % of reading that forgets itself in 1 to 5 min; the
  room warms or cools by 0.5 K (standard deviation).
Dropped: up to 10 % of the readings are missing; in one log of twenty a reading is wrong by 5
  to 30 %.

Truth. “Leak” and “vapour” of a rise are its parts between the second minute after closing
and the last reading that the gauge shows true. Of the shape an answer is wrong if it denies a
part of a fifth or more, names one of less than a twentieth (with the first two minutes
counted in, where that is more), or calls a rise within the limit that is over it as a whole.
`

// study counts.
type study struct {
	verdicts, shapes  [3][5]int // by truth and by answer
	wrong, wrongShape int
	covered           int
	classes           [4][2]int // of each class of logs: how many, and how many covered
	mistakes          []string
}

var (
	truths    = [2]string{"within its limit", "over its limit"}
	decisions = [3]string{declare.Pass, declare.Fail, declare.CannotTell}
	rises     = [3]string{"a leak", "vapour", "both, each a fifth or more"}
	shapes    = [5]string{"straight", "saturating", "both", "within the limit", "cannot tell"}
)

func (c *study) count(t *testing.T, s simulated) {
	a := riseLog.Answer(s.request)
	if a.Fault != nil {
		t.Fatalf("%s: %+v", s.story, a.Fault)
	}
	over := 0
	if s.over {
		over = 1
	}
	c.verdicts[over][slices.Index(decisions[:], a.Verdict.Is)]++
	if a.Verdict.Is == decisions[1-over] {
		c.wrong++
		c.mistakes = append(c.mistakes, a.Verdict.Is+": "+s.story)
	}
	shape := slices.IndexFunc(shapes[:], func(name string) bool { return strings.HasPrefix(outOf(a, "shape").Text, name) })
	c.shapes[s.kind()][shape]++
	if s.denies(shape) {
		c.wrongShape++
		c.mistakes = append(c.mistakes, shapes[shape]+": "+s.story)
	}
	leak := outOf(a, "leak")
	c.classes[s.class][0]++
	if math.Abs(leak.Value-s.leak) <= 2*leak.U {
		c.covered++
		c.classes[s.class][1]++
	}
}

// denies tells whether the shape is wrong of this log.
func (s simulated) denies(shape int) bool {
	total, most := s.late[0]+s.late[1], s.all[0]+s.all[1]
	share := func(part int) float64 { return s.late[part] / total }
	shareNamed := func(part int) float64 { return math.Max(share(part), s.all[part]/most) }
	leak, vapour := shape != 1, shape != 0
	switch shape {
	case 3:
		return s.overAll
	case 4:
		return false
	}
	return !leak && share(0) >= 0.2 || !vapour && share(1) >= 0.2 || leak && shareNamed(0) < 0.05 || vapour && shareNamed(1) < 0.05
}

// kind is the row of the table in which the log counts.
func (s simulated) kind() int {
	switch share := s.late[0] / (s.late[0] + s.late[1]); {
	case share > 0.8:
		return 0
	case share < 0.2:
		return 1
	}
	return 2
}

func outOf(a declare.Answer, id string) declare.Given {
	for _, g := range a.Out {
		if g.ID == id {
			return g
		}
	}
	return declare.Given{}
}

func percent(part, of int) string { return fmt.Sprintf("%.1f %%", 100*float64(part)/float64(of)) }

// column adds up one column of a table.
func column(table [3][5]int, at int) (sum int) {
	for _, row := range table {
		sum += row[at]
	}
	return sum
}

// lines are the study in the words of the calculator's page.
func thousands(n int) string {
	if n < 1000 {
		return fmt.Sprint(n)
	}
	return fmt.Sprintf("%d,%03d", n/1000, n%1000)
}

func (c *study) lines() (list []string) {
	row := func(what string, counts []int) {
		sum, text := 0, ""
		for _, n := range counts {
			sum += n
			text += " | " + thousands(n)
		}
		list = append(list, "| "+what+" | "+thousands(sum)+text)
	}
	list = append(list, fmt.Sprintf("In 2,000 simulated logs the verdict on the leak was wrong in %s and open in %s; the shape was wrong in %s and open in %s; the leak's ± held the truth in %s.",
		percent(c.wrong, studied), percent(column(c.verdicts, 2), studied), percent(c.wrongShape, studied), percent(column(c.shapes, 4), studied), percent(c.covered, studied)))
	list = append(list, "| Leak against its limit | logs | "+strings.Join(decisions[:], " | "))
	for i, name := range truths {
		row(name, c.verdicts[i][:len(decisions)])
	}
	list = append(list, "And the shape that it told:", "| Rise by | logs | "+strings.Join(shapes[:], " | "))
	for i, name := range rises {
		row(name, c.shapes[i][:len(shapes)])
	}
	return list
}

func (c *study) report() string {
	text := "Leak or vapour: what the rise log makes of simulated logs\n(go test ./calc/vacuum -run TestStudy -update writes this file)\n\n" + population + "\n"
	text += fmt.Sprintf("%-34s %6s", "The leak against its limit", "logs")
	table := func(names []string, rows []string, counts [3][5]int) {
		for _, name := range names {
			text += fmt.Sprintf(" %16s", name)
		}
		for i, name := range rows {
			sum := 0
			for _, n := range counts[i] {
				sum += n
			}
			text += fmt.Sprintf("\n%-34s %6d", name, sum)
			for at := range names {
				text += fmt.Sprintf(" %16d", counts[i][at])
			}
		}
		text += "\n"
	}
	table(decisions[:], truths[:], c.verdicts)
	text += fmt.Sprintf("wrong %s, cannot tell %s\n\n", percent(c.wrong, studied), percent(column(c.verdicts, 2), studied))
	text += fmt.Sprintf("%-34s %6s", "Rise by", "logs")
	table(shapes[:], rises[:], c.shapes)
	text += fmt.Sprintf("wrong %s, cannot tell %s\n\n", percent(c.wrongShape, studied), percent(column(c.shapes, 4), studied))
	text += fmt.Sprintf("The leak's ± (k = 2) holds the true leak in %s", percent(c.covered, studied))
	for i, name := range classNames {
		text += fmt.Sprintf("; %s %s", name, percent(c.classes[i][1], c.classes[i][0]))
	}
	return text + "\n"
}

// TestStudy reruns the study of issue 3: wrong sure verdicts at most 2 %, 'cannot tell' at
// most 25 %, both of the verdict and of the shape; the 95 % interval of the leak covers 93 to
// 97 %; and what stands in testdata and on the calculator's page is what it finds.
func TestStudy(t *testing.T) {
	random := rand.New(rand.NewPCG(2026, 11))
	var c study
	for i := 0; i < studied; i++ {
		c.count(t, simulate(random))
	}
	share := func(n int) float64 { return float64(n) / studied }
	for name, n := range map[string]int{"verdict": c.wrong, "shape": c.wrongShape} {
		if share(n) > 0.02 {
			t.Errorf("the %s is wrong in %s, more than 2 %%:\n%s", name, percent(n, studied), strings.Join(c.mistakes, "\n"))
		}
	}
	for name, n := range map[string]int{"verdict": column(c.verdicts, 2), "shape": column(c.shapes, 4)} {
		if share(n) > 0.25 {
			t.Errorf("the %s is left open in %s, more than 25 %%", name, percent(n, studied))
		}
	}
	if s := share(c.covered); s < 0.93 || s > 0.97 {
		t.Errorf("the interval of the leak covers %s, not 93 to 97 %%", percent(c.covered, studied))
	}
	t.Logf("%s\n%s", c.report(), strings.Join(c.mistakes, "\n"))
	c.compare(t)
}

// compare holds file and page to the study. Elsewhere the last bits of exp may differ, and
// with them a rounded reading or two: there the limits above are what counts.
func (c *study) compare(t *testing.T) {
	if runtime.GOARCH != "amd64" {
		return
	}
	path := filepath.Join("..", "..", "testdata", "rise-log-study.txt")
	if *update {
		if err := os.WriteFile(path, []byte(c.report()), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	if golden, err := os.ReadFile(path); err != nil || string(golden) != c.report() {
		t.Errorf("%s is not what the study finds (%v); read the difference and write it with -update", path, err)
	}
	if said, found := strings.Join(vacuum.RiseLog.Performance[:len(c.lines())], "\n"), strings.Join(c.lines(), "\n"); said != found {
		t.Errorf("the declaration's Performance is\n%s\nbut the study finds\n%s", said, found)
	}
}
