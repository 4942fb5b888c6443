// Package site holds what the reader's browser gets: the templates of the pages, the
// style sheet, the TypeScript and the icon. It holds no logic; build/render fills the
// templates in and build/bundle prepares the rest.
package site

import "embed"

//go:embed templates/*.html *.css *.ts *.svg *.json
var Files embed.FS
