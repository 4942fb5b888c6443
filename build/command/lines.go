package command

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"

	"blankoff/build/parallel"
	"blankoff/calc"
	"blankoff/calc/declare"
	"blankoff/calc/triage"
	"blankoff/calc/wire"
)

// answerLines answers one JSON request a line until the input ends; each line gets its answer, whatever it holds.
func answerLines(t terminal, models *models) error {
	in, out := bufio.NewReaderSize(t.in, 256<<10), bufio.NewWriterSize(t.out, 256<<10)
	wrong := false
	for done := false; !done; {
		lines, err := waitingLines(in)
		if done = errors.Is(err, io.EOF); err != nil && !done {
			return errors.Join(out.Flush(), fmt.Errorf("cannot read the requests: %w", err))
		}
		answers := make([]answered, len(lines))
		parallel.Each(len(lines), func(i int) { answers[i] = answerLine(lines[i], models) })
		for _, a := range answers {
			wrong = wrong || a.wrong
			out.Write(a.text)
		}
		if err := out.Flush(); err != nil { // whoever asks one by one waits for this answer
			return fmt.Errorf("cannot write the answers: %w", err)
		}
	}
	if wrong {
		return said(failed)
	}
	return nil
}

// answered is one line of the output.
type answered struct {
	text  []byte
	wrong bool
}

// answerLine answers one line. A triage that brings no fault model is weighed by that of the folder.
func answerLine(line []byte, models *models) answered {
	request, err := wire.DecodeRequest(line)
	answer := declare.Answer{ID: request.ID}
	var known *triage.Known
	if err == nil && request.ID == triage.ID {
		_, known, err = models.read()
	}
	if err != nil {
		answer.Fault = &declare.Fault{Text: err.Error()}
	} else {
		answer = calc.AnswerBy(known, request)
	}
	return answered{append(wire.AppendAnswer(make([]byte, 0, 2048), answer), '\n'), answer.Fault != nil}
}

// waitingLines waits for one line and takes with it those that have come already, so that they can be answered side by side.
func waitingLines(in *bufio.Reader) (lines [][]byte, err error) {
	for held := 0; ; {
		line, err := nextLine(in)
		if err == nil || len(line) > 0 {
			lines = append(lines, line)
		}
		held += len(line)
		if err != nil || in.Buffered() == 0 || len(lines) == mostTogether || held > mostHeld {
			return lines, err
		}
	}
}

// mostTogether bounds the answers that are held at once, mostHeld the bytes of the requests.
const mostTogether, mostHeld = 4096, 16 << 20

// nextLine gives a line without its end. Of a line beyond all measure it keeps just enough to be refused as too long.
func nextLine(in *bufio.Reader) ([]byte, error) {
	var line []byte
	for {
		part, err := in.ReadSlice('\n')
		if len(line) <= wire.MaxRequest {
			line = append(line, part...)
		}
		if !errors.Is(err, bufio.ErrBufferFull) {
			return bytes.TrimRight(line, "\r\n"), err
		}
	}
}
