package fold_test

// This file holds the search for clashes against dense sampling of parts of every kind, by separating axes alone:
// nothing of the search, nor of its boxes, is used.

import (
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"dryfold/fold"
	"dryfold/fold/foldtest"
	"dryfold/fold/geom"
	"dryfold/fold/metal"
	"dryfold/fold/shape"
	"dryfold/fold/sizes"
	"dryfold/fold/solid"
)

var (
	sampleSeed  = flag.Uint64("sample.seed", 3, "seed of the parts that are sampled; 0 takes a new one")
	sampleParts = flag.Int("sample.parts", 8, "how many parts are sampled")
	sampleLook  = flag.Int("sample.look", 30, "places in each swing")
)

// overlapDepth is the least-translation depth of two convex bodies, 0 where they are apart: by all faces and pairs of edges.
func overlapDepth(a, b *solid.Convex) float64 {
	best := math.Inf(1)
	try := func(n geom.Vec3) bool {
		alo, ahi, blo, bhi := math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)
		for _, p := range a.Points {
			d := n.Dot(p)
			alo, ahi = min(alo, d), max(ahi, d)
		}
		for _, p := range b.Points {
			d := n.Dot(p)
			blo, bhi = min(blo, d), max(bhi, d)
		}
		best = min(best, ahi-blo, bhi-alo)
		return best > 0
	}
	for _, n := range a.Normals {
		if !try(n) {
			return 0
		}
	}
	for _, n := range b.Normals {
		if !try(n) {
			return 0
		}
	}
	for _, d := range a.Dirs {
		for _, e := range b.Dirs {
			n := d.Cross(e)
			if l := n.Len(); l > 1e-9 && !try(n.Mul(1/l)) {
				return 0
			}
		}
	}
	return best
}

type sampledBody struct {
	pieces []solid.Convex
	boxes  []geom.Box3
	all    geom.Box3
}

func boxOf(c *solid.Convex) geom.Box3 {
	b := geom.EmptyBox3()
	for _, p := range c.Points {
		b.Add(p)
	}
	return b
}

func apartBy(a, b *geom.Box3, d float64) bool {
	for k := range 3 {
		if a.Min[k] > b.Max[k]-d || b.Min[k] > a.Max[k]-d {
			return true
		}
	}
	return false
}

func newSampled(pieces []solid.Convex) sampledBody {
	s := sampledBody{pieces: pieces, all: geom.EmptyBox3()}
	for i := range pieces {
		b := boxOf(&pieces[i])
		s.boxes = append(s.boxes, b)
		s.all.Add(b.Min)
		s.all.Add(b.Max)
	}
	return s
}

// deep is how deep two bodies lie in each other, as far as it is over floor.
func (s *sampledBody) deep(o *sampledBody, floor float64) float64 {
	worst := 0.0
	if len(s.pieces) == 0 || len(o.pieces) == 0 || apartBy(&s.all, &o.all, floor) {
		return 0
	}
	for i := range s.pieces {
		if apartBy(&s.boxes[i], &o.all, floor) {
			continue
		}
		for j := range o.pieces {
			if !apartBy(&s.boxes[i], &o.boxes[j], floor) {
				worst = max(worst, overlapDepth(&s.pieces[i], &o.pieces[j]))
			}
		}
	}
	return worst
}

// sampled gives solids of a pose, each worked out once.
type sampled struct {
	p  *fold.Part
	ps fold.Pose
	of map[[4]int]sampledBody
}

// body is a solid, and of a panel that is held against a zone of its own bend what lies beyond the tangent plane.
func (s *sampled) body(b, other fold.Body) *sampledBody {
	key := [4]int{0, b.Index, -1, 0}
	if b.Zone {
		key[0] = 1
	} else if other.Zone {
		if e := &s.p.Bends[other.Index]; e.A == b.Index || e.B == b.Index {
			key[2] = other.Index
		}
	}
	if x, ok := s.of[key]; ok {
		return &x
	}
	var x sampledBody
	if key[2] < 0 {
		x = newSampled(s.ps.Solid(b))
	} else {
		e := &s.p.Bends[key[2]]
		n, at := e.N, e.N.Dot(e.Q)
		if e.B == b.Index {
			n, at = n.Mul(-1), -(at + e.Allowance)
		}
		var pieces []solid.Convex
		for _, l := range s.p.Panels[b.Index].Pieces {
			if l = solid.Clip(l, n, at+fold.Weld); l != nil {
				pieces = append(pieces, solid.Prism(l, 0, s.p.Thickness, s.ps.Panels[b.Index]))
			}
		}
		x = newSampled(pieces)
	}
	s.of[key] = x
	return &x
}

func sample(p *fold.Part, swing int, f float64) *sampled {
	return &sampled{p, p.Pose(p.StateAt(swing, f)), map[[4]int]sampledBody{}}
}

// turnsBetween: a bend of the swing lies between two solids.
func turnsBetween(p *fold.Part, sw fold.Swing, a, b fold.Body) bool {
	turns := map[int]bool{}
	for _, k := range sw.Bends {
		turns[k] = true
	}
	way := func(x fold.Body) map[int]bool {
		m := map[int]bool{}
		k := x.Index
		if x.Zone {
			k = p.Bends[x.Index].B
		}
		for p.Panels[k].Parent >= 0 {
			if e := p.Panels[k].Parent; turns[e] {
				m[e] = true
			}
			k = p.Bends[p.Panels[k].Parent].A
		}
		return m
	}
	if a.Zone && turns[a.Index] || b.Zone && turns[b.Index] {
		return true
	}
	x, y := way(a), way(b)
	for k := range x {
		if !y[k] {
			return true
		}
	}
	for k := range y {
		if !x[k] {
			return true
		}
	}
	return false
}

// sampleSpec is a part of any kind.
func sampleSpec(r *rand.Rand) fold.Spec {
	var s fold.Spec
	switch r.IntN(6) {
	case 0, 1:
		st := shape.Starters[r.IntN(len(shape.Starters))]
		for {
			s = st.Make(fold.Units(r.IntN(2)))
			grow := foldtest.LogUniform(r, 0.5, 3)
			for k := range s.Sizes.Named {
				n := &s.Sizes.Named[k]
				switch {
				case !n.Angle:
					n.Is.Number *= grow * foldtest.LogUniform(r, 0.5, 2)
				case n.Is.Number == 0:
					n.Is.Number = foldtest.Uniform(r, -20, 40)
				default:
					n.Is.Number *= foldtest.LogUniform(r, 0.3, 1.7)
				}
			}
			s.Sheet.Thickness *= foldtest.LogUniform(r, 0.1, 2)
			s.Sizes.Radius = sizes.Is(s.Sheet.Thickness * foldtest.LogUniform(r, 0.1, 4))
			s.Sizes.Gap = sizes.Is(s.Sheet.Thickness * foldtest.LogUniform(r, 0.02, 2))
			if m, bad := shape.Make(s); len(bad) == 0 && m.Part != nil && m.Part.Foldable {
				s = m.Part.Spec
				s.Sizes = nil
				break
			}
		}
	case 2:
		s = foldtest.RandomChain(r).Spec()
	case 3:
		s = hitStrip(r)
	default:
		s = foldtest.Random(r)
	}
	// The order, bends that turn together, part bends, springback, another scale.
	names := []string{}
	for i := range s.Bends {
		if s.Bends[i].Name == "" {
			s.Bends[i].Name = fmt.Sprintf("b%d", i)
		}
		names = append(names, s.Bends[i].Name)
	}
	if r.IntN(4) > 0 {
		s.Order = nil
		perm := r.Perm(len(names))
		for len(perm) > 0 {
			n := 1
			switch r.IntN(4) {
			case 0:
				n = min(len(perm), 2+r.IntN(3))
			case 1:
				if b := s.Bends[perm[0]]; b.Angle > 10 {
					to := b.Angle * foldtest.Uniform(r, 0.2, 0.9)
					s.Order = append(s.Order, fold.Step{Bends: []string{b.Name}, To: &to})
				}
			}
			var st fold.Step
			for _, k := range perm[:n] {
				st.Bends = append(st.Bends, names[k])
			}
			perm = perm[n:]
			s.Order = append(s.Order, st)
		}
	}
	if r.IntN(3) == 0 {
		s.Sheet.Metal = metal.Metals[0].Name
		s.Tests = nil
		for range 3 {
			set := 90 + foldtest.Uniform(r, 0.5, 12)
			s.Tests = append(s.Tests, metal.Strip{Metal: s.Sheet.Metal, Thickness: s.Sheet.Thickness, Angle: 90, Set: &set})
		}
	}
	return s
}

// hitStrip is a strip whose bends turn far and all one way, so that it hits itself; sections step in and out, with holes.
func hitStrip(r *rand.Rand) fold.Spec {
	th := foldtest.LogUniform(r, 0.05, 4)
	k := 0.3 + 0.2*r.Float64()
	s := fold.Spec{Name: "strip", Sheet: fold.Sheet{Thickness: th, K: &k}}
	var low, high []geom.Vec2
	x, n := 0.0, 3+r.IntN(4)
	size := foldtest.LogUniform(r, 2, 800)
	prev := [2]float64{}
	for i := range n {
		y := [2]float64{math.Floor(r.Float64()*3) * size / 4, size * (1 + math.Floor(r.Float64()*3)/4)}
		if i > 0 {
			angle := []float64{90, 180, 240, foldtest.Uniform(r, 20, 240), 90}[r.IntN(5)]
			radius := []float64{0, th, th * foldtest.Uniform(r, 0, 6)}[r.IntN(3)]
			ba := angle * math.Pi / 180 * (radius + k*th)
			y0, y1 := max(prev[0], y[0]), min(prev[1], y[1])
			low = append(low, geom.Vec2{x, y0}, geom.Vec2{x + ba, y0})
			high = append(high, geom.Vec2{x, y1}, geom.Vec2{x + ba, y1})
			s.Bends = append(s.Bends, fold.BendSpec{Line: [2]geom.Vec2{{x + ba/2, y0 - 1}, {x + ba/2, y1 + 1}}, Angle: angle, Radius: radius, Up: r.IntN(4) > 0})
			x += ba
		}
		l := max(8*th, size*foldtest.Uniform(r, 0.2, 1.5))
		low = append(low, geom.Vec2{x, y[0]}, geom.Vec2{x + l, y[0]})
		high = append(high, geom.Vec2{x, y[1]}, geom.Vec2{x + l, y[1]})
		if r.IntN(3) == 0 {
			m := (y[0] + y[1]) / 2
			a, b, h := x+0.2*l, x+0.8*l, (y[1]-y[0])/4
			s.Cutouts = append(s.Cutouts, foldtest.Points(a, m-h, b, m-h, b, m+h, a, m+h))
		}
		x += l
		prev = y
	}
	var l []geom.Vec2
	add := func(p geom.Vec2) {
		if k := len(l); k == 0 || l[k-1] != p {
			l = append(l, p)
		}
	}
	for _, p := range low {
		add(p)
	}
	for i := len(high) - 1; i >= 0; i-- {
		add(high[i])
	}
	for _, p := range l {
		s.Outline = append(s.Outline, fold.Vertex{At: p})
	}
	return s
}

// What sampling sees the search has seen, at the same moment or before; and first contact is the last moment without overlap before it.
func TestSampledParts(t *testing.T) {
	seed := *sampleSeed
	if seed == 0 {
		seed = uint64(time.Now().UnixNano())
	}
	t.Logf("again with -sample.seed %d -sample.parts %d", seed, *sampleParts)
	pairs, hits := 0, 0
	for n := range *sampleParts {
		r := foldtest.Rand(seed + uint64(n)*1_000_003)
		p := fold.Build(sampleSpec(r))
		if !p.Foldable {
			continue
		}
		samplePart(t, p, *sampleLook, fmt.Sprintf("seed %d", seed+uint64(n)*1_000_003), &pairs, &hits)
	}
	t.Logf("%d pairs of solids, %d clashes", pairs, hits)
	require.Positive(t, hits)
}

func samplePart(t *testing.T, p *fold.Part, look int, what string, pairs, hits *int) {
	begun := time.Now()
	clashes := p.Clashes()
	if d := time.Since(begun); d > 5*time.Second {
		t.Logf("%s: %v for the clashes of %d bends", what, d, len(p.Bends))
	}
	type key struct {
		swing int
		a, b  fold.Body
	}
	got := map[key]fold.Clash{}
	rest := map[int]bool{}
	for _, c := range clashes {
		if c.Rest {
			rest[c.Swing] = true
		}
		if c.Undecided {
			t.Logf("%s: undecided: swing %d %s and %s at %v", what, c.Swing+1, p.BodyName(c.A), p.BodyName(c.B), c.Fraction)
		}
		for _, k := range []key{{c.Swing, c.A, c.B}, {c.Swing, c.B, c.A}} {
			if old, ok := got[k]; !ok || c.Fraction < old.Fraction {
				got[k] = c
			}
		}
	}
	var bodies []fold.Body
	for i := range p.Panels {
		bodies = append(bodies, fold.Body{Index: i})
	}
	for i := range p.Bends {
		bodies = append(bodies, fold.Body{Zone: true, Index: i})
	}
	for i, sw := range p.Swings {
		if rest[i] {
			continue
		}
		samples := make([]*sampled, look+1)
		for k := range samples {
			samples[k] = sample(p, i, float64(k)/float64(look))
		}
		for x, a := range bodies {
			for _, b := range bodies[x+1:] {
				if !turnsBetween(p, sw, a, b) {
					continue
				}
				*pairs++
				c, clashing := got[key{i, a, b}]
				start := true
				for k, s := range samples {
					f := float64(k) / float64(look)
					if clashing && f >= c.Fraction {
						break
					}
					d := s.body(a, b).deep(s.body(b, a), fold.ClashDepth)
					if start && d > fold.ClashDepth {
						continue
					}
					start = false
					// A search's answer may be off by its slack and by the facets of both.
					if d > fold.ClashDepth+0.001+1e-6 {
						t.Errorf("%s: swing %d of %d, %s and %s lie %.4f in each other at %.4f; told %v at %.6f", what, i+1, len(p.Swings), p.BodyName(a), p.BodyName(b), d, f, clashing, c.Fraction)
						break
					}
				}
				if !clashing || c.Undecided {
					continue
				}
				*hits++
				deep := func(f float64) float64 {
					s := sample(p, i, f)
					return s.body(a, b).deep(s.body(b, a), 0)
				}
				way := 0.0
				for k := range sw.Bends {
					way = max(way, 2*float64(sw.Set[k]-sw.From[k])-float64(sw.To[k]-sw.From[k]))
				}
				e := 1e-6 * math.Pi / 180 / way // a millionth of a degree
				if at := deep(c.Fraction); c.Fraction > 0 && at > 1e-7 {
					t.Errorf("%s: swing %d, %s and %s lie %.2g in each other at first contact, %.9f", what, i+1, p.BodyName(a), p.BodyName(b), at, c.Fraction)
				}
				// On to the clash they overlap all the time.
				for _, by := range []float64{2 * e, 10 * e, 100 * e, 1e-5, 1e-4, 1e-3, 3e-3, 0.01} {
					f := c.Fraction + by
					if f > 1 || f > c.DepthAt {
						break
					}
					d := deep(f)
					if d > fold.ClashDepth {
						break
					}
					if d <= 0 {
						most := 0.0 // a brief clash may lie between
						for k := range 400 {
							most = max(most, deep(c.Fraction+by*float64(k)/400))
						}
						if most > fold.ClashDepth {
							break
						}
						t.Errorf("%s: swing %d, %s and %s are apart at %v of the swing after first contact, %.9f", what, i+1, p.BodyName(a), p.BodyName(b), by, c.Fraction)
						break
					}
				}
				if d := deep(c.DepthAt); math.Abs(d-c.Depth) > 1e-3 {
					t.Errorf("%s: swing %d, %s and %s: told %v deep at %v, are %v", what, i+1, p.BodyName(a), p.BodyName(b), c.Depth, c.DepthAt, d)
				}
				if end := deep(1); math.Abs(end-fold.ClashDepth) > 1e-3 && (end > fold.ClashDepth) != c.AtEnd {
					t.Errorf("%s: swing %d, %s and %s: at the end %v deep, told %v", what, i+1, p.BodyName(a), p.BodyName(b), end, c.AtEnd)
				}
			}
		}
	}
}
