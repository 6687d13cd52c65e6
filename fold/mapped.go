package fold

import (
	"slices"

	"dryfold/fold/geom"
)

// Mapped is the part with every point of its blank carried by f, in the file's units: outline, cutouts, holes, bend lines, and
// the points that name panels and seams. What was measured or scribed on the blank stays as it is. Slices are its own.
func (s Spec) Mapped(f func(geom.Vec2) geom.Vec2) Spec {
	contour := func(c Contour) Contour {
		out := make(Contour, len(c))
		for i, v := range c {
			out[i].At = f(v.At)
			if v.Through != nil {
				t := f(*v.Through)
				out[i].Through = &t
			}
		}
		return out
	}
	s.Outline = contour(s.Outline)
	s.Cutouts = slices.Clone(s.Cutouts)
	for i, c := range s.Cutouts {
		s.Cutouts[i] = contour(c)
	}
	s.Holes = slices.Clone(s.Holes)
	for i := range s.Holes {
		s.Holes[i].At = f(s.Holes[i].At)
	}
	s.Bends = slices.Clone(s.Bends)
	for i := range s.Bends {
		s.Bends[i].Line = [2]geom.Vec2{f(s.Bends[i].Line[0]), f(s.Bends[i].Line[1])}
	}
	s.Panels = slices.Clone(s.Panels)
	for i := range s.Panels {
		s.Panels[i].At = f(s.Panels[i].At)
	}
	s.Seams = slices.Clone(s.Seams)
	for i := range s.Seams {
		s.Seams[i].A, s.Seams[i].B = f(s.Seams[i].A), f(s.Seams[i].B)
	}
	return s
}
