package cutfile

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"dryfold/fold"
	"dryfold/fold/foldtest"
	"dryfold/fold/geom"
)

// secondMethod is area and length of a part's edges by chords of the arcs through their three points, made exact by taking
// twice as many and extrapolating: chords fall short by a quarter of what half as many do.
func secondMethod(p *fold.Part) (area, length float64) {
	k := p.Spec.Units.Scale()
	for i, c := range append([]fold.Contour{p.Spec.Outline}, p.Spec.Cutouts...) {
		a, l := byChords(c, 256)
		b, m := byChords(c, 512)
		a, l = b+(b-a)/3, m+(m-l)/3
		if a = math.Abs(a) * k * k; i > 0 {
			a = -a
		}
		area, length = area+a, length+l*k
	}
	for _, h := range p.Spec.Holes {
		area -= math.Pi / 4 * h.Diameter * h.Diameter * k * k
		length += math.Pi * h.Diameter * k
	}
	return area, length
}

func byChords(c fold.Contour, n int) (area, length float64) {
	prev := c[len(c)-1].At
	step := func(q geom.Vec2) {
		area += geom.Cross2(prev.Sub(c[0].At), q.Sub(c[0].At)) / 2
		length += q.Sub(prev).Len()
		prev = q
	}
	for _, v := range c {
		a := prev
		if v.Through != nil {
			if o, r, ok := geom.Circle(a, *v.Through, v.At); ok {
				from := math.Atan2(a[1]-o[1], a[0]-o[0])
				turn := func(q geom.Vec2) float64 {
					return math.Mod(math.Atan2(q[1]-o[1], q[0]-o[0])-from+4*math.Pi, 2*math.Pi)
				}
				sweep := turn(v.At)
				if turn(*v.Through) > sweep {
					sweep -= 2 * math.Pi
				}
				for k := 1; k < n; k++ {
					s, co := math.Sincos(from + sweep*float64(k)/float64(n))
					step(o.Add(geom.Vec2{co, s}.Mul(r)))
				}
			}
		}
		step(v.At)
	}
	return area, length
}

// cutArea is the area that a file's cuts leave, by its own pieces.
func cutArea(f File) (area float64) {
	for _, l := range f.Layers {
		for _, p := range l.Paths {
			if p.Closed {
				area += geom.PiecesArea(p.Pieces)
			}
		}
		for _, c := range l.Circles {
			area -= math.Pi * c.Radius * c.Radius
		}
	}
	return area
}

// TestExact: without kerf and gaps, areas and lengths are the part's, by the kernel and by the second method.
func TestExact(t *testing.T) {
	names, parts := partsOf(t)
	for i, p := range parts {
		area, length := secondMethod(p)
		for _, mirror := range []bool{false, true} {
			f, err := Make(p, Options{Bends: BendLines, Tangents: true, Text: true, Mirror: mirror})
			if err != nil {
				t.Errorf("%s: %v", names[i], err)
				continue
			}
			if got := cutArea(f); math.Abs(got-area) > 1e-6 || math.Abs(got-p.Blank.Area) > 1e-6 {
				t.Errorf("%s: area %.9f, by chords %.9f, by the kernel %.9f", names[i], got, area, p.Blank.Area)
			}
			if math.Abs(f.Length-length) > 1e-6 {
				t.Errorf("%s: length %.9f, by chords %.9f", names[i], f.Length, length)
			}
			up, down, lines := 0, 0, 0.0
			for _, l := range f.Layers {
				if l.Name == LayerUp {
					up = len(l.Lines)
				}
				if l.Name == LayerDown {
					down = len(l.Lines)
				}
				if l.Name == LayerUp || l.Name == LayerDown {
					for _, e := range l.Lines {
						lines += e[1].Sub(e[0]).Len()
					}
				}
				checkLayer(t, names[i], &l)
			}
			wantUp, want := 0, 0.0
			for _, b := range p.Bends {
				if b.Up != mirror {
					wantUp++
				}
				want += b.Length
			}
			if up < wantUp || (wantUp == 0) != (up == 0) || up+down < len(p.Bends) || math.Abs(lines-want) > 2*endReach*float64(len(p.Bends)) {
				t.Errorf("%s: %d lines of up bends, %d of down, %v long; the part has %d up of %d, %v long", names[i], up, down, lines, wantUp, len(p.Bends), want)
			}
		}
	}
}

// checkLayer finds pieces without length, ends that do not meet, and what is drawn twice.
func checkLayer(t *testing.T, name string, l *Layer) {
	t.Helper()
	seen := map[string]bool{}
	twice := func(a, b, mid geom.Vec2) {
		t.Helper()
		if a[0] > b[0] || a[0] == b[0] && a[1] > b[1] {
			a, b = b, a
		}
		k := fmt.Sprintf("%.5f %.5f %.5f", a, b, mid)
		if seen[k] {
			t.Errorf("%s: %s has %s twice", name, l.Name, k)
		}
		seen[k] = true
	}
	for _, p := range l.Paths {
		for i, q := range p.Pieces {
			if q.Chord() < join || !(math.Abs(q.Turn) <= math.Pi) {
				t.Errorf("%s: %s has a piece %+v", name, l.Name, q)
			}
			twice(q.A, q.B, q.At(0.5))
			if i+1 < len(p.Pieces) && q.B != p.Pieces[i+1].A || p.Closed && i+1 == len(p.Pieces) && q.B != p.Pieces[0].A {
				t.Errorf("%s: %s does not join at %v", name, l.Name, q.B)
			}
		}
	}
	for _, e := range l.Lines {
		if e[1].Sub(e[0]).Len() < join {
			t.Errorf("%s: %s has a line of no length at %v", name, l.Name, e[0])
		}
		twice(e[0], e[1], e[0])
	}
	for _, c := range l.Circles {
		twice(c.At, c.At, c.At)
		if !(c.Radius > 0) {
			t.Errorf("%s: a circle of radius %v", name, c.Radius)
		}
	}
}

// TestKerf: with the cut's width allowed for, the outline lies outside and holes inside by half of it. The area grows by
// about the length times that.
func TestKerf(t *testing.T) {
	names, parts := partsOf(t)
	drawn := 0
	for i, p := range parts {
		bare, _ := Make(p, Options{})
		for _, kerf := range []float64{0.1, 0.3, 1, 2} {
			f, err := Make(p, Options{Kerf: kerf})
			if err != nil {
				if e := err.(*Error); e.Field != "kerf" || e.At == nil || !strings.Contains(e.Words, "widest cut that works") {
					t.Errorf("%s, %v: %v", names[i], kerf, err)
				}
				continue
			}
			drawn++
			if more := cutArea(f) - cutArea(bare) - bare.Length*kerf/2; math.Abs(more) > 3*kerf*kerf*float64(8+len(p.Spec.Outline)) {
				t.Errorf("%s, %v: the area grows by %v more than length by kerf", names[i], kerf, more)
			}
			for _, l := range f.Layers {
				checkLayer(t, names[i], &l)
			}
			k := p.Spec.Units.Scale()
			for j, c := range f.Layers[0].Circles {
				if l := f.Layers[0]; l.Name == LayerHoles && math.Abs(c.Radius-(p.Spec.Holes[j].Diameter*k-kerf)/2) > 1e-9 {
					t.Errorf("%s, %v: hole %d of radius %v", names[i], kerf, j, c.Radius)
				}
			}
		}
	}
	if drawn < 60 {
		t.Errorf("only %d drawn", drawn)
	}
}

// TestGaps: the outline has as many gaps as asked, each leaves the metal that was asked for between the cuts, away from corners,
// and on no seam's edge where the part has room elsewhere.
func TestGaps(t *testing.T) {
	names, parts := partsOf(t)
	for i, p := range parts {
		for _, o := range []Options{{Gaps: 1, GapWidth: 0.5}, {Gaps: 4, GapWidth: 0.4, Kerf: 0.2}, {Gaps: 7, GapWidth: 1}} {
			whole := o
			whole.Gaps = 0
			closed, err := Make(p, whole)
			if err != nil {
				t.Fatal(names[i], err)
			}
			f, err := Make(p, o)
			if err != nil {
				t.Fatal(names[i], err)
			}
			n := 0
			for _, l := range f.Layers {
				checkLayer(t, names[i], &l)
				if l.Name == LayerOutline && len(l.Paths) != o.Gaps {
					t.Errorf("%s: %d pieces of the outline, want %d", names[i], len(l.Paths), o.Gaps)
				}
				for k, q := range l.Paths {
					if q.Closed {
						continue
					}
					n++
					if l.Name != LayerOutline {
						continue
					}
					a, b := q.Pieces[len(q.Pieces)-1], l.Paths[(k+1)%len(l.Paths)].Pieces[0]
					if got := b.A.Sub(a.B).Len() - o.Kerf; math.Abs(got-o.GapWidth) > 1e-9 && a.Turn == 0 {
						t.Errorf("%s: a gap of %v, want %v", names[i], got, o.GapWidth)
					}
					if wide := o.GapWidth + o.Kerf; a.Len() < wide*gapRoom-1e-9 || b.Len() < wide*gapRoom-1e-9 || a.End().Sub(b.Start()).Len() > 1e-9 && a.Turn == 0 {
						t.Errorf("%s: a gap at a corner, between %+v and %+v", names[i], a, b)
					}
				}
			}
			if want := closed.Length - float64(n)*(o.GapWidth+o.Kerf); math.Abs(f.Length-want) > 1e-6 {
				t.Errorf("%s: %v to cut, want %v", names[i], f.Length, want)
			}
		}
	}
	// A pan has its seams at the corners; its walls' tops have room for the gaps.
	f, err := Make(parts[indexOf(t, names, "wax-pan")], Options{Gaps: 4, GapWidth: 0.5})
	if err != nil || len(f.Notes) > 0 {
		t.Errorf("pan: %v, %v", err, f.Notes)
	}
}

func indexOf(t *testing.T, names []string, name string) int {
	for i, n := range names {
		if n == name {
			return i
		}
	}
	t.Fatalf("no part %s", name)
	return -1
}

// TestNotches: each takes deep x deep / 2 off the blank, at the ends of the bend lines.
func TestNotches(t *testing.T) {
	_, parts := partsOf(t)
	at := 0
	for _, p := range parts {
		bare, _ := Make(p, Options{})
		f, err := Make(p, Options{Bends: BendVees, Notch: 1.5})
		if err != nil {
			t.Errorf("%s: %v", p.Spec.Name, err)
			continue
		}
		missing := 0
		for _, n := range f.Notes {
			m := 1
			fmt.Sscanf(n, "No notch at %d ends", &m)
			missing += m
		}
		n := 2*len(p.Bends) - missing
		at += n
		if got, want := cutArea(bare)-cutArea(f), 1.5*1.5/2*float64(n); math.Abs(got-want) > 1e-6 {
			t.Errorf("%s: notches take %v, want %v for %d", p.Spec.Name, got, want, n)
		}
	}
	if at < 50 {
		t.Errorf("only %d notches in all", at)
	}
}

// TestOptionsRefused names the field of each option that can't be.
func TestOptionsRefused(t *testing.T) {
	p := fold.Build(fold.Spec{Name: "plate", Sheet: fold.Sheet{Thickness: 1}, Outline: foldtest.Points(0, 0, 20, 0, 20, 10, 0, 10)})
	nan := math.NaN()
	for _, c := range []struct {
		o     Options
		field string
		words string
	}{
		{Options{Units: 2}, "units", "mm and inches"},
		{Options{Kerf: -0.1}, "kerf", "0 to 20 mm"},
		{Options{Kerf: 21}, "kerf", "0 to 20 mm"},
		{Options{Kerf: nan}, "kerf", "NaN"},
		{Options{Gaps: -1}, "gaps", "0 to 100"},
		{Options{Gaps: 101}, "gaps", "0 to 100"},
		{Options{Gaps: 2}, "gap width", "0.05 mm to 50 mm"},
		{Options{Gaps: 2, GapWidth: nan}, "gap width", "NaN"},
		{Options{Gaps: 20, GapWidth: 2}, "gaps", "no room for 20"},
		{Options{Bends: 3}, "bends", "notches"},
		{Options{Bends: BendVees}, "notch", "0.2 mm to 20 mm"},
		{Options{Bends: BendVees, Notch: math.Inf(1)}, "notch", "Inf"},
		{Options{Bends: BendVees, Notch: 1, Kerf: 2}, "notch", "close up"},
		{Options{Holes: 3}, "holes", "marked"},
	} {
		_, err := Make(p, c.o)
		e, ok := err.(*Error)
		if !ok || e.Field != c.field || !strings.Contains(e.Words, c.words) {
			t.Errorf("%+v: got %v, want %q of %s", c.o, err, c.words, c.field)
		}
	}
}

// TestPartsRefused: a blank that can't be cut is no file.
func TestPartsRefused(t *testing.T) {
	s := fold.Spec{Name: "plate", Sheet: fold.Sheet{Thickness: 1}, Outline: foldtest.Points(0, 0, 20, 0, 20, 10, 0, 10)}
	crossed := s
	crossed.Outline = foldtest.Points(0, 0, 20, 10, 20, 0, 0, 10)
	off := s
	off.Holes = []fold.Hole{{At: geom.Vec2{19, 5}, Diameter: 4}}
	none := fold.Spec{}
	for name, c := range map[string]struct {
		s    fold.Spec
		want string
	}{"crossed": {crossed, "crosses or touches itself"}, "off": {off, "runs out of the sheet"}, "none": {none, ""}} {
		f, err := Make(fold.Build(c.s), Options{})
		if err == nil || !strings.Contains(err.Error(), c.want) || len(f.Layers) > 0 {
			t.Errorf("%s: %v", name, err)
		}
	}
	met := s
	met.Holes = []fold.Hole{{At: geom.Vec2{8, 5}, Diameter: 4}, {At: geom.Vec2{11, 5}, Diameter: 4}}
	if f, err := Make(fold.Build(met), Options{}); err != nil || len(f.Notes) != 1 || !strings.Contains(f.Notes[0], "run into each other") {
		t.Errorf("holes that meet: %v, %v", err, f.Notes)
	}
}

// groups reads a DXF file as pairs of codes and values, by the layout of release 12: a line for each.
func groups(t *testing.T, data []byte) (out [][2]string) {
	t.Helper()
	lines := strings.Split(strings.TrimSuffix(string(data), "\r\n"), "\r\n")
	if len(lines)%2 != 0 {
		t.Fatalf("%d lines", len(lines))
	}
	for i := 0; i < len(lines); i += 2 {
		n, err := strconv.Atoi(strings.TrimSpace(lines[i]))
		if err != nil {
			t.Fatalf("line %d: code %q", i+1, lines[i])
		}
		v := strings.TrimSpace(lines[i+1])
		if n >= 10 && n < 60 {
			x, err := strconv.ParseFloat(v, 64)
			if err != nil || math.IsNaN(x) || math.IsInf(x, 0) || v[0] == '-' && x == 0 {
				t.Fatalf("line %d: number %q", i+2, v)
			}
		}
		out = append(out, [2]string{strings.TrimSpace(lines[i]), lines[i+1]})
	}
	return out
}

// TestDXFLayout: sections open and close, the unit is said, every layer that is used is in the table, text is plain ASCII.
func TestDXFLayout(t *testing.T) {
	names, parts := partsOf(t)
	for i, p := range parts {
		for _, u := range []fold.Units{fold.MM, fold.Inch} {
			q := *p
			q.Spec.Name = "Ölwanne 50%% <&\"'>\x01 \U0001f41d"
			f, err := Make(&q, Options{Units: u, Bends: BendLines, Tangents: true, Text: true, Kerf: 0.2})
			if err != nil {
				t.Fatal(names[i], err)
			}
			data := f.DXF()
			for _, c := range data {
				if c >= 0x7f || c < ' ' && c != '\r' && c != '\n' {
					t.Fatalf("%s: character %x", names[i], c)
				}
			}
			g := groups(t, data)
			known, used := map[string]bool{}, map[string]bool{}
			open, unit := 0, ""
			for k, v := range g {
				switch {
				case v == [2]string{"0", "SECTION"}:
					open++
				case v == [2]string{"0", "ENDSEC"}:
					open--
				case v == [2]string{"9", "$INSUNITS"}:
					unit = strings.TrimSpace(g[k+1][1])
				case v == [2]string{"0", "LAYER"}:
					known[g[k+1][1]] = true
				case v[0] == "8":
					used[v[1]] = true
				case strings.Contains(v[1], "%%"):
					t.Errorf("%s: %q", names[i], v[1])
				}
			}
			if open != 0 || unit != map[fold.Units]string{fold.MM: "4", fold.Inch: "1"}[u] || g[len(g)-1] != [2]string{"0", "EOF"} {
				t.Errorf("%s: %d sections open, unit %q, ends with %q", names[i], open, unit, g[len(g)-1])
			}
			for l := range used {
				if !known[l] {
					t.Errorf("%s: layer %s is not in the table", names[i], l)
				}
			}
			if !bytes.Contains(data, []byte(`\U+00D6lwanne 50% %`)) {
				t.Errorf("%s: the name is not written", names[i])
			}
			if err := xml.Unmarshal(f.SVG(), new(struct{})); err != nil {
				t.Errorf("%s: SVG: %v", names[i], err)
			}
		}
	}
}

// TestGolden compares files with those in testdata; go test ./fold/cutfile -update writes them anew.
func TestGolden(t *testing.T) {
	names, parts := partsOf(t)
	for _, c := range []struct {
		part, file string
		o          Options
	}{
		{"uncapping-tray", "tray", Options{Bends: BendLines, Text: true}},
		{"stand-bracket", "bracket-inch", Options{Units: fold.Inch, Bends: BendLines, Tangents: true, Text: true, Mirror: true, Gaps: 3, GapWidth: 0.5, Kerf: 0.2}},
		{"wax-pan", "pan", Options{Holes: MarkHoles, Kerf: 0.8}},
		{"channel-returns", "channel-notches", Options{Bends: BendVees, Notch: 2, Kerf: 0.3}},
	} {
		f, err := Make(parts[indexOf(t, names, c.part)], c.o)
		if err != nil {
			t.Fatal(err)
		}
		for ending, data := range map[string][]byte{".dxf": f.DXF(), ".svg": f.SVG()} {
			at := filepath.Join("testdata", c.file+ending)
			if *update {
				if err := os.WriteFile(at, data, 0o644); err != nil {
					t.Fatal(err)
				}
				continue
			}
			want, err := os.ReadFile(at)
			if err != nil {
				t.Fatalf("%v; go test ./fold/cutfile -update writes it", err)
			}
			if !bytes.Equal(data, want) {
				a, b := strings.Split(string(data), "\n"), strings.Split(string(want), "\n")
				for k := range min(len(a), len(b)) {
					if a[k] != b[k] {
						t.Errorf("%s, line %d: got %.200q, want %.200q", at, k+1, a[k], b[k])
						break
					}
				}
				if len(a) != len(b) {
					t.Errorf("%s: %d lines, want %d", at, len(a), len(b))
				}
			}
		}
	}
}

// FuzzMake: no options and no part make it panic or hang, and what it draws joins.
func FuzzMake(f *testing.F) {
	f.Add(uint64(1), 0.2, 3, 0.5, 1, 1.0, 5)
	f.Add(uint64(2), 3.0, 0, 0.0, 2, 5.0, 0)
	f.Add(uint64(3), math.NaN(), 100, 0.05, 2, 0.2, 63)
	f.Fuzz(func(t *testing.T, seed uint64, kerf float64, gaps int, wide float64, bends int, notch float64, flags int) {
		r := foldtest.Rand(seed)
		s := foldtest.Random(r)
		if seed%2 == 0 { // a plate of any outline
			s = fold.Spec{Name: "plate", Sheet: fold.Sheet{Thickness: 1}}
			for _, p := range randomContour(r) {
				v := fold.Vertex{At: p.B}
				if p.Turn != 0 {
					m := p.At(0.5)
					v.Through = &m
				}
				s.Outline = append(s.Outline, v)
			}
		}
		p := fold.Build(s)
		o := Options{Units: fold.Units(flags & 1), Kerf: kerf, Gaps: gaps, GapWidth: wide, Bends: Bends(bends), Notch: notch,
			Tangents: flags&2 != 0, Text: flags&4 != 0, Mirror: flags&8 != 0, Holes: Holes(flags >> 4 & 3)}
		file, err := Make(p, o)
		if err != nil {
			if err.(*Error).Words == "" {
				t.Errorf("an error without words: %+v", err)
			}
			return
		}
		for i := range file.Layers {
			checkLayer(t, fmt.Sprint(seed), &file.Layers[i])
		}
		groups(t, file.DXF())
		if err := xml.Unmarshal(file.SVG(), new(struct{})); err != nil {
			t.Error(err)
		}
	})
}

func BenchmarkMake(b *testing.B) {
	names, parts := partsOf(b)
	for _, name := range []string{"uncapping-tray", "press-hopper"} {
		p := parts[0]
		for i, n := range names {
			if n == name {
				p = parts[i]
			}
		}
		b.Run(name, func(b *testing.B) {
			for range b.N {
				f, err := Make(p, Options{Kerf: 0.2, Gaps: 4, GapWidth: 0.5, Bends: BendLines, Tangents: true, Text: true})
				if err != nil {
					b.Fatal(err)
				}
				f.DXF()
				f.SVG()
			}
		})
	}
}
