package render

import (
	"bytes"
	"html/template"
	"sync"
)

// memory is a buffer that goldmark need not buffer again.
type memory struct{ bytes.Buffer }

// Buffered implements goldmark's util.BufWriter, as does Flush.
func (m *memory) Buffered() int { return 0 }

// Flush has nothing to do.
func (m *memory) Flush() error { return nil }

// memories are used again: a page is put together in layers, and each layer would grow a buffer of its own.
var memories = sync.Pool{New: func() any { return new(memory) }}

// written is the HTML that a function writes.
func written(write func(out *memory)) template.HTML {
	out := memories.Get().(*memory)
	defer memories.Put(out)
	out.Reset()
	write(out)
	return template.HTML(out.String())
}
