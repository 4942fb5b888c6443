package journey

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"sync"
	"testing"

	"blankoff/build/command"
)

// TestMain ends what the tests share.
func TestMain(m *testing.M) {
	status := m.Run()
	if err := endShared(); err != nil {
		fmt.Fprintln(os.Stderr, err)
		status = max(status, 1)
	}
	os.Exit(status)
}

func endShared() error {
	return os.RemoveAll(demo.folder)
}

// demo is the demo site, made once for all tests of this package.
var demo struct {
	once   sync.Once
	folder string
	fault  error
}

// publish gives the folder of the demo site, made as the command does it. Nobody writes there.
func publish(t *testing.T) string {
	t.Helper()
	demo.once.Do(func() { demo.folder, demo.fault = publishDemo() })
	must(t, demo.fault)
	return filepath.Join(demo.folder, "out")
}

func publishDemo() (folder string, err error) {
	if folder, err = os.MkdirTemp("", "journey-site-"); err != nil {
		return "", err
	}
	var said, wrong bytes.Buffer
	if status := command.Run([]string{"publish", "../../content", "--out", filepath.Join(folder, "out")}, &said, &wrong); status != 0 {
		return folder, errors.New("publish ended with " + fmt.Sprint(status) + ": " + said.String() + wrong.String())
	}
	return folder, nil
}

func filesOf(t *testing.T, folder string) map[string][]byte {
	t.Helper()
	files := map[string][]byte{}
	must(t, fs.WalkDir(os.DirFS(folder), ".", func(path string, entry fs.DirEntry, err error) error {
		if err == nil && !entry.IsDir() {
			files[path], err = os.ReadFile(filepath.Join(folder, path))
		}
		return err
	}))
	return files
}
