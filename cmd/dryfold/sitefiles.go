package main

import (
	"bytes"
	"compress/gzip"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strings"

	"github.com/andybalholm/brotli"

	"dryfold/wasm/page"
)

// makeSite is every file of the site by its name: the page's own files, the two
// programs packed, and Go's script that runs them. Quality 0 leaves out brotli.
// Progress goes to say.
func makeSite(wasmDir string, quality int, say io.Writer) (map[string][]byte, error) {
	files := map[string][]byte{}
	own := page.Files()
	err := fs.WalkDir(own, ".", func(p string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		files[p], err = fs.ReadFile(own, p)
		return err
	})
	if err != nil {
		return nil, err
	}
	built, err := programs(wasmDir, say)
	if err != nil {
		return nil, err
	}
	files[page.Exec] = built[page.Exec]
	for _, name := range []string{page.Program, page.Worker} {
		files[name+".gz"] = gzipped(built[name])
		if quality > 0 {
			fmt.Fprintf(say, "packing %s.br\n", name)
			var b bytes.Buffer
			w := brotli.NewWriterOptions(&b, brotli.WriterOptions{Quality: quality, LGWin: 24})
			w.Write(built[name])
			w.Close()
			files[name+".br"] = b.Bytes()
		}
	}
	return files, nil
}

// gzipped packs data; the same data gives the same bytes.
func gzipped(data []byte) []byte {
	var b bytes.Buffer
	w, err := gzip.NewWriterLevel(&b, gzip.BestCompression)
	if err != nil {
		panic(err)
	}
	w.Write(data)
	w.Close()
	return b.Bytes()
}

// programs are the two programs and Go's script, from a folder, or built.
func programs(dir string, say io.Writer) (map[string][]byte, error) {
	out := map[string][]byte{}
	for _, name := range []string{page.Program, page.Worker, page.Exec} {
		data, err := os.ReadFile(filepath.Join(dir, name))
		if errors.Is(err, fs.ErrNotExist) {
			return buildPrograms(dir, say)
		}
		if err != nil {
			return nil, err
		}
		out[name] = data
	}
	return out, nil
}

// buildPrograms builds them into dir with the Go at hand.
func buildPrograms(dir string, say io.Writer) (map[string][]byte, error) {
	missing := fmt.Sprintf("%s does not hold %s, %s and %s", dir, page.Program, page.Worker, page.Exec)
	top, ok := sourceTree()
	if !ok {
		return nil, fmt.Errorf("%s, and this is not inside the source tree, where they could be built: run make site there, or give their folder with -wasm", missing)
	}
	root, err := exec.Command("go", "env", "GOROOT").Output()
	if err != nil {
		return nil, fmt.Errorf("%s, and Go, which builds them, could not be run (%v): install Go, or give their folder with -wasm", missing, err)
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return nil, err
	}
	abs, err := filepath.Abs(dir)
	if err != nil {
		return nil, err
	}
	script, err := os.ReadFile(filepath.Join(strings.TrimSpace(string(root)), "lib", "wasm", page.Exec))
	if err != nil {
		return nil, fmt.Errorf("Go's own %s: %w", page.Exec, err)
	}
	out := map[string][]byte{page.Exec: script}
	if err := os.WriteFile(filepath.Join(abs, page.Exec), script, 0o644); err != nil {
		return nil, err
	}
	inlined, err := os.ReadFile(filepath.Join(top, "wasm", "inlined.txt"))
	if err != nil {
		return nil, err
	}
	for _, b := range [][3]string{{page.Program, "./wasm", "page"}, {page.Worker, "./wasm/worker", "worker"}} {
		fmt.Fprintf(say, "building %s\n", b[0])
		file := filepath.Join(abs, b[0])
		args := append([]string{"build", "-trimpath", "-ldflags=-s -w"}, small(string(inlined), b[2])...)
		c := exec.Command("go", append(args, "-o", file, b[1])...)
		c.Dir = top
		c.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm")
		if msg, err := c.CombinedOutput(); err != nil {
			return nil, fmt.Errorf("building %s: %v\n%s", b[0], err, msg)
		}
		if out[b[0]], err = os.ReadFile(file); err != nil {
			return nil, err
		}
	}
	return out, nil
}

// small is the flags that keep a program small, from wasm/inlined.txt.
func small(inlined, program string) []string {
	flags := []string{"-gcflags=all=-l"}
	for _, line := range strings.Split(inlined, "\n") {
		if list, ok := strings.CutPrefix(line, program+": "); ok {
			for _, p := range strings.Fields(list) {
				flags = append(flags, "-gcflags="+p+"=")
			}
		}
	}
	return flags
}

// sourceTree finds the top of the source tree at or above the current folder.
func sourceTree() (string, bool) {
	dir, err := os.Getwd()
	for err == nil {
		if mod, e := os.ReadFile(filepath.Join(dir, "go.mod")); e == nil {
			return dir, strings.HasPrefix(string(mod), "module dryfold\n")
		}
		up := filepath.Dir(dir)
		if up == dir {
			break
		}
		dir = up
	}
	return "", false
}
