// Package view shows a site to its author while it is being written: it serves the published folder on this machine
// alone, publishes again when the content changes, and tells open pages to load again.
//
//	err := view.Run(ctx, view.Options{Content: "content", Folder: out, Rebuild: publish, Out: os.Stdout})
package view

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"strconv"
	"sync"
	"syscall"
	"time"

	"blankoff/build/edition"
)

// Options of Run.
type Options struct {
	Content string // the folder whose changes matter
	Folder  string // the folder that is served
	Port    int    // 0: a free one
	// Rebuild publishes Content into Folder. Its error is printed as it is; the folder then still holds the last good site.
	Rebuild func(context.Context) error
	Out     io.Writer
}

// settle is how long the content must rest before it counts as changed: editors write a file in several steps.
const settle = 60 * time.Millisecond

// Run serves until the context ends, which is no error.
func Run(ctx context.Context, options Options) error {
	listener, err := listen(options.Port)
	if err != nil {
		return err
	}
	defer listener.Close()
	var following sync.WaitGroup
	defer following.Wait() // a rebuild that is under way may still write
	ctx, stop := context.WithCancel(ctx)
	defer stop()
	changes, err := watch(ctx, options.Content)
	if err != nil {
		return err
	}
	pages := newPages()
	build := func() { rebuild(ctx, options, pages) }
	build()
	if ctx.Err() != nil {
		return nil
	}
	fmt.Fprintf(options.Out, "The site is at http://%s/ and follows changes in %s. Ctrl-C ends.\n", listener.Addr(), options.Content)
	following.Go(func() { whenQuiet(ctx, changes, settle, build) })
	return serve(ctx, listener, router(os.DirFS(options.Folder), pages), pages)
}

func serve(ctx context.Context, listener net.Listener, handler http.Handler, pages *pages) error {
	server := &http.Server{Handler: handler, ReadHeaderTimeout: 10 * time.Second}
	failed := make(chan error, 1)
	go func() { failed <- server.Serve(listener) }()
	select {
	case err := <-failed:
		return fmt.Errorf("the site is not served any more: %w", err)
	case <-ctx.Done():
	}
	pages.close() // else their open connections would keep the server
	ending, cancel := context.WithTimeout(context.WithoutCancel(ctx), 2*time.Second)
	defer cancel()
	if server.Shutdown(ending) != nil {
		server.Close()
	}
	return nil
}

func listen(port int) (net.Listener, error) {
	listener, err := net.Listen("tcp", net.JoinHostPort("127.0.0.1", strconv.Itoa(port)))
	if errors.Is(err, syscall.EADDRINUSE) {
		return nil, fmt.Errorf("port %d is in use; name another one with --port, or none for a free one", port)
	}
	if err != nil {
		return nil, fmt.Errorf("cannot serve on port %d: %w; name another one with --port, or none for a free one", port, err)
	}
	return listener, nil
}

// rebuild publishes, and tells the pages if that made another edition.
func rebuild(ctx context.Context, options Options, pages *pages) {
	marker := filepath.Join(options.Folder, edition.Marker)
	before, _ := os.ReadFile(marker) // none yet: everything is new
	err := options.Rebuild(ctx)
	switch {
	case ctx.Err() != nil:
		return
	case err != nil:
		fmt.Fprintln(options.Out, err)
		fmt.Fprintln(options.Out, "The last good site stays until this is put right.")
		return
	}
	if after, _ := os.ReadFile(marker); !bytes.Equal(before, after) {
		pages.reload()
	}
}

func router(site fs.FS, pages *pages) http.Handler {
	mux := http.NewServeMux()
	mux.Handle("GET /live", pages)
	mux.Handle("/", Handler(site))
	return mux
}
