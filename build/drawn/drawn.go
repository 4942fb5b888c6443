// Package drawn finds the data of a picture by its name in a guide: ![…](drawn:pins/tq-4).
//
//	drawing, err := drawn.Find(library, "circuit/cindle-14")
//
// What a picture looks like is the business of build/picture.
package drawn

import (
	"errors"
	"strconv"
	"strings"

	"blankoff/build/load"
	"blankoff/build/machine"
	"blankoff/build/picture"
	"blankoff/calc/fitting"
	"blankoff/calc/quantity"
)

// Scheme is what an image's target begins with to be drawn.
const Scheme = "drawn:"

// ErrUnknown says that a name is none of Names.
var ErrUnknown = errors.New("there is no such picture")

// Find draws the picture of a name. Any other error than ErrUnknown is about the data.
func Find(l *load.Library, name string) (*picture.Drawing, error) {
	kind, of, _ := strings.Cut(name, "/")
	switch kind {
	case "pins":
		if tube := l.Tube(of); tube != nil {
			return pins(tube)
		}
	case "circuit":
		if m := l.Machine(of); m != nil {
			return circuit(l, m), nil
		}
	case "ladder":
		if m := l.Machine(of); m != nil {
			return ladderOf(l, m)
		}
	case "thread":
		if p, known := fitting.FindProfile(strings.Replace(of, "-", " ", 1)); known {
			return picture.Thread(p), nil
		}
	case "rise":
		return rise(l, of)
	}
	return nil, ErrUnknown
}

// Names lists all pictures of a shop.
func Names(l *load.Library) []string {
	var names []string
	for _, t := range l.Tubes {
		names = append(names, "pins/"+t.Name)
	}
	for _, m := range l.Machines {
		names = append(names, "circuit/"+m.Name, "ladder/"+m.Name)
	}
	for _, thread := range fitting.Threads() {
		names = append(names, "thread/"+strings.Replace(thread, " ", "-", 1))
	}
	for _, shape := range picture.Shapes {
		names = append(names, "rise/"+shape)
		for _, m := range l.Machines {
			names = append(names, "rise/"+shape+"/"+m.Name)
		}
	}
	return names
}

func pins(t *load.Tube) (*picture.Drawing, error) {
	base := picture.Base{Name: t.Title.Text, Joined: t.Construction.Text == "joined", Positions: machine.UsualPins}
	if n, err := strconv.Atoi(t.Base.Text); err == nil {
		base.Positions = n
	}
	for _, pin := range t.PinMap() {
		base.Pins = append(base.Pins, picture.Pin{Number: pin.Number, Role: pin.Role})
	}
	return picture.Pins(base)
}

func circuit(l *load.Library, m *load.Machine) *picture.Drawing {
	said := func(name string) string {
		v, _ := m.Value(name)
		text, _, _ := strings.Cut(v.Text.Text, " ±")
		return text
	}
	k := picture.Circuit{
		Machine: m.Title.Text, Chamber: said("chamber-volume"), Trap: said("condenser-temperature"), Drain: said("drain-bore"),
		Bore: said("hose-bore"), Length: said("hose-length"), Pump: said("pump-speed"), Thread: said("thread"),
		Separation: separation(said("isolation")),
	}
	if tube := l.TubeOf(&m.Card); tube != nil {
		k.Tube = tube.Title.Text
	}
	return k.Draw()
}

// separation reads the card's words. A tee is named where there is no valve; "none" without a tee is neither.
func separation(text string) picture.Separation {
	text = strings.ToLower(text)
	switch {
	case strings.Contains(text, "tee"):
		return picture.Tee
	case strings.Contains(text, "valve") && !strings.HasPrefix(text, "no"):
		return picture.Valve
	}
	return picture.Unknown
}

// rise draws a shape with the limit of a machine; where none is named, of the shop's first that has one.
func rise(l *load.Library, name string) (*picture.Drawing, error) {
	shape, of, one := strings.Cut(name, "/")
	r := picture.Rise{Shape: shape}
	if one && l.Machine(of) == nil {
		return nil, ErrUnknown
	}
	for _, m := range l.Machines {
		if one && m.Name != of {
			continue
		}
		if v, has := m.Value("rise-limit"); has {
			if q, problem := quantity.Parse(v.Text.Text, quantity.PressureRate); problem == nil {
				r.Limit, r.Of = quantity.MustUnit("mTorr/min").From(q.Value), m.Title.Text
				break
			}
		}
	}
	drawing, err := r.Draw()
	if err != nil {
		return nil, ErrUnknown
	}
	return drawing, nil
}
