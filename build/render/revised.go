package render

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"strings"
)

// digest is by which a record of work knows what a page said: its words, values, hazards, presets and worked answers. What
// surrounds them counts for nothing, such as the name of the edition or of a style sheet: it changes while the page says the same.
func (p *page) digest(said ...string) string {
	hash := sha256.New()
	for _, text := range said {
		if p.assets.Drawn != "" {
			text = strings.ReplaceAll(text, p.assets.Drawn, "")
		}
		hash.Write([]byte(text))
		hash.Write([]byte{0}) // no text holds one
	}
	return hex.EncodeToString(hash.Sum(nil)[:4])
}

func (p *page) digestOfGuide(v *GuideView) string {
	said := []string{v.Heading, string(v.Summary), v.Revision}
	for _, row := range v.Facts {
		said = append(said, row.Name, string(row.Value))
	}
	for _, hazard := range v.Hazards {
		said = append(said, string(hazard))
	}
	return p.digest(append(said, string(v.Body))...)
}

// digestOfReference leaves out where the calculator is used: that is said by other pages.
func (p *page) digestOfReference(v ReferenceView) string {
	v.Used = nil
	said, err := json.Marshal(v)
	if err != nil {
		panic("a page that cannot be told: " + err.Error()) // a view holds texts and numbers alone
	}
	return p.digest(string(said))
}

// machineTitles are the shop's machines as a record names them.
func (b *book) machineTitles() []string {
	var titles []string
	for _, m := range b.library.Machines {
		titles = append(titles, m.Title.Text)
	}
	return titles
}
