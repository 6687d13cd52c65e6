package fold

// This file holds Build, which cuts a Spec's blank into a Part. zones.go finds
// the bends' zones, cut.go the panels, tree.go how they hang together.

import (
	"fmt"
	"math"

	"dryfold/fold/geom"
	"dryfold/fold/metal"
	"dryfold/fold/solid"
)

// Build cuts the blank into panels and bends. It never fails: what is wrong
// stands in Troubles, and where no fold can be given Foldable is false. Work
// grows about in line with the number of corners, bends and crossings.
func Build(s Spec) *Part { return build(s, s.lore(), true) }

// build is Build; without whole it leaves out what only contact and advice need: the panels' convex pieces and what
// the metal would not bear.
func build(s Spec, l *lore, whole bool) *Part {
	p := &Part{Spec: s, Base: -1, measured: &seamStore{}}
	if !p.readNumbers() {
		return p
	}
	b := &cutter{part: p, lore: l, k: s.Units.Scale(), crowded: map[[2]int]bool{}}
	b.contours()
	if len(p.Outline) < 3 {
		return p
	}
	b.bends()
	if !b.arrange() || !b.checkContours() {
		return p
	}
	b.classify()
	b.panels()
	b.joinBends()
	b.namePanels()
	b.checkVoids()
	if b.tree() {
		p.Foldable = true
		p.Swings = p.makeSwings()
		if !whole {
			return p
		}
		p.checkTests(l)
		for k := range p.Panels {
			p.Panels[k].Pieces = solid.Decompose(p.Panels[k].Region)
		}
		p.checkMetal()
	}
	return p
}

// cutter holds what is needed while a blank is being cut.
type cutter struct {
	part   *Part
	lore   *lore
	k      float64 // mm in a file unit
	chords []chord
	areas  []float64 // of each contour, true
	zones  []zone    // by bend
	arr    *geom.Arrangement
	segs   []geom.Segment
	kinds  []segKind
	inside []bool        // face is material
	owner  []int         // face -> the bend whose zone holds it, or facePanel, faceOverlap, faceOutside
	core   []bool        // zone face: between the ends of the bend's run
	group  []int         // face -> panel index, -1
	crowd  map[int][]int // overlap face -> the bends whose zones hold it

	met     []int           // contours named as running into each other
	crowded map[[2]int]bool // pairs of bends named as too near each other
	fatal   bool            // no pose can be given
}

// readNumbers checks every number of the Spec before it is used.
func (p *Part) readNumbers() bool {
	s := &p.Spec
	k := s.Units.Scale()
	ok := true
	bad := func(what string, x float64, need string) {
		ok = false
		p.trouble(Stop, "bad-number", "", "", geom.Vec2{}, nil, nil, sentence("%s is %v; %s.", what, x, need))
	}
	size := func(what string, x float64) {
		if !(x*k >= MinSize && x*k <= MaxSize) {
			bad(what, x, fmt.Sprintf("a size from %g to %.0f mm is needed", MinSize, MaxSize))
		}
	}
	point := func(what string, v geom.Vec2) {
		for _, x := range v {
			if !(math.Abs(x*k) <= MaxSize) {
				bad(what, x, fmt.Sprintf("a coordinate within %.0f mm of the origin is needed", MaxSize))
			}
		}
	}
	size("the thickness", s.Sheet.Thickness)
	if s.Sheet.K != nil && !(*s.Sheet.K >= 0 && *s.Sheet.K <= MaxK) {
		bad("K", *s.Sheet.K, fmt.Sprintf("a K factor from 0 to %g is needed", MaxK))
	}
	contour := func(what string, c Contour) {
		if len(c) < 2 {
			bad(what+"'s number of corners", float64(len(c)), "at least 3 are needed, or 2 with an arc")
		}
		for _, v := range c {
			point(what, v.At)
			if v.Through != nil {
				point(what, *v.Through)
			}
		}
	}
	contour("the outline", s.Outline)
	for i, c := range s.Cutouts {
		contour(fmt.Sprintf("cutout %d", i+1), c)
	}
	for i, h := range s.Holes {
		point(fmt.Sprintf("hole %d", i+1), h.At)
		size(fmt.Sprintf("the diameter of hole %d", i+1), h.Diameter)
	}
	for i, b := range s.Bends {
		name := b.name(i)
		point("bend "+name, b.Line[0])
		point("bend "+name, b.Line[1])
		if !(b.Angle > 0 && b.Angle <= 240) {
			bad("the angle of bend "+name, b.Angle, "over 0 and up to 240 degrees is needed")
		}
		if !(b.Radius >= 0 && b.Radius*k <= MaxSize) {
			bad("the radius of bend "+name, b.Radius, "an inside radius of 0 or more is needed")
		}
		if b.Line[0] == b.Line[1] {
			bad("the length of bend "+name+"'s line", 0, "two different points are needed")
		}
	}
	for _, n := range s.Panels {
		point("the point of panel "+n.Name, n.At)
	}
	for _, m := range s.Seams {
		point("point a of seam "+m.Name, m.A)
		point("point b of seam "+m.Name, m.B)
		if m.Gap != nil && !(*m.Gap >= 0 && *m.Gap*k <= MaxSize) {
			bad("the wanted gap of seam "+m.Name, *m.Gap, "a gap of 0 or more is needed")
		}
	}
	if len(s.Bends) > MaxBends || len(s.Holes) > MaxHoles {
		bad("the number of bends or holes", float64(max(len(s.Bends), len(s.Holes))), fmt.Sprintf("at most %d bends and %d holes can be taken", MaxBends, MaxHoles))
	}
	n := len(s.Outline)
	for _, c := range s.Cutouts {
		n += len(c)
	}
	if n > MaxOutline {
		bad("the number of corners", float64(n), fmt.Sprintf("at most %d can be taken", MaxOutline))
	}
	if ok {
		if n := s.countChords(); n > MaxChords+MaxOutline {
			bad("the number of chords that its arcs and holes need", float64(n), fmt.Sprintf("at most %d can be taken; use fewer or smaller arcs", MaxChords))
		}
	}
	return ok
}

// name is the bend's name, or "bend N" for the bend at place i of the file.
func (b BendSpec) name(i int) string {
	if b.Name != "" {
		return b.Name
	}
	return fmt.Sprintf("bend %d", i+1)
}

// contours makes the chords of outline, cutouts and holes.
func (b *cutter) contours() {
	p, s := b.part, &b.part.Spec
	p.Thickness = s.Sheet.Thickness * b.k
	p.Metal = s.Sheet.Metal
	if m, ok := metal.Resolve(s.Sheet.Metal, s.Metals); ok {
		p.Density = m.Density.Mid()
	}
	cs, area := contourChords(s.Outline.scaled(b.k), 0, true)
	if len(cs) < 3 || chordLoop(cs).Spread() == 0 {
		p.trouble(Stop, "blank-overlap", "", "", s.Outline[0].At.Mul(b.k), number(area), nil,
			"The outline encloses no area; give the blank's corners in order round its edge.")
		return
	}
	b.chords = cs
	b.areas = append(b.areas, area)
	p.Outline = chordLoop(cs)
	p.Blank.Box = chordsBox(cs)
	p.Blank.Area = area
	for i, c := range s.Cutouts {
		cs, area := contourChords(c.scaled(b.k), 1+i, false)
		if len(cs) < 3 || chordLoop(cs).Spread() == 0 {
			p.trouble(Stop, "void-off-sheet", "hole", fmt.Sprintf("cutout %d", i+1), c[0].At.Mul(b.k), nil, nil,
				fmt.Sprintf("Cutout %d encloses no area; give its corners in order, or leave it out.", i+1))
			continue
		}
		b.addVoid(cs, area)
	}
	for i, h := range s.Holes {
		d := h.Diameter * b.k
		b.addVoid(holeChords(h.At.Mul(b.k), d, 1+len(s.Cutouts)+i), math.Pi/4*d*d)
	}
}

func (b *cutter) addVoid(cs []chord, area float64) {
	b.chords = append(b.chords, cs...)
	b.part.Voids = append(b.part.Voids, chordLoop(cs))
	b.part.Blank.Area -= area
}

// blankBox is the box of the blank's outline, in mm.
func (s *Spec) blankBox() geom.Box2 {
	cs, _ := contourChords(s.Outline.scaled(s.Units.Scale()), 0, true)
	return chordsBox(cs)
}

// chordsBox is the box of an outline, arcs at their true extremes.
func chordsBox(cs []chord) geom.Box2 {
	box := geom.EmptyBox2()
	for _, c := range cs {
		box.Add(c.a)
		if c.arc != nil {
			growByArc(&box, c)
		}
	}
	return box
}

// growByArc takes in the true arc over a chord: its extremes can lie between the ends.
func growByArc(box *geom.Box2, c chord) {
	bulge := -1.0 // the arc lies to the right of the chord, seen along it
	if c.arc.segmentArea(c.a, c.b) < 0 {
		bulge = 1
	}
	for _, d := range []geom.Vec2{{1, 0}, {0, 1}, {-1, 0}, {0, -1}} {
		q := c.arc.centre.Add(d.Mul(c.arc.radius))
		if geom.Cross2(c.b.Sub(c.a), q.Sub(c.a))*bulge > 0 {
			box.Add(q)
		}
	}
}

// voidName names contour id (from 1) as the file's reader counts it.
func (p *Part) voidName(id int) string {
	if id <= len(p.Spec.Cutouts) {
		return fmt.Sprintf("cutout %d", id)
	}
	return fmt.Sprintf("hole %d", id-len(p.Spec.Cutouts))
}
