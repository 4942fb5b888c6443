package journey

import (
	"bytes"
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// TestHTMLChecker gives every published page to the Nu HTML checker (https://validator.github.io/validator/), which holds it against the
// standards of HTML, SVG, MathML and ARIA.
func TestHTMLChecker(t *testing.T) {
	t.Parallel()
	folder := publish(t)
	var pages []string
	for path := range filesOf(t, folder) {
		if strings.HasSuffix(path, ".html") {
			pages = append(pages, path)
		}
	}
	const variable = "VNU_JAR"
	jar, err := filepath.Abs(os.Getenv(variable))
	must(t, err)
	if found, err := os.Stat(jar); err != nil || found.IsDir() {
		t.Fatalf("the environment variable %s must name the checker's vnu.jar: npm install --prefix DIR vnu-jar@26.9.27 brings it as DIR/node_modules/vnu-jar/build/dist/vnu.jar", variable)
	}
	java, err := exec.LookPath("java")
	if err != nil {
		t.Fatal("the HTML checker needs Java: install Debian's package default-jre-headless")
	}
	var said, wrong bytes.Buffer
	check := exec.Command(java, append([]string{"-Xmx512m", "-jar", jar, "--errors-only", "--format", "json", "--stdout", "--exit-zero-always"}, pages...)...)
	check.Dir, check.Stdout, check.Stderr = folder, &said, &wrong
	if err := check.Run(); err != nil {
		t.Fatalf("%v: %s", err, &wrong)
	}
	var report struct {
		Version  string
		Messages []struct {
			URL, Message, Extract string
			LastLine, FirstColumn int
		}
	}
	must(t, json.Unmarshal(said.Bytes(), &report))
	for _, m := range report.Messages {
		t.Errorf("%s:%d:%d: %s: %s", m.URL[strings.LastIndex(m.URL, "/out/")+1:], m.LastLine, m.FirstColumn, m.Message, m.Extract)
	}
	t.Logf("%d pages, checker %s", len(pages), report.Version)
}
