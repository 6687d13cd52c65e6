package main

// The command as a user calls it: arguments in, status, stdout and stderr out.
// Golden files are in testdata/golden/check; go test ./cmd/dryfold -update writes
// them anew from what the program now says.

import (
	"bytes"
	"encoding/json"
	"flag"
	"fmt"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"dryfold/fold"
	"dryfold/fold/partfile"
)

var update = flag.Bool("update", false, "write the golden files anew")

const (
	parts  = "../../testdata/parts"
	golden = "../../testdata/golden/check"
)

// use runs the command.
func use(args ...string) (status int, out, err string) {
	var o, e bytes.Buffer
	status = run(args, &o, &e)
	return status, o.String(), e.String()
}

func partFiles(t *testing.T) []string {
	t.Helper()
	var files []string
	for _, pattern := range []string{parts + "/*.dryfold", bySizes + "/*.dryfold", "../../assets/*.dryfold"} {
		f, err := filepath.Glob(pattern)
		if err != nil {
			t.Fatal(err)
		}
		files = append(files, f...)
	}
	if len(files) < 15 {
		t.Fatalf("only %d part files", len(files))
	}
	return files
}

// TestCheckGolden compares every part's JSON with its golden file: the same keys
// in the same order, the same words, and numbers within 2e-6.
func TestCheckGolden(t *testing.T) {
	for _, file := range partFiles(t) {
		name := strings.TrimSuffix(filepath.Base(file), ".dryfold")
		_, out, msg := use("check", "-json", file)
		if msg != "" {
			t.Errorf("%s: stderr: %s", name, msg)
		}
		at := filepath.Join(golden, name+".json")
		if *update {
			var b bytes.Buffer
			if err := json.Indent(&b, []byte(out), "", " "); err != nil {
				t.Fatal(err)
			}
			if err := os.MkdirAll(golden, 0o755); err != nil {
				t.Fatal(err)
			}
			if err := os.WriteFile(at, b.Bytes(), 0o644); err != nil {
				t.Fatal(err)
			}
			continue
		}
		want, err := os.ReadFile(at)
		if err != nil {
			t.Errorf("%v; go test ./cmd/dryfold -update writes it", err)
			continue
		}
		if d := differ(tokens(t, out), tokens(t, string(want))); d != "" {
			t.Errorf("%s: %s", name, d)
		}
		if strings.Contains(out, "-0,") || strings.Contains(out, "-0}") || strings.Contains(out, "-0]") {
			t.Errorf("%s: a minus nought in %s", name, out)
		}
	}
}

// tokens is a JSON text as a flat list, key order kept.
func tokens(t *testing.T, text string) []json.Token {
	t.Helper()
	d := json.NewDecoder(strings.NewReader(text))
	var out []json.Token
	for d.More() || len(out) > 0 {
		tok, err := d.Token()
		if err != nil {
			break
		}
		out = append(out, tok)
	}
	return out
}

func differ(got, want []json.Token) string {
	for i := range min(len(got), len(want)) {
		g, isNumber := got[i].(float64)
		w, ok := want[i].(float64)
		if isNumber && ok && math.Abs(g-w) <= 2e-6*max(1, math.Abs(w)*1e-3) || got[i] == want[i] {
			continue
		}
		return fmt.Sprintf("got %v, want %v, after %v", got[i], want[i], want[max(0, i-6):i])
	}
	if len(got) != len(want) {
		return fmt.Sprintf("%d pieces, want %d", len(got), len(want))
	}
	return ""
}

// TestDifferCatches: the comparison fails where it must.
func TestDifferCatches(t *testing.T) {
	for _, c := range [][2]string{{`{"a":1}`, `{"a":1.00001}`}, {`{"a":1}`, `{"b":1}`}, {`[1]`, `[1,2]`}, {`null`, `0`}} {
		if differ(tokens(t, c[0]), tokens(t, c[1])) == "" {
			t.Errorf("%s and %s pass as the same", c[0], c[1])
		}
	}
}

func TestStatus(t *testing.T) {
	ok, stop := parts+"/bracket.dryfold", parts+"/fouls.dryfold"
	for _, c := range []struct {
		args   []string
		status int
		stderr string
	}{
		{[]string{"check", ok}, 0, ""},
		{[]string{"check", stop}, 1, ""},
		{[]string{"check", ok, stop, "-json"}, 1, ""},
		{[]string{"check", stop, "no-such-file", ok}, 2, "no such file"},
		{[]string{"check"}, 2, "no file"},
		{[]string{"check", "-nonsense", ok}, 2, "nonsense"},
		{[]string{"check", "../../testdata"}, 2, "directory"},
		{[]string{"fold", ok}, 2, `no verb "fold"`},
		{nil, 2, "dryfold check"},
		{[]string{"draw", ok}, 2, "no -o"},
		{[]string{"draw", ok, "-o", "x.bmp"}, 2, "x.bmp"},
		{[]string{"draw", ok, "-o", "x.svg", "-units", "furlong"}, 2, "furlong"},
		{[]string{"draw", ok, "-o", "x.png", "-size", "0x5"}, 2, "0x5"},
		{[]string{"draw", ok, "-o", "x.png", "-size", "90000x90000"}, 2, "90000"},
		{[]string{"draw", ok, "-o", "x.png", "-view", "sideways"}, 2, "sideways"},
		{[]string{"draw", ok, "-o", "x.png", "-done", "9"}, 2, "1 swing(s)"},
		{[]string{"open", "https://example.org/"}, 2, "link"},
		{[]string{"open", "#a!!!"}, 2, "found"},
		{[]string{"serve", "/no/such/folder"}, 2, "no such file"},
		{[]string{"site"}, 2, "no -o"},
	} {
		status, _, msg := use(c.args...)
		if status != c.status || !strings.Contains(msg, c.stderr) || (c.stderr == "") != (msg == "") {
			t.Errorf("%q: status %d, stderr %q; want %d, %q", c.args, status, msg, c.status, c.stderr)
		}
	}
}

// TestErrorJSON: with -json every file has its line on stdout, a bad one an error object.
func TestErrorJSON(t *testing.T) {
	dir := t.TempDir()
	write := func(name, text string) string {
		f := filepath.Join(dir, name)
		if err := os.WriteFile(f, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		return f
	}
	empty, broken := write("empty.dryfold", ""), write("broken.dryfold", "{\"dryfold\": 1,\n\"name\" 2}")
	status, out, _ := use("check", "-json", empty, parts+"/bracket.dryfold", broken, "../../testdata/bad/angle-negative.dryfold")
	lines := strings.Split(strings.TrimSuffix(out, "\n"), "\n")
	if status != 2 || len(lines) != 4 {
		t.Fatalf("status %d, %d lines; want 2, 4:\n%s", status, len(lines), out)
	}
	type object struct {
		Part  string
		Error *problem
	}
	var o [4]object
	for i, l := range lines {
		if err := json.Unmarshal([]byte(l), &o[i]); err != nil {
			t.Fatal(err)
		}
	}
	if e := o[0].Error; e == nil || e.Path != nil || e.Line == nil || *e.Line != 1 || *e.File != empty {
		t.Errorf("empty file: %s", lines[0])
	}
	if o[1].Error != nil || o[1].Part == "" {
		t.Errorf("good file: %s", lines[1])
	}
	if e := o[2].Error; e == nil || e.Path != nil || e.Line == nil || *e.Line != 2 {
		t.Errorf("broken file: %s", lines[2])
	}
	if e := o[3].Error; e == nil || e.Path == nil || *e.Path != "blank.bends[0].angle" || e.Found == "" || e.Need == "" {
		t.Errorf("bad value: %s", lines[3])
	}
	// Wrong usage is said the same way.
	status, out, _ = use("check", "-json", "-nonsense")
	if status != 2 || json.Unmarshal([]byte(out), &o[0]) != nil || o[0].Error == nil || o[0].Error.File != nil {
		t.Errorf("wrong usage: %d, %s", status, out)
	}
}

// TestLinkAndOpen: a link opens to the very part, and says the page's own address.
func TestLinkAndOpen(t *testing.T) {
	for _, file := range partFiles(t) {
		status, out, msg := use("link", "-at", "https://example.org/x/", file)
		link := strings.TrimSuffix(out, "\n")
		if status != 0 || !strings.HasPrefix(link, "https://example.org/x/#a") || strings.Contains(link, "\n") {
			t.Fatalf("%s: %d, %q, %q", file, status, out, msg)
		}
		to := filepath.Join(t.TempDir(), "back.dryfold")
		if status, _, msg := use("open", link, "-o", to); status != 0 {
			t.Fatalf("%s: %s", file, msg)
		}
		was, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		spec, err := partfile.Read(was)
		if err != nil {
			t.Fatal(err)
		}
		got, err := os.ReadFile(to)
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(got, partfile.Write(spec)) {
			t.Errorf("%s comes back from its link as another part", file)
		}
		if status, again, _ := use("link", "-at", "https://example.org/x/", to); status != 0 || again != out {
			t.Errorf("%s: the link of what it opens to differs", file)
		}
	}
}

func TestDraw(t *testing.T) {
	dir := t.TempDir()
	for _, c := range []struct {
		args   []string
		w, h   int
		starts string
	}{
		{[]string{"-o", "a.png", "-size", "320x200"}, 320, 200, ""},
		{[]string{"-o", "b.png", "-size", "200x320", "-done", "0.5", "-dark", "-plain", "-view", "above"}, 200, 320, ""},
		{[]string{"-o", "a.svg"}, 0, 0, "<svg "},
		{[]string{"-o", "b.SVG", "-fit", "-units", "in"}, 0, 0, "<svg "},
	} {
		args := append([]string{"draw", parts + "/tray.dryfold"}, c.args...)
		args[3] = filepath.Join(dir, args[3])
		if status, _, msg := use(args...); status != 0 {
			t.Errorf("%q: %d, %s", c.args, status, msg)
			continue
		}
		data, err := os.ReadFile(args[3])
		if err != nil {
			t.Fatal(err)
		}
		if c.starts != "" {
			if !strings.HasPrefix(string(data), c.starts) {
				t.Errorf("%q starts with %q", c.args, data[:20])
			}
			continue
		}
		im, err := png.Decode(bytes.NewReader(data))
		if err != nil {
			t.Fatal(err)
		}
		seen := map[any]bool{}
		for y := range c.h {
			for x := range c.w {
				seen[im.At(x, y)] = true
			}
		}
		if im.Bounds().Dx() != c.w || im.Bounds().Dy() != c.h || len(seen) < 50 {
			t.Errorf("%q: %v with %d colours", c.args, im.Bounds(), len(seen))
		}
	}
}

func TestHelp(t *testing.T) {
	for _, v := range verbs() {
		status, out, msg := use(v.name, "-h")
		if status != 0 || msg != "" || !strings.Contains(out, "Example:") || !strings.Contains(out, "dryfold "+v.name) {
			t.Errorf("%s -h: %d, %q, %q", v.name, status, out, msg)
		}
		if _, all, _ := use("-h"); !strings.Contains(all, "dryfold "+v.name) {
			t.Errorf("-h does not name %s", v.name)
		}
	}
	_, out, _ := use("check", "-h")
	for _, r := range fold.Rules {
		if !strings.Contains(out, r.Name) {
			t.Errorf("check -h does not name the rule %s", r.Name)
		}
	}
}

// TestExamples: the example of each verb's help runs as it stands, and so does every line of the README's on bend,
// gauge, new, freeze and check -tools, with files of the names they use. Not tried here: site and serve, which need the page's
// programs built and take a port (site_test.go, browser test).
func TestExamples(t *testing.T) {
	var lines []string
	for _, v := range verbs() {
		if v.name != "site" && v.name != "serve" {
			lines = append(lines, v.shows)
		}
	}
	readme, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	for _, line := range strings.Split(string(readme), "\n") {
		line, _, _ = strings.Cut(strings.TrimSpace(line), "  ")
		for _, verb := range []string{"bend", "gauge", "new", "freeze", "check -tools"} {
			if strings.HasPrefix(line, "dryfold "+verb+" ") {
				lines = append(lines, line)
			}
		}
	}
	if len(lines) < 10 {
		t.Errorf("only %d examples", len(lines))
	}
	dir := t.TempDir()
	for name, from := range map[string]string{"tray.dryfold": "/tray.dryfold", "own.drybends": "/measured.drybends"} {
		data, err := os.ReadFile(parts + from)
		if err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(dir, name), data, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	t.Chdir(dir)
	_, link, _ := use("link", "tray.dryfold", "-at", "https://example.org/fold/")
	for _, line := range lines {
		words := shellWords(strings.ReplaceAll(line, "https://example.org/fold/#a...", strings.TrimSpace(link)))
		status, out, msg := use(words[1:]...)
		if status != 0 || out == "" && !strings.HasPrefix(msg, "wrote ") || words[0] != "dryfold" {
			t.Errorf("%s: %d, %s%s", line, status, out, msg)
		}
	}
}

// shellWords splits a line at its spaces, but for those in quotation marks.
func shellWords(line string) []string {
	var out []string
	for line = strings.TrimSpace(line); line != ""; line = strings.TrimSpace(line) {
		end := " "
		if q := line[:1]; q == `"` || q == "'" {
			end, line = q, line[1:]
		}
		word, rest, _ := strings.Cut(line, end)
		out, line = append(out, word), rest
	}
	return out
}

// TestCheckMetal: the report to read says what K, radius and set angle rest on, what
// doubt is worth, and weight and price, in the file's units.
func TestCheckMetal(t *testing.T) {
	for file, want := range map[string][]string{
		"measured": {"What doubt is worth here, biggest first", "blank, for the same sizes, mm", "Price     metal ", "EUR",
			"Set angle: where the leaf is stopped", "deg, give or take ", "measured by you: 3 strips", "Least inside radius, by the lists", "measured on a bent strip; bend line across the grain"},
		"measured-inch": {"blank, for the same sizes, in", "R 0.059 in, brake", "0.0591 in, measured on a bent strip"},
		"stated":        {"Weight    38.7 g; its rectangle of sheet 39.1 g", "density published, from memory", "not known; bend a strip first", "At least: a lower limit", "inside radius 1.25 mm, by the nose", "given by you: three strips"},
		"tray":          {"assumed: given in the part"},
	} {
		_, out, msg := use("check", parts+"/"+file+".dryfold")
		for _, w := range want {
			if !strings.Contains(out, w) || msg != "" {
				t.Errorf("%s: no %q in\n%s%s", file, w, out, msg)
			}
		}
	}
}

// TestCheckText: least radii keep their ranges and say what is advice, the table of bends is no wider than a screen, and
// what K rests on stands under it once.
func TestCheckText(t *testing.T) {
	_, out, msg := use("check", parts+"/measured.dryfold")
	for _, w := range []string{"0.80 to 1.60 mm; published", "2.39 mm, recommended, not least; published", "\n  K: give or take 0.092; measured by you: 3 strips"} {
		if !strings.Contains(out, w) || msg != "" {
			t.Errorf("no %q in\n%s%s", w, out, msg)
		}
	}
	_, out, _ = use("check", "../../assets/wax-pan.dryfold")
	_, bends, _ := strings.Cut(out, "\nBends\n")
	bends, _, _ = strings.Cut(bends, "\n\n")
	if strings.Count(bends, "K: assumed: given in the part") != 1 || strings.Count(bends, "\n") < 9 {
		t.Error(bends)
	}
	for _, l := range strings.Split(bends, "\n") {
		if len([]rune(l)) > textWidth+2 {
			t.Errorf("a line of %d characters: %s", len([]rune(l)), l)
		}
	}
	for kg, want := range map[float64]string{0.0000123: "0.012 g", 0.0388: "38.8 g", 0.968: "968 g", 0.9997: "1.000 kg", 2.5: "2.500 kg"} {
		if got := weight(kg); got != want {
			t.Errorf("%g kg is %s, want %s", kg, got, want)
		}
	}
}

// TestPanic: a mistake of ours ends with a message and status 2.
func TestPanic(t *testing.T) {
	status, _, msg := func() (int, string, string) {
		var o, e bytes.Buffer
		return run([]string{"check", parts + "/bracket.dryfold"}, panicWriter{}, &e), o.String(), e.String()
	}()
	if status != 2 || !strings.Contains(msg, "a mistake of ours") {
		t.Errorf("%d, %q", status, msg)
	}
}

type panicWriter struct{}

func (panicWriter) Write([]byte) (int, error) { panic("on purpose") }
