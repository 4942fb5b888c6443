package journey

import (
	"bufio"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"time"
)

// marionette is Firefox's own remote control: the browser itself listens on a loopback port. A message is its length in
// bytes, a colon, and JSON: [0, number, command, arguments] there and [1, number, error, result] back.
// https://firefox-source-docs.mozilla.org/testing/marionette/Protocol.html
type marionette struct {
	browser    *process
	connection net.Conn
	reader     *bufio.Reader
	number     int
}

// startMarionette waits until the browser has written the port it took into its profile, and for its greeting.
func startMarionette(command *exec.Cmd, profile string) (*marionette, error) {
	browser, err := run(command)
	if err != nil {
		return nil, err
	}
	m := &marionette{browser: browser}
	if err := m.connect(filepath.Join(profile, "MarionetteActivePort")); err != nil {
		m.stop()
		return nil, fmt.Errorf("%s: %w; it said: %s", command.Path, err, browser.said)
	}
	return m, nil
}

func (m *marionette) connect(portFile string) error {
	port := 0
	err := until("the browser listens", func() (bool, error) {
		if m.browser.hasEnded() {
			return false, errors.New("the browser ended")
		}
		written, err := os.ReadFile(portFile)
		if err != nil {
			return false, nil // not there yet
		}
		port, err = strconv.Atoi(strings.TrimSpace(string(written)))
		return err == nil, nil
	})
	if err != nil {
		return err
	}
	if m.connection, err = net.Dial("tcp", net.JoinHostPort("127.0.0.1", strconv.Itoa(port))); err != nil {
		return err
	}
	m.reader = bufio.NewReader(m.connection)
	var greeting struct{ MarionetteProtocol int }
	if err := m.read(&greeting); err != nil {
		return err
	}
	if greeting.MarionetteProtocol != 3 {
		return fmt.Errorf("it speaks version %d of its protocol, this package version 3", greeting.MarionetteProtocol)
	}
	return nil
}

func (m *marionette) stop() error {
	if m.connection != nil {
		m.connection.Close()
	}
	return m.browser.stop()
}

// marionetteCommands are the standard's commands that this package uses; ID stands for the session, ELEMENT for an element.
var marionetteCommands = []struct{ method, path, command string }{
	{"POST", "/session", "WebDriver:NewSession"},
	{"DELETE", "/session/ID", "WebDriver:DeleteSession"},
	{"POST", "/session/ID/timeouts", "WebDriver:SetTimeouts"},
	{"POST", "/session/ID/url", "WebDriver:Navigate"},
	{"GET", "/session/ID/url", "WebDriver:GetCurrentURL"},
	{"GET", "/session/ID/window", "WebDriver:GetWindowHandle"},
	{"POST", "/session/ID/window", "WebDriver:SwitchToWindow"},
	{"DELETE", "/session/ID/window", "WebDriver:CloseWindow"},
	{"POST", "/session/ID/window/new", "WebDriver:NewWindow"},
	{"GET", "/session/ID/window/handles", "WebDriver:GetWindowHandles"},
	{"POST", "/session/ID/window/rect", "WebDriver:SetWindowRect"},
	{"POST", "/session/ID/element", "WebDriver:FindElement"},
	{"POST", "/session/ID/element/ELEMENT/click", "WebDriver:ElementClick"},
	{"POST", "/session/ID/element/ELEMENT/value", "WebDriver:ElementSendKeys"},
	{"POST", "/session/ID/execute/sync", "WebDriver:ExecuteScript"},
	{"POST", "/session/ID/actions", "WebDriver:PerformActions"},
	{"GET", "/session/ID/screenshot", "WebDriver:TakeScreenshot"},
	{"POST", "/session/ID/print", "WebDriver:Print"},
}

var pathParts = regexp.MustCompile(`^/session/([^/]+)(?:/element/([^/]+))?`)

// commandOf translates a command of the standard. An element is an argument here, not a part of the path.
func commandOf(method, path string, body any) (command string, arguments map[string]any, err error) {
	arguments = map[string]any{}
	if body != nil {
		encoded, err := json.Marshal(body)
		if err != nil {
			return "", nil, err
		}
		if err := json.Unmarshal(encoded, &arguments); err != nil {
			return "", nil, err
		}
	}
	general := path
	if parts := pathParts.FindStringSubmatch(path); parts != nil {
		general = "/session/ID"
		if parts[2] != "" {
			arguments["id"] = parts[2]
			general += "/element/ELEMENT"
		}
		general += path[len(parts[0]):]
	}
	if strings.HasSuffix(path, "/screenshot") {
		arguments["full"] = false // the window, not the whole page
	}
	for _, known := range marionetteCommands {
		if known.method == method && known.path == general {
			return known.command, arguments, nil
		}
	}
	return "", nil, &Refusal{"unknown command", method + " " + path + " is not translated for Marionette"}
}

func (m *marionette) call(method, path string, body, result any) error {
	command, arguments, err := commandOf(method, path, body)
	if err != nil {
		return err
	}
	m.connection.SetDeadline(time.Now().Add(2 * Patience))
	m.number++
	message, err := json.Marshal([]any{0, m.number, command, arguments})
	if err != nil {
		return err
	}
	if _, err := fmt.Fprintf(m.connection, "%d:%s", len(message), message); err != nil {
		return err
	}
	return m.answer(command, result)
}

func (m *marionette) answer(command string, result any) error {
	var kind, number int
	var refusal *Refusal
	var value json.RawMessage
	if err := m.read(&[]any{&kind, &number, &refusal, &value}); err != nil {
		return fmt.Errorf("%s: %w; the browser said: %s", command, err, m.browser.said)
	}
	switch {
	case number != m.number:
		return fmt.Errorf("%s: the answer is to command %d, not to %d", command, number, m.number)
	case refusal != nil:
		return refusal
	case result == nil:
		return nil
	}
	return json.Unmarshal(unwrapped(value), result)
}

// unwrapped gives the result as the standard's drivers do: some stand alone in an object, some do not.
func unwrapped(result json.RawMessage) json.RawMessage {
	var object map[string]json.RawMessage
	if json.Unmarshal(result, &object) == nil && len(object) == 1 && object["value"] != nil {
		return object["value"]
	}
	return result
}

func (m *marionette) read(into any) error {
	length, err := m.reader.ReadString(':')
	if err != nil {
		return err
	}
	n, err := strconv.Atoi(strings.TrimSuffix(length, ":"))
	if err != nil {
		return fmt.Errorf("a message begins with %.20q, not with its length", length)
	}
	message := make([]byte, n)
	if _, err := io.ReadFull(m.reader, message); err != nil {
		return err
	}
	return json.Unmarshal(message, into)
}
