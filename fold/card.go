package fold

// This file holds what a swing's job card says, on the page and on paper: its facts, and their words.

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"dryfold/fold/geom"
)

// Card is one swing as its job card tells it. Angles in degrees.
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
	Spring Spring
	Foul   *ClashReport
	State  string // ok, watch, stop, as the report has it; "" where it has none
}

// Card is the job card of the swing at an index. The Part must be Foldable; what the report leaves out the card does.
func (p *Part) Card(r *Report, i int) Card {
	sw := &p.Swings[i]
	b := &p.Bends[sw.Bends[0]]
	c := Card{Index: i, Number: sw.Number, Name: p.SwingName(i), Bends: sw.Bends, Up: b.Up, From: Tidy(sw.From[0].Degrees()),
		To: Tidy(sw.To[0].Degrees()), Set: Tidy(sw.Set[0].Degrees()), Foul: r.Foul(i)}
	for _, k := range sw.Bends {
		c.Mixed = c.Mixed || p.Bends[k].Up != b.Up
	}
	if sw.Bends[0] < len(r.Bends) {
		c.Spring = springOf(&r.Bends[sw.Bends[0]], sw.To[0] < b.Angle)
	}
	if i < len(r.Swings) {
		c.State = r.Swings[i].State
	}
	return c
}

// Foul is the first clash of a swing, nil if the report has none. One that is there only
// while the leaf is past the bend's angle comes after all others.
func (r *Report) Foul(swing int) *ClashReport {
	var first *ClashReport
	for i := range r.Clashes {
		c := &r.Clashes[i]
		if c.Swing != swing+1 {
			continue
		}
		if first == nil || first.Overbend && !c.Overbend || first.Overbend == c.Overbend && c.Clash.Fraction < first.Clash.Fraction {
			first = c
		}
	}
	return first
}

// ClashOf is the clash that the report's trouble at an index tells of, nil where it tells of none: clashes and
// their troubles stand in the same order.
func (r *Report) ClashOf(trouble int) *ClashReport {
	n := 0
	for i := range r.Troubles {
		if rule := r.Troubles[i].Rule; rule != "clash" && rule != "fouls-on-overbend" {
			continue
		}
		if i == trouble && n < len(r.Clashes) {
			return &r.Clashes[n]
		}
		n++
	}
	return nil
}

// FoulTrouble is the trouble that tells of a clash of the report; nil where none does.
func (r *Report) FoulTrouble(c *ClashReport) *TroubleReport {
	for i := range r.Troubles {
		if c != nil && r.ClashOf(i) == c {
			return &r.Troubles[i]
		}
	}
	return nil
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

// LeastDoubt is the least doubt in a set angle that is shown: a tenth of a degree, which no protractor reads.
const LeastDoubt = 0.1

func springOf(r *BendReport, part bool) Spring {
	sp := Spring{Flat: r.Angle >= hemAngle, Part: part}
	if sp.Flat || sp.Part {
		return sp
	}
	sp.Source, sp.Measured = r.SetSource, r.SetMeasured
	if sp.Measured {
		sp.Doubt = max(r.SetDoubt, LeastDoubt)
	} else if r.SetLeast != nil {
		sp.Least, sp.LeastSource = r.SetLeast[0], r.SetLeastSource
	}
	return sp
}

// coarse is the doubt in a set angle (degrees) from which tenths of it are not shown.
const coarse = 1

// StopAt is a measured set angle as it can be worked to.
func (c *Card) StopAt() string {
	if c.Spring.Measured && c.Spring.Doubt >= coarse {
		return ShownDegrees(math.Round(c.Set))
	}
	return ShownDegrees(c.Set)
}

// StripFirst is said of an angle that nobody tested.
const StripFirst = "The leaf goes further: bend a strip first"

// SetWords are a card's words for where its swing ends.
type SetWords struct {
	Name, Figure string   // what the angle is called, and its degrees
	Under        []string // what else stands there
	// What is said at length: its head, and the rest; "" where there is none.
	More, Rest string
}

// SetWords says where to stop the leaf, where the maker's test bends say it, else the finished angle, in words that
// can't be taken for the other.
func (c *Card) SetWords() SetWords {
	sp := &c.Spring
	w := SetWords{Name: "Finished angle", Figure: ShownDegrees(c.To)}
	say := func(words string) { w.Under = append(w.Under, words) }
	included := func() {
		if c.To != 90 {
			say("included angle " + ShownDegrees(180-c.To) + "°")
		}
	}
	switch {
	case c.To > 180:
		say("folded back past flat")
	case sp.Flat && !sp.Part:
		say("flattened")
	case sp.Part:
		w.Name = "For now to"
		say("a later card bends it on")
		included()
	case sp.Measured:
		w.Name, w.Figure = "Stop the leaf at", c.StopAt()
		say(fmt.Sprintf("%s° after spring, give or take %s°", ShownDegrees(c.To), ShownDegrees(sp.Doubt)))
		head, tail, _ := strings.Cut(sp.Source, ", ")
		say(head)
		if tail != "" {
			w.More, w.Rest = "About these test bends", sentence("%s.", tail)
		}
	default:
		say(StripFirst)
		if sp.Why != "" {
			say(sp.Why)
		}
		included()
		if sp.Least > 0 {
			w.More, w.Rest = "By formula at least "+ShownDegrees(sp.Least)+"°, a lower limit", sentence("%s.", sp.LeastSource)
		}
	}
	return w
}

// nearlyTaken: of the room in a swing errors may take so much and it goes unsaid.
const nearlyTaken = 0.5

// protractor is what a protractor tells apart (degrees).
const protractor = 0.5

// RoomWords say how close solids pass in a swing, in shown units; "" where nothing is known, or errors of hand and machine leave the
// more of it. tight: they may take all of it.
func (p *Part) RoomWords(r *Report, swing int, shown Units) (words string, tight bool) {
	if swing >= len(r.Swings) || r.Swings[swing].Room == nil {
		return "", false
	}
	k := r.Swings[swing].Room
	if !(k.Errors > nearlyTaken*k.Room) {
		return "", false
	}
	gap := func(mm float64) string {
		if shown == Inch {
			return Fixed(mm/Inch.Scale(), 3) + " in"
		}
		return Fixed(mm, 2) + " mm"
	}
	bare := func(body string) string { return strings.TrimPrefix(body, "panel ") }
	sw := &p.Swings[swing]
	switch from, to, set := sw.From[0].Degrees(), sw.To[0].Degrees(), sw.Set[0].Degrees(); {
	case math.Abs(k.Angle-to) < protractor && set-to < protractor:
		words = fmt.Sprintf("At the end of its swing %s comes to rest %s from %s", bare(k.A), gap(k.Room), bare(k.B))
	case math.Abs(k.Angle-from) < protractor:
		words = fmt.Sprintf("As its swing begins %s stands %s from %s", bare(k.A), gap(k.Room), bare(k.B))
	default:
		words = fmt.Sprintf("%s passes %s with %s room at about %.0f°", Title(bare(k.A)), bare(k.B), gap(k.Room), k.Angle)
	}
	return words + "; errors may take " + gap(k.Errors) + ".", k.Errors > k.Room
}

// Mark is where a line lies on the blank: its distance from a datum
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

// MarkOf gives the mark of the bend lines of bends that lie on one line, from the datum edge that
// it runs along most nearly.
func (p *Part) MarkOf(bends ...int) Mark {
	var lines [][2]geom.Vec2
	for _, b := range bends {
		lines = append(lines, p.Bends[b].Line)
	}
	return p.MarkOfLines(lines...)
}

// LineAt is the line across which a bend's zone is so far from the held tangent line (mm), as long as the bend line, from whose
// ends it is set off square.
func (b *Bend) LineAt(s float64) [2]geom.Vec2 {
	off := b.N.Mul(s - b.Allowance/2)
	return [2]geom.Vec2{b.Line[0].Add(off), b.Line[1].Add(off)}
}

// SightLine is the line that is put under the nose's foremost edge, seen from above: as far from the held tangent line as
// the inside radius, FAA-H-8083-31 ch. 4.
func (b *Bend) SightLine() [2]geom.Vec2 { return b.LineAt(b.Radius) }

// MarkOfLines is MarkOf for lines of the blank (mm, file axes).
func (p *Part) MarkOfLines(lines ...[2]geom.Vec2) Mark {
	box, o := geom.EmptyBox2(), p.Blank.Box.Min
	for _, l := range lines {
		box.Add(l[0])
		box.Add(l[1])
	}
	axis, m := 0, Mark{Edge: "A", Other: "B"}
	if z := box.Size(); z[0] > z[1] {
		axis, m = 1, Mark{Edge: "B", Other: "A"}
	}
	low, high := math.Inf(1), math.Inf(-1)
	for _, l := range lines {
		for _, q := range l {
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

// Stretch is how long the bend lines of bends on one line are from end to end, gaps between them included (mm): so wide are the
// fingers that are made up for them.
func (p *Part) Stretch(bends ...int) float64 {
	b := &p.Bends[bends[0]]
	var along []float64
	for _, k := range bends {
		for _, q := range p.Bends[k].Line {
			u, _ := b.Coord(q)
			along = append(along, u)
		}
	}
	return slices.Max(along) - slices.Min(along)
}
