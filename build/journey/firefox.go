package journey

import (
	"os"
	"os/exec"
	"path/filepath"
)

// Firefox is Debian's Firefox. It needs no driver: it listens itself.
func Firefox() Make {
	return Make{
		Name:         "Firefox",
		Programs:     []string{"firefox-esr"},
		Install:      "Debian's package firefox-esr (apt-get install firefox-esr)",
		steer:        steerFirefox,
		capabilities: func([]string, string, View) any { return struct{}{} },
	}
}

// firefoxPreferences: a free port, and no way out but loopback. Firefox adds what keeps it quiet under remote control.
const firefoxPreferences = `user_pref("marionette.port", 0);
user_pref("network.proxy.type", 0);
`

func steerFirefox(programs []string, folder string, _ View) (driver, error) {
	profile := filepath.Join(folder, "profile")
	if err := os.Mkdir(profile, 0o700); err != nil {
		return nil, err
	}
	if err := os.WriteFile(filepath.Join(profile, "user.js"), []byte(firefoxPreferences), 0o600); err != nil {
		return nil, err
	}
	command := exec.Command(programs[0], "--marionette", "--headless", "--no-remote", "--profile", profile, "about:blank")
	command.Env = append(os.Environ(), temporaryIn(folder)...)
	return startMarionette(command, profile)
}
