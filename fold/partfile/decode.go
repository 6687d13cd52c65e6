// The fields of a part file, version 1, taken into a fold.Spec. Here each field
// must be known, of the right kind and there; counts are bounded before anything
// is kept. Whether the values do is check.go's matter.

package partfile

import (
	"fmt"

	"dryfold/fold"
	"dryfold/fold/geom"
)

var (
	partFields = []string{"dryfold", "name", "notes", "units", "sheet", "blank", "sizes", "base", "seams", "order",
		"joins", "errors", "as_cut", "struck", "metals", "tests", "price"}
	sheetFields = []string{"thickness", "metal", "k", "k_from", "rule", "grain", "good", "shortest_lip"}
	blankFields = []string{"outline", "cutouts", "holes", "bends", "panels"}
	arcFields   = []string{"through", "to"}
	holeFields  = []string{"at", "diameter"}
	bendFields  = []string{"name", "line", "angle", "radius", "radius_from", "way"}
	panelFields = []string{"name", "at"}
	seamFields  = []string{"name", "a", "b", "gap", "join", "open"}
	stepFields  = []string{"bend", "to"}
)

const (
	unitsNeed  = `"mm" or "in"`
	wayNeed    = `"up" or "down"`
	pointNeed  = "a point [x, y]"
	vertexNeed = `a point [x, y] or an arc {"through": [x, y], "to": [x, y]}`
	stepNeed   = `a bend's name, a list of names, or {"bend": name, "to": angle}`
	blankNeed  = `the blank: {"outline": [[x, y], ...], "bends": [...]}`
	boolNeed   = "true or false"
)

// decoder is a cursor with the units in which messages speak and the counts so far.
type decoder struct {
	cursor
	units    fold.Units
	vertices int // over all contours
	names    int // over all of the order
}

func decode(data []byte) (fold.Spec, error) {
	d := &decoder{cursor: cursor{data: data}}
	d.head(partForm)
	d.at = 0
	s := d.part()
	return s, d.err
}

// head looks through the fields of the file for the version and the units, which
// the rest is read by. A newer file is refused here, before its other fields can
// be called unknown, and so is a file of another form.
func (d *decoder) head(f *form) {
	if d.kind() != '{' {
		d.fail(nil, d.found(), f.need)
		return
	}
	versions, sized, blank, other := 0, false, false, ""
	d.at++
	for d.err == nil && d.more('}') {
		key := d.rawText()
		d.kind()
		d.at++
		p := (*path)(nil).field(key)
		switch key {
		case f.key:
			versions++
			d.version(p)
			continue
		case partForm.key, benchForm.key:
			other = key
		case "units":
			if d.kind() == '"' {
				if d.rawText() == "in" {
					d.units = fold.Inch
				}
				continue
			}
		case "sizes":
			sized = true
		case "blank":
			blank = true
		}
		d.skip()
	}
	p := (*path)(nil)
	switch {
	case d.err != nil:
	case versions == 0 && other == partForm.key:
		d.fail(p.field(other), partForm.a, f.need)
	case versions == 0 && other == benchForm.key:
		d.fail(p.field(other), benchForm.a, f.need)
	case versions == 0:
		d.at = 0
		d.kind()
		d.at++
		for d.more('}') { // say so where only the letter case is wrong
			key := d.rawText()
			if len(key) == len(f.key) {
				d.letterCase(key, f.key)
			}
			d.kind()
			d.at++
			d.skip()
		}
		d.fail(p.field(f.key), "nothing", fmt.Sprintf(`"%s": %d, the version of %s`, f.key, Version, f.a))
	case f != partForm:
	case sized && blank:
		d.fail(p.field("sizes"), `both "blank" and "sizes"`, `one of them: a part is given by its blank or by its sizes`)
	}
}

func (d *decoder) letterCase(key, want string) {
	low := []byte(key)
	for i, c := range low {
		if c >= 'A' && c <= 'Z' {
			low[i] = c + 'a' - 'A'
		}
	}
	if string(low) == want {
		d.fail((*path)(nil).field(key), "the field "+quote(key), quote(want)+": capital and small letters count")
	}
}

func (d *decoder) version(p *path) {
	need := func() string { return fmt.Sprintf("%d, the version that this program reads", Version) }
	v := d.number(p, need)
	if d.err != nil || v == Version {
		return
	}
	found := number(v)
	if v > Version {
		found += ", a newer version"
	}
	d.fail(p, found, need())
}

func (d *decoder) part() (s fold.Spec) {
	var p *path
	seen := d.object(p, partForm.need, partFields, func(key string, p *path) {
		switch key {
		case "dryfold":
			d.version(p)
		case "name":
			s.Name = d.text(p, nameNeed)
		case "notes":
			s.Notes = d.text(p, notesNeed)
		case "units":
			s.Units = d.unit(p)
		case "sheet":
			s.Sheet = d.sheet(p)
		case "blank":
			d.blank(p, &s)
		case "sizes":
			s.Sizes = d.form(p)
		case "base":
			s.Base = d.text(p, baseNeed)
			if d.err == nil && s.Base == "" {
				d.fail(p, `the text ""`, baseNeed)
			}
		case "seams":
			d.list(p, "a list of seams", func(i int, p *path) {
				if d.room(p, i, fold.MaxSeams, "seams") {
					s.Seams = append(s.Seams, d.seam(p))
				}
			})
		case "order":
			d.list(p, "a list, one entry for each swing", func(i int, p *path) {
				if d.room(p, i, fold.MaxSteps, "swings") {
					s.Order = append(s.Order, d.step(p))
				}
			})
		case "joins":
			s.Joins = d.joins(p)
		case "errors":
			s.Errors = d.errors(p)
		case "as_cut":
			s.AsCut = d.asCut(p)
		case "struck":
			s.Struck = d.struck(p)
		case "metals":
			s.Metals = d.metals(p)
		case "tests":
			s.Tests = d.strips(p)
		case "price":
			s.Price = d.price(p)
		}
	})
	d.require(p, partFields, seen, "name", nameNeed)
	d.require(p, partFields, seen, "units", unitsNeed)
	d.require(p, partFields, seen, "sheet", `the sheet: {"thickness": ...}`)
	if s.Sizes == nil {
		d.require(p, partFields, seen, "blank", blankNeed+`, or "sizes" in its place`)
	}
	d.oneWay(s)
	return s
}

func (d *decoder) unit(p *path) fold.Units {
	t := d.text(p, unitsNeed)
	if d.err != nil {
		return 0
	}
	switch t {
	case "in":
		return fold.Inch
	case "mm":
	default:
		d.fail(p, "the text "+quote(t), unitsNeed)
	}
	return fold.MM
}

func (d *decoder) sheet(p *path) (s fold.Sheet) {
	seen := d.object(p, `the sheet: {"thickness": ...}`, sheetFields, func(key string, p *path) {
		switch key {
		case "thickness":
			s.Thickness = d.thickness(p)
		case "metal":
			s.Metal = d.word(p, nameNeed)
		case "k":
			s.K = d.optional(p, kBound())
		case "k_from":
			s.KFrom = d.word(p, nameNeed)
		case "rule":
			s.Rule = d.word(p, ruleNeed())
		case "grain":
			s.Grain = d.optional(p, grainBound())
		case "good":
			s.Good = d.word(p, wayNeed)
		case "shortest_lip":
			s.Lip = d.optional(p, lipBound(d.units))
		}
	})
	d.require(p, sheetFields, seen, "thickness", thicknessBound(d.units).need())
	return s
}

// word takes a string that may be left out but not be empty.
func (d *decoder) word(p *path, need string) string {
	t := d.text(p, need)
	if t == "" {
		d.fail(p, `the text ""`, need+", or leave the field out")
	}
	return t
}

func (d *decoder) optional(p *path, b bound) *float64 {
	v := d.number(p, b.need)
	return &v
}

// given takes a number where 0 would mean that none was given: it has to lie in b, which 0 does not.
func (d *decoder) given(p *path, b bound) float64 {
	v := d.number(p, b.need)
	if v == 0 {
		d.fail(p, "0", b.need())
	}
	return v
}

func (d *decoder) blank(p *path, s *fold.Spec) {
	seen := d.object(p, blankNeed, blankFields, func(key string, p *path) {
		switch key {
		case "outline":
			s.Outline = d.contour(p)
		case "cutouts":
			d.list(p, "a list of outlines", func(i int, p *path) {
				s.Cutouts = append(s.Cutouts, d.contour(p))
			})
		case "holes":
			d.list(p, "a list of holes", func(i int, p *path) {
				if d.room(p, i, fold.MaxHoles, "holes") {
					s.Holes = append(s.Holes, d.hole(p))
				}
			})
		case "bends":
			d.list(p, "a list of bends", func(i int, p *path) {
				if d.room(p, i, fold.MaxBends, "bends") {
					s.Bends = append(s.Bends, d.bend(p))
				}
			})
		case "panels":
			d.list(p, "a list of panels", func(i int, p *path) {
				if d.room(p, i, fold.MaxPanels, "panels") {
					s.Panels = append(s.Panels, d.panel(p))
				}
			})
		}
	})
	d.require(p, blankFields, seen, "outline", "a list of points [x, y]")
}

// room refuses the item past the most that a list may hold.
func (d *decoder) room(p *path, i, most int, what string) bool {
	if i >= most {
		d.fail(p, fmt.Sprintf("more than %d %s", most, what), fmt.Sprintf("at most %d", most))
	}
	return d.err == nil
}

func (d *decoder) contour(p *path) (c fold.Contour) {
	empty := true
	d.list(p, "a list of points [x, y]", func(i int, p *path) {
		empty = false
		d.vertices++
		if d.vertices > fold.MaxOutline {
			d.fail(p, fmt.Sprintf("more than %d points in all outlines together", fold.MaxOutline),
				fmt.Sprintf("at most %d", fold.MaxOutline))
			return
		}
		c = append(c, d.vertex(p, i == 0))
	})
	if empty {
		d.fail(p, "an empty list", contourNeed)
	}
	return c
}

func (d *decoder) vertex(p *path, first bool) (v fold.Vertex) {
	if d.kind() == '[' {
		v.At = d.point(p)
		return v
	}
	if first && d.kind() == '{' {
		d.fail(p, "an object", "a point [x, y] to begin with; an arc that closes the outline stands last")
		return v
	}
	seen := d.object(p, vertexNeed, arcFields, func(key string, p *path) {
		pt := d.point(p)
		if key == "to" {
			v.At = pt
		} else {
			v.Through = &pt
		}
	})
	d.require(p, arcFields, seen, "through", pointNeed+" that the arc passes through")
	d.require(p, arcFields, seen, "to", pointNeed+" where the arc ends")
	return v
}

func (d *decoder) point(p *path) geom.Vec2 {
	return two(d, p, pointNeed, func(p *path) float64 { return d.number(p, placeBound(d.units).need) })
}

// two reads a list of just two things.
func two[T any](d *decoder, p *path, need string, read func(p *path) T) (v [2]T) {
	n := 0
	d.list(p, need, func(i int, p *path) {
		n++
		if i < 2 {
			v[i] = read(p)
		} else {
			d.skip()
		}
	})
	if n != 2 {
		d.fail(p, fmt.Sprintf("a list of %d", n), need)
	}
	return v
}

func (d *decoder) hole(p *path) (h fold.Hole) {
	need := `a hole: {"at": [x, y], "diameter": ...}`
	seen := d.object(p, need, holeFields, func(key string, p *path) {
		if key == "at" {
			h.At = d.point(p)
		} else {
			h.Diameter = d.number(p, diameterBound(d.units).need)
		}
	})
	d.require(p, holeFields, seen, "at", pointNeed)
	d.require(p, holeFields, seen, "diameter", diameterBound(d.units).need())
	return h
}

func (d *decoder) bend(p *path) (b fold.BendSpec) {
	need := `a bend: {"name": "...", "line": [[x, y], [x, y]], "angle": ..., "radius": ..., "way": "up"}`
	seen := d.object(p, need, bendFields, func(key string, p *path) {
		switch key {
		case "name":
			b.Name = d.word(p, nameNeed)
		case "line":
			b.Line = d.line(p)
		case "angle":
			b.Angle = d.number(p, angleBound().need)
		case "radius":
			b.Radius = d.number(p, radiusBound(d.units).need)
		case "radius_from":
			b.RadiusFrom = d.word(p, radiusFromNeed())
		case "way":
			w := d.text(p, wayNeed)
			if b.Up = w == "up"; !b.Up && w != "down" {
				d.fail(p, "the text "+quote(w), wayNeed)
			}
		}
	})
	d.require(p, bendFields, seen, "line", lineNeed)
	d.require(p, bendFields, seen, "angle", angleBound().need())
	d.require(p, bendFields, seen, "radius", radiusBound(d.units).need())
	d.require(p, bendFields, seen, "way", wayNeed)
	return b
}

func (d *decoder) line(p *path) [2]geom.Vec2 { return two(d, p, lineNeed, d.point) }

func (d *decoder) panel(p *path) (n fold.PanelName) {
	need := `a panel's name: {"name": "...", "at": [x, y]}`
	seen := d.object(p, need, panelFields, func(key string, p *path) {
		if key == "name" {
			n.Name = d.text(p, nameNeed)
		} else {
			n.At = d.point(p)
		}
	})
	d.require(p, panelFields, seen, "name", nameNeed)
	d.require(p, panelFields, seen, "at", pointNeed+" inside the panel")
	return n
}

func (d *decoder) seam(p *path) (s fold.SeamSpec) {
	need := `a seam: {"name": "...", "a": [x, y], "b": [x, y]}`
	seen := d.object(p, need, seamFields, func(key string, p *path) {
		switch key {
		case "name":
			s.Name = d.word(p, nameNeed)
		case "a":
			s.A = d.point(p)
		case "b":
			s.B = d.point(p)
		case "gap":
			s.Gap = d.optional(p, gapBound(d.units))
		case "join":
			s.Join = d.word(p, nameNeed)
		case "open":
			s.Open = d.flag(p, boolNeed)
		}
	})
	d.require(p, seamFields, seen, "a", pointNeed+" on one edge")
	d.require(p, seamFields, seen, "b", pointNeed+" on the other edge")
	return s
}

func (d *decoder) step(p *path) (s fold.Step) {
	switch d.kind() {
	case '"':
		s.Bends = []string{d.stepName(p)}
	case '[':
		d.list(p, stepNeed, func(i int, p *path) {
			s.Bends = append(s.Bends, d.stepName(p))
		})
		if len(s.Bends) == 0 {
			d.fail(p, "an empty list", stepNeed)
		}
	default:
		seen := d.object(p, stepNeed, stepFields, func(key string, p *path) {
			if key == "bend" {
				s.Bends = []string{d.stepName(p)}
			} else {
				s.To = d.optional(p, angleBound())
			}
		})
		d.require(p, stepFields, seen, "bend", "a bend's name")
		d.require(p, stepFields, seen, "to", angleBound().need())
	}
	return s
}

func (d *decoder) stepName(p *path) string {
	d.names++
	if d.names > fold.MaxSteps {
		d.fail(p, fmt.Sprintf("more than %d names in the order", fold.MaxSteps), fmt.Sprintf("at most %d", fold.MaxSteps))
	}
	return d.text(p, "a bend's name")
}
