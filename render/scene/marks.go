package scene

import (
	"fmt"
	"math"

	"dryfold/fold"
	"dryfold/fold/geom"
)

// This file draws what is said about the part: names, feeler ticks, overall sizes.

// BodyName is a solid's name as the reports give it: "panel left", "bend left".
func BodyName(p *fold.Part, b fold.Body) string {
	switch {
	case b.Zone && b.Index >= 0 && b.Index < len(p.Bends):
		return "bend " + p.Bends[b.Index].Name
	case !b.Zone && b.Index >= 0 && b.Index < len(p.Panels):
		return "panel " + p.Panels[b.Index].Name
	}
	return ""
}

// litNames names what is selected where it stands.
func (s *Scene) litNames() {
	p, sel := s.Picture.Part, s.Picture.Select
	i := sel.Index
	put := func(at geom.Vec3, text string) {
		s.Labels = append(s.Labels, Label{At: at, Text: text, Style: StyleName})
	}
	switch {
	case i < 0:
	case sel.Kind == Panel && i < len(p.Panels):
		put(s.Pose.PanelPoint(i, p.Panels[i].Label, p.Thickness), p.Panels[i].Name)
	case sel.Kind == Bend && i < len(p.Bends):
		l := p.Bends[i].Line
		put(s.Pose.ZonePoint(i, l[0].Add(l[1]).Mul(.5), p.Thickness), p.Bends[i].Name)
	case sel.Kind == Hole && i < len(s.Mesher.blank.holes):
		h := s.Mesher.blank.holes[i]
		if b := s.Mesher.blank.in[i]; b.Index >= 0 {
			put(s.bodyPoint(b, h.At, p.Thickness), fmt.Sprintf("hole %d, %s across", i+1, s.Picture.length(h.Diameter)))
		}
	}
}

// bodyAt is the solid that holds a blank point; a point in a hole counts to the solid round it.
func (m *Mesher) bodyAt(p geom.Vec2) (fold.Body, bool) {
	for i := range m.part.Panels {
		if m.part.Panels[i].Region.Outer.Contains(p) {
			return fold.Body{Index: i}, true
		}
	}
	for i := range m.part.Bends {
		for _, r := range m.part.Bends[i].Zone {
			if r.Outer.Contains(p) {
				return fold.Body{Zone: true, Index: i}, true
			}
		}
	}
	return fold.Body{Index: -1}, false
}

// finished reports whether the picture shows the finished part, to which alone the
// report's ticks belong.
func (s *Scene) finished() bool {
	for i, a := range s.Picture.Part.Finished() {
		if math.Abs(float64(a-s.Pose.State[i])) > 1e-9 {
			return false
		}
	}
	return true
}

// feelers draws short ticks across each seam, as long as the gap times TickScale,
// and the gap in figures at both ends and at the widest place.
func (s *Scene) feelers() {
	r, sel := s.Picture.Report, s.Picture.Select
	if r == nil || !s.Picture.Ticks && sel.Kind != Seam || !s.finished() {
		return
	}
	for i := range r.Seams {
		if lit := sel.Kind == Seam && sel.Index == i; lit || s.Picture.Ticks {
			s.feeler(i+1, &r.Seams[i], lit)
		}
	}
}

// gapStyle is the state of one tick of a seam: within what the joint allows or not, also with what hand and machine may be out by.
func gapStyle(r *fold.SeamReport, tick int) Style {
	bad := StyleWatch
	if r.State == "stop" {
		bad = StyleStop
	}
	gap := r.Ticks[tick].Gap
	switch {
	case r.State == "ok" || r.State == "" || r.Open:
		return StyleGap
	case r.Limit != nil && overLimit(r, -1): // some gap passes the limit: those are shown
		if overLimit(r, tick) {
			return bad
		}
		return StyleGap
	case r.Wanted != nil && math.Abs(gap-*r.Wanted) <= .05: // what is shown as the wanted figure
		return StyleGap
	}
	return bad
}

// overLimit reports whether the gap at a tick, or what 95 of 100 parts open to there, passes the joint's limit, or is
// less than nothing; tick -1 asks for any.
func overLimit(r *fold.SeamReport, tick int) bool {
	if tick < 0 {
		for i := range r.Ticks {
			if overLimit(r, i) {
				return true
			}
		}
		return false
	}
	gap := r.Ticks[tick].Gap
	return gap < -fold.ClashDepth || max(gap, highAt(r, tick)) > *r.Limit
}

// highAt is what 95 of 100 parts open to at a tick, straight between the places where it is known; the exact gap where it is not.
func highAt(r *fold.SeamReport, tick int) float64 {
	if r.Spread == nil || len(r.Spread.Along) == 0 {
		return r.Ticks[tick].Gap
	}
	along := r.Spread.Along
	at := r.Length * float64(tick) / float64(max(len(r.Ticks)-1, 1))
	for i, b := range along {
		switch {
		case b.At < at:
		case i == 0 || b.At == at:
			return b.High
		default:
			a := along[i-1]
			return a.High + (b.High-a.High)*(at-a.At)/(b.At-a.At)
		}
	}
	return along[len(along)-1].High
}

// InkOf is the colour of a style's lines and words.
func (pl *Palette) InkOf(s Style) Colour {
	switch s {
	case StyleWatch:
		return pl.Watch
	case StyleStop:
		return pl.Stop
	case StyleName:
		return pl.Accent
	}
	return pl.Mark
}

// TickScaleOf is how many times as long the ticks of a seam are drawn: the picture's
// scale, or 1 where that would make them longer than a seventh of the part, as on an
// open side. The gap can be seen there without help.
func (s *Scene) TickScaleOf(r *fold.SeamReport) float64 {
	size := s.partSize()
	if f := s.Picture.Report; f != nil && f.Finished.Box() != [3]float64{} {
		size = geom.Vec3(f.Finished.Box()).Len()
	}
	return TickScale(s.Picture.TickScale, r, size)
}

// TickScale is TickScaleOf for a part of a size: the diagonal of the finished box
// in mm. A scale of 0 takes DefaultTickScale.
func TickScale(scale float64, r *fold.SeamReport, size float64) float64 {
	if scale <= 0 {
		scale = DefaultTickScale
	}
	for _, t := range r.Ticks {
		if abs(t.Gap)*scale > size/7 {
			return 1
		}
	}
	return scale
}

func (s *Scene) feeler(number int, r *fold.SeamReport, lit bool) {
	pal := s.Picture.Colours()
	k := s.TickScaleOf(r)
	n := len(r.Ticks)
	if n == 0 {
		return
	}
	up := geom.Vec3{0, 0, s.Lift}
	middle := func(i int) geom.Vec3 { return r.Ticks[i].A.Add(r.Ticks[i].B).Mul(.5).Add(up) }
	widest, dir := 0, geom.Vec3{}
	for i, t := range r.Ticks {
		if t.Gap > r.Ticks[widest].Gap {
			widest = i
		}
		if d := t.B.Sub(t.A); d.Len() > dir.Len() {
			dir = d
		}
	}
	along := middle(n - 1).Sub(middle(0))
	if lit && n > 1 { // its whole line, under its ticks and over what hides it
		s.Lines = append(s.Lines, Line{A: middle(0), B: middle(n - 1), Width: seamLit, C: pal.Accent.Alpha(.6), Over: true})
	}
	for i, t := range r.Ticks {
		d := t.B.Sub(t.A)
		if d.Len() < 1e-6 { // closed here: the seam's own direction across
			d = dir
		}
		if d.Len() < 1e-6 {
			d = along.Cross(geom.Vec3{0, 0, 1})
			if d.Len() < 1e-6 {
				d = geom.Vec3{1, 0, 0}
			}
		}
		h := d.Normalize().Mul(max(abs(t.Gap), .05) * k / 2)
		m := middle(i)
		c, w := pal.InkOf(gapStyle(r, i)), float32(1.5)
		if gapStyle(r, i) != StyleGap {
			w = 2.2
		}
		if lit {
			w += 1.3
		}
		s.Lines = append(s.Lines,
			Line{A: m.Sub(h), B: m.Add(h), Width: w, C: c.Alpha(.28), Over: true, Seam: number, Tick: i}, // what a wall hides shows through, faint
			Line{A: m.Sub(h), B: m.Add(h), Width: w, C: c, Lift: biasPx + 2.5, Halo: 1.2, Seam: number, Tick: i})
	}
	figure := func(i int, away geom.Vec3) {
		l := Label{At: middle(i), Text: s.Picture.length(r.Ticks[i].Gap), Style: gapStyle(r, i), Away: away, Figure: true, First: lit}
		if high := highAt(r, i); lit && !r.Open && r.Limit != nil && high > *r.Limit && high > r.Ticks[i].Gap {
			l.Text += " → " + s.Picture.length(high)
		}
		s.Labels = append(s.Labels, l)
	}
	if along.Len() > 1e-9 {
		along = along.Normalize()
	}
	figure(0, along.Mul(-1))
	even := r.Open && !lit && r.GapMax-r.GapMin < .05 // an edge left open needs saying once
	if n > 1 && !even {
		figure(n-1, along)
	}
	if t := r.Ticks; !even && widest > 0 && widest < n-1 && t[widest].Gap > max(t[0].Gap, t[n-1].Gap)+.05 {
		side := along.Cross(geom.Vec3{0, 0, 1})
		figure(widest, side)
	}
}

// dims keeps the overall box. The finished part's sizes are the report's, which
// takes the rounds exactly; else the mesh's.
func (s *Scene) dims() {
	if !s.Picture.Dims || len(s.Verts) == 0 {
		return
	}
	size := s.Box.Size()
	if r := s.Picture.Report; r != nil && s.finished() {
		size = geom.Vec3{r.Finished.Box()[0], r.Finished.Box()[1], r.Finished.Box()[2]}
	}
	d := &DimBox{Box: s.Box}
	for i := range d.Text {
		d.Text[i] = s.Picture.length(size[i])
	}
	s.Dims = d
}
