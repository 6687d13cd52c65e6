package shape

// This file makes every starter, folds it and measures its named sizes on the folded
// faces, without the formulas that it was made by.

import (
	"flag"
	"math"
	"math/rand/v2"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"dryfold/fold"
	"dryfold/fold/foldtest"
	"dryfold/fold/geom"
	"dryfold/fold/sizes"
)

// facePlane is n.x = d.
type facePlane struct {
	n geom.Vec3
	d float64
}

func (f folded) plane(name string, upper bool) facePlane {
	n, d := f.face(name, upper)
	return facePlane{n, d}
}

func (f folded) inner(name string) facePlane { return f.plane(name, true) }
func (f folded) outer(name string) facePlane { return f.plane(name, false) }

func facesMeet(a, b, c facePlane) geom.Vec3 {
	return solve([3]geom.Vec3{a.n, b.n, c.n}, [3]float64{a.d, b.d, c.d})
}

// between is the angle between two panels' upper faces, degrees: 0 where they lie flat.
func (f folded) between(a, b string) float64 {
	na, nb := f.inner(a).n, f.inner(b).n
	return math.Atan2(na.Cross(nb).Len(), na.Dot(nb)) * 180 / math.Pi
}

// over is how far a panel's corners reach beyond a plane, either way.
func (f folded) over(name string, p facePlane) float64 {
	return max(f.extreme(name, p.n)-p.d, f.extreme(name, p.n.Mul(-1))+p.d)
}

// reach is how far a panel reaches from the line where two planes meet, along itself:
// square to the line, within the planes that its faces lie in.
func (f folded) reach(name string, own, other facePlane) float64 {
	line := own.n.Cross(other.n).Normalize()
	along := line.Cross(own.n).Normalize()
	p := facesMeet(own, other, facePlane{line, 0})
	return max(f.extreme(name, along)-along.Dot(p), f.extreme(name, along.Mul(-1))+along.Dot(p))
}

// span is a panel's extent along a direction.
func (f folded) span(name string, dir geom.Vec3) float64 {
	return f.extreme(name, dir) + f.extreme(name, dir.Mul(-1))
}

// facesApart is the distance of two parallel faces' planes.
func facesApart(a, b facePlane) float64 { return a.d - b.d*a.n.Dot(b.n) }

// acrossFrom is the x axis, the way it leads away from a panel that stands left of the
// base, or right of it in the other hand.
func (f folded) acrossFrom(name string) geom.Vec3 {
	n := f.inner(name).n
	return geom.Vec3{n[0], 0, 0}.Normalize()
}

var (
	xAxis = geom.Vec3{1, 0, 0}
	yAxis = geom.Vec3{0, 1, 0}
	zAxis = geom.Vec3{0, 0, 1}
)

// starterPart is a folded starter.
type starterPart struct {
	folded
	made Made
}

// hole is the n-th hole that was made of the form's hole of that name: its diameter, and
// its middle on the face asked for.
func (f starterPart) hole(name string, n int, upper bool) (wide float64, at geom.Vec3) {
	for i, h := range f.part.Spec.Holes {
		if f.part.Spec.Sizes.Holes[f.made.Holes[i]].Name != name {
			continue
		}
		if n--; n >= 0 {
			continue
		}
		k, z := f.part.Spec.Units.Scale(), 0.0
		if upper {
			z = f.part.Thickness
		}
		return h.Diameter * k, f.pose.PanelPoint(f.panel(f.part.Spec.Sizes.Holes[f.made.Holes[i]].On), h.At.Mul(k), z)
	}
	require.Fail(f.t, "no hole "+name)
	return 0, geom.Vec3{}
}

// limit is the plane to which a panel's size is measured where another one stands on it by a bend: that one's face;
// past 90 degrees, where the faces' sharp lies far off, the upright plane in the bend's outermost line.
func (f starterPart) limit(name string, upper bool) facePlane {
	b := f.part.Bends[f.bend(name)]
	if b.Angle <= geom.Degrees(90)+1e-12 {
		return f.plane(name, upper)
	}
	out := f.pose.Panels[b.A].Vector(geom.Vec3{b.N[0], b.N[1], 0})
	r := b.Radius
	if upper != b.Up {
		r += f.part.Thickness
	}
	axis, _, _ := f.pose.ZoneAxis(f.bend(name))
	return facePlane{out, out.Dot(axis) + r}
}

// limitBack is the same for the size of the panel that stands there, from its bend on.
func (f starterPart) limitBack(name string, upper bool) facePlane {
	b := f.part.Bends[f.bend(name)]
	if b.Angle <= geom.Degrees(90)+1e-12 {
		return f.plane(f.part.Panels[b.A].Name, upper)
	}
	back := f.pose.Panels[b.B].Vector(geom.Vec3{b.N[0], b.N[1], 0}).Mul(-1)
	r := b.Radius
	if upper != b.Up {
		r += f.part.Thickness
	}
	axis, _, _ := f.pose.ZoneAxis(f.bend(name))
	return facePlane{back, back.Dot(axis) + r}
}

// plan is the four corners of a floor with walls, by their faces: front left, front right, back right, back left.
func (f starterPart) plan(upper bool) (c [4]geom.Vec3) {
	level := facePlane{zAxis, 0}
	if upper {
		level.d = f.part.Thickness
	}
	names := []string{"left", "front", "right", "back", "left"}
	for i := range c {
		c[i] = facesMeet(f.limit(names[i], upper), f.limit(names[i+1], upper), level)
	}
	return c
}

// overAll is how far a wall and its bend reach along dir.
func (f starterPart) overAll(name string, dir geom.Vec3) float64 {
	i := f.bend(name)
	far := f.extreme(name, dir)
	if f.part.Bends[i].Angle > geom.Degrees(90) {
		axis, _, _ := f.pose.ZoneAxis(i)
		far = max(far, axis.Dot(dir)+f.part.Bends[i].Radius+f.part.Thickness)
	}
	return far
}

// measured gives the named sizes of a folded starter as they are measured on it; lengths in mm.
var measured = map[string]func(starterPart) map[string]float64{
	"tray": func(f starterPart) map[string]float64 {
		x := f.acrossFrom("left")
		return map[string]float64{
			"wide": f.overAll("right", x) + f.overAll("left", x.Mul(-1)),
			"long": f.overAll("back", yAxis) + f.overAll("front", yAxis.Mul(-1)),
			"high": f.extreme("left", zAxis),
			"lean": 90 - f.between("floor", "right"),
		}
	},
	"tapered-tray": func(f starterPart) map[string]float64 {
		c := f.plan(false)
		return map[string]float64{
			"wide": c[1].Sub(c[0]).Len(), "wide_back": c[2].Sub(c[3]).Len(), "long": c[2][1] - c[1][1],
			"high": f.extreme("front", zAxis), "lean": 90 - f.between("floor", "left"),
		}
	},
	"stepped-tray": func(f starterPart) map[string]float64 {
		floor, rise := f.outer("floor"), f.outer("floor 2")
		fl, fr := facesMeet(floor, f.limit("front", false), f.limit("left", false)), facesMeet(floor, f.limit("front", false), f.limit("right", false))
		ml := facesMeet(floor, rise, f.limit("left", false))
		ml2, mr2 := facesMeet(floor, rise, f.limit("left 2", false)), facesMeet(floor, rise, f.limit("right 2", false))
		bl, br := facesMeet(rise, f.limit("back", false), f.limit("left 2", false)), facesMeet(rise, f.limit("back", false), f.limit("right 2", false))
		// Both pieces of a side run on straight over the bend.
		require.InDelta(f.t, 0, ml.Sub(ml2).Len(), 1e-9*f.named("long"))
		along := rise.n.Cross(xAxis)
		return map[string]float64{
			"wide": fr.Sub(fl).Len(), "wide_back": br.Sub(bl).Len(), "long": ml[1] - fl[1],
			"long_2": math.Abs(br.Sub(mr2).Dot(along)), "rise": f.between("floor", "floor 2"),
			"high": f.extreme("left", zAxis), "lean": 90 - f.between("floor 2", "back"),
		}
	},
	"hopper": func(f starterPart) map[string]float64 {
		c := f.plan(false)
		wide, at := f.hole("outlet", 0, false)
		require.InDelta(f.t, 0, at.Sub(c[0].Add(c[2]).Mul(0.5)).Len(), 1e-9*f.named("long"))
		return map[string]float64{
			"wide": c[1].Sub(c[0]).Len(), "long": c[2].Sub(c[1]).Len(), "high": f.extreme("left lip", zAxis),
			"lean": 90 - f.between("floor", "left"), "lean_ends": 90 - f.between("floor", "back"),
			"lip":    f.reach("left lip", f.inner("left lip"), f.inner("left")),
			"outlet": wide,
		}
	},
	"box": func(f starterPart) map[string]float64 {
		c := f.plan(false)
		return map[string]float64{"wide": c[1].Sub(c[0]).Len(), "long": c[2].Sub(c[1]).Len(), "high": f.extreme("left", zAxis)}
	},
	"lid": func(f starterPart) map[string]float64 {
		c := f.plan(true)
		return map[string]float64{
			// The play is known only with one of the box's sizes.
			"box_wide": c[1].Sub(c[0]).Len() - 2*f.named("play"), "box_long": c[2].Sub(c[1]).Len() - 2*f.named("play"),
			"play": (c[2].Sub(c[1]).Len() - f.named("box_long")) / 2,
			"down": f.extreme("left", zAxis) - f.part.Thickness,
		}
	},
	"channel": func(f starterPart) map[string]float64 {
		return map[string]float64{
			"long": f.span("web", yAxis), "wide": math.Abs(facesApart(f.outer("left"), f.outer("right"))),
			"left": f.extreme("left", zAxis), "right": f.extreme("right", zAxis),
		}
	},
	"angle": func(f starterPart) map[string]float64 {
		return map[string]float64{
			"long": f.span("leg", yAxis), "leg": f.reach("leg", f.outer("leg"), f.limit("leg 2", false)),
			"leg_2": f.reach("leg 2", f.outer("leg 2"), f.limitBack("leg 2", false)), "between": 180 - f.between("leg", "leg 2"),
		}
	},
	"z": func(f starterPart) map[string]float64 {
		return map[string]float64{
			"long": f.span("web", yAxis), "web": math.Abs(facesApart(f.outer("left"), f.inner("right"))),
			"up": f.over("left", f.outer("web")), "down": f.over("right", f.inner("web")),
		}
	},
	"hat": func(f starterPart) map[string]float64 {
		crown, left, right := f.inner("crown"), f.limit("left web", true), f.limit("right web", true)
		flat := facePlane{yAxis, 0}
		return map[string]float64{
			"long": f.span("crown", yAxis), "crown": facesMeet(crown, left, flat).Sub(facesMeet(crown, right, flat)).Len(),
			"high": math.Abs(facesApart(crown, f.outer("left foot"))), "lean": 90 - f.between("crown", "left web"),
			"foot": f.reach("right foot", f.outer("right foot"), f.limitBack("right foot", false)),
		}
	},
	"bracket": func(f starterPart) map[string]float64 {
		n, d := f.face("left gusset", false)
		gusset := facePlane{n, d}
		// The gusset's front end: its corner furthest from the upright, highest of those.
		front, high := math.Inf(1), 0.0
		i := f.panel("left gusset")
		for _, q := range f.part.Panels[i].Region.Outer {
			p := f.pose.PanelPoint(i, q, 0)
			if p[1] < front-1e-6 || p[1] < front+1e-6 && p[2] > high {
				front, high = p[1], p[2]
			}
		}
		bolt, foot := f.hole("foot bolts", 0, false)
		_, other := f.hole("foot bolts", 1, false)
		bolt2, up := f.hole("upright bolts", 0, false)
		_, up2 := f.hole("upright bolts", 1, false)
		long := 1e-9 * f.named("high")
		require.InDelta(f.t, bolt, bolt2, long)
		require.InDelta(f.t, f.named("high")*0.7, up[2], long)
		require.InDelta(f.t, foot.Sub(other).Len(), up.Sub(up2).Len(), long)
		right := f.outer("right gusset")
		require.InDelta(f.t, gusset.n.Dot(foot)-gusset.d, right.n.Dot(other)-right.d, long) // as far from either side
		require.InDelta(f.t, f.named("foot")*0.4, foot[1]+f.extreme("foot", yAxis.Mul(-1)), long)
		return map[string]float64{
			"wide": math.Abs(facesApart(gusset, f.outer("right gusset"))), "foot": f.reach("foot", f.outer("foot"), f.outer("upright")),
			"high": f.extreme("upright", zAxis), "front": high, "bolt": bolt, "apart": foot.Sub(other).Len(),
		}
	},
	"corner-guard": func(f starterPart) map[string]float64 {
		// To the outermost line of the hems' folds.
		fold := func(bend string, along geom.Vec3) float64 {
			i := f.bend(bend)
			axis, _, _ := f.pose.ZoneAxis(i)
			return along.Dot(axis) + f.part.Bends[i].Radius + f.part.Thickness
		}
		x := f.acrossFrom("leg 2")
		flat := facePlane{yAxis, 0}
		line := facesMeet(f.outer("leg"), f.limit("leg 2", false), flat)
		foot := facesMeet(f.outer("leg 2"), f.limitBack("leg 2", false), flat)
		up := f.inner("leg 2").n.Cross(yAxis)
		if up[2] < 0 {
			up = up.Mul(-1)
		}
		return map[string]float64{
			"long": f.span("leg", yAxis), "leg": fold("hem", x) - x.Dot(line), "leg_2": fold("hem 2", up) - up.Dot(foot),
			"between": 180 - f.between("leg", "leg 2"), "hem": fold("hem", x) + f.extreme("hem", x.Mul(-1)),
		}
	},
	"drip-edge": func(f starterPart) map[string]float64 {
		i := f.bend("hem")
		axis, _, _ := f.pose.ZoneAxis(i)
		k := f.part.Bends[f.bend("kick")]
		out := f.pose.Panels[k.B].Vector(geom.Vec3{k.N[0], k.N[1], 0})
		tip := out.Dot(axis) + f.part.Bends[i].Radius + f.part.Thickness
		flat := facePlane{xAxis, 0}
		foot := facesMeet(f.outer("face"), f.limit("kick", false), flat)
		start := facesMeet(f.outer("kick"), f.limitBack("kick", false), flat)
		top := facesMeet(f.inner("face"), f.limitBack("face", true), flat)
		return map[string]float64{
			"long": f.span("roof", xAxis), "roof": f.reach("roof", f.inner("roof"), f.limit("face", true)),
			"pitch": 90 - f.between("roof", "face"), "face": math.Abs(top.Sub(foot).Dot(f.outer("face").n.Cross(xAxis))),
			"kick": tip - out.Dot(start), "out": f.between("face", "kick"),
			"hem": tip + f.extreme("hem", out.Mul(-1)),
		}
	},
}

func (f folded) bend(name string) int {
	for i := range f.part.Bends {
		if f.part.Bends[i].Name == name {
			return i
		}
	}
	require.Fail(f.t, "no bend "+name)
	return -1
}

// named is the part's named size, in mm or degrees.
func (f folded) named(name string) float64 {
	return namedSizes(f.t, f.part.Spec)[name]
}

func namedSizes(t *testing.T, s fold.Spec) map[string]float64 {
	v, errs := s.Sizes.Values(s.Units.Scale())
	require.Empty(t, errs)
	out := map[string]float64{}
	for _, n := range s.Sizes.Named {
		x, err := v.Num(n.Is)
		require.NoError(t, err)
		if !n.Angle {
			x *= s.Units.Scale()
		}
		out[n.Name] = x
	}
	return out
}

// checkStarter folds a part made of a starter and measures it.
func checkStarter(t *testing.T, id string, made Made, whole, random bool) {
	p := fold.Build(made.Spec)
	require.True(t, p.Foldable, "%v", p.Troubles)
	f := starterPart{folded{t, p, p.Pose(p.Finished())}, made}
	want := namedSizes(t, made.Spec)
	got := measured[id](f)
	require.Len(t, got, len(want), id)
	for _, n := range made.Spec.Sizes.Named {
		require.InDelta(t, want[n.Name], got[n.Name], 1e-9*max(1, math.Abs(want[n.Name])), "%s %s: %v", id, n.Name, want)
	}
	r := f.part.Quick()
	if whole {
		r = f.part.Check()
	}
	stops := map[string]bool{}
	for _, x := range r.Troubles {
		if x.Severity == fold.Stop.String() {
			stops[x.Rule] = true
		}
	}
	if random { // random sizes may well put a hole beside its panel, or webs that lean inwards into each other
		if stops["void-off-sheet"] || stops["voids-meet"] {
			return
		}
		delete(stops, "clash")
		delete(stops, "panels-overlap")
	}
	require.Empty(t, stops, id)
	told := map[string]bool{} // corners that no cut closes to their gap
	for _, n := range made.Notes {
		told[n.Name] = told[n.Name] || n.Rule == "corner-opens"
	}
	for _, c := range made.Corners {
		if c.Close == sizes.Apart || random && (!c.Measured || told[c.Name]) { // some edges are too short to name a seam by
			continue
		}
		found := false
		for _, s := range r.Seams {
			if s.Name == c.Name {
				found = true
				require.InDelta(t, c.Gap, s.GapMin, 1e-6, "%s: %s", id, s.Name)
			}
		}
		require.True(t, found, "%s: no seam %s", id, c.Name)
	}
}

// Every starter, in both units and hands, folds to its own sizes, closes its corners to
// the wanted gap, and can be bent in its order.
func TestStarters(t *testing.T) {
	require.Len(t, measured, len(Starters))
	for _, s := range Starters {
		for _, u := range []fold.Units{fold.MM, fold.Inch} {
			for _, mirror := range []bool{false, true} {
				spec := s.Make(u)
				spec.Sizes.Mirror = mirror
				made, bad := Make(spec)
				if !assertNone(t, s.ID, bad) {
					continue
				}
				t.Run(s.ID+" "+u.String()+map[bool]string{true: " mirrored"}[mirror], func(t *testing.T) { checkStarter(t, s.ID, made, true, false) })
			}
		}
	}
}

func assertNone(t *testing.T, id string, bad []*Problem) bool {
	for _, p := range bad {
		t.Errorf("%s: %s", id, p)
	}
	return len(bad) == 0
}

// A floor bent twice and three times: every panel of it rises over the one before, and its
// sides run straight on.
func TestAnotherFloor(t *testing.T) {
	s, ok := StarterByID("stepped-tray")
	require.True(t, ok)
	for _, u := range []fold.Units{fold.MM, fold.Inch} {
		spec := s.Make(u)
		for n := 3; n <= 4; n++ {
			was := spec
			spec, ok = AnotherFloor(spec)
			require.True(t, ok)
			require.Equal(t, len(was.Sizes.Flanges)+3, len(spec.Sizes.Flanges))
			require.Equal(t, len(was.Order)+1, len(spec.Order))
			made, bad := Make(spec)
			if !assertNone(t, s.ID, bad) {
				continue
			}
			f := foldUp(t, made.Spec)
			last := "floor"
			tol := 1e-9 * f.named("long")
			for i := 2; i <= n; i++ {
				floor := "floor " + string(rune('0'+i))
				require.InDelta(t, f.named("rise"), f.between(last, floor), 1e-9)
				before, here := "left "+string(rune('0'+i-1)), "left "+string(rune('0'+i))
				if i == 2 {
					before = "left"
				}
				a, b := facesMeet(f.outer(last), f.outer(floor), f.outer(before)), facesMeet(f.outer(last), f.outer(floor), f.outer(here))
				require.InDelta(t, 0, a.Sub(b).Len(), tol, floor)
				last = floor
			}
			end := "floor " + string(rune('0'+n))
			wide := facesMeet(f.outer(end), f.outer("back"), f.outer("left "+string(rune('0'+n)))).Sub(facesMeet(f.outer(end), f.outer("back"), f.outer("right "+string(rune('0'+n)))))
			require.InDelta(t, f.named("wide_back"), wide.Len(), tol)
			r := f.part.Check()
			require.Empty(t, r.Clashes)
			for _, q := range r.Seams {
				if q.Wanted != nil {
					require.InDelta(t, *q.Wanted, q.GapMin, 1e-6, q.Name)
				}
			}
		}
	}
	tray, _ := StarterByID("tray")
	spec := tray.Make(fold.MM)
	out, ok := AnotherFloor(spec)
	require.False(t, ok)
	require.Equal(t, spec, out)
}

// drawn is the seed that a flag gives, a new one for 0.
func drawn(seed uint64) uint64 {
	if seed == 0 {
		seed = rand.Uint64() >> 20
	}
	return seed
}

var starterRuns = flag.Int("starterruns", 30, "random parts of each starter")

var starterSeed = flag.Uint64("starterseed", 20261127, "seed of the random starters; 0 draws one")

// Random sizes give a part that folds to them, or a reason.
func TestRandomStarters(t *testing.T) {
	seed := drawn(*starterSeed)
	t.Logf("seed %d", seed)
	r := foldtest.Rand(seed)
	for _, s := range Starters {
		made, refused := 0, 0
		for i := range *starterRuns {
			spec := s.Make(fold.Units(r.IntN(2)))
			grow := foldtest.LogUniform(r, 0.5, 3)
			for k := range spec.Sizes.Named {
				n := &spec.Sizes.Named[k]
				switch {
				case !n.Angle:
					n.Is.Number *= grow * foldtest.LogUniform(r, 0.5, 2)
				case n.Is.Number == 0:
					n.Is.Number = foldtest.Uniform(r, -20, 40)
				default:
					n.Is.Number *= foldtest.LogUniform(r, 0.3, 1.7)
				}
			}
			spec.Sheet.Thickness *= foldtest.LogUniform(r, 0.5, 2)
			spec.Sizes.Radius = sizes.Is(spec.Sheet.Thickness * foldtest.LogUniform(r, 0.3, 4))
			spec.Sizes.Gap = sizes.Is(spec.Sheet.Thickness * foldtest.LogUniform(r, 0.1, 2))
			spec.Sizes.Mirror = r.IntN(2) == 0
			m, bad := Make(spec)
			if len(bad) > 0 {
				refused++
				for _, p := range bad {
					t.Log(s.ID, p)
					require.True(t, p.Path != "" && p.Found != "" && p.Need != "", "%+v", p)
				}
				continue
			}
			made++
			t.Run(s.ID+" "+strconv.Itoa(i), func(t *testing.T) { checkStarter(t, s.ID, m, i%8 == 0, true) })
		}
		t.Logf("%s: %d made, %d refused", s.ID, made, refused)
		require.Greater(t, made, *starterRuns/3, s.ID)
	}
}
