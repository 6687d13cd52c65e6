//go:build readers

package paper

import (
	"fmt"
	"image"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dryfold/fold"
	"dryfold/fold/draft"
	"dryfold/fold/draft/pdf"
	"dryfold/fold/geom"
	"dryfold/testdata/readers"
)

const dpi = 600

// print is a page as poppler painted it, to be measured in mm from its upper left corner.
type print struct{ image.Image }

// dark is how much ink is on a dot, 0 to 1; grey that is lighter than a share of black counts as none.
func (p print) dark(x, y int, least float64) float64 {
	r, _, _, _ := p.At(x, y).RGBA()
	if d := 1 - float64(r)/65535; d > least {
		return d
	}
	return 0
}

func dots(mm float64) int { return int(math.Round(mm * dpi / 25.4)) }

// lineAt measures where a line stands that runs square to an axis, at most 1.2 mm from where it is looked for: the middle of its ink, the
// median of many cuts across it between lo and hi along the other axis.
func (p print) lineAt(axis int, about, lo, hi float64) float64 {
	var found []float64
	for i := range 200 {
		along := dots(lo + (hi-lo)*(float64(i)+0.5)/200)
		sum, first := 0.0, 0.0
		for k := dots(about - 1.2); k <= dots(about+1.2); k++ {
			v := [2]int{along, along}
			v[axis] = k
			d := p.dark(v[0], v[1], 0.3)
			sum, first = sum+d, first+d*(float64(k)+0.5)
		}
		if sum > 0 {
			found = append(found, first/sum*25.4/dpi)
		}
	}
	if len(found) == 0 {
		return math.NaN()
	}
	slices.Sort(found)
	return found[len(found)/2]
}

// diamondAt measures where a diamond's middle is, looked for at a place.
func (p print) diamondAt(about geom.Vec2) geom.Vec2 {
	const half = 4.4
	sum, first := 0.0, geom.Vec2{}
	for x := dots(about[0] - half); x <= dots(about[0]+half); x++ {
		for y := dots(about[1] - half); y <= dots(about[1]+half); y++ {
			d := p.dark(x, y, 0.7)
			sum += d
			first = first.Add(geom.Vec2{float64(x) + 0.5, float64(y) + 0.5}.Mul(d))
		}
	}
	return first.Mul(25.4 / dpi / sum)
}

// diamondsOf are where a page's diamonds are drawn, by number.
func diamondsOf(pg *draft.Page) map[string]geom.Vec2 {
	out := map[string]geom.Vec2{}
	items, _ := tileItems(pg, "join")
	var c geom.Vec2
	for _, x := range items {
		if x.Kind == draft.Line && len(x.Path) == 5 {
			c = x.Path[0].To.Add(x.Path[2].To).Mul(0.5)
		}
		if x.Kind == draft.Text && x.Class == "dimb" {
			out[x.Words] = c
		}
	}
	return out
}

// The tray on A4, painted by poppler at 600 dots an inch: check squares are 100 mm within 0.1, and pages laid together by the diamonds
// that were measured on them show each edge of the tray where it is, within 0.1 mm.
func TestReaderTemplateJoins(t *testing.T) {
	p := fold.Build(testParts(t)["assets/uncapping-tray.dryfold"])
	rep := p.Quick()
	pages, err := Template(p, &rep, TemplateOptions{})
	require.NoError(t, err)
	require.Equal(t, 4, len(pages))
	file, err := pdf.Write("tray", pages, time.Unix(0, 0))
	require.NoError(t, err)
	var prints []print
	for _, im := range readers.PDFPages(t, file, dpi, "-gray") {
		prints = append(prints, print{im})
	}
	require.Equal(t, 4, len(prints))
	worst := 0.0
	near := func(want, got float64, what string, args ...any) {
		t.Helper()
		assert.InDelta(t, want, got, 0.1, fmt.Sprintf(what, args...))
		worst = max(worst, math.Abs(want-got))
	}
	for i := range pages {
		sq, _ := tileItems(&pages[i], "square")
		a, b := sq[0].At, sq[0].At.Add(geom.Vec2{sq[0].W, sq[0].H})
		near(100, prints[i].lineAt(0, b[0], a[1]+20, b[1]-10)-prints[i].lineAt(0, a[0], a[1]+20, b[1]-10), "page %d across", i+1)
		near(100, prints[i].lineAt(1, b[1], a[0]+20, b[0]-30)-prints[i].lineAt(1, a[1], a[0]+20, b[0]-30), "page %d down", i+1)
	}

	// Where every page lies in the first one's plane, by the diamonds as measured, from page to page.
	at := []geom.Vec2{{}, {}, {}, {}}
	for _, pair := range [][2]int{{0, 1}, {0, 2}, {1, 3}} {
		a, b := diamondsOf(&pages[pair[0]]), diamondsOf(&pages[pair[1]])
		var off []geom.Vec2
		for no := range a {
			if _, ok := b[no]; ok {
				off = append(off, prints[pair[0]].diamondAt(a[no]).Sub(prints[pair[1]].diamondAt(b[no])))
			}
		}
		require.Len(t, off, 2)
		near(0, off[0].Sub(off[1]).Len(), "the diamonds of %v both meet", pair)
		at[pair[1]] = at[pair[0]].Add(off[0])
	}
	a, b := diamondsOf(&pages[2]), diamondsOf(&pages[3])
	for no := range a {
		if v, ok := b[no]; ok {
			near(0, prints[2].diamondAt(a[no]).Add(at[2]).Sub(prints[3].diamondAt(v).Add(at[3])).Len(), "the round closes")
		}
	}

	// Straight edges that run along x or y: where they are in the plane of the first page, against the part's file.
	box, k := p.Blank.Box, p.Spec.Units.Scale()
	_, win := tileItems(&pages[0], "outline")
	first := newTemplate(p, &rep, TemplateOptions{})
	g, err := first.plan()
	require.NoError(t, err)
	type edge struct{ want, got float64 }
	var edges [2][]edge
	for i, v := range p.Spec.Outline {
		from := p.Spec.Outline[(i+len(p.Spec.Outline)-1)%len(p.Spec.Outline)].At.Mul(k)
		to := v.At.Mul(k)
		for axis := range 2 {
			if v.Through != nil || math.Abs(from[axis]-to[axis]) > 1e-6 || math.Abs(from[1-axis]-to[1-axis]) < 12 {
				continue
			}
			for n := range pages { // on each page that shows a good part of it
				move := win.Min.Sub(g.window(n/2, n%2).Min)
				plane := func(v geom.Vec2) geom.Vec2 { return geom.Vec2{v[0] - box.Min[0], box.Max[1] - v[1]}.Add(move) }
				a, b := plane(from), plane(to)
				_, own := tileItems(&pages[n], "outline")
				lo, hi := max(min(a[1-axis], b[1-axis]), own.Min[1-axis])+3, min(max(a[1-axis], b[1-axis]), own.Max[1-axis])-3
				if hi-lo < 6 || a[axis] < own.Min[axis]+1.5 || a[axis] > own.Max[axis]-1.5 {
					continue
				}
				edges[axis] = append(edges[axis], edge{plane(from)[axis] - move[axis], prints[n].lineAt(axis, a[axis], lo, hi) + at[n][axis]})
			}
		}
	}
	for axis := range edges {
		require.Greater(t, len(edges[axis]), 3)
		for i := range edges[axis] {
			for j := range i {
				near(edges[axis][i].want-edges[axis][j].want, edges[axis][i].got-edges[axis][j].got, "edges %d and %d, axis %d", i, j, axis)
			}
		}
	}
	t.Logf("worst %.3f mm over %d and %d edges", worst, len(edges[0]), len(edges[1]))
}

// The words of each page, read by poppler's pdftotext; and a print scaled to correct a printer measures so.
func TestReaderTemplateText(t *testing.T) {
	p := fold.Build(testParts(t)["assets/stand-bracket.dryfold"])
	rep := p.Quick()
	o := TemplateOptions{Units: fold.Inch, Paper: "Letter", Hand: "left", Printed: [2]float64{4.03, 3.98}}
	pages, err := Template(p, &rep, o)
	require.NoError(t, err)
	require.Equal(t, 1, len(pages))
	file, err := pdf.Write("bracket", pages, time.Unix(0, 0))
	require.NoError(t, err)
	text := strings.Join(strings.Fields(readers.PDFText(t, file, "-layout")), " ")
	for _, w := range []string{"Hive-stand bracket: full-size template", "page 1 of 1", "THIS FACE UP", "left hand", "Check square: 4 in across and down", "Scaled 99.26 % across and 100.5 % down to correct your printer",
		"Print at 100 %", "razor edges", "Blank 6.580 × 6.000 inches"} {
		assert.Contains(t, text, w)
	}
	im := print{readers.PDFPages(t, file, dpi, "-gray")[0]}
	sq, _ := tileItems(&pages[0], "square")
	a, b := sq[0].At, sq[0].At.Add(geom.Vec2{sq[0].W, sq[0].H})
	assert.InDelta(t, 101.6*4/4.03, im.lineAt(0, b[0], a[1]+5, b[1]-10)-im.lineAt(0, a[0], a[1]+5, b[1]-10), 0.1)
	assert.InDelta(t, 101.6*4/3.98, im.lineAt(1, b[1], a[0]+5, b[0]-5)-im.lineAt(1, a[1], a[0]+5, b[0]-5), 0.1)

	card, _, err := Card(p, CardOptions{TemplateOptions: TemplateOptions{Units: fold.Inch, Paper: "letter"}})
	require.NoError(t, err)
	file, err = pdf.Write("card", card, time.Unix(0, 0))
	require.NoError(t, err)
	for i := range card {
		text := strings.Join(strings.Fields(readers.PDFText(t, file, "-layout", "-f", fmt.Sprint(i+1), "-l", fmt.Sprint(i+1))), " ")
		if i < len(card)-1 {
			assert.Contains(t, text, "CARD MODEL, not for metal")
			assert.Contains(t, text, "Scored: cut each fold half through on its outside")
			assert.Contains(t, text, "up, valley")
		} else {
			assert.Contains(t, text, "on the card as trimmed")
		}
	}
}
