// Package readers hands files that Dryfold wrote to programs that others wrote, for tests: scripts for
// Node beside this file with packages of package.json, poppler's programs for PDF and librsvg's for SVG. Tests that use it bear
// the build tag readers; `make readers-test` installs what they need and runs them.
package readers

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"image"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"slices"
	"testing"
)

// here is this file's folder; top the repository's.
func here(t testing.TB) (dir, top string) {
	t.Helper()
	_, file, _, ok := runtime.Caller(0)
	if !ok {
		t.Fatal("the place of testdata/readers is not known")
	}
	dir = filepath.Dir(file)
	return dir, filepath.Dir(filepath.Dir(dir))
}

// Node runs a script of this folder with arguments and gives what it writes. A script that ends
// in an error fails the test with what it said.
func Node(t testing.TB, script string, args ...string) []byte {
	t.Helper()
	out, err := node(t, script, args...)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// Refused runs a script that must end in an error, and gives the error.
func Refused(t testing.TB, script string, args ...string) string {
	t.Helper()
	out, err := node(t, script, args...)
	if err == nil {
		t.Fatalf("%s %q found nothing wrong: %s", script, args, out)
	}
	return err.Error()
}

func node(t testing.TB, script string, args ...string) ([]byte, error) {
	t.Helper()
	dir, top := here(t)
	home := filepath.Join(top, "build", "readers")
	if _, err := os.Stat(filepath.Join(home, "node_modules")); err != nil {
		t.Fatalf("no packages in %s: make readers-test installs them", home)
	}
	for i, a := range args { // node starts elsewhere
		if _, err := os.Stat(a); err == nil {
			if args[i], err = filepath.Abs(a); err != nil {
				t.Fatal(err)
			}
		}
	}
	return output(home, "node", append([]string{filepath.Join(dir, script)}, args...)...)
}

// Read is Node for a script that writes JSON.
func Read[T any](t testing.TB, script string, args ...string) T {
	t.Helper()
	var v T
	out := Node(t, script, args...)
	if err := json.Unmarshal(out, &v); err != nil {
		t.Fatalf("%s %q wrote no JSON (%v): %.300s", script, args, err, out)
	}
	return v
}

// File writes data to a file of its own for a reader, and gives its path.
func File(t testing.TB, name string, data []byte) string {
	t.Helper()
	p := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(p, data, 0o644); err != nil {
		t.Fatal(err)
	}
	return p
}

// PDFText is the text of a PDF as poppler's pdftotext reads it; options as -layout, -bbox, -f 1 -l 1.
func PDFText(t testing.TB, pdf []byte, options ...string) string {
	t.Helper()
	out, err := output("", "pdftotext", append(slices.Clone(options), File(t, "a.pdf", pdf), "-")...)
	if err != nil {
		t.Fatal(err)
	}
	return string(out)
}

// PDFInfo is what poppler's pdfinfo says of a PDF; options as -f 1 -l 9, which makes it tell each page's size.
func PDFInfo(t testing.TB, pdf []byte, options ...string) string {
	t.Helper()
	out, err := output("", "pdfinfo", append(slices.Clone(options), File(t, "a.pdf", pdf))...)
	if err != nil {
		t.Fatal(err)
	}
	return string(out)
}

// SVGPage is an SVG file as librsvg's rsvg-convert paints it, at so many dots an inch. Where that program is missing
// the test is skipped, but not with CI=true.
func SVGPage(t testing.TB, svg []byte, dpi int) image.Image {
	t.Helper()
	if _, err := exec.LookPath("rsvg-convert"); err != nil && os.Getenv("CI") != "true" {
		t.Skip("rsvg-convert is not installed: make readers-test sees to it")
	}
	d := fmt.Sprint(dpi)
	out, err := output("", "rsvg-convert", "--unlimited", "-d", d, "-p", d, "-f", "png", "-b", "white", File(t, "a.svg", svg))
	if err != nil {
		t.Fatal(err)
	}
	im, err := png.Decode(bytes.NewReader(out))
	if err != nil {
		t.Fatal(err)
	}
	return im
}

// PDFPages are a PDF's pages as poppler's pdftoppm paints them, at so many dots an inch; options as
// -f 1 -l 1, -gray.
func PDFPages(t testing.TB, pdf []byte, dpi int, options ...string) []image.Image {
	t.Helper()
	dir := t.TempDir()
	args := append(slices.Clone(options), "-png", "-r", fmt.Sprint(dpi), File(t, "a.pdf", pdf), filepath.Join(dir, "page"))
	if _, err := output("", "pdftoppm", args...); err != nil {
		t.Fatal(err)
	}
	files, _ := filepath.Glob(filepath.Join(dir, "page*.png")) // pdftoppm pads the numbers, so their order is the pages'
	var out []image.Image
	for _, name := range files {
		f, err := os.Open(name)
		if err != nil {
			t.Fatal(err)
		}
		im, err := png.Decode(f)
		f.Close()
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, im)
	}
	if len(out) == 0 {
		t.Fatal("pdftoppm painted no page")
	}
	return out
}

// output runs a program in a folder ("" for this one) and gives what it writes.
func output(dir, name string, args ...string) ([]byte, error) {
	c := exec.Command(name, args...)
	c.Dir = dir
	var said bytes.Buffer
	c.Stderr = &said
	out, err := c.Output()
	if errors.Is(err, exec.ErrNotFound) {
		return nil, fmt.Errorf("%s is not installed: make readers-test sees to it", name)
	}
	if err != nil {
		return nil, fmt.Errorf("%s %q: %v: %s", name, args, err, said.Bytes())
	}
	return out, nil
}
