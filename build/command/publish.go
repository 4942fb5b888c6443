package command

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"blankoff/build/diagnostic"
	"blankoff/build/publish"
	"blankoff/build/write"
)

func publishVerb(t terminal) *cobra.Command {
	var out string
	verb := &cobra.Command{
		Use:   "publish [DIR] [--out OUT]",
		Short: "makes the site of a knowledge base (the verb if none is given)",
		Long: "Verifies the knowledge base in DIR (content, if left out), makes its site, and puts that in place of OUT in one step.\n" +
			"With an error in the content, or if it is interrupted, OUT stays as it was.",
		Example: "  go run ./build publish\n  go run ./build publish ../our-shop --out /srv/our-shop",
		Args:    atMostOneFolder,
	}
	verb.Flags().StringVar(&out, "out", "out", "the `folder` for the site: a new one, an empty one, or one published before")
	verb.RunE = func(self *cobra.Command, args []string) error { return publishTo(self.Context(), t, args, out) }
	return verb
}

func publishTo(ctx context.Context, t terminal, args []string, out string) error {
	began := time.Now()
	folder, err := contentFolder(args)
	if err != nil {
		return err
	}
	if err := apart(folder, out); err != nil {
		return err
	}
	result, err := publish.Site(ctx, os.DirFS(folder), publish.Options{Name: folder, Today: t.today, Calculators: true})
	if err != nil {
		return err
	}
	fmt.Fprint(t.err, diagnostic.List(result.Diagnostics, styleOf(t.err)))
	if !result.Good() {
		faults, _ := diagnostic.Count(result.Diagnostics)
		fmt.Fprintf(t.err, "%s: nothing was published, and %s is as it was.\n", plural(faults, "error"), out)
		return said(failed)
	}
	if err := ctx.Err(); err != nil {
		return err
	}
	if err := write.Swap(out, result.Files); err != nil {
		return err
	}
	fmt.Fprint(t.out, summary(result.Counts, out, time.Since(began)))
	return nil
}

// apart refuses a site within its own content, or the other way round: each run would publish the last one.
func apart(folder, out string) error {
	if out == "" {
		return errors.New("--out names no folder; leave it out for the folder out")
	}
	a, errA := truePath(folder)
	b, errB := truePath(out)
	if errA != nil || errB != nil {
		return nil // then the folder cannot be read or written either, and that says why
	}
	if within(a, b) || within(b, a) {
		return fmt.Errorf("%s and %s lie in one another; name a folder apart with --out", folder, out)
	}
	return nil
}

// truePath follows links as far as the path exists.
func truePath(path string) (string, error) {
	path, err := filepath.Abs(path)
	if err != nil {
		return "", err
	}
	if real, err := filepath.EvalSymlinks(path); err == nil {
		return real, nil
	}
	if parent := filepath.Dir(path); parent != path {
		real, err := truePath(parent)
		return filepath.Join(real, filepath.Base(path)), err
	}
	return path, nil
}

func within(outer, inner string) bool {
	way, err := filepath.Rel(outer, inner)
	return err == nil && filepath.IsLocal(way)
}

func summary(c publish.Counts, out string, took time.Duration) string {
	var text strings.Builder
	row := func(name, format string, args ...any) {
		fmt.Fprintf(&text, "  %-12s "+format+"\n", append([]any{name}, args...)...)
	}
	fmt.Fprintf(&text, "Published %s in %d ms.\n", out, took.Milliseconds())
	row("pages", "%d", c.Pages)
	row("calculators", "%d, in %s of the guides", c.Calculators, plural(c.Placed, "place"))
	row("facts", "%d checked", c.Facts)
	row("hazards", "%d stated", c.Hazards)
	row("size", "%s, of which WebAssembly %s (%s when it runs)", kilobytes(c.Bytes), kilobytes(c.CalcStored), kilobytes(c.CalcRaw))
	text.WriteString("Look at it: go run ./build view\n")
	return text.String()
}

func kilobytes(n int) string { return fmt.Sprintf("%.0f kB", float64(n)/1000) }

func plural(n int, word string) string {
	if n == 1 {
		return "1 " + word
	}
	return fmt.Sprintf("%d %ss", n, word)
}
