package paper

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dryfold/fold"
	"dryfold/fold/draft"
	"dryfold/fold/foldtest"
	"dryfold/fold/geom"
)

// tileItems are a page's items in a group of its window, and the window on the page.
func tileItems(pg *draft.Page, groups ...string) (items []draft.Item, win geom.Box2) {
	var open []string
	for _, x := range pg.Items {
		switch x.Kind {
		case draft.Open:
			open = append(open, x.Class)
			if x.Class == "tile" {
				win = *x.Clip
			}
		case draft.Close:
			open = open[:len(open)-1]
		default:
			if len(open) > 0 && slices.Contains(groups, open[len(open)-1]) {
				items = append(items, x)
			}
		}
	}
	return items, win
}

// strokes are what a page's items draw, as short chords.
func strokes(items []draft.Item) (out [][2]geom.Vec2) {
	for _, x := range items {
		if x.Class != "outline" {
			continue
		}
		p := x.Path
		if x.Kind == draft.Circle {
			l, r := x.At.Sub(geom.Vec2{x.R, 0}), x.At.Add(geom.Vec2{x.R, 0})
			p = draft.Path{}.M(l).A(x.R, false, true, r).A(x.R, false, true, l)
		}
		var at geom.Vec2
		for _, s := range p {
			switch s.Op {
			case 'L':
				out = append(out, [2]geom.Vec2{at, s.To})
			case 'A':
				a, ok := draft.ArcOf(at, s)
				if !ok {
					break
				}
				n := max(4, int(math.Ceil(math.Abs(a.Sweep)/(2*math.Acos(1-min(1, 1e-4/a.R))))))
				was := at
				for i := 1; i <= n; i++ {
					sin, cos := math.Sincos(a.From + a.Sweep*float64(i)/float64(n))
					v := a.Centre.Add(geom.Vec2{cos, sin}.Mul(a.R))
					if i == n {
						v = s.To
					}
					out = append(out, [2]geom.Vec2{was, v})
					was = v
				}
			case 'Z':
				panic("tiles draw open paths")
			}
			at = s.To
		}
	}
	return out
}

// perimeter is the length of all edges of a blank, mm, from its file: chords and arcs by their closed form.
func perimeter(s fold.Spec) (sum float64) {
	k := s.Units.Scale()
	for _, c := range append([]fold.Contour{s.Outline}, s.Cutouts...) {
		for i, v := range c {
			from := c[(i+len(c)-1)%len(c)].At
			if v.Through == nil {
				sum += v.At.Sub(from).Len() * k
				continue
			}
			// The angles at the point on the arc: an arc of radius r turns by 2(pi - angle there) seen from its middle.
			a, b := from.Sub(*v.Through), v.At.Sub(*v.Through)
			angle := math.Atan2(math.Abs(geom.Cross2(a, b)), a.Dot(b))
			r := v.At.Sub(from).Len() / (2 * math.Sin(angle))
			if math.Sin(angle) < 1e-9 {
				sum += v.At.Sub(from).Len() * k
				continue
			}
			sum += r * 2 * (math.Pi - angle) * k
		}
	}
	for _, h := range s.Holes {
		sum += math.Pi * h.Diameter * k
	}
	return sum
}

// allLength is the length of strokes in a box.
func allLength(list [][2]geom.Vec2, b geom.Box2) (sum float64) {
	for _, l := range list {
		if t0, t1, ok := within(l[0], l[1], b); ok {
			sum += (t1 - t0) * l[1].Sub(l[0]).Len()
		}
	}
	return sum
}

func randomTemplate(r *rand.Rand) TemplateOptions {
	o := TemplateOptions{Units: fold.Units(r.IntN(2)), Other: r.IntN(3) == 0, Hand: []string{"", "left", "right"}[r.IntN(3)]}
	o.Paper = append(slices.Clone(Papers), Roll)[r.IntN(len(Papers)+1)]
	o.Roll = foldtest.Uniform(r, 200, 900)
	if r.IntN(2) == 0 {
		m, v := foldtest.Uniform(r, 0, 20), foldtest.Uniform(r, leastOverlap, 25)
		o.Margin, o.Overlap = &m, &v
	}
	return o
}

func randomPart(r *rand.Rand) *fold.Part {
	for {
		var s fold.Spec
		switch r.IntN(4) {
		case 0:
			s = foldtest.Random(r)
		case 1:
			s = foldtest.RandomTray(r)
		default:
			s = foldtest.RandomChain(r).Spec()
		}
		if r.IntN(2) == 0 { // larger, smaller, so that there are many tiles and few
			f := foldtest.LogUniform(r, 0.3, 6)
			s = foldtest.Map(s, func(v geom.Vec2) geom.Vec2 { return v.Mul(f) })
			for i := range s.Holes {
				s.Holes[i].Diameter *= f
			}
		}
		if p := fold.Build(s); p.Foldable {
			return p
		}
	}
}

func seedOf(t *testing.T) *rand.Rand {
	seed := *seedFlag
	if seed == 0 {
		seed = uint64(time.Now().UnixNano())
	}
	t.Logf("seed %d", seed)
	return rand.New(rand.NewPCG(seed, 7))
}

// What each tile shows once all are cut and joined, put together, is every edge of the blank, each once: the lengths add up to
// the perimeter, worked out from the part's file by closed forms. And what a tile shows lies on the blank's own edges.
func TestTilesShowTheWholeBlank(t *testing.T) {
	r := seedOf(t)
	pages, refusedOnes, left := 0, 0, 0
	for range 100 {
		p, o := randomPart(r), randomTemplate(r)
		tm := newTemplate(p, nil, o)
		g, err := tm.plan()
		if err != nil {
			refusedOnes++
			var f *FieldError
			require.ErrorAs(t, err, &f)
			continue
		}
		list := tm.tilePages(g)
		require.Equal(t, g.count, len(list))
		pages += len(list)
		left += g.rows*g.cols - g.count
		sum, n := 0.0, 0
		for row := range g.rows {
			for col := range g.cols {
				if !g.has(row, col) {
					continue
				}
				items, win := tileItems(&list[n], "outline", "holes")
				n++
				move := win.Min.Sub(g.window(row, col).Min)
				core := g.core(row, col)
				s := strokes(items)
				sum += allLength(s, geom.Box2{Min: core.Min.Add(move), Max: core.Max.Add(move)})
				for range min(20, len(s)) {
					l := s[r.IntN(len(s))]
					v := l[0].Add(l[1].Sub(l[0]).Mul(r.Float64())).Sub(move)
					near := math.Inf(1)
					for _, e := range tm.lines[:tm.rim] {
						d, _ := geom.SegmentDistance(v, e.a, e.b)
						near = min(near, d)
					}
					require.Less(t, near, 2*fold.ArcChord, "drawn off the blank's edges")
				}
			}
		}
		require.InDelta(t, perimeter(p.Spec), sum, 1e-5*sum+1e-3, "%s on %s, %d by %d", p.Spec.Name, o.Paper, g.rows, g.cols)
	}
	t.Logf("%d pages, %d left out, %d refused", pages, left, refusedOnes)
	if *seedFlag == 1 {
		assert.Greater(t, pages, 200)
		assert.Greater(t, left, 0)
		assert.Less(t, refusedOnes, 60)
	}
}

// The other hand is the mirror image, and a scale one way only makes ovals of circles: the edges still lie where the blank's do.
func TestTemplateScaledAndMirrored(t *testing.T) {
	r := seedOf(t)
	for range 40 {
		p, o := randomPart(r), randomTemplate(r)
		full := 100.0
		if o.Units == fold.Inch {
			full = 4
		}
		o.Printed = [2]float64{full * foldtest.Uniform(r, 0.985, 1.015), full * foldtest.Uniform(r, 0.985, 1.015)}
		tm := newTemplate(p, nil, o)
		g, err := tm.plan()
		if err != nil {
			continue
		}
		list := tm.tilePages(g)
		box := p.Blank.Box
		n := 0
		for row := range g.rows {
			for col := range g.cols {
				if !g.has(row, col) {
					continue
				}
				items, win := tileItems(&list[n], "outline", "holes")
				n++
				move := g.window(row, col).Min.Sub(win.Min)
				for i, l := range strokes(items) {
					if i%7 != 0 {
						continue
					}
					v := l[0].Add(move)
					b := geom.Vec2{box.Min[0] + v[0]*o.Printed[0]/full, box.Max[1] - v[1]*o.Printed[1]/full}
					if o.Other {
						b[0] = box.Max[0] - v[0]*o.Printed[0]/full
					}
					near := math.Inf(1)
					for _, loop := range append([]geom.Loop{p.Outline}, p.Voids...) {
						for k := range loop {
							d, _ := geom.SegmentDistance(b, loop[k], loop[(k+1)%len(loop)])
							near = min(near, d)
						}
					}
					require.Less(t, near, 2*printChord+fold.ArcChord)
				}
			}
		}
	}
}

// Two tiles that are joined bear the same diamonds at the same places of the blank, and tell of each other.
func TestDiamondsMeet(t *testing.T) {
	r := seedOf(t)
	met := 0
	for range 60 {
		p, o := randomPart(r), randomTemplate(r)
		tm := newTemplate(p, nil, o)
		g, err := tm.plan()
		if err != nil {
			continue
		}
		list := tm.tilePages(g)
		at := map[string][]geom.Vec2{} // by their number, in the plane
		n := 0
		for row := range g.rows {
			for col := range g.cols {
				if !g.has(row, col) {
					continue
				}
				pg := &list[n]
				n++
				items, win := tileItems(pg, "join")
				var c geom.Vec2
				for _, x := range items {
					if x.Kind == draft.Line && len(x.Path) == 5 {
						c = x.Path[0].To.Add(x.Path[2].To).Mul(0.5)
						for _, s := range x.Path[:4] { // whole on both pages
							require.True(t, s.To[0] >= win.Min[0] && s.To[0] <= win.Max[0] && s.To[1] >= win.Min[1] && s.To[1] <= win.Max[1])
						}
					}
					if x.Kind == draft.Text && x.Class == "dimb" {
						at[x.Words] = append(at[x.Words], c.Sub(win.Min).Add(g.window(row, col).Min))
					}
				}
				text := allText(pg)
				named := func(at [2]int) string {
					if !g.has(at[0], at[1]) {
						return "no page"
					}
					return g.pageName(at[0], at[1])
				}
				for _, near := range [][2]int{{row, col - 1}, {row, col + 1}, {row - 1, col}, {row + 1, col}} {
					assert.Equal(t, g.has(near[0], near[1]), near[0] >= 0 && near[1] >= 0 && len(list) > 1 && (strings.Contains(text, "join to "+named(near)+"\n") ||
						strings.Contains(text, "lay "+named(near)+" over this")), "%s and its neighbours", g.pageName(row, col))
				}
			}
		}
		for no, both := range at {
			require.Len(t, both, 2, "diamond %s", no)
			require.Less(t, both[0].Sub(both[1]).Len(), 1e-9)
			met++
		}
	}
	assert.Greater(t, met, 100)
}

func allText(pg *draft.Page) string {
	var b strings.Builder
	for _, x := range pg.Items {
		if x.Kind == draft.Text {
			b.WriteString(x.Words + "\n")
		}
	}
	return b.String()
}

// Every page has its check square, of its full size and clear of the joins, its name, the map and the words.
func TestTemplatePages(t *testing.T) {
	specs := testParts(t)
	for _, name := range keys(specs) {
		p := fold.Build(specs[name])
		if !p.Foldable {
			continue
		}
		rep := p.Quick()
		for _, o := range []TemplateOptions{{}, {Paper: "Letter", Units: fold.Inch, Hand: "left"}, {Paper: "a3", Other: true, Hand: "right"}, {Paper: "Tabloid", Printed: [2]float64{100.4, 0}}, {Paper: Roll, Roll: 610}} {
			pages, err := Template(p, &rep, o)
			require.NoError(t, err, name)
			for i := range pages {
				pg := &pages[i]
				sq, win := tileItems(pg, "square")
				full := 100.0
				if o.Units == fold.Inch {
					full = 101.6
				}
				w := full
				if o.Printed[0] > 0 {
					w *= 100 / o.Printed[0]
				}
				require.InDelta(t, w, sq[0].W, 1e-9)
				require.InDelta(t, full, sq[0].H, 1e-9)
				require.True(t, sq[0].At[0] > win.Min[0] && sq[0].At[1] > win.Min[1] && sq[0].At[0]+sq[0].W < win.Max[0] && sq[0].At[1]+sq[0].H < win.Max[1])
				text := allText(pg)
				assert.Contains(t, text, "Check square: "+map[fold.Units]string{fold.MM: "100 mm", fold.Inch: "4 in"}[o.Units]+" across and down.")
				assert.Contains(t, text, "THIS FACE UP")
				assert.Contains(t, text, fmt.Sprintf("page %d of %d", i+1, len(pages)))
				assert.Equal(t, o.Printed[0] > 0, strings.Contains(text, "Scaled 99.6 % across and 100 % down"), text)
				if o.Hand != "" {
					assert.Contains(t, text, "left hand")
				}
				for _, x := range pg.Items {
					if x.Kind != draft.Open && x.Kind != draft.Close {
						assert.Contains(t, draft.Styles, x.Class)
					}
				}
				stamp, _ := tileItems(pg, "stamp")
				for _, x := range pg.Items { // the stamp covers no words
					if len(stamp) == 0 || x.Kind != draft.Text || slices.ContainsFunc(stamp, func(s draft.Item) bool { return s.Words == x.Words }) {
						continue
					}
					size := draft.Styles[x.Class].Size
					w, h := draft.Width(x.Words, size)/2, size/2
					at := x.At.Sub(geom.Vec2{0, h * 0.7})
					switch x.To {
					case draft.Start:
						at[0] += w
					case draft.End:
						at[0] -= w
					}
					if x.Turn != 0 {
						continue
					}
					b := stamp[0]
					assert.False(t, math.Abs(at[0]-b.At[0]-b.W/2) < w+b.W/2 && math.Abs(at[1]-b.At[1]-b.H/2) < h*0.7+b.H/2, "%s page %d: the stamp covers %s", name, i+1, x.Words)
				}
				for _, x := range pg.Items { // nothing in the printer's margin
					if x.Kind == draft.Text {
						assert.True(t, x.At[0] >= usualMargin && x.At[1] >= usualMargin && x.At[0] <= pg.W-usualMargin && x.At[1] <= pg.H-usualMargin, x.Words)
					}
				}
			}
		}
	}
}

// A printer that is out is put right by its own check square at once, and a second correction goes on from the first.
func TestCorrection(t *testing.T) {
	r := seedOf(t)
	for range 200 {
		o := TemplateOptions{Units: fold.Units(r.IntN(2))}
		mm, _ := o.square()
		full := mm / o.Units.Scale()
		printer := [2]float64{foldtest.Uniform(r, 0.985, 1.015), foldtest.Uniform(r, 0.985, 1.015)}
		print := func() (m [2]float64) {
			c, err := o.Correction()
			require.NoError(t, err)
			return [2]float64{full * c[0] * printer[0], full * c[1] * printer[1]}
		}
		first := print()
		for k := range first { // read off a rule, to half a division
			first[k] *= foldtest.Uniform(r, 0.997, 1.003)
		}
		o.Printed = first
		second := print()
		for k := range second {
			assert.InDelta(t, full, second[k], 0.0031*full)
		}
		c, _ := o.Correction()
		o.Before, o.Printed = c, second
		third := print()
		assert.InDelta(t, full, third[0], 1e-9)
		assert.InDelta(t, full, third[1], 1e-9)
	}
}

// What can't be printed is refused at its field.
func TestTemplateRefuses(t *testing.T) {
	p := fold.Build(testParts(t)["testdata/parts/bracket.dryfold"])
	require.True(t, p.Foldable)
	v := func(x float64) *float64 { return &x }
	nan := math.NaN()
	for _, c := range []struct {
		field, need string
		o           TemplateOptions
	}{
		{"paper", "one of A4, A3, Letter, Tabloid, or roll", TemplateOptions{Paper: "A5"}},
		{"roll", "width from", TemplateOptions{Paper: Roll}},
		{"roll", "width from", TemplateOptions{Paper: Roll, Roll: -300}},
		{"roll", "width from", TemplateOptions{Paper: Roll, Roll: nan}},
		{"roll", "width from", TemplateOptions{Paper: Roll, Roll: math.Inf(1)}},
		{"roll", "holds the check square of 100 mm", TemplateOptions{Paper: Roll, Roll: 100}},
		{"margin", "0 mm to 60 mm", TemplateOptions{Margin: v(-1)}},
		{"margin", "0 mm to 60 mm", TemplateOptions{Margin: v(nan)}},
		{"margin", "0 mm to 60 mm", TemplateOptions{Margin: v(300)}},
		{"margin", "50 mm at most on A4", TemplateOptions{Margin: v(55)}},
		{"overlap", "8 mm to 40 mm", TemplateOptions{Overlap: v(-3)}},
		{"overlap", "8 mm to 40 mm", TemplateOptions{Overlap: v(nan)}},
		{"overlap", "8 mm to 40 mm", TemplateOptions{Overlap: v(0)}},
		{"overlap", "8 mm to 40 mm", TemplateOptions{Overlap: v(250)}},
		{"printed[0]", "98 to 102", TemplateOptions{Printed: [2]float64{200, 100}}},
		{"printed[1]", "98 to 102", TemplateOptions{Printed: [2]float64{100, 96.2}}},
		{"printed[0]", "98 to 102", TemplateOptions{Printed: [2]float64{nan, 100}}},
		{"printed[0]", "98 to 102", TemplateOptions{Printed: [2]float64{-100, 100}}},
		{"printed[0]", "98 to 102", TemplateOptions{Printed: [2]float64{1e-300, 100}}},
		{"printed[0]", "3.92 to 4.08", TemplateOptions{Units: fold.Inch, Printed: [2]float64{100, 100}}},
		{"printed[1]", "begin anew", TemplateOptions{Before: [2]float64{1, 1.02}, Printed: [2]float64{0, 98.5}}},
		{"before[1]", "from 0.97 to 1.03", TemplateOptions{Before: [2]float64{0, 2}}},
		{"before[0]", "from 0.97 to 1.03", TemplateOptions{Before: [2]float64{nan, 1}}},
		{"hand", `"left", "right"`, TemplateOptions{Hand: "up"}},
	} {
		pages, err := Template(p, nil, c.o)
		var f *FieldError
		require.ErrorAs(t, err, &f, "%+v", c.o)
		assert.Equal(t, c.field, f.Field)
		assert.Contains(t, f.Need, c.need)
		assert.Empty(t, pages)
	}
	_, err := Template(p, nil, TemplateOptions{Before: [2]float64{0, 0}, Printed: [2]float64{0, 0}})
	require.NoError(t, err)

	big := fold.Spec{Name: "big", Outline: foldtest.Points(0, 0, 6000, 0, 6000, 2000, 0, 2000)}
	big.Sheet.Thickness = 1
	p = fold.Build(big)
	require.True(t, p.Foldable)
	_, err = Template(p, nil, TemplateOptions{})
	var f *FieldError
	require.ErrorAs(t, err, &f)
	assert.Equal(t, "paper", f.Field)
	assert.Contains(t, f.Need, "a roll: one 2020 mm wide")
	big.Outline = foldtest.Points(0, 0, 9e5, 0, 9e5, 9e5, 0, 9e5)
	_, err = Template(fold.Build(big), nil, TemplateOptions{Paper: Roll, Roll: 900})
	require.ErrorAs(t, err, &f)

	bad := testParts(t)["testdata/parts/bracket.dryfold"]
	bad.Bends = slices.Clone(bad.Bends)
	bad.Bends[0].Line[1] = bad.Bends[0].Line[0]
	p = fold.Build(bad)
	require.False(t, p.Foldable)
	_, err = Template(p, nil, TemplateOptions{})
	require.ErrorContains(t, err, "can't be printed as a template until it can be folded")
	require.False(t, errors.As(err, &f))
}

// Pages have numbers, row by row, for A and B are the datum edges; and these stand where sizes are measured from, in print of
// either hand A at the left and B below.
func TestPageNumbersAndDatums(t *testing.T) {
	letters := regexp.MustCompile(`\b[AB][0-9]`)
	p := fold.Build(testParts(t)["assets/uncapping-tray.dryfold"])
	for _, other := range []bool{false, true} {
		pages, err := Template(p, nil, TemplateOptions{Other: other})
		require.NoError(t, err)
		told := map[string]int{}
		for i := range pages {
			assert.NotRegexp(t, letters, allText(&pages[i]))
			foot, _ := tileItems(&pages[i], "foot")
			assert.True(t, slices.ContainsFunc(foot, func(x draft.Item) bool { return x.Class == "stamp" && x.Words == fmt.Sprint(i+1) }))
			items, _ := tileItems(&pages[i], "datums")
			outline, _ := tileItems(&pages[i], "outline")
			lo, hi := geom.Vec2{math.Inf(1), math.Inf(1)}, geom.Vec2{math.Inf(-1), math.Inf(-1)}
			for _, l := range strokes(outline) {
				for k := range lo {
					lo[k], hi[k] = min(lo[k], l[0][k], l[1][k]), max(hi[k], l[0][k], l[1][k])
				}
			}
			for _, x := range items {
				if x.Kind != draft.Text || x.Class != "fact" {
					continue
				}
				told[x.Words]++
				if x.Words == "A" {
					assert.InDelta(t, lo[0], x.At[0], 6)
				} else {
					assert.InDelta(t, hi[1], x.At[1], 6)
				}
			}
		}
		assert.Positive(t, told["A"])
		assert.Positive(t, told["B"])
		assert.Len(t, told, 2)
	}
}

// The words of some pages, each with its place.
func TestTemplateGolden(t *testing.T) {
	p := fold.Build(testParts(t)["assets/stand-bracket.dryfold"])
	rep := p.Quick()
	pages, err := Template(p, &rep, TemplateOptions{Units: fold.Inch, Paper: "Letter", Hand: "left"})
	require.NoError(t, err)
	golden(t, "testdata/template-stand-bracket.txt", pages)
	p = fold.Build(testParts(t)["assets/uncapping-tray.dryfold"])
	rep = p.Quick()
	pages, err = Template(p, &rep, TemplateOptions{})
	require.NoError(t, err)
	require.Equal(t, 4, len(pages), "two more if the foot grows by a line")
	p = fold.Build(testParts(t)["assets/wax-pan.dryfold"])
	rep = p.Quick()
	pages, err = Template(p, &rep, TemplateOptions{Paper: "Tabloid", Printed: [2]float64{99.5, 100.5}})
	require.NoError(t, err)
	golden(t, "testdata/template-wax-pan.txt", pages)
	pages, _, err = Card(bySizes(t)["measured-tray.dryfold"], CardOptions{TemplateOptions: TemplateOptions{Paper: Roll, Roll: 914}, Crease: Creased, Make: makeSizes})
	require.NoError(t, err)
	golden(t, "testdata/card-model-measured-tray.txt", pages)
}

func BenchmarkTemplate(b *testing.B) {
	p := fold.Build(testParts(b)["assets/uncapping-tray.dryfold"])
	r := p.Quick()
	b.ResetTimer()
	for range b.N {
		if _, err := Template(p, &r, TemplateOptions{}); err != nil {
			b.Fatal(err)
		}
	}
}
