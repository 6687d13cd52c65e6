package fold

// This file finds what the metal itself would not bear, and what lies too near a bend.

import (
	"fmt"
	"math"
	"strings"

	"dryfold/fold/geom"
	"dryfold/fold/metal"
)

// leastRadii are the least inside radii that lists give for a bend.
func (p *Part) leastRadii(b *Bend) []metal.Least {
	m, known := p.MetalFacts()
	if !known {
		return nil
	}
	direction := p.grainTo(b)
	if direction == "slanting" {
		direction = "along"
	}
	return metal.LeastRadius(m, p.Thickness, direction)
}

// checkMetal adds what is wrong with the bends for this metal, and with what lies near them. The part
// is foldable.
func (p *Part) checkMetal() {
	p.checkKnown()
	p.checkRadii()
	p.checkScribing()
	p.checkHolesNear()
	p.checkLips()
	p.checkReliefs()
	p.checkReliefHoles()
}

// checkRadii compares inside radii with the lists' least: one trouble for all bends of a radius that lie alike to
// the grain.
func (p *Part) checkRadii() {
	groups := p.byRadius(func(i int) (string, bool) { // a hem is flattened on purpose: the lists speak of 90 degrees
		return p.grainTo(&p.Bends[i]), p.Spec.Bends[i].Angle < hemAngle
	})
	m, _ := p.MetalFacts()
	for _, g := range groups {
		b := &p.Bends[g.bends[0]]
		who := p.these(g.bends)
		if b.Radius == 0 {
			p.trouble(Note, "sharp-bend", "bend", b.Name, b.Line[0].Add(b.Line[1]).Mul(0.5), number(0), nil, sentence(
				"%s: inside radius 0 is a crease. No nose is so sharp: it comes out rounder, and then the blank is too long. Enter the radius that a test strip shows.", who))
		}
		least := p.leastRadii(b)
		lo, hi, top, under, all := math.Inf(1), 0.0, 0.0, 0, 0
		for _, l := range least {
			if l.Advice {
				continue // what forms easily, not the least
			}
			if m.LeastRT != nil && all > 0 {
				break // the maker's own figure, which comes first, goes before the lists
			}
			all++
			lo, hi, top = min(lo, l.Radius), max(hi, l.Radius), max(top, l.High)
			if b.Radius < l.Radius-radiusSlack {
				under++
			}
		}
		if under == 0 {
			continue
		}
		grain := map[string]string{"along": ", along the grain", "across": ", across the grain", "slanting": ", aslant to the grain"}[g.kind]
		if g.kind == "" && directional(least) {
			grain = " (grain not said)"
		}
		by := "by the lists"
		if m.LeastRT != nil {
			by = "by your own figure"
		}
		sev, word, lists := Note, "lists disagree whether R %s cracks", figure(lo)+" to "+figure(hi)
		if under == all {
			sev, word = Watch, "R %s may crack"
		}
		if lo == hi {
			lists = figure(lo)
		}
		if top > hi { // a list that gives a range itself
			lists += ", by one up to " + figure(top)
		}
		p.trouble(sev, "radius-tight", "bend", b.Name, b.Line[0].Add(b.Line[1]).Mul(0.5), number(b.Radius), number(hi), sentence(
			"%s: "+word+". Least inside radius %s for %s of %s%s: %s. R %s would do; bend a strip first.",
			who, figure(b.Radius), by, figure(p.Thickness), p.Metal, grain, lists, figure(hi)))
	}
}

func directional(least []metal.Least) bool {
	for _, l := range least {
		if l.Direction != "" {
			return true
		}
	}
	return false
}

// checkKnown says so where the metal is not one of the list.
func (p *Part) checkKnown() {
	if _, ok := p.MetalFacts(); ok || p.Metal == "" {
		return
	}
	also := ""
	if _, ok := metal.HandbookMetal(p.Metal); ok {
		also = " Of it only the constant of Machinery's Handbook's rule is known."
	}
	p.trouble(Note, "metal-unknown", "", "", p.Panels[p.Base].Label, nil, nil, fmt.Sprintf(
		"%s is not a metal of the list: its weight, least radius and springback are not known, nor what it warns of.%s Choose one of the list, or add yours and say which it is like.", p.Metal, also))
}

// checkTests passes on what the study of the test bends has to say: strips that were left out, and
// strips that give a K which something else goes before.
func (p *Part) checkTests(l *lore) {
	if l.tests == 0 || len(p.Bends) == 0 {
		return
	}
	b := &p.Bends[0]
	at := b.Line[0].Add(b.Line[1]).Mul(0.5)
	for _, v := range l.study.Strips {
		if v.State != "used" { // it spoils nothing any more
			p.trouble(Note, "test-bend", "", "", at, nil, nil, strings.Join(v.Words, " "))
		}
	}
	for _, w := range l.study.Faults {
		p.trouble(Watch, "test-bend", "", "", at, nil, nil, w)
	}
	for _, g := range p.byRadius(func(i int) (string, bool) { return "", p.Bends[i].KBy != "tests" }) {
		f, ok, _ := l.tested(g.radius, p.Thickness)
		if !ok {
			continue
		}
		b, who := &p.Bends[g.bends[0]], ""
		if len(g.bends) < len(p.Bends) {
			who = " for " + p.these(g.bends)
		}
		p.trouble(Note, "tests-unused", "bend", b.Name, b.Line[0].Add(b.Line[1]).Mul(0.5), number(b.K), number(f.k), fmt.Sprintf(
			"K %s is used%s (%s), though your test bends give %s (%s). Let K come from your test bends, or take them out.", bare(b.K), who, b.KSource, bare(f.k), f.source))
	}
}

// checkScribing warns of scribed lines on aluminium.
func (p *Part) checkScribing() {
	if m, ok := p.MetalFacts(); !ok || m.Family != "aluminium" || len(p.Bends) == 0 {
		return
	}
	b := &p.Bends[0]
	p.trouble(Note, "scribe-line", "", "", b.Line[0].Add(b.Line[1]).Mul(0.5), nil, nil,
		"Aluminium cracks along a scribed line on the outside of a bend: mark bend lines in pencil or felt pen, or on the inside face (common practice, no source).")
}

// checkHolesNear finds holes and cutouts that lie near a bend: the bend draws them out of shape. One trouble for each
// of them, at its nearest bend.
func (p *Part) checkHolesNear() {
	for k, void := range p.Voids {
		name := p.voidName(k + 1)
		near, bend := math.Inf(1), -1
		for i := range p.Bends {
			b := &p.Bends[i]
			from, to := b.run()
			d := math.Inf(1)
			for j, a := range void {
				d = min(d, stripDistance(b, a, void[(j+1)%len(void)], from, to))
			}
			// by how much it is nearer than the widest list allows
			if lists := metal.HoleToBend(b.Radius, p.Thickness); d > 0 && d < widest(lists) && d < near {
				near, bend = d, i
			}
		}
		if bend < 0 {
			continue
		}
		b := &p.Bends[bend]
		lists := metal.HoleToBend(b.Radius, p.Thickness)
		lo, hi := narrowest(lists), widest(lists)
		sev, word := Note, "lists disagree whether it stays round"
		if near < lo {
			sev, word = Watch, "the bend will draw it out of shape"
		}
		if strings.HasPrefix(name, "cutout") {
			word = strings.Replace(word, "round", "in shape", 1)
		}
		p.trouble(sev, "hole-near-bend", "hole", name, middle(void), number(near), number(lo), sentence(
			"%s lies %s from the tangent line of %s: %s. Lists ask for %s to %s (common practice; they disagree). Move it, or drill it after bending.",
			name, figure(near), theBend(b.Name), word, figure(lo), figure(hi)))
	}
}

// stripDistance is how far an edge lies from a bend's zone, 0 where it reaches in.
func stripDistance(b *Bend, a, c geom.Vec2, from, to float64) float64 {
	ua, sa := b.Coord(a)
	uc, sc := b.Coord(c)
	// The zone is a box in its own coordinates: clip the edge to its length, then look across.
	t0, t1 := 0.0, 1.0
	du := uc - ua
	for _, side := range [2][2]float64{{from - ua, 1}, {ua - to, -1}} {
		need, dir := side[0], side[1]
		if du == 0 {
			if need > 0 {
				return math.Inf(1)
			}
			continue
		}
		t := need / (du * dir)
		if du*dir > 0 {
			t0 = max(t0, t)
		} else {
			t1 = min(t1, t)
		}
	}
	if t0 > t1 {
		return math.Inf(1)
	}
	s0, s1 := sa+(sc-sa)*t0, sa+(sc-sa)*t1
	lo, hi := min(s0, s1), max(s0, s1)
	switch {
	case lo > b.Allowance:
		return lo - b.Allowance
	case hi < 0:
		return -hi
	}
	return 0
}

func middle(l geom.Loop) geom.Vec2 {
	box := geom.EmptyBox2()
	for _, p := range l {
		box.Add(p)
	}
	return box.Min.Add(box.Max).Mul(0.5)
}

func widest(ds []metal.Distance) (mm float64) {
	for _, d := range ds {
		mm = max(mm, d.Mm)
	}
	return mm
}

func narrowest(ds []metal.Distance) float64 {
	mm := math.Inf(1)
	for _, d := range ds {
		mm = min(mm, d.Mm)
	}
	return mm
}

// checkLips finds flanges at the edge of the part that are shorter than any the maker's brake has turned.
func (p *Part) checkLips() {
	if p.Spec.Sheet.Lip == nil {
		return
	}
	least := *p.Spec.Sheet.Lip * p.Spec.Units.Scale()
	for i := range p.Bends {
		b := &p.Bends[i]
		if b.B < 0 || !p.leaf(b.B) {
			continue
		}
		reach := 0.0
		for _, l := range p.Panels[b.B].Region.Loops() {
			for _, q := range l {
				_, s := b.Coord(q)
				reach = max(reach, s-b.Allowance)
			}
		}
		setback, _ := b.Setback(p.Thickness)
		if size := reach + setback; size < least-lipSlack {
			p.trouble(Watch, "lip-short", "bend", b.Name, p.Panels[b.B].Label, number(size), number(least), sentence(
				"%s is %.1f mm outside, shorter than the shortest lip your brake has turned, %s. Make it longer, or try it on a strip.",
				thePanel(p.Panels[b.B].Name), size, figure(least)))
		}
	}
}

// leaf reports that nothing hangs on a panel.
func (p *Part) leaf(panel int) bool {
	for i := range p.Bends {
		if p.Bends[i].A == panel {
			return false
		}
	}
	return true
}

// addMetal fills in what the metal says of a bend.
func (p *Part) addMetal(i int, r *BendReport) {
	b := &p.Bends[i]
	r.KKind, r.KSpread, r.Rule, r.RadiusFrom = b.KKind.String(), b.KSpread, b.Rule, radiusFrom(p.Spec.Bends[i])
	r.Grain = p.grainTo(b)
	r.LeastRadius = LeastRadii(p.leastRadii(b))
	angle := p.Spec.Bends[i].Angle
	if angle >= hemAngle {
		r.SetSource = "a hem is flattened: nothing is added"
		return
	}
	if b.SetSource != "" {
		r.SetMeasured, r.SetSource, r.SetDoubt = true, b.SetSource, b.SetDoubt
	} else {
		r.SetSource = "not known: bend a strip first"
	}
	if m, ok := p.MetalFacts(); ok {
		if lo, hi, src, ok := metal.LeastSet(m, angle, b.Radius, p.Thickness); ok {
			r.SetLeast, r.SetLeastSource = &[2]float64{lo, hi}, fmt.Sprintf("a lower limit, %s; on a hand brake it is several degrees more (common practice, no source)", src)
		}
	}
}
