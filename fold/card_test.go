package fold_test

import (
	"math"
	"math/rand/v2"
	"os"
	"testing"

	"dryfold/fold"
	"dryfold/fold/foldtest"
	"dryfold/fold/geom"
	"dryfold/fold/partfile"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func demoTray(t *testing.T) *fold.Part {
	t.Helper()
	data, err := os.ReadFile("../assets/uncapping-tray.dryfold")
	require.NoError(t, err)
	s, err := partfile.Read(data)
	require.NoError(t, err)
	return built(t, s)
}

func TestMarks(t *testing.T) {
	const squareEnough = 0.05
	p := demoTray(t)
	for b, bend := range p.Bends {
		m := p.MarkOf(b)
		axis := map[string]int{"A": 0, "B": 1}[m.Edge]
		near, far := bend.Line[0], bend.Line[1]
		if near[1-axis] > far[1-axis] {
			near, far = far, near
		}
		assert.InDelta(t, near[axis]-p.Blank.Box.Min[axis], m.From, squareEnough)
		assert.InDelta(t, far[axis]-p.Blank.Box.Min[axis], m.To, squareEnough)
		for _, d := range []float64{m.From, m.To} {
			assert.True(t, d >= 0 && d <= p.Blank.Box.Size()[axis])
		}
	}
	for _, sw := range p.Swings { // bends on one line have one mark, from end to end
		m := p.MarkOf(sw.Bends...)
		for _, b := range sw.Bends {
			one := p.MarkOf(b)
			assert.Equal(t, one.Edge, m.Edge)
			assert.True(t, one.From >= min(m.From, m.To)-squareEnough && one.From <= max(m.From, m.To)+squareEnough)
		}
	}
}

// near reports how far a point lies from the runs of a section.
func nearRuns(runs []fold.Run, q geom.Vec2) float64 {
	d := math.Inf(1)
	for _, r := range runs {
		for i := range r.Points[1:] {
			x, _ := geom.SegmentDistance(q, r.Points[i], r.Points[i+1])
			d = min(d, x)
		}
	}
	return d
}

// A chain's legs lie in the section where a walk along it with rule and protractor puts them, before and after each swing; the last
// of them are marked as what the swing turns.
func TestSectionOfChains(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 1))
	for range 200 {
		c := foldtest.RandomChain(r)
		p := built(t, c.Spec())
		runs := p.Section(p.Finished(), 0)
		require.Len(t, runs, len(c.Flats)+len(c.Bends))
		o := geom.Vec2{c.Flats[0] + c.Allowance(0)/2, c.Thickness / 2} // the section's origin: the middle of bend 0's line, as it lies flat
		for _, leg := range c.Section() {
			d := leg[1].Sub(leg[0])
			off := geom.Perp(d).Mul(c.Thickness / 2 / d.Len())
			for _, q := range leg {
				assert.InDelta(t, 0, nearRuns(runs, q.Add(off).Sub(o)), 1e-8*max(1, c.Length()/1000))
			}
		}
		for bend := range c.Bends {
			now := 0
			for _, run := range p.Section(p.Flat(), bend) {
				if run.Now {
					now++
				}
			}
			assert.Equal(t, 2*(len(c.Bends)-bend), now, "the bend, and all legs and bends past it")
		}
	}
}

// Of a tray's panels as much lies in the section as is found by looking at places along the plane, and each of its points lies in
// the middle of a panel or in a bend.
func TestSectionOfTrays(t *testing.T) {
	for seed := range uint64(60) {
		r := rand.New(rand.NewPCG(seed, 2))
		p := fold.Build(foldtest.RandomTray(r))
		if !p.Foldable {
			continue
		}
		bend := r.IntN(len(p.Bends))
		st := p.StateAt(r.IntN(len(p.Swings)+1), r.Float64())
		ps := p.Pose(st)
		b := &p.Bends[bend]
		f := ps.Panels[b.A]
		mid := b.Line[0].Add(b.Line[1]).Mul(0.5)
		o := f.Point(geom.Vec3{mid[0], mid[1], p.Thickness / 2})
		ex, n := f.Vector(geom.Vec3{b.N[0], b.N[1], 0}), f.Vector(geom.Vec3{b.U[0], b.U[1], 0})
		box := p.Blank.Box.Size()
		reach := 2 * (box[0] + box[1])
		runs := p.Section(st, bend)
		require.NotEmpty(t, runs)
		for k := range p.Panels {
			g := ps.Panels[k]
			way := n.Cross(g.Z) // along the plane and along the panel
			if way.Len() < 1e-3 {
				continue
			}
			way = way.Mul(1 / way.Len())
			// The place on both planes nearest to o.
			mz := g.Point(geom.Vec3{0, 0, p.Thickness / 2})
			down := g.Z.Sub(n.Mul(g.Z.Dot(n)))
			at := o.Add(down.Mul(mz.Sub(o).Dot(g.Z) / down.Dot(g.Z)))
			const looks = 4000
			inside := 0
			for i := range looks {
				x := at.Add(way.Mul(reach * ((float64(i)+0.5)/looks - 0.5)))
				l := g.LocalPoint(x)
				if p.Panels[k].Region.Contains(geom.Vec2{l[0], l[1]}) {
					inside++
					d := x.Sub(o)
					assert.InDelta(t, 0, nearRuns(runs, geom.Vec2{d.Dot(ex), d.Dot(f.Z)}), 1e-6*reach, "seed %d panel %d", seed, k)
				}
			}
			length := 0.0
			for _, run := range runs {
				if len(run.Points) != 2 {
					continue
				}
				in := true
				for _, q := range run.Points {
					l := g.LocalPoint(o.Add(ex.Mul(q[0])).Add(f.Z.Mul(q[1])))
					in = in && math.Abs(l[2]-p.Thickness/2) < 1e-6*reach
				}
				m := run.Points[0].Add(run.Points[1]).Mul(0.5)
				l := g.LocalPoint(o.Add(ex.Mul(m[0])).Add(f.Z.Mul(m[1])))
				if in && p.Panels[k].Region.Contains(geom.Vec2{l[0], l[1]}) {
					length += run.Points[1].Sub(run.Points[0]).Len()
				}
			}
			assert.InDelta(t, float64(inside)*reach/looks, length, 6*reach/looks, "seed %d panel %d", seed, k)
		}
	}
}
