// A part by sizes, in a part file: its form read. sizescheck.go judges it,
// sizeswrite.go writes it. The fields are those of sizes.Form.

package partfile

import (
	"dryfold/fold"
	"dryfold/fold/sizes"
)

var (
	formFields     = []string{"named", "faces", "radius", "gap", "relief", "mirror", "base", "flanges", "corners", "holes"}
	namedFields    = []string{"name", "is", "label", "angle"}
	baseFields     = []string{"name", "sides", "at_top", "wide", "wide_back", "long", "points", "measured"}
	measuredFields = []string{"way", "sides", "diagonals", "angles", "stations"}
	stationFields  = []string{"at", "left", "right", "wide"}
	reliefFields   = []string{"kind", "size"}
)

const (
	sizesNeed    = `the sizes: {"base": {"wide": ..., "long": ...}, "flanges": [...]}`
	baseWays     = `{"wide": ..., "long": ...}, {"points": [[x, y], ...]} or {"measured": {...}}`
	baseSizeNeed = "the base: " + baseWays
	measuredNeed = `what was measured: {"way": "sides", "sides": [...], "diagonals": [...]}`
	stationNeed  = `a station: {"at": ..., "wide": ...} or {"at": ..., "left": ..., "right": ...}`
	namedNeed    = `a named size: {"name": "rail", "is": ...}`
	reliefNeed   = `a relief: {"kind": "drilled", "size": ...}`
	lengthNeed   = `a length, or a formula as "rail - 12"`
	degreesNeed  = `an angle in degrees, or a formula as "90 - lean"`
	// unread stands in a list of measured sizes for one that was not measured.
	unread = "?"
)

// wordsNeed lists the words that a field may be.
func wordsNeed(words []string) string {
	if words[0] == "" {
		words = words[1:]
	}
	return "one of " + oneOf(words)
}

// enum takes one of the words: its place among them.
func (d *decoder) enum(p *path, words []string) int {
	need := wordsNeed(words)
	t := d.word(p, need)
	for i, w := range words {
		if w == t {
			return i
		}
	}
	d.fail(p, "the text "+quote(t), need)
	return 0
}

// length takes a length, degrees an angle: a number or a formula.
func (d *decoder) length(p *path) sizes.Field  { return d.size(p, lengthNeed) }
func (d *decoder) degrees(p *path) sizes.Field { return d.size(p, degreesNeed) }

func (d *decoder) size(p *path, need string) sizes.Field {
	if d.err == nil && d.kind() == '"' {
		return sizes.Of(d.word(p, need))
	}
	return sizes.Is(d.number(p, func() string { return need }))
}

// sizeList takes a list of sizes, of which some may not have been measured.
func (d *decoder) sizeList(p *path, one string) (all []sizes.Field) {
	d.list(p, "a list: each "+one+`, or "`+unread+`" where it was not measured`, func(i int, p *path) {
		if !d.room(p, i, sizes.MaxSides, "entries") {
			return
		}
		f := d.size(p, one+`, or "`+unread+`" where it was not measured`)
		if f.Formula == unread {
			f = sizes.Field{}
		}
		all = append(all, f)
	})
	return all
}

func (d *decoder) form(p *path) *sizes.Form {
	f := &sizes.Form{}
	seen := d.object(p, sizesNeed, formFields, func(key string, p *path) {
		switch key {
		case "named":
			d.list(p, "a list of named sizes", func(i int, p *path) {
				if d.room(p, i, sizes.MaxNamed, "named sizes") {
					f.Named = append(f.Named, d.named(p))
				}
			})
		case "faces":
			f.Faces = sizes.Faces(d.enum(p, sizes.FacesWords))
		case "radius":
			f.Radius = d.length(p)
		case "gap":
			f.Gap = d.length(p)
		case "relief":
			f.Relief = d.relief(p)
		case "mirror":
			f.Mirror = d.flag(p, boolNeed)
		case "base":
			f.Base = d.sizedBase(p)
		case "flanges":
			d.list(p, "a list of flanges", func(i int, p *path) {
				if d.room(p, i, sizes.MaxFlanges, "flanges") {
					f.Flanges = append(f.Flanges, d.flange(p))
				}
			})
		case "corners":
			d.list(p, "a list of corners", func(i int, p *path) {
				if d.room(p, i, sizes.MaxCorners, "corners") {
					f.Corners = append(f.Corners, d.corner(p))
				}
			})
		case "holes":
			d.list(p, "a list of holes", func(i int, p *path) {
				if d.room(p, i, sizes.MaxHoles, "holes and patterns of holes") {
					f.Holes = append(f.Holes, d.sizedHole(p))
				}
			})
		}
	})
	d.require(p, formFields, seen, "base", baseSizeNeed)
	return f
}

func (d *decoder) named(p *path) (n sizes.Named) {
	seen := d.object(p, namedNeed, namedFields, func(key string, p *path) {
		switch key {
		case "name":
			n.Name = d.text(p, sizeNameNeed)
		case "is":
			n.Is = d.size(p, `a number, or a formula as "rail - 12"`)
		case "label":
			n.Label = d.word(p, nameNeed)
		case "angle":
			n.Angle = d.flag(p, boolNeed)
		}
	})
	d.require(p, namedFields, seen, "name", sizeNameNeed)
	d.require(p, namedFields, seen, "is", `a number, or a formula as "rail - 12"`)
	return n
}

func (d *decoder) relief(p *path) (r sizes.Relief) {
	seen := d.object(p, reliefNeed, reliefFields, func(key string, p *path) {
		if key == "kind" {
			r.Kind = sizes.ReliefKind(d.enum(p, sizes.ReliefWords))
		} else {
			r.Size = d.length(p)
		}
	})
	d.require(p, reliefFields, seen, "kind", wordsNeed(sizes.ReliefWords))
	return r
}

func (d *decoder) sizedBase(p *path) (b sizes.Base) {
	d.object(p, baseSizeNeed, baseFields, func(key string, p *path) {
		switch key {
		case "name":
			b.Name = d.word(p, nameNeed)
		case "sides":
			d.list(p, "a list of the sides' names", func(i int, p *path) {
				if d.room(p, i, sizes.MaxSides, "sides") {
					b.Sides = append(b.Sides, d.text(p, nameNeed))
				}
			})
		case "at_top":
			b.AtTop = d.flag(p, boolNeed)
		case "wide":
			b.Wide = d.length(p)
		case "wide_back":
			b.WideBack = d.length(p)
		case "long":
			b.Long = d.length(p)
		case "points":
			b.Points = d.sizedPoints(p)
		case "measured":
			b.Measured = d.measured(p)
		}
	})
	return b
}

func (d *decoder) measured(p *path) *sizes.Measured {
	m := &sizes.Measured{}
	seen := d.object(p, measuredNeed, measuredFields, func(key string, p *path) {
		switch key {
		case "way":
			m.Way = sizes.Way(d.enum(p, sizes.WayWords))
		case "sides":
			m.Sides = d.sizeList(p, lengthNeed)
		case "diagonals":
			m.Diagonals = d.sizeList(p, lengthNeed)
		case "angles":
			m.Angles = d.sizeList(p, degreesNeed)
		case "stations":
			d.list(p, "a list of stations", func(i int, p *path) {
				if d.room(p, i, sizes.MaxSides, "stations") {
					m.Stations = append(m.Stations, d.station(p))
				}
			})
		}
	})
	d.require(p, measuredFields, seen, "way", wordsNeed(sizes.WayWords))
	return m
}

func (d *decoder) station(p *path) (s sizes.Station) {
	seen := d.object(p, stationNeed, stationFields, func(key string, p *path) {
		switch key {
		case "at":
			s.At = d.length(p)
		case "left":
			s.Left = d.length(p)
		case "right":
			s.Right = d.length(p)
		case "wide":
			s.Wide = d.length(p)
		}
	})
	d.require(p, stationFields, seen, "at", lengthNeed)
	return s
}

// sizedPoints takes an outline or an edge, an arc to the first point of which stands last.
func (d *decoder) sizedPoints(p *path) (all []sizes.Point) {
	empty := true
	d.list(p, "a list of points [x, y]", func(i int, p *path) {
		empty = false
		if d.vertices++; d.vertices > sizes.MaxPoints {
			d.fail(p, pointsFound(), pointsMost())
			return
		}
		all = append(all, d.sizedPoint(p, i == 0))
	})
	if empty {
		d.fail(p, "an empty list", "points [x, y]")
	}
	return all
}

func (d *decoder) sizedPoint(p *path, first bool) (v sizes.Point) {
	place := func(p *path) sizes.Field { return d.length(p) }
	if d.kind() == '[' {
		at := two(d, p, pointNeed, place)
		v.X, v.Y = at[0], at[1]
		return v
	}
	if first && d.kind() == '{' {
		d.fail(p, "an object", "a point [x, y] to begin with; an arc that closes the outline stands last")
		return v
	}
	v.Through = true
	seen := d.object(p, vertexNeed, arcFields, func(key string, p *path) {
		at := two(d, p, pointNeed, place)
		if key == "to" {
			v.X, v.Y = at[0], at[1]
		} else {
			v.ThX, v.ThY = at[0], at[1]
		}
	})
	d.require(p, arcFields, seen, "through", pointNeed+" that the arc passes through")
	d.require(p, arcFields, seen, "to", pointNeed+" where the arc ends")
	return v
}

// oneWay refuses what only a part given by its blank says of itself.
func (d *decoder) oneWay(s fold.Spec) {
	p := (*path)(nil)
	switch {
	case s.Sizes == nil:
	case s.Base != "":
		d.fail(p.field("base"), `a base beside "sizes"`, `none: the panel that lies still is sizes.base`)
	case s.Seams != nil:
		d.fail(p.field("seams"), `seams beside "sizes"`, `none: the corners of the sizes make the seams, and sizes.corners says how they close`)
	}
}
