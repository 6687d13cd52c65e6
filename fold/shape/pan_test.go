package shape

// This file measures foldtest's pans, the twins of what Make makes, on the folded part: every finished size and every
// gap. What it measures with serves the tests of Make's parts too.

import (
	"math"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/require"

	"dryfold/fold"
	"dryfold/fold/foldtest"
	"dryfold/fold/geom"
)

func plainPan() foldtest.PanSizes {
	k := 0.42
	return foldtest.PanSizes{Length: 300, WidthFront: 200, WidthBack: 200, Depth: 50, Thickness: 1.5, Radius: 1.5, K: &k, Gap: 0.8}
}

// folded is a part folded to the end, with planes to measure by.
type folded struct {
	t    *testing.T
	part *fold.Part
	pose fold.Pose
}

func foldUp(t *testing.T, s fold.Spec) folded {
	p := fold.Build(s)
	require.True(t, p.Foldable, "%v", p.Troubles)
	require.Empty(t, p.Troubles)
	return folded{t, p, p.Pose(p.Finished())}
}

func (f folded) panel(name string) int {
	for i := range f.part.Panels {
		if f.part.Panels[i].Name == name {
			return i
		}
	}
	require.Fail(f.t, "no panel "+name)
	return -1
}

// face is a panel's upper (z = T) or lower face as a plane n.x = d.
func (f folded) face(name string, upper bool) (n geom.Vec3, d float64) {
	fr := f.pose.Panels[f.panel(name)]
	z := 0.0
	if upper {
		z = f.part.Thickness
	}
	return fr.Z, fr.Z.Dot(fr.Point(geom.Vec3{0, 0, z}))
}

// extreme is how far a panel's corners reach along dir.
func (f folded) extreme(name string, dir geom.Vec3) float64 {
	i := f.panel(name)
	m := math.Inf(-1)
	for _, q := range f.part.Panels[i].Region.Outer {
		for _, z := range []float64{0, f.part.Thickness} {
			m = max(m, dir.Dot(f.pose.PanelPoint(i, q, z)))
		}
	}
	return m
}

// solve gives the point where three planes meet, by Cramer's rule.
func solve(n [3]geom.Vec3, d [3]float64) geom.Vec3 {
	det := n[0].Dot(n[1].Cross(n[2]))
	return n[1].Cross(n[2]).Mul(d[0]).Add(n[2].Cross(n[0]).Mul(d[1])).Add(n[0].Cross(n[1]).Mul(d[2])).Mul(1 / det)
}

// corners gives where the four walls' faces meet the level z: front left, front
// right, back right, back left.
func (f folded) corners(upper bool, z float64) (c [4]geom.Vec3) {
	names := []string{"left", "front", "right", "back", "left"}
	for i := range c {
		n0, d0 := f.face(names[i], upper)
		n1, d1 := f.face(names[i+1], upper)
		c[i] = solve([3]geom.Vec3{n0, n1, {0, 0, 1}}, [3]float64{d0, d1, z})
	}
	return c
}

// A square tray by closed form, without the kernel: walls that end e inside the
// neighbour's tangent line leave sqrt(2) (R+e) between their inner edges.
func TestSquareTrayEnds(t *testing.T) {
	for _, gap := range []float64{0, 0.5, 0.8, 3} {
		s := plainPan()
		s.Gap = gap
		spec, err := foldtest.Pan(s)
		require.NoError(t, err)
		e := gap/math.Sqrt2 - s.Radius
		// The front wall's top edge on the blank is as long as its floor line less both ends.
		require.InDelta(t, s.WidthFront-2*s.Radius-2*e, topLength(spec), 1e-9)
	}
}

// topLength is the length of the front wall's top edge, the lowest of the blank.
func topLength(s fold.Spec) float64 {
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, v := range s.Outline {
		if math.Abs(v.At[1]) < 1e-9 {
			lo, hi = min(lo, v.At[0]), max(hi, v.At[0])
		}
	}
	return hi - lo
}

// checkSizes measures a folded pan the way s says and checks every size.
func checkSizes(t *testing.T, s foldtest.PanSizes, tol float64, swings bool) {
	spec, err := foldtest.Pan(s)
	require.NoError(t, err, "%+v", s)
	f := foldUp(t, spec)
	k := s.Units.Scale()
	T := s.Thickness * k
	sin, cos := math.Sincos(s.Lean * math.Pi / 180)

	// The highest point.
	top := f.extreme("front", geom.Vec3{0, 0, 1})
	if s.Rim != foldtest.PlainRim {
		for i := range f.part.Bends {
			if b := &f.part.Bends[i]; b.Name == "front lip" || b.Name == "front hem" {
				axis, _, _ := f.pose.ZoneAxis(i)
				top = axis[2] + b.Radius + T // of the bend's outer cylinder
			}
		}
	}
	depth := top
	if !s.Outside {
		depth -= T
	}
	require.InDelta(t, s.Depth*k, depth, tol)

	// Length and widths between the planes that the sizes name.
	var c [4]geom.Vec3
	switch {
	case s.Level == foldtest.AtFloor && !s.Outside:
		c = f.corners(true, T)
	case s.Level == foldtest.AtFloor:
		c = f.corners(false, 0)
	case !s.Outside:
		c = f.corners(true, top)
	case s.Rim == foldtest.PlainRim:
		c = f.corners(false, top-T*sin) // at the height of the outer edges
	default:
		// Over all, through planes upright in each rim's outermost line.
		names := []string{"left", "front", "right", "back", "left"}
		rim := " lip"
		if s.Rim == foldtest.HemRim {
			rim = " hem"
		}
		plane := func(name string) (geom.Vec3, float64) {
			n, _ := f.face(name, true)
			out := geom.Vec3{-n[0], -n[1], 0}.Normalize()
			d := f.extreme(name+rim, out)
			if s.Rim == foldtest.HemRim {
				for i := range f.part.Bends {
					if b := &f.part.Bends[i]; b.Name == name+" hem" {
						axis, _, _ := f.pose.ZoneAxis(i)
						d = out.Dot(axis) + b.Radius + T
					}
				}
			}
			return out, d
		}
		for i := range c {
			n0, d0 := plane(names[i])
			n1, d1 := plane(names[i+1])
			c[i] = solve([3]geom.Vec3{n0, n1, {0, 0, 1}}, [3]float64{d0, d1, top})
		}
	}
	require.InDelta(t, s.WidthFront*k, c[1].Sub(c[0]).Len(), tol, "%+v", s)
	require.InDelta(t, s.WidthBack*k, c[2].Sub(c[3]).Len(), tol)
	require.InDelta(t, s.Length*k, c[2][1]-c[1][1], tol)
	require.InDelta(t, s.Length*k, c[3][1]-c[0][1], tol)

	// Every wall leans alike; lips are level; what stands at the same height ends there.
	for _, name := range wallNames {
		n, _ := f.face(name, true)
		require.InDelta(t, sin, n[2], 1e-12)
		require.InDelta(t, cos, math.Hypot(n[0], n[1]), 1e-12)
		if s.Rim == foldtest.LipRim {
			n, d := f.face(name+" lip", true)
			require.InDelta(t, 1, n[2], 1e-12)
			require.InDelta(t, top, d, tol)
		}
	}
	checkEdges(t, f, s)
	checkSeams(t, f.part, s.Gap*k, swings)
}

// checkSeams wants the kernel's own measure of every named seam to be the gap, and
// no trouble; with swings, each swing is searched for clashes too, which is slow.
func checkSeams(t *testing.T, p *fold.Part, gap float64, swings bool) {
	r := p.Quick()
	if swings {
		r = p.Check()
	}
	require.Empty(t, r.Clashes)
	wanted := map[string]bool{}
	for _, x := range r.Seams {
		wanted[x.Name] = x.Wanted != nil
	}
	for _, x := range r.Troubles { // a narrow end may put two opposite walls near each other
		require.True(t, x.Where.Seam != "" && !wanted[x.Where.Seam], "%s %+v", x.Message, p.Spec)
	}
	for _, s := range r.Seams {
		if s.Wanted == nil {
			continue
		}
		require.InDelta(t, gap, s.GapMin, 1e-6, s.Name)
		require.InDelta(t, gap, s.GapMax, 1e-6, s.Name)
	}
	require.GreaterOrEqual(t, len(r.Seams), len(p.Spec.Seams))
}

// checkEdges measures each corner's two inner edges in space, by line geometry:
// they are parallel, and where both lie less than half a turn apart their
// distance is the gap.
func checkEdges(t *testing.T, f folded, s foldtest.PanSizes) {
	for _, seam := range f.part.Spec.Seams {
		if seam.Open {
			continue
		}
		k := s.Units.Scale()
		var line [2][2]geom.Vec3
		for n, at := range []geom.Vec2{seam.A.Mul(k), seam.B.Mul(k)} {
			best := math.Inf(1)
			for i := range f.part.Panels {
				l := f.part.Panels[i].Region.Outer
				for j := range l {
					if !f.part.Panels[i].Edges[0][j].Free() {
						continue
					}
					a, b := l[j], l[(j+1)%len(l)]
					if d, _ := geom.SegmentDistance(at, a, b); d < best {
						best = d
						line[n] = [2]geom.Vec3{f.pose.PanelPoint(i, a, f.part.Thickness), f.pose.PanelPoint(i, b, f.part.Thickness)}
					}
				}
			}
			require.Less(t, best, 1e-6)
		}
		d0 := line[0][1].Sub(line[0][0]).Normalize()
		d1 := line[1][1].Sub(line[1][0]).Normalize()
		require.InDelta(t, 0, d0.Cross(d1).Len(), 1e-9, seam.Name)
		apart := line[1][0].Sub(line[0][0])
		apart = apart.Sub(d0.Mul(apart.Dot(d0)))
		require.InDelta(t, s.Gap*k, apart.Len(), 1e-8, seam.Name)
	}
}

func TestPanSizes(t *testing.T) {
	for _, outside := range []bool{false, true} {
		for _, level := range []foldtest.Level{foldtest.AtTop, foldtest.AtFloor} {
			for _, rim := range []foldtest.Rim{foldtest.PlainRim, foldtest.LipRim, foldtest.HemRim} {
				for _, clear := range []bool{false, true} {
					for _, lean := range []float64{0, 12, 35} {
						s := plainPan()
						s.WidthBack = 240
						s.Outside, s.Level, s.Rim, s.RimClear, s.Lean = outside, level, rim, clear, lean
						s.RimWidth, s.RimRadius = 12, 0.5
						checkSizes(t, s, 1e-9, lean == 12 && level == foldtest.AtTop)
					}
				}
			}
		}
	}
}

// Developing from finished sizes and folding back gives every size again, on
// random pans in mm and inches.
func TestRandomPans(t *testing.T) {
	seed := int64(20261125)
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewSource(seed))
	made := 0
	for range 150 {
		s := randomPan(r)
		if _, err := foldtest.Pan(s); err != nil {
			continue
		}
		made++
		checkSizes(t, s, 1e-9*max(1, s.Length*s.Units.Scale()), made%8 == 0)
	}
	require.Greater(t, made, 50)
}

// randomPan draws sizes log-uniformly; some of them can't be made.
func randomPan(r *rand.Rand) foldtest.PanSizes {
	span := func(lo, hi float64) float64 { return lo * math.Pow(hi/lo, r.Float64()) }
	k := 0.3 + 0.3*r.Float64()
	s := foldtest.PanSizes{
		Thickness: span(0.4, 4), K: &k, Units: fold.Units(r.Intn(2)),
		Outside: r.Intn(2) == 0, Level: foldtest.Level(r.Intn(2)), Rim: foldtest.Rim(r.Intn(3)), RimClear: r.Intn(2) == 0,
	}
	s.Radius = s.Thickness * span(0.3, 4)
	s.Gap = s.Thickness * span(0.1, 2)
	s.Depth = s.Thickness * span(8, 120)
	s.Length = s.Depth * span(1, 10)
	s.WidthFront = s.Depth * span(1, 10)
	s.WidthBack = s.WidthFront * span(0.7, 1.4)
	if r.Intn(2) == 0 {
		s.Lean = 60 * r.Float64()
	}
	s.RimWidth = s.Depth * span(0.1, 0.8)
	s.RimRadius = s.Thickness * span(0.1, 1)
	if s.Units == fold.Inch {
		for _, x := range []*float64{&s.Thickness, &s.Radius, &s.Gap, &s.Depth, &s.Length, &s.WidthFront, &s.WidthBack, &s.RimWidth, &s.RimRadius} {
			*x /= 25.4
		}
	}
	return s
}

// A flared hopper by closed form, without the kernel's pose: each wall's points
// are rolled up by the bend's own formula, and the edges that meet are parallel
// and the wanted gap apart.
func TestHopperByHand(t *testing.T) {
	for _, lean := range []float64{5, 20, 35, 50} {
		s := plainPan()
		s.Lean, s.Level = lean, foldtest.AtFloor
		spec, err := foldtest.Pan(s)
		require.NoError(t, err)
		theta := (90 - lean) * math.Pi / 180
		sin, cos := math.Sincos(theta)
		ba := theta * (s.Radius + *s.K*s.Thickness)
		// The front's tangent line is horizontal, the right's upright.
		var frontY, rightX float64
		for _, b := range spec.Bends {
			switch b.Name {
			case "front":
				frontY = b.Line[0][1] + ba/2
			case "right":
				rightX = b.Line[0][0] - ba/2
			}
		}
		roll := func(across float64) (out, up float64) { // of the inner face
			v := across - ba
			return s.Radius*sin + v*cos, s.Thickness + s.Radius*(1-cos) + v*sin
		}
		edge := func(at geom.Vec2) (p [2]geom.Vec2) {
			best := math.Inf(1)
			for i, a := range spec.Outline {
				b := spec.Outline[(i+1)%len(spec.Outline)]
				if d, _ := geom.SegmentDistance(at, a.At, b.At); d < best {
					best, p = d, [2]geom.Vec2{a.At, b.At}
				}
			}
			return p
		}
		checked := false
		for _, seam := range spec.Seams {
			if seam.Name != "front right corner" {
				continue
			}
			checked = true
			f, g := edge(seam.A), edge(seam.B)
			var a, b [2]geom.Vec3
			for i := range 2 {
				out, up := roll(frontY - f[i][1])
				a[i] = geom.Vec3{f[i][0], frontY - out, up}
				out, up = roll(g[i][0] - rightX)
				b[i] = geom.Vec3{rightX + out, g[i][1], up}
			}
			da, db := a[1].Sub(a[0]).Normalize(), b[1].Sub(b[0]).Normalize()
			require.InDelta(t, 0, da.Cross(db).Len(), 1e-10)
			apart := b[0].Sub(a[0])
			require.InDelta(t, s.Gap, apart.Sub(da.Mul(apart.Dot(da))).Len(), 1e-9)
			// Rising one, the hopper's corner goes out tan(lean) both ways.
			rise := da.Mul(1 / da[2])
			require.InDelta(t, math.Tan(lean*math.Pi/180), rise[0], 1e-9)
			require.InDelta(t, -math.Tan(lean*math.Pi/180), rise[1], 1e-9)
		}
		require.True(t, checked)
	}
}
