package model

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"dryfold/fold"
	"dryfold/fold/foldtest"
	"dryfold/fold/geom"
)

// strip is a strip 60 x 20 x 2 with one bend across its middle.
func strip(k, angle, radius float64) fold.Spec {
	return fold.Spec{
		Sheet:   fold.Sheet{Thickness: 2, K: &k},
		Outline: foldtest.Points(0, 0, 60, 0, 60, 20, 0, 20),
		Bends:   []fold.BendSpec{{Line: [2]geom.Vec2{{30, 0}, {30, 20}}, Angle: angle, Radius: radius, Up: true}},
	}
}

// turns are the angles tried of a bend.
var turns = []float64{1, 37, 90, 135, 180}

// build builds a part that must fold.
func build(t *testing.T, s fold.Spec) *fold.Part {
	p := fold.Build(s)
	require.True(t, p.Foldable, "%v", p.Troubles)
	return p
}

// A crease has no width on the blank; its outer face goes round the inner edge. Holes on its line cut it in two.
func TestCrease(t *testing.T) {
	for _, up := range []bool{true, false} {
		for _, a := range turns {
			s := strip(0, a, 0)
			s.Bends[0].Up = up
			p := build(t, s)
			require.Zero(t, p.Bends[0].Allowance)
			for _, f := range []float64{0, .3, 1} {
				m := sound(t, p, p.StateAt(0, f), Chord, "crease")
				require.Equal(t, 2, euler(m))
			}
			s.Holes = []fold.Hole{{At: geom.Vec2{30, 7}, Diameter: 5}, {At: geom.Vec2{31, 14}, Diameter: 3}}
			m := sound(t, build(t, s), p.Finished(), Chord, "crease with holes")
			require.Equal(t, 2-2*2, euler(m))
		}
	}
}

// With an inside radius of 0 the inner face has a sharp corner, and the metal is there all the same: a closed hem
// is as thick as two sheets.
func TestSharp(t *testing.T) {
	for _, a := range turns {
		p := build(t, strip(.4, a, 0))
		m := sound(t, p, p.Finished(), Chord, "sharp")
		if a == 180 {
			require.InDelta(t, 2*2, m.Box().Size()[2], 1e-9)
			require.InDelta(t, (60-p.Bends[0].Allowance)/2+2, m.Box().Size()[0], 1e-9) // the fold stands out by T
		}
		sound(t, p, p.StateAt(0, .6), Chord, "sharp, on the way")
	}
}

// Holes across a tangent line, within a zone, and slots that cut a zone in two or three, some with slanting ends.
func TestHolesAndSlots(t *testing.T) {
	hole := func(x, y, d float64) fold.Hole { return fold.Hole{At: geom.Vec2{x, y}, Diameter: d} }
	for _, a := range turns {
		s := strip(.42, a, 3)
		p := build(t, s)
		half := p.Bends[0].Allowance / 2
		s.Holes = []fold.Hole{hole(30+half, 4, 3), hole(30-half, 9, 2), hole(30, 16, min(1, half))}
		p = build(t, s)
		for _, f := range []float64{0, .01, .5, 1} {
			require.Equal(t, 2-2*3, euler(sound(t, p, p.StateAt(0, f), Chord, "holes")))
		}
		s.Holes = nil
		s.Cutouts = []fold.Contour{foldtest.Points(20, 5, 40, 5, 41, 8, 19, 7), foldtest.Points(25, 12, 36, 13, 36, 14, 25, 15)}
		p = build(t, s)
		require.GreaterOrEqual(t, len(p.Bends[0].Zone), 1)
		for _, f := range []float64{.5, 1} {
			require.Equal(t, 2-2*2, euler(sound(t, p, p.StateAt(0, f), Chord, "slots")))
		}
	}
}

// A cutout whose tip just touches a tangent line: the panel's edge runs straight on there, and has to meet the zone's two.
func TestTouchingTip(t *testing.T) {
	s := strip(.42, 90, 3)
	half := build(t, s).Bends[0].Allowance / 2
	for _, side := range []float64{-1, 1} {
		s.Cutouts = []fold.Contour{foldtest.Points(30+side*half, 10, 30-side*half/2, 8, 30-side*half/2, 12)}
		p := build(t, s)
		require.Len(t, p.Panels[0].Region.Outer, 4) // no corner where the tip is
		m, err := Make(p, p.Finished(), Chord)
		require.NoError(t, err)
		fans(t, m)
		require.Equal(t, 0, euler(m))
		want, most := trueVolume(p, p.Finished(), Chord)
		require.InDelta(t, want, m.Volume(), most+slanting(p, p.Finished())*Chord)
	}
}

// A corner of the blank just beside a line between facets draws the line to itself, and leaves no sliver.
func TestSnap(t *testing.T) {
	count := func(share float64) int {
		s := strip(.42, 90, 3)
		p := build(t, s)
		sh := sheet{part: p, state: p.Finished(), chord: Chord}
		lines := sh.lines(0)
		x := p.Bends[0].Q[0] + p.Bends[0].N[0]*(lines[1]+share*lines[0])
		s.Cutouts = []fold.Contour{foldtest.Points(x, 5, x, 9, x+20, 9, x+20, 5)}
		p = build(t, s)
		return len(sound(t, p, p.Finished(), Chord, "snap").Tris)
	}
	require.Equal(t, count(0), count(.04))
	require.Equal(t, count(0), count(-.04))
}

// Every corner lies on the true faces: on a panel, or on one of the two cylinders of its bend, or on what of its zone is
// still flat; and facets leave the cylinders by no more than the chord.
func TestOnCylinders(t *testing.T) {
	parts := known(t)
	for _, name := range names(parts) {
		p := parts[name]
		s := p.StateAt(len(p.Swings)/2, .6)
		for _, state := range []fold.State{p.Finished(), s} {
			ps := p.Pose(state)
			m, err := Make(p, state, .03)
			require.NoError(t, err)
			for _, q := range m.Tris {
				if q.Face == Cut {
					continue
				}
				if !q.Body.Zone {
					want := 0.0
					if q.Face == Upper {
						want = p.Thickness
					}
					for _, v := range q.V {
						require.InDelta(t, want, ps.Panels[q.Body.Index].LocalPoint(m.Points[v])[2], 1e-6, name)
					}
					continue
				}
				b := &p.Bends[q.Body.Index]
				o, u, bent := ps.ZoneAxis(q.Body.Index)
				if bent == 0 {
					continue
				}
				rho, _ := b.Curl(state[q.Body.Index])
				r := rho - b.K*p.Thickness // of the inner face; the upper one of an up bend
				if (q.Face == Upper) != b.Up {
					r += p.Thickness
				}
				off := func(x geom.Vec3) float64 { // from the axis
					d := x.Sub(o)
					return d.Sub(u.Mul(d.Dot(u))).Len()
				}
				in := true
				for _, v := range q.V {
					in = in && math.Abs(off(m.Points[v])-r) < 1e-6
				}
				if !in { // then it is flat with the swinging side, all of it
					want := 0.0
					if q.Face == Upper {
						want = p.Thickness
					}
					for _, v := range q.V {
						require.InDelta(t, want, ps.Panels[b.B].LocalPoint(m.Points[v])[2], 1e-6, name)
					}
					continue
				}
				mid := m.Points[q.V[0]].Add(m.Points[q.V[1]]).Add(m.Points[q.V[2]]).Mul(1. / 3)
				require.GreaterOrEqual(t, off(mid), r-.03, "%s: a facet of %s", name, b.Name)
			}
		}
	}
}

// What can't be made is said.
func TestRefused(t *testing.T) {
	p := build(t, strip(.4, 90, 2))
	_, err := Make(fold.Build(fold.Spec{}), nil, 0)
	require.ErrorContains(t, err, "can't be folded")
	for _, chord := range []float64{-1, math.NaN(), math.Inf(1), 1e-9, 11} {
		_, err = Make(p, nil, chord)
		require.ErrorContains(t, err, "0.0001 to 10 mm is needed")
	}
	_, err = Make(p, fold.State{0, 0}, 0)
	require.ErrorContains(t, err, "2 angles for 1 bends")
	for _, a := range []float64{-1, 7, math.NaN()} {
		_, err = Make(p, fold.State{geom.Angle(a)}, 0)
		require.ErrorContains(t, err, "is needed")
	}
	// A coarse chord on a bend of little thickness still bends it.
	m, err := Make(p, p.Finished(), 10)
	require.NoError(t, err)
	require.Greater(t, len(m.Tris), 2*(2*2+6))
}

// A surface that is not closed is known for one.
func TestOpen(t *testing.T) {
	p := build(t, strip(.4, 90, 2))
	m, err := Make(p, p.Finished(), 0)
	require.NoError(t, err)
	require.True(t, m.Closed())
	hole := Mesh{m.Points, m.Tris[1:]}
	require.False(t, hole.Closed(), "a missing triangle")
	wrong := Mesh{m.Points, append([]Tri{{V: [3]int32{m.Tris[0].V[1], m.Tris[0].V[0], m.Tris[0].V[2]}}}, m.Tris[1:]...)}
	require.False(t, wrong.Closed(), "a triangle turned over")
}

// BenchmarkMake is the uncapping tray, finished, with the two files written.
func BenchmarkMake(b *testing.B) {
	for _, name := range []string{"uncapping-tray", "press-hopper", "hive-roof"} {
		p := read(b, "../../assets/"+name+".dryfold")
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				m, err := Make(p, p.Finished(), 0)
				if err != nil {
					b.Fatal(err)
				}
				b.ReportMetric(float64(len(m.Tris)), "tris")
				b.ReportMetric(float64(len(STL(m, p.Spec.Name))), "stl")
				b.ReportMetric(float64(len(GLB(m, Options{Name: p.Spec.Name}))), "glb")
			}
		})
	}
}
