package session

// This file raises the flanges of a part by sizes, and finds them on the part that is made.
// sizesflangeset.go holds their choices, sizesrename.go names them and takes them away,
// sizescopy.go copies them.

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"dryfold/fold"
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
		for _, side := range s.baseSideNames() {
			add(base, side, side)
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
	wall, lip, hook := float64(newWall), float64(newLip), float64(newHook)
	if s.spec.Units == fold.Inch {
		wall, lip, hook, k = newWallInch, newLipInch, newHookInch, 1/25.4
	}
	where := s.places(f)
	stands := where.of(on)
	parent := flangeNamed(f, on)
	switch {
	case parent < 0:
		l.Name, l.Height = side, sizes.Is(wall)
	case stands == floorPlace:
		l.Name, l.Height = map[bool]string{false: on + " " + side, true: on + " wall"}[strings.HasPrefix(side, "top")], sizes.Is(wall)
	case strings.HasPrefix(side, "top") && stands == wallPlace:
		// A lip turned out, level: away from the inside of what it stands on.
		l.Name, l.Height, l.Along, l.Down, l.Angle = on+" lip", sizes.Is(lip), true, !f.Flanges[parent].Down, f.Flanges[parent].Angle
	case strings.HasPrefix(side, "top"):
		// Turned on, as the lip is.
		l.Name, l.Height, l.Along, l.Down = hookOn(on), sizes.Is(hook), true, f.Flanges[parent].Down
	default:
		l.Name, l.Height, l.Along = on+" tab", sizes.Is(lip), true
	}
	// As another on the like side of a like panel is.
	for i := range f.Flanges {
		o := &f.Flanges[i]
		if o.Hem == nil && where.of(o.On) == stands && !(stands == floorPlace && where.rises(o)) && (stands == floorPlace || sideKind(sideOf(f, o)) == sideKind(side)) {
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
		if parent >= 0 {
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

// hookOn names what is turned on a lip: "front hook" on "front lip", and so on.
func hookOn(on string) string {
	if wall, ok := strings.CutSuffix(on, " lip"); ok {
		return wall + " hook"
	}
	if wall, ok := strings.CutSuffix(on, " hook"); ok {
		return wall + " edge"
	}
	return on + " lip"
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
