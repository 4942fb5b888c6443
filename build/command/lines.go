package command

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"

	"blankoff/calc"
	"blankoff/calc/declare"
	"blankoff/calc/wire"
)

// answerLines answers one JSON request a line until the input ends; each line gets its answer, whatever it holds.
func answerLines(t terminal) error {
	in, out := bufio.NewReaderSize(t.in, 64<<10), bufio.NewWriter(t.out)
	wrong := false
	for {
		line, err := nextLine(in)
		if err != nil && !errors.Is(err, io.EOF) {
			return errors.Join(out.Flush(), fmt.Errorf("cannot read the requests: %w", err))
		}
		if err != nil && len(line) == 0 {
			break
		}
		answer := answerLine(line)
		wrong = wrong || answer.Fault != nil
		out.Write(append(wire.AppendAnswer(nil, answer), '\n'))
		if in.Buffered() == 0 { // whoever asks one by one waits for this answer
			if err := out.Flush(); err != nil {
				return fmt.Errorf("cannot write the answers: %w", err)
			}
		}
	}
	if err := out.Flush(); err != nil {
		return fmt.Errorf("cannot write the answers: %w", err)
	}
	if wrong {
		return said(failed)
	}
	return nil
}

func answerLine(line []byte) declare.Answer {
	request, err := wire.DecodeRequest(line)
	if err != nil {
		return declare.Answer{ID: request.ID, Fault: &declare.Fault{Text: err.Error()}}
	}
	return calc.Answer(request)
}

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
