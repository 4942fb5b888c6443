package vapour

import (
	"blankoff/calc/declare"
	"blankoff/calc/uncertainty"
)

func solventJudge(r *declare.Result) {
	var d data
	d.read(r.Numbers)
	if d[upper] < d[lower] {
		r.Refuse("upper", "the upper explosive limit lies below the lower one; change the two")
		return
	}
	// With R in J/(mol·K) the line stays in such units; another one is added.
	result := "{vapour}"
	if r.Unit("L").Symbol != "L" {
		vapour, _ := r.Out("vapour")
		result = declare.With(4, "[L] = {vapour}", vapour)
	}
	r.Work(declare.With(4, "V_g = v ρ R T / (M p) = {amount} × [g/mL] × 8.314 J/(mol·K) × [K] / ([g/mol] × {own:ambient}) = ",
		d[density], r.In("temperature"), d[molarMass]) + result)
	r.WorkWith(4, "c = V_g / V = {vapour} / {space} = {concentration}; burns from [%] to [%]; exposure limit [ppm]",
		d[lower], d[upper], d[exposure])
	c, u := r.Out("concentration")
	allowed, closed := lowerShare*d[lower], r.Choice("place") == "closed"
	if !closed {
		allowed = min(allowed, d[exposure])
	}
	r.Set("most", r.In("amount")*allowed/c)
	if c+uncertainty.K*u >= d[lower] {
		r.Caution(declare.With(4, "The whole volume may burn. Above [%] it is no safer: as air comes in it passes through the range that burns.", d[upper]))
	}
	if r.Choice("solvent") == "acetone" {
		r.Caution("Acetone attacks plastics, paint and seals.")
	}
	fire, harm := atMost(r, "explosive", lowerShare), atMost(r, "breathed", 1)
	is, text := uncertainty.Fail, "Too much: {explosive} of the lower explosive limit, and 10 % must not be passed (common practice). Do not do it here. Less, outdoors or in moving air at the bench."
	switch {
	case fire == uncertainty.Fail:
	case closed:
		is, text = uncertainty.CannotTell, "{explosive} of the lower explosive limit as a mean, but a closed volume is never called safe: the air above the liquid burns. Open it, empty it and let moving air dry it; only a gas detector with a valid certificate would settle it."
	case harm == uncertainty.Fail:
		text = declare.With(4, "Too much to breathe: {breathed} of the exposure limit of [ppm]. Less, or outdoors.", d[exposure])
	case fire == uncertainty.Pass && harm == uncertainty.Pass && uncertainty.K*u <= c/2: // beyond that the ± itself is lopsided, and too small upwards
		is, text = uncertainty.Pass, "Under 10 % of the lower explosive limit ({explosive}) and under the exposure limit ({breathed}), even if all evaporates at once and spreads evenly. Near the liquid it still burns: keep sparks and heat away."
	default:
		is, text = uncertainty.CannotTell, "Too near a limit, or known too poorly, to say: {explosive} of the lower explosive limit, {breathed} of the exposure limit. Half the solvent, or a measured amount and room, would settle it."
	}
	r.Decide(is, text, text, text)
}
