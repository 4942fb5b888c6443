package bundle

import (
	"bytes"
	"encoding/json"
	"fmt"
	"go/ast"
	"go/format"
	"go/parser"
	"go/scanner"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// prose are the fields of a declaration that the page has said already when a phone loads the calculators, by type. They are
// left out of the source that is compiled for it: some 25 kB gzipped, a sixth of what our code adds to an empty module.
var prose = map[string][]string{
	"Calculator": {"Title", "Group", "Decision", "Formula", "Sources", "Hazards", "Limits", "Performance", "Example"},
	"Input":      {"Help"},
	"Influence":  {"Text"},
}

// withoutProse writes, into temp, the files of calc/ as a phone needs them, and the list by which `go build -overlay`
// takes them in place of the originals. library are files of Go's own library, which are only written on fewer lines.
func withoutProse(folder, temp string, library []string) (list string, err error) {
	replace := map[string]string{}
	for _, path := range library {
		source, err := os.ReadFile(path)
		if err != nil {
			return "", fmt.Errorf("cannot prepare Go's library for the phone: %w", err)
		}
		written := filepath.Join(temp, fmt.Sprintf("%d.go", len(replace)))
		replace[path] = written
		if err := os.WriteFile(written, oneLine(source), 0o600); err != nil {
			return "", fmt.Errorf("cannot prepare Go's library for the phone: %w", err)
		}
	}
	err = filepath.WalkDir(filepath.Join(folder, "calc"), func(path string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return err
		}
		source, err := strip(path)
		if err != nil {
			return err
		}
		written := filepath.Join(temp, fmt.Sprintf("%d.go", len(replace)))
		replace[path] = written
		return os.WriteFile(written, source, 0o600)
	})
	if err != nil {
		return "", fmt.Errorf("cannot prepare the calculators for the phone: %w", err)
	}
	text, _ := json.Marshal(map[string]any{"Replace": replace}) // texts always have a JSON form
	list = filepath.Join(temp, "overlay.json")
	return list, os.WriteFile(list, text, 0o600)
}

// strip gives the source of a file without its prose and all on one line: where a line of the source ran, a phone need not know,
// and the tables that say so weigh another 9 kB. For which machine the file is, it goes on saying.
func strip(path string) ([]byte, error) {
	files := token.NewFileSet()
	file, err := parser.ParseFile(files, path, nil, parser.ParseComments)
	if err != nil {
		return nil, err
	}
	constraint := ""
	for _, group := range file.Comments {
		if text := group.List[0].Text; group.Pos() < file.Package && strings.HasPrefix(text, "//go:build ") {
			constraint = text + "\n\n"
		}
	}
	file.Comments = nil
	ast.Inspect(file, func(node ast.Node) bool {
		if literal, ok := node.(*ast.CompositeLit); ok {
			stripLiteral(literal)
		}
		return true
	})
	var out bytes.Buffer
	if err := format.Node(&out, files, file); err != nil {
		return nil, err
	}
	return append([]byte(constraint), oneLine(out.Bytes())...), nil
}

// oneLine writes a source without comments on one line. What the compiler is told by a comment, as //go:nosplit, keeps a
// line of its own.
func oneLine(source []byte) []byte {
	var tokens scanner.Scanner
	files := token.NewFileSet()
	tokens.Init(files.AddFile("", -1, len(source)), source, nil, scanner.ScanComments)
	var out bytes.Buffer
	for {
		_, kind, text := tokens.Scan()
		switch {
		case kind == token.EOF:
			return out.Bytes()
		case kind == token.COMMENT && strings.HasPrefix(text, "//go:"):
			text = "\n" + text + "\n"
		case kind == token.COMMENT:
			continue
		case kind == token.SEMICOLON: // also the end of a line that the scanner puts one at
			text = ";"
		case text == "":
			text = kind.String()
		}
		out.WriteString(text + " ")
	}
}

// stripLiteral takes the prose out of a declare.Calculator, or of each element of a []declare.Input.
func stripLiteral(literal *ast.CompositeLit) {
	switch kind := literal.Type.(type) {
	case *ast.SelectorExpr:
		drop(literal, prose[declared(kind)])
	case *ast.ArrayType:
		element, _ := kind.Elt.(*ast.SelectorExpr)
		for _, value := range literal.Elts {
			if inner, ok := value.(*ast.CompositeLit); ok && inner.Type == nil {
				drop(inner, prose[declared(element)])
			}
		}
	}
}

// declared is the name of a type of calc/declare.
func declared(kind *ast.SelectorExpr) string {
	if kind == nil {
		return ""
	}
	if from, ok := kind.X.(*ast.Ident); !ok || from.Name != "declare" {
		return ""
	}
	return kind.Sel.Name
}

func drop(literal *ast.CompositeLit, fields []string) {
	kept := make([]ast.Expr, 0, len(literal.Elts))
	for _, value := range literal.Elts {
		if pair, ok := value.(*ast.KeyValueExpr); ok {
			if key, ok := pair.Key.(*ast.Ident); ok && slices.Contains(fields, key.Name) {
				continue
			}
		}
		kept = append(kept, value)
	}
	literal.Elts = kept
}
