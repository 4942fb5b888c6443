package command

import (
	"errors"
	"fmt"
	"strings"
	"unicode/utf8"

	"github.com/spf13/cobra"

	"blankoff/calc"
	"blankoff/calc/declare"
	"blankoff/calc/parcel"
	"blankoff/calc/qr"
	"blankoff/calc/triage"
	"blankoff/calc/wire"
)

// calcOptions are the options of calc.
type calcOptions struct {
	json, lines, list bool
	units, axes       []string
	svg               string
	files             []tableFile
	models            *models
}

func calcVerb(t terminal) *cobra.Command {
	options := calcOptions{models: &models{}}
	verb := &cobra.Command{
		Use:   "calc ID name=value ... [--TABLE FILE] [--unit output=UNIT] [--svg FILE] [--json | --lines | --list]",
		Short: "calculates in the terminal, as the pages do",
		Long: "Calculates in the terminal, with the same code that the pages carry. Values are written as on a page, with their unit,\n" +
			"and with an accuracy where one is known: volume=\"24 L ± 1 L\". A table is read from a file, - being the standard input: comma-separated\n" +
			"text whose first line names the columns with their units, such as time min,pressure mTorr. The status is 1 if any request failed.\n\n" +
			"calc triage weighs what was found on a machine by the folder's triage.yaml: NAME=ANSWER for each finding (a value with its unit, or\n" +
			"unknown), done=STEP,… for repairs that did not help, who=technician, tools=TOOL,… for those at hand.",
		Example: "  go run ./build calc --list\n" +
			"  go run ./build calc pressure \"value=-28 inHg gauge\" \"altitude=350 m\"\n" +
			"  go run ./build calc rise-test \"volume=28 L\" \"start=120 mTorr\" \"end=480 mTorr\" \"time=10 min\" --unit leak=Torr·L/s\n" +
			"  go run ./build calc rise-log --log rise.csv \"volume=28 L\" \"limit=0.02 mbar·L/s\" --svg rise.svg\n" +
			"  go run ./build calc triage who=technician jumps=yes slow=unknown \"gauge-ratio=3.2 ± 20 %\" done=reseat-plug\n" +
			"  go run ./build calc qr text=https://example.org/ > code.svg\n" +
			"  go run ./build calc --lines < requests.txt\n" +
			"a line of which is\n" +
			"  {\"id\":\"pressure\",\"in\":{\"value\":\"340 micron\"},\"out\":{\"absolute\":\"Pa\"}}",
		RunE: func(_ *cobra.Command, args []string) error { return options.run(t, args) },
	}
	verb.Flags().BoolVar(&options.json, "json", false, "answer, or list, as JSON")
	verb.Flags().BoolVar(&options.lines, "lines", false, "read one JSON request a line, and answer each on a line; a bad one never stops the rest")
	verb.Flags().BoolVar(&options.list, "list", false, "list all calculators with what goes in and what comes out")
	verb.Flags().StringArrayVar(&options.units, "unit", nil, "give an output in another unit, `output=UNIT`, as in leak=mbar·L/s; once for each output")
	verb.Flags().StringVar(&options.svg, "svg", "", "write the plot into `FILE` as well, where the calculator has one")
	verb.Flags().StringArrayVar(&options.axes, "axis", nil, "give the plot's axes another unit, `KIND=UNIT`, as in pressure=Pa")
	verb.Flags().StringVar(&options.models.folder, "content", "", "of a triage: take the fault model of this `FOLDER`, not of content")
	verb.MarkFlagsMutuallyExclusive("lines", "list")
	options.files = tableFlags(verb)
	return verb
}

func (o calcOptions) run(t terminal, args []string) error {
	switch {
	case o.lines && len(args)+len(o.units)+len(o.axes)+len(o.svg)+len(given(o.files)) > 0:
		return errors.New("calc --lines takes its requests from the standard input; leave the others out")
	case o.lines:
		return answerLines(t, o.models)
	case o.list:
		return o.listing(t, args)
	case len(args) == 0:
		return fmt.Errorf("name a calculator: %s, or triage; %s calc --list tells what goes in", strings.Join(ids(), ", "), nameOfAll)
	}
	if args[0] == triage.ID {
		return o.triage(t, args[1:])
	}
	request, err := o.request(t, args)
	if err != nil {
		return err
	}
	if request.ID == qr.ID || request.ID == parcel.ID {
		return o.plainly(t, request)
	}
	return o.one(t, request)
}

// one answers one request on the terminal.
func (o calcOptions) one(t terminal, request declare.Request) error {
	status := failed
	if calc.Find(request.ID) == nil {
		status = unusable
	}
	answer := calc.Answer(request)
	if o.svg != "" && answer.Fault == nil {
		if err := writePlot(o.svg, request.ID, answer.Plot); err != nil {
			return err
		}
		answer.Plot = nil // it stands in its file
	}
	return o.tell(t, answer, status, func(answer declare.Answer) string {
		return plain(calc.Find(request.ID).Title, answer)
	})
}

// tell writes an answer, for programs or in words for people. The status is that of a request that could not be answered.
func (o calcOptions) tell(t terminal, answer declare.Answer, status int, inWords func(declare.Answer) string) error {
	switch {
	case o.json:
		fmt.Fprintf(t.out, "%s\n", wire.AppendAnswer(nil, answer))
	case answer.Fault != nil:
		fmt.Fprintln(t.err, nameOfAll+": "+faultLine(answer))
	default:
		fmt.Fprint(t.out, inWords(answer))
	}
	if answer.Fault != nil {
		return said(status)
	}
	return nil
}

func (o calcOptions) request(t terminal, args []string) (declare.Request, error) {
	request := declare.Request{ID: args[0]}
	var err error
	if request.In, err = pairs(args[1:], "volume=28 L"); err != nil {
		return request, err
	}
	for _, file := range given(o.files) {
		text, err := file.read(t)
		if err != nil {
			return request, err
		}
		request.In = append(request.In, declare.Pair{Name: file.input, Text: text})
	}
	if request.Out, err = pairs(o.units, "--unit leak=mbar·L/s"); err != nil {
		return request, err
	}
	request.Plot = o.svg != ""
	request.Axes, err = pairs(o.axes, "--axis pressure=Pa")
	return request, err
}

func pairs(texts []string, like string) ([]declare.Pair, error) {
	var all []declare.Pair
	for _, text := range texts {
		name, value, ok := strings.Cut(text, "=")
		if name = strings.TrimSpace(name); !ok || name == "" {
			return nil, fmt.Errorf("%q is not of the form name=value; write it like \"%s\", in quotes if it has spaces", text, like)
		}
		all = append(all, declare.Pair{Name: name, Text: value})
	}
	return all, nil
}

func ids() []string {
	var all []string
	for _, calculator := range calc.All() {
		all = append(all, calculator.ID)
	}
	return all
}

func faultLine(answer declare.Answer) string {
	if answer.Fault.Field == "" {
		return answer.Fault.Text
	}
	return answer.Fault.Field + ": " + answer.Fault.Text
}

// plain is an answer for people.
func plain(title string, answer declare.Answer) string {
	var out strings.Builder
	out.WriteString(title + "\n")
	width := 0
	for _, given := range answer.Out {
		width = max(width, utf8.RuneCountInString(given.Label))
	}
	for _, given := range answer.Out {
		gap := strings.Repeat(" ", width-utf8.RuneCountInString(given.Label)+2)
		out.WriteString("  " + given.Label + gap + given.Text + "\n")
		writeTable(&out, given)
		for _, also := range given.Also {
			out.WriteString(strings.Repeat(" ", width+4) + "= " + also + "\n")
		}
	}
	if answer.Verdict.Is != "" {
		out.WriteString("\nVerdict: " + answer.Verdict.Is + ". " + answer.Verdict.Text + "\n")
	}
	section(&out, "Working", answer.Working)
	section(&out, "Cautions", answer.Cautions)
	return out.String()
}

func section(out *strings.Builder, title string, lines []string) {
	if len(lines) > 0 {
		out.WriteString("\n" + title + "\n")
	}
	for _, line := range lines {
		out.WriteString("  " + line + "\n")
	}
}
