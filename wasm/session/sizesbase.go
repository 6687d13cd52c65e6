package session

// This file changes the base of a part by sizes, and what holds for all of it.

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"dryfold/fold/sizes"
)

// SetFaces says to which faces the part's sizes run.
func (s *Session) SetFaces(faces sizes.Faces) error {
	return s.EditForm("sizes.faces", func(f *sizes.Form) error { f.Faces = faces; return nil })
}

// SetMirror makes the other hand of the part: left and right change places.
func (s *Session) SetMirror(on bool) error {
	return s.EditForm("sizes.mirror", func(f *sizes.Form) error { f.Mirror = on; return nil })
}

// SetAtTop says whether the base's sizes are taken at the top of the flanges that stand on it.
func (s *Session) SetAtTop(on bool) error {
	return s.EditForm("sizes.base.at_top", func(f *sizes.Form) error { f.Base.AtTop = on; return nil })
}

// SetRelief sets how the reliefs are made that have no way of their own.
func (s *Session) SetRelief(kind sizes.ReliefKind) error {
	return s.EditForm("sizes.relief", func(f *sizes.Form) error { f.Relief.Kind = kind; return nil })
}

// BaseShape is how a base is given.
type BaseShape int

// Ways to give a base.
const (
	Rectangle BaseShape = iota
	Trapezoid
	Outline
	BySides
	ByStations
	ByAngles
)

// BaseOf is how a form's base is given.
func BaseOf(f *sizes.Form) BaseShape {
	b := &f.Base
	switch {
	case b.Measured != nil:
		return [...]BaseShape{BySides, ByStations, ByAngles}[min(max(int(b.Measured.Way), 0), 2)]
	case len(b.Points) > 0:
		return Outline
	case b.WideBack.Given:
		return Trapezoid
	}
	return Rectangle
}

// SetBase gives the base in another way, with sizes that make what it is now where that can be told.
func (s *Session) SetBase(shape BaseShape) error {
	return s.EditForm("sizes.base", func(f *sizes.Form) error {
		was := BaseOf(f)
		if was == shape {
			return nil
		}
		c, wide, back, long, ok := s.baseNow(f)
		if !ok {
			return errors.New("the base’s sizes now are wanted first: put them right, then measure it in another way")
		}
		n := len(c)
		b := &f.Base
		if was <= Trapezoid && shape > Trapezoid {
			letLeansGo(f)
		}
		if n != 4 && shape != Outline && shape != BySides && shape != ByAngles {
			return fmt.Errorf("a base of %d sides can’t be measured so", n)
		}
		b.Points, b.Measured = nil, nil
		b.Wide, b.WideBack, b.Long = sizes.Field{}, sizes.Field{}, sizes.Field{}
		side := func(i int) sizes.Field { return sizes.Is(round6(dist(c[i], c[(i+1)%n]))) }
		switch shape {
		case Rectangle:
			b.Wide, b.Long = wide, long
		case Trapezoid:
			b.Wide, b.WideBack, b.Long = wide, back, long
		case Outline:
			for _, q := range c {
				b.Points = append(b.Points, sizes.Point{X: sizes.Is(round6(q[0])), Y: sizes.Is(round6(q[1]))})
			}
		case BySides:
			m := &sizes.Measured{Way: sizes.BySides}
			for i := range c {
				m.Sides = append(m.Sides, side(i))
			}
			if n == 4 {
				m.Diagonals = []sizes.Field{sizes.Is(round6(dist(c[0], c[2]))), sizes.Is(round6(dist(c[1], c[3])))}
			} else {
				for k := 2; k < n-1; k++ {
					m.Diagonals = append(m.Diagonals, sizes.Is(round6(dist(c[0], c[k]))))
				}
			}
			b.Measured = m
		case ByAngles:
			m := &sizes.Measured{Way: sizes.ByAngles}
			for i := range c {
				m.Sides = append(m.Sides, side(i))
				m.Angles = append(m.Angles, sizes.Is(round6(insideAngle(c[(i+n-1)%n], c[i], c[(i+1)%n]))))
			}
			b.Measured = m
		case ByStations:
			b.Measured = &sizes.Measured{Way: sizes.ByStations, Stations: []sizes.Station{
				{At: sizes.Is(0), Wide: wide}, {At: long, Wide: back}}}
		}
		return nil
	})
}

// letLeansGo leaves the ends of flanges ungiven whose lean was reckoned from the base's named sizes, as a stepped tray's
// floors are: once the base is measured otherwise they say nothing of it. Ends that are not given go straight on.
func letLeansGo(f *sizes.Form) {
	of := map[string]bool{}
	for i := range f.Named {
		for _, path := range f.Uses(f.Named[i].Name) {
			if strings.HasPrefix(path, "sizes.base.wide") {
				of[f.Named[i].Name] = true
			}
		}
	}
	gone := map[string]bool{}
	for name := range of {
		for _, path := range f.Uses(name) {
			gone[path] = true
		}
	}
	for i := range f.Flanges {
		l := &f.Flanges[i]
		if gone[FlangeField(i, "lean_start")] {
			l.LeanStart = sizes.Field{}
		}
		if gone[FlangeField(i, "lean_end")] {
			l.LeanEnd = sizes.Field{}
		}
	}
}

// baseNow is a form's base in plain numbers: its corners counter-clockwise from the front left one, and for four sides how
// wide and long it is, as it was given where it was. ok is false where that can't be told.
func (s *Session) baseNow(f *sizes.Form) (c [][2]float64, wide, back, long sizes.Field, ok bool) {
	v, _ := f.Values(s.spec.Units.Scale())
	num := func(x sizes.Field) float64 {
		n, err := v.Num(x)
		if err != nil {
			return math.NaN()
		}
		return n
	}
	b := &f.Base
	switch {
	case b.Measured != nil:
		c = measuredCorners(b.Measured, num)
	case len(b.Points) > 0:
		for _, q := range b.Points {
			c = append(c, [2]float64{num(q.X), num(q.Y)})
		}
	default:
		wide, back, long = b.Wide, b.WideBack, b.Long
		if !back.Given {
			back = wide
		}
		w, k, l := num(wide), num(back), num(long)
		mid := max(w, k) / 2
		c = [][2]float64{{mid - w/2, 0}, {mid + w/2, 0}, {mid + k/2, l}, {mid - k/2, l}}
	}
	for _, q := range c {
		if math.IsNaN(q[0] + q[1]) {
			return nil, wide, back, long, false
		}
	}
	if len(c) == 4 && !wide.Given {
		wide, back = sizes.Is(round6(dist(c[0], c[1]))), sizes.Is(round6(dist(c[2], c[3])))
		long = sizes.Is(round6(math.Abs(c[3][1]+c[2][1]-c[0][1]-c[1][1]) / 2))
	}
	return c, wide, back, long, len(c) >= 3
}

// measuredCorners are about the corners of a measured base: what is needed to give it in another way.
func measuredCorners(m *sizes.Measured, num func(sizes.Field) float64) (c [][2]float64) {
	switch m.Way {
	case sizes.ByStations:
		if len(m.Stations) < 2 {
			return nil
		}
		var right [][2]float64
		for _, st := range m.Stations {
			l, r := num(st.Left), num(st.Right)
			if w := num(st.Wide); !math.IsNaN(w) && math.IsNaN(l+r) {
				l, r = w/2, w/2
			}
			c = append(c, [2]float64{-l, num(st.At)})
			right = append(right, [2]float64{r, num(st.At)})
		}
		slices.Reverse(c)
		c = append(c, right...)
		return append(c[len(right)-1:], c[:len(right)-1]...)
	case sizes.ByAngles:
		at, dir := [2]float64{}, 0.0
		for i := range m.Sides {
			c = append(c, at)
			d := num(m.Sides[i])
			at[0] += d * math.Cos(dir)
			at[1] += d * math.Sin(dir)
			if i+1 < len(m.Angles) {
				dir += math.Pi - num(m.Angles[i+1])*math.Pi/180
			}
		}
		return c
	}
	if len(m.Sides) != 4 || len(m.Diagonals) < 1 {
		return nil
	}
	a, b2, c2, d := num(m.Sides[0]), num(m.Sides[1]), num(m.Sides[2]), num(m.Sides[3])
	e := num(m.Diagonals[0])
	apex := func(from, far, base float64) [2]float64 { // of a triangle on the x axis
		x := (from*from - far*far + base*base) / (2 * base)
		return [2]float64{x, math.Sqrt(from*from - x*x)}
	}
	back := apex(e, b2, a) // back right, from front left and front right
	// Back left: from front left (the left side) and back right (the back side), on the other side of the diagonal.
	p := apex(d, c2, e)
	ux, uy := back[0]/e, back[1]/e
	return [][2]float64{{0, 0}, {a, 0}, back, {p[0]*ux - p[1]*uy, p[0]*uy + p[1]*ux}}
}

func dist(a, b [2]float64) float64 { return math.Hypot(b[0]-a[0], b[1]-a[1]) }

// insideAngle is the angle at b between the sides to a and c, left of the way from a over b to c, degrees.
func insideAngle(a, b, c [2]float64) float64 {
	d := math.Atan2(a[1]-b[1], a[0]-b[0]) - math.Atan2(c[1]-b[1], c[0]-b[0])
	if d < 0 {
		d += 2 * math.Pi
	}
	return d * 180 / math.Pi
}

// round6 rounds what was worked out to where sizes agree with it to 1e-6.
func round6(x float64) float64 { return math.Round(x*1e6) / 1e6 }

// SetBaseName names the base.
func (s *Session) SetBaseName(text string) error { return s.renameFlange("sizes.base.name", -1, text) }

// SideField is the key of the field that names a side of the base.
func SideField(side int) string { return at("sizes.base.sides", side) }

// SetSideName names a side of the base; the flanges and holes on it follow. "" gives it its usual name.
func (s *Session) SetSideName(side int, text string) error {
	field := SideField(side)
	f := s.spec.Sizes
	if f == nil {
		return errNoSizes
	}
	name, err := readName(text)
	names := s.baseSideNames()
	n := len(names)
	if err == nil && (side < 0 || side >= n) {
		err = errors.New("there is no such side any more")
	}
	for i := 0; err == nil && i < n; i++ {
		if i != side && names[i] == name {
			err = fmt.Errorf("another side is called %s already. Another name would do", quoted(name))
		}
	}
	if err != nil {
		return s.refuse(field, text, err)
	}
	form := f.Clone()
	old := names[side]
	usual := sizes.Base{}
	now := name
	if now == "" {
		now = sideName(&usual, n, side)
	}
	all := slices.Clone(names)
	all[side] = now
	for k := n; k > 0 && all[k-1] == sideName(&usual, n, k-1); k-- {
		all = all[:k-1]
	}
	form.Base.Sides = orNil(all)
	base := baseName(f)
	for i := range form.Flanges {
		if l := &form.Flanges[i]; l.On == base && l.Side == old {
			l.Side = now
		}
	}
	for i := range form.Holes {
		if h := &form.Holes[i]; h.On == base && h.Side == old {
			h.Side = now
		}
	}
	next := s.spec
	next.Sizes = form
	return s.take(field, text, next)
}
