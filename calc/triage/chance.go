package triage

import "math"

// slip is how often an answer is not what was there to see: misread, mistyped, misunderstood. It keeps one wrong
// answer from ruling a cause out for ever. Common practice, no source.
const slip = 0.01

// chance is the probability of an outcome of a finding under a hypothesis, slips included.
func (m *Model) chance(f, outcome, h int) float64 { return m.chances[f][outcome][h] }

// tabulate works out every chance once: a plan looks at each of them hundreds of times.
func (m *Model) tabulate() {
	n := m.hypotheses()
	m.chances = make([][][]float64, len(m.Findings))
	for f := range m.Findings {
		outcomes := len(m.Findings[f].Sound)
		all := make([]float64, outcomes*n)
		m.chances[f] = make([][]float64, outcomes)
		for o := range outcomes {
			row := all[o*n : (o+1)*n : (o+1)*n]
			for h := range row {
				row[h] = (1-slip)*m.clear(f, o, h) + slip/float64(outcomes)
			}
			m.chances[f][o] = row
		}
	}
}

// clear is the probability of an outcome where nobody slips.
func (m *Model) clear(f, outcome, h int) float64 {
	finding := &m.Findings[f]
	a, b := m.parts(h)
	switch {
	case a < 0:
		return m.unlisted(f, outcome)
	case a == b:
		return finding.Given[a][outcome]
	}
	return together(finding.Sound, finding.Given[a], finding.Given[b], outcome)
}

// unlisted: of a cause that nobody has described half is expected to look like those that are, half like anything.
func (m *Model) unlisted(f, outcome int) float64 {
	finding := &m.Findings[f]
	sum, weight := 0.0, 0.0
	for i := range m.Causes {
		sum += m.Causes[i].Weight * finding.Given[i][outcome]
		weight += m.Causes[i].Weight
	}
	return sum/weight/2 + 1/float64(len(finding.Sound))/2
}

// together is the probability of an outcome when two causes are there. What is usual without any cause stays so only if
// neither changes it (the noisy-or of Pearl, Probabilistic Reasoning in Intelligent Systems, 1988, 4.3.2; from memory);
// the rest is shared out by how much each cause speaks for it.
func together(sound, a, b []float64, outcome int) float64 {
	usual := 0
	for o := range sound {
		if sound[o] > sound[usual] {
			usual = o
		}
	}
	stays := math.Min(a[usual]*b[usual]/math.Max(sound[usual], 1e-9), math.Min(a[usual], b[usual]))
	if outcome == usual {
		return stays
	}
	all, mine := 0.0, 0.0
	for o := range sound {
		if o == usual {
			continue
		}
		part := 1 - (1-a[o])*(1-b[o])
		all += part
		if o == outcome {
			mine = part
		}
	}
	if all == 0 {
		return (1 - stays) / float64(len(sound)-1)
	}
	return (1 - stays) * mine / all
}

// likelihood is how probable an answer is under a hypothesis; of a measured value a density.
func (m *Model) likelihood(a Answer, h int) float64 {
	finding := &m.Findings[a.Finding]
	if len(finding.Cuts) == 0 {
		return m.chance(a.Finding, a.Outcome, h)
	}
	return (1-slip)*m.density(a, h) + slip*finding.wide(a.Value)
}

func (m *Model) density(a Answer, h int) float64 {
	finding := &m.Findings[a.Finding]
	first, second := m.parts(h)
	if first >= 0 {
		return stronger(finding, first, second).density(a.Value, a.U)
	}
	sum, weight := 0.0, 0.0
	for i := range m.Causes {
		sum += m.Causes[i].Weight * finding.Curve[i].density(a.Value, a.U)
		weight += m.Causes[i].Weight
	}
	return sum/weight/2 + finding.wide(a.Value)/2
}

// stronger is the curve of the cause that moves the value further from what is usual: the larger leak hides the smaller.
func stronger(f *Finding, a, b int) Curve {
	if f.Plain.away(f.Curve[b]) > f.Plain.away(f.Curve[a]) {
		return f.Curve[b]
	}
	return f.Curve[a]
}

func (c Curve) away(other Curve) float64 { return math.Abs(c.scale(other.Middle) - c.scale(c.Middle)) }

// least keeps the logarithm of a reading of nothing finite.
const least = 1e-12

func (c Curve) scale(x float64) float64 {
	if c.Log {
		return math.Log(math.Max(x, least))
	}
	return x
}

// density of a value that is known to u: the spread of the curve and the uncertainty add in quadrature.
func (c Curve) density(x, u float64) float64 {
	slope := 1.0
	if c.Log {
		slope = 1 / math.Max(x, least)
	}
	s := math.Hypot(c.Spread, u*slope)
	z := (c.scale(x) - c.scale(c.Middle)) / s
	return slope * math.Exp(-z*z/2) / (s * math.Sqrt(2*math.Pi))
}

// Below is the probability of a value under x.
func (c Curve) below(x float64) float64 {
	return math.Erfc(-(c.scale(x)-c.scale(c.Middle))/(c.Spread*math.Sqrt2)) / 2
}

// stretch finds the range of a measured finding that any cause could show.
func (f *Finding) stretch() {
	low, high := f.Plain, f.Plain
	for _, c := range f.Curve {
		if c.scale(c.Middle) < low.scale(low.Middle) {
			low = c
		}
		if c.scale(c.Middle) > high.scale(high.Middle) {
			high = c
		}
	}
	f.from, f.to = low.scale(low.Middle)-3*low.Spread, high.scale(high.Middle)+3*high.Spread
}

// wide spreads its weight over that range: what a slip of the pen is drawn from.
func (f *Finding) wide(x float64) float64 {
	at := f.Plain.scale(x)
	slope := 1.0
	if f.Plain.Log {
		slope = 1 / math.Max(x, least)
	}
	if at < f.from || at > f.to {
		return 1e-6 * slope / (f.to - f.from)
	}
	return slope / (f.to - f.from)
}
