package triage

import (
	"math"

	"blankoff/calc/declare"
	"blankoff/calc/letters"
)

// Left is what a job takes to its end, for each minute that a plan expects: on average, and the bounds between which half of
// such jobs end.
type Left struct {
	_               [0]func() // never compared: saves the code for it
	Mean, Low, High float64
}

// LeftFor says so of a job in which a share of all findings has been told, and repairs have been tried. A plan looks two steps ahead:
// while much can still be asked, a job takes less than it expects. Who hands over soon, as customers do, gains nothing by that.
//
// The figures are fitted to simulated jobs; testdata/triage-left.txt tells how well they do (build/fault, TestLeft).
func LeftFor(who Worker, told float64, repairs int) Left {
	switch {
	case who == Customer:
		return Left{Mean: 1, Low: 1, High: 1}
	case repairs > 0:
		return Left{Mean: 1, Low: 0.25, High: 1.5}
	}
	return Left{Mean: min(0.63+0.51*told, 1), Low: min(0.18+0.3*told, 0.25), High: 0.69 + 1.25*told}
}

func (j *job) left() Left {
	repairs := 0
	for _, s := range j.bench.Done {
		if !j.plan.isTest(s) {
			repairs++
		}
	}
	return LeftFor(j.bench.Who, float64(len(j.told))/float64(len(j.Findings)), repairs)
}

// toGo tells how far the job is, and what is left to do unless handing over is the best that is left.
func (s *sheaf) toGo() {
	text := letters.Whole(len(s.told)) + " answered"
	if s.steps[0].Step != HandOver {
		left, minutes := s.left(), s.steps[0].Minutes
		sentence, low := ", half of such jobs _ to _", about(minutes*left.Low)
		if s.bench.Who == Customer {
			sentence, low = ", a call to the shop counted as _", about(s.Call)
		}
		text += put(", about _ to go", about(minutes*left.Mean)) + put(sentence, low, about(minutes*left.High))
	}
	s.Out = append(s.Out, declare.Given{ID: "left", Label: "To go", Text: text + "."})
}

// about is a time as a guess is said: to five minutes, half hours or hours.
func about(minutes float64) string {
	step := 60.0
	switch {
	case minutes < 20:
		step = 1
	case minutes < 90:
		step = 5
	case minutes < 270:
		step = 30
	}
	return spell(math.Max(math.Round(minutes/step)*step, 1))
}

// spell writes minutes, from an hour and a half on hours with a tenth.
func spell(minutes float64) string {
	if minutes < 90 {
		return whole(math.Max(minutes, 1)) + " min"
	}
	tenths := int(math.Round(minutes / 6))
	text := letters.Whole(tenths / 10)
	if tenths%10 > 0 {
		text += "." + letters.Whole(tenths%10)
	}
	return text + " h"
}
