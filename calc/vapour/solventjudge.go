package vapour

import (
	"blankoff/calc/declare"
	"blankoff/calc/uncertainty"
)

func solventJudge(r *declare.Result) {
	d := dataOf(r.Numbers)
	closed := r.Choice("place") == "closed"
	if d.upper < d.lower {
		r.Refuse("upper", "the upper explosive limit lies below the lower one; change the two")
		return
	}
	r.Work("V_g = v ρ R T / (M p) = {amount} × " + r.Num(d.density, "g/mL") + " × 8.314 J/(mol·K) × " + r.Num(r.In("temperature"), "K") + " / (" + r.Num(d.molarMass, "g/mol") + " × {ambient}) = {vapour}")
	r.Work("c = V_g / V = {vapour} / {space} = {concentration}; burns from " + r.Num(d.lower, "%") + " to " + r.Num(d.upper, "%") + "; exposure limit " + r.Num(d.exposure, "ppm"))
	c, u := r.Out("concentration")
	wide := uncertainty.K * u
	allowed := lowerShare * d.lower
	if !closed && d.exposure < allowed {
		allowed = d.exposure
	}
	r.Set("most", r.In("amount")*allowed/c)
	if c+wide >= d.lower {
		r.Caution("The whole volume may burn. Above " + r.Num(d.upper, "%") + " it is no safer: as air comes in it passes through the range that burns.")
	}
	if r.Choice("solvent") == "acetone" {
		r.Caution("Acetone attacks plastics, paint and seals.")
	}
	decideSolvent(r, d, closed)
}

func decideSolvent(r *declare.Result, d data, closed bool) {
	explosive, u := r.Out("explosive")
	breathed, v := r.Out("breathed")
	fire := uncertainty.AtMost(explosive, uncertainty.K*u, lowerShare)
	harm := uncertainty.AtMost(breathed, uncertainty.K*v, 1)
	switch {
	case fire == uncertainty.Fail:
		r.Verdict(declare.Fail, "Too much: {explosive} of the lower explosive limit, and 10 % must not be passed (common practice). Do not do it here. Less, outdoors or in moving air at the bench.")
	case closed:
		r.Verdict(declare.CannotTell, "{explosive} of the lower explosive limit as a mean, but a closed volume is never called safe: the air above the liquid burns. Open it, empty it and let moving air dry it; only a gas detector with a valid certificate would settle it.")
	case harm == uncertainty.Fail:
		r.Verdict(declare.Fail, "Too much to breathe: {breathed} of the exposure limit of "+r.Num(d.exposure, "ppm")+". Less, or outdoors.")
	case fire == uncertainty.Pass && harm == uncertainty.Pass:
		r.Verdict(declare.Pass, "Under 10 % of the lower explosive limit ({explosive}) and under the exposure limit ({breathed}), even if all evaporates at once and spreads evenly. Near the liquid it still burns: keep sparks and heat away.")
	default:
		r.Verdict(declare.CannotTell, "Too near a limit to say: {explosive} of the lower explosive limit, {breathed} of the exposure limit. Half the solvent, or a measured amount and room, would settle it.")
	}
}
