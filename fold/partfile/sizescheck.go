// What the sizes of a part by sizes must hold, each by itself. Whether they make a
// part is fold/shape's matter.

package partfile

import (
	"fmt"
	"slices"
	"strconv"

	"dryfold/fold"
	"dryfold/fold/sizes"
)

// floorName is the base's name where it has none of its own.
const floorName = "floor"

var sizeNameNeed = "a name of 1 to " + strconv.Itoa(sizes.MaxNameLength) + " letters, digits and _, beginning with a letter"

func madeNeed() string { return "a whole number from 1 to " + strconv.Itoa(sizes.MaxMade) }
func pointsFound() string {
	return fmt.Sprintf("more than %d points in all outlines together", sizes.MaxPoints)
}
func pointsMost() string  { return fmt.Sprintf("at most %d", sizes.MaxPoints) }
func formulaNeed() string { return fmt.Sprintf("a formula of up to %d characters", sizes.MaxFormula) }

// The ranges of a form's sizes.
func sizeBound(u fold.Units) bound { return lengthBound(u, "a size", fold.MinSize) }
func fromBound(u fold.Units) bound { return lengthBound(u, "a length", 0) }
func leanBound() bound {
	return bound{what: "an angle from square", lo: -maxLean, hi: maxLean, scale: 1, unit: " degrees"}
}
func joggleBound() bound {
	return bound{what: "an angle", hi: 90, over: true, scale: 1, unit: " degrees"}
}
func turnBound() bound {
	return bound{what: "an angle", lo: -360, hi: 360, scale: 1, unit: " degrees"}
}
func cornerBound() bound {
	return bound{what: "an angle between two sides", hi: maxBetween, over: true, scale: 1, unit: " degrees"}
}

// form judges the sizes.
func (c *checker) form(p *path, f *sizes.Form) {
	u := c.spec.Units
	c.most(p.field("named"), len(f.Named), sizes.MaxNamed)
	c.most(p.field("flanges"), len(f.Flanges), sizes.MaxFlanges)
	c.most(p.field("corners"), len(f.Corners), sizes.MaxCorners)
	c.most(p.field("holes"), len(f.Holes), sizes.MaxHoles)
	if c.err != nil {
		return
	}
	values, wrong := f.Values(u.Scale())
	if wrong != nil {
		c.err = &Error{Path: wrong[0].Path, Found: wrong[0].Found, Need: wrong[0].Need}
		return
	}
	c.values = values
	for i, n := range f.Named {
		q := p.field("named").item(i)
		if n.Label != "" {
			c.name(q.field("label"), n.Label)
		}
		b := placeBound(u)
		if n.Angle {
			b = turnBound()
		}
		c.need(q.field("is"), n.Is, b)
	}
	c.enum(p.field("faces"), int(f.Faces), sizes.FacesWords)
	c.size(p.field("radius"), f.Radius, radiusBound(u))
	c.size(p.field("gap"), f.Gap, gapBound(u))
	c.relief(p.field("relief"), f.Relief)
	c.sizedBase(p.field("base"), f.Base)
	c.flanges(p.field("flanges"), f)
	for i, k := range f.Corners {
		if c.err != nil {
			return
		}
		c.corner(p.field("corners").item(i), k)
	}
	c.sizedHoles(p.field("holes"), f)
}

// size judges a size, where one is given; need one that has to be.
func (c *checker) size(p *path, f sizes.Field, b bound) {
	switch {
	case c.err != nil || !f.Given:
	case f.Formula == "":
		c.number(p, f.Number, b)
	default:
		c.string(p, f.Formula, 1, sizes.MaxFormula, "", formulaNeed())
		if c.err != nil {
			return
		}
		if v, e := c.values.At("", f); e != nil {
			c.fail(p, e.Found, e.Need)
		} else if !b.holds(v) {
			c.fail(p, quote(f.Formula)+", which is "+number(v), b.need())
		}
	}
}

func (c *checker) need(p *path, f sizes.Field, b bound) {
	if !f.Given {
		c.fail(p, "nothing", b.need()+`, or a formula as "rail - 12"`)
	}
	c.size(p, f, b)
}

func (c *checker) enum(p *path, v int, words []string) {
	if v < 0 || v >= len(words) {
		c.fail(p, strconv.Itoa(v), wordsNeed(words))
	}
}

func (c *checker) relief(p *path, r sizes.Relief) {
	c.enum(p.field("kind"), int(r.Kind), sizes.ReliefWords)
	c.size(p.field("size"), r.Size, fromBound(c.spec.Units))
}

func (c *checker) sizedBase(p *path, b sizes.Base) {
	u := c.spec.Units
	if b.Name != "" {
		c.name(p.field("name"), b.Name)
	}
	c.most(p.field("sides"), len(b.Sides), sizes.MaxSides)
	for i, s := range b.Sides {
		if c.err != nil {
			return
		}
		q := p.field("sides").item(i)
		c.name(q, s)
		if first := slices.Index(b.Sides[:i], s); first >= 0 {
			c.fail(q, "the name "+quote(s)+" a second time", "a name that "+p.field("sides").item(first).String()+" does not have")
		}
	}
	plain := b.Wide.Given || b.WideBack.Given || b.Long.Given
	ways := 0
	for _, given := range []bool{plain, b.Points != nil, b.Measured != nil} {
		if given {
			ways++
		}
	}
	switch {
	case ways == 0:
		c.fail(p, "nothing", baseSizeNeed)
	case ways > 1:
		c.fail(p, "a base given in "+strconv.Itoa(ways)+" ways", "one of "+baseWays)
	case plain:
		c.need(p.field("wide"), b.Wide, sizeBound(u))
		c.size(p.field("wide_back"), b.WideBack, sizeBound(u))
		c.need(p.field("long"), b.Long, sizeBound(u))
	case b.Measured != nil:
		c.measured(p.field("measured"), *b.Measured)
	default:
		c.outline(p.field("points"), b.Points)
	}
}

func (c *checker) measured(p *path, m sizes.Measured) {
	u := c.spec.Units
	c.enum(p.field("way"), int(m.Way), sizes.WayWords)
	each := func(key string, all []sizes.Field, b bound) {
		q := p.field(key)
		c.most(q, len(all), sizes.MaxSides)
		for i, f := range all {
			if c.err != nil {
				return
			}
			c.size(q.item(i), f, b)
		}
	}
	each("sides", m.Sides, sizeBound(u))
	each("diagonals", m.Diagonals, sizeBound(u))
	each("angles", m.Angles, cornerBound())
	c.most(p.field("stations"), len(m.Stations), sizes.MaxSides)
	for i, s := range m.Stations {
		if c.err != nil {
			return
		}
		q := p.field("stations").item(i)
		c.need(q.field("at"), s.At, placeBound(u))
		c.size(q.field("left"), s.Left, placeBound(u))
		c.size(q.field("right"), s.Right, placeBound(u))
		c.size(q.field("wide"), s.Wide, fromBound(u))
	}
}

// flanges judges the flanges; what they stand on is asked when they are made.
func (c *checker) flanges(p *path, f *sizes.Form) {
	taken := map[string]bool{f.Base.Name: true}
	if f.Base.Name == "" {
		taken[floorName] = true
	}
	for i, l := range f.Flanges {
		if c.err != nil {
			return
		}
		q := p.item(i)
		c.name(q.field("name"), l.Name)
		for _, name := range flangeNames(l) {
			if taken[name] {
				c.fail(q.field("name"), "the name "+quote(name)+" a second time", "a name that no other panel or bend has")
			}
			taken[name] = true
		}
		c.flange(q, l)
	}
}

// flangeNames are the names that a flange takes: its own, which its bend bears too, and those of a joggle's panels and bends.
func flangeNames(l sizes.Flange) []string {
	all := []string{l.Name}
	if l.Joggle != nil {
		all = append(all, l.Name+" joggle", l.Name+" beyond", l.Name+" joggle 1", l.Name+" joggle 2")
	}
	return all
}

func (c *checker) flange(p *path, l sizes.Flange) {
	u := c.spec.Units
	c.name(p.field("on"), l.On)
	if l.Side != "" {
		c.name(p.field("side"), l.Side)
	}
	c.size(p.field("from"), l.From, placeBound(u))
	c.size(p.field("to"), l.To, placeBound(u))
	if l.Edge == nil {
		c.need(p.field("height"), l.Height, sizeBound(u))
	} else {
		c.size(p.field("height"), l.Height, sizeBound(u))
	}
	if l.Faces != nil {
		c.enum(p.field("faces"), int(*l.Faces), sizes.FacesWords)
	}
	c.size(p.field("angle"), l.Angle, angleBound())
	c.size(p.field("radius"), l.Radius, radiusBound(u))
	if l.RadiusFrom != "" && !slices.Contains(fold.RadiusKnown, l.RadiusFrom) {
		c.fail(p.field("radius_from"), "the text "+quote(l.RadiusFrom), radiusFromNeed())
	}
	c.size(p.field("height_end"), l.HeightEnd, fromBound(u))
	c.edge(p.field("edge"), l.Edge)
	c.size(p.field("lean_start"), l.LeanStart, leanBound())
	c.size(p.field("lean_end"), l.LeanEnd, leanBound())
	if h := l.Hem; h != nil {
		for _, k := range []struct {
			key   string
			given bool
		}{{"angle", l.Angle.Given}, {"radius", l.Radius.Given}} {
			if k.given {
				c.fail(p.field(k.key), "the "+k.key+" of a hem", "none: a hem is turned right back, and its hem.clear says how far it stays open")
			}
		}
		c.size(p.field("hem").field("clear"), h.Clear, gapBound(u))
	}
	if j := l.Joggle; j != nil {
		q := p.field("joggle")
		c.need(q.field("at"), j.At, fromBound(u))
		c.need(q.field("depth"), j.Depth, sizeBound(u))
		c.size(q.field("angle"), j.Angle, joggleBound())
	}
}

func (c *checker) corner(p *path, k sizes.Corner) {
	u := c.spec.Units
	c.name(p.field("a"), k.A)
	c.name(p.field("b"), k.B)
	if k.A == k.B {
		c.fail(p.field("b"), quote(k.B)+" twice", "two different flanges")
	}
	c.enum(p.field("close"), int(k.Close), sizes.CloseWords)
	if k.Over != "" && k.Over != k.A && k.Over != k.B {
		c.fail(p.field("over"), "the text "+quote(k.Over), "the flange that runs on over the other: "+oneOf([]string{k.A, k.B}))
	}
	c.size(p.field("past"), k.Past, placeBound(u))
	c.size(p.field("gap"), k.Gap, gapBound(u))
	if k.Relief != nil {
		c.relief(p.field("relief"), *k.Relief)
	}
}

// sizedHoles judges the holes, and how many their patterns make.
func (c *checker) sizedHoles(p *path, f *sizes.Form) {
	made, points := 0, 0
	for i, h := range f.Holes {
		if c.err != nil {
			return
		}
		q := p.item(i)
		c.sizedHole(q, h)
		n := max(h.Count, 1) * max(h.Rows, 1)
		if h.Mirrored {
			n *= 2
		}
		made += n
		points += n * len(h.Points)
		if made > sizes.MaxMade {
			c.fail(q, fmt.Sprintf("more than %d holes in all patterns together", sizes.MaxMade), fmt.Sprintf("at most %d", sizes.MaxMade))
		}
		if points > sizes.MaxPoints {
			c.fail(q.field("points"), pointsFound()+", each hole of a pattern counted", pointsMost())
		}
	}
}

func (c *checker) sizedHole(p *path, h sizes.Hole) {
	u := c.spec.Units
	if h.Name != "" {
		c.name(p.field("name"), h.Name)
	}
	c.name(p.field("on"), h.On)
	if h.Side != "" {
		c.name(p.field("side"), h.Side)
	}
	c.size(p.field("x"), h.X, placeBound(u))
	c.size(p.field("y"), h.Y, placeBound(u))
	c.enum(p.field("shape"), int(h.Shape), sizes.ShapeWords)
	if c.err != nil {
		return
	}
	if h.Shape == sizes.Cutout {
		c.outline(p.field("points"), h.Points)
	} else {
		if h.Points != nil {
			c.fail(p.field("points"), "the outline of a "+holeWord(h.Shape), `none, or the shape "cutout"`)
		}
		c.need(p.field("wide"), h.Wide, sizeBound(u))
		if h.Shape != sizes.Round {
			c.need(p.field("long"), h.Long, sizeBound(u))
		}
	}
	if h.Drilled && h.Shape != sizes.Round && h.Shape != sizes.Slot {
		c.fail(p.field("drilled"), "a drilled "+holeWord(h.Shape), `the shape "round" or "slot", whose width a drill can make`)
	}
	c.size(p.field("wide"), h.Wide, sizeBound(u))
	c.size(p.field("long"), h.Long, sizeBound(u))
	c.size(p.field("turn"), h.Turn, turnBound())
	for _, n := range []struct {
		key string
		n   int
	}{{"count", h.Count}, {"rows", h.Rows}} {
		if n.n < 0 || n.n > sizes.MaxMade {
			c.fail(p.field(n.key), strconv.Itoa(n.n), madeNeed())
		}
	}
	c.size(p.field("step"), h.Step, placeBound(u))
	c.size(p.field("row_step"), h.RowStep, placeBound(u))
}

func holeWord(s sizes.HoleShape) string {
	if s == sizes.Round {
		return "round hole"
	}
	return sizes.ShapeWords[s]
}

// outline judges a closed outline, edge one that runs from start to end.
func (c *checker) outline(p *path, all []sizes.Point) {
	arcs := 0
	for _, v := range all {
		if v.Through {
			arcs++
		}
	}
	if len(all) < 2 || len(all) < 3 && arcs == 0 {
		c.fail(p, fmt.Sprintf("an outline of %d points", len(all)), contourNeed)
	}
	c.sizedPoints(p, all)
}

func (c *checker) edge(p *path, all []sizes.Point) {
	switch {
	case all == nil:
		return
	case len(all) < 2:
		c.fail(p, fmt.Sprintf("an edge of %d points", len(all)), "at least 2 points [x, y], from the side's start to its end")
	case all[0].Through:
		c.fail(p.item(0), "an arc", "a point [x, y] to begin with")
	}
	c.sizedPoints(p, all)
}

func (c *checker) sizedPoints(p *path, all []sizes.Point) {
	if c.points += len(all); c.points > sizes.MaxPoints {
		c.fail(p, pointsFound(), pointsMost())
	}
	b := placeBound(c.spec.Units)
	both := func(p *path, x, y sizes.Field) {
		c.need(p.item(0), x, b)
		c.need(p.item(1), y, b)
	}
	for i, v := range all {
		if c.err != nil {
			return
		}
		q := p.item(i)
		if v.Through {
			both(q.field("through"), v.ThX, v.ThY)
			q = q.field("to")
		}
		both(q, v.X, v.Y)
	}
}

// flangeBends are the flanges' bends by name, with the angle that each is known to have; maxAngle
// where that is known only once it is made.
func (c *checker) flangeBends(f *sizes.Form) (all []fold.BendSpec) {
	if c.err != nil {
		return nil
	}
	for _, l := range f.Flanges {
		b := fold.BendSpec{Name: l.Name, Angle: 90}
		switch {
		case l.Hem != nil && l.Hem.Teardrop:
			b.Angle = maxAngle
		case l.Hem != nil:
			b.Angle = 180
		case l.Angle.Given:
			b.Angle, _ = c.values.At("", l.Angle)
		}
		all = append(all, b)
		if j := l.Joggle; j != nil { // its two bends, as they are called once it is made
			angle := 45.0
			if j.Angle.Given {
				angle, _ = c.values.At("", j.Angle)
			}
			for _, end := range []string{" joggle 1", " joggle 2"} {
				all = append(all, fold.BendSpec{Name: l.Name + end, Angle: angle})
			}
		}
	}
	return all
}
