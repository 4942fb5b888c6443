package load

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"path"
	"slices"
	"strings"

	"blankoff/build/source"
)

// largestPicture is what a phone on a slow line can be asked to keep.
const largestPicture = 4 << 20

func (l *loader) picture(at string) error {
	data, err := fs.ReadFile(l.fsys, at)
	if err != nil {
		return l.unreadable(at, err)
	}
	if len(data) > largestPicture {
		l.refuse("file-size", l.place(at), fmt.Sprintf("the picture has %d bytes; %d is the most", len(data), largestPicture), "save it smaller: 1,600 pixels are enough")
		return nil
	}
	l.library.Pictures = append(l.library.Pictures, &Picture{Path: at, Data: data})
	l.add(unsafe(&source.File{Name: l.shown(at), Path: at}, data)...)
	return nil
}

// unsafe says what speaks against showing a picture. A browser runs what an SVG brings along when it is opened by its
// own address, where no page's policy holds; and a file of another kind than its name says is a smuggled one.
func unsafe(file *source.File, data []byte) []source.Fault {
	ending := path.Ext(file.Path)
	if ending == ".svg" {
		file.Text = string(data)
		return unsafeDrawing(file)
	}
	if !begins(data, ending) {
		return []source.Fault{{
			Rule: "picture-unsafe", Span: file.Whole(), Message: "this is no " + strings.TrimPrefix(ending, ".") + " picture, whatever its name says",
			Hint: "save the picture anew from a drawing program",
		}}
	}
	return nil
}

// begins tells a kind of picture by its first bytes, as the format's standard fixes them (PNG: ISO/IEC 15948, JPEG:
// ITU-T T.81, WebP: RFC 9649; from memory).
func begins(data []byte, ending string) bool {
	switch ending {
	case ".png":
		return bytes.HasPrefix(data, []byte("\x89PNG\r\n\x1a\n"))
	case ".jpg", ".jpeg":
		return bytes.HasPrefix(data, []byte("\xff\xd8\xff"))
	case ".webp":
		return len(data) >= 12 && bytes.HasPrefix(data, []byte("RIFF")) && string(data[8:12]) == "WEBP"
	}
	return false
}

// mostUnsafe is how many things are told of one drawing.
const mostUnsafe = 20

// unsafeDrawing reads an SVG from tag to tag, without building a tree, and tells what could run or load something.
func unsafeDrawing(file *source.File) []source.Fault {
	decoder := xml.NewDecoder(strings.NewReader(strings.TrimPrefix(file.Text, "\ufeff")))
	skipped := len(file.Text) - len(strings.TrimPrefix(file.Text, "\ufeff"))
	var faults []source.Fault
	tell := func(from int64, message, hint string) {
		faults = append(faults, source.Fault{Rule: "picture-unsafe", Span: file.Span(skipped+int(from), skipped+int(decoder.InputOffset())), Message: message, Hint: hint})
	}
	drawing, style := false, false
	for len(faults) < mostUnsafe {
		from := decoder.InputOffset()
		token, err := decoder.Token()
		switch {
		case errors.Is(err, io.EOF) && drawing:
			return faults
		case err != nil:
			tell(from, "this SVG cannot be read", "save the drawing anew as plain SVG")
			return faults
		}
		if start, ok := token.(xml.StartElement); ok && !drawing && start.Name.Local != "svg" {
			tell(from, "this is no SVG: it starts with "+source.Quote(start.Name.Local), "save the drawing as SVG")
			return faults
		}
		switch token := token.(type) {
		case xml.StartElement:
			drawing, style = true, strings.EqualFold(token.Name.Local, "style")
			if what := inElement(token); what != "" {
				tell(from, what, harmless)
			}
		case xml.EndElement:
			style = false
		case xml.CharData:
			if style && fetches(string(token)) {
				tell(from, "this style loads something from elsewhere", harmless)
			}
		case xml.Directive, xml.ProcInst:
			if what := outside(token); what != "" {
				tell(from, what, harmless)
			}
		}
	}
	return faults
}

const harmless = "take it out: a picture holds shapes and text, and all of it lies in its own file"

// unwelcome are the elements that run something, or show something that is no drawing.
var unwelcome = []string{"script", "foreignobject", "iframe", "object", "embed", "audio", "video", "handler", "listener", "base", "meta"}

func inElement(start xml.StartElement) string {
	name := strings.ToLower(start.Name.Local)
	if slices.Contains(unwelcome, name) {
		return "an SVG must not hold " + source.Quote("<"+start.Name.Local+">")
	}
	for _, a := range start.Attr {
		key := strings.ToLower(a.Name.Local)
		switch {
		case strings.HasPrefix(key, "on"), key == "base":
			return "the attribute " + source.Quote(a.Name.Local) + " runs something or leads elsewhere"
		case (key == "href" || key == "src") && !within(a.Value):
			return "the picture leads to " + source.Quote(a.Value)
		case key == "attributename" && (strings.HasSuffix(strings.ToLower(a.Value), "href") || strings.HasPrefix(strings.ToLower(a.Value), "on")):
			return "the animation changes " + source.Quote(a.Value)
		case key != "d" && fetches(a.Value):
			return "the attribute " + source.Quote(a.Name.Local) + " loads something from elsewhere"
		}
	}
	return ""
}

// within tells a reference that stays in the file: #part, or a picture written into it.
func within(target string) bool {
	target = strings.TrimSpace(target)
	for _, kind := range []string{"png", "jpeg", "webp"} {
		if strings.HasPrefix(target, "data:image/"+kind+";base64,") {
			return true
		}
	}
	return target == "" || strings.HasPrefix(target, "#")
}

// fetches tells a style that loads something. A backslash can hide any word of a style.
func fetches(style string) bool {
	lower := strings.ToLower(style)
	if strings.Contains(lower, "@import") || strings.Contains(lower, "expression(") || strings.Contains(lower, "image-set(") {
		return true
	}
	for rest := lower; ; {
		at := strings.Index(rest, "url(")
		if at < 0 {
			return strings.Contains(lower, "\\") && strings.ContainsAny(lower, "({@")
		}
		rest = rest[at+len("url("):]
		if !within(strings.Trim(rest[:min(len(rest), 40)], " \t\r\n\"'")) {
			return true
		}
	}
}

// outside tells the parts of XML that bring in something from outside the drawing.
func outside(token xml.Token) string {
	switch token := token.(type) {
	case xml.Directive:
		if strings.ContainsAny(string(token), "[") {
			return "an SVG must not declare entities"
		}
	case xml.ProcInst:
		if token.Target != "xml" {
			return "an SVG must not hold " + source.Quote("<?"+token.Target+"?>")
		}
	}
	return ""
}
