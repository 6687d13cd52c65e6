//go:build readers

package cutfile

import (
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"dryfold/fold"
	"dryfold/fold/geom"
	"dryfold/testdata/readers"
)

// dxfRead is what testdata/readers/dxf.mjs says of a file, by the package dxf-parser.
type dxfRead struct {
	Header  map[string]any
	Layers  []string
	Areas   map[string]float64
	Lengths map[string]float64
	Counts  map[string]int // by layer and kind
	Open    int
	Short   int
	Twice   int
	Arcs    []struct {
		Layer         string
		Centre        [2]float64
		Radius, Angle float64
	}
	Texts []string
}

// readDXF hands files to the reader.
func readDXF(t *testing.T, files []File) []dxfRead {
	t.Helper()
	dir := t.TempDir()
	var names []string
	for i, f := range files {
		names = append(names, filepath.Join(dir, fmt.Sprint(i, ".dxf")))
		if err := os.WriteFile(names[i], f.DXF(), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	out := readers.Read[[]dxfRead](t, "dxf.mjs", names...)
	if len(out) != len(files) {
		t.Fatalf("%d of %d files read", len(out), len(files))
	}
	return out
}

// TestReaderDXF: dxf-parser reads every part in mm and inches, either face up. Area and length of what it reads are the
// part's to 1e-6, by the kernel and by chords; each outline is closed, nothing is drawn twice or has no length; layers are
// as named; arcs are the part's own circles.
func TestReaderDXF(t *testing.T) {
	names, parts := partsOf(t)
	var files []File
	var of []int
	var opts []Options
	for i, p := range parts {
		for _, o := range []Options{{Bends: BendLines, Text: true}, {Units: fold.Inch, Bends: BendLines, Tangents: true}, {Mirror: true, Holes: CutHoles}} {
			f, err := Make(p, o)
			if err != nil {
				t.Fatal(names[i], err)
			}
			files, of, opts = append(files, f), append(of, i), append(opts, o)
		}
	}
	arcs, off := 0, 0.0
	for k, r := range readDXF(t, files) {
		p, o, name := parts[of[k]], opts[k], fmt.Sprintf("%s %+v", names[of[k]], opts[k])
		u := o.Units.Scale()
		area := (r.Areas[LayerOutline]*signOf(r.Areas[LayerOutline]) - math.Abs(r.Areas[LayerCutouts]) - r.Areas[LayerHoles]) * u * u
		length := (r.Lengths[LayerOutline] + r.Lengths[LayerCutouts] + r.Lengths[LayerHoles]) * u
		wantArea, wantLength := secondMethod(p)
		off = max(off, math.Abs(area-wantArea), math.Abs(length-wantLength))
		if math.Abs(area-wantArea) > 1e-6 || math.Abs(area-p.Blank.Area) > 1e-6 || math.Abs(length-wantLength) > 1e-6 {
			t.Errorf("%s: area %.9f, length %.9f; by chords %.9f, %.9f, by the kernel %.9f", name, area, length, wantArea, wantLength, p.Blank.Area)
		}
		if r.Open+r.Short+r.Twice > 0 {
			t.Errorf("%s: %d open, %d without length, %d twice", name, r.Open, r.Short, r.Twice)
		}
		if r.Header["$ACADVER"] != "AC1009" || r.Header["$INSUNITS"] != map[fold.Units]float64{fold.MM: 4, fold.Inch: 1}[o.Units] {
			t.Errorf("%s: header %v", name, r.Header)
		}
		if n := r.Counts[LayerOutline+" POLYLINE"]; n != 1 || r.Counts[LayerCutouts+" POLYLINE"] != len(p.Spec.Cutouts) || r.Counts[LayerHoles+" CIRCLE"] != len(p.Spec.Holes) {
			t.Errorf("%s: %v for %d cutouts and %d holes", name, r.Counts, len(p.Spec.Cutouts), len(p.Spec.Holes))
		}
		for n := range r.Counts {
			if layer, _, _ := strings.Cut(n, " "); !contains(r.Layers, layer) || !contains(layers, layer) {
				t.Errorf("%s: layer %s, with %v in the table", name, layer, r.Layers)
			}
		}
		if o.Text && (len(r.Texts) < 4 || r.Texts[0] != p.Spec.Name || r.Texts[len(r.Texts)-1] != "Units of this file: millimetres.") {
			t.Errorf("%s: text %q", name, r.Texts)
		}
		arcs += checkArcs(t, name, p, o, r)
	}
	if arcs < 50 {
		t.Errorf("only %d arcs in all", arcs)
	}
	t.Logf("%d files, %d arcs; areas and lengths within %.1e", len(files), arcs, off)
}

func signOf(x float64) float64 { return math.Copysign(1, x) }

func contains(list []string, s string) bool {
	for _, l := range list {
		if l == s {
			return true
		}
	}
	return false
}

// checkArcs: every arc read lies on the circle of one of the part's arcs, and together they turn as far.
func checkArcs(t *testing.T, name string, p *fold.Part, o Options, r dxfRead) (n int) {
	t.Helper()
	k := p.Spec.Units.Scale()
	type circle struct {
		centre geom.Vec2
		radius float64
	}
	var want []circle
	for _, c := range append([]fold.Contour{p.Spec.Outline}, p.Spec.Cutouts...) {
		for i, v := range c {
			if v.Through == nil {
				continue
			}
			if centre, radius, ok := geom.Circle(c[(i+len(c)-1)%len(c)].At.Mul(k), v.Through.Mul(k), v.At.Mul(k)); ok {
				centre = centre.Sub(p.Blank.Box.Min)
				if o.Mirror {
					centre[0] = p.Blank.Box.Size()[0] - centre[0]
				}
				want = append(want, circle{centre, radius})
			}
		}
	}
	for _, a := range r.Arcs {
		found := false
		for _, w := range want {
			c := geom.Vec2{a.Centre[0], a.Centre[1]}.Mul(o.Units.Scale())
			found = found || c.Sub(w.centre).Len() < 1e-6 && math.Abs(a.Radius*o.Units.Scale()-w.radius) < 1e-6
		}
		if !found {
			t.Errorf("%s: an arc about %v, radius %v, is none of the part's %v", name, a.Centre, a.Radius, want)
		}
	}
	if len(r.Arcs) < len(want) {
		t.Errorf("%s: %d arcs for the part's %d", name, len(r.Arcs), len(want))
	}
	return len(r.Arcs)
}

// TestReaderKerf: the library manifold-3d moves the blank's edges, as fine polygons, by half the cut's width, and comes to the
// areas that dxf-parser reads in our files. What we refuse it makes into other than so many loops, or they are not refused for that.
func TestReaderKerf(t *testing.T) {
	names, parts := partsOf(t)
	var files []File
	type job struct {
		Loops [][][2]float64 `json:"loops"`
		By    float64        `json:"by"`
	}
	var jobs []job
	var of []string
	var short []float64 // of each, by how much the polygons are too small
	for i, p := range parts {
		var loops [][][2]float64
		chords, round := 0.0, 0.0 // area and length of the polygons
		add := func(ps []geom.Piece) {
			var l [][2]float64
			for _, q := range ps {
				n := 1
				if q.Turn != 0 {
					n = 100
				}
				for j := range n {
					l = append(l, q.At(float64(j)/float64(n)))
				}
			}
			loops = append(loops, l)
			chord := make(geom.Loop, len(l))
			for j, v := range l {
				chord[j] = v
				round += geom.Vec2(v).Sub(l[(j+1)%len(l)]).Len()
			}
			if a := math.Abs(chord.Area()); len(loops) == 1 {
				chords += a
			} else {
				chords -= a
			}
		}
		b, err := blankOf(p)
		if err != nil {
			t.Fatal(names[i], err)
		}
		for _, c := range b.contours {
			add(c.ps)
		}
		for _, h := range b.holes {
			half := geom.Piece{A: h.At.Add(geom.Vec2{h.Radius, 0}), B: h.At.Sub(geom.Vec2{h.Radius, 0}), Turn: math.Pi}
			add([]geom.Piece{half, {A: half.B, B: half.A, Turn: math.Pi}})
		}
		for _, kerf := range []float64{0.1, 0.5, 1, 2} {
			f, err := Make(p, Options{Kerf: kerf})
			if err != nil {
				continue
			}
			files, jobs, of = append(files, f), append(jobs, job{loops, kerf / 2}), append(of, fmt.Sprint(names[i], " ", kerf))
			_, length := secondMethod(p)
			short = append(short, p.Blank.Area-chords+(length-round)*kerf/2)
		}
	}
	data, err := json.Marshal(jobs)
	if err != nil {
		t.Fatal(err)
	}
	theirs := readers.Read[[]struct {
		Area  float64
		Loops int
	}](t, "offset.mjs", readers.File(t, "jobs.json", data))
	worst := 0.0
	for k, r := range readDXF(t, files) {
		area := math.Abs(r.Areas[LayerOutline]) - math.Abs(r.Areas[LayerCutouts]) - r.Areas[LayerHoles]
		off := math.Abs(area - theirs[k].Area - short[k])
		worst = max(worst, off)
		// Its chords of 512 a round fall short by 25 ppm of a round's area; what ours lack is added.
		if off > 0.01 || theirs[k].Loops != len(jobs[k].Loops) || r.Open+r.Short+r.Twice > 0 {
			t.Errorf("%s: area %.5f, by manifold-3d %.5f in %d loops; %d open, %d without length, %d twice", of[k], area, theirs[k].Area, theirs[k].Loops, r.Open, r.Short, r.Twice)
		}
	}
	if len(files) < 60 {
		t.Errorf("only %d files", len(files))
	}
	t.Logf("%d files, areas within %.2g mm2", len(files), worst)
}

// TestReaderDXFCatches: the reader's figures find what must be found.
func TestReaderDXFCatches(t *testing.T) {
	line := geom.Piece{A: geom.Vec2{0, 0}, B: geom.Vec2{10, 0}}
	f := File{Layers: []Layer{
		{Name: LayerOutline, Paths: []Path{{Pieces: []geom.Piece{line, {A: line.B, B: geom.Vec2{10, 1e-9}}}}}},
		{Name: LayerUp, Lines: [][2]geom.Vec2{{{0, 0}, {5, 5}}, {{5, 5}, {0, 0}}}},
	}}
	r := readDXF(t, []File{f})[0]
	if r.Open != 1 || r.Short != 1 || r.Twice != 1 {
		t.Errorf("%d open, %d without length, %d twice; each once in the file", r.Open, r.Short, r.Twice)
	}
	if msg := readers.Refused(t, "dxf.mjs", readers.File(t, "a.dxf", []byte("no such thing"))); msg == "" {
		t.Error("nonsense is read")
	}
}
