package schema

// workRecord is what site/exchange.ts writes and takes: jobs with their entries, in the order of writing. It takes keys that it
// does not know, as the page does. A schema cannot say that keys are given once, or that an entry is about an earlier one.
func workRecord() object {
	return object{
		"title":    "Work records of jobs, as a phone hands them out",
		"type":     "object",
		"required": []string{"format", "jobs"},
		"properties": object{
			"format": object{"const": "blankoff work record 1"},
			"jobs":   object{"type": "array", "maxItems": 1000, "items": object{"type": "object", "required": []string{"job", "entries"}, "properties": object{"job": job(), "entries": entries()}}},
		},
		"$defs": object{
			"text":  object{"type": "string", "maxLength": 20000},
			"texts": object{"type": "object", "maxProperties": 200, "propertyNames": ref("text"), "additionalProperties": ref("text")},
			"time":  object{"type": "number", "minimum": 0, "exclusiveMaximum": 8.64e15},
		},
	}
}

func ref(name string) object { return object{"$ref": "#/$defs/" + name} }

func described(means string, more object) object {
	more["description"] = means
	return more
}

func job() object {
	return object{
		"type":     "object",
		"required": []string{"id", "begun", "machine", "serial", "customer", "who"},
		"properties": object{
			"id":       object{"type": "string", "pattern": "^[a-z0-9]{1,20}$"},
			"begun":    described("ms since 1970, by the phone's clock", ref("time")),
			"machine":  ref("text"),
			"serial":   ref("text"),
			"customer": described("the shop's reference", ref("text")),
			"who":      described("initials", ref("text")),
		},
	}
}

func entries() object {
	return object{"type": "array", "maxItems": 100000, "items": object{
		"type":     "object",
		"required": []string{"key", "at", "beat", "page", "place", "is"},
		"properties": object{
			"key":   described("in the order of writing", object{"type": "integer", "minimum": -9007199254740991, "maximum": 9007199254740991}),
			"at":    described("ms since 1970, by the phone's clock", ref("time")),
			"beat":  described("which opening of the page, and ms since then by a clock that cannot be set", object{"type": "array", "minItems": 2, "maxItems": 2, "prefixItems": []object{ref("text"), ref("time")}}),
			"page":  described("below the root of the site; the first entry of a page in a job is its guide", ref("text")),
			"place": described("the step or the calculator", ref("text")),
			"is":    object{"enum": []string{"guide", "tick", "untick", "note", "reading", "result", "undo", "edit", "clear"}},
			"of":    described("the key of the entry that is undone or edited", object{"type": "integer"}),
			"text":  ref("text"),
			"id":    ref("text"),
			"given": described("what was entered, by name, as it was typed", ref("texts")),
			"told": described("of a result what was answered, by its label, and Working and Formula, a line each; of a guide revision (the author's), text (a digest of what the page said), "+
				"edition, calculators (a digest of them) and steps (how many it had)", ref("texts")),
		},
		"if":   object{"properties": object{"is": object{"enum": []string{"undo", "edit"}}}},
		"then": object{"required": []string{"of"}},
		"else": object{"properties": object{"of": false}},
	}}
}
