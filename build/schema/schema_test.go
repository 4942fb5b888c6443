package schema

import (
	"bytes"
	"encoding/json"
	"flag"
	"os"
	"path"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"github.com/goccy/go-yaml"
	"github.com/santhosh-tekuri/jsonschema/v6"

	"blankoff/build/diagnostic"
	"blankoff/build/load"
	"blankoff/build/machine"
	"blankoff/build/verify"
	"blankoff/calc/quantity"
)

var update = flag.Bool("update", false, "write the golden files anew")

// compiled are the schemas, by the name of the kind of file. The library checks each against the metaschema of the
// draft that it names (JSON Schema 2020-12), which it carries.
func compiled(t *testing.T) map[string]*jsonschema.Schema {
	t.Helper()
	schemas := map[string]*jsonschema.Schema{}
	for _, f := range Files() {
		value, err := jsonschema.UnmarshalJSON(bytes.NewReader(f.Bytes))
		if err != nil {
			t.Fatal(err)
		}
		compiler := jsonschema.NewCompiler()
		if err := compiler.AddResource(path.Base(f.Path), value); err != nil {
			t.Fatal(err)
		}
		if schemas[strings.TrimSuffix(path.Base(f.Path), ".json")], err = compiler.Compile(path.Base(f.Path)); err != nil {
			t.Fatalf("%s is no schema: %v", f.Path, err)
		}
	}
	return schemas
}

// TestMetaschema holds the schemas against the metaschema of JSON Schema 2020-12 itself.
func TestMetaschema(t *testing.T) {
	metaschema, err := jsonschema.NewCompiler().Compile("https://json-schema.org/draft/2020-12/schema")
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range Files() {
		value, err := jsonschema.UnmarshalJSON(bytes.NewReader(f.Bytes))
		if err != nil {
			t.Fatal(err)
		}
		if err := metaschema.Validate(value); err != nil {
			t.Errorf("%s: %v", f.Path, err)
		}
	}
	if metaschema.Validate(map[string]any{"type": "obejct"}) == nil {
		t.Error("the metaschema takes anything")
	}
}

func TestGolden(t *testing.T) {
	for _, f := range Files() {
		golden := filepath.Join("testdata", path.Base(f.Path))
		if *update {
			if err := os.WriteFile(golden, f.Bytes, 0o666); err != nil {
				t.Fatal(err)
			}
		}
		want, err := os.ReadFile(golden)
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(f.Bytes, want) {
			t.Errorf("%s is another (read the difference, then -update)", f.Path)
		}
	}
}

// decoded reads YAML as an editor does, by another way than our own reader.
func decoded(t *testing.T, text string) any {
	t.Helper()
	var out any
	if err := yaml.Unmarshal([]byte(text), &out); err != nil {
		t.Fatal(err)
	}
	data, err := json.Marshal(out)
	if err != nil {
		t.Fatal(err)
	}
	read, err := jsonschema.UnmarshalJSON(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	return read
}

// kinds are the folders of content, each with its schema.
var kinds = map[string]string{"machines": "machine", "families": "family", "tubes": "tube"}

func TestOurContent(t *testing.T) {
	schemas := compiled(t)
	tried := 0
	check := func(kind, name string) {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		tried++
		if err := schemas[kind].Validate(decoded(t, string(text))); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
	check("shop", "../../content/shop.yaml")
	for folder, kind := range kinds {
		names, _ := filepath.Glob("../../content/" + folder + "/*.yaml")
		for _, name := range names {
			check(kind, name)
		}
	}
	if tried < 7 {
		t.Errorf("only %d files tried", tried)
	}
}

const (
	goodShop    = "name: Bench\naltitude: 430 m\nsummary: We repair.\nunits: {pressure: mTorr, throughput: mbar·L/s}\n"
	goodMachine = "title: Cindle 14\nsummary: Small.\nfamily: home\ntube: tq-4\nvalues:\n  chamber-volume: 24.0 L\n"
	goodFamily  = "title: Home\nsummary: Small ones.\nvalues:\n  warm-up: 30 min\n"
	goodTube    = "title: TQ-4\nconstruction: insulated\npins: {1: heater, 4: heater, 6: couple, 7: couple}\n"
)

// TestSameAsVerify: what a schema refuses, verify refuses too; and these files a schema refuses, or takes.
func TestSameAsVerify(t *testing.T) {
	schemas := compiled(t)
	for _, c := range []struct {
		name, file, text string
		good             bool
	}{
		{"shop", "shop.yaml", goodShop, true},
		{"machine", "machines/x.yaml", goodMachine, true},
		{"family", "families/home.yaml", goodFamily, true},
		{"tube", "tubes/tq-4.yaml", goodTube, true},
		{"other spellings", "machines/x.yaml", goodMachine + "  ready-limit: 0,35 torr\n  warm-up: 1h30\n  drain-bore: 1/4 in\n  gauge-accuracy: 20 percent\n  vapour-factor: 1.5…1.62\n", true},
		{"own names", "machines/x.yaml", goodMachine + "  paint: 9010\n  lid: yes\n", true},
		{"all about a value", "machines/x.yaml", goodMachine + "  ice-floor: {is: 187 mTorr, mark: published, source: a table, note: at -34 °C}\n", true},
		{"family without values", "machines/x.yaml", "title: X\nsummary: Y.\nfamily: home\n", true},

		{"unknown key", "machines/x.yaml", goodMachine + "colour: red\n", false},
		{"no title", "machines/x.yaml", strings.Replace(goodMachine, "title: Cindle 14\n", "", 1), false},
		{"nothing at all", "machines/x.yaml", "title: X\nsummary: Y.\n", false},
		{"values as a list", "machines/x.yaml", "title: X\nsummary: Y.\nvalues: [1, 2]\n", false},
		{"capital in a name", "machines/x.yaml", goodMachine + "  Pump: 5.1 m³/h\n", false},
		{"no unit", "machines/x.yaml", goodMachine + "  ready-limit: 350\n", false},
		{"other kind", "machines/x.yaml", goodMachine + "  ready-limit: 350 W\n", false},
		{"accuracy of a limit", "machines/x.yaml", goodMachine + "  ready-limit: 350 mTorr ± 10 mTorr\n", false},
		{"no figure", "machines/x.yaml", goodMachine + "  warm-up: long\n", false},
		{"unknown thread", "machines/x.yaml", goodMachine + "  thread: R 1/7\n", false},
		{"pattern of names", "machines/x.yaml", goodMachine + "  dry-curve-5-min: 208 W\n", false},
		{"unknown mark", "machines/x.yaml", goodMachine + "  warm-up: {is: 30 min, mark: guessed}\n", false},
		{"published by nobody", "machines/x.yaml", goodMachine + "  warm-up: {is: 30 min, mark: published}\n", false},
		{"unknown key of a value", "machines/x.yaml", goodMachine + "  warm-up: {is: 30 min, by: me}\n", false},
		{"value without its value", "machines/x.yaml", goodMachine + "  warm-up: {mark: memory}\n", false},
		{"value that is a list", "machines/x.yaml", goodMachine + "  warm-up: [30 min]\n", false},
		{"code of a family", "families/home.yaml", goodFamily + "code: X\n", false},
		{"unknown role", "tubes/tq-4.yaml", strings.Replace(goodTube, "heater, 4", "heating, 4", 1), false},
		{"pin off the base", "tubes/tq-4.yaml", strings.Replace(goodTube, "1:", "15:", 1), false},
		{"unknown construction", "tubes/tq-4.yaml", strings.Replace(goodTube, "insulated", "loose", 1), false},
		{"pins typed twice", "tubes/tq-4.yaml", goodTube + "values: {heater-pins: 1 and 4}\n", false},
		{"unknown kind of unit", "shop.yaml", strings.Replace(goodShop, "pressure", "presure", 1), false},
		{"unit of another kind", "shop.yaml", strings.Replace(goodShop, "mTorr", "W", 1), false},
		{"shop without a height", "shop.yaml", strings.Replace(goodShop, "altitude: 430 m\n", "", 1), false},
	} {
		t.Run(c.name, func(t *testing.T) {
			kind := strings.TrimSuffix(c.file, ".yaml")
			if folder, _, has := strings.Cut(c.file, "/"); has {
				kind = kinds[folder]
			}
			if err := schemas[kind].Validate(decoded(t, c.text)); (err == nil) != c.good {
				t.Errorf("the schema says: %v", err)
			}
			if found := verified(t, c.file, c.text); (found == "") != c.good {
				t.Errorf("verify says: %s", found)
			}
		})
	}
}

// verified is what loading and verifying say of a file in an otherwise good folder.
func verified(t *testing.T, name, text string) string {
	t.Helper()
	fsys := fstest.MapFS{}
	for file, good := range map[string]string{
		"shop.yaml": goodShop, "families/home.yaml": goodFamily, "tubes/tq-4.yaml": goodTube, "machines/cindle-14.yaml": goodMachine,
		"hazards.yaml": "hazards:\n  pane: {word: WARNING, title: Pane, harm: It bursts., avoid: Guard on.}\nacts:\n  evacuates: {means: pumps down, hazards: [pane]}\n",
	} {
		fsys[file] = &fstest.MapFile{Data: []byte(good)}
	}
	fsys[name] = &fstest.MapFile{Data: []byte(text)}
	library, found, err := load.Load(fsys, "content")
	if err != nil {
		t.Fatal(err)
	}
	more, _ := verify.Check(library, time.Date(2026, 11, 25, 0, 0, 0, 0, time.UTC))
	return diagnostic.List(append(found, more...), diagnostic.Style{})
}

// TestUnits puts every plain unit behind a figure, for every value: what the vocabulary's check takes as a value of its
// kind a schema takes, and what it takes for another kind a schema refuses.
func TestUnits(t *testing.T) {
	schema := compiled(t)["machine"]
	tried := 0
	for _, e := range machine.Entries {
		if e.Form != machine.Exact && e.Form != machine.Measure {
			continue
		}
		name := strings.NewReplacer("N-N", "2-3", "N", "5").Replace(e.Name)
		for _, symbol := range quantity.Symbols() {
			for _, text := range []string{"3 " + symbol, "1,234.5" + symbol} {
				problem := e.Check(text)
				if problem != nil && problem.Rule == "value-form" {
					continue // no value that can be read: 3 'm
				}
				tried++
				ofKind := problem == nil || problem.Rule == "value-size" // which a schema cannot say
				err := schema.Validate(map[string]any{"title": "X", "summary": "X.", "values": map[string]any{name: text}})
				if (err == nil) != ofKind {
					t.Errorf("%s: %s: of its kind %v, the schema says %v", name, text, ofKind, err)
				}
			}
		}
	}
	if tried < 5000 {
		t.Errorf("only %d texts tried", tried)
	}
}
