// Package journey walks through a published site in a real browser, as a reader would.
//
// It is a small client of the W3C WebDriver protocol (https://www.w3.org/TR/webdriver2/): it starts the
// browser's driver on a free loopback port, speaks to it over HTTP, and ends what it started. Firefox is spoken to without a driver,
// in its own protocol, which has the same commands. What differs between browsers stands in a Make; everything else is the
// standard's and holds for any of them.
//
//	b, err := journey.Start(journey.Chromium(), journey.Phone)
//	defer b.Close()
//	err = b.Open(address)
//	link, err := b.Find("nav.thumb a")
//	err = link.Tap()
//
// It is for tests. Nothing of the published site or of the command depends on it.
package journey

import (
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"time"
)

// Make is what differs between browsers.
type Make struct {
	Name     string
	Programs []string // that must be there
	Install  string   // what a person installs to have them

	steer        func(programs []string, folder string, view View) (driver, error) // programs: where they lie; folder: for what they leave
	capabilities func(programs []string, profile string, view View) any            // profile: a folder that does not exist yet
}

// programs finds them in the PATH.
func (of Make) programs() (paths []string, err error) {
	for _, name := range of.Programs {
		path, err := exec.LookPath(name)
		if err != nil {
			return nil, fmt.Errorf("%s needs the program %s, which is not here: install %s", of.Name, name, of.Install)
		}
		paths = append(paths, path)
	}
	return paths, nil
}

// temporaryIn is an environment in which a program, and what it starts, leaves its files in a folder.
func temporaryIn(folder string) []string {
	return []string{"TMPDIR=" + folder, "TEMP=" + folder, "HOME=" + folder, "XDG_RUNTIME_DIR=" + folder}
}

// View is the window as a page sees it, in CSS pixels.
type View struct {
	Width, Height int
	Density       float64 // device pixels to a CSS pixel
	Touch         bool
}

// Phone is the smallest screen that the site is designed for.
var Phone = View{Width: 360, Height: 740, Density: 2, Touch: true}

// Narrow is a window as wide as that phone, in a browser that cannot play one.
var Narrow = View{Width: 360, Height: 740, Density: 1}

// Wide is a screen at a workbench.
var Wide = View{Width: 1280, Height: 800, Density: 1}

// Browser is one running browser with one window.
type Browser struct {
	driver  driver
	session string // path of the session at the driver
	folder  string // of our own, for the profile and what the browser puts into its temporary folder
}

// Patience is how long a page, a script or a condition may take. It is far more than any of them needs,
// since it only decides how long a broken one is waited for.
const Patience = 30 * time.Second

// Start runs the driver and opens a browser with a new, empty profile.
func Start(of Make, view View) (*Browser, error) {
	folder, err := os.MkdirTemp("", "journey-")
	if err != nil {
		return nil, err
	}
	b := &Browser{folder: folder}
	programs, err := of.programs()
	if err != nil {
		return nil, errors.Join(err, b.Close())
	}
	steered, err := of.steer(programs, folder, view)
	if err != nil {
		return nil, errors.Join(err, b.Close())
	}
	b.driver = steered
	if err := b.begin(of.capabilities(programs, filepath.Join(folder, "profile"), view), view); err != nil {
		return nil, errors.Join(fmt.Errorf("%s did not start: %w", of.Name, err), b.Close())
	}
	return b, nil
}

func (b *Browser) begin(capabilities any, view View) error {
	var session struct {
		SessionID string `json:"sessionId"`
	}
	body := map[string]any{"capabilities": map[string]any{"alwaysMatch": capabilities}}
	if err := b.driver.call("POST", "/session", body, &session); err != nil {
		return err
	}
	b.session = "/session/" + session.SessionID
	limit := Patience.Milliseconds()
	if err := b.post("/timeouts", map[string]any{"implicit": 0, "pageLoad": limit, "script": limit}, nil); err != nil {
		return err
	}
	return b.fit(view)
}

// fit makes the page's area as large as the view wants, whatever the browser draws around it.
func (b *Browser) fit(view View) error {
	if view.Touch {
		return nil // a phone has nothing around it
	}
	if view.Width < narrowest {
		if err := b.undress(view); err != nil {
			return err
		}
	}
	var around struct{ Width, Height int }
	if err := b.Script(&around, "return { Width: outerWidth - innerWidth, Height: outerHeight - innerHeight }"); err != nil {
		return err
	}
	return b.post("/window/rect", map[string]any{"width": view.Width + around.Width, "height": view.Height + around.Height}, nil)
}

// narrowest is a width that a window has in every browser; below it, their tool bars do not fit in.
const narrowest = 500

// undress goes on in a window without bars, which may be as narrow as it likes.
func (b *Browser) undress(view View) error {
	dressed, err := b.Window()
	if err != nil {
		return err
	}
	const open = `open("about:blank", "", "popup,noopener,width=" + arguments[0] + ",height=" + arguments[1])`
	if err := b.Script(nil, open, view.Width, view.Height); err != nil {
		return err
	}
	var windows []Window
	err = until("the window without bars is there", func() (bool, error) {
		err := b.get("/window/handles", &windows)
		return len(windows) == 2, err
	})
	if err != nil {
		return err
	}
	if err := b.driver.call("DELETE", b.session+"/window", nil, nil); err != nil {
		return err
	}
	return b.Switch(windows[1-slices.Index(windows, dressed)])
}

// Close ends the browser and the driver, and removes what they left.
func (b *Browser) Close() error {
	var errs []error
	if b.session != "" {
		errs = append(errs, b.driver.call("DELETE", b.session, nil, nil))
	}
	if b.driver != nil {
		errs = append(errs, b.driver.stop())
	}
	// A process that is just ending may still write there.
	errs = append(errs, until(b.folder+" is removed", func() (bool, error) { return os.RemoveAll(b.folder) == nil, nil }))
	return errors.Join(errs...)
}

func (b *Browser) post(path string, body, result any) error {
	if body == nil {
		body = struct{}{} // the standard wants an object, even an empty one
	}
	return b.driver.call("POST", b.session+path, body, result)
}

func (b *Browser) get(path string, result any) error {
	return b.driver.call("GET", b.session+path, nil, result)
}
