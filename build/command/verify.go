package command

import (
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"

	"github.com/spf13/cobra"

	"blankoff/build/diagnostic"
	"blankoff/build/load"
	"blankoff/build/verify"
	"blankoff/build/write"
)

// verifyOptions are the options of verify.
type verifyOptions struct {
	fix, json, strict, quantities bool
	rule                          string
}

func verifyVerb(t terminal) *cobra.Command {
	var options verifyOptions
	verb := &cobra.Command{
		Use:   "verify [DIR] [--fix] [--json] [--strict] [--quantities] | verify --rule NAME",
		Short: "tells everything that is wrong in a knowledge base",
		Long: "Tells everything that is wrong in the knowledge base in DIR (content, if left out), each with file, line, column and\n" +
			"what to do. The status is 1 if there are errors. Nothing is published.\n\n" +
			"Each message ends with the name of its rule in brackets; --rule NAME explains it by an example.",
		Example: "  go run ./build verify\n  go run ./build verify ../our-shop --fix\n  go run ./build verify --json --strict\n  go run ./build verify --rule step-expect",
		Args:    atMostOneFolder,
		RunE: func(verb *cobra.Command, args []string) error {
			if verb.Flags().Changed("rule") {
				return options.explain(t, verb, args)
			}
			return options.run(t, args)
		},
	}
	verb.Flags().BoolVar(&options.fix, "fix", false, "write the right value wherever a checked fact differs, and tell what is left")
	verb.Flags().BoolVar(&options.json, "json", false, "tell it as one JSON list")
	verb.Flags().BoolVar(&options.strict, "strict", false, "count warnings as errors")
	verb.Flags().BoolVar(&options.quantities, "quantities", false, "list the quantities recognised in the text instead, and what is in doubt")
	verb.Flags().StringVar(&options.rule, "rule", "", "explain the rule of this `NAME` by an example, or `list` all rules")
	return verb
}

// explain tells a rule instead of looking at a folder.
func (o verifyOptions) explain(t terminal, verb *cobra.Command, args []string) error {
	if verb.Flags().NFlag() > 1 || len(args) > 0 {
		return fmt.Errorf("--rule %s explains a rule and looks at no folder; leave everything else out"+clueFor, o.rule, helpFor(verb))
	}
	return explain(t, o.rule)
}

func (o verifyOptions) run(t terminal, args []string) error {
	folder, err := contentFolder(args)
	if err != nil {
		return err
	}
	if o.fix {
		if err := fix(t, folder); err != nil {
			return err
		}
	}
	library, found, err := load.Load(os.DirFS(folder), folder)
	if err != nil {
		return err
	}
	if o.quantities {
		return tellQuantities(t, library, o.json)
	}
	more, counts := verify.Check(library, t.today)
	return o.tell(t, folder, diagnostic.Sorted(append(found, more...)), counts)
}

func (o verifyOptions) tell(t terminal, folder string, found []diagnostic.Diagnostic, counts verify.Counts) error {
	faults, warnings := diagnostic.Count(found)
	if o.json {
		fmt.Fprintf(t.out, "%s", diagnostic.JSON(found))
	} else {
		fmt.Fprint(t.out, diagnostic.List(found, styleOf(t.out)))
		fmt.Fprintf(t.out, "%s: %s, %s; %s, %s and %s looked at.\n", folder, plural(faults, "error"), plural(warnings, "warning"),
			plural(counts.Pages, "guide"), plural(counts.Facts, "fact"), plural(counts.Hazards, "hazard"))
		if len(found) > 0 {
			fmt.Fprintf(t.out, "`verify --rule %s` explains that rule by an example.\n", found[0].Rule)
		}
	}
	if faults > 0 || o.strict && warnings > 0 {
		return said(failed)
	}
	return nil
}

// fix writes stale facts anew. What it did goes to the error stream: the report alone belongs to the other.
func fix(t terminal, folder string) error {
	library, _, err := load.Load(os.DirFS(folder), folder)
	if err != nil {
		return err
	}
	fixed := verify.Fix(library)
	for _, path := range slices.Sorted(maps.Keys(fixed)) {
		name := filepath.Join(folder, filepath.FromSlash(path))
		if err := write.Replace(name, fixed[path]); err != nil {
			return err
		}
		fmt.Fprintf(t.err, "%s: stale facts written anew\n", name)
	}
	return nil
}
