package partfile

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strconv"

	"dryfold/fold"
	"dryfold/fold/geom"
)

// randomSpec is a spec within every bound of Check, in normal form; its geometry
// need make no sense as a part.
func randomSpec(r *rand.Rand) fold.Spec {
	s := fold.Spec{Name: randomName(r), Units: fold.Units(r.IntN(2))}
	if r.IntN(2) == 0 {
		s.Notes = randomName(r) + "\n\t\"" + randomName(r) + "\"\r\n"
	}
	s.Sheet.Thickness = size(r, s.Units)
	s.Sheet.Metal = maybeName(r)
	s.Sheet.K = maybeNumber(r, r.Float64()*fold.MaxK)
	s.Sheet.Grain = maybeNumber(r, r.Float64()*720-360)
	s.Sheet.Good = []string{"", "up", "down"}[r.IntN(3)]
	s.Outline = randomContour(r, s.Units)
	for range r.IntN(4) {
		s.Cutouts = append(s.Cutouts, randomContour(r, s.Units))
	}
	for range r.IntN(6) {
		s.Holes = append(s.Holes, fold.Hole{At: place(r, s.Units), Diameter: size(r, s.Units)})
	}
	for i := range r.IntN(8) {
		b := fold.BendSpec{Line: [2]geom.Vec2{place(r, s.Units), place(r, s.Units)},
			Angle: round(r, 240*(1-r.Float64())), Radius: size(r, s.Units), Up: r.IntN(2) == 0}
		if b.Angle == 0 {
			b.Angle = 90
		}
		if r.IntN(3) > 0 {
			b.Name = strconv.Itoa(i) + string(rune('a'+i)) + suffix(r)
		}
		s.Bends = append(s.Bends, b)
	}
	for i := range r.IntN(5) {
		s.Panels = append(s.Panels, fold.PanelName{Name: strconv.Itoa(i) + suffix(r), At: place(r, s.Units)})
	}
	switch n := len(s.Panels); {
	case n > 0 && r.IntN(2) == 0:
		s.Base = s.Panels[r.IntN(n)].Name
	case r.IntN(3) == 0:
		s.Base = fmt.Sprintf("panel %d", 1+r.IntN(fold.MaxPanels))
	}
	for i := range r.IntN(4) {
		m := fold.SeamSpec{A: place(r, s.Units), B: place(r, s.Units), Join: maybeName(r), Open: r.IntN(2) == 0}
		m.Gap = maybeNumber(r, size(r, s.Units))
		if r.IntN(2) == 0 {
			m.Name = strconv.Itoa(i) + suffix(r)
		}
		s.Seams = append(s.Seams, m)
	}
	s.Order = randomOrder(r, s)
	return s
}

// randomOrder turns some bends, some of them in parts first and some together.
func randomOrder(r *rand.Rand, s fold.Spec) (order []fold.Step) {
	var together []string
	for _, i := range r.Perm(len(s.Bends)) {
		name := bendName(s, i)
		for part := 0.2; part < 0.9 && r.IntN(3) == 0; part += 0.3 {
			to := s.Bends[i].Angle * part
			order = append(order, fold.Step{Bends: []string{name}, To: &to})
		}
		switch r.IntN(3) {
		case 0:
			order = append(order, fold.Step{Bends: []string{name}})
		case 1:
			together = append(together, name)
		}
	}
	if len(together) > 0 {
		order = append(order, fold.Step{Bends: together})
	}
	return order
}

// randomContour goes round a star-shaped area, with straight edges and arcs, the
// first of which may close it.
func randomContour(r *rand.Rand, u fold.Units) (c fold.Contour) {
	// At most this in mm, so that the whole set stays within the bound on chords.
	rad := math.Exp(r.Float64()*math.Log(1e4)) / u.Scale()
	mid := geom.Vec2{round(r, (r.Float64()-0.5)*4e4), round(r, (r.Float64()-0.5)*4e4)}
	n := 3 + r.IntN(12)
	at := func(f, k float64) geom.Vec2 {
		sin, cos := math.Sincos(2 * math.Pi * f / float64(n))
		return mid.Add(geom.Vec2{cos, sin}.Mul(rad * k))
	}
	for i := range n {
		v := fold.Vertex{At: at(float64(i), 0.5+r.Float64()/2)}
		if r.IntN(3) == 0 {
			through := at(float64(i)-0.5, 1)
			v.Through = &through
		}
		c = append(c, v)
	}
	return c
}

// round keeps the number as it is, or to few decimals, as people write them.
func round(r *rand.Rand, v float64) float64 {
	if r.IntN(2) == 0 {
		return v
	}
	grid := []float64{1, 10, 1000, 1e4}[r.IntN(4)]
	return math.Round(v*grid) / grid
}

// size is log-uniform over what a thickness may be.
func size(r *rand.Rand, u fold.Units) float64 {
	lo, hi := math.Log(fold.MinSize), math.Log(fold.MaxSize)
	v := math.Exp(lo+(hi-lo)*r.Float64()) / u.Scale()
	if w := round(r, v); w*u.Scale() >= fold.MinSize && w*u.Scale() <= fold.MaxSize {
		return w
	}
	return min(max(v, 1.01*fold.MinSize/u.Scale()), 0.99*fold.MaxSize/u.Scale())
}

func place(r *rand.Rand, u fold.Units) geom.Vec2 {
	sign := func() float64 { return float64(1 - 2*r.IntN(2)) }
	return geom.Vec2{sign() * size(r, u), sign() * size(r, u)}
}

func maybeNumber(r *rand.Rand, v float64) *float64 {
	if r.IntN(2) == 0 {
		return nil
	}
	return &v
}

// letters are such as need care: quotes, escapes, long characters, look-alikes of syntax.
var letters = []rune("ab z0.-_\"\\/<>&'{}[],:#\u00e4\u00df\u03a9\u4e2d\U0001f41d\u0301\ufffd\u00a0")

func randomName(r *rand.Rand) string {
	n := 1 + r.IntN(12)
	if r.IntN(20) == 0 {
		n = fold.MaxName - 1
	}
	out := []rune{'n'}
	for range n {
		out = append(out, letters[r.IntN(len(letters))])
	}
	return string(out)
}

// suffix makes a name longer without making it another's.
func suffix(r *rand.Rand) string {
	if r.IntN(2) == 0 {
		return ""
	}
	n := []rune(randomName(r))
	return string(n[:min(len(n), 50)])
}

func maybeName(r *rand.Rand) string {
	if r.IntN(2) == 0 {
		return ""
	}
	return randomName(r)
}
