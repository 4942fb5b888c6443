package journey

import (
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

func TestWhatIsMissingIsNamed(t *testing.T) {
	t.Setenv("PATH", t.TempDir())
	for _, engine := range engines {
		_, err := Start(engine.Make, engine.narrow)
		if err == nil || !strings.Contains(err.Error(), engine.Programs[0]+", which is not here: install Debian's package") {
			t.Errorf("%s without its programs: %v", engine.Name, err)
		}
	}
}

func TestMissingBrowserIsNamed(t *testing.T) {
	driver, err := exec.LookPath("chromedriver")
	must(t, err)
	folder := t.TempDir()
	must(t, os.Symlink(driver, filepath.Join(folder, "chromedriver")))
	t.Setenv("PATH", folder)
	_, err = Start(Chromium(), Phone)
	if err == nil || !strings.Contains(err.Error(), "install Debian's packages chromium and chromium-driver") {
		t.Errorf("without a browser: %v", err)
	}
}

func TestDriverThatEndsIsTold(t *testing.T) {
	folder := t.TempDir()
	must(t, os.WriteFile(filepath.Join(folder, "driver"), []byte("#!/bin/sh\necho no display\n"), 0o755))
	t.Setenv("PATH", folder+string(os.PathListSeparator)+os.Getenv("PATH"))
	broken := Chromium()
	broken.Programs[0] = "driver"
	_, err := Start(broken, Phone)
	if err == nil || !strings.Contains(err.Error(), "the driver ended; it said: no display") {
		t.Errorf("got %v", err)
	}
}

func TestRefusalKeepsTheStandardsCode(t *testing.T) {
	t.Parallel()
	b := phone(t)
	_, err := b.Find("#nothing")
	var refusal *Refusal
	if !errors.As(err, &refusal) || refusal.Code != "no such element" || !strings.HasPrefix(err.Error(), "#nothing: ") {
		t.Errorf("got %v", err)
	}
}

func TestViewIsThatOfAPhone(t *testing.T) {
	t.Parallel()
	for _, view := range []View{Phone, Wide} {
		b := open(t, Chromium(), view)
		must(t, b.Open("data:text/html,<!doctype html><meta name=viewport content='width=device-width'>"))
		var got View
		must(t, b.Script(&got, "return { Width: innerWidth, Height: innerHeight, Density: devicePixelRatio, Touch: navigator.maxTouchPoints > 0 }"))
		if got != view {
			t.Errorf("a page sees %+v, want %+v", got, view)
		}
	}
}

func TestCommandsInFirefoxesOwnWords(t *testing.T) {
	command, arguments, err := commandOf("POST", "/session/7/element/e1/value", map[string]any{"text": "24"})
	if err != nil || command != "WebDriver:ElementSendKeys" || arguments["id"] != "e1" || arguments["text"] != "24" {
		t.Errorf("keys for an element are %s %v, %v", command, arguments, err)
	}
	_, _, err = commandOf("POST", "/session/7/element/e1/polish", nil)
	var refusal *Refusal
	if !errors.As(err, &refusal) || refusal.Code != "unknown command" {
		t.Errorf("a command that is not there: %v", err)
	}
}
