package session

// This file places holes, slots and cutouts on a part by sizes.

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"dryfold/fold"
	"dryfold/fold/geom"
	"dryfold/fold/shape"
	"dryfold/fold/sizes"
	"dryfold/render/scene"
)

// A hole that is added (mm, or in for parts in inches): a common drill. No source.
const newHole, newHoleInch = 5, 0.1875

// HoleOf is the index in the form of the hole that a hole or cutout of the open part was made from, -1 for
// none. sel is a Hole or Cutout of the drawing.
func (s *Session) HoleOf(sel scene.Select) int {
	if s.made == nil {
		return -1
	}
	i := sel.Index
	switch sel.Kind {
	case scene.Hole:
	case scene.Cutout:
		i += len(s.spec.Holes)
	default:
		return -1
	}
	if i < 0 || i >= len(s.made.Holes) {
		return -1
	}
	return s.made.Holes[i]
}

// addHole drills a hole into a panel, by its name, at sizes along and square to the panel's usual side, in the part's units; it
// gives the hole's index.
func (s *Session) addHole(on string, x, y float64) (int, error) {
	f := s.spec.Sizes
	if !panelNamed(f, on) {
		return -1, fmt.Errorf("there is no panel %s any more", quoted(on))
	}
	d := float64(newHole)
	if s.spec.Units == fold.Inch {
		d = newHoleInch
	}
	h := sizes.Hole{On: on, X: sizes.Is(x), Y: sizes.Is(y), Wide: sizes.Is(d)}
	drills := []sizes.Field{h.Wide}
	for i := len(f.Holes) - 1; i >= 0; i-- { // as the last one, where there is room for it
		if o := f.Holes[i]; o.Shape == sizes.Round && o.Wide != h.Wide {
			drills = []sizes.Field{o.Wide, h.Wide}
			break
		}
	}
	var err error
	for _, h.Wide = range drills {
		next := s.spec
		next.Sizes = f.Clone()
		next.Sizes.Holes = append(next.Sizes.Holes, h)
		if err = s.change(next); err == nil {
			return len(f.Holes), nil
		}
	}
	return -1, err
}

// AddHoleAt drills a hole where a panel of the open part was touched: at is a point of the blank, mm. Its
// distances come to whole mm, or sixteenths of an inch.
func (s *Session) AddHoleAt(panel int, at geom.Vec2) (int, error) {
	on, x, y, err := s.measuredAt(panel, at)
	if err != nil {
		return -1, err
	}
	step := 1.0
	if s.spec.Units == fold.Inch {
		step = 1.0 / 16
	}
	return s.addHole(on, math.Round(x/step)*step, math.Round(y/step)*step)
}

// measuredAt is a point of the blank as holes are placed: the panel's name, along and square to its usual side, in the
// part's units. Holes are made at three places, and the point is measured by them.
func (s *Session) measuredAt(panel int, at geom.Vec2) (on string, x, y float64, err error) {
	f := s.spec.Sizes
	if f == nil {
		return "", 0, 0, errNoSizes
	}
	if s.made == nil || panel < 0 || panel >= len(s.part.Panels) {
		return "", 0, 0, errNoPart
	}
	on = baseName(f)
	if i := s.PanelFlange(panel); i >= 0 {
		on = f.Flanges[i].Name
	}
	k := s.spec.Units.Scale()
	long, high := s.spanOf(panel)
	long, high = long/k, high/k
	d := min(long, high) / 16
	// Small holes well inside, as far as that can be guessed; elsewhere where the panel isn't there.
	for _, share := range [][2]float64{{0.5, 0.5}, {0.5, 0.3}, {0.5, 0.7}, {0.3, 0.5}, {0.7, 0.5}, {0.2, 0.3}, {0.8, 0.3}} {
		x0, y0 := long*share[0], high*share[1]
		form := f.Clone()
		form.Holes = nil
		for _, q := range [][2]float64{{x0, y0}, {x0 + d, y0}, {x0, y0 + d}} {
			form.Holes = append(form.Holes, sizes.Hole{On: on, X: sizes.Is(q[0]), Y: sizes.Is(q[1]), Wide: sizes.Is(d / 10)})
		}
		next := s.spec
		next.Sizes = form
		made, bad := shape.Make(next)
		if len(bad) > 0 || len(made.Spec.Holes) != 3 {
			continue
		}
		var p [3]geom.Vec2
		for i, h := range made.Spec.Holes {
			p[made.Holes[i]] = h.At.Mul(k)
		}
		u, v, w := p[1].Sub(p[0]), p[2].Sub(p[0]), at.Sub(p[0])
		det := u[0]*v[1] - u[1]*v[0]
		if det == 0 {
			continue
		}
		return on, x0 + d*(w[0]*v[1]-w[1]*v[0])/det, y0 + d*(u[0]*w[1]-u[1]*w[0])/det, nil
	}
	return on, 0, 0, errors.New("that place can’t be measured on this panel: type the hole’s distances")
}

// spanOf is about how far a panel reaches along its bend and away from it, mm; of the base along x and y.
func (s *Session) spanOf(panel int) (along, away float64) {
	p := &s.part.Panels[panel]
	box := geom.EmptyBox2()
	for _, q := range p.Region.Loops()[0] {
		if p.Parent >= 0 {
			u, v := s.part.Bends[p.Parent].Coord(q)
			q = geom.Vec2{u, v}
		}
		box.Add(q)
	}
	z := box.Size()
	return z[0], z[1]
}

// HoleField is the path of a hole's field: "x", "y", "wide", also of its choices, as key of their errors.
func HoleField(hole int, what string) string { return at("sizes.holes", hole) + "." + what }

// EditHole changes a hole by f: one step of undo.
func (s *Session) EditHole(hole int, what string, f func(*sizes.Hole) error) error {
	return s.EditForm(HoleField(hole, what), func(form *sizes.Form) error {
		if hole < 0 || hole >= len(form.Holes) {
			return errors.New("there is no such hole any more")
		}
		return f(&form.Holes[hole])
	})
}

// SetHoleShape makes a hole round, a slot, a window or a cutout, about as large as it is.
func (s *Session) SetHoleShape(hole int, shape sizes.HoleShape) error {
	return s.EditHole(hole, "shape", func(h *sizes.Hole) error {
		if h.Shape == shape {
			return nil
		}
		w, ok := s.num(h.Wide)
		if !ok {
			w = newHole / s.spec.Units.Scale()
			h.Wide = sizes.Is(w)
		}
		h.Shape = shape
		h.Points = nil
		h.Drilled = h.Drilled && (shape == sizes.Round || shape == sizes.Slot)
		switch shape {
		case sizes.Round:
			h.Long = sizes.Field{}
		case sizes.Slot, sizes.Window:
			if !h.Long.Given {
				h.Long = sizes.Is(tidy(2 * w))
			}
		case sizes.Cutout:
			long, ok := s.num(h.Long)
			if !ok {
				long = w
			}
			for _, q := range [][2]float64{{-1, -1}, {1, -1}, {1, 1}, {-1, 1}} {
				h.Points = append(h.Points, sizes.Point{X: sizes.Is(tidy(q[0] * long / 2)), Y: sizes.Is(tidy(q[1] * w / 2))})
			}
			h.Wide, h.Long = sizes.Field{}, sizes.Field{}
		}
		return nil
	})
}

// SetHoleSide sets the side that a hole is measured from, and from which of its ends.
func (s *Session) SetHoleSide(hole int, side string, fromEnd bool) error {
	return s.EditHole(hole, "side", func(h *sizes.Hole) error { h.Side, h.FromEnd = side, fromEnd; return nil })
}

// maxPattern bounds the holes of a pattern, along and across.
const maxPattern = 200

// SetHoleCount makes a pattern of a hole: count along its side, rows across. Steps that are wanted for it begin with four
// times the hole's width.
func (s *Session) SetHoleCount(hole, count, rows int) error {
	return s.EditHole(hole, "count", func(h *sizes.Hole) error {
		if count < 1 || rows < 1 || count > maxPattern || rows > maxPattern {
			return fmt.Errorf("a pattern has 1 to %d holes along and across", maxPattern)
		}
		w, ok := s.num(h.Wide)
		if !ok {
			w = newHole / s.spec.Units.Scale()
		}
		if count > 1 && !h.Step.Given {
			h.Step = sizes.Is(tidy(4 * w))
		}
		if rows > 1 && !h.RowStep.Given {
			h.RowStep = sizes.Is(tidy(4 * w))
		}
		if count == 1 {
			h.Step = sizes.Field{}
		}
		if rows == 1 {
			h.RowStep = sizes.Field{}
		}
		h.Count, h.Rows = plural(count), plural(rows)
		return nil
	})
}

// plural is 0 for 1: what says nothing is left out of files.
func plural(n int) int {
	if n == 1 {
		return 0
	}
	return n
}

// SetHoleMirrored has a hole once more, from the side's other end.
func (s *Session) SetHoleMirrored(hole int, on bool) error {
	return s.EditHole(hole, "mirrored", func(h *sizes.Hole) error { h.Mirrored = on; return nil })
}

// SetHoleDrilled says whether a round hole's or slot's width is a drill's, which MakeCuttable may change to one that is owned.
func (s *Session) SetHoleDrilled(hole int, on bool) error {
	return s.EditHole(hole, "drilled", func(h *sizes.Hole) error { h.Drilled = on; return nil })
}

// SetHoleName names a hole.
func (s *Session) SetHoleName(hole int, text string) error {
	name, err := readName(text)
	if err != nil {
		return s.refuse(HoleField(hole, "name"), text, err)
	}
	return s.EditHole(hole, "name", func(h *sizes.Hole) error { h.Name = name; return nil })
}

// DeleteHole takes a hole away, a pattern whole.
func (s *Session) DeleteHole(hole int) error {
	return s.EditForm("", func(form *sizes.Form) error {
		if hole < 0 || hole >= len(form.Holes) {
			return errors.New("there is no such hole any more")
		}
		form.Holes = orNil(slices.Delete(form.Holes, hole, hole+1))
		return nil
	})
}
