package view

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"blankoff/build/edition"
	"blankoff/build/write"
)

// preview runs Run on a content folder with one page, whose text "bad" is an error.
type preview struct {
	page    string // the content file
	said    *bufio.Scanner
	address string
	stop    context.CancelFunc
	ended   chan error
}

func begin(t *testing.T, text string) *preview {
	t.Helper()
	content, folder := t.TempDir(), filepath.Join(t.TempDir(), "site")
	p := &preview{page: filepath.Join(content, "page.md"), ended: make(chan error, 1)}
	p.write(t, text)
	reader, writer := io.Pipe()
	p.said = bufio.NewScanner(reader)
	ctx, stop := context.WithCancel(t.Context())
	p.stop = stop
	go func() {
		p.ended <- Run(ctx, Options{Content: content, Folder: folder, Out: writer, Rebuild: func(context.Context) error {
			text, err := os.ReadFile(p.page)
			if err != nil || string(text) == "bad" {
				return errors.Join(errors.New("page.md:1:1: error: this is bad"), err)
			}
			files := []edition.File{{Path: "index.html", Bytes: text}}
			return write.Swap(folder, append(files, edition.Of(files).File()))
		}})
		writer.Close()
	}()
	t.Cleanup(func() { stop(); reader.Close() })
	return p
}

func (p *preview) write(t *testing.T, text string) {
	t.Helper()
	// Renamed into place, so that no rebuild meets half of it.
	part := filepath.Join(t.TempDir(), "part")
	if err := errors.Join(os.WriteFile(part, []byte(text), 0o666), os.Rename(part, p.page)); err != nil {
		t.Fatal(err)
	}
}

// hears reads the terminal up to a line with the text.
func (p *preview) hears(t *testing.T, text string) string {
	t.Helper()
	for p.said.Scan() {
		if strings.Contains(p.said.Text(), text) {
			return p.said.Text()
		}
	}
	t.Fatalf("the terminal ended without %q; %v", text, <-p.ended)
	return ""
}

func (p *preview) serves(t *testing.T, want string) {
	t.Helper()
	response, err := http.Get(p.address)
	if err != nil {
		t.Fatal(err)
	}
	defer response.Body.Close()
	if got, err := io.ReadAll(response.Body); err != nil || !strings.Contains(string(got), want) {
		t.Errorf("got %q, %v, want %q", got, err, want)
	}
}

func (p *preview) open(t *testing.T) {
	t.Helper()
	p.address = regexp.MustCompile(`http://\S+`).FindString(p.hears(t, "The site is at"))
	if !strings.HasPrefix(p.address, "http://127.0.0.1:") {
		t.Fatalf("served at %q, not on this machine alone", p.address)
	}
}

// listen connects as an open page does.
func (p *preview) listen(t *testing.T) *bufio.Scanner {
	t.Helper()
	response, err := http.Get(p.address + "live")
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { response.Body.Close() })
	if kind := response.Header.Get("Content-Type"); kind != "text/event-stream" {
		t.Fatalf("live is %q", kind)
	}
	return bufio.NewScanner(response.Body)
}

func reloads(t *testing.T, page *bufio.Scanner) {
	t.Helper()
	for page.Scan() {
		if page.Text() == "data: reload" {
			return
		}
	}
	t.Fatalf("the page was never told to load again: %v", page.Err())
}

func TestAChangeIsPublishedAndPagesReload(t *testing.T) {
	p := begin(t, "first")
	p.open(t)
	p.serves(t, "first")
	one, other := p.listen(t), p.listen(t)
	for _, text := range []string{"second", "third"} {
		p.write(t, text)
		reloads(t, one)
		reloads(t, other)
		p.serves(t, text)
	}
	p.stop()
	if err := <-p.ended; err != nil {
		t.Errorf("ended with %v", err)
	}
	if one.Scan() && one.Scan() {
		t.Errorf("after the end a page still hears %q", one.Text())
	}
}

func TestAnErrorKeepsTheLastGoodSite(t *testing.T) {
	p := begin(t, "first")
	p.open(t)
	page := p.listen(t)
	p.write(t, "bad")
	p.hears(t, "page.md:1:1: error: this is bad")
	p.hears(t, "last good site")
	p.serves(t, "first")
	p.write(t, "put right")
	reloads(t, page)
	p.serves(t, "put right")
}

func TestABadStartIsServedOncePutRight(t *testing.T) {
	p := begin(t, "bad")
	p.hears(t, "this is bad")
	p.open(t)
	p.serves(t, "nothing to show yet")
	page := p.listen(t)
	p.write(t, "good")
	reloads(t, page)
	p.serves(t, "good")
}

func TestAPortInUseSaysSo(t *testing.T) {
	taken, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer taken.Close()
	port := taken.Addr().(*net.TCPAddr).Port
	err = Run(t.Context(), Options{Content: t.TempDir(), Folder: t.TempDir(), Port: port, Out: io.Discard})
	if want := fmt.Sprintf("port %d is in use", port); err == nil || !strings.Contains(err.Error(), want) {
		t.Errorf("got %v, want %q", err, want)
	}
	if err := Run(t.Context(), Options{Content: t.TempDir(), Port: 70000}); err == nil || !strings.Contains(err.Error(), "--port") {
		t.Errorf("port 70000: %v", err)
	}
}
