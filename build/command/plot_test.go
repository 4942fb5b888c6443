package command

import (
	"bytes"
	"encoding/xml"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// TestPlotAsAFile writes the plot of a log, in the unit asked for, as XML that stands by itself.
func TestPlotAsAFile(t *testing.T) {
	folder := t.TempDir()
	log, picture := filepath.Join(folder, "rise.csv"), filepath.Join(folder, "rise.svg")
	if err := os.WriteFile(log, []byte("time min,pressure mTorr\n0,300\n1,320\n2,340\n3,361\n4,380\n5,400\n6,421\n7,440\n8,461\n"), 0o666); err != nil {
		t.Fatal(err)
	}
	var out, errs bytes.Buffer
	run := func(args ...string) int {
		out.Reset()
		errs.Reset()
		return Run(append([]string{"calc"}, args...), &out, &errs)
	}
	if status := run("rise-log", "--log", log, "volume=24 L", "--svg", picture, "--axis", "pressure=Pa", "--json"); status != 0 {
		t.Fatalf("status %d: %s", status, errs.String())
	}
	if strings.Contains(out.String(), "<svg") || strings.Contains(out.String(), `"plot"`) {
		t.Errorf("the plot stands in the answer too: %s", out.String())
	}
	svg, err := os.ReadFile(picture)
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{`xmlns="http://www.w3.org/2000/svg"`, ">pressure, Pa<", "--ink: #16242C", "prefers-color-scheme: dark", ".drawn .band"} {
		if !bytes.Contains(svg, []byte(want)) {
			t.Errorf("the file lacks %s", want)
		}
	}
	for decoder := xml.NewDecoder(bytes.NewReader(svg)); ; {
		if _, err := decoder.Token(); err == io.EOF {
			break
		} else if err != nil {
			t.Fatalf("%v in %s", err, svg)
		}
	}
	for _, c := range []struct {
		args []string
		want string
	}{
		{[]string{"pressure", "value=1 Pa", "--svg", picture}, "pressure has no plot"},
		{[]string{"rise-log", "--log", log, "volume=24 L", "--svg", picture, "--axis", "pressure=min"}, "no unit of pressure"},
		{[]string{"rise-log", "--log", log, "volume=24 L", "--svg", picture, "--axis", "Pa"}, "--axis pressure=Pa"},
		{[]string{"rise-log", "--log", log, "volume=24 L", "--svg", filepath.Join(folder, "no", "such.svg")}, "cannot write the plot"},
	} {
		if status := run(c.args...); status == 0 || !strings.Contains(errs.String(), c.want) {
			t.Errorf("%v: status %d, %s; want %s", c.args, status, errs.String(), c.want)
		}
	}
}
