package main

import (
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"

	"dryfold/wasm/page"
)

// buildPrograms builds the programs into dir with the Go at hand, and puts Go's script beside them. What it needs
// for that it keeps in the source tree's build/lean.
func buildPrograms(dir string, say io.Writer) (map[string][]byte, error) {
	top, ok := sourceTree()
	if !ok {
		return nil, fmt.Errorf("this is not inside the source tree, where they could be built: run make site there, or give their folder with -wasm")
	}
	root, err := exec.Command("go", "env", "GOROOT").Output()
	if err != nil {
		return nil, fmt.Errorf("Go, which builds them, could not be run (%v): install Go, or give their folder with -wasm", err)
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
	modfile, err := leanEbitengine(top, filepath.Join(top, "build", "lean"))
	if err != nil {
		return nil, err
	}
	if modfile == "" {
		fmt.Fprintln(say, "Ebitengine is not as it was known (see cmd/dryfold/lean.go): the page's program holds its shader compiler and is a third larger")
	}
	for _, b := range page.Programs {
		fmt.Fprintf(say, "building %s\n", b[0])
		file := filepath.Join(abs, b[0])
		args := append([]string{"build", "-trimpath", "-ldflags=-s -w"}, small(string(inlined), b[0])...)
		if b[0] == page.Program && modfile != "" {
			args = append(args, "-modfile="+modfile)
		}
		c := exec.Command("go", append(args, "-o", file, b[1])...)
		c.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm")
		if _, err := output(c, top); err != nil {
			return nil, fmt.Errorf("building %s: %v", b[0], err)
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
