// Package schema writes JSON Schemas (draft 2020-12) for the files of machine data and for the fault model, so that an
// editor can check them while they are typed, and for the work records that phones hand out (see record.go). Nothing is
// typed twice: keys come from the field lists of packages load and fault, names, forms, kinds and meanings of values from the
// vocabulary of package machine, bounds from package triage.
//
//	for _, file := range schema.Files() { … } // schemas/machine.json, family.json, tube.json, shop.json, triage.json, work-record.json
//
// A schema never refuses what verify takes. It cannot say all that verify says: sizes, values against each other,
// calculations and names of other files are for verify alone.
package schema

import (
	"bytes"
	"encoding/json"
	"regexp"
	"slices"
	"strings"
	"sync"

	"blankoff/build/edition"
	"blankoff/build/fault"
	"blankoff/build/load"
	"blankoff/build/machine"
	"blankoff/build/source"
	"blankoff/calc/quantity"
)

// Folder is where the schemas lie in the site.
const Folder = "schemas/"

// object is a JSON object; encoding/json writes its keys in the order of the alphabet.
type object = map[string]any

// Files are the schemas as the site has them. They are the same for every shop, so they are written once.
func Files() []edition.File { return slices.Clone(files()) }

var files = sync.OnceValue(func() []edition.File {
	return []edition.File{
		file("family", "A family of machines: families/NAME.yaml", load.FamilyFields, card()),
		file("machine", "A machine: machines/NAME.yaml", load.MachineFields, card()),
		file("shop", "The shop: shop.yaml", load.ShopFields, shop()),
		file("triage", "The fault model: triage.yaml", fault.Fields, triageModel()),
		file("tube", "A sensor tube: tubes/NAME.yaml", load.TubeFields, tube()),
		written("work-record", workRecord()),
	}
})

func file(name, title string, fields []source.Field, more object) edition.File {
	schema := keys(fields)
	schema["title"] = title
	merge(schema, more)
	return written(name, schema)
}

func written(name string, schema object) edition.File {
	schema["$schema"] = "https://json-schema.org/draft/2020-12/schema"
	var text bytes.Buffer
	encoder := json.NewEncoder(&text)
	encoder.SetEscapeHTML(false)
	encoder.SetIndent("", " ")
	if err := encoder.Encode(schema); err != nil {
		panic("schema: " + err.Error()) // maps of texts always encode
	}
	return edition.File{Path: Folder + name + ".json", Bytes: text.Bytes()}
}

// merge adds to an object, into the objects in it too.
func merge(into, more object) {
	for key, value := range more {
		below, ok := value.(object)
		if has, both := into[key].(object); ok && both {
			merge(has, below)
			continue
		}
		into[key] = value
	}
}

// keys is an object with the keys of a field list and no others. A key with nothing behind it is as if it were left out.
func keys(fields []source.Field) object {
	properties := object{}
	required := []string{}
	for _, f := range fields {
		property := object{"description": f.Means}
		switch {
		case f.Shape == source.Nested:
			property["type"] = kindsOf(f, "object")
		case f.Shape == source.List:
			property["type"] = kindsOf(f, "array")
		default:
			property["type"] = kindsOf(f, texts...)
		}
		properties[f.Key] = property
		if f.Required {
			required = append(required, f.Key)
		}
	}
	return object{"type": "object", "additionalProperties": false, "properties": properties, "required": required}
}

func kindsOf(f source.Field, kinds ...string) []string {
	if f.Required {
		return kinds
	}
	return append(append([]string{}, kinds...), "null")
}

// texts are what YAML makes of a text: 1.20, 12 and yes are texts to us.
var texts = []string{"string", "number", "boolean"}

// named allows the names that content can have, whatever they are.
var named = object{"pattern": `^[a-z0-9]+(-[a-z0-9]+)*$`, "maxLength": 60}

// card is what machines and families say beyond their keys.
func card() object {
	return object{
		"$defs":      definitions(),
		"properties": object{"mark": object{"enum": marks(true)}, "values": values(machine.Entries)},
		"anyOf":      []object{{"required": []string{"values"}}, {"required": []string{"family"}}, {"required": []string{"tube"}}},
	}
}

func marks(orNone bool) []any {
	var list []any
	for _, mark := range machine.Marks {
		list = append(list, mark)
	}
	if orNone {
		list = append(list, nil)
	}
	return list
}

// tube is what tubes say beyond their keys. What a tube's file gives by its pins cannot be typed a second time.
func tube() object {
	written, refused := values(machine.Entries), object{}
	for _, name := range machine.Derived {
		refused[name] = false
	}
	merge(written, object{"properties": refused})
	return object{"$defs": definitions(), "properties": object{
		"construction": object{"enum": machine.Constructions},
		"base":         object{"maximum": machine.MostPins, "minimum": 4},
		"mark":         object{"enum": marks(true)},
		"pins":         object{"patternProperties": object{`^([1-9]|1[0-4])$`: object{"enum": machine.Roles}}, "additionalProperties": false},
		"values":       written,
	}}
}

// values are the values of the vocabulary, and any other that a shop names.
func values(entries []machine.Entry) object {
	properties, patterns := object{}, object{}
	for _, e := range entries {
		if strings.Contains(e.Name, "N") {
			patterns["^"+strings.ReplaceAll(e.Name, "N", "[0-9]+")+"$"] = value(e)
		} else {
			properties[e.Name] = value(e)
		}
	}
	return object{"propertyNames": named, "properties": properties, "patternProperties": patterns, "additionalProperties": either(object{"$ref": "#/$defs/text"})}
}

func value(e machine.Entry) object {
	said := e.Means
	if e.Least != "" {
		said += " Possible: " + e.Least + " to " + e.Most + "."
	}
	schema := either(text(e))
	schema["description"], schema["examples"] = said, []string{e.Example}
	return schema
}

// either is a value as a text, or as a mapping that also says where it comes from.
func either(text object) object {
	return object{"anyOf": []object{text, {"$ref": "#/$defs/marked", "properties": object{"is": text}}}}
}

// text is how the text of a value may look.
func text(e machine.Entry) object {
	switch e.Form {
	case machine.Exact:
		return object{"$ref": "#/$defs/" + machine.KindKey(e.Kind), "not": object{"pattern": "±"}}
	case machine.Measure, machine.Range:
		return object{"$ref": "#/$defs/" + machine.KindKey(e.Kind)}
	case machine.Pins:
		return object{"type": "string", "pattern": `^\s*[0-9]+\s*( and \s*[0-9]+\s*)+$`}
	}
	if known := e.Known(); known != nil {
		return object{"enum": known}
	}
	return object{"$ref": "#/$defs/text"}
}

// definitions are what values share: their mapping, and a text of each kind of quantity.
func definitions() object {
	marked := keys(load.ValueFields)
	merge(marked, object{"properties": object{"mark": object{"enum": marks(true)}}})
	marked["if"] = object{"properties": object{"mark": object{"const": machine.Published}}, "required": []string{"mark"}}
	marked["then"] = object{"required": []string{"source"}}
	all := object{"marked": marked, "text": object{"type": texts}, "measured": measured(quantity.Symbols())}
	for _, e := range machine.Entries {
		if e.Kind != quantity.None {
			all[machine.KindKey(e.Kind)] = ofKind(e.Kind)
		}
	}
	return all
}

// ofKind is a number with a unit that is not one of another kind. Units are spelt in many ways and compound ones are
// without end, so what may stand there cannot be listed; a plain unit of another kind surely may not.
func ofKind(kind quantity.Kind) object {
	schema := object{"type": "string", "pattern": `[0-9]`, "anyOf": []object{measured(symbols(kind)), {"not": object{"$ref": "#/$defs/measured"}}}}
	if kind == quantity.Ratio {
		schema["type"] = []string{"string", "number"} // the only kind that needs no unit
		schema["anyOf"] = append(schema["anyOf"].([]object), object{"pattern": `[0-9]\s*$`})
	}
	return schema
}

// measured is one number with one of some units, or with none.
func measured(symbols []string) object {
	quoted := []string{""}
	for _, symbol := range symbols {
		quoted = append(quoted, regexp.QuoteMeta(symbol))
	}
	if len(symbols) < len(quantity.Symbols()) {
		quoted = quoted[1:]
	}
	return object{"pattern": `^\s*[-−+]?[0-9][0-9.,]*\s*(` + strings.Join(quoted, "|") + `)\s*$`}
}

// symbols are the plain units of a kind.
func symbols(kind quantity.Kind) []string {
	if list := byKind()[kind]; list != nil {
		return list
	}
	return []string{}
}

var byKind = sync.OnceValue(func() map[quantity.Kind][]string {
	sorted := map[quantity.Kind][]string{}
	for _, symbol := range quantity.Symbols() {
		if unit, known := quantity.FindUnit(symbol); known {
			sorted[unit.Kind] = append(sorted[unit.Kind], symbol)
		}
	}
	return sorted
})

// shop is what the shop's file says beyond its keys: each kind of quantity with a unit that is not one of another kind.
func shop() object {
	properties := object{}
	for _, kind := range quantity.Kinds() {
		properties[machine.KindKey(kind)] = object{"type": "string", "anyOf": []object{{"enum": symbols(kind)}, {"not": object{"$ref": "#/$defs/symbols"}}}}
	}
	return object{
		"$defs":      object{"symbols": object{"enum": quantity.Symbols()}},
		"properties": object{"units": object{"properties": properties, "additionalProperties": false}},
	}
}
