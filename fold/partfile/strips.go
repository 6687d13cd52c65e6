// Test bends, in a part file or a bench's: read, judged, written.

package partfile

import (
	"dryfold/fold"
	"dryfold/fold/metal"
)

var stripFields = []string{"name", "metal", "brake", "thickness", "length", "legs", "inside", "calliper", "angle", "set", "radius", "nose"}

const (
	stripNeed = `a test bend: {"metal": "...", "thickness": ..., "length": ..., "legs": [a, b], "angle": ...}`
	legsNeed  = "the two legs as measured, [a, b]"
)

func (d *decoder) strips(p *path) (all []metal.Strip) {
	d.list(p, "a list of test bends", func(i int, p *path) {
		if d.room(p, i, fold.MaxTests, "test bends") {
			all = append(all, d.strip(p))
		}
	})
	return all
}

func (d *decoder) strip(p *path) (s metal.Strip) {
	u := d.units
	seen := d.object(p, stripNeed, stripFields, func(key string, p *path) {
		switch key {
		case "name":
			s.Name = d.word(p, nameNeed)
		case "metal":
			s.Metal = d.word(p, nameNeed)
		case "brake":
			s.Brake = d.word(p, nameNeed)
		case "thickness":
			s.Thickness = d.thickness(p)
		case "length":
			s.Length = d.given(p, stripBound(u))
		case "legs":
			s.Legs = two(d, p, legsNeed, func(p *path) float64 { return d.given(p, legBound(u)) })
		case "inside":
			s.Inside = d.flag(p, boolNeed)
		case "calliper":
			s.Calliper = d.flag(p, boolNeed)
		case "angle":
			s.Angle = d.number(p, stripAngleBound().need)
		case "set":
			s.Set = d.optional(p, setBound())
		case "radius":
			s.Radius = d.optional(p, radiusBound(u))
		case "nose":
			s.Nose = d.given(p, noseBound(u))
		}
	})
	d.require(p, stripFields, seen, "thickness", thicknessBound(u).need())
	d.require(p, stripFields, seen, "angle", stripAngleBound().need())
	return s
}

func (c *checker) strips(p *path, all []metal.Strip, u fold.Units) {
	c.most(p, len(all), fold.MaxTests)
	for i, s := range all {
		if c.err != nil {
			return
		}
		c.strip(p.item(i), s, u)
	}
}

// strip judges one test bend by itself; whether several agree is not asked here.
func (c *checker) strip(p *path, s metal.Strip, u fold.Units) {
	for _, n := range [][2]string{{"name", s.Name}, {"metal", s.Metal}, {"brake", s.Brake}} {
		if n[1] != "" {
			c.name(p.field(n[0]), n[1])
		}
	}
	c.number(p.field("thickness"), s.Thickness, thicknessBound(u))
	c.figure(p.field("length"), s.Length, stripBound(u))
	legs := s.Legs != [2]float64{}
	switch {
	case legs && s.Length == 0:
		c.fail(p.field("length"), "nothing", "the strip's length before it was bent, since its legs are given")
	case legs:
		c.number(p.field("legs").item(0), s.Legs[0], legBound(u))
		c.number(p.field("legs").item(1), s.Legs[1], legBound(u))
	case s.Length != 0:
		c.fail(p.field("legs"), "nothing", legsNeed+", since the strip's length is given")
	}
	c.number(p.field("angle"), s.Angle, stripAngleBound())
	c.optional(p.field("set"), s.Set, setBound())
	c.optional(p.field("radius"), s.Radius, radiusBound(u))
	c.figure(p.field("nose"), s.Nose, noseBound(u))
	if s.Length == 0 && s.Set == nil {
		c.fail(p.field("length"), "nothing", "the strip's length and its two legs, or the set angle, or all of them")
	}
	if c.err != nil {
		return
	}
	if e, ok := scaled(s, u.Scale()).Check().(*metal.StripError); ok {
		q := p.field(e.Field)
		for i, field := range []string{"legs[0]", "legs[1]"} {
			if e.Field == field {
				q = p.field("legs").item(i)
			}
		}
		c.fail(q, fold.InUnits(e.Found, u), "what a test bend can give: "+fold.InUnits(e.Need, u))
	}
}

// scaled is the test bend with its lengths times k.
func scaled(s metal.Strip, k float64) metal.Strip {
	s.Thickness *= k
	s.Length *= k
	s.Legs[0] *= k
	s.Legs[1] *= k
	s.Nose *= k
	if s.Radius != nil {
		r := *s.Radius * k
		s.Radius = &r
	}
	return s
}

// stripText is a test bend in one line, its lengths written by length.
func stripText(s metal.Strip, length func(float64) string) string {
	given := func(v float64) string {
		if v == 0 {
			return ""
		}
		return length(v)
	}
	radius, inside, calliper := "", "", ""
	if s.Radius != nil {
		radius = length(*s.Radius)
	}
	if s.Inside {
		inside = "true"
	}
	if s.Calliper {
		calliper = "true"
	}
	return object("name", maybe(s.Name), "metal", maybe(s.Metal), "brake", maybe(s.Brake),
		"thickness", length(s.Thickness), "length", given(s.Length), "legs", pair(s.Legs, length), "inside", inside, "calliper", calliper,
		"angle", number(s.Angle), "set", optional(s.Set), "radius", radius, "nose", given(s.Nose))
}
