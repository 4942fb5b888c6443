package bundle

import (
	"errors"
	"fmt"
	"io/fs"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"unicode/utf8"

	"github.com/evanw/esbuild/pkg/api"
)

// Script bundles TypeScript from site into one module, and a module for each part that is imported only when it is
// needed. entry is the code of the entry, whose imports are relative to site; the parts lie beside it under their own names.
func Script(site fs.FS, entry string) (main []byte, parts []File, err error) {
	return build(site, entry, api.FormatESModule)
}

func build(site fs.FS, entry string, format api.Format) (main []byte, parts []File, err error) {
	var worn sheets
	result := api.Build(api.BuildOptions{
		Stdin:             &api.StdinOptions{Contents: entry, Sourcefile: "entry.ts", Loader: api.LoaderTS},
		Bundle:            true,
		Splitting:         format == api.FormatESModule,
		ChunkNames:        "[name].[hash]",
		Outdir:            "/",
		Format:            format,
		Target:            api.ES2022,
		MinifyWhitespace:  true,
		MinifyIdentifiers: true,
		MinifySyntax:      true,
		Charset:           api.CharsetUTF8,
		LegalComments:     api.LegalCommentsNone,
		Plugins:           []api.Plugin{fromFiles(site, &worn)},
		TsconfigRaw:       `{}`, // else one that lies above the working folder would count
		LogLevel:          api.LogLevelSilent,
	})
	if err := faults(result.Errors, result.Warnings); err != nil {
		return nil, nil, err
	}
	for _, file := range result.OutputFiles {
		if name := path.Base(filepath.ToSlash(file.Path)); name != "stdin.js" {
			parts = append(parts, File{Path: name, Bytes: file.Contents})
		} else {
			main = file.Contents
		}
	}
	return main, append(parts, worn.files...), nil
}

// Style minifies a style sheet from site. What it refers to stays as it is written.
func Style(site fs.FS, name string) ([]byte, error) {
	content, err := fs.ReadFile(site, name)
	if err != nil {
		return nil, fault(name, err)
	}
	return smallStyle(name, string(content))
}

func smallStyle(name, content string) ([]byte, error) {
	result := api.Transform(content, api.TransformOptions{
		Loader:           api.LoaderCSS,
		Sourcefile:       name,
		Target:           api.ES2022,
		MinifyWhitespace: true,
		MinifySyntax:     true,
		Charset:          api.CharsetUTF8,
		LegalComments:    api.LegalCommentsNone,
		LogLevel:         api.LogLevelSilent,
	})
	return result.Code, faults(result.Errors, result.Warnings)
}

// made are modules that are no files of site/ but follow from what lies there or from the tables of this program. A
// declaration beside the scripts tells their types.
var made = map[string]func(site fs.FS) (string, error){
	"choices.ts": choicesModule,
}

// fetched are files that follow so, which a script fetches when it needs one: it imports the published name.
var fetched = map[string]func(site fs.FS) ([]byte, error){
	"units.txt": unitSheet,
}

// sheets are the style sheets and texts that scripts import: files of their own, which a script links or fetches when it runs.
type sheets struct {
	mutex sync.Mutex // esbuild loads modules side by side
	files []File
}

// module is the name of the file, for the script that alone needs it.
func (s *sheets) module(site fs.FS, name string) (string, error) {
	give := fetched[name]
	if give == nil {
		give = func(site fs.FS) ([]byte, error) { return Style(site, name) }
	}
	content, err := give(site)
	if err != nil {
		return "", err
	}
	suffix := path.Ext(name)
	file := File{Path: digested(strings.TrimSuffix(path.Base(name), suffix), suffix, content), Bytes: content}
	s.mutex.Lock()
	defer s.mutex.Unlock()
	s.files = append(s.files, file)
	slices.SortFunc(s.files, func(a, b File) int { return strings.Compare(a.Path, b.Path) })
	return fmt.Sprintf("export default %q;\n", file.Path), nil
}

// fromFiles reads imports from the files given and from what is made, and from nowhere else: a script of ours needs no
// package.
func fromFiles(site fs.FS, worn *sheets) api.Plugin {
	const ours = "site"
	return api.Plugin{Name: ours, Setup: func(build api.PluginBuild) {
		build.OnResolve(api.OnResolveOptions{Filter: "."}, func(args api.OnResolveArgs) (api.OnResolveResult, error) {
			name := path.Join(path.Dir(args.Importer), args.Path)
			if args.Namespace != ours { // the entry itself lies at the top
				name = path.Clean(args.Path)
			}
			if made[name+".ts"] != nil {
				return api.OnResolveResult{Path: name + ".ts", Namespace: ours}, nil
			}
			if fetched[name] != nil {
				return api.OnResolveResult{Path: name, Namespace: ours}, nil
			}
			for _, candidate := range []string{name, name + ".ts"} {
				if info, err := fs.Stat(site, candidate); err == nil && info.Mode().IsRegular() {
					return api.OnResolveResult{Path: candidate, Namespace: ours}, nil
				}
			}
			return api.OnResolveResult{}, fmt.Errorf("there is no %s or %s.ts in site/", name, name)
		})
		build.OnLoad(api.OnLoadOptions{Filter: ".", Namespace: ours}, func(args api.OnLoadArgs) (api.OnLoadResult, error) {
			if module := made[args.Path]; module != nil {
				text, err := module(site)
				return api.OnLoadResult{Contents: &text, Loader: api.LoaderTS}, err
			}
			if path.Ext(args.Path) != ".ts" {
				text, err := worn.module(site, args.Path)
				return api.OnLoadResult{Contents: &text, Loader: api.LoaderTS}, err
			}
			content, err := fs.ReadFile(site, args.Path)
			text := string(content)
			return api.OnLoadResult{Contents: &text, Loader: api.LoaderTS}, err
		})
	}}
}

// faults tells esbuild's messages as ours look: file:line:column, both from 1, the column in characters.
// Warnings count too: our own sources have none.
func faults(errs, warnings []api.Message) error {
	var all []error
	for _, message := range append(errs, warnings...) {
		all = append(all, errors.New(place(message.Location)+lowerFirst(message.Text)))
	}
	return errors.Join(all...)
}

func place(at *api.Location) string {
	if at == nil {
		return "site: error: "
	}
	before := at.LineText[:min(max(at.Column, 0), len(at.LineText))]
	return fmt.Sprintf("site/%s:%d:%d: error: ", strings.TrimPrefix(at.File, "site:"), at.Line, utf8.RuneCountInString(before)+1)
}

func lowerFirst(text string) string {
	if text == "" {
		return text
	}
	return strings.ToLower(text[:1]) + text[1:]
}
