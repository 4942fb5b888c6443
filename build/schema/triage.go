package schema

import (
	"blankoff/build/fault"
	"blankoff/calc"
	"blankoff/calc/quantity"
	"blankoff/calc/triage"
)

// triageModel is what a fault model says beyond its keys.
func triageModel() object {
	time, percent, curve := object{"$ref": "#/$defs/time"}, object{"$ref": "#/$defs/percent"}, object{"$ref": "#/$defs/curve"}
	weight := object{"type": []string{"number", "string"}, "exclusiveMinimum": 0, "pattern": `[^A-Za-z]`}
	choice := object{"type": "object", "additionalProperties": percent, "maxProperties": triage.MaxOutcomes}
	over := object{}
	for _, who := range fault.Workers {
		over[who] = time
	}
	return object{
		"$defs": object{
			"time":     ofKind(quantity.Time),
			"measured": measured(quantity.Symbols()),
			"percent":  object{"type": "string", "pattern": `[^0-9.,\s+−-]`}, // a number alone has no sign behind it
			"curve":    distribution(),
			"finding":  finding(curve, choice),
		},
		"properties": object{
			"unlisted":  weight,
			"proof":     object{"anyOf": []object{time, {"type": "null"}}},
			"costs":     object{"propertyNames": apart(), "additionalProperties": time},
			"hand-over": object{"properties": over, "additionalProperties": false, "required": fault.Workers},
			"rule-outs": each(keys(fault.RuleOutFields)),
			"findings":  merged(each(object{"$ref": "#/$defs/finding"}), object{"propertyNames": apart(triage.Entries...), "maxProperties": triage.MaxFindings}),
			"causes": merged(each(merged(keys(fault.CauseFields), object{"properties": object{
				"weight": weight,
				"shows":  object{"propertyNames": apart(), "additionalProperties": object{"anyOf": []object{percent, choice, curve}}},
			}})), object{"propertyNames": apart(triage.NotListed), "maxProperties": triage.MaxHypotheses - 1}),
			"pairs": object{"maxItems": triage.MaxHypotheses - 2, "items": merged(keys(fault.PairFields), object{"properties": object{
				"weight": weight, "causes": merged(list(texts), object{"minItems": 2, "maxItems": 2}),
			}})},
			"tests": merged(each(merged(keys(fault.TestFields), steps(time), object{"properties": object{"tells": list(texts)}})),
				object{"propertyNames": apart(triage.HandingOver), "maxProperties": triage.MaxSteps}),
			"repairs": merged(each(merged(keys(fault.RepairFields), steps(time), object{"properties": object{
				"cures": object{"propertyNames": apart(), "additionalProperties": percent},
			}})), object{"propertyNames": apart(triage.HandingOver), "maxProperties": triage.MaxSteps}),
		},
	}
}

// finding is a choice, whose answers have their probabilities, or what is measured.
func finding(curve, choice object) object {
	var kinds []any
	for _, kind := range quantity.Kinds() {
		kinds = append(kinds, kind.Name())
	}
	var calculators []any
	for _, c := range calc.All() {
		calculators = append(calculators, c.ID)
		for _, out := range c.Outputs {
			if out.Columns == nil {
				calculators = append(calculators, c.ID+"/"+out.ID)
			}
		}
	}
	return merged(keys(fault.FindingFields), object{
		"properties": object{
			"kind":    object{"enum": append(kinds, nil, "")},
			"from":    object{"enum": append(calculators, nil, "")},
			"cuts":    object{"minItems": 1, "maxItems": triage.MaxOutcomes - 1, "items": object{"type": texts}},
			"answers": object{"propertyNames": apart(), "additionalProperties": object{"type": texts}},
			"when":    object{"propertyNames": apart(), "additionalProperties": merged(list(texts), object{"minItems": 1})},
		},
		"if":   object{"properties": object{"kind": object{"type": "string", "minLength": 1}}, "required": []string{"kind"}},
		"then": object{"properties": object{"usual": curve, "answers": false}, "required": []string{"cuts"}},
		"else": object{"properties": object{"usual": merged(object{"propertyNames": apart(triage.Unknown), "minProperties": 2}, choice), "unit": false, "cuts": false}},
	})
}

// distribution is a median with its standard deviation, or with its factor.
func distribution() object {
	one := func(key string) object {
		return object{"required": []string{key}, "properties": object{key: object{"type": texts, "minLength": 1}}}
	}
	return merged(keys(fault.CurveFields), object{
		"properties": object{"factor": object{"type": []string{"number", "string", "null"}, "exclusiveMinimum": 1}},
		"oneOf":      []object{one("spread"), one("factor")},
	})
}

// steps are what tests and repairs have in common.
func steps(time object) object {
	return object{"properties": object{
		"time":  time,
		"tools": list(texts),
		"who":   object{"items": object{"enum": fault.Workers}, "minItems": 1, "uniqueItems": true},
		"needs": list(texts),
	}}
}

// each is a mapping of plain names to things of one form.
func each(of object) object { return object{"propertyNames": apart(), "additionalProperties": of} }

// apart allows all plain names but those that mean something else.
func apart(taken ...string) object {
	names := merged(object{}, named)
	if len(taken) > 0 {
		names["not"] = object{"enum": taken}
	}
	return names
}

// list holds each text once.
func list(kinds []string) object {
	return object{"items": object{"type": kinds}, "uniqueItems": true}
}

func merged(into object, more ...object) object {
	for _, m := range more {
		merge(into, m)
	}
	return into
}
