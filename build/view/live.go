package view

import (
	"fmt"
	"net/http"
	"sync"
)

// pages are the open pages that listen at live (Server-Sent Events).
type pages struct {
	mu     sync.Mutex
	next   chan struct{} // closed at the next reload
	ending chan struct{}
}

func newPages() *pages {
	return &pages{next: make(chan struct{}), ending: make(chan struct{})}
}

func (p *pages) reload() {
	p.mu.Lock()
	defer p.mu.Unlock()
	close(p.next)
	p.next = make(chan struct{})
}

func (p *pages) close() { close(p.ending) }

func (p *pages) wait() <-chan struct{} {
	p.mu.Lock()
	defer p.mu.Unlock()
	return p.next
}

func (p *pages) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	next := p.wait() // before the page hears that it is connected: nothing after that may be missed
	w.Header().Set("Content-Type", "text/event-stream")
	w.Header().Set("Cache-Control", "no-store")
	tell := func(text string) bool {
		_, err := fmt.Fprint(w, text, "\n\n")
		return err == nil && http.NewResponseController(w).Flush() == nil
	}
	for ok := tell(": connected"); ok; ok = tell("data: reload") {
		select {
		case <-next:
			next = p.wait()
		case <-p.ending:
			return
		case <-r.Context().Done():
			return
		}
	}
}
