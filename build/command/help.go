package command

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"
)

// helpFor is the command that explains a verb.
func helpFor(verb *cobra.Command) string {
	if !verb.HasParent() {
		return nameOfAll + " help"
	}
	return nameOfAll + " help " + verb.Name()
}

func helpVerb(t terminal) *cobra.Command {
	return &cobra.Command{
		Use:     "help [VERB]",
		Short:   "explains a verb",
		Long:    "Explains a verb, or lists them all.",
		Example: "  go run ./build help calc",
		RunE: func(self *cobra.Command, args []string) error {
			verb, rest, err := self.Root().Find(args)
			if err != nil || len(rest) > 0 {
				return unknownVerb(self.Root(), args)
			}
			fmt.Fprint(t.out, help(verb))
			return nil
		},
	}
}

func help(verb *cobra.Command) string {
	var out strings.Builder
	out.WriteString(verb.Long + "\n\n  " + useLine(verb) + "\n")
	if verb.HasAvailableSubCommands() {
		out.WriteString("\nVerbs\n")
		for _, sub := range verb.Commands() {
			if !sub.Hidden {
				fmt.Fprintf(&out, "  %-9s %s\n", sub.Name(), sub.Short)
			}
		}
	}
	if flags := strings.TrimRight(verb.LocalFlags().FlagUsages(), "\n"); flags != "" {
		out.WriteString("\nOptions\n" + flags + "\n")
	}
	if verb.Example != "" {
		out.WriteString("\nFor example\n" + verb.Example + "\n")
	}
	return out.String()
}

func useLine(verb *cobra.Command) string {
	if !verb.HasParent() {
		return nameOfAll + " [VERB] [options]"
	}
	return nameOfAll + " " + verb.Use
}
