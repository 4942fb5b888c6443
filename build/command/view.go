package command

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"blankoff/build/diagnostic"
	"blankoff/build/publish"
	"blankoff/build/view"
	"blankoff/build/write"
)

func viewVerb(t terminal) *cobra.Command {
	var port int
	verb := &cobra.Command{
		Use:   "view [DIR] [--port N]",
		Short: "shows the site on this machine while it is written",
		Long: "Serves the site of the knowledge base in DIR (content, if left out) on this machine alone. When a file changes, it is\n" +
			"made again, and open pages load again. With an error in the content the last good site stays. Ctrl-C ends.",
		Example: "  go run ./build view\n  go run ./build view ../our-shop --port 8321",
		Args:    atMostOneFolder,
	}
	verb.Flags().IntVar(&port, "port", 0, "serve at port `N`; a free one if left out")
	verb.RunE = func(self *cobra.Command, args []string) error { return viewOf(self.Context(), t, args, port) }
	return verb
}

// viewOf publishes into a folder of its own: the pages of the preview are not those of the site.
func viewOf(ctx context.Context, t terminal, args []string, port int) error {
	if port < 0 || port > 65535 {
		return fmt.Errorf("there is no port %d: give --port a number up to 65535, or leave it out for a free one", port)
	}
	folder, err := contentFolder(args)
	if err != nil {
		return err
	}
	temp, err := os.MkdirTemp("", nameOfAll+"-view-")
	if err != nil {
		return fmt.Errorf("cannot make a folder for the preview: %w", err)
	}
	defer os.RemoveAll(temp)
	out := filepath.Join(temp, "site")
	return view.Run(ctx, view.Options{Content: folder, Folder: out, Port: port, Out: t.out, Rebuild: func(ctx context.Context) error {
		return rebuild(ctx, t, folder, out)
	}})
}

func rebuild(ctx context.Context, t terminal, folder, out string) error {
	to := t.out
	result, err := publish.Site(ctx, os.DirFS(folder), publish.Options{Name: folder, Today: t.today, Calculators: true, Live: true})
	if err != nil {
		return err
	}
	told := diagnostic.List(result.Diagnostics, styleOf(to))
	if !result.Good() {
		return errors.New(strings.TrimRight(told, "\n"))
	}
	fmt.Fprint(to, told)
	if err := ctx.Err(); err != nil {
		return err
	}
	return write.Swap(out, result.Files)
}
