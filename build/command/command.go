// Package command is the command line: verbs, their options and help, and what the terminal is told.
// It holds no work of its own; each verb calls the package that does it.
package command

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"strings"
	"syscall"
	"time"

	"github.com/spf13/cobra"
)

// What a run comes to.
const (
	done     = 0
	failed   = 1 // a request failed, or the content has errors
	unusable = 2 // the arguments, or what they name, cannot be used
)

const (
	nameOfAll = "blankoff"
	clueFor   = "; see %s"
)

// Run runs the program with the arguments behind its name, and gives its exit status.
func Run(args []string, stdout, stderr io.Writer) int {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	context.AfterFunc(ctx, stop) // a second Ctrl-C ends the program as it would any other
	return run(ctx, args, terminal{os.Stdin, stdout, stderr, time.Now()})
}

// terminal is what a verb reads from and writes to, and the day on which it does: it decides whether reviews are due.
type terminal struct {
	in       io.Reader
	out, err io.Writer
	today    time.Time
}

// said is an error whose reasons are on the terminal already; only the status is left to give.
type said int

func (s said) Error() string { return "said already" }

func run(ctx context.Context, args []string, t terminal) int {
	root := verbs(t)
	root.SetArgs(args)
	root.SetIn(t.in)
	root.SetOut(t.out)
	root.SetErr(t.err)
	err := root.ExecuteContext(ctx)
	var status said
	switch {
	case err == nil:
		return done
	case errors.As(err, &status):
		return int(status)
	case errors.Is(err, context.Canceled):
		fmt.Fprintln(t.err, "interrupted")
		return failed
	}
	fmt.Fprintln(t.err, nameOfAll+": "+strings.TrimSpace(err.Error()))
	return unusable
}

func verbs(t terminal) *cobra.Command {
	publish := publishVerb(t)
	root := &cobra.Command{
		Use:   nameOfAll,
		Short: "Turns a folder of repair guides into a website that calculates without a network",
		Long: "blankoff turns a folder of repair guides and machine data into a website that calculates, and that works without\n" +
			"a network. Every number in it is computed, or checked by a computation.\n\n" +
			"Without a verb it publishes content/ into out/.",
		Example: "  go run ./build\n  go run ./build verify content --fix\n  go run ./build calc pressure \"value=340 micron\"",
		Args:    unknownVerb,
		RunE:    publish.RunE,
	}
	root.Flags().AddFlagSet(publish.Flags())
	root.AddCommand(publish, verifyVerb(t), viewVerb(t), calcVerb(t))
	root.CompletionOptions.DisableDefaultCmd = true
	root.SuggestionsMinimumDistance = 2
	root.SilenceErrors, root.SilenceUsage = true, true
	root.SetFlagErrorFunc(func(verb *cobra.Command, err error) error {
		return fmt.Errorf("%w"+clueFor, err, helpFor(verb))
	})
	root.SetHelpFunc(func(verb *cobra.Command, _ []string) { fmt.Fprint(t.out, help(verb)) })
	root.SetHelpCommand(helpVerb(t))
	for _, verb := range append(root.Commands(), root) {
		verb.Flags().BoolP("help", "h", false, "explain this")
	}
	return root
}

func unknownVerb(root *cobra.Command, args []string) error {
	if len(args) == 0 {
		return nil
	}
	clue := ""
	if near := root.SuggestionsFor(args[0]); len(near) > 0 {
		clue = fmt.Sprintf(", did you mean %s?", strings.Join(near, " or "))
	}
	return fmt.Errorf("there is no verb %q%s"+clueFor, args[0], clue, helpFor(root))
}

// atMostOneFolder is for the verbs that work on one knowledge base.
func atMostOneFolder(verb *cobra.Command, args []string) error {
	if len(args) > 1 {
		return fmt.Errorf("%s takes one folder, and there are %d: %s"+clueFor, verb.Name(), len(args), strings.Join(args, ", "), helpFor(verb))
	}
	return nil
}

// contentFolder is the folder named, or content; it must be there.
func contentFolder(args []string) (string, error) {
	folder := "content"
	if len(args) > 0 {
		folder = args[0]
	}
	info, err := os.Stat(folder)
	switch {
	case errors.Is(err, os.ErrNotExist):
		return "", fmt.Errorf("there is no folder %s; name the folder that holds shop.yaml", folder)
	case err != nil:
		return "", fmt.Errorf("cannot read the folder %s: %w", folder, err)
	case !info.IsDir():
		return "", fmt.Errorf("%s is a file; name the folder that holds shop.yaml", folder)
	}
	return folder, nil
}
