package paper

// Reading a printed sheet back: the text that stands on it, by table, and the
// part that a person would make from that text alone.

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"dryfold/fold"
	"dryfold/fold/geom"
	"dryfold/fold/partfile"
)

// printed is the text of a sheet.
type printed struct {
	tables map[string][][]string // rows by the table's class
	dims   []string              // running dimensions
	all    []string              // every piece of text, in order
}

func readSheet(t testing.TB, data []byte) printed {
	t.Helper()
	p := printed{tables: map[string][][]string{}}
	d := xml.NewDecoder(bytes.NewReader(data))
	d.Strict = true
	var groups []string
	var text *strings.Builder
	for {
		tok, err := d.Token()
		if err == io.EOF {
			break
		}
		if err != nil {
			t.Fatalf("the sheet is not XML: %v", err)
		}
		switch k := tok.(type) {
		case xml.StartElement:
			class := ""
			for _, a := range k.Attr {
				if a.Name.Local == "class" {
					class = a.Value
				}
			}
			switch k.Name.Local {
			case "g":
				groups = append(groups, class)
				if class == "row" {
					in := groups[len(groups)-2]
					p.tables[in] = append(p.tables[in], nil)
				}
			case "text":
				text = &strings.Builder{}
			case "script", "style", "foreignObject":
				t.Fatalf("the sheet holds a %s", k.Name.Local)
			}
		case xml.CharData:
			if text != nil {
				text.Write(k)
			}
		case xml.EndElement:
			switch k.Name.Local {
			case "g":
				groups = groups[:len(groups)-1]
			case "text":
				s := text.String()
				text = nil
				p.all = append(p.all, s)
				switch n := len(groups); {
				case n > 1 && groups[n-1] == "row":
					rows := p.tables[groups[n-2]]
					rows[len(rows)-1] = append(rows[len(rows)-1], s)
				case n > 0 && groups[n-1] == "dims":
					p.dims = append(p.dims, s)
				}
			}
		}
	}
	return p
}

// number reads a printed length: "12.5", "12 17/64", "3/8".
func number(t testing.TB, s string) float64 {
	t.Helper()
	whole, fraction, both := strings.Cut(s, " ")
	if !both && strings.Contains(s, "/") {
		whole, fraction = "0", s
	}
	x, err := strconv.ParseFloat(whole, 64)
	if top, below, ok := strings.Cut(fraction, "/"); ok && err == nil {
		a, errA := strconv.Atoi(top)
		b, errB := strconv.Atoi(below)
		if errA != nil || errB != nil || a <= 0 || a >= b {
			t.Fatalf("%q is no number", s)
		}
		x += float64(a) / float64(b)
	} else if both {
		t.Fatalf("%q is no number", s)
	}
	if err != nil {
		t.Fatalf("%q is no number", s)
	}
	return x
}

// find gives the first submatch in any text of the sheet.
func (p printed) find(t testing.TB, re string) string {
	t.Helper()
	x := regexp.MustCompile(re)
	for _, s := range p.all {
		if m := x.FindStringSubmatch(s); m != nil {
			return m[1]
		}
	}
	t.Fatalf("nothing on the sheet matches %s", re)
	return ""
}

// step is what the sheet says its figures are rounded to, in its units.
func (p printed) step(t testing.TB) float64 {
	return number(t, p.find(t, `, to ([0-9./]+)\. Good face`))
}

// cells are a table row's cells, of columns with their rounding only the figures.
func (p printed) cells(t testing.TB, row []string, first, n int) []string {
	t.Helper()
	if len(row) >= first+2*n { // figure, off, figure, off
		out := slices.Clone(row[:first])
		for i := range n {
			out = append(out, row[first+2*i])
		}
		return append(out, row[first+2*n:]...)
	}
	return row
}

// printedBend is what the sheet says of a bend.
type printedBend struct {
	no, name  string
	up        bool
	angle     float64
	radius, k float64
	takes     float64
	lines     map[string][2]geom.Vec2
}

func (p printed) bends(t testing.TB) (out []printedBend) {
	t.Helper()
	for i, r := range p.tables["bends"] {
		basis := p.tables["basis"][i]
		b := printedBend{no: r[0], name: r[1], up: r[2] == "up", angle: number(t, strings.TrimSuffix(r[5], "°")),
			radius: number(t, basis[1]), k: number(t, basis[3]), takes: number(t, basis[5]), lines: map[string][2]geom.Vec2{}}
		for _, l := range p.tables["lines"][i*int(bendLines) : (i+1)*int(bendLines)] {
			c := p.cells(t, l, 2, 4)
			if c[0] != b.no {
				t.Fatalf("row %v does not belong to bend %s", l, b.no)
			}
			b.lines[c[1]] = [2]geom.Vec2{{number(t, c[2]), number(t, c[3])}, {number(t, c[4]), number(t, c[5])}}
		}
		out = append(out, b)
	}
	return out
}

// spec is the part that the printed text gives, with its bends by their middle or by the marks that go under the nose.
// Corners come back by number.
func (p printed) spec(t testing.TB, byMark bool) (fold.Spec, map[int]geom.Vec2) {
	t.Helper()
	s := fold.Spec{Name: "rebuilt"}
	if p.find(t, `All lengths in (\w+),`) == "inches" {
		s.Units = fold.Inch
	}
	step := p.step(t)
	s.Sheet.Thickness = number(t, p.find(t, `, ([0-9.]+) (?:mm|inches) thick`))
	at := func(x, y string) geom.Vec2 { return geom.Vec2{number(t, x), number(t, y)} }
	arcs := map[int][]string{}
	for _, r := range p.tables["arcs"] {
		arcs[int(number(t, r[0]))] = r
	}
	corners := map[int]geom.Vec2{}
	contour := func(rows [][]string) (c fold.Contour) {
		var nos []int
		for _, r := range rows {
			r = p.cells(t, r, 1, 2)
			no, _ := strings.CutSuffix(r[0], " arc")
			n := int(number(t, no))
			corners[n] = at(r[1], r[2])
			nos = append(nos, n)
			c = append(c, fold.Vertex{At: corners[n]})
		}
		for i, r := range rows {
			if !strings.HasSuffix(r[0], " arc") {
				continue
			}
			a, ok := arcs[nos[i]]
			if !ok {
				t.Fatalf("corner %d ends an arc that no table gives", nos[i])
			}
			if a[2] == "straight" {
				continue
			}
			// With dividers set to the radius, from the printed centre, out to where the arc bulges; a shallow arc through
			// its ends.
			from, to := c[(i+len(c)-1)%len(c)].At, c[i].At
			d := to.Sub(from).Normalize()
			out := geom.Vec2{d[1], -d[0]}
			if a[1] == "inwards" {
				out = out.Mul(-1)
			}
			radius, centre, mid := number(t, a[2]), at(a[3], a[4]), from.Add(to).Mul(0.5)
			via := centre.Add(out.Mul(radius))
			if half := to.Sub(from).Len() / 2; half < 0.85*radius && centre.Sub(mid).Dot(out) < 0 {
				via = mid.Add(out.Mul(radius - math.Sqrt(radius*radius-half*half)))
			}
			c[i].Through = &via
		}
		return c
	}
	s.Outline = contour(p.tables["corners"])
	for i := 1; len(p.tables[fmt.Sprint("cutout ", i)]) > 0; i++ {
		s.Cutouts = append(s.Cutouts, contour(p.tables[fmt.Sprint("cutout ", i)]))
	}
	for _, r := range p.tables["holes"] {
		r = p.cells(t, r, 1, 2)
		s.Holes = append(s.Holes, fold.Hole{At: at(r[1], r[2]), Diameter: number(t, r[3])})
	}
	bends := p.bends(t)
	k := bends[0].k
	s.Sheet.K = &k
	for _, b := range bends {
		if b.k != k {
			t.Fatal("the bends differ in K")
		}
		line := b.lines["middle"]
		var off geom.Vec2
		if byMark {
			// One line through all of its number that lie on it, and the middle set off from it.
			line = b.lines["mark"]
			from, to := line[0], line[1]
			for _, o := range bends {
				if o.no != b.no || o.name == b.name {
					continue
				}
				f, l := from, to
				for _, e := range o.lines["mark"] {
					if e[1] < f[1] || e[1] == f[1] && e[0] < f[0] {
						f = e
					}
					if e[1] > l[1] || e[1] == l[1] && e[0] > l[0] {
						l = e
					}
				}
				d := l.Sub(f).Normalize()
				on := true
				for _, e := range []geom.Vec2{from, to, o.lines["mark"][0], o.lines["mark"][1]} {
					on = on && math.Abs(geom.Cross2(d, e.Sub(f))) < 1.5*step
				}
				if on {
					from, to = f, l
				}
			}
			d := to.Sub(from).Normalize()
			for i, e := range line {
				line[i] = from.Add(d.Mul(e.Sub(from).Dot(d)))
			}
			n := geom.Vec2{-d[1], d[0]}
			if n.Dot(b.lines["far tangent"][0].Sub(b.lines["held tangent"][0]).Add(b.lines["far tangent"][1].Sub(b.lines["held tangent"][1]))) < 0 {
				n = n.Mul(-1)
			}
			off = n.Mul(b.takes/2 - b.radius)
		}
		over := line[1].Sub(line[0]).Normalize().Mul(max(2*step, 0.1/s.Units.Scale())) // the scriber runs on a little
		s.Bends = append(s.Bends, fold.BendSpec{
			Name: b.name, Line: [2]geom.Vec2{line[0].Sub(over).Add(off), line[1].Add(over).Add(off)},
			Angle: b.angle, Radius: b.radius, Up: b.up,
		})
	}
	for i, r := range p.tables["seams"] {
		edge := func(s string) geom.Vec2 {
			a, b, ok := strings.Cut(s, "–")
			if !ok {
				t.Fatalf("seam %q has no edge: %q", r[0], s)
			}
			return corners[int(number(t, a))].Add(corners[int(number(t, b))]).Mul(0.5)
		}
		s.Seams = append(s.Seams, fold.SeamSpec{Name: fmt.Sprint("seam ", i), A: edge(r[1]), B: edge(r[2])})
	}
	return s, corners
}

// testParts are the parts of testdata and assets that can be folded, by file.
func testParts(t testing.TB) map[string]fold.Spec {
	t.Helper()
	out := map[string]fold.Spec{}
	for _, pattern := range []string{"../../testdata/parts/*.dryfold", "../../assets/*.dryfold", "../../assets/*/*.dryfold"} {
		files, err := filepath.Glob(pattern)
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range files {
			data, err := os.ReadFile(f)
			if err != nil {
				t.Fatal(err)
			}
			s, err := partfile.Read(data)
			if err != nil {
				t.Errorf("%s: %v", f, err)
				continue
			}
			out[strings.TrimPrefix(f, "../../")] = s
		}
	}
	if len(out) < 10 {
		t.Fatalf("only %d parts", len(out))
	}
	return out
}

func keys(m map[string]fold.Spec) []string {
	var k []string
	for n := range m {
		k = append(k, n)
	}
	slices.Sort(k)
	return k
}
