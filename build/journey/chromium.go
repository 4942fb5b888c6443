package journey

import (
	"strconv"
)

// Chromium is Debian's Chromium with its driver.
func Chromium() Make {
	return Make{
		Name:     "Chromium",
		Programs: []string{"chromedriver", "chromium"},
		Install:  "Debian's packages chromium and chromium-driver (apt-get install chromium chromium-driver)",
		steer: func(programs []string, folder string, _ View) (driver, error) {
			arguments := func(port int) []string { return []string{"--port=" + strconv.Itoa(port)} }
			return startServer(programs[0], arguments, temporaryIn(folder))
		},
		capabilities: chromiumCapabilities,
	}
}

func chromiumCapabilities(programs []string, profile string, view View) any {
	options := map[string]any{
		"binary": programs[1],
		"args": []string{
			"--headless=new", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
			"--disable-background-networking", "--disable-component-update", "--disable-sync",
			"--user-data-dir=" + profile,
			"--window-size=" + strconv.Itoa(view.Width) + "," + strconv.Itoa(view.Height),
		},
	}
	if view.Touch {
		options["mobileEmulation"] = map[string]any{"deviceMetrics": map[string]any{
			"width": view.Width, "height": view.Height, "pixelRatio": view.Density, "touch": true, "mobile": true,
		}}
	}
	return map[string]any{
		"goog:chromeOptions": options,
		"goog:loggingPrefs":  map[string]string{"browser": "ALL"},
	}
}

// Message is one line of the browser's console.
type Message struct {
	Level, Source, Message string
}

// Console gives what the console received since the last call: errors, blocked loads, breaches of the page's security policy.
// The standard has no such command; this one is Chromium's.
func (b *Browser) Console() (messages []Message, err error) {
	err = b.post("/se/log", map[string]any{"type": "browser"}, &messages)
	return messages, err
}

// Slow makes the browser compute so many times slower, as a phone would.
func (b *Browser) Slow(times int) error {
	return b.devtools("Emulation.setCPUThrottlingRate", map[string]any{"rate": times})
}

// Permit answers for the reader when a page asks to use the clipboard.
func (b *Browser) Permit(clipboard bool) error {
	setting := "denied"
	if clipboard {
		setting = "granted"
	}
	for _, name := range []string{"clipboard-read", "clipboard-write"} {
		if err := b.devtools("Browser.setPermission", map[string]any{"permission": map[string]string{"name": name}, "setting": setting}); err != nil {
			return err
		}
	}
	return nil
}

// Prepare runs a script in every page before its own, such as for what this browser lacks and others have.
func (b *Browser) Prepare(script string) error {
	return b.devtools("Page.addScriptToEvaluateOnNewDocument", map[string]any{"source": script})
}

// devtools sends a command that the standard does not have; this way is Chromium's.
func (b *Browser) devtools(command string, parameters map[string]any) error {
	return b.ask(command, parameters, nil)
}

// ask is devtools, with the answer put into what is given.
func (b *Browser) ask(command string, parameters map[string]any, into any) error {
	if parameters == nil {
		parameters = map[string]any{}
	}
	return b.post("/goog/cdp/execute", map[string]any{"cmd": command, "params": parameters}, into)
}
