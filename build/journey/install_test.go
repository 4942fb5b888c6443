package journey

import (
	"encoding/json"
	"testing"
)

// TestAPhoneCanKeepTheSite: Chromium finds nothing that would keep the site from a phone's first screen, and from there it opens
// without a network.
func TestAPhoneCanKeepTheSite(t *testing.T) {
	t.Parallel()
	h := serve(t, filesOf(t, publish(t)))
	b := phone(t)
	must(t, b.Open(h.address+"procedures/rise-test/"))
	b.untilText(t, "p.saved[data-saved=ready]", "Works offline")
	var found struct {
		InstallabilityErrors []struct{ ErrorID string }
		URL, Data            string
		Errors               []struct{ Message string }
	}
	must(t, b.ask("Page.getInstallabilityErrors", nil, &found))
	must(t, b.ask("Page.getAppManifest", nil, &found))
	if len(found.InstallabilityErrors) > 0 || len(found.Errors) > 0 || found.Data == "" {
		t.Fatalf("%+v", found)
	}
	var manifest struct {
		ID    string
		Start string `json:"start_url"`
		Icons []struct{ Src string }
	}
	must(t, json.Unmarshal([]byte(found.Data), &manifest))
	if len(manifest.Icons) < 5 {
		t.Errorf("there are %d icons", len(manifest.Icons))
	}
	h.stop()
	must(t, b.Open(h.address+manifest.Start))
	var heading string
	must(t, b.Script(&heading, `return document.querySelector("h1").innerText`))
	if heading == "" {
		t.Error("without a network the first page is empty")
	}
	for _, icon := range manifest.Icons {
		var kept bool
		must(t, b.Script(&kept, `return fetch(arguments[0]).then((file) => file.ok, () => false)`, h.address+icon.Src))
		if !kept {
			t.Errorf("%s is not kept", icon.Src)
		}
	}
}
