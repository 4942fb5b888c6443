package render

import (
	"strings"
	"testing"
)

func TestUnbroken(t *testing.T) {
	for in, want := range map[string]string{
		`<p>hold 200 mTorr for 30 min</p>`:                  `<p>hold 200~mTorr for 30~min</p>`,
		`0.50 ± 0.10 mbar·L/s`:                              `0.50~±~0.10~mbar·L/s`,
		`20 %, -34 °C, 8.4 Ω`:                               `20~%, -34~°C, 8.4~Ω`,
		`<a title="5 min">in 5 minutes</a>`:                 `<a title="5 min">in 5~minutes</a>`,
		"<pre><code>min 2 a\n3 b</code></pre> 3 b":          "<pre><code>min 2 a\n3 b</code></pre> 3~b",
		`<option value="2 L">2 L</option>`:                  `<option value="2 L">2 L</option>`,
		`1 2 3`:                                             `1 2 3`,
		`a < b`:                                             `a < b`,
		`<data class="fact" value="46.7">350 mTorr</data>.`: `<data class="fact" value="46.7">350~mTorr</data>.`,
	} {
		if got := strings.ReplaceAll(string(unbroken([]byte(in))), noBreak, "~"); got != want {
			t.Errorf("%s\n got %s\nwant %s", in, got, want)
		}
	}
}
