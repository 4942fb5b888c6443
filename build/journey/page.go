package journey

import (
	"encoding/base64"
	"encoding/json"
	"fmt"
	"time"
)

// Open goes to an address and waits until the page has loaded.
func (b *Browser) Open(address string) error {
	return b.post("/url", map[string]any{"url": address}, nil)
}

// Reload loads the page again, as a reader does. The standard's command is for Firefox a reload that passes by the service worker.
func (b *Browser) Reload() error {
	if err := b.Script(nil, `document.documentElement.dataset.old = ""; setTimeout(() => location.reload(), 0)`); err != nil {
		return err
	}
	return b.Until("the page is loaded again", func() (loaded bool, err error) {
		err = b.Script(&loaded, `return document.readyState === "complete" && !("old" in document.documentElement.dataset)`)
		return loaded, err
	})
}

// Address is that of the page shown.
func (b *Browser) Address() (address string, err error) {
	err = b.get("/url", &address)
	return address, err
}

// Script runs the body of a function in the page and gives what it returns.
func (b *Browser) Script(result any, body string, arguments ...any) error {
	if arguments == nil {
		arguments = []any{}
	}
	var value json.RawMessage
	if err := b.post("/execute/sync", map[string]any{"script": body, "args": arguments}, &value); err != nil {
		return err
	}
	if result == nil {
		return nil
	}
	return json.Unmarshal(value, result)
}

// Press presses one key and lets it go, wherever the focus is.
func (b *Browser) Press(key string) error {
	type act struct {
		Type  string `json:"type"`
		Value string `json:"value"`
	}
	keyboard := map[string]any{"type": "key", "id": "keyboard", "actions": []act{{"keyDown", key}, {"keyUp", key}}}
	return b.post("/actions", map[string]any{"actions": []any{keyboard}}, nil)
}

// Screenshot gives the window's picture as PNG.
func (b *Browser) Screenshot() ([]byte, error) {
	var picture string
	if err := b.get("/screenshot", &picture); err != nil {
		return nil, err
	}
	return base64.StdEncoding.DecodeString(picture)
}

// Sheet is a paper in centimetres.
type Sheet struct {
	Width  float64 `json:"width"`
	Height float64 `json:"height"`
}

// A4 is the paper of ISO 216.
var A4 = Sheet{Width: 21.0, Height: 29.7}

// Print gives the page as PDF, as it would come out of a printer.
func (b *Browser) Print(paper Sheet) ([]byte, error) {
	var document string
	if err := b.post("/print", map[string]any{"page": paper}, &document); err != nil {
		return nil, err
	}
	return base64.StdEncoding.DecodeString(document)
}

// Window names a tab.
type Window string

// NewWindow opens a tab beside the one shown. Commands still go to that one.
func (b *Browser) NewWindow() (Window, error) {
	var window struct{ Handle Window }
	err := b.post("/window/new", map[string]any{"type": "tab"}, &window)
	return window.Handle, err
}

// Window is the tab that commands go to.
func (b *Browser) Window() (window Window, err error) {
	err = b.get("/window", &window)
	return window, err
}

// Switch makes commands go to another tab.
func (b *Browser) Switch(window Window) error {
	return b.post("/window", map[string]any{"handle": window}, nil)
}

// Until asks again and again until the condition holds. What it is that is waited for goes into the error.
func (b *Browser) Until(what string, holds func() (bool, error)) error {
	return until(what, holds)
}

func until(what string, holds func() (bool, error)) error {
	deadline := time.Now().Add(Patience)
	for {
		ok, err := holds()
		if err != nil {
			return fmt.Errorf("while waiting until %s: %w", what, err)
		}
		if ok {
			return nil
		}
		if time.Now().After(deadline) {
			return fmt.Errorf("waited %s in vain until %s", Patience, what)
		}
		time.Sleep(20 * time.Millisecond)
	}
}
