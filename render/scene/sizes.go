package scene

import (
	"math"

	"dryfold/fold/geom"
	"dryfold/fold/shape"
)

// This file puts the sizes of a part made by sizes in space, on the finished part,
// and follows a finger that drags one; sizelines.go draws them.

// SizeMark is a size to be drawn on the finished part: a dimension line between two of its
// points, or the arc of an angle.
type SizeMark struct {
	shape.Mark
	Label string      // its name and figure, "Wide 240"
	From  float64     // of an arc: it is drawn from there on, radians from A, as a lean is from the upright
	Lit   bool        // in the accent's colour: its field has the focus
	Grip  bool        // with a handle to be dragged, at Hold
	Hold  *shape.Spot // nil: at B
	Held  bool        // in hand: of its group it is drawn, wherever it is seen
	Group int         // of several with the same number over 0 only the one that is seen best is drawn
}

// sizeLine is a SizeMark in bench coordinates.
type sizeLine struct {
	a, b, pivot geom.Vec3
	hold        geom.Vec3 // the handle
	arc         bool
	mark        int // index in Picture.Sizes
}

// spot places a spot of a mark in the scene; false where its panel is none of the part's.
func (s *Scene) spot(q shape.Spot) (geom.Vec3, bool) {
	for i := range s.Picture.Part.Panels {
		if s.Picture.Part.Panels[i].Name == q.Panel && i < len(s.Pose.Panels) {
			return s.Pose.PanelPoint(i, geom.Vec2{q.X, q.Y}, q.Z), true
		}
	}
	return geom.Vec3{}, false
}

// sizes places the picture's sizes. They are the finished part's: of one that is on its
// way nothing is drawn.
func (s *Scene) sizes() {
	if len(s.Picture.Sizes) == 0 || !s.finished() {
		return
	}
	for i := range s.Picture.Sizes {
		m := &s.Picture.Sizes[i]
		l := sizeLine{arc: m.Arc, mark: i}
		var ok [3]bool
		l.a, ok[0] = s.spot(m.A)
		l.b, ok[1] = s.spot(m.B)
		l.pivot, ok[2] = l.a, true
		if m.Arc {
			l.pivot, ok[2] = s.spot(m.Pivot)
		}
		if ok != [3]bool{true, true, true} {
			continue
		}
		l.hold = l.b
		if m.Hold != nil {
			if h, ok := s.spot(*m.Hold); ok {
				l.hold = h
			}
		}
		for _, q := range [3]geom.Vec3{l.a, l.b, l.pivot} {
			s.Reach.Add(q)
		}
		s.sizeLines = append(s.sizeLines, l)
	}
}

// arms are the unit directions of an arc's two ends and their distances from its pivot;
// false where one of them is nothing.
func (l *sizeLine) arms() (u, v geom.Vec3, ra, rb float64, ok bool) {
	u, v = l.a.Sub(l.pivot), l.b.Sub(l.pivot)
	ra, rb = u.Len(), v.Len()
	if ra < leastArm || rb < leastArm {
		return u, v, ra, rb, false
	}
	return u.Mul(1 / ra), v.Mul(1 / rb), ra, rb, true
}

// turn is a unit direction turned from u towards v by an angle, in their plane; where they
// lie on one line the plane is any.
func turn(u, v geom.Vec3, a float64) geom.Vec3 {
	w := v.Sub(u.Mul(u.Dot(v)))
	if w.Len() < 1e-9 {
		w = u.Cross(geom.Vec3{0, 0, 1})
		if w.Len() < 1e-9 {
			w = u.Cross(geom.Vec3{1, 0, 0})
		}
	}
	sin, cos := math.Sincos(a)
	return u.Mul(cos).Add(w.Normalize().Mul(sin))
}

// SizeDrag follows a finger that drags a size by its handle. It keeps the camera and the size's line as they were when
// the drag began: the part grows under the hand, and measured on that each move would count again what the one before it did.
type SizeDrag struct {
	Path   string // its mark's
	nth    int    // of the marks with this path
	camera Camera
	line   sizeLine
	off    float64 // how far the finger came down from the handle, along the size: mm or radians
	was    float64 // the size when the drag began: mm or radians
	last   float64 // where the finger was last: mm or radians
	most   float64 // the size comes to no more: mm or radians
}

// StartSize begins a drag at a hit whose Mark is not -1, the finger at x, y (px).
func (s *Scene) StartSize(c *Camera, h Hit, x, y float64) (SizeDrag, bool) {
	for i := range s.sizeLines {
		if l := s.sizeLines[i]; l.mark == h.Mark {
			d := SizeDrag{Path: s.Picture.Sizes[l.mark].Path, camera: *c, line: l, was: l.size(), last: l.size(), most: 2 * math.Pi}
			if !l.arc {
				d.most = max(dragMost*s.partSize(), d.was)
			}
			for k := range i {
				if s.Picture.Sizes[s.sizeLines[k].mark].Path == d.Path {
					d.nth++
				}
			}
			at, ok := d.at(x, y)
			d.off, d.last = at-d.was, at
			return d, ok && (!l.arc || d.was > leastTurn)
		}
	}
	return SizeDrag{}, false
}

// size is what a line measures: mm, or radians of an arc.
func (l *sizeLine) size() float64 {
	if !l.arc {
		return l.b.Sub(l.a).Len()
	}
	u, v, _, _, ok := l.arms()
	if !ok {
		return 0
	}
	return math.Atan2(u.Cross(v).Len(), u.Dot(v))
}

// at is the size at which the handle would be nearest to the finger; false where the finger says nothing: the size is seen end on,
// or what lies there is behind the eye.
func (d *SizeDrag) at(x, y float64) (float64, bool) {
	eye, dir := d.camera.Ray(x, y)
	if d.line.arc {
		u, v, _, rb, ok := d.line.arms()
		n := u.Cross(v)
		if !ok || n.Len() < 1e-9 {
			return 0, false
		}
		n = n.Normalize()
		down := dir.Dot(n)
		if abs(down) < .05 { // seen on its edge
			return 0, false
		}
		t := d.line.pivot.Sub(eye).Dot(n) / down
		q := eye.Add(dir.Mul(t)).Sub(d.line.pivot)
		if t <= 0 || q.Len() < dragPivot*rb { // about its own pivot a finger has no direction
			return 0, false
		}
		// Of the angles that are one direction the nearest to the last: past the half turn, and back.
		a := math.Atan2(q.Dot(n.Cross(u)), q.Dot(u))
		return d.last + math.Remainder(a-d.last, 2*math.Pi), true
	}
	// The place on the size's line through the handle that comes nearest to the line of sight.
	ab := d.line.b.Sub(d.line.a)
	u := ab.Normalize()
	w := d.line.hold.Sub(eye)
	k := u.Dot(dir)
	if 1-k*k < .003 { // end on
		return 0, false
	}
	along := (k*w.Dot(dir) - w.Dot(u)) / (1 - k*k)
	if w.Dot(dir)+along*k <= 0 { // past where the line vanishes
		return 0, false
	}
	return ab.Len() + along, true
}

// SizeAt is the change of the size since the drag began, in mm or radians, that brings the
// handle to the finger at x, y (px), its size at most dragMost parts' sizes or a full turn and at least nothing; false where the finger says nothing.
func (d *SizeDrag) SizeAt(x, y float64) (float64, bool) {
	at, ok := d.at(x, y)
	if !ok {
		return 0, false
	}
	d.last = at
	return min(max(at-d.off, 0), d.most) - d.was, true
}

// Follow moves a camera so that the size's foot in a scene of the part as it has become is seen where it stood when the drag began: a blank that
// has grown lies elsewhere on the bench, and the part with it.
func (d *SizeDrag) Follow(s *Scene, c *Camera) {
	nth := d.nth
	for i := range s.sizeLines {
		if l := &s.sizeLines[i]; s.Picture.Sizes[l.mark].Path == d.Path {
			if nth == 0 {
				c.Target = d.camera.Target.Add(l.pivot.Sub(d.line.pivot))
				return
			}
			nth--
		}
	}
}
