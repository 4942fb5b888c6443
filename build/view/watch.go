package view

import (
	"context"
	"fmt"
	"io/fs"
	"path/filepath"
	"time"

	"github.com/fsnotify/fsnotify"
)

// watch tells of changes anywhere below the folder until the context ends.
func watch(ctx context.Context, folder string) (<-chan struct{}, error) {
	watcher, err := fsnotify.NewWatcher()
	if err != nil {
		return nil, fmt.Errorf("cannot watch %s for changes: %w", folder, err)
	}
	if err := addTree(watcher, folder); err != nil {
		watcher.Close()
		return nil, fmt.Errorf("cannot watch %s for changes: %w", folder, err)
	}
	changes := make(chan struct{})
	go func() {
		defer watcher.Close()
		for {
			select {
			case <-ctx.Done():
				return
			case event := <-watcher.Events:
				if event.Op == fsnotify.Chmod { // indexers and backups do that, writers do more
					continue
				}
				if event.Has(fsnotify.Create) {
					addTree(watcher, event.Name) // gone again already: then there is nothing to watch
				}
			case <-watcher.Errors: // some events were lost: something did change
			}
			select {
			case changes <- struct{}{}:
			case <-ctx.Done():
				return
			}
		}
	}()
	return changes, nil
}

// addTree watches a folder and all below it; on a file it does nothing.
func addTree(watcher *fsnotify.Watcher, root string) error {
	return filepath.WalkDir(root, func(path string, entry fs.DirEntry, err error) error {
		if err != nil || !entry.IsDir() {
			return err
		}
		return watcher.Add(path)
	})
}

// whenQuiet calls do after each burst of changes, once these have stopped for a while.
// Changes during a call wait, and make another one.
func whenQuiet(ctx context.Context, changes <-chan struct{}, quiet time.Duration, do func()) {
	timer := time.NewTimer(quiet)
	timer.Stop()
	for {
		select {
		case <-ctx.Done():
			return
		case <-changes:
			timer.Reset(quiet)
		case <-timer.C:
			do()
		}
	}
}
