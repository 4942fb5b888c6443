package load

import (
	"strings"
	"testing"
)

const svg = `<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" viewBox="0 0 9 9">`

// The dangers are those of SVG 2 and of CSS, and of browsers that guess a file's kind; from memory.
func TestUnsafePictures(t *testing.T) {
	for _, c := range []struct{ name, file, text, want string }{ // want: a part of the first message, "" for a picture that is kept
		{"shapes and text", "a.svg", svg + `<title>Valve</title><g id="v"><path d="M1 1h7"/></g><use href="#v" xlink:href="#v"/><text>50 % open, see url(x)</text></svg>`, ""},
		{"own style", "a.svg", svg + `<style>path { fill: url(#g); stroke: #123 }</style><path style="fill:url( '#g' )" d="M1\1"/></svg>`, ""},
		{"a picture within", "a.svg", svg + `<image href="data:image/png;base64,iVBORw0KGgo="/></svg>`, ""},
		{"declarations", "a.svg", "\ufeff<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<!DOCTYPE svg PUBLIC \"-//W3C//DTD SVG 1.1//EN\" \"x\">\n" + svg + "</svg>", ""},
		{"script", "a.svg", svg + `<script>alert(1)</script></svg>`, `must not hold "<script>"`},
		{"script in another case and namespace", "a.svg", svg + `<s:SCRIPT xmlns:s="http://www.w3.org/1999/xhtml"/></svg>`, `must not hold "<SCRIPT>"`},
		{"HTML within", "a.svg", svg + `<foreignObject><p>x</p></foreignObject></svg>`, `must not hold "<foreignObject>"`},
		{"event", "a.svg", `<svg onload="alert(1)"/>`, `"onload" runs something`},
		{"event in capitals", "a.svg", svg + `<g OnClick="x"/></svg>`, `"OnClick" runs something`},
		{"link out", "a.svg", svg + `<a xlink:href=" java&#115;cript:alert(1)"><path/></a></svg>`, `leads to " javascript:alert(1)"`},
		{"picture from elsewhere", "a.svg", svg + `<image href="https://example.org/x.png"/></svg>`, "leads to"},
		{"smuggled drawing", "a.svg", svg + `<use href="data:image/svg+xml;base64,PHN2Zz4="/></svg>`, "leads to"},
		{"base", "a.svg", svg + `<g xml:base="https://example.org/"/></svg>`, `"base"`},
		{"animated link", "a.svg", svg + `<a><set attributeName="xlink:href" to="javascript:alert(1)"/></a></svg>`, "the animation changes"},
		{"style from elsewhere", "a.svg", svg + `<style>@import "https://example.org/x.css";</style></svg>`, "this style loads"},
		{"font from elsewhere", "a.svg", svg + `<style>@font-face { src: URL( "//example.org/f" ) }</style></svg>`, "this style loads"},
		{"hidden by backslashes", "a.svg", svg + `<rect style="fill: u\72l(//example.org/x)"/></svg>`, `"style" loads`},
		{"filter from elsewhere", "a.svg", svg + `<rect filter="url(https://example.org/f.svg#x)"/></svg>`, `"filter" loads`},
		{"style sheet beside", "a.svg", `<?xml-stylesheet href="x.css"?>` + svg + "</svg>", `must not hold "<?xml-stylesheet?>"`},
		{"entities", "a.svg", `<!DOCTYPE svg [<!ENTITY a "x">]>` + svg + "</svg>", "must not declare entities"},
		{"HTML by the name of a drawing", "a.svg", "<!DOCTYPE html><html><body></body></html>", "this is no SVG"},
		{"cut off", "a.svg", svg + "<g>", "cannot be read"},
		{"nothing", "a.svg", "", "cannot be read"},
		{"another encoding", "a.svg", "<?xml version='1.0' encoding='UTF-7'?>" + svg + "</svg>", "cannot be read"},
		{"PNG", "a.png", "\x89PNG\r\n\x1a\nrest", ""},
		{"JPEG", "a.jpeg", "\xff\xd8\xff\xe0rest", ""},
		{"WebP", "a.webp", "RIFF\x10\x00\x00\x00WEBPVP8 ", ""},
		{"PNG that is HTML", "a.png", "<html><script>alert(1)</script>", "this is no png picture"},
		{"JPEG that is a PNG", "a.jpg", "\x89PNG\r\n\x1a\nrest", "this is no jpg picture"},
		{"WebP cut off", "a.webp", "RIFF", "this is no webp picture"},
	} {
		t.Run(c.name, func(t *testing.T) {
			library, found, err := Load(shop(map[string]string{"pictures/" + c.file: c.text}), "content")
			if err != nil {
				t.Fatal(err)
			}
			got := short(found)
			if c.want == "" && got != "" || c.want != "" && !strings.Contains(got, c.want) {
				t.Errorf("said %q, want %q", got, c.want)
			}
			for _, d := range found {
				if d.Rule != "picture-unsafe" || d.Span.File.Path != "pictures/"+c.file {
					t.Errorf("[%s] at %s", d.Rule, d.Span.File.Path)
				}
			}
			if library.Picture("pictures/"+c.file) == nil {
				t.Error("the picture is not known, so its page would be told that it is missing")
			}
		})
	}
}

func TestManyUnsafePartsAreNotAllTold(t *testing.T) {
	_, found, _ := Load(shop(map[string]string{"pictures/a.svg": svg + strings.Repeat("<script/>", 1000) + "</svg>"}), "content")
	if len(found) != mostUnsafe {
		t.Errorf("%d faults told, want %d", len(found), mostUnsafe)
	}
}

// FuzzDrawing: whatever a drawing holds, reading it ends, and all places lie inside it.
func FuzzDrawing(f *testing.F) {
	for _, text := range []string{svg + "<g/></svg>", svg + `<script/><a href="x">&#x20;</a></svg>`, "\ufeff<?xml?><svg", "<!DOCTYPE svg [<!ENTITY a 'b'>]><svg>&a;</svg>"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		_, found, _ := Load(shop(map[string]string{"pictures/a.svg": text}), "content")
		for _, d := range found {
			if d.Message == "" || d.Span.Start < 0 || d.Span.End() > len(text) {
				t.Fatalf("not a usable message: %+v", d)
			}
		}
	})
}
