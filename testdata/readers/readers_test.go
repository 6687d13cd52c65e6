//go:build readers

package readers

import (
	"encoding/json"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// TestReaderVersions: the readers are there, in the versions that package.json names.
func TestReaderVersions(t *testing.T) {
	data, err := os.ReadFile("package.json")
	if err != nil {
		t.Fatal(err)
	}
	var want struct{ Dependencies map[string]string }
	if err := json.Unmarshal(data, &want); err != nil {
		t.Fatal(err)
	}
	got := Read[map[string]string](t, "versions.mjs")
	if len(want.Dependencies) < 3 {
		t.Errorf("package.json names %v", want.Dependencies)
	}
	for name, v := range want.Dependencies {
		if got[name] != v {
			t.Errorf("%s is %q, want %s", name, got[name], v)
		}
	}
}

// TestReaderRefused: a script that fails fails the test, with what it said.
func TestReaderRefused(t *testing.T) {
	if msg := Refused(t, "no-such-script.mjs"); !strings.Contains(msg, "no-such-script") {
		t.Errorf("got %q", msg)
	}
}

// leastPDF is a page of 100 x 50 points with a word on it, by ISO 32000-1, 7.5: written out for this test, with
// no table of places, which poppler makes for itself.
const leastPDF = `%PDF-1.4
1 0 obj <</Type /Catalog /Pages 2 0 R>> endobj
2 0 obj <</Type /Pages /Kids [3 0 R] /Count 1>> endobj
3 0 obj <</Type /Page /Parent 2 0 R /MediaBox [0 0 100 50] /Contents 4 0 R /Resources <</Font <</F 5 0 R>>>>>> endobj
4 0 obj <</Length 40>> stream
BT /F 12 Tf 10 20 Td (bend up) Tj ET    
endstream endobj
5 0 obj <</Type /Font /Subtype /Type1 /BaseFont /Helvetica>> endobj
trailer <</Root 1 0 R>>
`

func TestReaderPDF(t *testing.T) {
	if got := PDFText(t, []byte(leastPDF)); !strings.Contains(got, "bend up") {
		t.Errorf("pdftotext read %q", got)
	}
	pages := PDFPages(t, []byte(leastPDF), 144)
	if b := pages[0].Bounds(); len(pages) != 1 || b.Dx() != 200 || b.Dy() != 100 {
		t.Errorf("%d page(s), the first %v", len(pages), b)
	}
}

// TestReaderNames: make readers-test runs tests by this beginning of their names; one of another name
// would never be run.
func TestReaderNames(t *testing.T) {
	tests, found := regexp.MustCompile(`(?m)^func (Test[A-Z]\w*)`), 0
	for _, dir := range []string{"../../fold", "../../cmd", "."} {
		err := filepath.WalkDir(dir, func(p string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() || !strings.HasSuffix(p, "_test.go") {
				return err
			}
			src, err := os.ReadFile(p)
			if err != nil || !strings.HasPrefix(string(src), "//go:build readers\n") {
				return err
			}
			for _, m := range tests.FindAllStringSubmatch(string(src), -1) {
				found++
				if !strings.HasPrefix(m[1], "TestReader") {
					t.Errorf("%s: %s is never run: call it TestReader...", p, m[1])
				}
			}
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	if found < 4 {
		t.Errorf("only %d tests by readers found", found)
	}
}
