package bundle

import (
	"fmt"
	"strings"
	"testing"
	"testing/fstest"
)

func files(pairs ...string) fstest.MapFS {
	site := fstest.MapFS{}
	for i := 0; i < len(pairs); i += 2 {
		site[pairs[i]] = &fstest.MapFile{Data: []byte(pairs[i+1])}
	}
	return site
}

func TestScriptBundlesWhatIsImported(t *testing.T) {
	got, parts, err := Script(files(
		"page.ts", "import { add } from './parts/add';\nconst sum: number = add(1, 2);\nconsole.log(sum);",
		"parts/add.ts", "import { one } from '../one.ts';\nexport function add(a: number, b: number): number { return a + b + one; }",
		"one.ts", "export const one = 1;",
	), `import "./page";`)
	if err != nil || len(parts) > 0 {
		t.Fatal(parts, err)
	}
	text := string(got)
	if !strings.Contains(text, "console.log(") || strings.Contains(text, "import") || strings.Contains(text, "number") || strings.Count(text, "\n") > 1 {
		t.Errorf("not one small script: %s", text)
	}
}

func TestWhatIsImportedLaterIsAModuleOfItsOwn(t *testing.T) {
	main, parts, err := Script(files(
		"page.ts", "addEventListener('click', async () => (await import('./rare')).run());",
		"rare.ts", "export function run(): void { console.log('rare'); }",
	), `import "./page";`)
	if err != nil || len(parts) != 1 {
		t.Fatalf("%v, %v", parts, err)
	}
	if !strings.Contains(string(main), `import("./`+parts[0].Path+`")`) || strings.Contains(string(main), "rare'") {
		t.Errorf("the entry does not import %s: %s", parts[0].Path, main)
	}
	if !strings.Contains(string(parts[0].Bytes), "console.log(") {
		t.Errorf("the part is not there: %s", parts[0].Bytes)
	}
}

// The place of each fault is where « stands; columns count characters, from 1.
func TestFaultsHaveAPlace(t *testing.T) {
	for _, test := range []struct{ name, source, want string }{
		{"syntax", "const a = 1;\nconst b = «;", "unexpected \";\""},
		{"behind letters of two bytes", "const ä = 'µΩ' +«;", "unexpected \";\""},
		{"unknown import", "import «'./none';", "there is no none or none.ts in site/"},
		{"an import from outside", "import «'../../secret';", "in site/"},
		{"a package", "import «'somebody';", "in site/"},
		{"a warning counts", "\n\nexport const zero = (a: number) => a === «-0;", "comparison with -0"},
	} {
		t.Run(test.name, func(t *testing.T) {
			before, after, _ := strings.Cut(test.source, "«")
			line := 1 + strings.Count(before, "\n")
			column := 1 + len([]rune(before[strings.LastIndex(before, "\n")+1:]))
			want := fmt.Sprintf("site/page.ts:%d:%d: error: ", line, column)
			_, _, err := Script(files("page.ts", before+after), `import "./page";`)
			if err == nil || !strings.HasPrefix(err.Error(), want) || !strings.Contains(err.Error(), test.want) {
				t.Errorf("got %v, want %s… with %q", err, want, test.want)
			}
		})
	}
}

func TestStyleIsMinifiedAndChecked(t *testing.T) {
	got, err := Style(files("look.css", "/* why */\na { color: #ffffff; }\n@media print { a { background: url(x.svg) } }"), "look.css")
	if want := "a{color:#fff}@media print{a{background:url(x.svg)}}\n"; err != nil || string(got) != want {
		t.Errorf("got %q, %v, want %q", got, err, want)
	}
	_, err = Style(files("look.css", "a { color: red }\nb { colr red }"), "look.css")
	if err == nil || !strings.HasPrefix(err.Error(), "site/look.css:2:") {
		t.Errorf("got %v, want a fault in line 2", err)
	}
	if _, err = Style(files(), "look.css"); err == nil {
		t.Errorf("a missing style sheet is no fault")
	}
}

func TestASheetThatAScriptImportsIsAFileOfItsOwn(t *testing.T) {
	main, parts, err := Script(files(
		"page.ts", "import look from './rare.css';\nconsole.log(look);",
		"rare.css", "a { color: #ffffff; }",
	), `import "./page";`)
	if err != nil || len(parts) != 1 {
		t.Fatalf("%v, %v", parts, err)
	}
	if got := string(parts[0].Bytes); got != "a{color:#fff}\n" || !strings.HasPrefix(parts[0].Path, "rare.") || !strings.Contains(string(main), parts[0].Path) {
		t.Errorf("%s holds %q; the script: %s", parts[0].Path, got, main)
	}
	if _, _, err = Script(files("page.ts", "import look from './rare.css';\nconsole.log(look);", "rare.css", "a { colr red }"), `import "./page";`); err == nil {
		t.Errorf("a fault in the sheet is not told")
	}
}
