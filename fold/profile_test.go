package fold_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"runtime"
	"testing"

	"github.com/stretchr/testify/require"

	"dryfold/assets"
	"dryfold/fold"
	"dryfold/fold/foldtest"
	"dryfold/fold/geom"
	"dryfold/fold/partfile"
	"dryfold/fold/shape"
)

// segments is the distance of two segments in space, by the nearest points of their lines, held to their ends.
func segments(p, q, r, s geom.Vec3) float64 {
	d1, d2, w := q.Sub(p), s.Sub(r), p.Sub(r)
	a, e, f := d1.Dot(d1), d2.Dot(d2), d2.Dot(w)
	best := math.Inf(1)
	at := func(x, y float64) {
		x, y = max(0, min(1, x)), max(0, min(1, y))
		best = min(best, p.Add(d1.Mul(x)).Sub(r.Add(d2.Mul(y))).Len())
	}
	b, c := d1.Dot(d2), d1.Dot(w)
	if den := a*e - b*b; den > 0 {
		at((b*f-c*e)/den, (a*f-b*c)/den)
	}
	for _, x := range []float64{0, 1} { // an end of one, and what is nearest to it on the other
		at(x, (b*x+f)/e)
		at((b*x-c)/a, x)
	}
	return best
}

// runsThrough reports whether the segment u-v crosses a face of the solid over a region, z 0..t.
func runsThrough(reg geom.Region, u, v geom.Vec3, t float64) bool {
	d := v.Sub(u)
	for _, z := range []float64{0, t} {
		if k := (z - u[2]) / d[2]; k >= 0 && k <= 1 {
			if p := u.Add(d.Mul(k)); reg.Contains(geom.Vec2{p[0], p[1]}) {
				return true
			}
		}
	}
	for _, l := range reg.Loops() {
		for i, a := range l {
			e := l[(i+1)%len(l)].Sub(a)
			w := geom.Vec2{u[0] - a[0], u[1] - a[1]}
			den := geom.Cross2(geom.Vec2{d[0], d[1]}, e)
			k, m := geom.Cross2(e, w)/den, geom.Cross2(geom.Vec2{d[0], d[1]}, w)/den
			if z := u[2] + d[2]*k; k >= 0 && k <= 1 && m >= 0 && m <= 1 && z >= 0 && z <= t {
				return true
			}
		}
	}
	return false
}

// slowGap is the clear distance at a share of a seam's run from the definition: all pairs of features, of whole regions with
// their holes.
func slowGap(ps fold.Pose, s fold.Seam, share float64) float64 {
	th := ps.Part.Thickness
	mid := func(panel int, p geom.Vec2) geom.Vec3 { return ps.PanelPoint(panel, p, th/2) }
	a0, a1 := mid(s.A, s.EdgeA[0]), mid(s.A, s.EdgeA[1])
	b0, b1 := mid(s.B, s.EdgeB[0]), mid(s.B, s.EdgeB[1])
	da, db := a1.Sub(a0).Normalize(), b1.Sub(b0).Normalize()
	if da.Dot(db) < 0 {
		db = db.Mul(-1)
	}
	e := da.Add(db).Normalize()
	for _, k := range []int{2, 0, 1} {
		if math.Abs(e[k]) > 1e-6 {
			if e[k] < 0 {
				e = e.Mul(-1)
			}
			break
		}
	}
	lo := max(min(a0.Dot(e), a1.Dot(e)), min(b0.Dot(e), b1.Dot(e)))
	hi := min(max(a0.Dot(e), a1.Dot(e)), max(b0.Dot(e), b1.Dot(e)))
	at := lo + (hi-lo)*share
	one := func(panel int, edge [2]geom.Vec2, p, q geom.Vec3, other int) float64 {
		x := edge[0].Add(edge[1].Sub(edge[0]).Mul((at - p.Dot(e)) / (q.Dot(e) - p.Dot(e))))
		f := ps.Panels[other]
		u, v := f.LocalPoint(ps.PanelPoint(panel, x, 0)), f.LocalPoint(ps.PanelPoint(panel, x, th))
		reg := ps.Part.Panels[other].Region
		if runsThrough(reg, u, v, th) {
			return 0
		}
		best := math.Inf(1)
		for _, w := range []geom.Vec3{u, v} {
			side := 0.0
			if q := (geom.Vec2{w[0], w[1]}); !reg.Contains(q) {
				side = math.Inf(1)
				for _, l := range reg.Loops() {
					for i, a := range l {
						d, _ := geom.SegmentDistance(q, a, l[(i+1)%len(l)])
						side = min(side, d)
					}
				}
			}
			best = min(best, math.Hypot(side, max(0, -w[2], w[2]-th)))
		}
		for _, l := range reg.Loops() {
			for i, a := range l {
				b := l[(i+1)%len(l)]
				a0, a1 := geom.Vec3{a[0], a[1], 0}, geom.Vec3{a[0], a[1], th}
				b0, b1 := geom.Vec3{b[0], b[1], 0}, geom.Vec3{b[0], b[1], th}
				best = min(best, segments(u, v, a0, b0), segments(u, v, a1, b1), segments(u, v, a0, a1))
			}
		}
		return best
	}
	return min(one(s.A, s.EdgeA, a0, a1, s.B), one(s.B, s.EdgeB, b0, b1, s.A))
}

// profileAt is a profile's gap at a place; jump where it has two.
func profileAt(ps []fold.GapPoint, at float64) (gap float64, jump bool) {
	for i := range ps[1:] {
		a, b := ps[i], ps[i+1]
		if a.At == b.At {
			if math.Abs(at-a.At) < 1e-5 {
				return 0, true
			}
			continue
		}
		if at <= b.At || i == len(ps)-2 {
			return a.Gap + (b.Gap-a.Gap)*(at-a.At)/(b.At-a.At), false
		}
	}
	return ps[len(ps)-1].Gap, false
}

// follows: no one of n stations lies outside what a seam's figures say, or further than ProfileError from its profile; the mean is
// that of the stations as far as they can tell. It gives how many stations were compared.
func follows(t *testing.T, ps fold.Pose, s fold.Seam, n int, info string) int {
	t.Helper()
	g, ok := ps.MeasureSeam(s)
	require.True(t, ok, info)
	info = fmt.Sprintf("%s, seam %s: %v", info, s.Name, g.Profile)
	p := g.Profile
	require.GreaterOrEqual(t, len(p), 2, info)
	require.Zero(t, p[0].At, info)
	require.Equal(t, g.Length, p[len(p)-1].At, info)
	require.Equal(t, []float64{g.AtStart, g.AtEnd}, []float64{p[0].Gap, p[len(p)-1].Gap}, info)
	least, most := math.Inf(1), math.Inf(-1)
	minAt, maxAt := false, false
	mean := 0.0
	for i, x := range p {
		least, most = min(least, x.Gap), max(most, x.Gap)
		minAt = minAt || x.At == g.MinAt && x.Gap <= g.Min+1e-9
		maxAt = maxAt || x.At == g.MaxAt && x.Gap >= g.Max-1e-9
		if i > 0 {
			require.GreaterOrEqual(t, x.At, p[i-1].At, info)
			mean += (x.Gap + p[i-1].Gap) / 2 * (x.At - p[i-1].At)
		}
	}
	require.InDelta(t, g.Min, least, 1e-9, info)
	require.InDelta(t, g.Max, most, 1e-9, info)
	require.True(t, minAt && maxAt, info)
	require.InDelta(t, mean/g.Length, g.Mean, fold.ProfileError, info)
	compared := 0
	sum, negative := 0.0, false
	for i := 0; i <= n; i++ {
		share := float64(i) / float64(n)
		want, jump := profileAt(p, share*g.Length)
		if jump || want < 0 {
			negative = true
			continue
		}
		d := slowGap(ps, s, share)
		compared++
		k := 1.0
		if i == 0 || i == n {
			k = 0.5
		}
		sum += k * d
		if d < g.Min-1e-9 || d > g.Max+1e-9 || math.Abs(d-want) > fold.ProfileError+1e-9 {
			t.Fatalf("%v mm along the gap is %.12g, the profile says %.12g, least %.12g, largest %.12g\n%s", share*g.Length, d, want, g.Min, g.Max, info)
		}
	}
	if !negative { // a sum over stations is as near as a station's part of the length, where the gap bends
		bends := 0.0
		for i := range p[1:] {
			bends += math.Abs(p[i+1].Gap - p[i].Gap)
		}
		require.InDelta(t, sum/float64(n), g.Mean, 1e-7+bends/float64(n), info)
	}
	return compared
}

// partsOf are the demo parts, the starters and the test parts.
func partsOf(t *testing.T) map[string]*fold.Part {
	out := map[string]*fold.Part{}
	add := func(name string, s fold.Spec) {
		if s.Sizes != nil {
			m, problems := shape.Make(s)
			require.Empty(t, problems, name)
			out[name] = m.Part
			return
		}
		out[name] = fold.Build(s)
	}
	for _, d := range assets.Demos() {
		s, err := partfile.Read(d.Data)
		require.NoError(t, err)
		add(d.File, s)
	}
	for _, s := range shape.Starters {
		add(s.ID, s.Make(fold.MM))
	}
	for _, dir := range []string{"parts", "sizes"} {
		files, err := filepath.Glob("../testdata/" + dir + "/*.dryfold")
		require.NoError(t, err)
		for _, f := range files {
			data, err := os.ReadFile(f)
			require.NoError(t, err)
			s, err := partfile.Read(data)
			require.NoError(t, err)
			add(filepath.Base(f), s)
		}
	}
	return out
}

// Kinds of joint on demo parts, starters and test parts, and the ways that they say.
func TestJointsOfParts(t *testing.T) {
	ps := partsOf(t)
	for _, c := range []struct{ part, seam, joint, way string }{
		{"uncapping-tray.dryfold", "right notch", "butt", ""},
		{"uncapping-tray.dryfold", "right corner", "outside corner, open", ""},
		{"hive-roof.dryfold", "front left corner", "outside corner, open", ""},
		{"hive-roof.dryfold", "front left hem", "outside corner, open", "open"},
		{"press-hopper.dryfold", "front left lip", "butt", ""},
		{"press-hopper.dryfold", "front left corner", "outside corner, open", ""},
		{"stepped-tray", "right to right 2", "butt", ""},
		{"bracket", "upright to left gusset", "outside corner, open", ""},
		{"channel-returns.dryfold", "mouth", "butt", "open"},
		{"tube.dryfold", "panel 4 to panel 5", "butt", ""},
		{"fouls.dryfold", "left to right", "outside corner, closed", ""},
		{"joined.dryfold", "closing", "butt", "weld"},
		{"joined-box-inch.dryfold", "front to right", "fillet", "weld"}, // one wall runs past the other by half an inch
		{"joined-box-inch.dryfold", "right to back", "outside corner, open", "weld"},
		{"joined-box-inch.dryfold", "back to left", "outside corner, open", "open"},
		{"joined-box-inch.dryfold", "left to front", "fillet", "spot"},
	} {
		found := false
		for _, s := range ps[c.part].Quick().Seams {
			if s.Name == c.seam {
				found = true
				require.Equal(t, c.joint, s.Joint, "%+v", c)
				require.Equal(t, c.way, s.Way, "%+v", c)
			}
		}
		require.True(t, found, "%+v", c)
	}
	for name, p := range ps { // every joint is one of the list
		for _, s := range p.Quick().Seams {
			require.Contains(t, fold.Joints, s.Joint, name)
		}
	}
}

// Every seam of every part that we have, those of the demo parts at 5,000 stations (500 in wasm).
func TestProfilesOfParts(t *testing.T) {
	compared, seams, stations := 0, 0, 0
	demo := map[string]bool{}
	for _, d := range assets.Demos() {
		demo[d.File] = true
	}
	for name, p := range partsOf(t) {
		if !p.Foldable {
			continue
		}
		found, _ := p.MeasureSeams()
		for _, s := range found {
			if s.OK {
				n := 500
				if demo[name] && runtime.GOARCH != "wasm" { // where the same numbers come out, slowly
					n = 5000
				}
				seams, stations = seams+1, stations+n
				compared += follows(t, p.Pose(p.Finished()), s.Seam, n, name)
			}
		}
	}
	require.Greater(t, seams, 50)
	require.Greater(t, compared, stations*9/10)
}

// Seams of random trays.
func TestProfilesOfTrays(t *testing.T) {
	compared := 0
	forSeeds(t, 25, func(t *testing.T, r *rand.Rand) {
		p := built(t, foldtest.RandomTray(r))
		found, _ := p.FindSeams()
		for _, s := range found {
			compared += follows(t, p.Pose(p.Finished()), s, 2000, "tray")
		}
	})
	if *seedFlag == 0 {
		require.Greater(t, compared, 50_000)
	}
}

// sheetOf is a flat panel by itself.
func sheetOf(t testing.TB, th float64, outline fold.Contour, cutouts ...fold.Contour) fold.Panel {
	k := 0.4
	p := fold.Build(fold.Spec{Name: "sheet", Sheet: fold.Sheet{Thickness: th, K: &k}, Outline: outline, Cutouts: cutouts})
	require.True(t, p.Foldable, "%v", p.Troubles)
	require.Len(t, p.Panels, 1)
	return p.Panels[0]
}

// two is two panels in space and the seam of an edge each.
type two struct {
	a, b         fold.Panel
	frame        geom.Frame // of b; a lies still
	edgeA, edgeB [2]geom.Vec2
}

func (x two) pose(th float64) (fold.Pose, fold.Seam) {
	part := &fold.Part{Thickness: th, Panels: []fold.Panel{x.a, x.b}}
	return fold.Pose{Part: part, Panels: []geom.Frame{geom.Identity(), x.frame}}, fold.Seam{Name: "seam", A: 0, B: 1, EdgeA: x.edgeA, EdgeB: x.edgeB}
}

func (x two) measure(t testing.TB, th float64) fold.SeamGap {
	ps, s := x.pose(th)
	g, ok := ps.MeasureSeam(s)
	require.True(t, ok)
	return g
}

var still = geom.Identity()

// plate is a panel of 100 x 30 under the line y = 0, x from 0 to 100; its upper edge runs to the left, the material on its left.
func plate(t testing.TB, th float64) (fold.Panel, [2]geom.Vec2) {
	return sheetOf(t, th, foldtest.Points(0, -30, 100, -30, 100, 0, 0, 0)), [2]geom.Vec2{{100, 0}, {0, 0}}
}

// Closed forms, one kind after the other: parallel, a tab of 0.2 mm, a slot of 0.2 mm, in plane at an angle, crossing planes, in each
// other.
func TestProfileClosedForms(t *testing.T) {
	const th = 1.5
	a, edgeA := plate(t, th)
	low := func(y float64) [2]geom.Vec2 { return [2]geom.Vec2{{0, y}, {100, y}} }

	// Parallel: two points, and the mean is the gap.
	b := sheetOf(t, th, foldtest.Points(0, 0.6, 100, 0.6, 100, 30, 0, 30))
	x := two{a, b, still, edgeA, low(0.6)}
	g := x.measure(t, th)
	require.Equal(t, []fold.GapPoint{{At: 0, Gap: 0.6}, {At: 100, Gap: 0.6}}, g.Profile)
	require.InDelta(t, 0.6, g.Mean, 1e-12)
	require.Zero(t, g.MinAt)
	require.Zero(t, g.MaxAt)
	require.Equal(t, "butt", g.Joint)

	// A tab of 0.2 mm that stands out of b, at a place that no even station meets.
	const at, half, reach = 37.173, 0.1, 0.4
	b = sheetOf(t, th, foldtest.Points(0, 1, at-half, 1, at-half, 1-reach, at+half, 1-reach, at+half, 1, 100, 1, 100, 30, 0, 30))
	x = two{a, b, still, edgeA, low(1)}
	g = x.measure(t, th)
	require.InDelta(t, 1-reach, g.Min, 1e-9)
	require.InDelta(t, at, g.MinAt, half+1e-6)
	require.InDelta(t, 1, g.Max, 1e-9)
	// Beside the tab, from where its corner is as near as b's edge: the root of 1 - 0.36 to each side.
	wing := math.Sqrt(1 - 0.6*0.6)
	area := 100 - 2*(half+wing) + 2*half*0.6 + 2*arcArea(0.6, wing)
	require.InDelta(t, area/100, g.Mean, 1e-6*area/100)
	follows(t, first(x.pose(th)), second(x.pose(th)), 20_000, "tab")

	// A slot of 0.2 mm across b's face under a's edge: a tee, whose gap rises to the slot's corners.
	stand := geom.Frame{O: geom.Vec3{0, 0.5, 0}, X: geom.Vec3{1, 0, 0}, Y: geom.Vec3{0, 0, 1}, Z: geom.Vec3{0, -1, 0}} // z of b points to a
	stand.O[1] = 0.5 + th
	b = sheetOf(t, th, foldtest.Points(0, -20, 100, -20, 100, 40, 0, 40), foldtest.Points(at-half, -10, at+half, -10, at+half, 25, at-half, 25))
	x = two{a, b, stand, edgeA, [2]geom.Vec2{{0, -20}, {100, -20}}}
	g = x.measure(t, th)
	require.InDelta(t, 0.5, g.Min, 1e-9)
	require.InDelta(t, math.Hypot(0.5, half), g.Max, 1e-9)
	require.InDelta(t, at, g.MaxAt, 1e-6)
	area = 100 - 2*half
	require.InDelta(t, (area*0.5+2*arcArea(0.5, half))/100, g.Mean, 1e-6*0.5)
	require.Equal(t, "fillet", g.Joint)
	follows(t, first(x.pose(th)), second(x.pose(th)), 20_000, "slot")

	// In one plane at an angle: the gap is straight, 2 sin(angle/2) a mm, but where a foot falls off an end.
	const turn = 0.08
	sin, cos := math.Sincos(turn)
	b = sheetOf(t, th, foldtest.Points(0, 0, 100, 0, 100, 30, 0, 30))
	f := geom.Frame{O: geom.Vec3{0, 0.5, 0}, X: geom.Vec3{cos, sin, 0}, Y: geom.Vec3{-sin, cos, 0}, Z: geom.Vec3{0, 0, 1}}
	x = two{a, b, f, edgeA, low(0)}
	g = x.measure(t, th)
	require.LessOrEqual(t, len(g.Profile), 4, "%v", g.Profile)
	up := 0.0
	for i := range g.Profile[1:] {
		p, q := g.Profile[i], g.Profile[i+1]
		if q.At-p.At > up {
			up = q.At - p.At
			require.InDelta(t, 2*math.Sin(turn/2), (q.Gap-p.Gap)/(q.At-p.At), 1e-4)
		}
	}
	require.Greater(t, up, 0.9*g.Length)
	require.InDelta(t, 0.5*cos, g.Min, 0.03)
	follows(t, first(x.pose(th)), second(x.pose(th)), 5000, "angle")

	// Crossing planes: b is turned about y, its edge g off; the gap is the root of g2 and how far the sections pass each other, squared. Both
	// panels reach further than the seam.
	b = sheetOf(t, th, foldtest.Points(-50, 0, 150, 0, 150, 30, -50, 30))
	for _, c := range []struct{ g, turn, from float64 }{{0.4, 0.05, 48}, {2, 0.3, 30}, {0.05, -0.2, 70}} {
		sin, cos := math.Sincos(c.turn)
		f := geom.Frame{O: geom.Vec3{c.from - c.from*cos, c.g, -c.from * sin}, X: geom.Vec3{cos, 0, sin}, Y: geom.Vec3{0, 1, 0}, Z: geom.Vec3{-sin, 0, cos}}
		x = two{a, b, f, [2]geom.Vec2{{80, 0}, {20, 0}}, [2]geom.Vec2{{-50, 0}, {150, 0}}}
		ps, s := x.pose(th)
		g = x.measure(t, th)
		// At their crossing the sections lie beside each other, the gap is c.g; far off they are apart by what the turn makes.
		require.InDelta(t, c.g, g.Min, 1e-9)
		sum, n := 0.0, 100_000
		e := geom.Vec3{1 + cos, 0, sin}.Normalize()
		if e[2] < 0 { // from the foot up
			e = e.Mul(-1)
		}
		lo := min(20*e[0], 80*e[0]) + th/2*e[2]
		form := func(at float64) float64 { // from the definition, in the plane y = 0
			k := lo + at
			xa := (k - th/2*e[2]) / e[0]
			bAt := func(w, z float64) (float64, float64) { // place along b's edge, and height in b, of the point x = w, z in space
				p := f.LocalPoint(geom.Vec3{w, c.g, z})
				return p[0], p[2]
			}
			off := func(pu, hu, pv, hv float64) float64 { // of a section that runs from height hu to hv past a strip 0..th high
				if min(hu, hv) > th {
					return min(hu, hv) - th
				}
				return max(0, -max(hu, hv))
			}
			pu, hu := bAt(xa, 0)
			pv, hv := bAt(xa, th)
			d1 := off(pu, hu, pv, hv)
			xb := (k - f.Point(geom.Vec3{0, 0, th / 2}).Dot(e)) / f.Vector(geom.Vec3{1, 0, 0}).Dot(e)
			u, v := f.Point(geom.Vec3{xb, 0, 0}), f.Point(geom.Vec3{xb, 0, th})
			d2 := off(0, u[2], 0, v[2])
			return math.Hypot(c.g, min(d1, d2))
		}
		for i := range n {
			sum += form((float64(i) + 0.5) / float64(n) * g.Length)
		}
		require.InDelta(t, sum/float64(n), g.Mean, 2e-6*g.Mean, "%v", c)
		for i := range 1001 {
			at := float64(i) / 1000 * g.Length
			got, _ := profileAt(g.Profile, at)
			require.InDelta(t, form(at), got, fold.ProfileError, "%v at %v", c, at)
		}
		require.Less(t, len(g.Profile), 60)
		follows(t, ps, s, 5000, fmt.Sprint(c))
	}

	// In each other: b's tab reaches 0.3 mm over a, and the gap jumps where it begins and ends.
	b = sheetOf(t, th, foldtest.Points(0, 1, 40, 1, 40, -0.3, 40.2, -0.3, 40.2, 1, 100, 1, 100, 30, 0, 30))
	x = two{a, b, still, edgeA, low(1)}
	g = x.measure(t, th)
	require.InDelta(t, -0.3, g.Min, 1e-9)
	require.InDelta(t, 40, g.MinAt, 1e-6)
	jumps := 0
	for i := range g.Profile[1:] {
		p, q := g.Profile[i], g.Profile[i+1]
		if p.At == q.At {
			jumps++
			require.InDelta(t, 40.1, p.At, 0.1+1e-6)
			require.InDelta(t, -0.3, min(p.Gap, q.Gap), 1e-9)
			require.InDelta(t, 0, max(p.Gap, q.Gap), 1e-6)
		}
	}
	require.Equal(t, 2, jumps)
	require.InDelta(t, (100-0.2-2*1+2*0.5-0.2*0.3)/100, g.Mean, 1e-6) // beside the tab the gap is the way to its side
	follows(t, first(x.pose(th)), second(x.pose(th)), 20_000, "in each other")

	// Wholly in each other.
	b = sheetOf(t, th, foldtest.Points(0, -0.25, 100, -0.25, 100, 30, 0, 30))
	g = two{a, b, still, edgeA, low(-0.25)}.measure(t, th)
	require.Len(t, g.Profile, 2)
	require.InDelta(t, -0.25, g.Mean, 1e-9)
	require.InDelta(t, -0.25, g.Max, 1e-9)
}

func first(ps fold.Pose, _ fold.Seam) fold.Pose { return ps }
func second(_ fold.Pose, s fold.Seam) fold.Seam { return s }

// arcArea is the integral of the distance to a point d off, from beside it to w along.
func arcArea(d, w float64) float64 {
	r := math.Hypot(d, w)
	return (w*r + d*d*math.Log((w+r)/d)) / 2
}

// Random panels with tabs, notches, slots and round holes along their edges, some narrower than a tenth of a mm, near each other at any
// turn: butts, corners, tees, laps, with and without overlap. No station lies outside what the profile says.
func TestProfilesOfRandomPanels(t *testing.T) {
	compared, pieces, overlaps, bent := 0, 0, 0, 0
	forSeeds(t, 40, func(t *testing.T, r *rand.Rand) {
		th := foldtest.LogUniform(r, 0.3, 6)
		length := foldtest.LogUniform(r, 20, 1500)
		toothed := func() fold.Contour { // an edge along y = 0 that is not straight everywhere; above it the material
			var pts []float64
			pts = append(pts, 0, 0)
			x := 0.0
			for range r.IntN(6) {
				w, d := foldtest.LogUniform(r, 0.05, 5), foldtest.LogUniform(r, 0.05, 8)
				if r.IntN(2) == 0 {
					d = -d
				}
				from := x + 0.5 + r.Float64()*(length/6-7)
				if length < 60 || from+w > length-1 {
					break
				}
				lean := w * 0.4 * r.Float64()
				pts = append(pts, from, 0, from+lean, d, from+w-lean, d, from+w, 0)
				x = from + w
			}
			pts = append(pts, length, 0, length, 30, 0, 30)
			return foldtest.Points(pts...)
		}
		holes := func() (out []fold.Contour) {
			x := 1.0
			for range r.IntN(4) {
				w := foldtest.LogUniform(r, 0.1, 8)
				x += 1 + r.Float64()*length/5
				if x+w > length-2 {
					break
				}
				y := 8.5 + r.Float64()*5
				out = append(out, foldtest.Points(x, y, x+w, y, x+w*0.9, y+4+r.Float64()*5, x, y+3))
				x += w
			}
			return out
		}
		a, b := sheetOf(t, th, toothed(), holes()...), sheetOf(t, th, toothed(), holes()...)
		pieces = max(pieces, len(a.Pieces), len(b.Pieces))
		// b is turned over the line y = 0 of a by any angle, moved off, and set a little askew.
		turn := foldtest.Uniform(r, -math.Pi, math.Pi)
		if r.IntN(3) == 0 {
			turn = []float64{math.Pi, math.Pi / 2, -math.Pi / 2, 0}[r.IntN(4)]
		}
		sin, cos := math.Sincos(turn)
		f := geom.Frame{X: geom.Vec3{1, 0, 0}, Y: geom.Vec3{0, cos, sin}, Z: geom.Vec3{0, -sin, cos}}
		if r.IntN(2) == 0 {
			for _, k := range []int{0, 1} { // about z, then about y
				s, c := math.Sincos(foldtest.LogUniform(r, 1e-4, 0.2) * float64(1-2*r.IntN(2)))
				q := geom.Frame{X: geom.Vec3{c, s, 0}, Y: geom.Vec3{-s, c, 0}, Z: geom.Vec3{0, 0, 1}}
				if k == 1 {
					q = geom.Frame{X: geom.Vec3{c, 0, s}, Y: geom.Vec3{0, 1, 0}, Z: geom.Vec3{-s, 0, c}}
				}
				f = q.Compose(f)
			}
		}
		mid := geom.Vec3{length / 2, 0, th / 2}
		off := geom.Vec3{foldtest.Uniform(r, -5, 5), -foldtest.LogUniform(r, 0.02, 6), foldtest.Uniform(r, -3, 3)}
		if r.IntN(3) == 0 {
			off[1] = -off[1] / 4
		}
		f.O = f.O.Add(mid.Add(off).Sub(f.Point(mid)))
		edge := [2]geom.Vec2{{0, 0}, {length, 0}}
		x := two{a, b, f, edge, edge}
		ps, s := x.pose(th)
		if g, ok := ps.MeasureSeam(s); ok {
			if g.Min < 0 {
				overlaps++
			}
			if len(g.Profile) > 4 {
				bent++
			}
			n := 5000
			if runtime.GOARCH == "wasm" { // where the same numbers come out, slowly
				n = 500
			}
			compared += follows(t, ps, s, n, fmt.Sprintf("T %v, length %v, turn %v", th, length, turn))
		}
	})
	if *seedFlag == 0 {
		t.Logf("%d stations compared, up to %d pieces, %d seams in each other, %d with more than 4 points", compared, pieces, overlaps, bent)
		require.Greater(t, compared, 10_000)
		require.Greater(t, overlaps, 10)
		require.Greater(t, bent, 20)
		require.Greater(t, pieces, 8)
	}
}
