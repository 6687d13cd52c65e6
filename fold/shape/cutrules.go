package shape

// This file says which tool makes which cut of a blank, and what to do where none does.

import (
	"math"
	"strconv"
	"strings"

	"dryfold/fold"
	"dryfold/fold/geom"
)

// corner looks at the start of piece i, where it is a sharp inside corner.
func (c *cutting) corner(i int) {
	e := &c.list[i]
	turn := c.turn(i)
	if turn >= -straightOn || c.list[e.prev].inside() || e.inside() {
		return // a drilled hole ends the cut
	}
	open := (math.Pi + turn) * 180 / math.Pi
	x := c.at(i, CutCorner, e.a, open)
	where := c.where(e.prev, i, e.a)
	if open < c.LeastNotch-noise {
		x.Kind, x.Need, x.Rule, x.Severity = CutNotch, c.LeastNotch, "cut-too-narrow", fold.Watch
		x.Drill = c.Drills[0]
		x.DrillAt = []geom.Vec2{e.a}
		x.Tool = c.drillName(x.Drill)
		by := "snip"
		if !c.snips {
			by = "saw"
		}
		x.Words = "the notch " + where + " closes to a point of " + degreesText(open) + "; snips open " + degreesText(c.LeastNotch) + " or more. " +
			capital(x.Tool) + " through its point first, then " + by + " both sides into the hole: it takes " + c.mm(x.Drill/2) + " of metal past the point."
		if !c.snips && !c.saw {
			c.none(&x, "the notch "+where)
		}
		c.add(x)
		return
	}
	if c.pocket(i) || c.pocket(e.prev) {
		return // told with the bottom that it ends
	}
	c.stopHole(&x, i)
	switch {
	case c.snips:
		x.Tool = "snips"
		x.Words = "the inside corner " + where + ": snip both sides up to it. Snips cut past it by about " + c.mm(c.SnipsPast) +
			": stop that much short and break the waste out, or drill it first"
		if x.Drill > 0 {
			x.Words += ": " + c.drillSize(x.Drill) + ", in the waste, so that the hole touches both lines"
		}
		x.Words += "."
	case c.saw:
		x.Tool, x.Words = "saw", "the inside corner "+where+": saw both sides up to it, and file it out."
		if x.Drill > 0 {
			x.Words += " Drilled first (" + c.drillSize(x.Drill) + ", in the waste, so that the hole touches both lines) it stops the saw."
		}
	case c.nibbler:
		x.Drill, x.DrillAt = 0, nil // it ends square by itself
		x.Tool, x.Words = "nibbler", "the inside corner "+where+": nibble it out square."
	case c.disc:
		x.Tool, x.Words = "disc", "the inside corner "+where+": cut both sides with the cut-off disc, "+c.mm(discShort)+" short of it, for the disc cuts farther above than below; file the rest."
	default:
		c.none(&x, "the inside corner "+where)
	}
	c.add(x)
}

// none says that no tool makes it: the sheet is too thick for the snips, or none are owned.
func (c *cutting) none(x *Cut, what string) {
	x.Tool, x.Severity, x.Rule, x.Drill, x.DrillAt = "", fold.Stop, "cut-no-tool", 0, nil
	why := "no saw, snips or nibbler are owned"
	if !c.NoSnips {
		why = "the snips cut " + c.mm(c.SnipsThick) + " at most, the sheet is " + c.mm(c.part.Thickness) + ", and there is no saw or nibbler"
	}
	x.Words = what + " can't be cut: " + why + ". Say which tools there are, or have the blank cut."
}

// pocket reports that piece i is the bottom of a notch or slot: straight, an inside corner at both ends, and its
// sides turn towards each other.
func (c *cutting) pocket(i int) bool {
	e := &c.list[i]
	if e.arc || e.whole {
		return false
	}
	a, b := c.turn(i), c.turn(e.next)
	return a < -straightOn && b < -straightOn && a+b <= -pocketTurn
}

// bottom looks at piece i where it is the bottom of a notch or slot in the outline.
func (c *cutting) bottom(i int) {
	e := &c.list[i]
	if e.contour != 0 || !c.pocket(i) {
		return
	}
	wide := e.length()
	x := c.at(i, CutSlot, e.mid(), wide)
	x.Panels = [2]string{c.panel(e.prev), c.panel(e.next)}
	where, width := c.where(e.prev, e.next, e.mid()), c.wide(wide, c.Slot, c.SnipsAcross, c.Drills[0])
	drill := c.within(wide)
	switch {
	case wide < c.Slot-cutSlack:
		x.Need, x.Rule, x.Severity = c.Slot, "cut-too-narrow", fold.Stop
		x.Words = "the cut " + where + " is " + width + " wide at its end; the narrowest that your tools make is " + c.mm(c.Slot) +
			". Make it wider, or end it in a drilled hole."
	case c.snips && wide >= c.SnipsAcross-cutSlack:
		x.Tool, x.Words = "snips", "the notch "+where+", "+width+" wide at its end: snip both sides, then across."
		c.bottomStops(&x, i)
		if x.Drill > 0 {
			x.Words += " " + capital(c.drillName(x.Drill)) + " in its corners first, in the waste, so that the holes touch both lines."
		}
	case c.nibbler && wide >= c.Nibbler-cutSlack:
		x.Tool, x.Words = "nibbler", "the notch "+where+", "+width+" wide at its end: nibble it out."
	case c.saw && wide <= 2*c.Kerf:
		x.Tool, x.Words = "saw", "the slot "+where+", "+width+" wide at its end: one cut of the saw beside the other, and a file."
	case c.saw && c.sawnAcross(&x, i):
		x.Tool, x.Words = "saw", "the notch "+where+", "+width+" wide at its end: "+c.drillName(x.Drill)+" in its corners first, in the waste; saw both sides into the holes, then across, and file the corners out."
	case drill > 0 && (c.saw || c.snips || c.disc):
		drill, x.DrillAt = c.bottomHoles(i, drill)
		x.Drill, x.Tool = drill, c.drillName(drill)
		by := "Saw"
		switch {
		case c.saw:
		case c.snips:
			by = "Snip"
		default:
			by = "Cut"
		}
		end := " wide at its end: no tool of yours cuts across it. "
		if c.snips {
			end = " wide, is too narrow for snips to cut across its end. "
		}
		x.Words = "the notch " + where + ", " + width + end + capital(x.Tool) +
			" in its corners first. " + by + " both sides into the holes and file the end straight."
	case !c.saw && !c.snips && !c.nibbler:
		c.none(&x, "the notch "+where)
	case c.slotSaid:
		x.Tool, x.Words = "file", "the notch "+where+", "+width+" wide at its end: cut both sides, and file the end straight."
	default:
		x.Need, x.Rule, x.Severity = c.Drills[0], "cut-too-narrow", fold.Stop
		x.Words = "the slot " + where + " is blind: no tool of yours reaches its end, " + width + " wide. Make it " + c.mm(x.Need) + " wide, your smallest drill, and drill its end first."
	}
	c.add(x)
}

// within is the largest drill that goes into a width, 0 where there is none.
func (c *cutting) within(wide float64) float64 {
	below, _, fits := c.nearest(wide)
	if fits > 0 {
		return fits
	}
	return below
}

// hole looks at a round hole.
func (c *cutting) hole(i int) {
	e := &c.list[i]
	d := 2 * e.r
	x := c.at(i, CutHole, e.o, d)
	name := x.Hole + " at " + c.spot(e.o)
	if c.drills(&x, name+", "+c.mm(d)+" across", d) {
		c.add(x)
		return
	}
	// Larger than every drill.
	switch {
	case c.saw && d >= sawRound*c.SawStart:
		x.Tool, x.Words = "saw", name+", "+c.mm(d)+" across: "+c.start(&x, c.SawStart, d)+" inside it, saw it out and file it round."
	case c.nibbler && d >= 2*c.Nibbler:
		x.Tool, x.Words = "nibbler", name+", "+c.mm(d)+" across: "+c.start(&x, c.Nibbler, d)+" inside it, nibble it out and file it round."
	case d < sawRound*c.SawStart:
		largest := c.Drills[len(c.Drills)-1]
		x.Rule, x.Severity, x.Need = "cut-no-drill", fold.Watch, largest
		if !c.said {
			x.Severity = fold.Note
		}
		x.Tool, x.Drill, x.DrillAt = "file", largest, []geom.Vec2{e.o}
		x.Words = name + ", " + c.mm(d) + " across: no drill of yours makes it. Take a hole saw or step drill of its size, or begin it with " + c.drillName(largest) +
			" and file it out round (common practice, no source)."
	default:
		x.Tool, x.Drill, x.Row = "file", c.Drills[0], true
		x.Words = name + ", " + c.mm(d) + " across: drill a row of small holes inside it, break it out and file it round."
	}
	c.add(x)
}

// start says how a hole is begun inside the sheet for a blade that needs one of diameter d, in a place of x that is
// room wide.
func (c *cutting) start(x *Cut, d, room float64) string {
	_, above, fits := c.nearest(d)
	if fits > 0 {
		above = fits
	}
	if above == 0 || above > room+cutSlack {
		x.Drill, x.Row = c.Drills[0], true
		return "drill a row of holes, " + c.mm(d) + " long,"
	}
	x.Drill, x.DrillAt = above, []geom.Vec2{x.At}
	return c.drillName(above)
}

// drills looks at a hole, or a round corner's circle, of the diameter: false where it is larger than every drill.
func (c *cutting) drills(x *Cut, what string, d float64) bool {
	below, above, fits := c.nearest(d)
	x.DrillAt = []geom.Vec2{c.list[c.piece(x)].o}
	switch {
	case fits > 0:
		x.Drill, x.Tool = fits, c.drillName(fits)
		x.Words = what + ": " + x.Tool + "."
	case above == 0:
		x.DrillAt = nil
		return false
	default:
		x.Rule, x.Severity, x.Need, x.Drill = "cut-no-drill", fold.Watch, above, above
		x.Tool = c.drillName(above)
		x.Words = what + ": you own no such drill. "
		if !c.said && x.Kind == CutHole {
			x.Severity = fold.Note
			x.Words = what + ": no usual set has such a drill; say which drills you own. "
		}
		if below > 0 {
			if d-below < above-d {
				x.Need = below
			}
			x.Words += "Drill " + c.drillSize(above) + ", " + c.mm(above-d) + " wider, or " + c.drillSize(below) + ", and file " + c.mm((d-below)/2) + " off all round."
		} else {
			x.Words += "The smallest is " + c.drillSize(above) + ", " + c.mm(above-d) + " wider. Make it that."
		}
	}
	return true
}

// round looks at a round inside corner.
func (c *cutting) round(i int) {
	e := &c.list[i]
	x := c.at(i, CutRound, e.mid(), 2*e.r)
	x.Panels = [2]string{c.panel(e.prev), c.panel(e.next)}
	where := c.where(e.prev, e.next, e.mid())
	what := "the round inside corner " + where + ", radius " + c.mm(e.r)
	turn := min(c.SnipsLeft, c.SnipsRight)
	_, _, fits := c.nearest(2 * e.r)
	switch {
	case fits > 0:
		x.Drill, x.Tool, x.DrillAt = fits, c.drillName(fits), []geom.Vec2{e.o}
		x.Words = what + ": " + x.Tool + " first, then cut into the hole."
	case c.snips && e.contour == 0 && e.r >= turn-cutSlack:
		x.Tool, x.Words = "snips", what+": snip it round."
		if c.SnipsLeft != c.SnipsRight && e.r < max(c.SnipsLeft, c.SnipsRight) {
			hand := "left"
			if c.SnipsRight < c.SnipsLeft {
				hand = "right"
			}
			x.Words = what + ": snip it round with the " + hand + "-hand snips."
		}
	case c.drills(&x, what, 2*e.r):
		if math.Abs(e.sweep) < math.Pi*(1-noise) && x.Rule != "" {
			// Less than half a round: a smaller drill lies inside it, and a file does the rest.
			if below, _, _ := c.nearest(2 * e.r); below > 0 {
				x.Rule, x.Severity, x.Need, x.Drill, x.Tool = "", fold.Note, 0, below, c.drillName(below)
				x.DrillAt = []geom.Vec2{e.o.Add(e.mid().Sub(e.o).Mul((e.r - below/2) / e.r))}
				x.Words = what + ": " + x.Tool + " in it first and file it out to its radius."
			}
		}
	case c.saw && e.r >= c.SawStart:
		x.Tool, x.Words = "saw", what+": saw it round."
	case c.nibbler && e.r >= c.Nibbler:
		x.Tool, x.Words = "nibbler", what+": nibble it round and file it."
	default:
		x.Tool, x.Drill, x.Row = "file", c.Drills[len(c.Drills)-1], true
		x.Words = what + ", is larger than your drills and tighter than snips follow: drill a row of holes along it and file it out."
	}
	c.add(x)
}

// windows looks at the cutouts as a whole: what gets inside them.
func (c *cutting) windows() {
	turn := 2 * min(c.SnipsLeft, c.SnipsRight)
	rooms := max(8, maxRooms/max(1, len(c.part.Spec.Cutouts)))
	for from := 0; from < len(c.list); {
		contour := c.list[from].contour
		to := from
		corners := 0
		for ; to < len(c.list) && c.list[to].contour == contour; to++ {
			if t := c.turn(to); t < -straightOn && !c.list[to].inside() && !c.list[c.list[to].prev].inside() {
				corners++
			}
		}
		list := c.list[from:to]
		from = to
		if contour == 0 || list[0].whole {
			continue
		}
		at, room := widestIn(list, rooms)
		i := to - len(list)
		x := c.at(i, CutWindow, at, room)
		drill := c.within(room)
		what := x.Hole + " at " + c.spot(at)
		switch {
		case c.saw && room >= c.SawStart-cutSlack:
			x.Tool, x.Words = "saw", what+": "+c.start(&x, c.SawStart, room)+" inside it and saw it out."
		case c.nibbler && room >= 2*c.Nibbler-cutSlack:
			x.Tool, x.Words = "nibbler", what+": "+c.start(&x, c.Nibbler, room)+" inside it and nibble it out."
		case c.snips && room >= turn:
			x.Drill, x.Row = c.Drills[0], true
			x.Tool, x.Words = "snips", what+": drill a row of holes inside it for the snips, and snip it round."
		case drill > 0:
			x.Row = true
			x.Tool, x.Drill, x.Words = "file", drill, what+", "+c.wide(room, c.Drills[0])+" wide: "+c.drillName(drill)+" in a row, and file it out."
		default:
			x.Need, x.Rule, x.Severity = c.Drills[0], "cut-too-narrow", fold.Stop
			x.Words = what + " is " + c.wide(room, c.Drills[0]) + " wide at most, and no drill of yours gets in to begin it. Make it " + c.mm(x.Need) + " wide."
		}
		if corners > 0 && x.Rule == "" {
			x.Words += " Its sharp corners are filed out."
		}
		c.add(x)
	}
}

// narrow looks at the slots and the strips of metal.
func (c *cutting) narrow() {
	sliver := max(stripThick*c.part.Thickness, stripLeast)
	all, full := narrowPlaces(c.list, max(sliver, c.SnipsAcross, c.Slot))
	for _, w := range all {
		at := w.p.Add(w.q).Mul(0.5)
		if w.void {
			c.slot(w, at)
		} else if w.wide < sliver-cutSlack {
			c.strip(w, at, sliver)
		}
	}
	for i := range c.list {
		c.tongue(i, sliver)
	}
	if !full {
		c.add(Cut{Kind: CutStrip, At: c.list[0].a, Severity: fold.Watch, Rule: "cut-sliver",
			Words: "The blank has so many edges near each other that not all narrow places could be looked for. Look at the closest ones yourself."})
	}
}

// slot looks at a narrow place across what is cut away.
func (c *cutting) slot(w narrowPlace, at geom.Vec2) {
	x := c.at(w.e, CutSlot, at, w.wide)
	x.Across = [2]int{c.list[w.f].contour, c.list[w.f].index}
	x.Panels = [2]string{c.panel(w.e), c.panel(w.f)}
	e, f := &c.list[w.e], &c.list[w.f]
	for _, g := range [2]int{w.e, w.f} { // its bottom says the same
		if n := c.list[g].next; c.pocket(n) && math.Abs(c.list[n].length()-w.wide) < cutSlack && (c.list[n].next == w.e || c.list[n].next == w.f) && e.contour == 0 {
			return
		}
	}
	what := "the slot " + c.where(w.e, w.f, at) + ", " + c.wide(w.wide, c.Slot) + " wide"
	if x.Hole != "" {
		what = "the narrowest place of " + x.Hole + " at " + c.spot(at) + ", " + c.wide(w.wide, c.Slot) + " wide"
	}
	round := c.endDrill(e, f, w.wide)
	switch {
	case w.wide < c.Slot-cutSlack:
		x.Need, x.Rule, x.Severity = c.Slot, "cut-too-narrow", fold.Stop
		x.Words = what + ": the narrowest that your tools make is " + c.mm(c.Slot) + ". Make it wider."
	case round > 0:
		x.Drill, x.Tool = round, c.drillName(round)
		x.Words = what + ": " + x.Tool + " at its ends, and cut the rest between the holes."
	case x.Hole != "":
		return // told with the cutout as a whole
	case c.nibbler && w.wide >= c.Nibbler-cutSlack:
		x.Tool, x.Words = "nibbler", what+": nibble it."
	case c.snips && w.wide > 2*c.Kerf:
		x.Tool, x.Words = "snips", what+": snip both sides; the waste curls out between them."
	case c.saw:
		x.Tool, x.Words = "saw", what+": saw both sides."
		if w.wide <= c.Kerf*1.5 {
			x.Words = what + ": one cut of the saw."
		}
	case c.snips:
		x.Tool, x.Words = "snips", what+": snip both sides; the waste curls out between them."
	case c.disc && w.wide >= c.Disc-cutSlack:
		x.Tool, x.Words = "disc", what+": cut both sides with the cut-off disc."
	default:
		c.none(&x, what)
	}
	c.add(x)
}

// endDrill is the owned drill that makes the round ends of a slot of that width, 0 where its ends are not round.
func (c *cutting) endDrill(e, f *cutRim, wide float64) float64 {
	for _, g := range [4]int{e.prev, e.next, f.prev, f.next} {
		if h := &c.list[g]; h.inside() && math.Abs(2*h.r-wide) <= 2*drillNear {
			_, _, fits := c.nearest(2 * h.r)
			return fits
		}
	}
	return 0
}

// strip looks at a narrow strip of metal.
func (c *cutting) strip(w narrowPlace, at geom.Vec2, sliver float64) {
	x := c.at(w.e, CutStrip, at, w.wide)
	x.Panels = [2]string{c.panel(w.e), c.panel(w.f)}
	x.Need, x.Rule, x.Severity = sliver, "cut-sliver", fold.Watch
	if w.wide < stripNone*sliver {
		x.Severity = fold.Stop
	}
	a, b := c.holeName(c.list[w.e].contour), c.holeName(c.list[w.f].contour)
	var what string
	switch {
	case a == b && a == "":
		what = "the strip of metal " + c.where(w.e, w.f, at)
	case a == b:
		what = "the strip of metal that reaches into " + a
	case a == "" || b == "":
		x.Hole = a + b
		what = "the metal between " + x.Hole + " and the edge " + c.where(w.e, w.f, at)
	default:
		x.Hole = b
		what = "the metal between " + a + " and " + b
	}
	x.Words = what + " is " + c.wide(w.wide, sliver) + " wide. Under " + c.mm(sliver) +
		" it curls and tears as it is cut (common practice, no source). Leave more, or cut it away."
	c.add(x)
}

// tongue looks at piece i where it is the end of a strip of metal.
func (c *cutting) tongue(i int, sliver float64) {
	e := &c.list[i]
	wide := e.length()
	if e.arc || wide >= sliver-cutSlack {
		return
	}
	a, b := c.turn(i), c.turn(e.next)
	if a < straightOn || b < straightOn || a+b < pocketTurn || min(c.list[e.prev].length(), c.list[e.next].length()) <= wide {
		return
	}
	last := &c.list[e.next]
	w := narrowPlace{e: e.prev, f: e.next, p: e.a, q: last.a, wide: wide}
	for _, x := range c.out {
		if x.Kind == CutStrip && x.At.Sub(e.mid()).Len() <= max(c.list[e.prev].length(), last.length()) && math.Abs(x.Size-wide) < cutSlack {
			return // told as a strip
		}
	}
	c.strip(w, e.mid(), sliver)
}

func capital(s string) string { return strings.ToUpper(s[:1]) + s[1:] }

func degreesText(x float64) string { return strconv.FormatFloat(x, 'f', 1, 64) + " degrees" }
