package main

// The house's rules, checked by reading the source: who may import whom, where
// the browser's and the drawing library's packages may stand, what the kernel
// may not touch, and which names the top of the repository holds. The rules in
// words are in DEVELOPERS.md.

import (
	"fmt"
	"go/ast"
	"go/build/constraint"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

const module = "dryfold"

// leaves are the rooms that know nothing of parts.
var leaves = []string{"fold/geom", "fold/metal", "fold/sizes", "fold/solid"}

// arrows says which rooms of the module a room may import. A room is the
// longest listed directory that holds the file.
var arrows = map[string][]string{
	"assets":         {},
	"fold/geom":      {},
	"fold/metal":     {},
	"fold/sizes":     {},
	"fold/solid":     {"fold/geom"},
	"fold":           leaves,
	"fold/shape":     append([]string{"fold"}, leaves...),
	"fold/brake":     append([]string{"fold"}, leaves...),
	"fold/space":     append([]string{"fold"}, leaves...),
	"fold/spread":    append([]string{"fold"}, leaves...),
	"fold/partfile":  append([]string{"fold"}, leaves...),
	"fold/draft":     {"fold/geom"},
	"fold/draft/pdf": {"fold/draft", "fold/geom"},
	"fold/cutting":   append([]string{"fold", "fold/shape"}, leaves...),
	"fold/ascut":     append([]string{"fold", "fold/spread"}, leaves...),
	"fold/cutfile":   append([]string{"fold"}, leaves...),
	"fold/model":     append([]string{"fold"}, leaves...),
	"fold/paper":     append([]string{"fold", "fold/draft", "fold/cutting", "fold/ascut"}, leaves...),
	"fold/foldtest":  append([]string{"fold"}, leaves...),
	"render/scene":   {"fold/*"},
	"render":         {"fold/*", "render/*"},
	"wasm":           {"fold/*", "render/*", "wasm/*", "assets"},
	"wasm/page":      {"assets"},
	"cmd":            {"fold/*", "render/scene/*", "wasm/page", "assets"},
	"testdata":       {"fold/*"},
}

// topNames are the only names at the top, besides dot files and what .gitignore names.
var topNames = []string{"cmd", "wasm", "fold", "render", "assets", "testdata",
	"go.mod", "go.sum", "Makefile", "README.md", "DEVELOPERS.md"}

// kernelBans are packages that nothing inside fold/ imports: the kernel reads
// no clock, no files, no network, and no random numbers of others.
var kernelBans = []string{"os", "net", "time", "math/rand", "syscall", "runtime/debug", "io/ioutil"}

// mathBans differ between amd64 and wasm, so the kernel does without them.
var mathBans = []string{"Exp", "Pow", "Sinh", "Cosh", "Tanh", "Erf"}

// seededRand are the names of math/rand/v2 that need a source of the caller's own.
var seededRand = []string{"New", "NewPCG", "Rand", "Source", "PCG"}

func TestArrows(t *testing.T) {
	root := filepath.Join("..", "..")
	files := 0
	err := filepath.WalkDir(root, func(p string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		rel, _ := filepath.Rel(root, p)
		rel = filepath.ToSlash(rel)
		if d.IsDir() && rel != "." && (strings.HasPrefix(d.Name(), ".") || rel == "build" || rel == "site" || d.Name() == "node_modules") {
			return filepath.SkipDir
		}
		if d.IsDir() || path.Ext(rel) != ".go" {
			return nil
		}
		src, err := os.ReadFile(p)
		if err != nil {
			return err
		}
		files++
		for _, b := range breaches(rel, src) {
			t.Error(b)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if files < 10 {
		t.Fatalf("only %d files were read under %s: the check looks in the wrong place", files, root)
	}
}

func TestTopNames(t *testing.T) {
	list, err := os.ReadDir(filepath.Join("..", ".."))
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range list {
		n := e.Name()
		if !strings.HasPrefix(n, ".") && n != "build" && n != "site" && !slices.Contains(topNames, n) {
			t.Errorf("%s stands at the top of the repository; only %s may", n, strings.Join(topNames, ", "))
		}
	}
}

// TestDependencyReasons: every module that go.mod asks for has its reason in DEVELOPERS.md.
func TestDependencyReasons(t *testing.T) {
	mod, err := os.ReadFile("../../go.mod")
	if err != nil {
		t.Fatal(err)
	}
	doc, err := os.ReadFile("../../DEVELOPERS.md")
	if err != nil {
		t.Fatal(err)
	}
	for _, line := range strings.Split(string(mod), "\n") {
		f := strings.Fields(strings.TrimPrefix(strings.TrimSpace(line), "require "))
		if len(f) < 2 || !strings.Contains(f[0], ".") || !strings.HasPrefix(f[1], "v") || strings.Contains(line, "// indirect") {
			continue
		}
		if !strings.Contains(string(doc), f[0]) {
			t.Errorf("%s is in go.mod, but DEVELOPERS.md gives no reason for it", f[0])
		}
	}
}

// TestArrowsCatch: the check fails where it must.
func TestArrowsCatch(t *testing.T) {
	imports := func(p string) string { return "package x\nimport _ \"" + p + "\"\n" }
	for _, c := range []struct{ file, src, want string }{
		{"fold/geom/a.go", imports("dryfold/fold"), "may not import dryfold/fold"},
		{"fold/paper/a.go", imports("dryfold/fold/partfile"), "may not import dryfold/fold/partfile"},
		{"fold/a.go", imports("dryfold/render/scene"), "may not import dryfold/render/scene"},
		{"render/scene/a.go", imports("dryfold/render"), "may not import dryfold/render"},
		{"wasm/page/a.go", imports("dryfold/wasm"), "may not import dryfold/wasm"},
		{"cmd/dryfold/a.go", imports("dryfold/wasm"), "may not import dryfold/wasm"},
		{"elsewhere/a.go", imports("fmt"), "is in no room"},
		{"fold/a.go", imports("os"), "imports os"},
		{"fold/a.go", imports("net/http"), "imports net/http"},
		{"fold/a.go", imports("math/rand"), "imports math/rand"},
		{"fold/a.go", "package x\nimport \"math/rand/v2\"\nvar a = rand.Float64()\n", "rand.Float64"},
		{"fold/a.go", "package x\nimport m \"math\"\nvar a = m.Pow(2, 3)\n", "math.Pow"},
		{"fold/a.go", "package x\nfunc f(r interface{ NormFloat64() float64 }) { r.NormFloat64() }\n", "NormFloat64"},
		{"wasm/a.go", imports("syscall/js"), "syscall/js"},
		{"cmd/dryfold/a_js.go", imports("syscall/js"), "syscall/js"},
		{"render/a.go", imports("github.com/hajimehoshi/ebiten/v2"), "//go:build js"},
		{"render/scene/a.go", "//go:build js\n\n" + imports("github.com/hajimehoshi/ebiten/v2"), "Ebitengine"},
	} {
		got := breaches(c.file, []byte(c.src))
		if !slices.ContainsFunc(got, func(s string) bool { return strings.Contains(s, c.want) }) {
			t.Errorf("%s %q: got %q, want a breach with %q", c.file, c.src, got, c.want)
		}
	}
	for _, c := range []struct{ file, src string }{
		{"fold/a.go", imports("dryfold/fold/solid")},
		{"fold/a_test.go", imports("os")},
		{"fold/a.go", "package x\nimport \"math/rand/v2\"\nvar a = rand.New(rand.NewPCG(1, 2)).Float64()\n"},
		{"wasm/a_js.go", imports("syscall/js")},
		{"render/a.go", "//go:build js\n\n" + imports("github.com/hajimehoshi/ebiten/v2")},
		{"cmd/dryfold/a.go", imports("dryfold/fold/paper")},
	} {
		if got := breaches(c.file, []byte(c.src)); len(got) > 0 {
			t.Errorf("%s %q: %q, want none", c.file, c.src, got)
		}
	}
}

// room is the arrows' entry that a file belongs to, "" for none.
func room(file string) string {
	for d := path.Dir(file); d != "."; d = path.Dir(d) {
		if _, ok := arrows[d]; ok {
			return d
		}
	}
	return ""
}

// breaches reads one file, given by its path from the top, and says what it
// does against the house. Test files may use what they like of the standard
// library and any sister, but no browser and no drawing library.
func breaches(file string, src []byte) []string {
	fset := token.NewFileSet()
	f, err := parser.ParseFile(fset, file, src, parser.ParseComments)
	if err != nil {
		return []string{err.Error()}
	}
	var out []string
	say := func(format string, a ...any) { out = append(out, file+": "+fmt.Sprintf(format, a...)) }
	r := room(file)
	if r == "" {
		say("is in no room of the house")
		return out
	}
	test := strings.HasSuffix(file, "_test.go")
	inKernel := r == "fold" || strings.HasPrefix(r, "fold/")
	names := map[string]string{} // local name of an import -> its path
	for _, spec := range f.Imports {
		p, _ := strconv.Unquote(spec.Path.Value)
		name := path.Base(strings.TrimSuffix(p, "/v2"))
		if spec.Name != nil {
			name = spec.Name.Name
		}
		names[name] = p
		under := func(dir string) bool { return p == dir || strings.HasPrefix(p, dir+"/") }
		switch {
		case under(module):
			if in := strings.TrimPrefix(strings.TrimPrefix(p, module), "/"); !test && !mayImport(r, in) {
				say("%s may not import %s", r, p)
			}
		case p == "syscall/js":
			if !strings.HasSuffix(strings.TrimSuffix(file, "_test.go"), "_js.go") && !strings.HasSuffix(file, "_js_test.go") || r != "wasm" && r != "render" {
				say("imports syscall/js; only *_js.go files of wasm and render may")
			}
		case under("github.com/hajimehoshi/ebiten"):
			if r != "render" && r != "wasm" {
				say("imports Ebitengine; only render and wasm may")
			} else if !onlyJS(f) {
				say("imports Ebitengine without //go:build js")
			}
		case inKernel && !test && p != "math/rand/v2":
			for _, b := range kernelBans {
				if under(b) && !(b == "time" && r == "fold/draft/pdf") { // which is handed the date that a PDF file holds
					say("imports %s, which the kernel may not", p)
				}
			}
		}
	}
	if inKernel && !test {
		ast.Inspect(f, func(n ast.Node) bool {
			s, ok := n.(*ast.SelectorExpr)
			if !ok {
				return true
			}
			at := fset.Position(s.Pos()).Line
			if s.Sel.Name == "NormFloat64" || s.Sel.Name == "ExpFloat64" {
				say("line %d: %s differs between amd64 and wasm", at, s.Sel.Name)
			}
			if x, ok := s.X.(*ast.Ident); ok {
				switch {
				case names[x.Name] == "math" && slices.Contains(mathBans, s.Sel.Name):
					say("line %d: math.%s differs between amd64 and wasm", at, s.Sel.Name)
				case names[x.Name] == "math/rand/v2" && !slices.Contains(seededRand, s.Sel.Name):
					say("line %d: rand.%s has no seed of ours", at, s.Sel.Name)
				}
			}
			return true
		})
	}
	return out
}

// mayImport reports whether a file of room r may import the module's package in.
func mayImport(r, in string) bool {
	if in == r { // a room's own tests and parts
		return true
	}
	for _, a := range arrows[r] {
		if a == in {
			return true
		}
		if dir, ok := strings.CutSuffix(a, "/*"); ok && (in == dir || strings.HasPrefix(in, dir+"/")) {
			return true
		}
	}
	return false
}

// onlyJS reports whether the file's build line keeps it out of native builds.
func onlyJS(f *ast.File) bool {
	for _, g := range f.Comments {
		if g.Pos() > f.Package {
			break
		}
		for _, c := range g.List {
			if !constraint.IsGoBuild(c.Text) {
				continue
			}
			if x, err := constraint.Parse(c.Text); err == nil {
				return !x.Eval(func(tag string) bool { return tag != "js" && tag != "wasm" && tag != "ignore" })
			}
		}
	}
	return false
}
