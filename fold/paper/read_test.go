package paper

// Reading a printed sheet back: the text that stands on it, by table, and the
// part that a person would make from that text alone.

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"io"
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

func number(t testing.TB, s string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(s, 64)
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

// spec is the part that the printed text gives. Corners come back by number.
func (p printed) spec(t testing.TB) (fold.Spec, map[int]geom.Vec2) {
	t.Helper()
	s := fold.Spec{Name: "rebuilt"}
	if p.find(t, `All lengths in (\w+)\.`) == "inches" {
		s.Units = fold.Inch
	}
	s.Sheet.Thickness = number(t, p.find(t, `, ([0-9.]+) (?:mm|inches) thick`))
	at := func(x, y string) geom.Vec2 { return geom.Vec2{number(t, x), number(t, y)} }
	arcs := map[int]geom.Vec2{}
	for _, r := range p.tables["arcs"] {
		n := int(number(t, r[0]))
		arcs[n] = at(r[1], r[2])
	}
	corners := map[int]geom.Vec2{}
	contour := func(rows [][]string) (c fold.Contour) {
		for _, r := range rows {
			no, isArc := strings.CutSuffix(r[0], " arc")
			n := int(number(t, no))
			v := fold.Vertex{At: at(r[1], r[2])}
			corners[n] = v.At
			if through, ok := arcs[n]; isArc && ok {
				v.Through = &through
			} else if isArc {
				t.Fatalf("corner %d ends an arc that no table gives", n)
			}
			c = append(c, v)
		}
		return c
	}
	s.Outline = contour(p.tables["corners"])
	for i := 1; len(p.tables[fmt.Sprint("cutout ", i)]) > 0; i++ {
		s.Cutouts = append(s.Cutouts, contour(p.tables[fmt.Sprint("cutout ", i)]))
	}
	for _, r := range p.tables["holes"] {
		s.Holes = append(s.Holes, fold.Hole{At: at(r[1], r[2]), Diameter: number(t, r[3])})
	}
	k := number(t, p.tables["bends"][0][6])
	s.Sheet.K = &k
	for _, r := range p.tables["bends"] {
		if r[6] != p.tables["bends"][0][6] {
			t.Fatal("the bends differ in K")
		}
		a, b := at(r[8], r[9]), at(r[10], r[11])
		over := b.Sub(a).Normalize().Mul(0.2 / s.Units.Scale()) // the scriber runs on a little
		s.Bends = append(s.Bends, fold.BendSpec{
			Name: r[1], Line: [2]geom.Vec2{a.Sub(over), b.Add(over)},
			Angle: number(t, strings.TrimSuffix(r[3], "°")), Radius: number(t, r[5]), Up: r[2] == "up",
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
