package main

import (
	"bytes"
	"compress/gzip"
	"io"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"testing"

	"github.com/andybalholm/brotli"

	"dryfold/wasm/page"
)

// stand-in programs: what the site does with them does not depend on what they do.
func standIns(t *testing.T) (dir string, data map[string][]byte) {
	t.Helper()
	dir = t.TempDir()
	data = map[string][]byte{
		page.Program: bytes.Repeat([]byte("\x00asm program "), 1000),
		page.Worker:  bytes.Repeat([]byte("\x00asm worker "), 1000),
		page.Papers:  bytes.Repeat([]byte("\x00asm papers "), 1000),
		page.Exports: bytes.Repeat([]byte("\x00asm files "), 1000),
		page.Exec:    []byte("// go"),
	}
	for n, d := range data {
		if err := os.WriteFile(filepath.Join(dir, n), d, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return dir, data
}

func TestSite(t *testing.T) {
	dir, programs := standIns(t)
	to := filepath.Join(t.TempDir(), "site")
	status, out, msg := use("site", "-wasm", dir, "-o", to)
	if status != 0 {
		t.Fatalf("%d, %s, %s", status, out, msg)
	}
	read := func(name string) []byte {
		d, err := os.ReadFile(filepath.Join(to, name))
		if err != nil {
			t.Fatal(err)
		}
		return d
	}
	for _, n := range []string{page.Program, page.Worker, page.Papers, page.Exports} {
		z, err := gzip.NewReader(bytes.NewReader(read(n + ".gz")))
		if err != nil {
			t.Fatal(err)
		}
		if got, err := io.ReadAll(z); err != nil || !bytes.Equal(got, programs[n]) {
			t.Errorf("%s.gz does not unpack to the program: %v", n, err)
		}
		if got, err := io.ReadAll(brotli.NewReader(bytes.NewReader(read(n + ".br")))); err != nil || !bytes.Equal(got, programs[n]) {
			t.Errorf("%s.br does not unpack to the program: %v", n, err)
		}
	}
	if !bytes.Equal(read(page.Exec), programs[page.Exec]) || len(read("index.html")) == 0 {
		t.Error("index.html or Go's script is missing")
	}
}

// TestSiteTooHeavy: a site past its weight fails.
func TestSiteTooHeavy(t *testing.T) {
	dir, _ := standIns(t)
	noise := make([]byte, maxFirst+100_000)
	x := uint64(1)
	for i := range noise {
		x = x*6364136223846793005 + 1442695040888963407
		noise[i] = byte(x >> 56)
	}
	if err := os.WriteFile(filepath.Join(dir, page.Program), noise, 0o644); err != nil {
		t.Fatal(err)
	}
	if status, out, _ := use("site", "-wasm", dir, "-br", "0", "-o", t.TempDir()); status != 2 {
		t.Errorf("status %d, want 2: %s", status, out)
	}
}

func TestServe(t *testing.T) {
	dir, programs := standIns(t)
	files, err := makeSite(dir, 0, io.Discard)
	if err != nil {
		t.Fatal(err)
	}
	s := httptest.NewServer(siteHandler(func(n string) ([]byte, bool) { d, ok := files[n]; return d, ok }))
	defer s.Close()
	for path, want := range map[string]string{
		"/": "text/html; charset=utf-8", "/index.html": "text/html; charset=utf-8", "/boot.js": "text/javascript; charset=utf-8",
		"/style.css": "text/css; charset=utf-8", "/dryfold.wasm.gz": "application/gzip",
		"/manifest.webmanifest": "application/manifest+json", "/icon.svg": "image/svg+xml",
		"/nothing": "404", "/../go.mod": "404",
	} {
		r, err := http.Get(s.URL + path)
		if err != nil {
			t.Fatal(err)
		}
		r.Body.Close()
		if want == "404" && r.StatusCode == 404 {
			continue
		}
		if got := r.Header.Get("Content-Type"); got != want || r.StatusCode != 200 {
			t.Errorf("%s: %d, %s; want %s", path, r.StatusCode, got, want)
		}
		if r.Header.Get("Content-Encoding") != "" {
			t.Errorf("%s is sent with an encoding; the page unpacks it itself", path)
		}
	}
	if r, err := http.Post(s.URL+"/", "text/plain", nil); err != nil || r.StatusCode != http.StatusMethodNotAllowed {
		t.Errorf("POST: %v, %v", r, err)
	}
	if len(programs) != 5 {
		t.Fatal("stand-ins")
	}
}
