package paper

// This file lays a template's blank out and cuts it up into tiles.

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"dryfold/fold"
	"dryfold/fold/draft"
	"dryfold/fold/geom"
)

// piece is one drawn step of a template: a line or arc from a point, or a whole circle.
type piece struct {
	class string
	group string
	from  geom.Vec2
	step  draft.Step // of a circle Op is 'O': To its middle, R its radius
	box   geom.Box2
}

// at carries a point of the blank (mm) to the template's plane.
func (t *template) at(v geom.Vec2) geom.Vec2 {
	b := t.part.Blank.Box
	x := v[0] - b.Min[0]
	if t.opt.Other {
		x = b.Max[0] - v[0]
	}
	return geom.Vec2{x * t.scale[0], (b.Max[1] - v[1]) * t.scale[1]}
}

// draw lays out all that is drawn of the blank.
func (t *template) draw() {
	p := t.part
	k := p.Spec.Units.Scale()
	for _, loop := range append([]geom.Loop{p.Outline}, p.Voids...) {
		for i, v := range loop {
			t.lines = append(t.lines, ink{t.at(v), t.at(loop[(i+1)%len(loop)]), -1})
		}
	}
	t.rim = len(t.lines)
	if !t.bare {
		for _, e := range t.datums() {
			t.add(piece{class: "leader", group: "datums", from: e[0], step: draft.Step{Op: 'L', To: e[1]}})
			t.lines = append(t.lines, ink{e[0], e[1], -1})
		}
	}
	for _, c := range append([]fold.Contour{p.Spec.Outline}, p.Spec.Cutouts...) {
		c = tidy(c)
		for i := range c {
			t.edge("outline", c[i].At.Mul(k), c[(i+1)%len(c)], k)
		}
	}
	for _, h := range p.Spec.Holes {
		c, r := h.At.Mul(k), h.Diameter*k/2
		t.circle(c, r)
		w := r + 1.6
		for _, d := range []geom.Vec2{{w, 0}, {0, w}} {
			t.line("holes", "centre", c.Sub(d), c.Add(d), -1)
		}
	}
	for i := range p.Bends {
		b := &p.Bends[i]
		t.line("bends", "bendline", b.Line[0], b.Line[1], i)
		if b.Allowance >= tangentsFrom && !t.bare {
			for _, l := range tangents(b) {
				t.line("tangents", "tangent", l[0], l[1], i)
			}
		}
		if !t.bare && math.Abs(b.Radius-b.Allowance/2) > sightApart {
			l := b.SightLine()
			t.line("sight", "sight", l[0], l[1], i)
		}
	}
}

func (t *template) add(p piece) {
	p.box = geom.EmptyBox2()
	p.box.Add(p.from)
	p.box.Add(p.step.To)
	if a, ok := draft.ArcOf(p.from, p.step); ok && p.step.Op == 'A' { // the circle's box: a little too large is no harm
		p.box.Add(a.Centre.Add(geom.Vec2{a.R, a.R}))
		p.box.Add(a.Centre.Sub(geom.Vec2{a.R, a.R}))
	}
	if p.step.Op == 'O' {
		r := geom.Vec2{p.step.R, p.step.R}
		p.box = geom.Box2{Min: p.step.To.Sub(r), Max: p.step.To.Add(r)}
	}
	t.ink = append(t.ink, p)
}

func (t *template) line(group, class string, a, b geom.Vec2, bend int) {
	p, q := t.at(a), t.at(b)
	t.add(piece{class: class, group: group, from: p, step: draft.Step{Op: 'L', To: q}})
	t.lines = append(t.lines, ink{p, q, bend})
}

// edge is the contour's edge from a point (mm) to a vertex (in the file's units, k mm each).
func (t *template) edge(group string, from geom.Vec2, to fold.Vertex, k float64) {
	end := to.At.Mul(k)
	if to.Through != nil {
		a := arc{through: to.Through.Mul(k)}
		a.measure(from, end)
		if a.radius > 0 {
			if t.scale[0] == t.scale[1] {
				right := !a.ccw != t.opt.Other
				t.add(piece{class: "outline", group: group, from: t.at(from), step: draft.Step{Op: 'A', To: t.at(end), R: a.radius * t.scale[0], Large: a.large, Right: right}})
				return
			}
			lo := math.Atan2(from[1]-a.centre[1], from[0]-a.centre[0])
			sweep := math.Mod(math.Atan2(end[1]-a.centre[1], end[0]-a.centre[0])-lo+4*math.Pi, 2*math.Pi)
			if !a.ccw {
				sweep -= 2 * math.Pi
			}
			t.chords(group, a.centre, a.radius, lo, sweep, from, end)
			return
		}
	}
	t.add(piece{class: "outline", group: group, from: t.at(from), step: draft.Step{Op: 'L', To: t.at(end)}})
}

// chords are an arc that is scaled more one way than the other, and so no arc any more.
func (t *template) chords(group string, c geom.Vec2, r, from, sweep float64, first, last geom.Vec2) {
	n := 1
	if r > printChord {
		n = max(8, int(math.Ceil(math.Abs(sweep)/(2*math.Acos(1-printChord/r)))))
	}
	was := first
	for i := 1; i <= min(n, maxArcChords); i++ {
		sin, cos := math.Sincos(from + sweep*float64(i)/float64(min(n, maxArcChords)))
		v := c.Add(geom.Vec2{cos, sin}.Mul(r))
		if i == min(n, maxArcChords) {
			v = last
		}
		t.add(piece{class: "outline", group: group, from: t.at(was), step: draft.Step{Op: 'L', To: t.at(v)}})
		was = v
	}
}

func (t *template) circle(c geom.Vec2, r float64) {
	if t.scale[0] == t.scale[1] {
		t.add(piece{class: "outline", group: "holes", from: t.at(c), step: draft.Step{Op: 'O', To: t.at(c), R: r * t.scale[0]}})
		return
	}
	first := c.Add(geom.Vec2{r, 0})
	t.chords("holes", c, r, 0, 2*math.Pi, first, first)
}

// datums are the edges A and B that sizes are measured from, in the plane: as printed, A at the left and B below.
func (t *template) datums() [2][2]geom.Vec2 {
	z := t.part.Blank.Box.Size()
	for k := range z {
		z[k] *= t.scale[k]
	}
	return [2][2]geom.Vec2{{{0, 0}, {0, z[1]}}, {{0, z[1]}, z}}
}

// tiling is how a blank is cut up on a paper.
type tiling struct {
	page       geom.Vec2 // of each page
	win        geom.Vec2 // what of it shows the blank
	foot       float64   // height of what stands below that
	margin     float64
	over       float64
	cols, rows int
	origin     geom.Vec2 // where the first window's corner lies in the plane
	kept       []bool    // by row, then column
	count      int
}

// window is what of the plane a tile shows.
func (g *tiling) window(r, c int) geom.Box2 {
	lo := g.origin.Add(geom.Vec2{float64(c) * (g.win[0] - g.over), float64(r) * (g.win[1] - g.over)})
	return geom.Box2{Min: lo, Max: lo.Add(g.win)}
}

// core is the part of its window that a tile shows once all are joined: each is cut along the middle of its overlaps.
func (g *tiling) core(r, c int) geom.Box2 {
	b := g.window(r, c)
	h := g.over / 2
	if c > 0 {
		b.Min[0] += h
	}
	if c < g.cols-1 {
		b.Max[0] -= h
	}
	if r > 0 {
		b.Min[1] += h
	}
	if r < g.rows-1 {
		b.Max[1] -= h
	}
	return b
}

// has reports whether a tile is printed.
func (g *tiling) has(r, c int) bool {
	return r >= 0 && c >= 0 && r < g.rows && c < g.cols && g.kept[r*g.cols+c]
}

// number is a printed tile's page, from 1, row by row. Letters are the datum edges'.
func (g *tiling) number(r, c int) int {
	n := 0
	for _, k := range g.kept[:r*g.cols+c+1] {
		if k {
			n++
		}
	}
	return n
}

func (g *tiling) pageName(r, c int) string { return "page " + strconv.Itoa(g.number(r, c)) }

// tile cuts the blank up on a paper, upright or across, with its spare room before, behind or on both sides: as takes the
// fewest pages, then the least paper.
func (t *template) tile(paper geom.Vec2) (*tiling, error) {
	var best *tiling
	least, along := math.Inf(1), -1.0
	for _, across := range []bool{false, true} {
		page := paper
		if across {
			page = geom.Vec2{paper[1], paper[0]}
		}
		for _, g := range t.tilings(page) {
			if g.rows*g.cols > maxTiles {
				least = min(least, float64(g.rows*g.cols))
				continue
			}
			t.keep(g)
			least = min(least, float64(g.count))
			area := func(g *tiling) float64 { return math.Round(g.page[0] * g.page[1]) }
			if best == nil || g.count < best.count || g.count == best.count && area(g) < area(best) {
				best, along = g, -1
				continue
			}
			if g.count == best.count && area(g) == area(best) && g.count > 1 {
				if along < 0 {
					along = t.alongJoins(best)
				}
				if a := t.alongJoins(g); a < along {
					best, along = g, a
				}
			}
		}
	}
	if best == nil || best.count > maxPages {
		size := t.part.Blank.Box.Size()
		need := fmt.Sprintf("larger paper, for %d pages at most", maxPages)
		if wide := math.Ceil(min(size[0]*t.scale[0], size[1]*t.scale[1]) + 2*t.margin + 2*blankRoom); wide <= widestRoll {
			need += fmt.Sprintf(", or a roll: one %.0f mm wide takes its whole width", wide)
		}
		return nil, refused("paper", fmt.Sprintf("a blank of %s × %s %s, which would take %.0f pages", t.length(size[0]), t.length(size[1]), unitName(t.opt.Units), least), "%s", need)
	}
	return best, nil
}

// tilings are the ways to lay the blank on pages of a size; on a roll pages are as long as they have to be.
func (t *template) tilings(page geom.Vec2) []*tiling {
	g := tiling{page: page, margin: t.margin, over: t.over}
	need := t.part.Blank.Box.Size()
	mm, _ := t.opt.square()
	least := geom.Vec2{mm*t.scale[0] + 2*squareRoom, mm*t.scale[1] + 2*squareRoom}
	for k := range need {
		need[k] = need[k]*t.scale[k] + 2*blankRoom
	}
	count := func(k int) (n int) {
		if need[k] <= g.win[k] {
			return 1
		}
		return int(min(1e5, math.Ceil((need[k]-g.over)/(g.win[k]-g.over)-1e-9)))
	}
	for _, joined := range []bool{false, true} {
		if page[0] == longestPage { // a roll across is as wide as it has to be, and its foot by that as high
			g.page[0] = min(longestPage, math.Ceil(max(need[0], least[0], leastAcross-2*g.margin)+2*g.margin))
		}
		g.foot = t.footHeight(g.page[0]-2*g.margin, joined)
		if page[1] == longestPage {
			g.page[1] = min(longestPage, math.Ceil(max(need[1], least[1])+g.foot+2*g.margin))
		}
		g.win = g.page.Sub(geom.Vec2{2 * g.margin, 2*g.margin + g.foot})
		g.cols, g.rows = count(0), count(1)
		if !joined && g.cols*g.rows == 1 {
			break
		}
	}
	if g.win[1] < least[1] { // the foot leaves no room for the check square this way round
		return nil
	}
	n := geom.Vec2{float64(g.cols), float64(g.rows)}
	var out []*tiling
	ways := 5
	if len(t.lines) > manyLines {
		ways = 2
	}
	for i := range ways * ways {
		h := g
		again := false
		for k, s := range []int{i % ways, i / ways} {
			spare := max(0, n[k]*(g.win[k]-g.over)+g.over-need[k])
			again = again || s > 0 && (n[k] == 1 || spare < 1)
			h.origin[k] = -blankRoom - spare*float64(s)/float64(ways-1)
		}
		if !again {
			out = append(out, &h)
		}
	}
	return out
}

// alongJoins is what length of lines runs along the joins and would be lost in them, mm.
func (t *template) alongJoins(g *tiling) (sum float64) {
	step := g.win.Sub(geom.Vec2{g.over, g.over})
	for _, l := range t.lines {
		d := l.b.Sub(l.a)
		for k, n := range []int{g.cols, g.rows} {
			if n < 2 || math.Abs(d[k]) > 0.1*math.Abs(d[1-k]) {
				continue
			}
			// The joins lie over/2 past every window's begin but the first's.
			x := (min(l.a[k], l.b[k]) + math.Abs(d[k])/2 - g.origin[k] - g.over/2) / step[k]
			if i := math.Round(x); i >= 1 && i < float64(n) && math.Abs(x-i)*step[k] < g.over/2+math.Abs(d[k])/2 {
				sum += math.Abs(d[1-k])
			}
		}
	}
	return sum
}

// keep finds the tiles that show some metal. One is told by what it shows once all are joined: what the next page shows
// too is no reason to print it.
func (t *template) keep(g *tiling) {
	g.kept = make([]bool, g.rows*g.cols)
	cross := make([][]float64, g.rows) // where the metal's edges cross the middle line of each row
	step := g.win.Sub(geom.Vec2{g.over, g.over})
	of := func(k int, x float64, n int) int {
		return int(max(0, min(float64(n-1), math.Floor((x-g.origin[k])/step[k]))))
	}
	middles := make([]float64, g.rows)
	for r := range middles {
		c := g.core(r, 0)
		middles[r] = (c.Min[1] + c.Max[1]) / 2
	}
	for _, l := range t.lines[:t.rim] {
		lo := geom.Vec2{min(l.a[0], l.b[0]), min(l.a[1], l.b[1])}
		hi := geom.Vec2{max(l.a[0], l.b[0]), max(l.a[1], l.b[1])}
		for r := of(1, lo[1]-g.over, g.rows); r <= of(1, hi[1]+1, g.rows); r++ {
			if y := middles[r]; (l.a[1] > y) != (l.b[1] > y) {
				cross[r] = append(cross[r], l.a[0]+(l.b[0]-l.a[0])*(y-l.a[1])/(l.b[1]-l.a[1]))
			}
			for c := of(0, lo[0]-g.over, g.cols); c <= of(0, hi[0]+1, g.cols); c++ {
				if k := r*g.cols + c; !g.kept[k] && crossesBox(l.a, l.b, g.core(r, c), 1) {
					g.kept[k] = true
				}
			}
		}
	}
	for r := range g.rows {
		slices.Sort(cross[r])
		for c := range g.cols {
			b := g.core(r, c)
			n, _ := slices.BinarySearch(cross[r], (b.Min[0]+b.Max[0])/2)
			g.kept[r*g.cols+c] = g.kept[r*g.cols+c] || n%2 == 1
			if g.kept[r*g.cols+c] {
				g.count++
			}
		}
	}
}

// diamond is a match mark on the line along which two tiles are joined.
type diamond struct {
	at geom.Vec2
	no int
}

// join is where two tiles meet: the second lies over the first and is cut along the line a to b.
type join struct {
	r, c, r2, c2 int
	a, b         geom.Vec2
	marks        []diamond
}

func (j *join) upright() bool { return j.r == j.r2 }

// numbers lists a join's diamonds.
func (j *join) numbers() string {
	var n []string
	for _, d := range j.marks {
		n = append(n, strconv.Itoa(d.no))
	}
	if len(n) < 2 {
		return strings.Join(n, "")
	}
	return strings.Join(n[:len(n)-1], ", ") + " and " + n[len(n)-1]
}

// joins are all places where kept tiles meet, with their diamonds numbered through.
func (t *template) joins(g *tiling) []join {
	var out []join
	no := 0
	for r := range g.rows {
		for c := range g.cols {
			if !g.has(r, c) {
				continue
			}
			core := g.core(r, c)
			var js []join
			if g.has(r, c-1) {
				js = append(js, join{r: r, c: c - 1, r2: r, c2: c, a: core.Min, b: geom.Vec2{core.Min[0], core.Max[1]}})
			}
			if g.has(r-1, c) {
				js = append(js, join{r: r - 1, c: c, r2: r, c2: c, a: core.Min, b: geom.Vec2{core.Max[0], core.Min[1]}})
			}
			for _, j := range js {
				n := max(2, int(math.Ceil(j.b.Sub(j.a).Len()/diamondPitch)))
				for i := range n {
					no++
					j.marks = append(j.marks, diamond{t.clearOn(j, (float64(i)+0.5)/float64(n)), no})
				}
				out = append(out, j)
			}
		}
	}
	return out
}

// clearOn is a place on a join near a share of its way where a diamond covers no line, if there is one.
func (t *template) clearOn(j join, share float64) geom.Vec2 {
	d := j.b.Sub(j.a)
	u := d.Mul(1 / d.Len())
	mid := j.a.Add(d.Mul(share))
	w := t.over/2 + 4
	lines := near(t.lines, around(mid, w+30, w+30))
	for _, off := range []float64{0, 6, -6, 12, -12, 18, -18, 24, -24, 30, -30} {
		at := mid.Add(u.Mul(off))
		if !slices.ContainsFunc(lines, func(l ink) bool { return crossesBox(l.a, l.b, around(at, w, w), 0.5) }) {
			return at
		}
	}
	return mid
}
