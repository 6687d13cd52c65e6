package shape

import (
	"math"

	"dryfold/fold"
	"dryfold/fold/geom"
)

// Round gives the part with every coordinate rounded to a multiple of step (in the
// part's units), so that its file and link stay short. Sizes, radii and angles
// stay as they are. An edge moves by at most 0.71 step.
func Round(s fold.Spec, step float64) fold.Spec {
	per := math.Round(1 / step) // dividing by a whole number keeps the decimals short
	return mapPoints(s, func(q geom.Vec2) geom.Vec2 {
		for i, x := range q {
			q[i] = math.Round(x*per)/per + 0 // no minus zero
		}
		return q
	})
}

// mapPoints gives the part with every point of the blank moved by f.
func mapPoints(s fold.Spec, f func(geom.Vec2) geom.Vec2) fold.Spec {
	contour := func(c fold.Contour) fold.Contour {
		out := make(fold.Contour, len(c))
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
	cutouts := s.Cutouts
	s.Cutouts = nil
	for _, c := range cutouts {
		s.Cutouts = append(s.Cutouts, contour(c))
	}
	s.Holes = append([]fold.Hole(nil), s.Holes...)
	for i := range s.Holes {
		s.Holes[i].At = f(s.Holes[i].At)
	}
	s.Bends = append([]fold.BendSpec(nil), s.Bends...)
	for i := range s.Bends {
		for k := range s.Bends[i].Line {
			s.Bends[i].Line[k] = f(s.Bends[i].Line[k])
		}
	}
	s.Panels = append([]fold.PanelName(nil), s.Panels...)
	for i := range s.Panels {
		s.Panels[i].At = f(s.Panels[i].At)
	}
	s.Seams = append([]fold.SeamSpec(nil), s.Seams...)
	for i := range s.Seams {
		s.Seams[i].A, s.Seams[i].B = f(s.Seams[i].A), f(s.Seams[i].B)
	}
	return s
}
