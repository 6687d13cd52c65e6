package fold

import (
	"flag"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"dryfold/fold/geom"
	"dryfold/fold/metal"
)

var overbendSeed = flag.Uint64("overbend.seed", 1, "seed of the random places of the overbend test")

// springy gives a part's sheet three test bends that sprang back by so many degrees at 90.
func springy(s Spec, degrees float64) Spec {
	s.Sheet.Metal = "Mild steel"
	s.Tests = nil
	for range 3 {
		set := 90 + degrees
		s.Tests = append(s.Tests, metal.Strip{Metal: "Mild steel", Thickness: s.Sheet.Thickness, Angle: 90, Set: &set})
	}
	return s
}

// oneBend is a strip with one bend of 80 degrees, springing back by 5 at 90.
func oneBend(t *testing.T, up bool) *Part {
	s := springy(strip(1.5, []section{plain(30), plain(40)}, []fold1{{angle: 80, radius: 2, up: up}}), 5)
	return buildBase(t, s, geom.Vec2{5, 10})
}

// The set angle is the measured ratio's, Kalpakjian & Schmid's (2 Ri/T + 1)/(2 Rf/T + 1), the same
// for every angle (from memory).
func TestSetAngle(t *testing.T) {
	p := oneBend(t, true)
	b := &p.Bends[0]
	require.InDelta(t, 80*95.0/90, b.Set.Degrees(), 1e-9)
	require.InDelta(t, b.Allowance, b.Work*float64(b.Set), 1e-12)
	r := p.Check()
	require.True(t, r.Bends[0].SetMeasured)
	require.InDelta(t, 80*95.0/90, r.Bends[0].SetAngle, 1e-9)
	require.Positive(t, r.Bends[0].SetDoubt)
}

// On the way out the sheet lies on the nose at the working radius: kernel.md's formulas with rho_w = BA/theta_s.
// On the way back the zone is curled evenly, radius BA/phi: a panel point
// at s beyond the zone lies at rho sin phi + (s-BA) cos phi.
func TestOverbendPose(t *testing.T) {
	t.Logf("again with: go test ./fold -run %s -overbend.seed %d", t.Name(), *overbendSeed)
	rnd := rand.New(rand.NewPCG(*overbendSeed, 0))
	for _, up := range []bool{true, false} {
		p := oneBend(t, up)
		b := &p.Bends[0]
		ba, set, zn := b.Allowance, float64(b.Set), b.neutralHeight(p.Thickness)
		at := func(state geom.Angle, s, z float64) (across, height float64) {
			ps := p.Pose(State{state})
			q := ps.PanelPoint(b.B, b.Q.Add(b.N.Mul(s)), z)
			d := q.Sub(geom.Vec3{b.Q[0], b.Q[1], 0})
			return d[0]*b.N[0] + d[1]*b.N[1], d[2]
		}
		closed := func(rho, bent, s, z float64) (across, height float64) {
			r := rho - b.Sigma()*(z-zn)
			tt := s - rho*bent
			return r*math.Sin(bent) + tt*math.Cos(bent), zn + b.Sigma()*(rho-r*math.Cos(bent)+tt*math.Sin(bent))
		}
		for range 100 {
			phi := rnd.Float64() * set
			s, z := ba+30*rnd.Float64(), p.Thickness*rnd.Float64()
			x, y := at(geom.Angle(phi), s, z)
			cx, cy := closed(ba/set, phi, s, z)
			require.InDelta(t, cx, x, 1e-9)
			require.InDelta(t, cy, y, 1e-9)
			back := float64(b.Angle) + rnd.Float64()*(set-float64(b.Angle)) // the angle while it springs back
			x, y = at(geom.Angle(2*set-back), s, z)
			cx, cy = closed(ba/back, back, s, z)
			require.InDelta(t, cx, x, 1e-9)
			require.InDelta(t, cy, y, 1e-9)
		}
		// No jump at the set angle, nor at the end: finished is the bend of its own radius.
		near := func(a, c geom.Angle) {
			x, y := at(a, ba+20, 0)
			u, v := at(c, ba+20, 0)
			require.InDelta(t, x, u, 1e-8)
			require.InDelta(t, y, v, 1e-8)
		}
		near(b.Set, b.Set+1e-10)
		near(2*b.Set-b.Angle, b.Angle)
		require.Equal(t, b.Rho, func() float64 { r, _ := b.Curl(b.Angle); return r }())
	}
}

// The swing's states go out to the set angle and back; Leaf and Fraction go by them.
func TestOverbendSwing(t *testing.T) {
	p := oneBend(t, true)
	sw, b := &p.Swings[0], &p.Bends[0]
	way := float64(b.Set)
	back := float64(b.Set - b.Angle)
	require.InDelta(t, way/(way+back), sw.Out, 1e-12)
	require.InDelta(t, way, float64(sw.Leaf(0, sw.Out)), 1e-12)
	require.InDelta(t, way-back/2, float64(sw.Leaf(0, (1+sw.Out)/2)), 1e-12)
	require.Equal(t, b.Angle, sw.Leaf(0, 1))
	require.InDelta(t, sw.Out/2, sw.Fraction(0, b.Set/2), 1e-12)
	require.Equal(t, State{b.Angle}, p.StateAt(1, 0))
	require.Equal(t, State{b.Angle}, p.StateAt(0, 1))
	for f := 0.0; f <= 1; f += 0.01 {
		_, phi := b.Curl(p.StateAt(0, f)[0])
		require.InDelta(t, float64(sw.Leaf(0, f)), float64(phi), 1e-9)
	}
}

// tube is four walls bent square about a floor; the last wall's foot comes to lie outside the floor's edge by gap.
func tube(t *testing.T, gap, springs float64) *Part {
	const k, th, r = 0.4, 1.0, 1.0
	// Outside sizes: 40 high, lid over the floor's whole width and gap and the wall's thickness.
	flat := func(outside float64, ends int) float64 { return outside - float64(ends)*(r+th) }
	floor := 60.0
	sections := []section{
		plain(flat(40, 1)),           // the last wall, on the lid
		plain(flat(floor+gap+th, 2)), // the lid
		plain(flat(40, 2)),           // the standing wall
		plain(flat(floor, 1)),        // the floor
	}
	up := fold1{angle: 90, radius: r, up: true}
	s := strip(th, sections, []fold1{up, up, up})
	s.Sheet.K = number(k)
	s = order(s, 2, 1, 0)
	if springs > 0 {
		s = springy(s, springs)
	}
	x := 0.0
	for _, c := range sections[:3] {
		x += c.length
		x += math.Pi / 2 * (r + k*th)
	}
	return buildBase(t, s, geom.Vec2{x + 20, 10})
}

// A wall whose end passes a floor's edge by 0.5 mm is clear of it as long as the leaf stops at 90
// degrees, fouls it on overbend, and is clear again when it has sprung back.
func TestFoulsOnOverbend(t *testing.T) {
	p := tube(t, 0.5, 0)
	require.Empty(t, p.Clashes())
	p = tube(t, 0.5, 4)
	c := onePair(t, p)
	require.True(t, c.Overbend, show(p, []Clash{c}))
	require.False(t, c.AtEnd)
	require.Greater(t, c.Angle.Degrees(), 90.0)
	require.Less(t, c.Angle.Degrees(), 94.0)
	require.Equal(t, 2, c.Swing)
	// The same angle by another way: the distance of the two panels, halved down between 90 and the set angle.
	a, b := c.A, c.B
	out := p.Swings[2].Out
	f := bisect(0, out, func(f float64) float64 {
		d, _ := stateSD(p, p.StateAt(2, f), a, b)
		return -d
	})
	require.InDelta(t, p.Swings[2].Leaf(0, f).Degrees(), c.Angle.Degrees(), 2e-4)
	r := p.Check()
	require.Equal(t, "watch", r.Swings[2].State)
	require.True(t, r.Clashes[0].Overbend)
	found := false
	for _, tr := range r.Troubles {
		if tr.Rule == "fouls-on-overbend" {
			found = true
			require.Equal(t, "watch", tr.Severity)
			require.Contains(t, tr.Message, "on overbend")
		}
	}
	require.True(t, found)
}

// stateSD is the signed distance of two solids in a state.
func stateSD(p *Part, st State, a, b Body) (float64, bool) {
	s := newShapes(p)
	c, ok := s.still(p.Pose(st)).at(0).apart(s.pair(a, b), math.Inf(1))
	return c.D, ok
}
