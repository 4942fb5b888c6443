package load

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"

	"blankoff/build/diagnostic"
)

const (
	shopText = "name: Rookhollow Vacuum Bench\naltitude: 430 m\nsummary: We repair freeze dryers.\nunits: {pressure: mTorr}\n"
	hazards  = `hazards:
  pane: {word: WARNING, title: Pane, harm: It bursts., avoid: Guard on.}
acts:
  evacuates: {means: pumps the chamber down, hazards: [pane]}
stops:
  electrical: {title: Mains, who: licensed electrician, why: It kills.}
`
	machineText = "title: Cindle 14\nsummary: Small.\nvalues:\n  chamber-volume: 24.0 L ± 1.0 L\n"
	page        = "---\ntitle: Rise test\nreader: technician\n---\nFinds leaks.\n\n## Steps\n\n1. Close the valve.\n   - Expect: a click.\n   - If not: stop.\n"
)

// shop is a folder in which all is well, with some files put in or replaced.
func shop(files map[string]string) fstest.MapFS {
	fsys := fstest.MapFS{}
	for name, text := range map[string]string{
		"shop.yaml": shopText, "hazards.yaml": hazards, "machines/cindle-14.yaml": machineText, "procedures/rise-test.md": page,
	} {
		fsys[name] = &fstest.MapFile{Data: []byte(text)}
	}
	for name, text := range files {
		fsys[name] = &fstest.MapFile{Data: []byte(text)}
	}
	return fsys
}

func TestLoad(t *testing.T) {
	fsys := shop(map[string]string{
		"symptoms/low.md": "---\ntitle: Low\nreader: customer\n---\n", "pages/home.md": "---\ntitle: Home\nreader: customer\n---\n",
		"pictures/door.svg": "<svg/>", ".git/x": "", "pages/home.md~": "",
	})
	library, found, err := Load(fsys, "my content")
	if err != nil || len(found) > 0 {
		t.Fatalf("%v\n%s", err, diagnostic.List(found, diagnostic.Style{}))
	}
	var paths []string
	for _, g := range library.Guides {
		paths = append(paths, g.Path())
	}
	for _, c := range []struct{ what, got, want string }{
		{"pages", strings.Join(paths, " "), "pages/home procedures/rise-test symptoms/low"},
		{"shop", library.Shop.Name.Text, "Rookhollow Vacuum Bench"},
		{"unit", library.Shop.Units[0].Name + " " + library.Shop.Units[0].Text.Text, "pressure mTorr"},
		{"machine", library.Machine("cindle-14").Title.Text, "Cindle 14"},
		{"value", library.Machines[0].Values[0].Text.Text, "24.0 L ± 1.0 L"},
		{"place of the value", library.Machines[0].Values[0].Span.Text(), "24.0 L ± 1.0 L"},
		{"hazard", library.Catalogue.Hazard("pane").Harm.Text, "It bursts."},
		{"act", library.Catalogue.Act("evacuates").Hazards[0].Text, "pane"},
		{"stop", library.Catalogue.Stop("electrical").Who.Text, "licensed electrician"},
		{"picture", string(library.Picture("pictures/door.svg").Data), "<svg/>"},
		{"name in messages", library.Guide("symptoms/low").File.Name, "my content/symptoms/low.md"},
	} {
		if c.got != c.want {
			t.Errorf("%s: %q, want %q", c.what, c.got, c.want)
		}
	}
	if library.Guide("x") != nil || library.Machine("x") != nil || library.Picture("x") != nil || library.Catalogue.Act("x") != nil {
		t.Error("something was found that is not there")
	}
}

const takeOut = " = take it out; such characters change how a text is shown or found, and nobody sees them"

func TestFaults(t *testing.T) {
	for _, c := range []struct{ name, file, text, want string }{
		{"near miss of a folder", "procedure/x.md", page, `content/procedure:1:1: error: "procedure" is not read = did you mean procedures?`},
		{"stray file", "notes.txt", "x", `content/notes.txt:1:1: warning: "notes.txt" is not read = content lies in families, machines, pages, pictures, procedures, symptoms, tubes, shop.yaml, hazards.yaml, words.yaml, triage.yaml; move it, or start its name with a dot`},
		{"capitals and spaces", "procedures/Rise Test (2).md", page, `content/procedures/Rise Test (2).md:1:1: error: the name "Rise Test (2).md" makes no plain address = use lower-case letters, digits and hyphens: rise-test-2.md`},
		{"control characters in a name", "procedures/a\x1b[31m.md", page, "content/procedures/a·[31m.md:1:1: error: the name \"a\\x1b[31m.md\" makes no plain address = use lower-case letters, digits and hyphens: a-31m.md"},
		{"wrong kind of file", "procedures/x.docx", "", `content/procedures/x.docx:1:1: error: procedures/ takes no files of this kind = it takes .md; move this one, or start its name with a dot`},
		{"folder in a folder", "procedures/old/x.md", page, `content/procedures/old:1:1: error: a folder inside procedures/ is not read = move its files up into procedures/`},
		{"not UTF-8", "procedures/x.md", "---\ntitle: caf\xe9\n---\n", `content/procedures/x.md:2:11: error: this is not UTF-8 text = save the file as UTF-8 text with ordinary line ends`},
		{"control character", "procedures/x.md", "---\ntitle: a\x00b\n---\n", `content/procedures/x.md:2:9: error: the control character U+0000 stands here = save the file as UTF-8 text with ordinary line ends`},
		{"invisible characters", "procedures/x.md", "\ufeff---\ntitle: a\u200bb\u200b\nreader: shop\n---\nSee \u202e1 &#8203; and\nthat &rlm;.\n",
			"content/procedures/x.md:2:9: error: the invisible character U+200B stands here" + takeOut + " | " +
				"content/procedures/x.md:5:5: error: the invisible character U+202E stands here" + takeOut + " | " +
				"content/procedures/x.md:6:6: error: the invisible character U+200F stands here" + takeOut},
		{"an invisible character by its number", "machines/cindle-14.yaml", machineText + "  tube: \"a\\u200bb\"\n",
			"content/machines/cindle-14.yaml:5:9: error: the invisible character U+200B stands in this text" + takeOut},
		{"old line ends", "procedures/x.md", "---\rtitle: a\r---\r", `content/procedures/x.md:1:4: error: a carriage return stands alone here = save the file as UTF-8 text with ordinary line ends`},
		{"too large", "procedures/x.md", strings.Repeat("x", largest+1), `content/procedures/x.md:1:1: error: the file has 262145 bytes; 262144 is the most = split it into several pages`},
		{"page without header", "procedures/x.md", "# Hello", `content/procedures/x.md:1:1: error: the file does not start with a header = start the file with a line ---, then ` + "`title: …` and `reader: …`" + `, then a line ---`},
		{"shop without a name", "shop.yaml", strings.Replace(shopText, "name:", "nam:", 1), `content/shop.yaml:1:1: error: the shop has no key "nam" = did you mean name? | content/shop.yaml:1:1: error: the shop needs the key name = add a line ` + "`name: …`"},
		{"broken YAML gives one message", "shop.yaml", "name: [", `content/shop.yaml:1:7: error: this YAML cannot be read: sequence end token ']' not found = close the list with ]`},
		{"unknown signal word", "hazards.yaml", strings.Replace(hazards, "WARNING", "Beware", 1), `content/hazards.yaml:2:16: error: "Beware" is no signal word = use DANGER, WARNING, CAUTION, NOTICE`},
		{"act that demands an unknown hazard", "hazards.yaml", strings.Replace(hazards, "[pane]", "[pan]", 1), `content/hazards.yaml:4:56: error: the catalogue has no hazard "pan" = did you mean pane?`},
		{"hazard without what to do", "hazards.yaml", strings.Replace(hazards, ", avoid: Guard on.", "", 1), "content/hazards.yaml:2:3: error: a hazard needs the key avoid = add a line `avoid: …`"},
		{"hazard that is a text", "hazards.yaml", strings.Replace(hazards, "acts:", "  cold: burns\nacts:", 1), "content/hazards.yaml:3:3: error: cold holds a text, not a mapping = write its parts in indented `key: text` lines below"},
		{"value with a capital", "machines/cindle-14.yaml", machineText + "  Pump Speed: 5.1 m³/h\n", `content/machines/cindle-14.yaml:5:3: error: the name "Pump Speed" of a value cannot be used in links = use lower-case words with hyphens: pump-speed`},
		{"value that is a list", "machines/cindle-14.yaml", machineText + "  pins: [1, 4]\n", "content/machines/cindle-14.yaml:5:9: error: pins holds a list, not a text = write it as `pins: 24.0 L`"},
		{"empty file", "machines/cindle-14.yaml", "", "content/machines/cindle-14.yaml:1:1: error: a machine needs the key summary = add a line `summary: …` | content/machines/cindle-14.yaml:1:1: error: a machine needs the key title = add a line `title: …` | content/machines/cindle-14.yaml:1:1: error: a machine needs the key values = add a line `values:` with indented `name: value` lines, or say `family: NAME`"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, found, err := Load(shop(map[string]string{c.file: c.text}), "content")
			if err != nil {
				t.Fatal(err)
			}
			if got := short(found); got != c.want {
				t.Errorf("\n got %s\nwant %s", got, c.want)
			}
		})
	}
}

// short is a diagnostic on one line, without the source.
func short(found []diagnostic.Diagnostic) string {
	var parts []string
	for _, d := range found {
		d.Rule = ""
		text := strings.Split(diagnostic.Text(d, diagnostic.Style{}), "\n")
		line := text[0]
		for _, more := range text[1:] {
			if hint, ok := strings.CutPrefix(more, "      = "); ok {
				line += " = " + hint
			}
		}
		parts = append(parts, line)
	}
	return strings.Join(parts, " | ")
}

// TestAllFaultsInOneRun: nobody should have to run it once for each mistake.
func TestAllFaultsInOneRun(t *testing.T) {
	fsys := shop(map[string]string{"procedures/a.md": "x", "procedures/b.md": "\xff", "machines/C.yaml": "", "symptoms/d.md": "---\na: b: c\n---\n"})
	delete(fsys, "shop.yaml")
	_, found, err := Load(fsys, "content")
	if err != nil {
		t.Fatal(err)
	}
	files := map[string]bool{}
	for _, d := range found {
		files[d.Span.File.Path] = true
	}
	for _, want := range []string{"procedures/a.md", "procedures/b.md", "machines/C.yaml", "symptoms/d.md", "shop.yaml"} {
		if !files[want] {
			t.Errorf("nothing said about %s", want)
		}
	}
}

func TestLinksAreRefused(t *testing.T) {
	fsys := shop(nil)
	fsys["procedures/x.md"] = &fstest.MapFile{Data: []byte("../../secret"), Mode: fs.ModeSymlink}
	fsys["pictures"] = &fstest.MapFile{Data: []byte("/etc"), Mode: fs.ModeSymlink}
	_, found, err := Load(fsys, "content")
	want := "content/pictures:1:1: error: this is a symbolic link to another place = put the file itself here | " +
		"content/procedures/x.md:1:1: error: this is a symbolic link to another place = put the file itself here"
	if got := short(found); err != nil || got != want {
		t.Errorf("%v\n got %s\nwant %s", err, got, want)
	}
}

// TestRealFolder does on a real disk what MapFS cannot: a link out of the folder, a missing folder.
func TestRealFolder(t *testing.T) {
	dir := t.TempDir()
	if err := os.CopyFS(filepath.Join(dir, "content"), shop(nil)); err != nil {
		t.Fatal(err)
	}
	secret := filepath.Join(dir, "secret.md")
	if err := os.WriteFile(secret, []byte("secret"), 0o600); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink(secret, filepath.Join(dir, "content", "procedures", "leak.md")); err != nil {
		t.Fatal(err)
	}
	library, found, err := Load(os.DirFS(filepath.Join(dir, "content")), "content")
	if err != nil || len(found) != 1 || library.Guide("procedures/leak") != nil {
		t.Errorf("%v, %s", err, short(found))
	}
	_, _, err = Load(os.DirFS(filepath.Join(dir, "contend")), "contend")
	var unreadable *Unreadable
	if !errors.As(err, &unreadable) || err.Error() != `there is no "contend"` {
		t.Errorf("missing folder: %v", err)
	}
	_, _, err = Load(os.DirFS(secret), "secret.md")
	if !errors.As(err, &unreadable) || !strings.HasPrefix(err.Error(), `"secret.md" cannot be read: `) {
		t.Errorf("a file in place of the folder: %v", err)
	}
}

// locked is a file system in which one file may not be read.
type locked struct {
	fs.FS
	name string
}

func (l locked) Open(name string) (fs.File, error) {
	if name == l.name {
		return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrPermission}
	}
	return l.FS.Open(name)
}

func TestUnreadable(t *testing.T) {
	for _, name := range []string{"shop.yaml", "procedures", "procedures/rise-test.md", "machines/cindle-14.yaml", "."} {
		_, _, err := Load(locked{shop(nil), name}, "content")
		var unreadable *Unreadable
		if !errors.As(err, &unreadable) || !strings.Contains(err.Error(), "may not be read: permission denied") || strings.Contains(err.Error(), "\n") {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func TestSameFolderSameMessages(t *testing.T) {
	files := map[string]string{"procedures/a.md": "x", "procedures/b.md": "\xff", "zz": "", "yy": "", "pages/B.md": "", "pages/A.md": ""}
	_, first, _ := Load(shop(files), "content")
	for range 5 {
		if _, again, _ := Load(shop(files), "content"); short(again) != short(first) {
			t.Fatalf("once %s\nthen %s", short(first), short(again))
		}
	}
}
