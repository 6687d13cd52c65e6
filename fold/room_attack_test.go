package fold_test

// This file holds the room told of a swing, and the cuts told of a clash, against sampling and against parts built anew.

import (
	"fmt"
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"dryfold/fold"
	"dryfold/fold/foldtest"
	"dryfold/fold/geom"
	"dryfold/fold/solid"
)

// apartSampled is the least distance of two solids over a swing, by sampling and then closing in on the least.
func apartSampled(p *fold.Part, swing int, a, b fold.Body, look int) float64 {
	at := func(f float64) float64 {
		s := sample(p, swing, f)
		x, y := s.body(a, b), s.body(b, a)
		best := math.Inf(1)
		for i := range x.pieces {
			for j := range y.pieces {
				if c, ok := solid.Nearer(&x.pieces[i], &y.pieces[j], best); ok {
					best = c.D
				}
			}
		}
		return best
	}
	best, where := math.Inf(1), 0.0
	for k := range look + 1 {
		if d := at(float64(k) / float64(look)); d < best {
			best, where = d, float64(k)/float64(look)
		}
	}
	for h := 1 / float64(look); h > 1e-5; h /= 2 {
		for _, f := range []float64{where - h/2, where + h/2} {
			if f >= 0 && f <= 1 {
				if d := at(f); d < best {
					best, where = d, f
				}
			}
		}
	}
	return best
}

// Room is never more than what is left, and no more than a step less.
func TestRoomSampled(t *testing.T) {
	seed := *sampleSeed
	if seed == 0 {
		seed = uint64(time.Now().UnixNano())
	}
	t.Logf("again with -sample.seed %d -sample.parts %d", seed, *sampleParts)
	passes := 0
	for n := range *sampleParts {
		at := seed + uint64(n)*1_000_003
		p := fold.Build(sampleSpec(foldtest.Rand(at)))
		if !p.Foldable {
			continue
		}
		for i, x := range p.Passes(p.Clashes()) {
			if i >= 6 {
				break
			}
			passes++
			d := apartSampled(p, x.Swing, x.A, x.B, *sampleLook)
			what := fmt.Sprintf("seed %d: swing %d, %s and %s", at, x.Swing+1, p.BodyName(x.A), p.BodyName(x.B))
			if d < x.Room-1e-6 {
				t.Errorf("%s: %v is left, told %v", what, d, x.Room)
			}
			// The least may lie between samples: only far too little is amiss.
			if x.Sure && d > x.Room+fold.RoomStep+0.1 {
				t.Errorf("%s: %v is left, told no more than %v (at %v)", what, d, x.Room, x.Fraction)
			}
			if got := x.At[0].Sub(x.At[1]).Len(); x.Sure && math.Abs(got-d) > fold.RoomStep+0.15 && d > 0.2 {
				t.Logf("%s: the points told lie %v apart, the room is %v", what, got, d)
			}
		}
	}
	t.Logf("%d passes", passes)
	require.Positive(t, passes)
}

// A strip cut as told, its outline made anew, is free of that clash; some steps less it is not.
func TestCutsBuiltAnew(t *testing.T) {
	seed := *sampleSeed
	if seed == 0 {
		seed = uint64(time.Now().UnixNano())
	}
	t.Logf("again with -sample.seed %d -sample.parts %d", seed, *sampleParts)
	tried := map[string]int{}
	for n := range *sampleParts {
		at := seed + uint64(n)*1_000_003
		r := foldtest.Rand(at)
		s := hitStrip(r)
		s.Cutouts = nil
		for i := range s.Bends {
			s.Bends[i].Name = fmt.Sprintf("b%d", i)
		}
		p := fold.Build(s)
		if !p.Foldable {
			continue
		}
		s.Base = p.Panels[p.Base].Name
		for _, q := range p.Panels {
			s.Panels = append(s.Panels, fold.PanelName{Name: q.Name, At: q.Label})
		}
		p = fold.Build(s)
		require.True(t, p.Foldable)
		rep := p.Check()
		for _, c := range rep.Clashes {
			for _, cut := range c.Cuts {
				k := panelCalled(p, cut.Panel)
				if p.Panels[k].Parent < 0 {
					continue
				}
				b := &p.Bends[p.Panels[k].Parent]
				var made func(by float64) fold.Spec
				switch cut.Edge {
				case "its far edge":
					made = func(by float64) fold.Spec { return trimmed(s, p, k, b.N, by) }
				case "between its bends":
					made = func(by float64) fold.Spec { return drawnIn(s, p, k, b.N, by) }
				default:
					continue
				}
				tried[cut.Edge]++
				what := fmt.Sprintf("seed %d: swing %d %s and %s, %.1f mm off %s, %s", at, c.Swing, c.A, c.B, cut.By, cut.Panel, cut.Edge)
				still := func(by float64) (float64, bool) {
					q := fold.Build(made(by))
					if !q.Foldable || len(q.Panels) != len(p.Panels) {
						t.Logf("%s: the part cut by %v does not fold: %v", what, by, q.Troubles)
						return 0, by < cut.By
					}
					for _, x := range q.Clashes() {
						if x.Swing+1 == c.Swing && (q.BodyName(x.A) == c.A && q.BodyName(x.B) == c.B || q.BodyName(x.A) == c.B && q.BodyName(x.B) == c.A) {
							return x.Depth, true
						}
					}
					return 0, false
				}
				if d, ok := still(cut.By); ok && d > fold.ClashDepth+0.002 {
					t.Errorf("%s: still clashes, %v deep", what, d)
				}
				// A graze may not be proved within the work allowed for one cut: two steps more are let pass.
				if by := cut.By - 0.3 - 2e-3; by > 0 {
					if _, ok := still(by); !ok {
						t.Errorf("%s: three steps less are free too", what)
					}
				}
				// And no clash is made that was not there.
				if all := len(fold.Build(made(cut.By)).Clashes()); all > len(rep.Clashes) {
					t.Errorf("%s: %d clashes become %d", what, len(rep.Clashes), all)
				}
			}
		}
	}
	t.Log(tried)
	require.NotEmpty(t, tried)
}

func panelCalled(p *fold.Part, name string) int {
	for i := range p.Panels {
		if p.Panels[i].Name == name {
			return i
		}
	}
	return -1
}

// trimmed is the blank of a strip with its last panel k cut back along n.
func trimmed(s fold.Spec, p *fold.Part, k int, n geom.Vec2, by float64) fold.Spec {
	h := math.Inf(-1)
	for _, q := range p.Panels[k].Region.Outer {
		h = max(h, n.Dot(q))
	}
	out := s
	out.Outline = nil
	for _, v := range s.Outline {
		if d := n.Dot(v.At) - (h - by); d > 0 {
			v.At = v.At.Sub(n.Mul(d))
		}
		out.Outline = append(out.Outline, v)
	}
	return out
}

// drawnIn is the blank of a strip with panel k shorter by so much along n, all beyond it nearer.
func drawnIn(s fold.Spec, p *fold.Part, k int, n geom.Vec2, by float64) fold.Spec {
	h := math.Inf(-1)
	for _, q := range p.Panels[k].Region.Outer {
		h = max(h, n.Dot(q))
	}
	move := func(q geom.Vec2) geom.Vec2 {
		if n.Dot(q) > h-1e-6 {
			return q.Sub(n.Mul(by))
		}
		return q
	}
	out := s
	out.Outline, out.Bends, out.Panels = nil, append([]fold.BendSpec(nil), s.Bends...), append([]fold.PanelName(nil), s.Panels...)
	for _, v := range s.Outline {
		out.Outline = append(out.Outline, fold.Vertex{At: move(v.At)})
	}
	for i := range out.Bends {
		for j := range out.Bends[i].Line {
			out.Bends[i].Line[j] = move(out.Bends[i].Line[j])
		}
	}
	for i := range out.Panels {
		if j := panelCalled(p, out.Panels[i].Name); j != k {
			out.Panels[i].At = move(out.Panels[i].At)
		} else { // well inside what is left
			out.Panels[i].At = out.Panels[i].At.Sub(n.Mul(by / 2))
		}
	}
	return out
}
