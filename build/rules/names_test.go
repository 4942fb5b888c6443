package rules

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// speakers finds in the program's own source which rules it can name: the texts that reach the rule of a diagnostic,
// directly or through functions that hand a rule on.
type speakers struct {
	files     []*ast.File
	places    *token.FileSet
	hand      map[string]int      // functions that take a rule, and as which argument
	said      map[string]string   // rule → a place where it is said
	unfounded map[string]struct{} // places where the rule is no text
}

func TestEveryRuleHasAPage(t *testing.T) {
	s := read(t, "..")
	for len(s.round()) > 0 {
	}
	for place := range s.unfounded {
		t.Errorf("%s: the rule must be a text, so that its page can be looked for", place)
	}
	if len(s.said) < 40 {
		t.Fatalf("only %d rules found in the source: the search is broken", len(s.said))
	}
	for _, name := range slices.Sorted(maps.Keys(s.said)) {
		if _, known := Find(name); !known {
			t.Errorf("%s: the rule %q has no page: write pages/%s.txt", s.said[name], name, name)
		}
	}
	for _, rule := range All() {
		if _, known := s.said[rule.Name]; !known {
			t.Errorf("pages/%s.txt explains a rule that the program never names", rule.Name)
		}
	}
}

// TestTheSearchSeesARuleHandedOn keeps the search itself from going blind.
func TestTheSearchSeesARuleHandedOn(t *testing.T) {
	const text = `package p
func (c *checker) refuse(rule string, at int) { c.found = append(c.found, NewError(rule, at)) }
func (c *checker) oneOf(n int, rule string) { c.refuse(rule, n) }
func (c *checker) f(d Diagnostic) {
	c.oneOf(1, "handed-on")
	_ = Fault{Rule: "in-a-literal"}
	c.refuse(d.Rule, 1)
	c.refuse("put"+"-together", 2)
}`
	places := token.NewFileSet()
	file, err := parser.ParseFile(places, "p.go", text, 0)
	if err != nil {
		t.Fatal(err)
	}
	s := newSpeakers(places, []*ast.File{file})
	for len(s.round()) > 0 {
	}
	if got := strings.Join(slices.Sorted(maps.Keys(s.said)), " "); got != "handed-on in-a-literal" {
		t.Errorf("found %s", got)
	}
	if len(s.unfounded) != 1 {
		t.Errorf("the rule that is put together was not noticed: %v", s.unfounded)
	}
}

func read(t *testing.T, folder string) *speakers {
	t.Helper()
	places := token.NewFileSet()
	var files []*ast.File
	err := fs.WalkDir(os.DirFS(folder), ".", func(name string, _ fs.DirEntry, err error) error {
		if err != nil || !strings.HasSuffix(name, ".go") || strings.HasSuffix(name, "_test.go") {
			return err
		}
		file, err := parser.ParseFile(places, filepath.Join(folder, name), nil, 0)
		files = append(files, file)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return newSpeakers(places, files)
}

func newSpeakers(places *token.FileSet, files []*ast.File) *speakers {
	return &speakers{
		files: files, places: places, hand: map[string]int{},
		said: map[string]string{}, unfounded: map[string]struct{}{},
	}
}

// round goes through all functions once and gives the names of those that turned out to hand a rule on.
func (s *speakers) round() (learned []string) {
	for _, file := range s.files {
		for _, decl := range file.Decls {
			within, _ := decl.(*ast.FuncDecl)
			ast.Inspect(decl, func(n ast.Node) bool {
				rule, is := s.rule(n)
				if !is {
					return true
				}
				if name := s.hear(rule, within); name != "" {
					learned = append(learned, name)
				}
				return true
			})
		}
	}
	return learned
}

// rule is what a node gives as the rule of a diagnostic.
func (s *speakers) rule(n ast.Node) (ast.Expr, bool) {
	switch n := n.(type) {
	case *ast.CallExpr:
		if at, known := s.argument(n); known && at < len(n.Args) {
			return n.Args[at], true
		}
	case *ast.KeyValueExpr:
		if key, ok := n.Key.(*ast.Ident); ok && key.Name == "Rule" {
			return n.Value, true
		}
	}
	return nil, false
}

// argument tells which argument of a call is a rule.
func (s *speakers) argument(call *ast.CallExpr) (int, bool) {
	name := calledName(call)
	if name == "NewError" || name == "NewWarning" { // of package diagnostic, called from many
		return 0, true
	}
	at, known := s.hand[s.folder(call)+name]
	return at, known
}

func (s *speakers) folder(n ast.Node) string {
	return filepath.Dir(s.places.Position(n.Pos()).Filename) + "/"
}

func calledName(call *ast.CallExpr) string {
	switch f := call.Fun.(type) {
	case *ast.Ident:
		return f.Name
	case *ast.SelectorExpr:
		return f.Sel.Name
	}
	return ""
}

// hear notes a rule. A parameter of the function makes that function one that hands a rule on; its name comes back when
// that is news.
func (s *speakers) hear(rule ast.Expr, within *ast.FuncDecl) string {
	place := s.places.Position(rule.Pos()).String()
	switch e := rule.(type) {
	case *ast.BasicLit:
		if text, err := strconv.Unquote(e.Value); err == nil {
			s.said[text] = place
			return ""
		}
	case *ast.SelectorExpr:
		if e.Sel.Name == "Rule" { // of a fault that was found before
			return ""
		}
	case *ast.Ident:
		if at := parameter(within, e.Name); at >= 0 {
			name := s.folder(within) + within.Name.Name
			_, known := s.hand[name]
			s.hand[name] = at
			if known {
				return ""
			}
			return name
		}
	}
	s.unfounded[place] = struct{}{}
	return ""
}

// parameter is the place of a function's parameter, or -1.
func parameter(of *ast.FuncDecl, name string) int {
	if of == nil {
		return -1
	}
	at := 0
	for _, field := range of.Type.Params.List {
		for _, each := range field.Names {
			if each.Name == name {
				return at
			}
			at++
		}
	}
	return -1
}
