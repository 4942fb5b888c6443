package view

import (
	"bytes"
	"io/fs"
	"net"
	"net/http"
	"path"
	"strings"
	"time"

	"blankoff/build/edition"
)

// types names what a site holds. The system's own table is not asked: it differs from machine to machine.
var types = map[string]string{
	".html":        "text/html; charset=utf-8",
	".css":         "text/css; charset=utf-8",
	".js":          "text/javascript; charset=utf-8",
	".json":        "application/json",
	".webmanifest": "application/manifest+json",
	".svg":         "image/svg+xml",
	".png":         "image/png",
	".jpg":         "image/jpeg",
	".jpeg":        "image/jpeg",
	".webp":        "image/webp",
	".avif":        "image/avif",
	".ico":         "image/x-icon",
	".txt":         "text/plain; charset=utf-8",
	".csv":         "text/csv; charset=utf-8",
	".pdf":         "application/pdf",
	".bin":         "application/octet-stream",
}

// Handler serves a published site as a plain host would: a folder by its index.html, what is missing by 404.html.
// Browsers may keep a copy, but must ask each time whether it is still right.
func Handler(site fs.FS) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if r.Method != http.MethodGet && r.Method != http.MethodHead {
			w.Header().Set("Allow", "GET, HEAD")
			http.Error(w, "this site is only read", http.StatusMethodNotAllowed)
			return
		}
		if !local(r.Host) {
			http.Error(w, "this site is for this machine alone", http.StatusForbidden)
			return
		}
		answer(w, r, site)
	})
}

func answer(w http.ResponseWriter, r *http.Request, site fs.FS) {
	name := strings.TrimPrefix(path.Clean("/"+r.URL.Path), "/")
	if name == "" {
		name = "."
	}
	info, err := fs.Stat(site, name)
	isFolder := err == nil && info.IsDir()
	switch slash := strings.HasSuffix(r.URL.Path, "/"); {
	case isFolder && !slash:
		http.Redirect(w, r, path.Base(name)+"/", http.StatusTemporaryRedirect)
		return
	case isFolder:
		name = path.Join(name, "index.html")
	case slash:
		missing(w, r, site)
		return
	}
	content, err := fs.ReadFile(site, name)
	if err != nil {
		missing(w, r, site)
		return
	}
	head(w, name, content)
	http.ServeContent(w, r, name, time.Time{}, bytes.NewReader(content))
}

func missing(w http.ResponseWriter, r *http.Request, site fs.FS) {
	content, err := fs.ReadFile(site, "404.html")
	if err != nil { // no site at all: nothing was published without errors yet
		content = []byte(`<!doctype html><meta http-equiv="refresh" content="1"><title>No site yet</title>
<p>There is nothing to show yet: the terminal says what to put right. This page then shows the site.`)
	}
	head(w, "404.html", content)
	w.WriteHeader(http.StatusNotFound)
	if r.Method == http.MethodGet {
		w.Write(content)
	}
}

// head: the tag is a digest, for two editions may be written within the second that a time of change has.
func head(w http.ResponseWriter, name string, content []byte) {
	kind, known := types[strings.ToLower(path.Ext(name))]
	if !known {
		kind = "application/octet-stream"
	}
	w.Header().Set("Content-Type", kind)
	w.Header().Set("X-Content-Type-Options", "nosniff")
	w.Header().Set("Cache-Control", "no-cache")
	w.Header().Set("ETag", `"`+edition.Short(content)+`"`)
}

// local refuses other names that lead to this machine: a foreign page could read the site through them.
func local(host string) bool {
	if name, _, err := net.SplitHostPort(host); err == nil {
		host = name
	}
	ip := net.ParseIP(strings.Trim(host, "[]"))
	return host == "localhost" || ip != nil && ip.IsLoopback()
}
