package view

import (
	"context"
	"os"
	"path/filepath"
	"slices"
	"testing"
	"testing/synctest"
	"time"
)

// In the bubble of synctest the clock stands still until everybody waits: no time passes in truth.
func TestABurstOfChangesIsOneRebuild(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		ctx, cancel := context.WithCancel(t.Context())
		changes := make(chan struct{})
		began := time.Now()
		var at []time.Duration
		go whenQuiet(ctx, changes, 50*time.Millisecond, func() { at = append(at, time.Since(began)) })
		for _, pause := range []time.Duration{0, 40, 40, 40, 500, 10} { // ms before each change
			time.Sleep(pause * time.Millisecond)
			changes <- struct{}{}
		}
		time.Sleep(time.Second)
		cancel()
		synctest.Wait()
		if want := []time.Duration{170 * time.Millisecond, 680 * time.Millisecond}; !slices.Equal(at, want) {
			t.Errorf("rebuilt at %v, want %v", at, want)
		}
	})
}

func TestChangesAnywhereBelowAreTold(t *testing.T) {
	content := t.TempDir()
	changes, err := watch(t.Context(), content)
	if err != nil {
		t.Fatal(err)
	}
	deep := filepath.Join(content, "procedures", "deep")
	file := filepath.Join(deep, "new.md")
	for _, change := range []struct {
		name string
		do   func() error
	}{
		{"new folders", func() error { return os.MkdirAll(deep, 0o777) }},
		{"a file in a new folder", func() error { return os.WriteFile(file, []byte("a"), 0o666) }},
		{"written again", func() error { return os.WriteFile(file, []byte("b"), 0o666) }},
		{"replaced, as editors do", func() error { return os.Rename(file, filepath.Join(content, "moved.md")) }},
		{"removed", func() error { return os.Remove(filepath.Join(content, "moved.md")) }},
	} {
		if err := change.do(); err != nil {
			t.Fatal(err)
		}
		<-changes // never told: the test runs into its time limit here
	}
}

func TestAMissingFolderCannotBeWatched(t *testing.T) {
	if _, err := watch(t.Context(), filepath.Join(t.TempDir(), "none")); err == nil {
		t.Errorf("watches what is not there")
	}
}
