package scene

import (
	"fmt"
	"math"
	"math/rand"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"dryfold/fold"
	"dryfold/fold/geom"
	"dryfold/fold/partfile"
)

// parts are the test tray and every good part of testdata that can be folded.
func parts(t testing.TB) map[string]*fold.Part {
	out := map[string]*fold.Part{"tray here": build(t, tray(90, 90)), "leaning": build(t, tray(50, 150))}
	files, err := filepath.Glob("../../testdata/parts/*.dryfold")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	for _, f := range files {
		data, err := os.ReadFile(f)
		require.NoError(t, err)
		spec, err := partfile.Read(data)
		require.NoError(t, err, f)
		if p := fold.Build(spec); p.Foldable {
			out[filepath.Base(f)] = p
		}
	}
	return out
}

// states of a part worth drawing: flat, finished, and some on the way.
func states(p *fold.Part, r *rand.Rand) []fold.State {
	out := []fold.State{p.Flat(), p.Finished()}
	for range 3 {
		out = append(out, p.StateAt(r.Intn(len(p.Swings)+1), r.Float64()))
	}
	return out
}

// volume is the mesh's, by the divergence theorem about a point, and its area vector,
// which is zero for a closed mesh.
func volume(s *Scene, about geom.Vec3) (v float64, area geom.Vec3) {
	for _, t := range s.Tris {
		a, b, c := s.Verts[t.V[0]].P.Sub(about), s.Verts[t.V[1]].P.Sub(about), s.Verts[t.V[2]].P.Sub(about)
		v += a.Dot(b.Cross(c)) / 6
		area = area.Add(b.Sub(a).Cross(c.Sub(a)).Mul(.5))
	}
	return v, area
}

// The mesh is closed, and its volume is panel area x T plus, for each zone, that of
// the cylinder piece: bent area x T (R + T/2)/rho, flat area x T (by hand, from the
// pose's own formula). Facets may cost the chord's share of the zone's faces.
func TestVolume(t *testing.T) {
	const seed = 7
	r := rand.New(rand.NewSource(seed))
	for name, p := range parts(t) {
		for i, st := range states(p, r) {
			s := Make(Picture{Part: p, State: st})
			want, slack := 0.0, 1e-6
			for k := range p.Panels {
				want += p.Panels[k].Region.Area() * p.Thickness
			}
			for k := range p.Bends {
				b := &p.Bends[k]
				for _, zone := range b.Zone {
					// area with s below rho*phi, by cutting the developed polygon
					bent := below(zone, b, b.Rho*float64(st[k]))
					want += bent*p.Thickness*(b.Radius+p.Thickness/2)/b.Rho + (zone.Area()-bent)*p.Thickness
					slack += 2 * fold.DrawChord * zone.Area() * (b.Radius + p.Thickness) / b.Rho
				}
			}
			got, area := volume(s, geom.Vec3{})
			again, _ := volume(s, geom.Vec3{1000, -3000, 500})
			msg := fmt.Sprintf("%s, state %d, seed %d", name, i, seed)
			require.InDelta(t, want, got, slack, msg)
			require.InDelta(t, got, again, 1e-6*(1+want), msg)
			require.InDelta(t, 0, area.Len(), 1e-6*(1+want), msg)
			requireClosed(t, s, msg)
		}
	}
}

// below is the area of a region with across coordinate under limit: a slow sum of
// trapezoids over each loop (Green's theorem on the clipped loop).
func below(r geom.Region, b *fold.Bend, limit float64) float64 {
	sum := 0.0
	for _, l := range r.Loops() {
		var cut geom.Loop
		for i, p := range l {
			q := l[(i+1)%len(l)]
			_, sp := b.Coord(p)
			_, sq := b.Coord(q)
			if sp <= limit {
				cut = append(cut, p)
			}
			if (sp < limit) != (sq < limit) {
				cut = append(cut, p.Add(q.Sub(p).Mul((limit-sp)/(sq-sp))))
			}
		}
		sum += cut.Area()
	}
	return sum
}

// requireClosed: each side of a triangle meets its like in the other direction. Along
// tangent lines a panel and a zone may have corners at different places: there the
// sides' vectors must cancel, line by line.
func requireClosed(t *testing.T, s *Scene, msg string) {
	type key [6]int64
	q := func(p geom.Vec3) [3]int64 {
		var k [3]int64
		for i := range p {
			k[i] = int64(math.Round(p[i] * 1e5))
		}
		return k
	}
	open := map[key]int{}
	for _, tr := range s.Tris {
		for i := range 3 {
			a, b := q(s.Verts[tr.V[i]].P), q(s.Verts[tr.V[(i+1)%3]].P)
			if a == b {
				continue
			}
			if k := (key{b[0], b[1], b[2], a[0], a[1], a[2]}); open[k] > 0 {
				open[k]--
			} else {
				open[key{a[0], a[1], a[2], b[0], b[1], b[2]}]++
			}
		}
	}
	p := s.Picture.Part
	lines := map[string]geom.Vec3{}
	for k, n := range open {
		if n == 0 {
			continue
		}
		a := geom.Vec3{float64(k[0]), float64(k[1]), float64(k[2])}.Mul(1e-5)
		b := geom.Vec3{float64(k[3]), float64(k[4]), float64(k[5])}.Mul(1e-5)
		on := ""
		for i := range p.Bends {
			bd := &p.Bends[i]
			for side, panel := range [2]int{bd.A, bd.B} {
				f := s.Pose.Panels[panel]
				la, lb := f.LocalPoint(a), f.LocalPoint(b)
				_, sa := bd.Coord(geom.Vec2{la[0], la[1]})
				_, sb := bd.Coord(geom.Vec2{lb[0], lb[1]})
				at := float64(side) * bd.Allowance
				for _, z := range [2]float64{0, p.Thickness} {
					if abs(sa-at) < 1e-4 && abs(sb-at) < 1e-4 && abs(la[2]-z) < 1e-4 && abs(lb[2]-z) < 1e-4 {
						on = fmt.Sprint(i, side, z)
					}
				}
			}
		}
		require.NotEmpty(t, on, "%s: a gap in the mesh from %v to %v", msg, a, b)
		lines[on] = lines[on].Add(b.Sub(a).Mul(float64(n)))
	}
	for on, v := range lines {
		require.Less(t, v.Len(), 1e-3, "%s: a gap along the tangent line %s", msg, on)
	}
}

// Facets of a zone stay within fold.DrawChord of the true cylinder and the flat
// beyond it, measured at the middle of each facet and of its sides.
func TestChord(t *testing.T) {
	const seed = 11
	r := rand.New(rand.NewSource(seed))
	for name, p := range parts(t) {
		for i, st := range states(p, r) {
			s := Make(Picture{Part: p, State: st})
			worst := 0.0
			for _, tr := range s.Tris {
				if !tr.Body.Zone || tr.Face == Cut {
					continue
				}
				b := &p.Bends[tr.Body.Index]
				o, u, _ := s.Pose.ZoneAxis(tr.Body.Index)
				rho, _ := b.Curl(s.Pose.State[tr.Body.Index])
				radius, z := b.Radius+rho-b.Rho, p.Thickness // the upper face is inside an up bend
				if (tr.Face == Upper) != b.Up {
					radius += p.Thickness
				}
				if tr.Face == Lower {
					z = 0
				}
				far := s.Pose.Panels[b.B] // the flat rest lies in the swinging panel's plane
				v := [3]geom.Vec3{s.Verts[tr.V[0]].P, s.Verts[tr.V[1]].P, s.Verts[tr.V[2]].P}
				for _, m := range []geom.Vec3{v[0].Add(v[1]).Add(v[2]).Mul(1. / 3), v[0].Add(v[1]).Mul(.5), v[1].Add(v[2]).Mul(.5)} {
					d := m.Sub(o)
					d = d.Sub(u.Mul(d.Dot(u)))
					worst = max(worst, min(abs(d.Len()-radius), abs(far.LocalPoint(m)[2]-z)))
				}
			}
			require.Less(t, worst, fold.DrawChord, "%s, state %d, seed %d", name, i, seed)
		}
	}
}

// A part is raised until its lowest point touches the bench, and no further.
func TestLift(t *testing.T) {
	p := build(t, tray(90, 90))
	s := Make(Picture{Part: p, State: p.Finished()})
	require.Zero(t, s.Lift, "the hook hangs outside, but above the floor")
	spec := tray(90, 90)
	for i := range spec.Bends[:4] {
		spec.Bends[i].Up = false
	}
	p = build(t, spec)
	s = Make(Picture{Part: p, State: p.Finished()})
	low := math.Inf(1)
	for _, v := range s.Verts {
		low = min(low, v.P[2])
	}
	require.InDelta(t, 0, low, 1e-9)
	// A wall of 50 mm on the blank from its bend line reaches 50 - BA/2 + R past the
	// sheet's lower face at 90 degrees, by hand; the back wall with its hook further.
	ba := math.Pi / 2 * (1.5 + .44)
	require.Greater(t, s.Lift, 50-ba/2+1.5-1e-9)
}

// Nothing to draw is drawn without complaint.
func TestEmpty(t *testing.T) {
	c := NewCamera(300, 200)
	s := Make(Picture{})
	s.Frame(&c)
	require.Empty(t, s.Project(&c, nil).Tris)
	require.Equal(t, None, s.Pick(&c, 150, 100).Kind)
	require.True(t, s.SetView(&c, "front"))
	require.False(t, s.SetView(&c, "sideways"))

	spec := tray(90, 90)
	spec.Outline[0], spec.Outline[1] = spec.Outline[1], spec.Outline[0] // the outline crosses itself
	p := fold.Build(spec)
	require.False(t, p.Foldable)
	s = Make(Picture{Part: p, Select: Select{Kind: Panel, Index: 3}, Ticks: true, Dims: true})
	s.Frame(&c)
	o := s.Project(&c, nil)
	require.NotEmpty(t, o.Lines, "the outline is still scribed")
	require.Equal(t, None, s.Pick(&c, 150, 100).Kind)
}
