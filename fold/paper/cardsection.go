package paper

// This file has the drawings on a job card: the part cut across the bend, before and after, as it lies in the brake; how the bend
// angle is counted; the clear gap of a fold.

import (
	"math"

	"dryfold/fold"
	"dryfold/fold/draft"
	"dryfold/fold/geom"
)

// sections draw the part cut across a swing's first bend, before it and after, or with the bend at an angle on the way (degrees;
// 0 for the end). What the leaf swings always turns upwards, so a part that is turned over is drawn so.
func (d *deck) sections(swing int, deg float64) [2]picture {
	p := d.part
	bend := p.Swings[swing].Bends[0]
	after := p.StateAt(swing+1, 0)
	if deg > 0 {
		after = p.StateAt(swing, 0)
		after[bend] = geom.Degrees(deg)
	}
	return d.cuts(bend, p.StateAt(swing, 0), after, !p.Bends[bend].Up, math.Inf(1))
}

// joggleReach: of a joggle so much is drawn, in thicknesses from its first bend.
const joggleReach = 20

// joggleSections draw a joggle that the swings from one to another make, near by.
func (d *deck) joggleSections(g fold.Joggle, from, to int) [2]picture {
	p := d.part
	return d.cuts(g.Bends[0], p.StateAt(from, 0), p.StateAt(to, 0), false, joggleReach*p.Thickness)
}

// cuts draw the part cut across a bend in two states, as far from the bend as most (mm), at one scale.
func (d *deck) cuts(bend int, before, after fold.State, over bool, most float64) [2]picture {
	var runs [2][]fold.Run // cut when the first is drawn
	one := func(i int) func(*draft.Page, geom.Box2) {
		return func(s *draft.Page, box geom.Box2) {
			if runs[0] == nil {
				runs = [2][]fold.Run{d.part.Section(before, bend), d.part.Section(after, bend)}
			}
			d.drawSection(s, box, runs[i], runs[1-i], over, most)
		}
	}
	return [2]picture{{"before", one(0)}, {"after", one(1)}}
}

// How a section is fitted: so much of what is held is shown, in reaches of what swings, and its scale goes no higher.
const (
	heldReach  = 1.3
	mostScale  = 6
	trueMetal  = 0.9 // the metal is drawn as thick as it is where that is so much on paper (mm), else as a line
	sectionRim = 1.5 // white round the drawing, mm on paper
)

// drawSection draws a section into a box, at the scale in which it and the other of a pair fit.
func (d *deck) drawSection(s *draft.Page, box geom.Box2, runs, other []fold.Run, over bool, most float64) {
	turned := func(q geom.Vec2) geom.Vec2 {
		if over {
			q[1] = -q[1]
		}
		return q
	}
	reach, all := 0.0, geom.EmptyBox2()
	for _, rs := range [][]fold.Run{runs, other} {
		for _, r := range rs {
			for _, q := range r.Points {
				all.Add(turned(q))
				if r.Now {
					reach = max(reach, q.Len())
				}
			}
		}
	}
	if reach = min(reach, most); reach == 0 || len(runs) == 0 {
		return
	}
	// Far off the bend the section says nothing: it runs out of the box.
	window := geom.Box2{Min: geom.Vec2{-heldReach * reach, -heldReach * reach}, Max: geom.Vec2{heldReach * reach, heldReach * reach}}
	for k := range 2 {
		all.Min[k], all.Max[k] = max(all.Min[k], window.Min[k]), min(all.Max[k], window.Max[k])
	}
	thick := d.part.Thickness
	size, room := all.Size(), box.Size()
	scale := min((room[0]-2*sectionRim)/(size[0]+thick), (room[1]-2*sectionRim)/(size[1]+thick), mostScale)
	t := thick * scale
	mid, c := all.Min.Add(all.Max).Mul(0.5), box.Min.Add(box.Max).Mul(0.5)
	to := func(q geom.Vec2) geom.Vec2 {
		q = turned(q).Sub(mid).Mul(scale)
		return geom.Vec2{c[0] + q[0], c[1] - q[1]}
	}
	s.Window("section", box)
	for pass := range 2 { // what moves lies over the rest
		for _, r := range runs {
			if r.Now != (pass == 1) || len(r.Points) < 2 {
				continue
			}
			pts, seen := make([]geom.Vec2, len(r.Points)), geom.EmptyBox2()
			for i, q := range r.Points {
				pts[i] = to(q)
				seen.Add(pts[i])
			}
			if seen.Max[0] < box.Min[0]-t || seen.Min[0] > box.Max[0]+t || seen.Max[1] < box.Min[1]-t || seen.Min[1] > box.Max[1]+t {
				continue
			}
			switch {
			case t >= trueMetal && r.Now:
				s.Path("moving", thickened(pts, t))
			case t >= trueMetal:
				s.Path("strip", thickened(pts, t))
			case r.Now:
				s.Path("moved", draft.Path{}.M(pts[0]).L(pts[1:]...))
			default:
				s.Path("held", draft.Path{}.M(pts[0]).L(pts[1:]...))
			}
		}
	}
	s.End()
}

// thickened is the outline of a polyline that is t thick.
func thickened(pts []geom.Vec2, t float64) draft.Path {
	n := len(pts)
	var left, right []geom.Vec2
	for i, q := range pts {
		a, b := pts[max(i-1, 0)], pts[min(i+1, n-1)]
		off := geom.Perp(b.Sub(a))
		if l := off.Len(); l > 0 {
			off = off.Mul(t / 2 / l)
		}
		left, right = append(left, q.Add(off)), append(right, q.Sub(off))
	}
	for i := n - 1; i >= 0; i-- {
		left = append(left, right[i])
	}
	return draft.Polygon(left...)
}

// anglePicture shows which angle is meant: from flat, dashed, to the swung leg.
func anglePicture(s *draft.Page, box geom.Box2, bend float64) {
	size := box.Size()
	r := min(size[0]/2, size[1]) - 1.5
	sin, cos := math.Sincos(bend * math.Pi / 180)
	p := geom.Vec2{(box.Min[0] + box.Max[0]) / 2, box.Max[1] - 1.5}
	if bend > 180 {
		p[1] += r * sin
	}
	end := p.Add(geom.Vec2{r * cos, -r * sin})
	s.Line("tangent", p, p.Add(geom.Vec2{r, 0}))
	s.Path("outline", draft.Path{}.M(p.Sub(geom.Vec2{r, 0})).L(p, end))
	if bend > 0.5 {
		const arm = 0.6
		s.Path("dimline", draft.Path{}.M(p.Add(geom.Vec2{r * arm, 0})).A(r*arm, bend > 180, false, p.Add(geom.Vec2{r * arm * cos, -r * arm * sin})))
	}
}

// gapPicture draws a closed fold, enlarged, with its clear gap.
func (d *deck) gapPicture(swing int, c fold.Closing) func(*draft.Page, geom.Box2) {
	return func(s *draft.Page, box geom.Box2) {
		p := d.part
		b := &p.Bends[p.Swings[swing].Bends[0]]
		a := float64(p.Swings[swing].To[0])
		reach := 0.0
		for _, q := range p.Panels[b.B].Region.Outer {
			_, x := b.Coord(q)
			reach = max(reach, x-b.Allowance)
		}
		t, r := p.Thickness, b.Radius
		reach = min(reach, 12*(t+r))
		sin, cos := math.Sincos(a)
		// The middle of the sheet: along the held panel to the bend, round it, back along what is folded. y is up, from the held panel.
		m := r + t/2
		pts := []geom.Vec2{{-reach * 1.15, 0}, {0, 0}}
		const steps = 24
		for k := 1; k <= steps; k++ {
			sk, ck := math.Sincos(a * float64(k) / steps)
			pts = append(pts, geom.Vec2{m * sk, m - m*ck})
		}
		last := pts[len(pts)-1]
		pts = append(pts, last.Add(geom.Vec2{cos, sin}.Mul(reach)))
		all := geom.EmptyBox2()
		for _, q := range pts {
			all.Add(q)
		}
		size, room := all.Size(), box.Size()
		const words = 17.0 // room for the gap's figure at the left
		scale := min((room[0]-2*sectionRim-words)/(size[0]+t), (room[1]-2*sectionRim)/(size[1]+t), 2*mostScale)
		mid := all.Min.Add(all.Max).Mul(0.5)
		o := geom.Vec2{(box.Min[0] + box.Max[0] + words) / 2, (box.Min[1] + box.Max[1]) / 2}
		to := func(q geom.Vec2) geom.Vec2 {
			q = q.Sub(mid).Mul(scale)
			return geom.Vec2{o[0] + q[0], o[1] - q[1]}
		}
		var held, moved []geom.Vec2
		for i, q := range pts {
			if i < 2 {
				held = append(held, to(q))
			}
			if i > 0 {
				moved = append(moved, to(q))
			}
		}
		s.Path("strip", thickened(held, t*scale))
		s.Path("moving", thickened(moved, t*scale))
		// The gap is dimensioned at the free edge, where it can be measured.
		y0, y1 := to(geom.Vec2{0, t / 2}), to(geom.Vec2{0, t/2 + max(0, c.End)})
		x := to(pts[len(pts)-1])[0] - 3
		for _, y := range []float64{y0[1], y1[1]} {
			s.Line("extension", geom.Vec2{x - 1, y}, geom.Vec2{x + 4, y})
		}
		s.Path("dimline", draft.Path{}.M(geom.Vec2{x, y1[1] - 3.5}).L(geom.Vec2{x, y0[1] + 3.5}))
		for _, e := range []struct{ y, way float64 }{{y1[1], -1}, {y0[1], 1}} {
			s.Path("dot", draft.Polygon(geom.Vec2{x, e.y}, geom.Vec2{x - 0.55, e.y + 2*e.way}, geom.Vec2{x + 0.55, e.y + 2*e.way}))
		}
		words2 := d.say2(max(0, c.End))
		s.Text("dimb", draft.End, geom.Vec2{x - 1.5, (y0[1]+y1[1])/2 + 1}, words2)
	}
}
