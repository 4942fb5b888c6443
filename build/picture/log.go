package picture

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"blankoff/calc/plot"
	"blankoff/calc/quantity"
)

// Log is readings as a guide has them: a line that begins with a unit of time, and one that begins with the unit of what
// was read, both with as many numbers.
//
//	min     2    3    4
//	mTorr 447  583  724
type Log struct {
	Text string
	Unit quantity.Unit // for the axis of what was read; that of the text, unless another is given
}

// farApart is how many times the lowest reading the highest is, from which a logarithmic scale shows both.
const farApart = 50

// Draw draws the readings, joined by a thin line in the order of time.
func (l Log) Draw() (*plot.Drawing, error) {
	p := plot.Plot{Title: "Readings by time"}
	times, err := row(l.line(0), &p.X)
	if err != nil {
		return nil, err
	}
	if p.X.Unit.Kind != quantity.Time {
		return nil, fmt.Errorf("the first line is in %s, not in a unit of time", p.X.Unit.Symbol)
	}
	read, err := row(l.line(1), &p.Y)
	switch {
	case err != nil:
		return nil, err
	case len(read) != len(times):
		return nil, fmt.Errorf("there are %d times and %d readings", len(times), len(read))
	case l.line(2) != "":
		return nil, errors.New("there is a third line")
	}
	line, readings := p.Part(plot.Known, ""), p.Part(plot.Readings, "readings")
	low, high := read[0], read[0]
	for i, t := range times {
		if i > 0 && !(t > times[i-1]) {
			return nil, fmt.Errorf("the time %s does not come after %s", count(p.X.Unit.From(t)), count(p.X.Unit.From(times[i-1])))
		}
		line.Add(t, read[i])
		readings.Add(t, read[i])
		low, high = min(low, read[i]), max(high, read[i])
	}
	if l.Unit != (quantity.Unit{}) {
		p.Y.Unit = l.Unit
	}
	p.Y.Log = low > 0 && high > farApart*low
	return p.Draw(), nil
}

// Kind is that of what was read; none where the text is no log.
func (l Log) Kind() quantity.Kind {
	var axis plot.Axis
	if _, err := row(l.line(1), &axis); err != nil {
		return quantity.None
	}
	return axis.Unit.Kind
}

// line is a line that says something.
func (l Log) line(n int) string {
	for line := range strings.Lines(l.Text) {
		if line = strings.TrimSpace(line); line == "" || line[0] == '#' {
			continue
		}
		if n--; n < 0 {
			return line
		}
	}
	return ""
}

// row reads a unit and the numbers behind it, in SI units.
func row(line string, axis *plot.Axis) ([]float64, error) {
	fields := strings.Fields(line)
	if len(fields) < 2 {
		return nil, errors.New("there are not two lines of readings")
	}
	unit, known := quantity.FindUnit(fields[0])
	if !known {
		return nil, fmt.Errorf("%q is no unit that is known here", fields[0])
	}
	axis.Unit, axis.Label = unit, unit.Kind.Name()
	var list []float64
	for _, field := range fields[1:] {
		x, err := strconv.ParseFloat(strings.ReplaceAll(field, ",", ""), 64)
		if err != nil {
			return nil, fmt.Errorf("%q is no number", field)
		}
		list = append(list, unit.To(x))
	}
	return list, nil
}
