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
	return b.tools("Emulation.setCPUThrottlingRate", map[string]any{"rate": times})
}

// tools gives a command to Chromium's developer tools. The standard has no such way.
func (b *Browser) tools(command string, parameters map[string]any) error {
	return b.post("/goog/cdp/execute", map[string]any{"cmd": command, "params": parameters}, nil)
}
