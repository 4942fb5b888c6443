package render

import (
	"html"
	"strings"
	"sync"

	"github.com/alecthomas/chroma/v2"
	chromahtml "github.com/alecthomas/chroma/v2/formatters/html"
	"github.com/alecthomas/chroma/v2/lexers"
	"github.com/alecthomas/chroma/v2/styles"
	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/util"

	"blankoff/build/edition"
	"blankoff/build/guide"
	"blankoff/build/picture"
	"blankoff/calc/plot"
	"blankoff/calc/quantity"
)

// logLexer knows the logs of the trade: a line of words, then numbers in columns.
var logLexer = sync.OnceValue(func() chroma.Lexer {
	return chroma.MustNewLexer(&chroma.Config{Name: "log"}, func() chroma.Rules {
		return chroma.Rules{"root": {
			{Pattern: `#[^\n]*`, Type: chroma.Comment},
			{Pattern: `[-+−]?\d[\d.,]*`, Type: chroma.LiteralNumber},
			{Pattern: `\b(OL|over-range)\b`, Type: chroma.GenericError},
			{Pattern: `[\pL°µ%Ω·/²³]+`, Type: chroma.Text},
			{Pattern: `\s+`, Type: chroma.Text},
			{Pattern: `.`, Type: chroma.Text},
		}}
	})
})

// listings writes classes, no styles: the page's policy allows none. The style sheet
// of site/ has a colour for each class that can occur.
var listings = chromahtml.New(chromahtml.WithClasses(true), chromahtml.PreventSurroundingPre(true))

// listing shows a fenced block of code or of a log, which is the table behind a plot where one is to be drawn.
func (n *nodes) listing(w util.BufWriter, source []byte, node ast.Node, entering bool) (ast.WalkStatus, error) {
	if !entering {
		return ast.WalkContinue, nil
	}
	block := node.(*ast.FencedCodeBlock)
	language := string(block.Language(source))
	code := guide.Code(block, source)
	if guide.IsDrawnLog(block, source) {
		if d, err := (picture.Log{Text: code}).Draw(); err == nil {
			_, _ = w.WriteString(string(n.page.sheetOfPictures()) + `<figure class="plot">` + n.page.plotOfLog(d, code) + "</figure>\n")
		}
	}
	_, _ = w.WriteString(`<pre class="chroma" tabindex="0"><code>`)
	if !colour(w, language, code) {
		_, _ = w.WriteString(html.EscapeString(code))
	}
	_, _ = w.WriteString("</code></pre>\n")
	return ast.WalkSkipChildren, nil
}

// plotOfLog is drawn in the reader's units as well.
func (p *page) plotOfLog(d *plot.Drawing, code string) string {
	log := picture.Log{Text: code}
	inside := func(unit quantity.Unit) string {
		log.Unit = unit
		if anew, err := log.Draw(); err == nil {
			return anew.Body
		}
		return d.Body
	}
	return p.scaled(d.SVG(), edition.Short([]byte(code)), picture.Scale{Kind: log.Kind(), In: inside}, inside)
}

// colour writes the code with classes, if its language is known.
func colour(w util.BufWriter, language, code string) bool {
	lexer := chroma.Lexer(nil)
	if language == "log" {
		lexer = logLexer()
	} else if language != "" && language != "text" {
		lexer = lexers.Get(language)
	}
	if lexer == nil {
		return false
	}
	tokens, err := chroma.Coalesce(lexer).Tokenise(nil, code)
	if err != nil {
		return false
	}
	var out strings.Builder
	if listings.Format(&out, styles.Fallback, tokens) != nil {
		return false
	}
	_, _ = w.WriteString(out.String())
	return true
}
