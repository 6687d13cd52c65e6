package spread

// This file holds samples against a slow twin: the part built anew with the errors in its Spec, and fold's own measuring.

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"dryfold/fold"
	"dryfold/fold/foldtest"
	"dryfold/fold/geom"
)

// withErrors gives a part's every error a size, so that the causes are all there.
func withErrors(s fold.Spec, angle, line, thick, k, cut float64) fold.Spec {
	u := s.Units.Scale()
	line, thick, cut = line/u, thick/u, cut/u
	s.Errors = fold.ErrorSpec{Angle: &angle, Line: &line, Thickness: &thick, K: &k, Cut: &cut}
	return s
}

// twin is the part with the errors last set in x.
func twin(p *fold.Part, x *poser) *fold.Part {
	s := p.Spec
	s.Sizes = nil
	u := s.Units.Scale()
	k := x.hinge[0].kNow
	s.Sheet.K = &k
	s.Sheet.Thickness = x.t / u
	s.Tests = nil
	s.Base = p.Panels[p.Base].Name
	s.Panels = nil
	for _, q := range p.Panels {
		s.Panels = append(s.Panels, fold.PanelName{Name: q.Name, At: q.Label.Mul(1 / u)})
	}
	s.Bends = append([]fold.BendSpec(nil), s.Bends...)
	for i := range s.Bends {
		b, h := &p.Bends[i], &x.hinge[i]
		s.Bends[i].Angle = h.phiNow * 180 / math.Pi
		by := b.N.Mul((h.shift + (h.phiNow*h.rhoNow-b.Allowance)/2) / u)
		s.Bends[i].Line = [2]geom.Vec2{s.Bends[i].Line[0].Add(by), s.Bends[i].Line[1].Add(by)}
	}
	s.Outline = offset(p, x)
	return fold.Build(s)
}

// offset is the outline with its cut edges moved along their normals; corners go along the edges next to them.
func offset(p *fold.Part, x *poser) fold.Contour {
	u := p.Spec.Units.Scale()
	old := p.Spec.Outline
	n := len(old)
	by := make([]float64, n) // of the edge from corner i on
	out := make([]vec2, n)
	ccw := p.Outline.Area() > 0
	for i := range old {
		a, b := from2(old[i].At.Mul(u)), from2(old[(i+1)%n].At.Mul(u))
		d := b.sub(a).unit()
		out[i] = vec2{d.y, -d.x}
		if shoelace(old) < 0 == ccw {
			out[i] = vec2{-d.y, d.x}
		}
		for k, c := range x.c.cuts {
			mid := c.p.plus(c.q.sub(c.p), 0.5)
			if t := mid.sub(a).dot(d); out[i].dot(c.out) > 1-1e-9 && math.Abs(mid.sub(a).dot(out[i])) <= onLine && t > 0 && t < b.sub(a).dot(d) {
				by[i] = x.cut[k]
			}
		}
	}
	for range 8 { // what runs straight on goes along
		for i := range old {
			if j := (i + 1) % n; out[i].dot(out[j]) > 1-1e-9 && by[i] != by[j] {
				by[i] += by[j]
				by[j] = by[i]
			}
		}
	}
	var to fold.Contour
	for i, v := range old {
		j := (i + n - 1) % n
		q := from2(v.At.Mul(u))
		// The point off by by[j] across edge j and by[i] across edge i.
		den := out[j].cross(out[i])
		var m vec2
		if math.Abs(den) > 1e-6 {
			m = vec2{(by[j]*out[i].y - by[i]*out[j].y) / den, (out[j].x*by[i] - out[i].x*by[j]) / den}
		} else {
			m = vec2{}.plus(out[i], by[i])
		}
		q = q.plus(m, 1)
		to = append(to, fold.Vertex{At: geom.Vec2{q.x / u, q.y / u}, Through: v.Through})
	}
	return to
}

func shoelace(c fold.Contour) (sum float64) {
	for i, v := range c {
		sum += geom.Cross2(v.At, c[(i+1)%len(c)].At)
	}
	return sum
}

// TestTwin: at random errors every gap is that of the part built anew.
func TestTwin(t *testing.T) {
	r := newRand(t)
	seams, deep, parts := 0, 0, 0
	var list []*fold.Part
	for _, f := range partFiles(t) {
		list = append(list, filePart(t, f))
	}
	for range 400 {
		list = append(list, fold.Build(foldtest.RandomTray(r)))
	}
	for _, p := range list {
		if !p.Foldable || len(p.Bends) == 0 || !evenK(p) || springs(p) {
			continue
		}
		rep := p.Quick()
		if len(rep.Seams) == 0 {
			continue
		}
		p = fold.Build(withErrors(p.Spec, 3, 0.2, 0.05*p.Thickness, 0.02, 0.2))
		var all []fold.Seam
		for _, s := range seamsOf(&rep) {
			all = append(all, shortened(s, 0.25))
		}
		w := newWork(p, all, Options{})
		for n := range 4 * len(all) {
			i := n / 4
			m := w.seams[i]
			if m == nil {
				continue
			}
			// Other cuts would tilt the seam's edges in the twin, whose corners are the outline's.
			for k, c := range w.c.all {
				w.z[k] = foldtest.Uniform(r, -2, 2)
				if c.kind == byCut && (n%4 == 0 || arcs(p) || c.cut != m.side[0].cut && c.cut != m.side[1].cut) {
					w.z[k] = 0
				}
			}
			w.x.set(w.z)
			q := twin(p, w.x)
			if !q.Foldable || len(q.Panels) != len(p.Panels) || len(q.Troubles) != len(p.Troubles) {
				continue // a moved corner left a bend's end without an edge
			}
			s := all[i]
			s.A, s.B = panelNamed(q, p.Panels[s.A].Name), panelNamed(q, p.Panels[s.B].Name)
			if s.A < 0 || s.B < 0 || len(q.Panels[s.A].Pieces) != len(m.side[0].pieces) || len(q.Panels[s.B].Pieces) != len(m.side[1].pieces) {
				continue
			}
			ps := q.Pose(q.Finished())
			parts++
			for k, e := range []*[2]geom.Vec2{&s.EdgeA, &s.EdgeB} {
				c := &w.c.cuts[m.side[k].cut]
				for j := range e {
					e[j] = e[j].Add(geom.Vec2{c.out.x, c.out.y}.Mul(w.x.cut[m.side[k].cut]))
				}
			}
			g := m.measure(w.x)
			want, ok := ps.MeasureSeam(s)
			if !ok || want.Max > 8 { // far apart, the nearest corners are some that tangent lines or other edges moved
				continue
			}
			from, to := g.at[0], g.at[len(stations)-1]
			if math.Abs(from-want.AtStart)+math.Abs(to-want.AtEnd) > math.Abs(to-want.AtStart)+math.Abs(from-want.AtEnd) {
				from, to = to, from // a level seam may run the other way once it leans
			}
			seams++
			if want.Min < 0 {
				deep++
			}
			for _, c := range []struct {
				what      string
				got, want float64
			}{{"start", from, want.AtStart}, {"end", to, want.AtEnd}, {"least", g.least, want.Min}, {"widest", g.widest, want.Max}} {
				tol := 3e-6
				if c.want < 0 && len(m.side[0].pieces)+len(m.side[1].pieces) > 2 {
					tol = 0.01 // pieces that a tangent line cuts otherwise are not as deep in each other
				}
				if !(math.Abs(c.got-c.want) <= tol) {
					t.Errorf("%s, seam %s, %s: %.9g, the twin says %.9g (%+v %+v)", p.Spec.Name, s.Name, c.what, c.got, c.want, g, [...]float64{want.AtStart, want.AtEnd, want.Min, want.Max})
				}
			}
		}
	}
	t.Log(parts, seams, deep)
	require.Greater(t, seams, 150)
	require.Greater(t, deep, 15)
}

// evenK: all bends have one K, so that the twin can be given it.
func evenK(p *fold.Part) bool {
	for i := range p.Bends {
		if p.Bends[i].K != p.Bends[0].K {
			return false
		}
	}
	return true
}

// arcs: the outline is rounded somewhere, so that moved edges would make other arcs in the twin.
func arcs(p *fold.Part) bool {
	for _, v := range p.Spec.Outline {
		if v.Through != nil {
			return true
		}
	}
	return false
}

func springs(p *fold.Part) bool {
	for i := range p.Bends {
		if p.Bends[i].Set != p.Bends[i].Angle {
			return true
		}
	}
	return false
}

// shortened takes a part of a seam off at both ends, so that no tangent line comes to lie on it.
func shortened(s fold.Seam, by float64) fold.Seam {
	for _, e := range []*[2]geom.Vec2{&s.EdgeA, &s.EdgeB} {
		d := e[1].Sub(e[0]).Mul(by)
		e[0], e[1] = e[0].Add(d), e[1].Sub(d)
	}
	return s
}

func panelNamed(p *fold.Part, name string) int {
	for i := range p.Panels {
		if p.Panels[i].Name == name {
			return i
		}
	}
	return -1
}
