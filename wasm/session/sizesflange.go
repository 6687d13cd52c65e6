package session

// This file raises, changes, names, copies and takes away the flanges of a part by sizes.

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"dryfold/fold"
	"dryfold/fold/shape"
	"dryfold/fold/sizes"
)

// PanelFlange is the index in the form of the flange that a panel of the open part belongs to; -1 for
// the base, and where the part is given by its blank.
func (s *Session) PanelFlange(panel int) int {
	if panel < 0 || panel >= len(s.part.Panels) {
		return -1
	}
	return s.BendFlange(s.part.Panels[panel].Parent)
}

// BendFlange is the index in the form of the flange that a bend of the open part belongs to, -1 for none.
func (s *Session) BendFlange(bend int) int {
	if s.made == nil || bend < 0 || bend >= len(s.made.By) {
		return -1
	}
	return s.made.By[bend]
}

// FlangeBend is the bend that makes a flange, -1 where nothing is made; FlangePanel is its panel.
func (s *Session) FlangeBend(flange int) int {
	if s.made == nil || flange < 0 {
		return -1
	}
	return slices.Index(s.made.By, flange)
}

// FlangePanel is the panel of a flange next to its bend; the base's for -1. It is -1 where nothing is made.
func (s *Session) FlangePanel(flange int) int {
	switch {
	case !s.part.Foldable:
		return -1
	case flange < 0:
		return s.part.Base
	}
	b := s.FlangeBend(flange)
	if b < 0 || b >= len(s.part.Bends) {
		return -1
	}
	return s.part.Bends[b].B
}

// Side is a side of the base or of a flange, on which a flange stands or may be raised.
type Side struct {
	On, Side string
	Label    string // "front", "top of front"
	Flange   int    // that stands on it, the first of several; -1 where it is free
}

// Sides are the sides of a panel by its name; all of the part's for "".
func (s *Session) Sides(on string) []Side {
	f := s.spec.Sizes
	if f == nil {
		return nil
	}
	var out []Side
	add := func(on, side, label string) {
		at := slices.IndexFunc(f.Flanges, func(l sizes.Flange) bool { return l.On == on && sideOf(f, &l) == side })
		out = append(out, Side{on, side, label, at})
	}
	if base := baseName(f); on == "" || on == base {
		for i := range baseSides(&f.Base) {
			add(base, sideName(&f.Base, i), sideName(&f.Base, i))
		}
	}
	for i := range f.Flanges {
		l := &f.Flanges[i]
		if on != "" && on != l.Name || l.Hem != nil {
			continue
		}
		for _, side := range topSides(l) {
			add(l.Name, side, side+" of "+l.Name)
		}
		add(l.Name, "start", "start of "+l.Name)
		add(l.Name, "end", "end of "+l.Name)
	}
	return out
}

// topSides are the straight pieces of a flange's free edge along its bend.
func topSides(l *sizes.Flange) []string {
	out := []string{"top"}
	n := 1
	for i := 1; i < len(l.Edge); i++ {
		if l.Edge[i].Through {
			continue
		}
		if n++; n > 2 {
			out = append(out, fmt.Sprintf("top %d", n-1))
		}
	}
	return out
}

// Sizes of a flange that is raised where no other shows how (mm, or in for parts in inches): a lip that fingers
// can hold, a wall of a low tray. Common practice, no source.
const (
	newWall, newWallInch = 30, 1.25
	newLip, newLipInch   = 12, 0.5
)

// AddFlange raises a flange on a side of the base or of a flange, sized as its neighbours are; it gives the
// flange's index. Where the usual height makes no part lower ones are tried.
func (s *Session) AddFlange(on, side string) (int, error) {
	f := s.spec.Sizes
	if f == nil {
		return -1, errNoSizes
	}
	l := sizes.Flange{On: on, Side: side}
	if !panelNamed(f, on) {
		return -1, fmt.Errorf("there is no panel %s any more", quoted(on))
	}
	i := slices.IndexFunc(s.Sides(on), func(x Side) bool { return x.Side == side })
	if i < 0 {
		return -1, fmt.Errorf("%s has no side %s", Title(on), quoted(side))
	}
	if at := s.Sides(on)[i].Flange; at >= 0 {
		return -1, fmt.Errorf("%s stands on that side already: change it, or delete it first", Title(f.Flanges[at].Name))
	}
	k := 1.0
	wall, lip := float64(newWall), float64(newLip)
	if s.spec.Units == fold.Inch {
		wall, lip, k = newWallInch, newLipInch, 1/25.4
	}
	onBase := on == baseName(f)
	switch {
	case onBase:
		l.Name, l.Height = side, sizes.Is(wall)
	case strings.HasPrefix(side, "top"):
		// A lip turned out: away from the inside of what it stands on.
		l.Name, l.Height, l.Down = on+" lip", sizes.Is(lip), true
	default:
		l.Name, l.Height = on+" tab", sizes.Is(lip)
	}
	// As another on the like side is.
	for _, o := range f.Flanges {
		if o.Hem == nil && (o.On == baseName(f)) == onBase && sideKind(sideOf(f, &o)) == sideKind(side) {
			l.Height, l.Along, l.Faces, l.Angle, l.Down, l.Radius, l.RadiusFrom = o.Height, o.Along, o.Faces, o.Angle, o.Down, o.Radius, o.RadiusFrom
			break
		}
	}
	l.Name = freeName(l.Name, func(n string) bool { return panelNamed(f, n) })
	var err error
	for range 4 {
		form := f.Clone()
		form.Flanges = append(form.Flanges, l)
		next := s.spec
		next.Sizes = form
		if !onBase {
			next.Order = orderBefore(next.Order, on, l.Name)
		}
		var e *noPart
		if err = s.change(next); err == nil {
			return len(f.Flanges), nil
		}
		if !errors.As(err, &e) || !strings.HasPrefix(e.problems[0].Path, at("sizes.flanges", len(f.Flanges))) {
			break
		}
		h, ok := s.num(l.Height)
		if !ok {
			break
		}
		l.Height = sizes.Is(nice(h/2, k))
	}
	return -1, err
}

// sideKind tells the sides of flanges apart by what usually stands there; base's sides are all alike.
func sideKind(side string) string {
	switch {
	case strings.HasPrefix(side, "top"):
		return "top"
	case side == "start", side == "end":
		return "end"
	}
	return ""
}

// orderBefore puts a bend before another in an order, where that one is named: what is turned on a flange
// is bent before the flange itself.
func orderBefore(order []fold.Step, bend, name string) []fold.Step {
	i := slices.IndexFunc(order, func(st fold.Step) bool { return slices.Contains(st.Bends, bend) })
	if i < 0 {
		return order
	}
	return slices.Insert(slices.Clone(order), i, fold.Step{Bends: []string{name}})
}

// nice rounds a size to half mm, or to 1/32 in where k is under 1.
func nice(x, k float64) float64 {
	step := 0.5
	if k < 1 {
		step = 1.0 / 32
	}
	return max(step, math.Round(x/step)*step)
}

// num is what a field comes to in the part's units or degrees.
func (s *Session) num(f sizes.Field) (float64, bool) {
	v, _ := s.spec.Sizes.Values(s.spec.Units.Scale())
	x, err := v.Num(f)
	return x, err == nil
}

func at(list string, i int) string { return fmt.Sprintf("%s[%d]", list, i) }

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
// and a tenth: so much that another sheet lies flush beside it.
func (s *Session) SetFlangeJoggle(flange int, kind JoggleKind) error {
	return s.EditFlange(flange, "joggle", func(l *sizes.Flange) error {
		switch {
		case kind == NoJoggle:
			l.Joggle = nil
		case l.Joggle == nil:
			h, ok := s.num(l.Height)
			if !ok {
				return errors.New("the flange's height is wanted first")
			}
			t := s.spec.Sheet.Thickness
			l.Joggle = &sizes.Joggle{At: sizes.Is(nice(h/2, 1/s.spec.Units.Scale())), Depth: sizes.Is(tidy(1.1 * t))}
		}
		if l.Joggle != nil {
			l.Joggle.Out = kind == JoggleOut
		}
		return nil
	})
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

// RenameFlange gives a flange another name; all that names it follows, the order too. -1 is the base.
func (s *Session) RenameFlange(flange int, text string) error {
	return s.renameFlange(FlangeField(flange, "name"), flange, text)
}

func (s *Session) renameFlange(field string, flange int, text string) error {
	f := s.spec.Sizes
	if f == nil || flange >= len(f.Flanges) {
		return errNoSizes
	}
	name, err := readName(text)
	if err == nil && name == "" {
		err = errors.New("a panel wants a name, as left or floor")
	}
	old := baseName(f)
	if flange >= 0 {
		old = f.Flanges[flange].Name
	}
	if err == nil && name != old && panelNamed(f, name) {
		err = fmt.Errorf("another panel is called %s already. Another name would do", quoted(name))
	}
	if err != nil {
		return s.refuse(field, text, err)
	}
	next := s.spec
	next.Sizes = f.Clone()
	renameIn(next.Sizes, old, name)
	next.Order = s.orderAs(next)
	return s.take(field, text, next)
}

// orderAs is the open part's order for a form with the same bends, by the names that they have there.
func (s *Session) orderAs(next fold.Spec) []fold.Step {
	order := s.spec.Order
	if s.made == nil || len(order) == 0 {
		return order
	}
	made, problems := shape.Make(next)
	if len(problems) > 0 || len(made.Spec.Bends) != len(s.spec.Bends) {
		return order
	}
	var out []fold.Step
	names := map[string]string{}
	for i, b := range s.part.Bends {
		names[b.Name] = made.Spec.Bends[i].Name
	}
	for _, st := range order {
		st.Bends = slices.Clone(st.Bends)
		for k, b := range st.Bends {
			if n, ok := names[b]; ok {
				st.Bends[k] = n
			}
		}
		out = append(out, st)
	}
	return out
}

// Depends says what goes with a flange when it is deleted: "front lip", "its corner with left", "hole 3"; nil for none.
func (s *Session) Depends(name string) []string {
	f := s.spec.Sizes
	if f == nil {
		return nil
	}
	gone := map[string]bool{}
	var out []string
	for k, i := range standing(f, name) {
		gone[f.Flanges[i].Name] = true
		if k > 0 {
			out = append(out, f.Flanges[i].Name)
		}
	}
	for _, c := range f.Corners {
		switch {
		case gone[c.A] && gone[c.B]:
			out = append(out, "the corner of "+c.A+" and "+c.B)
		case c.A == name:
			out = append(out, "its corner with "+c.B)
		case c.B == name:
			out = append(out, "its corner with "+c.A)
		case gone[c.A] || gone[c.B]:
			out = append(out, "the corner of "+c.A+" and "+c.B)
		}
	}
	for i, h := range f.Holes {
		if gone[h.On] {
			out = append(out, holeCalled(f, i))
		}
	}
	return out
}

// DeleteFlange takes a flange away with all that Depends names.
func (s *Session) DeleteFlange(name string) error {
	f := s.spec.Sizes
	if f == nil {
		return errNoSizes
	}
	if flangeNamed(f, name) < 0 {
		return fmt.Errorf("there is no flange %s any more", quoted(name))
	}
	gone := map[string]bool{}
	for _, i := range standing(f, name) {
		gone[f.Flanges[i].Name] = true
	}
	next := s.spec
	form := f.Clone()
	form.Flanges = slices.DeleteFunc(form.Flanges, func(l sizes.Flange) bool { return gone[l.Name] })
	form.Corners = slices.DeleteFunc(form.Corners, func(c sizes.Corner) bool { return gone[c.A] || gone[c.B] })
	form.Holes = slices.DeleteFunc(form.Holes, func(h sizes.Hole) bool { return gone[h.On] })
	form.Flanges, form.Corners, form.Holes = orNil(form.Flanges), orNil(form.Corners), orNil(form.Holes)
	next.Sizes = form
	for i := range s.spec.Bends {
		if at := s.BendFlange(i); at >= 0 && gone[f.Flanges[at].Name] {
			next.Order = orderRenamed(next.Order, s.part.Bends[i].Name, "")
		}
	}
	return s.change(next)
}

// orNil is nil for an empty list, as files that are read give it.
func orNil[T any](list []T) []T {
	if len(list) == 0 {
		return nil
	}
	return list
}
