package view

import (
	"io"
	"net/http"
	"net/http/httptest"
	"testing"
	"testing/fstest"
)

var site = fstest.MapFS{
	"index.html":                      {Data: []byte("home")},
	"404.html":                        {Data: []byte("nothing here")},
	"procedures/rise-test/index.html": {Data: []byte("rise test")},
	"page.1a2b.js":                    {Data: []byte("script")},
	"look.1a2b.css":                   {Data: []byte("style")},
	"calc.1a2b.bin":                   {Data: []byte{0x1f, 0x8b}},
	"site.webmanifest":                {Data: []byte("{}")},
	"pictures/PANE.JPG":               {Data: []byte("pane")},
	"odd.xyz":                         {Data: []byte("<b>odd</b>")},
}

func TestHandler(t *testing.T) {
	for _, test := range []struct {
		name, path string
		status     int
		body, kind string
	}{
		{"home", "/", 200, "home", "text/html; charset=utf-8"},
		{"a page", "/procedures/rise-test/", 200, "rise test", "text/html; charset=utf-8"},
		{"a page by its file", "/procedures/rise-test/index.html", 200, "rise test", "text/html; charset=utf-8"},
		{"a page with a question", "/procedures/rise-test/?volume=28", 200, "rise test", "text/html; charset=utf-8"},
		{"script", "/page.1a2b.js", 200, "script", "text/javascript; charset=utf-8"},
		{"style", "/look.1a2b.css", 200, "style", "text/css; charset=utf-8"},
		{"calculators", "/calc.1a2b.bin", 200, "\x1f\x8b", "application/octet-stream"},
		{"manifest", "/site.webmanifest", 200, "{}", "application/manifest+json"},
		{"a camera's upper case", "/pictures/PANE.JPG", 200, "pane", "image/jpeg"},
		{"nothing is guessed", "/odd.xyz", 200, "<b>odd</b>", "application/octet-stream"},
		{"missing", "/procedures/none/", 404, "nothing here", "text/html; charset=utf-8"},
		{"no listing", "/procedures/", 404, "nothing here", "text/html; charset=utf-8"},
		{"a file is no folder", "/page.1a2b.js/", 404, "nothing here", "text/html; charset=utf-8"},
		{"outside", "/%2e%2e/%2e%2e/etc/passwd", 404, "nothing here", "text/html; charset=utf-8"},
		{"backslashes", `/..%5c..%5cserve.go`, 404, "nothing here", "text/html; charset=utf-8"},
	} {
		t.Run(test.name, func(t *testing.T) {
			got := ask(t, "GET", test.path, nil)
			body, _ := io.ReadAll(got.Body)
			if got.StatusCode != test.status || string(body) != test.body || got.Header.Get("Content-Type") != test.kind {
				t.Errorf("got %d %q %q", got.StatusCode, body, got.Header.Get("Content-Type"))
			}
			if got.Header.Get("Cache-Control") != "no-cache" {
				t.Errorf("a browser may keep this without asking")
			}
		})
	}
}

func ask(t *testing.T, method, path string, change func(*http.Request)) *http.Response {
	t.Helper()
	request := httptest.NewRequest(method, "http://127.0.0.1:8080"+path, nil)
	if change != nil {
		change(request)
	}
	recorder := httptest.NewRecorder()
	Handler(site).ServeHTTP(recorder, request)
	return recorder.Result()
}

func TestFolderWithoutSlashLeadsToItself(t *testing.T) {
	got := ask(t, "GET", "/procedures/rise-test", nil)
	if got.StatusCode != http.StatusTemporaryRedirect || got.Header.Get("Location") != "/procedures/rise-test/" {
		t.Errorf("got %d to %q", got.StatusCode, got.Header.Get("Location"))
	}
}

func TestUnchangedIsNotSentAgain(t *testing.T) {
	tag := ask(t, "GET", "/", nil).Header.Get("ETag")
	again := ask(t, "GET", "/", func(r *http.Request) { r.Header.Set("If-None-Match", tag) })
	if tag == "" || again.StatusCode != http.StatusNotModified {
		t.Errorf("tag %q, then %d", tag, again.StatusCode)
	}
}

func TestRefusedRequests(t *testing.T) {
	if got := ask(t, "POST", "/", nil); got.StatusCode != http.StatusMethodNotAllowed {
		t.Errorf("POST: %d", got.StatusCode)
	}
	for host, want := range map[string]int{
		"localhost:8080": 200, "127.0.0.1": 200, "[::1]:8080": 200,
		"example.org": 403, "example.org:8080": 403, "127.0.0.1.example.org": 403, "": 403,
	} {
		got := ask(t, "GET", "/", func(r *http.Request) { r.Host = host })
		if got.StatusCode != want {
			t.Errorf("host %q: got %d, want %d", host, got.StatusCode, want)
		}
	}
}

func TestBeforeTheFirstSiteAPageSaysWhere(t *testing.T) {
	recorder := httptest.NewRecorder()
	Handler(fstest.MapFS{}).ServeHTTP(recorder, httptest.NewRequest("GET", "http://localhost/", nil))
	if recorder.Code != 404 || recorder.Body.Len() == 0 {
		t.Errorf("got %d %q", recorder.Code, recorder.Body)
	}
}
