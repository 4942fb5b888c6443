package bundle

import (
	"encoding/json"
	"io/fs"
)

// iconFile is the shop's sign on a phone's screen and in a browser's tab.
const iconFile = "icon.svg"

const signsFile = "signs.svg"

// The colours of paper in site/look.css.
const paper = "#FAF8F3"

// manifest is a Web App Manifest (W3C), with which a phone can keep the site on its first screen.
type manifest struct {
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
	Src   string `json:"src"`
	Sizes string `json:"sizes"`
	Type  string `json:"type"`
}

// appManifest has relative addresses only: the site may lie in any folder of a host.
func appManifest(shop, icon string) ([]byte, error) {
	m := manifest{
		Name: shop, ShortName: shop, Start: "./", Scope: "./", Display: "standalone",
		Background: paper, Theme: paper, Icons: []manifestIcon{},
	}
	if icon != "" {
		m.Icons = append(m.Icons, manifestIcon{Src: icon, Sizes: "any", Type: "image/svg+xml"})
	}
	return json.Marshal(m)
}

// sign adds icon and manifest.
func (p *Parts) sign(site fs.FS, shop string) error {
	icon, err := fs.ReadFile(site, iconFile)
	if err != nil {
		return fault(iconFile, err)
	}
	p.Icon = p.Add("icon", ".svg", icon)
	// Drawn for this site on a grid of 24. A dial past its mark, rows with a tick, an equation, a drum with its door, a pen on a
	// line, a rule with two scales; in the header a lens. All pages share them.
	signs, err := fs.ReadFile(site, signsFile)
	if err != nil {
		return fault(signsFile, err)
	}
	p.Signs = p.Add("signs", ".svg", signs)
	manifest, err := appManifest(shop, p.Icon)
	if err != nil {
		return err
	}
	p.Manifest = p.Add("shop", ".webmanifest", manifest)
	return nil
}
