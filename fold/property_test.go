package fold_test

// What must hold of any part: random parts from a seed that a failure prints, and
// a fixed set of seeds that found something once or might.

import (
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"dryfold/fold"
	"dryfold/fold/foldtest"
	"dryfold/fold/geom"
)

var (
	seedFlag = flag.Uint64("seed", 0, "run the property tests on this seed alone; 0 takes the fixed seeds")
	manyFlag = flag.Int("many", 0, "how many new seeds a property test draws besides")
)

// foundSeeds once found a fault.
var foundSeeds = []uint64{1795600914139840517, 1795601080962888556, 1795601164260339007}

// forSeeds runs a property on fixed seeds and on new ones.
func forSeeds(t *testing.T, fixed int, f func(t *testing.T, r *rand.Rand)) {
	seeds := []uint64{*seedFlag}
	if *seedFlag == 0 {
		seeds = slices.Clone(foundSeeds)
		for i := range fixed + 15 {
			seeds = append(seeds, uint64(i+1))
		}
		for i := range *manyFlag {
			seeds = append(seeds, uint64(time.Now().UnixNano())+uint64(i))
		}
	}
	for _, s := range seeds {
		ok := t.Run(fmt.Sprint(s), func(t *testing.T) {
			t.Logf("again with: go test ./fold -run '%s' -seed %d", t.Name(), s)
			f(t, foldtest.Rand(s))
		})
		if !ok {
			return
		}
	}
}

// built is the part of a spec that must be foldable.
func built(t *testing.T, s fold.Spec) *fold.Part {
	t.Helper()
	p := fold.Build(s)
	for _, tr := range p.Troubles {
		t.Logf("%s: %s", tr.Rule, tr.Message)
	}
	require.True(t, p.Foldable, "%+v", s)
	return p
}

// size is how far a part reaches from the origin at most, for tolerances.
func size(p *fold.Part) float64 {
	m := 1.0
	for _, q := range p.Outline {
		m = max(m, q.Len())
	}
	return m
}

// anyState draws a state: flat, done or between, bend by bend.
func anyState(r *rand.Rand, p *fold.Part) fold.State {
	s := p.Flat()
	for i := range s {
		switch r.IntN(4) {
		case 0:
		case 1:
			s[i] = p.Bends[i].Angle
		default:
			s[i] = p.Bends[i].Angle * geom.Angle(r.Float64())
		}
	}
	return s
}

// TestDevelopAndFoldBack: outside sizes, developed by the handbooks' formulas and
// folded back, are the outside sizes again, within 1e-9.
func TestDevelopAndFoldBack(t *testing.T) {
	forSeeds(t, 300, func(t *testing.T, r *rand.Rand) {
		c := foldtest.RandomChain(r)
		p := built(t, c.Spec())
		var want []float64
		for i, f := range c.Flats {
			if i > 0 {
				f += c.Setback(i - 1)
			}
			if i < len(c.Bends) {
				f += c.Setback(i)
			}
			want = append(want, f)
		}
		// A narrow bend's sharp is found where two planes meet under its angle: the
		// noise grows as the angle shrinks.
		tol := 1e-9
		for _, b := range c.Bends {
			tol = max(tol, 1e-14*p.Blank.Box.Size().Len()/math.Sin(min(b.Angle, 90)*math.Pi/180))
		}
		got := outsideSizes(p)
		for i := range want {
			require.InDelta(t, want[i], got[i], tol, "leg %d of %+v", i, c)
		}
		// And each leg lies where a walk along the section puts it.
		ps := p.Pose(p.Finished())
		x := 0.0
		for i, leg := range c.Section() {
			k := panelNamed(p, i)
			for end, at := range leg {
				g := ps.PanelPoint(k, geom.Vec2{x + float64(end)*c.Flats[i], 0}, 0)
				require.InDelta(t, at[0], g[0], 1e-9*max(1, size(p)/1000), "leg %d", i)
				require.InDelta(t, at[1], g[2], 1e-9*max(1, size(p)/1000), "leg %d", i)
			}
			if i < len(c.Bends) {
				x += c.Flats[i] + c.Allowance(i)
			}
		}
	})
}

// TestAreasSum: panels, zones and overlaps together are the blank, arcs exact.
func TestAreasSum(t *testing.T) {
	forSeeds(t, 200, func(t *testing.T, r *rand.Rand) {
		s := foldtest.Random(r)
		p := built(t, s)
		sum := 0.0
		for _, q := range p.Panels {
			sum += q.Area
		}
		for _, b := range p.Bends {
			for _, z := range b.Zone {
				sum += z.Area()
			}
		}
		for _, o := range p.Overlaps {
			sum += o.Area()
		}
		require.InEpsilon(t, p.Blank.Area, sum, 1e-9)
		require.InEpsilon(t, contourArea(s), p.Blank.Area, 1e-9)
	})
}

// contourArea is the blank's area by its own sum: polygons, and circle segments by
// their chord and bulge.
func contourArea(s fold.Spec) float64 {
	one := func(c fold.Contour) float64 {
		area, arcs := 0.0, 0.0
		for i, v := range c {
			a, b := c[(i+len(c)-1)%len(c)].At, v.At
			area += geom.Cross2(a, b) / 2
			if v.Through == nil {
				continue
			}
			// Through is the middle of the arc in the parts that foldtest makes.
			h := geom.Cross2(b.Sub(a), v.Through.Sub(a)) / b.Sub(a).Len()
			w := b.Sub(a).Len() / 2
			rad := (w*w + h*h) / (2 * math.Abs(h))
			half := 2 * math.Atan2(math.Abs(h), w) // half the arc's angle
			arcs += math.Copysign(rad*rad*(half-math.Sin(half)*math.Cos(half)), -h)
		}
		if area < 0 {
			return -area - arcs
		}
		return area + arcs
	}
	sum := one(s.Outline)
	for _, c := range s.Cutouts {
		sum -= one(c)
	}
	for _, h := range s.Holes {
		sum -= math.Pi / 4 * h.Diameter * h.Diameter
	}
	return sum * s.Units.Scale() * s.Units.Scale()
}

// TestPoseKeepsShape: frames stay orthonormal and right-handed at any state.
func TestPoseKeepsShape(t *testing.T) {
	forSeeds(t, 100, func(t *testing.T, r *rand.Rand) {
		p := built(t, foldtest.Random(r))
		for range 5 {
			for _, f := range p.Pose(anyState(r, p)).Panels {
				for _, x := range []float64{f.X.Dot(f.Y), f.Y.Dot(f.Z), f.Z.Dot(f.X), f.X.Len() - 1, f.Y.Len() - 1, f.Z.Len() - 1, f.X.Cross(f.Y).Dot(f.Z) - 1} {
					require.InDelta(t, 0, x, 1e-12)
				}
			}
		}
	})
}

// TestZoneMeetsPanels: along its tangent lines a zone's points lie where its panels' do.
func TestZoneMeetsPanels(t *testing.T) {
	forSeeds(t, 100, func(t *testing.T, r *rand.Rand) {
		p := built(t, foldtest.Random(r))
		tol := 1e-11 * size(p)
		for n := range 4 {
			st := anyState(r, p)
			if n == 0 {
				st = p.Finished()
			}
			ps := p.Pose(st)
			for i := range p.Bends {
				b := &p.Bends[i]
				on := [2]int{}
				for _, z := range b.Zone {
					for _, q := range z.Outer {
						u, s := b.Coord(q)
						side, panel := -1, 0
						if math.Abs(s) < fold.Weld {
							side, panel = 0, b.A
						} else if math.Abs(s-b.Allowance) < fold.Weld {
							side, panel = 1, b.B
						}
						if side < 0 {
							continue
						}
						on[side]++
						// onto the tangent line itself: the blank welds points within 1e-6
						q = b.Q.Add(b.U.Mul(u)).Add(b.N.Mul(b.Allowance * float64(side)))
						for _, h := range []float64{0, p.Thickness / 3, p.Thickness} {
							require.InDelta(t, 0, ps.ZonePoint(i, q, h).Sub(ps.PanelPoint(panel, q, h)).Len(), tol)
						}
					}
				}
				require.GreaterOrEqual(t, on[0], 2, b.Name)
				require.GreaterOrEqual(t, on[1], 2, b.Name)
			}
		}
	})
}

// TestNoJump: the pose moves on evenly from 0 to the full angle, and past it into
// overbend; a hair of a turn moves nothing by more than the hair times its reach.
func TestNoJump(t *testing.T) {
	forSeeds(t, 100, func(t *testing.T, r *rand.Rand) {
		p := built(t, foldtest.Random(r))
		const hair = 1e-8
		for i := range p.Bends {
			b := &p.Bends[i]
			for _, phi := range []geom.Angle{0, hair, b.Angle / 2, b.Angle - hair, b.Angle} {
				for range 20 {
					q := b.Q.Add(b.U.Mul(foldtest.Uniform(r, -50, 50))).Add(b.N.Mul(foldtest.Uniform(r, 0, b.Allowance)))
					z := r.Float64() * p.Thickness
					for _, to := range []geom.Angle{max(0, phi-hair), min(phi+hair, b.Angle)} {
						d := b.Roll(q, z, to, p.Thickness).Sub(b.Roll(q, z, phi, p.Thickness)).Len()
						require.LessOrEqual(t, d, 2*hair*(b.Allowance+p.Thickness)+1e-12*q.Len())
					}
				}
				far := b.Q.Add(b.N.Mul(b.Allowance + 100))
				at := func(a geom.Angle) geom.Vec3 { return b.Hinge(a, p.Thickness).Point(geom.Vec3{far[0], far[1], 0}) }
				require.LessOrEqual(t, at(phi).Sub(at(phi+hair)).Len(), 2*hair*(b.Allowance+100+p.Thickness)+1e-12*far.Len())
			}
			// Flat is flat.
			q := b.Q.Add(b.N.Mul(b.Allowance / 3))
			require.InDelta(t, 0, b.Roll(q, 0.5, 0, p.Thickness).Sub(geom.Vec3{q[0], q[1], 0.5}).Len(), 1e-12*(1+q.Len()))
		}
	})
}

// TestInvolute: a point of the swinging body moves, per radian, by its distance to
// the contact line (kernel.md, Pose: hypot(s - rho phi, z - zn)); a bent point stands still.
func TestInvolute(t *testing.T) {
	forSeeds(t, 100, func(t *testing.T, r *rand.Rand) {
		p := built(t, foldtest.RandomChain(r).Spec())
		for i := range p.Bends {
			b := &p.Bends[i]
			zn := b.K * p.Thickness
			if b.Up {
				zn = p.Thickness - zn
			}
			for range 20 {
				phi := float64(b.Angle) * foldtest.Uniform(r, 0.01, 0.99)
				s := b.Allowance * r.Float64()
				z := p.Thickness * r.Float64()
				q := b.Q.Add(b.N.Mul(s))
				const h = 1e-5
				if math.Abs(s-b.Rho*phi) < 2*h*b.Rho {
					continue
				}
				d := b.Roll(q, z, geom.Angle(phi+h), p.Thickness).Sub(b.Roll(q, z, geom.Angle(phi-h), p.Thickness)).Len() / (2 * h)
				want := math.Hypot(s-b.Rho*phi, z-zn)
				if s < b.Rho*phi {
					want = 0
				}
				require.InDelta(t, want, d, 1e-7*(want+b.Rho+p.Thickness)+1e-9*(1+size(p)))
			}
		}
	})
}

// TestBox: no point of the solid lies outside, and points come as near to each of
// its six faces as their spacing lets them.
func TestBox(t *testing.T) {
	forSeeds(t, 60, func(t *testing.T, r *rand.Rand) {
		p := built(t, foldtest.Random(r))
		for range 3 {
			ps := p.Pose(anyState(r, p))
			seen := geom.EmptyBox3()
			const n = 400
			slack := 0.0
			for k := range p.Panels {
				for _, q := range p.Panels[k].Region.Outer {
					for _, z := range []float64{0, p.Thickness} {
						seen.Add(ps.PanelPoint(k, q, z))
					}
				}
			}
			for i := range p.Bends {
				b := &p.Bends[i]
				for _, reg := range b.Zone {
					for _, l := range reg.Loops() {
						for k, a := range l {
							c := l[(k+1)%len(l)]
							_, s0 := b.Coord(a)
							_, s1 := b.Coord(c)
							if b.Rho > 0 {
								turn := math.Abs(s1-s0) / b.Rho / n
								slack = max(slack, turn*turn*(b.Radius+p.Thickness+c.Sub(a).Len()))
							}
							for j := range n {
								for _, z := range []float64{0, p.Thickness} {
									seen.Add(ps.ZonePoint(i, a.Add(c.Sub(a).Mul(float64(j)/n)), z))
								}
							}
						}
					}
				}
			}
			// Inside points too: an extreme that is on no edge would be missed above.
			for i := range p.Bends {
				b := &p.Bends[i]
				for _, reg := range b.Zone {
					box := geom.EmptyBox2()
					for _, q := range reg.Outer {
						box.Add(q)
					}
					for range 300 {
						q := geom.Vec2{foldtest.Uniform(r, box.Min[0], box.Max[0]), foldtest.Uniform(r, box.Min[1], box.Max[1])}
						if reg.Contains(q) {
							seen.Add(ps.ZonePoint(i, q, p.Thickness*r.Float64()))
						}
					}
				}
			}
			box := ps.Box()
			tol := 1e-10*size(p) + 1e-9
			for k := range 3 {
				require.LessOrEqual(t, box.Min[k], seen.Min[k]+tol, "state %v", ps.State)
				require.GreaterOrEqual(t, box.Max[k], seen.Max[k]-tol)
				require.InDelta(t, seen.Min[k], box.Min[k], slack+tol)
				require.InDelta(t, seen.Max[k], box.Max[k], slack+tol)
			}
		}
	})
}

// TestPlacementDoesNotMatter: the same part turned, mirrored, moved, given the other
// way round or in inches has the same numbers.
func TestPlacementDoesNotMatter(t *testing.T) {
	forSeeds(t, 100, func(t *testing.T, r *rand.Rand) {
		s := foldtest.Random(r)
		p := built(t, s)
		turn, mirror := geom.Angle(foldtest.Uniform(r, -4, 4)), r.IntN(2) == 0
		shift := geom.Vec2{foldtest.Uniform(r, -2000, 2000), foldtest.Uniform(r, -2000, 2000)}
		move := foldtest.Move(turn, mirror, shift)
		m := foldtest.Map(s, move)
		if r.IntN(2) == 0 {
			m.Outline = foldtest.Backwards(m.Outline)
		}
		if r.IntN(2) == 0 {
			m = foldtest.InInches(m)
		}
		for i := range m.Bends { // a line has no direction
			if r.IntN(2) == 0 {
				m.Bends[i].Line[0], m.Bends[i].Line[1] = m.Bends[i].Line[1], m.Bends[i].Line[0]
			}
		}
		q := built(t, m)
		same := func(a, b float64, what string, args ...any) {
			t.Helper()
			require.InDelta(t, a, b, 2e-6*max(1, math.Abs(a)*1e-3), fmt.Sprintf(what, args...))
		}
		same(p.Blank.Area, q.Blank.Area, "area")
		require.Equal(t, rules(p), rules(q))
		require.Len(t, q.Panels, len(p.Panels))
		twin := make([]int, len(p.Panels))
		for i := range p.Panels {
			twin[i] = slices.IndexFunc(q.Panels, func(x fold.Panel) bool { return x.Name == p.Panels[i].Name })
			require.GreaterOrEqual(t, twin[i], 0)
			same(p.Panels[i].Area, q.Panels[twin[i]].Area, "area of %s", p.Panels[i].Name)
		}
		require.Equal(t, twin[p.Base], q.Base)
		for i := range p.Bends {
			a, b := &p.Bends[i], &q.Bends[i]
			require.Equal(t, []int{twin[a.A], twin[a.B]}, []int{b.A, b.B}, a.Name)
			same(a.Allowance, b.Allowance, "allowance of %s", a.Name)
			same(a.Length, b.Length, "length of %s", a.Name)
		}
		// Every distance between corners of the part in space is the same.
		st := anyState(r, p)
		pp, qq := p.Pose(st), q.Pose(st)
		var as, bs []geom.Vec3
		for i := range p.Panels {
			for _, v := range p.Panels[i].Region.Outer {
				z := p.Thickness * r.Float64()
				as = append(as, pp.PanelPoint(i, v, z))
				bs = append(bs, qq.PanelPoint(twin[i], move(v), z))
			}
		}
		for range 200 {
			i, j := r.IntN(len(as)), r.IntN(len(as))
			same(as[i].Sub(as[j]).Len(), bs[i].Sub(bs[j]).Len(), "distance in space")
		}
		// And so are the seams, whatever their order.
		require.Equal(t, len(p.Quick().Seams), len(q.Quick().Seams))
		a, b := seamNumbers(p), seamNumbers(q)
		for i := range a {
			if a[i][1] < 0 { // how deep panels that are not convex lie in each other depends on their split
				require.Negative(t, b[i][1])
				a[i], b[i] = a[i][:1], b[i][:1]
			}
			for k := range a[i] {
				same(a[i][k], b[i][k], "seam %d, %v and %v", i, a[i], b[i])
			}
		}
	})
}

// rules are the troubles' rules and names, sorted.
func rules(p *fold.Part) []string {
	out := []string{}
	for _, t := range p.Troubles {
		out = append(out, t.Rule+" "+t.Kind+" "+t.Name)
	}
	slices.Sort(out)
	return out
}

// seamNumbers are each seam's length and gaps, sorted by length.
func seamNumbers(p *fold.Part) [][]float64 {
	var out [][]float64
	for _, s := range p.Quick().Seams {
		out = append(out, []float64{s.Length, s.GapMin, s.GapMean, s.GapMax})
	}
	slices.SortFunc(out, func(a, b []float64) int {
		for k := range a {
			if math.Abs(a[k]-b[k]) > 1e-4 {
				return int(math.Copysign(1, a[k]-b[k]))
			}
		}
		return 0
	})
	return out
}

// TestSeamTwin: every gap is what the definition gives by brute force over whole
// regions; where the panels lie in each other it is not positive.
func TestSeamTwin(t *testing.T) {
	seams := 0
	forSeeds(t, 60, func(t *testing.T, r *rand.Rand) {
		p := built(t, foldtest.RandomTray(r))
		ps := p.Pose(p.Finished())
		found, _ := p.FindSeams()
		for _, s := range found {
			g, ok := ps.MeasureSeam(s)
			require.True(t, ok)
			seams++
			lo, hi, sum := math.Inf(1), math.Inf(-1), 0.0
			const n = 48
			over := false
			for i := 0; i <= n; i++ {
				d, l := foldtest.SeamGapAt(ps, s, float64(i)/n)
				require.InDelta(t, l, g.Length, 1e-9*l+1e-9)
				over = over || d < 1e-7
				lo, hi = min(lo, d), max(hi, d)
				sum += d
			}
			if over || g.Min < 0 {
				require.Equal(t, g.Min <= 1e-6, lo <= 1e-6, "seam %s: least %v, by brute force %v", s.Name, g.Min, lo)
				continue
			}
			step := g.Length / n // the gap changes by no more than about twice the way along
			require.LessOrEqual(t, g.Min, lo+1e-6, s.Name)
			require.GreaterOrEqual(t, g.Max, hi-1e-6, s.Name)
			require.InDelta(t, lo, g.Min, 2*step, s.Name)
			require.InDelta(t, hi, g.Max, 2*step, s.Name)
			first, _ := foldtest.SeamGapAt(ps, s, 0)
			last, _ := foldtest.SeamGapAt(ps, s, 1)
			if math.Abs(first-g.AtStart) > 1e-6 { // it may be counted from the other end
				first, last = last, first
			}
			require.InDelta(t, first, g.AtStart, 1e-6, s.Name)
			require.InDelta(t, last, g.AtEnd, 1e-6, s.Name)
			require.InDelta(t, sum/(n+1), g.Mean, (hi-lo)*2/n+step/4+1e-6, s.Name)
			for _, tick := range g.Ticks {
				require.InDelta(t, tick.Gap, tick.A.Sub(tick.B).Len(), 1e-9)
				require.InDelta(t, 0, foldtest.ToPanel(ps, s.A, tick.A), 1e-6)
				require.InDelta(t, 0, foldtest.ToPanel(ps, s.B, tick.B), 1e-6)
			}
		}
	})
	if *seedFlag == 0 && seams < 50 {
		t.Fatalf("only %d seams were measured", seams)
	}
}
