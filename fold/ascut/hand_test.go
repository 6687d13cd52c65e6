package ascut

// Helpers of the tests: blanks that are cut wrong by hand, and measured by hand.

import (
	"math"
	"testing"

	"dryfold/assets"
	"dryfold/fold"
	"dryfold/fold/geom"
	"dryfold/fold/partfile"

	"github.com/stretchr/testify/require"
)

// demos reads the demo parts.
func demos(t testing.TB) map[string]fold.Spec {
	t.Helper()
	out := map[string]fold.Spec{}
	for _, d := range assets.Demos() {
		s, err := partfile.Read(d.Data)
		require.NoError(t, err)
		out[d.File] = s
	}
	return out
}

// cutByHand moves the straight stretch of the outline from a to b (mm) outward by d, its ends along what lies beside it, and takes bend lines that end on it
// along. places are where the outline's corners came to lie. ok is false where what lies beside it is not straight.
func cutByHand(s fold.Spec, a, b geom.Vec2, d float64) (cut fold.Spec, places []geom.Vec2, ok bool) {
	k := s.Units.Scale()
	n := len(s.Outline)
	c := append(fold.Contour(nil), s.Outline...)
	at := func(i int) geom.Vec2 { return s.Outline[(i+n)%n].At.Mul(k) }
	u := b.Sub(a).Mul(1 / b.Sub(a).Len())
	out := geom.Vec2{u[1], -u[0]}
	area := 0.0
	for i := range n {
		area += at(i)[0]*at(i + 1)[1] - at(i)[1]*at(i + 1)[0]
	}
	moved := 0
	steps := map[int]geom.Vec2{} // corners put in after a corner (or, negative, before it) where a step is cut
	for i := range n {
		p := at(i)
		if p != a && p != b {
			continue
		}
		away := 1 // the next corner away from the stretch
		if (p == a) == (area > 0) {
			away = -1
		}
		q := at(i + away)
		edge := i + away
		if away < 0 {
			edge = i
		}
		if s.Outline[(edge+n)%n].Through != nil {
			return s, nil, false
		}
		w := q.Sub(p).Mul(1 / q.Sub(p).Len())
		cos := w.Dot(out)
		switch {
		case math.Sqrt(1-w.Dot(u)*w.Dot(u)) < 0.3: // a step
			steps[(i+1)*away] = p.Mul(1 / k)
			c[i].At = p.Add(out.Mul(d)).Mul(1 / k)
		case d/cos > q.Sub(p).Len(): // all of what lies beside it goes: square to the new edge
			c[i].At = q.Add(out.Mul(d - q.Sub(p).Dot(out))).Mul(1 / k)
		default:
			c[i].At = p.Add(w.Mul(d / cos)).Mul(1 / k)
		}
		moved++
	}
	if moved != 2 {
		return s, nil, false
	}
	// Corners on the stretch itself.
	for i := range n {
		p := at(i)
		along, off := p.Sub(a).Dot(u), p.Sub(a).Dot(out)
		if math.Abs(off) < 1e-5 && along > 1e-6 && along < b.Sub(a).Len()-1e-6 {
			c[i].At = p.Add(out.Mul(d)).Mul(1 / k)
		}
	}
	s.Outline = nil
	for i, v := range c {
		if q, ok := steps[-i-1]; ok {
			s.Outline = append(s.Outline, fold.Vertex{At: q})
		}
		s.Outline = append(s.Outline, v)
		if q, ok := steps[i+1]; ok {
			s.Outline = append(s.Outline, fold.Vertex{At: q})
		}
	}
	s.Bends = append([]fold.BendSpec(nil), s.Bends...)
	for i := range s.Bends {
		l := s.Bends[i].Line
		for e := range l {
			p, q := l[e].Mul(k), l[1-e].Mul(k)
			w := p.Sub(q).Mul(1 / p.Sub(q).Len())
			along, off := p.Sub(a).Dot(u), p.Sub(a).Dot(out)
			if math.Abs(off) < 0.06 && along > -0.01 && along < b.Sub(a).Len()+0.01 && w.Dot(out) > 0.3 {
				l[e] = p.Add(w.Mul(d / w.Dot(out))).Mul(1 / k)
			}
		}
		s.Bends[i].Line = l
	}
	s.Seams = append([]fold.SeamSpec(nil), s.Seams...)
	for i := range s.Seams {
		for _, p := range []*geom.Vec2{&s.Seams[i].A, &s.Seams[i].B} {
			q := p.Mul(k)
			if along, off := q.Sub(a).Dot(u), q.Sub(a).Dot(out); math.Abs(off) < 0.5 && along > 0 && along < b.Sub(a).Len() {
				*p = q.Add(out.Mul(d)).Mul(1 / k)
			}
		}
	}
	for _, v := range c {
		places = append(places, v.At.Mul(k))
	}
	return s, places, true
}

// measureByHand measures a size on a blank that is cut a little wrong, whose corners lie at places: between those that should lie where it is measured, or, of a
// square one, between where the line between the two crosses the outline.
func measureByHand(s fold.Spec, places []geom.Vec2, z *Size) float64 {
	k := s.Units.Scale()
	if !z.Square {
		at := func(p geom.Vec2) geom.Vec2 {
			for i := range s.Outline {
				if s.Outline[i].At.Mul(k) == p {
					return places[i]
				}
			}
			return p // a hole or a bend line
		}
		return at(z.To).Sub(at(z.From)).Len()
	}
	n := len(places)
	var hits []geom.Vec2
	d := z.To.Sub(z.From)
	normal := geom.Vec2{-d[1], d[0]}
	for i := range n {
		p, q := places[i], places[(i+1)%n]
		x, y := p.Sub(z.From).Dot(normal), q.Sub(z.From).Dot(normal)
		if (x < 0) != (y < 0) {
			hits = append(hits, p.Add(q.Sub(p).Mul(x/(x-y))))
		}
	}
	near := func(p geom.Vec2) geom.Vec2 {
		best := hits[0]
		for _, h := range hits {
			if h.Sub(p).Len() < best.Sub(p).Len() {
				best = h
			}
		}
		return best
	}
	return near(z.To).Sub(near(z.From)).Len()
}

// looked is a part with its report and sizes.
type looked struct {
	p *fold.Part
	r fold.Report
	l *List
}

func look(s fold.Spec) *looked {
	x := &looked{p: fold.Build(s)}
	x.r = x.p.Quick()
	x.l = Look(x.p, &x.r)
	return x
}

// measured judges the part with all its sizes measured on a blank whose corners lie at places.
func (x *looked) measured(places []geom.Vec2) *Verdict {
	var is []float64
	for i := range x.l.Sizes {
		is = append(is, measureByHand(x.p.Spec, places, &x.l.Sizes[i]))
	}
	return x.typed(is...)
}

// typed judges the part with these values (mm) measured for its first sizes; a NaN with a sign is left out.
func (x *looked) typed(is ...float64) *Verdict {
	k := x.p.Spec.Units.Scale()
	p := *x.p
	p.Spec.AsCut = nil
	for i, v := range is {
		z := &x.l.Sizes[i]
		if v == none {
			continue
		}
		p.Spec.AsCut = append(p.Spec.AsCut, fold.CutSize{From: z.From.Mul(1 / k), To: z.To.Mul(1 / k), Is: v / k})
	}
	return Judge(&p, &x.r, x.l.Sizes)
}

// none is a value that was not measured.
const none = -12345

// wants are what the sizes should be.
func (x *looked) wants() (out []float64) {
	for i := range x.l.Sizes {
		out = append(out, x.l.Sizes[i].Want)
	}
	return out
}
