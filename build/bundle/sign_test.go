package bundle

import (
	"bytes"
	"encoding/xml"
	"image/png"
	"math"
	"testing"
)

// TestSignStaysInTheSafeZone: a maskable icon keeps what matters within a circle of four fifths of the width (W3C, Web App Manifest,
// "Maskable icons and safe zone": a radius of 40 % of the icon's size).
func TestSignStaysInTheSafeZone(t *testing.T) {
	for _, side := range []int{180, 192, 512} {
		content, err := signPNG(side)
		if err != nil {
			t.Fatal(err)
		}
		picture, err := png.Decode(bytes.NewReader(content))
		if err != nil {
			t.Fatal(err)
		}
		if got := picture.Bounds().Size(); got.X != side || got.Y != side {
			t.Errorf("the icon of %d has %v", side, got)
		}
		if len(content) > 3000 {
			t.Errorf("the icon of %d takes %d bytes", side, len(content))
		}
		ground, drawn, farthest := picture.At(0, 0), 0, 0.0
		for y := range side {
			for x := range side {
				if picture.At(x, y) != ground {
					drawn++
					farthest = max(farthest, math.Hypot(float64(x)+.5-float64(side)/2, float64(y)+.5-float64(side)/2)/float64(side))
				}
			}
		}
		if farthest > .4 || farthest < .3 || drawn < side*side/50 {
			t.Errorf("at %d the drawing reaches %.3f of the width from the middle and has %d pixels", side, farthest, drawn)
		}
	}
}

// TestSignIsTheSameDrawing: the SVG is well formed and holds a bar for each of the picture's.
func TestSignIsTheSameDrawing(t *testing.T) {
	var svg struct {
		Paths []struct {
			D string `xml:"d,attr"`
		} `xml:"path"`
	}
	if err := xml.Unmarshal(signSVG(), &svg); err != nil {
		t.Fatal(err)
	}
	if len(svg.Paths) != 3 || bytes.Count([]byte(svg.Paths[1].D), []byte("M")) != len(signBars) {
		t.Errorf("got %+v", svg)
	}
}
