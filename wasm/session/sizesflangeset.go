package session

// This file holds the choices of a flange of a part by sizes: its way, faces, hem, joggle and
// free edge.

import (
	"errors"

	"dryfold/fold/sizes"
)

// FlangeField is the path of a flange's field: "height", "hem.clear", also of its choices, "way", "hem", "edge", as key
// of their errors.
func FlangeField(flange int, what string) string { return at("sizes.flanges", flange) + "." + what }

// EditFlange changes a flange by f: one step of undo. What names it follows a new name only by RenameFlange.
func (s *Session) EditFlange(flange int, what string, f func(*sizes.Flange) error) error {
	return s.EditForm(FlangeField(flange, what), func(form *sizes.Form) error {
		if flange < 0 || flange >= len(form.Flanges) {
			return errors.New("there is no such flange any more")
		}
		return f(&form.Flanges[flange])
	})
}

// SetFlangeWay bends a flange up or down.
func (s *Session) SetFlangeWay(flange int, up bool) error {
	return s.EditFlange(flange, "way", func(l *sizes.Flange) error { l.Down = !up; return nil })
}

// SetFlangeAlong says whether a flange's heights run along it from the sharp, or square to what it stands on.
func (s *Session) SetFlangeAlong(flange int, along bool) error {
	return s.EditFlange(flange, "along", func(l *sizes.Flange) error { l.Along = along; return nil })
}

// SetFlangeFaces says to which faces a flange's height runs; nil for those of the whole part.
func (s *Session) SetFlangeFaces(flange int, faces *sizes.Faces) error {
	return s.EditFlange(flange, "faces", func(l *sizes.Flange) error { l.Faces = faces; return nil })
}

// HemKind is what a flange's bend is: plain, or folded back.
type HemKind int

// Kinds of hems.
const (
	NoHem HemKind = iota
	FlatHem
	TeardropHem
)

// HemOf is the kind of a flange.
func HemOf(l *sizes.Flange) HemKind {
	switch {
	case l.Hem == nil:
		return NoHem
	case l.Hem.Teardrop:
		return TeardropHem
	}
	return FlatHem
}

// SetFlangeHem folds a flange back on what it stands on, or makes it a plain flange again. A hem begins with a
// clear gap of the thickness.
func (s *Session) SetFlangeHem(flange int, kind HemKind) error {
	return s.EditFlange(flange, "hem", func(l *sizes.Flange) error {
		switch {
		case kind == NoHem:
			l.Hem = nil
		case l.Hem == nil:
			l.Hem = &sizes.Hem{Clear: sizes.Is(s.spec.Sheet.Thickness)}
			l.Angle, l.Radius, l.RadiusFrom, l.Joggle = sizes.Field{}, sizes.Field{}, "", nil
		}
		if l.Hem != nil {
			l.Hem.Teardrop = kind == TeardropHem
		}
		return nil
	})
}

// JoggleKind says whether a flange steps, and to which side.
type JoggleKind int

// Kinds of joggles.
const (
	NoJoggle JoggleKind = iota
	JoggleIn
	JoggleOut
)

// JoggleOf is the kind of a flange's joggle.
func JoggleOf(l *sizes.Flange) JoggleKind {
	switch {
	case l.Joggle == nil:
		return NoJoggle
	case l.Joggle.Out:
		return JoggleOut
	}
	return JoggleIn
}

// SetFlangeJoggle steps a flange to one side, or takes the step away. It begins half way up, by the thickness
// and a tenth: so much that another sheet lies flush beside it. Where the bends have no room in so small a step at 45 degrees
// lower angles are tried, then a deeper step.
func (s *Session) SetFlangeJoggle(flange int, kind JoggleKind) error {
	f := s.spec.Sizes
	if f == nil || flange < 0 || flange >= len(f.Flanges) || kind == NoJoggle || f.Flanges[flange].Joggle != nil {
		return s.EditFlange(flange, "joggle", func(l *sizes.Flange) error {
			if kind == NoJoggle {
				l.Joggle = nil
			} else {
				l.Joggle.Out = kind == JoggleOut
			}
			return nil
		})
	}
	h, ok := s.num(f.Flanges[flange].Height)
	if !ok {
		return s.refuse(FlangeField(flange, "joggle"), "", errors.New("the flange’s height is wanted first"))
	}
	t := s.spec.Sheet.Thickness
	var first error
	for _, try := range []struct{ depth, angle float64 }{{1.1, 0}, {1.1, 30}, {1.1, 20}, {2, 0}, {3, 0}, {4, 0}} {
		j := sizes.Joggle{At: sizes.Is(nice(h/2, 1/s.spec.Units.Scale())), Depth: sizes.Is(tidy(try.depth * t)), Out: kind == JoggleOut}
		if try.angle > 0 {
			j.Angle = sizes.Is(try.angle)
		}
		err := s.EditFlange(flange, "joggle", func(l *sizes.Flange) error { l.Joggle = &j; return nil })
		if err == nil {
			return nil
		}
		if first == nil {
			first = err
		}
	}
	return s.refuse(FlangeField(flange, "joggle"), "", first)
}

// EdgeKind is the shape of a flange's free edge.
type EdgeKind int

// Shapes of a free edge.
const (
	StraightEdge EdgeKind = iota
	SlopedEdge
	SteppedEdge
	CurvedEdge
	AnyEdge // any other outline
)

// EdgeOf is the shape of a flange's free edge.
func EdgeOf(l *sizes.Flange) EdgeKind {
	e := l.Edge
	switch {
	case len(e) == 0 && !l.HeightEnd.Given:
		return StraightEdge
	case len(e) == 0:
		return SlopedEdge
	case len(e) == 2 && e[1].Through:
		return CurvedEdge
	case len(e) == 4 && !e[1].Through && !e[2].Through && !e[3].Through && e[0].Y == e[1].Y && e[1].X == e[2].X && e[2].Y == e[3].Y:
		return SteppedEdge
	}
	return AnyEdge
}

// SetFlangeEdge gives a flange's free edge another shape, near to the height it has: a slope or step down to
// three quarters, a curve a tenth higher in its middle.
func (s *Session) SetFlangeEdge(flange int, kind EdgeKind) error {
	return s.EditFlange(flange, "edge", func(l *sizes.Flange) error {
		h, ok := s.num(l.Height)
		if !ok && kind > SlopedEdge {
			return errors.New("the flange's height is wanted first")
		}
		k := 1 / s.spec.Units.Scale()
		long := s.flangeLong(flange)
		if kind > SlopedEdge && !(long > 0) {
			return errors.New("the flange must be made first: put right what is wrong with its sizes")
		}
		long = nice(long, k)
		p := func(x, y float64) sizes.Point { return sizes.Point{X: sizes.Is(x), Y: sizes.Is(y)} }
		low := nice(h*3/4, k)
		l.HeightEnd, l.Edge = sizes.Field{}, nil
		switch kind {
		case SlopedEdge:
			l.HeightEnd = l.Height
			if ok {
				l.HeightEnd = sizes.Is(low)
			}
		case SteppedEdge:
			mid := nice(long/2, k)
			l.Edge = []sizes.Point{p(0, h), p(mid, h), p(mid, low), p(long, low)}
		case CurvedEdge:
			end := p(long, h)
			end.Through, end.ThX, end.ThY = true, sizes.Is(nice(long/2, k)), sizes.Is(nice(h*1.1, k))
			l.Edge = []sizes.Point{p(0, h), end}
		case AnyEdge:
			l.Edge = []sizes.Point{p(0, h), p(nice(long/2, k), h), p(long, h)}
		}
		return nil
	})
}

// flangeLong is how long a flange is along its bend, in the part's units; 0 where it isn't made.
func (s *Session) flangeLong(flange int) float64 {
	b := s.FlangeBend(flange)
	if b < 0 || b >= len(s.part.Bends) {
		return 0
	}
	return s.part.Bends[b].Length / s.spec.Units.Scale()
}
