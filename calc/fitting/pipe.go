// Package fitting holds the calculators for what is screwed together: lengths, spanners
// and pipe threads.
package fitting

import "blankoff/calc/letters"

// form is a family of pipe threads.
type form uint8

const (
	npt form = iota // American taper, 60°, seals on the thread (ASME B1.20.1)
	r               // taper, 55°, seals on the thread (ISO 7-1); Rc is its hole
	g               // parallel, 55°, seals on a face (ISO 228-1)
)

const inch = 25.4 // mm

// taper is the change of diameter along a tapered pipe thread: 1 in 16.
const taper = 1.0 / 16

// pipe is one size of a form. Lengths in mm.
type pipe struct {
	form  form
	size  string
	count float64 // threads per inch
	major float64 // outside diameter; of R at the gauge plane
	hand  float64 // hand-tight engagement; of R the gauge length; none for G
}

// pipes are the sizes met on these machines. The values of 13_threads.csv are published
// (transcriptions agree); those of NPT 3/8 and 3/4 and of R and G 1/4 and 1 are from memory,
// their diameters to 3/8 as in our notes of the trade.
var pipes = [...]pipe{
	{npt, "1/16", 27, 0.3125 * inch, 0.160 * inch},
	{npt, "1/8", 27, 0.405 * inch, 0.1615 * inch},
	{npt, "1/4", 18, 0.540 * inch, 0.2278 * inch},
	{npt, "3/8", 18, 0.675 * inch, 0.240 * inch},
	{npt, "1/2", 14, 0.840 * inch, 0.320 * inch},
	{npt, "3/4", 14, 1.050 * inch, 0.339 * inch},
	{npt, "1", 11.5, 1.315 * inch, 0.400 * inch},
	{r, "1/16", 28, 7.723, 4.0},
	{r, "1/8", 28, 9.728, 4.0},
	{r, "1/4", 19, 13.157, 6.0},
	{r, "3/8", 19, 16.662, 6.4},
	{r, "1/2", 14, 20.955, 8.2},
	{r, "3/4", 14, 26.441, 9.5},
	{r, "1", 11, 33.249, 10.4},
	{g, "1/16", 28, 7.723, 0},
	{g, "1/8", 28, 9.728, 0},
	{g, "1/4", 19, 13.157, 0},
	{g, "3/8", 19, 16.662, 0},
	{g, "1/2", 14, 20.955, 0},
	{g, "3/4", 14, 26.441, 0},
	{g, "1", 11, 33.249, 0},
}

func (p *pipe) pitch() float64 { return inch / p.count }

// tapered tells whether the thread seals on its flanks.
func (p *pipe) tapered() bool { return p.form != g }

// minor is the diameter across the crests of the hole, at its face for a taper. The height
// of a 55° thread is 0.640327 p, of a truncated 60° one 0.8 p (both published).
func (p *pipe) minor() float64 {
	pitch := p.pitch()
	if p.form == npt {
		return p.smallEnd() + p.hand*taper - 0.8*pitch
	}
	return p.major - 2*0.640327*pitch
}

// smallEnd is E₀, the pitch diameter of an NPT thread at its end, D − (0.05 D + 1.1) p with
// D and p in inches (ASME B1.20.1, published).
func (p *pipe) smallEnd() float64 { return p.major - (0.05*p.major/inch+1.1)*p.pitch() }

// effective is L₂, the length of an NPT thread that is good to seal with, (0.8 D + 6.8) p
// with D in inches (ASME B1.20.1, published).
func (p *pipe) effective() float64 { return (0.8*p.major/inch + 6.8) * p.pitch() }

// called is what a size of each form is called, on a fitting and in a hole.
var called = [3][2]string{{"# NPT", "# NPT"}, {"R #", "Rc #"}, {"G #", "G # or Rp #"}}

// name is what the thread is called, on a fitting or in a hole.
func (p *pipe) name(female bool) string {
	names := &called[p.form]
	text := names[0]
	if female {
		text = names[1]
	}
	return letters.Replace(text, "#", p.size)
}

// Threads names every thread of the list as a fitting is called: what a machine's file may say.
func Threads() []string {
	var list []string
	for i := range pipes {
		list = append(list, pipes[i].name(false))
	}
	return list
}
