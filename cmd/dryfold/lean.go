package main

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
)

// The page's program is built with a copy of Ebitengine in which its shader compiler has already run. Of a page's
// shaders nothing changes after it is built; but to compile them at its start it would have to hold a parser of Go,
// numbers of any length, regular expressions and text templates, and every exported method of all it holds, because a
// template may look one up by its name: a third of the whole. So here the compiler is run
// first, and what it made stands in its place. wasm/lean holds the files that are put in.

const ebitengine = "github.com/hajimehoshi/ebiten/v2"

// replaced are the files of Ebitengine in whose place others stand, each with the start of the SHA-256 of the file for
// which the other was written. Where one has another, nothing is replaced.
var replaced = map[string]string{
	"imagedumper.go":                   "62f50355cb0c4c85",
	"internal/builtinshader/shader.go": "932a4a04d35a2baf",
	"internal/graphics/shader.go":      "5c497ea1bc6e190c",
	"internal/shaderir/glsl/glsl.go":   "080d2bfc96deab5c",
	"internal/shaderir/glsl/type.go":   "992dc7c2a4203615",
}

// compiler are the packages of Ebitengine that compile a shader, and in readyShaders the program that runs them.
var compiler = []string{"internal/builtinshader", "internal/graphics", "internal/shader", "internal/shaderir", "internal/shaderir/glsl"}

const readyShaders = "internal/readyshaders"

// leanEbitengine writes into dir, a folder of its own that need not be there, what the page's program needs in
// Ebitengine's place, and gives the go.mod to build it with; or "" where Ebitengine is not as it was known. top is the
// source tree.
func leanEbitengine(top, dir string) (modfile string, err error) {
	from, err := moduleDir(top)
	if err != nil {
		return "", err
	}
	for name, want := range replaced {
		src, err := os.ReadFile(filepath.Join(from, filepath.FromSlash(name)))
		sum := sha256.Sum256(src)
		if err != nil || hex.EncodeToString(sum[:8]) != want {
			return "", nil
		}
	}

	// The compiler as it is, with the program that runs it.
	own, err := ownShaders(top)
	if err != nil {
		return "", err
	}
	compile, err := copyModule(top, from, filepath.Join(dir, "compiler"), compiler, nil)
	if err != nil {
		return "", err
	}
	made, err := runShaders(top, compile, own)
	if err != nil {
		return "", err
	}
	put, err := leanFiles(top, from, made)
	if err != nil {
		return "", err
	}

	// The copy for the page.
	c := exec.Command("go", "list", "-deps", "-f", "{{with .Module}}{{if eq .Path \""+ebitengine+"\"}}{{$.ImportPath}}{{end}}{{end}}", "./wasm")
	c.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm")
	out, err := output(c, top)
	if err != nil {
		return "", err
	}
	var packages []string
	for _, p := range strings.Fields(string(out)) {
		packages = append(packages, strings.TrimPrefix(strings.TrimPrefix(p, ebitengine), "/"))
	}
	return copyModule(top, from, filepath.Join(dir, "page"), packages, put)
}

// ownShaders are the files of the page's own shaders; render/shaders_js.go embeds them.
func ownShaders(top string) ([]string, error) {
	dir, err := filepath.Abs(filepath.Join(top, "render", "shaders"))
	if err != nil {
		return nil, err
	}
	own, err := filepath.Glob(filepath.Join(dir, "*.kage"))
	if err == nil && len(own) == 0 {
		err = fmt.Errorf("no shaders in %s", dir)
	}
	return own, err
}

// moduleDir is where the go command keeps Ebitengine, fetched first where it is not there yet.
func moduleDir(top string) (string, error) {
	if _, err := output(exec.Command("go", "mod", "download", ebitengine), top); err != nil {
		return "", err
	}
	out, err := output(exec.Command("go", "list", "-m", "-f", "{{.Dir}}", ebitengine), top)
	return strings.TrimSpace(string(out)), err
}

// output runs a command in dir and gives what it writes.
func output(c *exec.Cmd, dir string) ([]byte, error) {
	var said bytes.Buffer
	c.Dir, c.Stderr = dir, &said
	out, err := c.Output()
	if err != nil {
		return nil, fmt.Errorf("%s: %v\n%s", strings.Join(c.Args, " "), err, said.Bytes())
	}
	return out, nil
}

// writeChanged writes a file and the folders to it, where it does not hold data already.
func writeChanged(file string, data []byte) error {
	if old, err := os.ReadFile(file); err == nil && bytes.Equal(old, data) {
		return nil
	}
	if err := os.MkdirAll(filepath.Dir(file), 0o755); err != nil {
		return err
	}
	return os.WriteFile(file, data, 0o644)
}

// removeOthers removes the files in dir that are none of files, left by an older copy.
func removeOthers(dir string, files map[string][]byte) error {
	if _, err := os.Stat(dir); os.IsNotExist(err) {
		return nil
	}
	return filepath.WalkDir(dir, func(file string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		name, err := filepath.Rel(dir, file)
		if _, ok := files[filepath.ToSlash(name)]; ok || err != nil {
			return err
		}
		return os.Remove(file)
	})
}

// runShaders runs wasm/lean's program in the copy of Ebitengine that modfile names and gives what it writes.
func runShaders(top, modfile string, sources []string) ([]byte, error) {
	return output(exec.Command("go", append([]string{"run", "-trimpath", "-modfile=" + modfile, ebitengine + "/" + readyShaders}, sources...)...), top)
}

// copyModule copies packages of Ebitengine, given by their folders in it, from one folder into another, with wasm/lean's program
// beside them and put's files in the place of theirs (nil: none). It gives a go.mod by which the copy is used.
func copyModule(top, from, dir string, packages []string, put map[string][]byte) (modfile string, err error) {
	files := map[string][]byte{}
	for _, p := range packages {
		list, err := os.ReadDir(filepath.Join(from, filepath.FromSlash(p)))
		if err != nil {
			return "", err
		}
		for _, e := range list {
			if n := e.Name(); strings.HasSuffix(n, ".go") && !strings.HasSuffix(n, "_test.go") {
				name := strings.TrimPrefix(p+"/"+n, "/")
				if files[name], err = os.ReadFile(filepath.Join(from, filepath.FromSlash(name))); err != nil {
					return "", err
				}
			}
		}
	}
	if files["go.mod"], err = os.ReadFile(filepath.Join(from, "go.mod")); err != nil {
		return "", err
	}
	if files[readyShaders+"/main.go"], err = os.ReadFile(filepath.Join(top, "wasm", "lean", "main.go.txt")); err != nil {
		return "", err
	}
	for name, data := range put {
		if files[name] = data; data == nil {
			delete(files, name)
		}
	}
	copied := filepath.Join(dir, "ebitengine")
	if err := removeOthers(copied, files); err != nil {
		return "", err
	}
	for name, data := range files {
		if err := writeChanged(filepath.Join(copied, filepath.FromSlash(name)), data); err != nil {
			return "", err
		}
	}
	mod, err := os.ReadFile(filepath.Join(top, "go.mod"))
	if err != nil {
		return "", err
	}
	sum, err := os.ReadFile(filepath.Join(top, "go.sum"))
	if err != nil {
		return "", err
	}
	modfile = filepath.Join(dir, "go.mod")
	if err := writeChanged(modfile, fmt.Appendf(mod, "\nreplace %s => %q\n", ebitengine, copied)); err != nil {
		return "", err
	}
	return modfile, writeChanged(filepath.Join(dir, "go.sum"), sum)
}
