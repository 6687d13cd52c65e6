package fold

import (
	"math"
	"slices"
	"strings"
	"unicode"

	"dryfold/fold/geom"
)

// This file makes the part for the other hand, and says whether there is one.

// Mirrored is the part for the other hand: the blank's mirror image, x against -x, with every bend's way, angle and
// radius as they were, so that it folds to the mirror image of what s folds to. The good face stays the same one; the
// grain is mirrored. In the names of the part, its panels, bends and seams, and wherever one is named, left and right
// change places as words: what is at the left of the one part is at the right of the other. Notes stay. The mirrored
// part is given by its blank (Sizes is nil), and nothing was measured or scribed on it yet. Mirrored twice it is s
// again, but for that. s must be built from its blank: a part by sizes has to be made first.
func (s Spec) Mirrored() Spec {
	m := s.Mapped(func(v geom.Vec2) geom.Vec2 { return geom.Vec2{0 - v[0], v[1]} })
	m.Name, m.Base = OtherHand(s.Name), OtherHand(s.Base)
	m.Sizes, m.AsCut, m.Struck = nil, nil, nil
	if g := s.Sheet.Grain; g != nil {
		other := 0 - *g
		m.Sheet.Grain = &other
	}
	for i := range m.Bends {
		m.Bends[i].Name = OtherHand(m.Bends[i].Name)
	}
	for i := range m.Panels {
		m.Panels[i].Name = OtherHand(m.Panels[i].Name)
	}
	for i := range m.Seams {
		m.Seams[i].Name = OtherHand(m.Seams[i].Name)
	}
	m.Joins = slices.Clone(s.Joins)
	for i := range m.Joins {
		m.Joins[i].Seam = OtherHand(m.Joins[i].Seam)
	}
	m.Order = slices.Clone(s.Order)
	for i := range m.Order {
		m.Order[i].Bends = slices.Clone(m.Order[i].Bends)
		for k, name := range m.Order[i].Bends {
			m.Order[i].Bends[k] = OtherHand(name)
		}
	}
	return m
}

// OtherHand is a text with the words left and right in each other's place: "Left rear" is "Right rear". Twice it is the
// text again.
func OtherHand(text string) string {
	var out strings.Builder
	for rest := text; rest != ""; {
		n := strings.IndexFunc(rest, unicode.IsLetter)
		if n != 0 {
			if n < 0 {
				n = len(rest)
			}
			out.WriteString(rest[:n])
			rest = rest[n:]
			continue
		}
		if n = strings.IndexFunc(rest, func(r rune) bool { return !unicode.IsLetter(r) }); n < 0 {
			n = len(rest)
		}
		word := rest[:n]
		for _, w := range [...][2]string{{"left", "right"}, {"Left", "Right"}, {"LEFT", "RIGHT"}} {
			switch word {
			case w[0]:
				word = w[1]
			case w[1]:
				word = w[0]
			default:
				continue
			}
			break
		}
		out.WriteString(word)
		rest = rest[n:]
	}
	return out.String()
}

// A point of the blank that matters for which hand a part is, and what lies there: a corner, the middle of an arc, a
// hole of a size, the ends of a bend. Two points are alike if their kinds are.
type handPoint struct {
	at   geom.Vec2
	kind [4]float64
}

// BothHands reports whether the part is its own mirror image, so that one blank serves for both hands: the blank has a
// mirror line and its bends with it; or, turned over and laid on itself, every up bend lies on a down one, which a good
// face rules out. Names don't matter. Parts of more than maxHandPoints points are not looked at: known is false then.
func (p *Part) BothHands() (alike, known bool) {
	pts := p.handPoints(false)
	if !p.Foldable || len(pts) > maxHandPoints {
		return false, false
	}
	mirrored := slices.Clone(pts)
	for i := range mirrored {
		mirrored[i].at[0] = 0 - mirrored[i].at[0]
	}
	if laysOn(mirrored, pts) {
		return true, true
	}
	return p.Spec.Sheet.Good == "" && laysOn(p.handPoints(true), pts), true
}

// handPoints are the blank's points that matter; with over the bends go the other way.
func (p *Part) handPoints(over bool) []handPoint {
	k := p.Spec.Units.Scale()
	var out []handPoint
	for _, c := range append([]Contour{p.Spec.Outline}, p.Spec.Cutouts...) {
		for i, v := range c {
			if i > 0 && v.At == c[i-1].At || i == len(c)-1 && i > 0 && v.At == c[0].At { // one point, said twice
				continue
			}
			out = append(out, handPoint{v.At.Mul(k), [4]float64{1}})
		}
		for i, v := range c {
			if v.Through == nil {
				continue
			}
			a, b, mid := c[(i+len(c)-1)%len(c)].At, v.At, *v.Through
			if o, r, ok := geom.Circle(a, mid, b); ok { // the arc's middle, wherever on it the file's point lies
				across := geom.Vec2{a[1] - b[1], b[0] - a[0]}.Normalize().Mul(r)
				if across.Dot(mid.Sub(a)) < 0 {
					across = across.Mul(-1)
				}
				mid = o.Add(across)
			}
			out = append(out, handPoint{mid.Mul(k), [4]float64{2}})
		}
	}
	for _, h := range p.Spec.Holes {
		out = append(out, handPoint{h.At.Mul(k), [4]float64{3, h.Diameter * k}})
	}
	for i := range p.Bends {
		b := &p.Bends[i]
		way := 4.0
		if b.Up == over {
			way = 5
		}
		for _, e := range b.Line {
			out = append(out, handPoint{e, [4]float64{way, float64(b.Angle), b.Radius, b.Allowance}})
		}
	}
	return out
}

// laysOn reports whether points can be turned and shifted so that each lies on one like it of the others.
func laysOn(a, b []handPoint) bool {
	var ca, cb geom.Vec2
	for i := range a {
		ca, cb = ca.Add(a[i].at.Mul(1/float64(len(a)))), cb.Add(b[i].at.Mul(1/float64(len(b))))
	}
	first := 0 // of a, the point farthest from the middle: it fixes the turn best
	for i := range a {
		if a[i].at.Sub(ca).Len() > a[first].at.Sub(ca).Len() {
			first = i
		}
	}
	va := a[first].at.Sub(ca)
	r := va.Len()
	if r == 0 {
		return true
	}
	for j := range b {
		vb := b[j].at.Sub(cb)
		if math.Abs(vb.Len()-r) > handAlike || !sameKind(a[first].kind, b[j].kind) {
			continue
		}
		l := r * vb.Len()
		cos, sin := va.Dot(vb)/l, geom.Cross2(va, vb)/l
		used := make([]bool, len(b))
		all := true
		for i := range a {
			v := a[i].at.Sub(ca)
			to := geom.Vec2{cos*v[0] - sin*v[1], sin*v[0] + cos*v[1]}.Add(cb)
			found := false
			for n := range b {
				if !used[n] && sameKind(a[i].kind, b[n].kind) && b[n].at.Sub(to).Len() <= 2*handAlike {
					used[n], found = true, true
					break
				}
			}
			if !found {
				all = false
				break
			}
		}
		if all {
			return true
		}
	}
	return false
}

// sameKind compares kinds: which, exactly; sizes to handAlike.
func sameKind(a, b [4]float64) bool {
	if a[0] != b[0] {
		return false
	}
	for i := 1; i < len(a); i++ {
		if math.Abs(a[i]-b[i]) > handAlike {
			return false
		}
	}
	return true
}
