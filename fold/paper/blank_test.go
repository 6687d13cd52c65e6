package paper

import (
	"encoding/xml"
	"io"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"dryfold/fold"
	"dryfold/fold/draft"
)

// pathArea is the area inside path data of M, L, A and Z commands, arcs taken
// exactly: an own reading of the SVG recommendation (appendix B.2.4, centre
// parameterization), for circles. Positive for loops that run clockwise on
// paper, where y points down.
func pathArea(t *testing.T, d string) float64 {
	f := regexp.MustCompile(`[A-Za-z]|-?[0-9.]+`).FindAllString(d, -1)
	take := func(i int) float64 {
		x, err := strconv.ParseFloat(f[i], 64)
		if err != nil {
			t.Fatalf("path %q: %v", d, err)
		}
		return x
	}
	area, x, y, x0, y0 := 0.0, 0.0, 0.0, 0.0, 0.0
	for i := 0; i < len(f); {
		switch f[i] {
		case "M":
			x, y = take(i+1), take(i+2)
			x0, y0 = x, y
			i += 3
		case "L":
			nx, ny := take(i+1), take(i+2)
			area += (x*ny - nx*y) / 2
			x, y = nx, ny
			i += 3
		case "A":
			r, large, sweep, nx, ny := take(i+1), take(i+4), take(i+5), take(i+6), take(i+7)
			area += (x*ny - nx*y) / 2
			half := math.Asin(min(1, math.Hypot(nx-x, ny-y)/2/r))
			turn := 2 * half
			if large == 1 {
				turn = 2*math.Pi - turn
			}
			segment := r * r * (turn - math.Sin(turn)) / 2
			if sweep == 1 {
				area += segment
			} else {
				area -= segment
			}
			x, y = nx, ny
			i += 8
		case "Z":
			area += (x*y0 - x0*y) / 2
			x, y = x0, y0
			i++
		default:
			t.Fatalf("path %q: unexpected %s", d, f[i])
		}
	}
	return area
}

// TestBlankArea: what Blank draws encloses the blank's own area, arcs and holes
// included, in a drawing of the blank's size.
func TestBlankArea(t *testing.T) {
	specs := testParts(t)
	arcs := 0
	for _, name := range keys(specs) {
		p := fold.Build(specs[name])
		d := xml.NewDecoder(strings.NewReader(string(draft.SVG(Blank(p)))))
		group, area, bends := "", 0.0, 0
		for {
			tok, err := d.Token()
			if err == io.EOF {
				break
			}
			if err != nil {
				t.Fatal(err)
			}
			e, ok := tok.(xml.StartElement)
			if !ok {
				continue
			}
			a := map[string]string{}
			for _, x := range e.Attr {
				a[x.Name.Local] = x.Value
			}
			switch {
			case e.Name.Local == "svg":
				size := p.Blank.Box.Size()
				if want := strconv.FormatFloat(math.Round(size[0]*1e4)/1e4, 'f', -1, 64) + "mm"; a["width"] != want {
					t.Errorf("%s: %s wide, want %s", name, a["width"], want)
				}
			case e.Name.Local == "g":
				group = a["id"]
			case group == "outline":
				arcs += strings.Count(a["d"], "A")
				if x := math.Abs(pathArea(t, a["d"])); area == 0 {
					area = x
				} else {
					area -= x
				}
			case group == "holes":
				r, _ := strconv.ParseFloat(a["r"], 64)
				area -= math.Pi * r * r
			case group == "bends":
				bends++
			}
		}
		if math.Abs(area-p.Blank.Area) > 1e-6*p.Blank.Area+0.02 {
			t.Errorf("%s: drawn area %.3f, want %.3f", name, area, p.Blank.Area)
		}
		if bends != len(p.Bends) {
			t.Errorf("%s: %d bend lines drawn, want %d", name, bends, len(p.Bends))
		}
	}
	if arcs == 0 {
		t.Error("no part has an arc")
	}
}
