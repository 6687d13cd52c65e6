package main

import (
	"bytes"
	"compress/gzip"
	"encoding/json"
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
	lean, err := leanTemplates(strings.TrimSpace(string(root)))
	if err != nil {
		return nil, err
	}
	if lean != "" {
		defer os.RemoveAll(filepath.Dir(lean))
	}
	for _, b := range [][3]string{{page.Program, "./wasm", "page"}, {page.Worker, "./wasm/worker", "worker"}} {
		fmt.Fprintf(say, "building %s\n", b[0])
		file := filepath.Join(abs, b[0])
		args := append([]string{"build", "-trimpath", "-ldflags=-s -w"}, small(string(inlined), b[2])...)
		if lean != "" {
			args = append(args, "-overlay="+lean)
		}
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

// byName is how text/template looks a method up by its name.
const byName = "ptr.MethodByName(fieldName)"

// leanTemplates writes an overlay for the go command in which text/template looks no methods up by their
// names: where a program does, the linker must keep every exported method of everything in it. Ebitengine fills its own
// shaders in by templates, which call none; without this the page's program is a sixth larger. It gives the
// overlay's file, alone in a folder for a while, or "" where Go's own file is not as it was known.
func leanTemplates(goroot string) (string, error) {
	file := filepath.Join(goroot, "src", "text", "template", "exec.go")
	src, err := os.ReadFile(file)
	if err != nil || strings.Count(string(src), byName) != 1 {
		return "", nil
	}
	dir, err := os.MkdirTemp("", "dryfold-")
	if err != nil {
		return "", err
	}
	lean := filepath.Join(dir, "exec.go")
	list, err := json.Marshal(map[string]map[string]string{"Replace": {file: lean}})
	if err != nil {
		return "", err
	}
	overlay := filepath.Join(dir, "overlay.json")
	if err := os.WriteFile(lean, []byte(strings.Replace(string(src), byName, "(reflect.Value{})", 1)), 0o644); err != nil {
		return "", err
	}
	return overlay, os.WriteFile(overlay, list, 0o644)
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
