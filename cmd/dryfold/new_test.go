package main

// Parts by sizes on the command line: new, freeze, and the other verbs on them.

import (
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"dryfold/fold"
	"dryfold/fold/partfile"
	"dryfold/fold/shape"
)

const bySizes = "../../testdata/sizes"

func sizedFiles(t *testing.T) []string {
	t.Helper()
	files, err := filepath.Glob(bySizes + "/*.dryfold")
	if err != nil || len(files) < 3 {
		t.Fatalf("%d files, %v", len(files), err)
	}
	return files
}

// makeNew runs new and reads what it wrote.
func makeNew(t *testing.T, args ...string) (file string, spec fold.Spec) {
	t.Helper()
	file = filepath.Join(t.TempDir(), "new.dryfold")
	status, out, msg := use(append(append([]string{"new"}, args...), "-o", file)...)
	if status != 0 || out != "" {
		t.Fatalf("%q: %d, %s%s", args, status, out, msg)
	}
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if spec, err = partfile.Read(data); err != nil {
		t.Fatal(err)
	}
	return file, spec
}

// TestNewStarters: every starter makes a part, in either unit, that can be made; in mm, that stays the same frozen,
// linked and drawn too.
func TestNewStarters(t *testing.T) {
	_, help, _ := use("new", "-h")
	for _, s := range shape.Starters {
		if !strings.Contains(help, "\n  "+s.ID+" ") {
			t.Errorf("new -h does not list %s", s.ID)
		}
		for _, n := range s.Make(fold.MM).Sizes.Named {
			if !strings.Contains(help, n.Name) || !strings.Contains(help, n.Label) {
				t.Errorf("new -h does not list %s of %s", n.Name, s.ID)
			}
		}
		for _, u := range []string{"mm", "in"} {
			file, spec := makeNew(t, s.ID, "-units", u)
			if spec.Units.String() != u || spec.Sizes == nil {
				t.Errorf("%s in %s: %v", s.ID, u, spec.Units)
			}
			if status, out, msg := use("check", file); status != 0 {
				t.Errorf("%s in %s: %d, %s%s", s.ID, u, status, out, msg)
			}
			if u == "mm" {
				staysTheSame(t, file)
			}
		}
	}
}

// staysTheSame: a part by sizes frozen to its blank is reported as it was, but for what only its sizes tell; its
// link opens to the same file; it can be drawn both ways.
func staysTheSame(t *testing.T, file string) {
	t.Helper()
	dir := t.TempDir()
	frozen := filepath.Join(dir, "frozen.dryfold")
	if status, _, msg := use("freeze", file, "-o", frozen); status != 0 {
		t.Fatalf("freeze %s: %d, %s", file, status, msg)
	}
	report := func(file string) (r fold.Report) {
		_, out, msg := use("check", "-json", file)
		if err := json.Unmarshal([]byte(out), &r); err != nil || msg != "" {
			t.Fatalf("%s: %v, %s", file, err, msg)
		}
		return r
	}
	was, is := report(file), report(frozen)
	for _, tr := range was.Troubles {
		if !slices.ContainsFunc(fold.Rules, func(r fold.Rule) bool { return r.Name == tr.Rule }) {
			t.Errorf("%s: %q is none of the rules that check -h lists", file, tr.Rule)
		}
	}
	for _, c := range was.Corners {
		if c.Close == "" || c.A == "" || c.B == "" {
			t.Errorf("%s: a corner without words: %+v", file, c)
		}
		i := seamIndex(was.Seams, c.Name)
		if (i < 0) != (c.GapMin == nil) || (i < 0) != (c.GapMax == nil) {
			t.Errorf("%s: the corner %s and its seam %d: %v, %v", file, c.Name, i, c.GapMin, c.GapMax)
		}
		if i < 0 {
			continue // two flanges that do not meet
		}
		if s := was.Seams[i]; math.Abs(s.GapMin-*c.GapMin) > 2e-6 || math.Abs(s.GapMax-*c.GapMax) > 2e-6 {
			t.Errorf("%s: the corner %s is %g to %g, its seam %g to %g", file, c.Name, *c.GapMin, *c.GapMax, s.GapMin, s.GapMax)
		}
	}
	if is.Corners != nil {
		t.Errorf("%s: a part given by its blank has corners", file)
	}
	told := was.Troubles[:min(len(is.Troubles), len(was.Troubles))] // the notes on sizes stand last
	was.Corners, was.Troubles = nil, told
	a, _ := json.Marshal(was)
	b, _ := json.Marshal(is)
	if d := differ(tokens(t, string(a)), tokens(t, string(b))); d != "" {
		t.Errorf("%s is another part once frozen: %s", file, d)
	}

	_, link, _ := use("link", file)
	back := filepath.Join(dir, "back.dryfold")
	if status, _, msg := use("open", strings.TrimSpace(link), "-o", back); status != 0 {
		t.Errorf("%s: its link does not open: %s", file, msg)
	}
	if _, again, _ := use("link", back); again != link || !strings.Contains(link, "#a") {
		t.Errorf("%s: %q and %q", file, link, again)
	}
	for _, out := range []string{"a.svg", "a.png"} {
		if status, _, msg := use("draw", file, "-o", filepath.Join(dir, out), "-size", "200x150"); status != 0 {
			t.Errorf("%s as %s: %s", file, out, msg)
		}
	}
}

func seamIndex(all []fold.SeamReport, name string) int {
	for i, s := range all {
		if s.Name == name {
			return i
		}
	}
	return -1
}

// TestSizedFiles: the test parts by sizes, the same way.
func TestSizedFiles(t *testing.T) {
	for _, file := range sizedFiles(t) {
		staysTheSame(t, file)
	}
	_, out, msg := use("check", bySizes+"/measured-tray.dryfold")
	for _, w := range []string{"\nCorners, as made\n", "gap wanted", "edge to edge", "drilled"} {
		if !strings.Contains(out, w) || msg != "" {
			t.Errorf("no %q in\n%s%s", w, out, msg)
		}
	}
	if _, out, _ := use("check", parts+"/tray.dryfold"); strings.Contains(out, "Corners, as made") {
		t.Error("corners of a part given by its blank")
	}
}

// TestNewSizes: sizes in every form of writing come to the same part, which measures so.
func TestNewSizes(t *testing.T) {
	size := func(args ...string) [3]float64 {
		t.Helper()
		file, _ := makeNew(t, args...)
		_, out, _ := use("check", "-json", file)
		var r fold.Report
		if err := json.Unmarshal([]byte(out), &r); err != nil {
			t.Fatal(err)
		}
		return r.Finished.Box()
	}
	for _, args := range [][]string{
		{"box", "wide=254", "long=381", "high=60.325"},
		{"box", "wide=10in", "long=15 in", "high=2 3/8 in"},
		{"box", "wide=10", "long=15", "high=2-3/8", "-units", "in"},
		{"box", "wide=10", "long=15", "high=2", "3/8", "-units", "in"}, // as a shell parts it
		{"box", "wide=254 mm", "long=381mm", "high=60.325 mm", "-units", "in"},
		{"-units", "in", "box", "wide=10", "long=wide * 3/2", `high=2 3/8"`},
	} {
		got := size(args...)
		for i, want := range []float64{254, 381, 60.325} {
			if math.Abs(got[i]-want) > 1e-6 {
				t.Errorf("%q measures %v", args, got)
			}
		}
	}
	_, spec := makeNew(t, "tray", "thickness=1/16 in", "radius=wide / 100", "gap=0.3", "-name", "Ash tray", "-metal", "mild steel")
	if spec.Name != "Ash tray" || spec.Sheet.Metal != "mild steel" || math.Abs(spec.Sheet.Thickness-1.5875) > 1e-9 ||
		spec.Sizes.Radius.Formula != "wide / 100" || spec.Sizes.Gap.Number != 0.3 {
		t.Errorf("%+v %+v", spec, spec.Sizes)
	}
	if status, out, _ := use("new", "z"); status != 0 || !strings.Contains(out, `"sizes": {`) {
		t.Errorf("to standard output: %d, %s", status, out)
	}
}

// TestNewRefuses: what can't be is said with the size, what was found and what would do.
func TestNewRefuses(t *testing.T) {
	for _, c := range []struct {
		args []string
		want []string
	}{
		{[]string{}, []string{"no starter"}},
		{[]string{"pan"}, []string{`no starter "pan"`, "tray, ", "drip-edge"}},
		{[]string{"tray", "depth=3"}, []string{"depth: found no such size", "wide, long, high, lean, thickness, radius, gap"}},
		{[]string{"tray", "wide"}, []string{`"wide"`, "NAME=SIZE"}},
		{[]string{"tray", "wide="}, []string{"wide: found nothing"}},
		{[]string{"tray", "wide=3", "wide=4"}, []string{"wide: found the size a second time"}},
		{[]string{"tray", "wide=2+"}, []string{`wide: found "2+"`}},
		{[]string{"tray", "wide=wide"}, []string{"wide: found"}},
		{[]string{"tray", "wide=dept"}, []string{"the name dept", "long"}},
		{[]string{"tray", "thickness=thin"}, []string{"thickness: found the name thin"}},
		{[]string{"tray", "thickness=-1"}, []string{"sheet.thickness: found -1; need a thickness from 0.001"}},
		{[]string{"tray", "radius=0-1"}, []string{"sizes.radius", "which is -1"}},
		{[]string{"tray", "wide=1e3"}, []string{"wide: found"}},
		{[]string{"tray", "wide=0"}, []string{`sizes.base.wide: found "wide", which is 0; need a size from 0.001`}},
		{[]string{"tray", "lean=90"}, []string{"sizes.flanges[0].angle"}},
		{[]string{"tray", "high=1"}, []string{"sizes.flanges[0].height: found", "at least"}},
		{[]string{"tray", "-units", "cm"}, []string{"-units cm, where mm or in is needed"}},
		{[]string{"tray", "-o", "/no/such/folder/x.dryfold"}, []string{"no such file"}},
	} {
		status, out, msg := use(append([]string{"new"}, c.args...)...)
		if status != 2 || out != "" {
			t.Errorf("%q: %d, %s", c.args, status, out)
		}
		for _, w := range c.want {
			if !strings.Contains(msg, w) {
				t.Errorf("%q: no %q in %s", c.args, w, msg)
			}
		}
	}
	if status, _, msg := use("freeze", parts+"/tray.dryfold"); status != 2 || !strings.Contains(msg, "given by its blank already") {
		t.Errorf("freeze: %d, %s", status, msg)
	}
}

// TestCheckTools: what the maker's tools can't cut is told where it is asked for alone, and by the tools that were said.
func TestCheckTools(t *testing.T) {
	bench := func(tools string) string {
		file := filepath.Join(t.TempDir(), "own.drybends")
		if err := os.WriteFile(file, []byte(`{"dryfold_bench": 1, "units": "mm", "tools": `+tools+`}`), 0o644); err != nil {
			t.Fatal(err)
		}
		return file
	}
	file := bySizes + "/measured-tray.dryfold" // with three drilled holes of 8 mm
	has := func(args ...string) bool {
		_, out, msg := use(append([]string{"check", "-json", file}, args...)...)
		if msg != "" {
			t.Fatal(msg)
		}
		return strings.Contains(out, `"rule":"cut-no-drill"`)
	}
	if without, right, wrong := has(), has("-tools", bench(`{"drills": [6, 8, 10]}`)), has("-tools", bench(`{"drills": [6, 10]}`)); without || right || !wrong {
		t.Error("holes of 8 mm: ", without, right, wrong)
	}
	if status, _, msg := use("check", file, "-tools", bench(`{"drills": [0]}`)); status != 2 || !strings.Contains(msg, "tools.drills[0]: found 0") {
		t.Errorf("%d, %s", status, msg)
	}
}

// TestSizesThatMakeNoPart: they are input that can't be used, told all at once, for every verb that reads a part.
func TestSizesThatMakeNoPart(t *testing.T) {
	file := filepath.Join(t.TempDir(), "no.dryfold")
	text := `{"dryfold": 1, "name": "x", "units": "in", "sheet": {"thickness": 0.04}, "sizes": {"base": {"wide": 12, "long": 16}, "flanges": [
		{"name": "a", "on": "flor", "side": "front", "height": 2}, {"name": "b", "on": "floor", "side": "frunt", "height": 2}]}}`
	if err := os.WriteFile(file, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	for _, args := range [][]string{{"check", file}, {"link", file}, {"freeze", file}, {"draw", file, "-o", file + ".svg"}, {"draw", file, "-o", file + ".png"}} {
		status, out, msg := use(args...)
		if status != 2 || out != "" || !strings.Contains(msg, file+": sizes.flanges[0].on: found \"flor\"; need ") ||
			!strings.Contains(msg, "\n         sizes.flanges[1].side: found \"frunt\"; need ") {
			t.Errorf("%q: %d, %s%s", args, status, out, msg)
		}
	}
	_, out, _ := use("check", "-json", file, parts+"/bracket.dryfold")
	lines := strings.Split(strings.TrimSpace(out), "\n")
	var o struct{ Error *problem }
	if len(lines) != 2 || json.Unmarshal([]byte(lines[0]), &o) != nil || o.Error == nil || *o.Error.Path != "sizes.flanges[0].on" ||
		len(o.Error.More) != 1 || o.Error.More[0].Path != "sizes.flanges[1].side" || o.Error.More[0].Need == "" {
		t.Errorf("%s", out)
	}
}
