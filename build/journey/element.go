package journey

import (
	"fmt"
	"strings"
)

// elementKey is how the standard marks a reference to an element in JSON.
const elementKey = "element-6066-11e4-a52e-4f735466cecf"

// Keys that are not characters, as the standard numbers them.
const (
	Enter     = "\ue007"
	Tab       = "\ue004"
	Backspace = "\ue003"
	End       = "\ue010"
	Control   = "\ue009" // held until it is pressed again
)

// Element is a part of the page shown.
type Element struct {
	browser *Browser
	ID      string
	css     string
}

// Find gives the first element that a CSS selector selects.
func (b *Browser) Find(css string) (Element, error) {
	var reference map[string]string
	err := b.post("/element", map[string]any{"using": "css selector", "value": css}, &reference)
	if err != nil {
		return Element{}, fmt.Errorf("%s: %w", css, err)
	}
	return Element{b, reference[elementKey], css}, nil
}

// Tap scrolls the element to the middle of the window, as a reader does with what lies under a fixed bar,
// and touches it. It fails when something still lies over it.
func (e Element) Tap() error {
	// The options of a closed list have no place of their own.
	const toMiddle = `(arguments[0].closest("select") ?? arguments[0]).scrollIntoView({ block: "center", behavior: "instant" })`
	if err := e.browser.Script(nil, toMiddle, map[string]string{elementKey: e.ID}); err != nil {
		return e.name(err)
	}
	return e.do("/click", nil)
}

// Type presses the keys for a text one after the other, after touching the element. A new line is the key Enter.
func (e Element) Type(text string) error {
	return e.do("/value", map[string]any{"text": strings.ReplaceAll(text, "\n", Enter)})
}

// Retype replaces what stands in an entry, with the keyboard.
func (e Element) Retype(text string) error {
	return e.Type(Control + "a" + Control + Backspace + text)
}

func (e Element) do(command string, body any) error {
	return e.name(e.browser.post("/element/"+e.ID+command, body, nil))
}

func (e Element) name(err error) error {
	if err == nil {
		return nil
	}
	return fmt.Errorf("%s: %w", e.css, err)
}
