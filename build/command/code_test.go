package command

import (
	"encoding/xml"
	"strings"
	"testing"
)

func TestCodeOnTheTerminal(t *testing.T) {
	status, out, err := ran(t, nil, "calc", "qr", "text=https://example.org/")
	var svg struct {
		Width string `xml:"width,attr"`
		Paths []struct {
			D string `xml:"d,attr"`
		} `xml:"path"`
	}
	if wrong := xml.Unmarshal([]byte(out), &svg); wrong != nil || status != 0 || svg.Width != "16.5mm" || len(svg.Paths) != 2 || strings.Contains(out, "style") {
		t.Errorf("status %d, %s, %v: %.200s", status, err, wrong, out)
	}
	for _, c := range []struct {
		args   []string
		status int
		want   string
	}{
		{[]string{"text=" + strings.Repeat("x", 2954)}, 1, "blankoff: text: the text is too long for a QR code: it needs 2957 bytes, and 2956 is the most; hand it on in another way\n"},
		{[]string{"text=" + strings.Repeat("x", 1274), "level=H"}, 1, "blankoff: text: the text is too long for a QR code: it needs 1277 bytes, and 1276 is the most; hand it on in another way\n"},
		{[]string{"text="}, 1, "blankoff: text: what is the code to say?\n"},
		{[]string{"text=a", "level=LM"}, 1, "blankoff: level: “LM” is no level of a QR code; there are L, M, Q and H\n"},
		{[]string{"text=a", "level="}, 1, "blankoff: level: “” is no level of a QR code; there are L, M, Q and H\n"},
		{[]string{"txt=a"}, 1, "blankoff: txt: a QR code has no entry “txt”; it has text and level\n"},
		{[]string{"text=a", "--svg", "code.svg"}, 2, "blankoff: calc qr takes entries alone and writes to the standard output; leave the options out\n"},
	} {
		status, out, err := ran(t, nil, append([]string{"calc", "qr"}, c.args...)...)
		if status != c.status || err != c.want || out != "" {
			t.Errorf("%.40v: status %d, %q, %.40q", c.args, status, err, out)
		}
	}
}

func TestParcelOnTheTerminal(t *testing.T) {
	_, digits, _ := ran(t, nil, "calc", "parcel", `text={"jobs":[]}`)
	status, out, err := ran(t, nil, "calc", "parcel", "digits="+strings.TrimSpace(digits))
	if status != 0 || out != `{"jobs":[]}`+"\n" {
		t.Errorf("status %d, %s: %q from %q", status, err, out, digits)
	}
	status, out, err = ran(t, nil, "calc", "parcel", "digits=12")
	if want := "blankoff: digits: This address holds no whole work record: it was cut off, or changed.\n"; status != 1 || err != want || out != "" {
		t.Errorf("status %d, %q, %q", status, err, out)
	}
}
