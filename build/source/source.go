// Package source holds texts and places in them.
//
// A place is a byte offset and a length in one file; line and column are worked out only
// when something is printed. The YAML header of a Markdown file and its body are both read
// at their place in the whole file (the other part is blanked, see SplitHeader), so no
// offset is ever shifted.
//
//	file := &source.File{Name: "content/procedures/x.md", Path: "procedures/x.md", Text: text}
//	header, body, faults := source.SplitHeader(file)
//	mapping, more := source.ParseMapping(file, header)
package source

import (
	"sort"
	"strings"
	"sync"
	"unicode/utf8"
)

// File is a text and its two names.
type File struct {
	Name string // as the reader of a message knows it: content/procedures/x.md
	Path string // inside the content folder, with slashes: procedures/x.md
	Text string // must not change any more once a place in it was told

	count  sync.Once
	starts []int // byte offset of each line
}

// Span is a part of a file. The zero Span means "no particular place".
type Span struct {
	File  *File
	Start int // byte offset
	Len   int // in bytes; 0 is a place between two characters
}

// Position is how people count: both from 1, the column in characters.
type Position struct{ Line, Column int }

// Fault says what is wrong with a text. How grave that is, is decided elsewhere.
type Fault struct {
	Rule    string
	Span    Span
	Message string
	Hint    string // what to do; may be empty
}

// Span gives the part of the file from start up to end, kept inside the text.
func (f *File) Span(start, end int) Span {
	start = min(max(start, 0), len(f.Text))
	end = min(max(end, start), len(f.Text))
	return Span{File: f, Start: start, Len: end - start}
}

// Whole is the place for what concerns the file as such: its very beginning.
func (f *File) Whole() Span { return Span{File: f} }

// End is the offset behind the span.
func (s Span) End() int { return s.Start + s.Len }

// Text is the text that the span covers.
func (s Span) Text() string {
	if s.File == nil {
		return ""
	}
	kept := s.File.Span(s.Start, s.End())
	return s.File.Text[kept.Start:kept.End()]
}

// Position counts lines and characters up to the span.
func (s Span) Position() Position {
	if s.File == nil {
		return Position{1, 1}
	}
	start := min(max(s.Start, 0), len(s.File.Text))
	starts := s.File.lineStarts()
	line := sort.SearchInts(starts, start+1) // of the lines that start at or before the span
	return Position{line, utf8.RuneCountInString(s.File.Text[starts[line-1]:start]) + 1}
}

// lineStarts is counted when the first place of a file is told: most files have nothing to tell, a bad one thousands.
func (f *File) lineStarts() []int {
	f.count.Do(func() { f.starts = lineStarts(f.Text) })
	return f.starts
}

// Line is the whole line in which the span starts, without its line end,
// and the span's offset in it.
func (s Span) Line() (text string, at int) {
	if s.File == nil {
		return "", 0
	}
	whole := s.File.Text
	start := min(max(s.Start, 0), len(whole))
	begin := strings.LastIndexByte(whole[:start], '\n') + 1
	end := len(whole)
	if i := strings.IndexByte(whole[start:], '\n'); i >= 0 {
		end = start + i
	}
	line := strings.TrimSuffix(whole[begin:end], "\r")
	return line, min(start-begin, len(line))
}

// lineStarts gives the byte offset of each line of a text.
func lineStarts(text string) []int {
	starts := []int{0}
	for i := range len(text) {
		if text[i] == '\n' {
			starts = append(starts, i+1)
		}
	}
	return starts
}
