package main

import (
	"bytes"
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// TestLeanShaders: the copy of Ebitengine that the page's program is built with says the same of every shader, text by
// text and uniform by uniform, as the compiler in whose place it stands.
func TestLeanShaders(t *testing.T) {
	top, dir := filepath.Join("..", ".."), t.TempDir()
	modfile, err := leanEbitengine(top, dir)
	if err != nil {
		t.Fatal(err)
	}
	if modfile == "" {
		t.Fatal("Ebitengine's files are not those for which wasm/lean was written: see what has changed in them, and put their sums into lean.go")
	}
	own, err := ownShaders(top)
	if err != nil {
		t.Fatal(err)
	}
	compiler := filepath.Join(dir, "compiler", "go.mod")
	want, err := runShaders(top, compiler, own)
	if err != nil {
		t.Fatal(err)
	}
	got, err := runShaders(top, modfile, own)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(got, want) {
		t.Errorf("the page's copy:\n%s\nthe compiler:\n%s", got, want)
	}
	var all struct{ Shaders []readyShader }
	if err := json.Unmarshal(want, &all); err != nil {
		t.Fatal(err)
	}
	if len(all.Shaders) != 14+len(own) { // Ebitengine has twelve for drawing images, one for the screen and one to clear it.
		t.Errorf("%d shaders, want 14 and our own %d", len(all.Shaders), len(own))
	}
	for _, s := range all.Shaders {
		if !strings.HasPrefix(s.Vertex, "#version 300 es\n") || !strings.HasPrefix(s.Fragment, "#version 300 es\n") || len(s.Used) == 0 {
			t.Errorf("a shader without its text or uniforms: %+v", s)
		}
	}

	// One that nobody has seen: the compiler compiles it, the copy says what is wrong.
	other := filepath.Join(t.TempDir(), "other.kage")
	if err := os.WriteFile(other, []byte("//kage:unit pixels\n\npackage main\n\nfunc Fragment() vec4 {\n\treturn vec4(0.25)\n}\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	if _, err := runShaders(top, compiler, []string{other}); err != nil {
		t.Error(err)
	}
	if _, err := runShaders(top, modfile, []string{other}); err == nil || !strings.Contains(err.Error(), "was not there when this program was built") {
		t.Errorf("a shader that the copy does not hold: %v", err)
	}

	// What is not to be in the page's program; with Ebitengine as it is, all of it would be.
	heavy := []string{"go/parser", "regexp", "text/template", ebitengine + "/internal/shader"}
	for file, n := range map[string]int{modfile: 0, "go.mod": len(heavy)} {
		c := exec.Command("go", "list", "-modfile="+file, "-deps", "./wasm")
		c.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm")
		out, err := output(c, top)
		if err != nil {
			t.Fatal(err)
		}
		there := slices.DeleteFunc(strings.Fields(string(out)), func(p string) bool { return !slices.Contains(heavy, p) })
		if len(there) != n {
			t.Errorf("built with %s the page's program holds %v, of %v", file, there, heavy)
		}
	}
}

// TestLeanOtherLibrary: of files that are not those it was written for, nothing is replaced.
func TestLeanOtherLibrary(t *testing.T) {
	const name = "internal/graphics/shader.go"
	old := replaced[name]
	replaced[name] = "0000000000000000"
	defer func() { replaced[name] = old }()
	dir := t.TempDir()
	modfile, err := leanEbitengine(filepath.Join("..", ".."), dir)
	if err != nil || modfile != "" {
		t.Errorf("%q, %v", modfile, err)
	}
	if list, err := os.ReadDir(dir); err != nil || len(list) != 0 {
		t.Errorf("%v, %v", list, err)
	}
}

// TestBuildFlag: -build needs no -o, and says where it cannot build.
func TestBuildFlag(t *testing.T) {
	t.Chdir(t.TempDir())
	status, out, errs := use("site", "-build", "-wasm", "programs")
	if status != statusInput || out != "" || !strings.Contains(errs, "not inside the source tree") {
		t.Errorf("status %d: %s%s", status, out, errs)
	}
	if _, err := os.Stat("programs"); !os.IsNotExist(err) {
		t.Errorf("a folder was made: %v", err)
	}
}

// TestCopyModule: a copy holds no file of an older one.
func TestCopyModule(t *testing.T) {
	dir := t.TempDir()
	for name, data := range map[string]string{"a/old.go": "package a", "a/new.go": "package a", "go.mod": "module a"} {
		if err := writeChanged(filepath.Join(dir, filepath.FromSlash(name)), []byte(data)); err != nil {
			t.Fatal(err)
		}
	}
	if err := removeOthers(dir, map[string][]byte{"a/new.go": nil, "go.mod": nil}); err != nil {
		t.Fatal(err)
	}
	list, err := filepath.Glob(filepath.Join(dir, "*", "*.go"))
	if err != nil || len(list) != 1 || filepath.Base(list[0]) != "new.go" {
		t.Errorf("%v, %v", list, err)
	}
}
