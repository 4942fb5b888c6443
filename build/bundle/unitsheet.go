package bundle

import (
	"html/template"
	"io/fs"
	"strings"
)

// unitSheet is the sheet on which a reader chooses units, from the same table as choices.ts. The script fetches it when
// somebody opens it.
func unitSheet(site fs.FS) ([]byte, error) {
	text, err := fs.ReadFile(site, "templates/units.html")
	if err != nil {
		return nil, fault("templates/units.html", err)
	}
	page, err := template.New("units").Parse(strings.TrimSpace(string(text)))
	if err != nil {
		return nil, fault("templates/units.html", err)
	}
	type option struct{ Value, Label string }
	type list struct {
		Name, Title string
		Options     []option
	}
	var lists []list
	for _, t := range topics {
		l := list{Name: t.name(), Title: strings.ToUpper(t.name()[:1]) + t.name()[1:]}
		for _, choice := range t[0].choices {
			units := symbols(choice)
			smallest := units[len(units)-1]
			l.Options = append(l.Options, option{smallest, smallest})
			if len(units) == 2 {
				l.Options[len(l.Options)-1].Label += ", " + units[0]
			}
		}
		lists = append(lists, l)
	}
	var out strings.Builder
	err = page.Execute(&out, map[string]any{"Presets": presets, "Lists": lists})
	return []byte(out.String()), err
}
