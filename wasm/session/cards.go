package session

// This file holds the job cards as plain facts, and the numbers of a bend.

import (
	"fmt"
	"math"

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

// Card is one swing as its job card tells it. Angles in degrees, lengths in mm.
type Card struct {
	Index  int // from 0
	Number int // from 1
	Name   string
	Bends  []int
	Up     bool
	Mixed  bool // bends that turn together but not the same way
	From   float64
	To     float64 // the first bend's angle after the swing
	Set    float64 // where the leaf is stopped: To, or more by what springs back where test bends say it
	At     float64 // where the leaf is now
	Back   bool    // the leaf has been stopped and the metal is springing back
	Spring Spring
	Foul   *fold.ClashReport
	State  string // ok, watch, stop; "" while it isn't known
	Stage  Stage
}

// Cards gives the cards in order.
func (s *Session) Cards() []Card {
	p := s.Part()
	out := make([]Card, len(p.Swings))
	for i, sw := range p.Swings {
		b := p.Bends[sw.Bends[0]]
		c := Card{Index: i, Number: sw.Number, Name: swingName(p, i), Bends: sw.Bends, Up: b.Up,
			From: tidy(sw.From[0].Degrees()), To: tidy(sw.To[0].Degrees()), Foul: s.Foul(i)}
		for _, k := range sw.Bends {
			c.Mixed = c.Mixed || p.Bends[k].Up != b.Up
		}
		c.Set = tidy(sw.Set[0].Degrees())
		if r := s.Report(); sw.Bends[0] < len(r.Bends) {
			c.Spring = springOf(&r.Bends[sw.Bends[0]], sw.To[0] < b.Angle)
			if !c.Spring.Measured && !c.Spring.Flat && !c.Spring.Part {
				c.Spring.Why = s.whyNoSet(b.Radius)
			}
		}
		if s.Checked() && i < len(s.report.Swings) {
			if c.State = s.report.Swings[i].State; c.State == "ok" && !s.SpreadKnown() { // a close pass may make it one to watch
				c.State = ""
			}
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

// Spring is what is known of how far a bend springs back. All zero: nothing, and no formula speaks of it.
type Spring struct {
	Measured bool    // the maker's test bends say where to stop the leaf
	Flat     bool    // a hem: it is flattened, and gives nothing back
	Part     bool    // the swing stops on the way; a later one finishes the bend
	Doubt    float64 // half the width of the range of the set angle, degrees
	Source   string  // in words
	// Why says why no set angle is shown though there are strips that could tell one; "" where there are none.
	Why string
	// Least is what the springback formula gives: a lower limit of the set angle, never the
	// angle itself, degrees; 0 where it says nothing.
	Least       float64
	LeastSource string
}

// leastDoubt is the least doubt in a set angle that is shown: a tenth of a degree, which no protractor reads.
const leastDoubt = 0.1

func springOf(r *fold.BendReport, part bool) Spring {
	sp := Spring{Flat: hem(r.Angle), Part: part}
	if sp.Flat || sp.Part {
		return sp
	}
	sp.Source, sp.Measured = r.SetSource, r.SetMeasured
	if sp.Measured {
		sp.Doubt = max(r.SetDoubt, leastDoubt)
	} else if r.SetLeast != nil {
		sp.Least, sp.LeastSource = r.SetLeast[0], r.SetLeastSource
	}
	return sp
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

// Mark is where a swing's bend line lies on the blank: its distance from a datum
// edge. A is the blank box's left edge, B its lower edge, as on the marking-out
// sheet. From and To are the distances at the line's two ends, From at the end
// nearer to the other edge; they are equal where the line runs along the edge.
type Mark struct {
	Edge, Other string
	From, To    float64 // mm
}

// squareEnough is how much the ends of a line may differ in their distance from
// an edge and still be given by one figure (mm): less than shows.
const squareEnough = 0.05

// MarkOf gives the mark of bends that lie on one line, from the datum edge that
// it runs along most nearly.
func MarkOf(p *fold.Part, bends ...int) Mark {
	box, o := geom.EmptyBox2(), p.Blank.Box.Min
	for _, b := range bends {
		box.Add(p.Bends[b].Line[0])
		box.Add(p.Bends[b].Line[1])
	}
	axis, m := 0, Mark{Edge: "A", Other: "B"}
	if z := box.Size(); z[0] > z[1] {
		axis, m = 1, Mark{Edge: "B", Other: "A"}
	}
	low, high := math.Inf(1), math.Inf(-1)
	for _, b := range bends {
		for _, q := range p.Bends[b].Line {
			if along := q[1-axis]; along < low {
				low, m.From = along, q[axis]-o[axis]
			}
			if along := q[1-axis]; along > high {
				high, m.To = along, q[axis]-o[axis]
			}
		}
	}
	if math.Abs(m.From-m.To) < squareEnough {
		m.From = (m.From + m.To) / 2
		m.To = m.From
	}
	return m
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
