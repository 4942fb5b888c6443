package bundle

import (
	"encoding/json"
	"fmt"
	"io/fs"
)

// signsFile holds the drawings of header and bar, drawn for this site on a grid of 24: a dial past its mark, rows with a tick, an
// equation, a drum with its door, a pen on a line, a rule with two scales; in the header a lens.
const signsFile = "signs.svg"

// touchIcon is asked for by its name at the root of a host, without any link, by phones that look at no manifest.
const touchIcon = "apple-touch-icon.png"

// The colour of paper in site/look.css; the head of each page says what it is in the dark.
const paper = "#FAF8F3"

// manifest is a Web App Manifest (W3C), with which a phone can keep the site on its first screen.
type manifest struct {
	ID         string         `json:"id"`
	Name       string         `json:"name"`
	ShortName  string         `json:"short_name"`
	Start      string         `json:"start_url"`
	Scope      string         `json:"scope"`
	Display    string         `json:"display"`
	Background string         `json:"background_color"`
	Theme      string         `json:"theme_color"`
	Icons      []manifestIcon `json:"icons"`
}

type manifestIcon struct {
	Src     string `json:"src"`
	Sizes   string `json:"sizes"`
	Type    string `json:"type"`
	Purpose string `json:"purpose"`
}

// appManifest has relative addresses only: the site may lie in any folder of a host.
func appManifest(shop string, icons []manifestIcon) ([]byte, error) {
	return json.Marshal(manifest{
		ID: "./", Name: shop, ShortName: shop, Start: "./", Scope: "./", Display: "standalone",
		Background: paper, Theme: paper, Icons: icons,
	})
}

// sign adds icons, manifest and the drawings that all pages share.
func (p *Parts) sign(site fs.FS, shop string) error {
	p.Icon = p.Add("icon", ".svg", signSVG())
	icons := []manifestIcon{{p.Icon, "any", "image/svg+xml", "any"}}
	for _, side := range []int{192, 512} {
		picture, err := signPNG(side)
		if err != nil {
			return err
		}
		name, size := p.Add(fmt.Sprintf("icon-%d", side), ".png", picture), fmt.Sprintf("%dx%d", side, side)
		icons = append(icons, manifestIcon{name, size, "image/png", "any"}, manifestIcon{name, size, "image/png", "maskable"})
	}
	touch, err := signPNG(180)
	if err != nil {
		return err
	}
	p.Files = append(p.Files, File{Path: touchIcon, Bytes: touch})
	manifest, err := appManifest(shop, icons)
	if err != nil {
		return err
	}
	p.Manifest = p.Add("shop", ".webmanifest", manifest)
	signs, err := fs.ReadFile(site, signsFile)
	if err != nil {
		return fault(signsFile, err)
	}
	p.Signs = p.Add("signs", ".svg", signs)
	return nil
}
