package journey

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
)

// WebKit is Debian's WebKitGTK: its driver, and the small browser that comes with the library. It has no headless mode, so it
// gets a screen of its own that nobody sees.
func WebKit() Make {
	return Make{
		Name:     "WebKit",
		Programs: []string{"WebKitWebDriver", "Xvfb", miniBrowser()},
		Install:  "Debian's packages webkit2gtk-driver and xvfb (apt-get install webkit2gtk-driver xvfb)",
		steer:    steerWebKit,
		capabilities: func(programs []string, _ string, _ View) any {
			return map[string]any{
				"proxy": map[string]any{"proxyType": "direct"},
				"webkitgtk:browserOptions": map[string]any{
					"binary": programs[2],
					// A script may open a window, of which Start makes a phone's.
					"args": []string{"--automation", "--javascript-can-open-windows-automatically=true"},
				},
			}
		},
	}
}

// miniBrowser lies beside the library, in the folder of the processor's kind.
func miniBrowser() string {
	found, _ := filepath.Glob("/usr/lib/*/webkit2gtk-4.1/MiniBrowser") // fails only for a bad pattern
	if len(found) == 0 {
		return "MiniBrowser"
	}
	return found[0]
}

// onScreen is a driver whose browser is shown on a screen of ours.
type onScreen struct {
	driver
	screen *process
}

func (o onScreen) stop() error { return errors.Join(o.driver.stop(), o.screen.stop()) }

func steerWebKit(programs []string, folder string, view View) (driver, error) {
	screen, name, err := startScreen(programs[1], folder, view)
	if err != nil {
		return nil, err
	}
	arguments := func(port int) []string { return []string{"--port=" + strconv.Itoa(port)} }
	environment := append(temporaryIn(folder), "DISPLAY="+name, "GDK_BACKEND=x11")
	server, err := startServer(programs[0], arguments, environment)
	if err != nil {
		return nil, errors.Join(err, screen.stop())
	}
	return onScreen{server, screen}, nil
}

// startScreen runs an X server without hardware, on the first number that is free: it tells which, through a pipe.
func startScreen(program, folder string, view View) (screen *process, name string, err error) {
	said, says, err := os.Pipe()
	if err != nil {
		return nil, "", err
	}
	defer said.Close()
	size := fmt.Sprintf("%dx%dx24", max(view.Width, 1024), max(view.Height, 768)) // the first window is as large
	command := exec.Command(program, "-displayfd", "3", "-nolisten", "tcp", "-screen", "0", size)
	command.Env = append(os.Environ(), temporaryIn(folder)...)
	command.ExtraFiles = []*os.File{says}
	screen, err = run(command)
	says.Close() // ours; the server has its own, so that reading ends when it does
	if err != nil {
		return nil, "", err
	}
	number, err := bufio.NewReader(said).ReadString('\n')
	if errors.Is(err, io.EOF) {
		<-screen.ended
		return nil, "", fmt.Errorf("%s ended; it said: %s", program, screen.said)
	}
	if err != nil {
		return nil, "", errors.Join(err, screen.stop())
	}
	return screen, ":" + strings.TrimSpace(number), nil
}
