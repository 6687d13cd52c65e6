package partfile

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strconv"

	"dryfold/fold"
	"dryfold/fold/geom"
	"dryfold/fold/metal"
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
	if s.Sheet.K != nil {
		s.Sheet.KFrom = maybeName(r)
	}
	if r.IntN(2) == 0 {
		s.Sheet.Rule = metal.Rules[r.IntN(len(metal.Rules))].ID
	}
	s.Sheet.Lip = maybeNumber(r, size(r, s.Units))
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
		if r.IntN(2) == 0 {
			b.RadiusFrom = fold.RadiusKnown[r.IntN(len(fold.RadiusKnown))]
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
	s.Joins, s.Errors = randomJoins(r, s), randomErrors(r, s.Units)
	for range r.IntN(3) {
		s.AsCut = append(s.AsCut, fold.CutSize{From: place(r, s.Units), To: place(r, s.Units), Is: size(r, s.Units)})
		s.Struck = append(s.Struck, fold.StruckLine{Line: [2]geom.Vec2{place(r, s.Units), place(r, s.Units)}})
	}
	s.Metals = randomMetals(r)
	s.Tests = randomStrips(r, s.Units)
	if r.IntN(2) == 0 {
		p := fold.Price{PerKg: r.Float64() * 20, PerSheet: round(r, r.Float64()*1e3), PerHour: round(r, r.Float64()*fold.MaxPrice), Hours: r.Float64()}
		if r.IntN(2) == 0 {
			p.Sheet = [2]float64{size(r, s.Units), size(r, s.Units)}
			p.PerKg = 0
		}
		if r.IntN(2) == 0 {
			p.Currency = "n" + string(letters[r.IntN(len(letters))])
		}
		s.Price = p
	}
	return s
}

func randomJoins(r *rand.Rand, s fold.Spec) (all []fold.JoinSpec) {
	for i := range r.IntN(4) {
		j := fold.JoinSpec{Widest: maybeNumber(r, size(r, s.Units))}
		if i > 0 || r.IntN(2) == 0 {
			j.Seam = strconv.Itoa(i) + "j" + suffix(r)
		}
		if r.IntN(2) == 0 || j.Widest == nil {
			j.Way = fold.JoinWays[r.IntN(len(fold.JoinWays))]
		}
		if (j.Way == "" || j.Way == "weld") && r.IntN(2) == 0 {
			j.Process = fold.WeldProcesses[r.IntN(len(fold.WeldProcesses))]
		}
		all = append(all, j)
	}
	return all
}

func randomErrors(r *rand.Rand, u fold.Units) (e fold.ErrorSpec) {
	length := func() *float64 { return maybeNumber(r, min(round(r, 20*r.Float64())/u.Scale(), 20/u.Scale())) }
	class := func() string {
		return append([]string{""}, fold.ErrorClasses...)[r.IntN(5)]
	}
	e.AngleClass, e.CutClass = class(), class()
	if e.AngleClass == "" {
		e.Angle = maybeNumber(r, 10*(1-r.Float64()))
	}
	if e.CutClass == "" {
		e.Cut = length()
	}
	e.Line, e.Thickness, e.K = length(), length(), maybeNumber(r, 0.3*r.Float64())
	return e
}

func randomMetals(r *rand.Rand) (all []metal.Own) {
	for i := range r.IntN(4) {
		m := metal.Own{Name: strconv.Itoa(i) + "m" + suffix(r), Note: maybeName(r)}
		if r.IntN(2) == 0 {
			m.Like = metal.Metals[r.IntN(len(metal.Metals))].Name
		}
		if r.IntN(2) == 0 {
			m.Density = round(r, 100+r.Float64()*29_899)
			m.Yield = [2]float64{1 + r.Float64(), 5000 - r.Float64()}
		}
		if r.IntN(2) == 0 {
			m.Modulus = 1 + r.Float64()*999
		}
		m.LeastRT = maybeNumber(r, round(r, r.Float64()*50))
		m.K = maybeNumber(r, r.Float64()*fold.MaxK)
		all = append(all, m)
	}
	return all
}

// randomStrips are test bends that can have been measured so, of any size.
func randomStrips(r *rand.Rand, u fold.Units) (all []metal.Strip) {
	for range r.IntN(5) {
		s := metal.Strip{Name: maybeName(r), Metal: maybeName(r), Brake: maybeName(r), Angle: 1 + round(r, 170*r.Float64())}
		s.Set = maybeNumber(r, s.Angle+r.Float64()*8)
		// Thickness, R and strip of one make, 0.01 to 100 mm thick.
		s.Thickness = math.Exp(math.Log(0.01)+r.Float64()*math.Log(1e4)) / u.Scale()
		radius := s.Thickness * r.Float64() * 10
		if r.IntN(2) == 0 {
			s.Nose = max(radius, 2*fold.MinSize)
		}
		if r.IntN(3) > 0 || s.Set == nil {
			s.Inside, s.Calliper = r.IntN(2) == 0, r.IntN(2) == 0
			s.Length = s.Thickness * (60 + 100*r.Float64())
			turn, inner := s.Angle*math.Pi/180, radius
			if !s.Inside {
				inner += s.Thickness
			}
			if s.Angle <= 90 {
				inner *= math.Tan(turn / 2)
			}
			sum := s.Length + 2*inner - turn*(radius+fold.MaxK*r.Float64()*s.Thickness)
			s.Legs[0] = sum * (0.2 + 0.6*r.Float64())
			s.Legs[1] = sum - s.Legs[0]
			s.Radius = maybeNumber(r, radius)
			s.Nose = 0
		}
		all = append(all, s)
	}
	return all
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
