package scene

import (
	"math"

	"dryfold/fold/geom"
)

// Drag follows a finger that swings a panel about its bend.
type Drag struct {
	Bend int
	grip geom.Vec3 // the place under the finger when the drag began, in the swinging panel's own frame
}

// StartDrag begins a drag at a hit whose Swings is not -1.
func (s *Scene) StartDrag(h Hit) Drag {
	d := Drag{Bend: h.Swings}
	if p := s.Picture.Part; p != nil && d.Bend >= 0 && d.Bend < len(p.Bends) {
		d.grip = s.Pose.Panels[p.Bends[d.Bend].B].LocalPoint(h.Point)
	}
	return d
}

// AngleAt is the bend angle that brings the gripped point nearest to the finger at
// x, y (px), of those from 0 to most that can be reached from the angle now without
// a jump.
func (s *Scene) AngleAt(c *Camera, d Drag, now geom.Angle, most geom.Angle, x, y float64) geom.Angle {
	p := s.Picture.Part
	if p == nil || d.Bend < 0 || d.Bend >= len(p.Bends) || len(s.Pose.Panels) == 0 {
		return now
	}
	b := &p.Bends[d.Bend]
	f := s.Pose.Panels[b.A]
	v := newViewer(c)
	off := func(a float64) float64 { // squared distance of the grip from the finger, px
		px, py, depth := v.project(f.Point(b.Hinge(geom.Angle(a), p.Thickness).Point(d.grip)))
		if depth <= 0 {
			return math.Inf(1)
		}
		return (px-x)*(px-x) + (py-y)*(py-y)
	}
	// Go downhill from the present angle in steps of 2 degrees, so that of two
	// places that look alike the near one is kept; then halve to 0.02 degrees.
	a := float64(now)
	best := off(a)
	for step := 2 * math.Pi / 180; step > .02*math.Pi/180; {
		moved := false
		for _, t := range [2]float64{min(a+step, float64(most)), max(a-step, 0)} {
			if o := off(t); o < best-1e-9 {
				a, best, moved = t, o, true
				break
			}
		}
		if !moved {
			step /= 2
		}
	}
	return geom.Angle(a)
}
