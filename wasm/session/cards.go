package session

// This file holds the job cards as plain facts, and the numbers of a bend.

import (
	"fmt"

	"dryfold/fold"
	"dryfold/fold/geom"
	"dryfold/render/scene"
)

// Stage is where a card stands in the job.
type Stage int

// A card's stages.
const (
	Waiting Stage = iota
	Now
	Done
)

// Card is one swing as its job card tells it, and where it stands on the bench.
type Card struct {
	fold.Card
	At    float64 // where the leaf is now, degrees
	Back  bool    // the leaf has been stopped and the metal is springing back
	Stage Stage
}

// Cards gives the cards in order.
func (s *Session) Cards() []Card {
	p, r := s.Part(), s.Report()
	out := make([]Card, len(p.Swings))
	for i := range p.Swings {
		sw := &p.Swings[i]
		c := Card{Card: p.Card(r, i)}
		if sw.Bends[0] < len(r.Bends) && !c.Spring.Measured && !c.Spring.Flat && !c.Spring.Part {
			c.Spring.Why = s.whyNoSet(p.Bends[sw.Bends[0]].Radius)
		}
		switch {
		case !s.Checked() || i >= len(s.report.Swings):
			c.State = ""
		case c.State == "ok" && !s.SpreadKnown(): // a close pass may make it one to watch
			c.State = ""
		}
		switch {
		case i < s.open || i == s.open && s.frac == 1:
			c.Stage, c.At = Done, c.To
		case i == s.open:
			c.Stage, c.At, c.Back = Now, tidy(sw.Leaf(0, s.frac).Degrees()), s.frac > sw.Out
		default:
			c.At = c.From
		}
		out[i] = c
	}
	return out
}

// whyNoSet says why the strips of the part's sheet tell no set angle of a bend of an inside radius (mm): they are of
// others, or none of them noted where the leaf was stopped. "" where there are no strips.
func (s *Session) whyNoSet(radius float64) string {
	t := s.Tests()
	var of []float64
	for i := range t.Study.Groups {
		switch g := &t.Study.Groups[i]; {
		case g.Sets == 0:
		case g.RadiusFrom == "": // of any radius: the angle is what they can't tell
			return "Your strips can’t tell the set angle of this one."
		default:
			of = append(of, g.Radius)
		}
	}
	switch {
	case len(t.Used) == 0:
		return ""
	case len(of) == 0:
		return "Your strips don’t say where the leaf was stopped."
	case oneOf(radius, of):
		return "Your strips can’t tell the set angle of this one."
	}
	return fold.InUnits(fmt.Sprintf("Your strips are of R %s, this bend is of R %s.", inMMs(of...), inMMs(radius)), s.units)
}

// FinishedSize is the folded part's length, width and height in mm: the larger
// flat side first where the base lies flat.
func (s *Session) FinishedSize() (long, wide, high float64) {
	z := s.Report().Finished.Box()
	return max(z[0], z[1]), min(z[0], z[1]), z[2]
}

// bendAt is the angle to which a bend is bent on the bench.
func (s *Session) bendAt(bend int) geom.Angle {
	if st := s.State(); bend < len(st) {
		_, phi := s.Part().Bends[bend].Curl(st[bend])
		return phi
	}
	return 0
}

// HoleName and CutoutName name holes and cutouts as messages do, from 0.
func HoleName(i int) string { return fmt.Sprintf("hole %d", i+1) }

// CutoutName is HoleName for a cutout.
func CutoutName(i int) string { return fmt.Sprintf("cutout %d", i+1) }

// Facts are the name and numbers of the chosen thing, in the units shown.
type Facts struct {
	Kind, Name string
	Rows       [][2]string
}

// Facts tells of the selected thing; ok is false where nothing is selected.
func (s *Session) Facts() (f Facts, ok bool) {
	p, r := s.Part(), s.Report()
	i := s.sel.Index
	length := func(mm float64) string { return Length(mm, s.units) + " " + s.units.String() }
	at := func(v geom.Vec2) string {
		o := p.Blank.Box.Min
		return fmt.Sprintf("%s from A, %s from B", Length(v[0]-o[0], s.units), length(v[1]-o[1]))
	}
	switch f.Kind = s.sel.Kind.String(); s.sel.Kind {
	case scene.Panel:
		pn := p.Panels[i]
		f.Name = Title(pn.Name)
		box := geom.EmptyBox2()
		for _, q := range pn.Region.Outer {
			box.Add(q)
		}
		z := box.Size()
		f.Rows = append(f.Rows, [2]string{"On the blank", Size(z[0], s.units) + " × " + Size(z[1], s.units) + " " + s.units.String()})
		if pn.Parent >= 0 {
			b := p.Bends[pn.Parent]
			f.Rows = append(f.Rows, [2]string{"Turned by", fmt.Sprintf("%s, now %s°", b.Name, Degrees(s.bendAt(pn.Parent).Degrees()))})
		} else {
			f.Rows = append(f.Rows, [2]string{"Lies", "still; the others are measured from it"})
		}
	case scene.Bend:
		b := p.Bends[i]
		f.Name = Title(b.Name)
		way := "down"
		if b.Up {
			way = "up"
		}
		f.Rows = append(f.Rows,
			[2]string{"Bend angle", fmt.Sprintf("%s° %s, now %s°", Degrees(b.Angle.Degrees()), way, Degrees(s.bendAt(i).Degrees()))},
			[2]string{"Inside radius", length(b.Radius)},
			[2]string{"Length", length(b.Length)})
	case scene.Hole:
		h := p.Spec.Holes[i]
		k := p.Spec.Units.Scale()
		f.Name = Title(HoleName(i))
		f.Rows = append(f.Rows, [2]string{"Diameter", length(h.Diameter * k)}, [2]string{"Centre", at(h.At.Mul(k))})
	case scene.Cutout:
		f.Name = Title(CutoutName(i))
		f.Rows = append(f.Rows, [2]string{"Corners", fmt.Sprint(len(p.Spec.Cutouts[i]))})
	case scene.Edge:
		c := p.Spec.Outline
		if s.sel.Contour > 0 {
			if s.sel.Contour > len(p.Spec.Cutouts) {
				return Facts{}, false
			}
			c = p.Spec.Cutouts[s.sel.Contour-1]
		}
		if i >= len(c) {
			return Facts{}, false
		}
		k := p.Spec.Units.Scale()
		a, b := c[i].At.Mul(k), c[(i+1)%len(c)].At.Mul(k)
		f.Name = fmt.Sprintf("Edge %d", i+1)
		what := "Length"
		if c[(i+1)%len(c)].Through != nil {
			what = "End to end"
		}
		f.Rows = append(f.Rows, [2]string{what, length(b.Sub(a).Len())}, [2]string{"From", at(a)}, [2]string{"To", at(b)})
	case scene.Seam:
		x := r.Seams[i]
		f.Name = Title(x.Name)
		f.Rows = append(f.Rows, [2]string{"Between", x.A + " and " + x.B},
			[2]string{"Gap", fmt.Sprintf("%s to %s", Length(x.GapMin, s.units), length(x.GapMax))},
			[2]string{"Length", length(x.Length)})
	default:
		return Facts{}, false
	}
	return f, true
}
