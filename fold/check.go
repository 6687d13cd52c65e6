package fold

// This file holds Check: everything that is known about a part, as one Report.

import (
	"fmt"
	"math"

	"dryfold/fold/geom"
	"dryfold/fold/metal"
)

// Check measures the part: sizes, bends, swings, clashes and seams, with every
// trouble found. A part that can't be folded is reported by its blank and its troubles.
func (p *Part) Check() Report {
	r := p.Quick()
	if !p.Foldable {
		return r
	}
	s := newShapes(p)
	clashes := s.clashes()
	p.addClashes(&r, s, clashes)
	r.Passes = s.passes(clashes)
	p.JudgePasses(&r, func(Pass) float64 { return 0 })
	p.addOverlaps(&r, s)
	if w := p.FindWorth(); w != nil {
		r.Worth = w
	}
	return r
}

// Quick is the part of the Report that needs no search: blank, sizes, panels,
// bends, swings, seams, and the troubles of the blank and the seams. Swings are
// "ok" as far as it knows; Clashes is empty.
func (p *Part) Quick() Report {
	r := p.Sizes()
	if p.Foldable {
		p.addSeams(&r)
	}
	return r
}

// Sizes is the Report without anything that is measured between panels: blank,
// finished size, panels, bends, swings, and the troubles of the blank. It takes
// little longer than a pose, so that a page can show it while a hand still moves.
func (p *Part) Sizes() Report {
	r := Report{
		Part:      p.Spec.Name,
		Thickness: p.Thickness,
		Panels:    []PanelReport{}, Bends: []BendReport{}, Swings: []SwingReport{},
		Seams: []SeamReport{}, Clashes: []ClashReport{}, Troubles: []TroubleReport{}, Worth: []Worth{},
	}
	if len(p.Outline) > 0 {
		size := p.Blank.Box.Size()
		r.Blank = BlankReport{Width: size[0], Height: size[1], Area: p.Blank.Area}
		if p.Density > 0 {
			kg := p.Thickness * p.Density * 1e-9 // for a mm2
			r.Blank.Mass, r.Blank.Rectangle = number(p.Blank.Area*kg), number(size[0]*size[1]*kg)
			if m, ok := p.MetalFacts(); ok {
				r.Blank.MassSource = m.Density.Source.String()
			}
		}
		p.addPrice(&r)
	}
	for _, q := range p.Panels {
		r.Panels = append(r.Panels, PanelReport{q.Name, q.Area})
	}
	for i := range p.Bends {
		r.Bends = append(r.Bends, p.bendReport(i))
	}
	for _, t := range p.Troubles {
		r.addTrouble(t)
	}
	if !p.Foldable {
		return r
	}
	size := [3]float64(p.Pose(p.Finished()).Box().Size())
	r.Finished.Size = &size
	for _, sw := range p.Swings {
		s := SwingReport{Number: sw.Number, To: sw.To[0].Degrees(), State: "ok"}
		for _, b := range sw.Bends {
			s.Bends = append(s.Bends, p.Bends[b].Name)
		}
		r.Swings = append(r.Swings, s)
	}
	return r
}

// Setback is the outside setback at this angle: from the tangent line to the
// outside sharp up to 90 degrees, to the outermost tangent plane (R+T) beyond.
// mold keeps to the sharp, and is infinite at 180 degrees and over.
// Source: handbooks' (R+T) tan(angle/2), FAA-H-8083-31 ch. 4.
func (b *Bend) Setback(t float64) (setback, mold float64) {
	return metal.Setback(b.Angle.Degrees(), b.Radius, t)
}

// Way is "up" or "down".
func (b *Bend) Way() string {
	if b.Up {
		return "up"
	}
	return "down"
}

func (p *Part) bendReport(i int) BendReport {
	b := &p.Bends[i]
	setback, mold := b.Setback(p.Thickness)
	r := BendReport{
		Name: b.Name, Way: b.Way(), Angle: p.Spec.Bends[i].Angle, Radius: b.Radius, K: b.K, KSource: b.KSource,
		Length: b.Length, Allowance: b.Allowance, Setback: setback, Deduction: 2*setback - b.Allowance,
		SetAngle: p.Spec.Bends[i].Angle,
	}
	if b.SetTold > b.Angle {
		r.SetAngle = b.SetTold.Degrees()
	}
	p.addMetal(i, &r)
	if p.Foldable { // a bend that the order leaves part-way is set no further
		if end := p.Finished()[i]; end < b.Angle {
			r.SetAngle = end.Degrees()
			r.SetLeast, r.SetDoubt = nil, 0
			if s := p.partSet(i, end); s > end {
				r.SetAngle = s.Degrees()
			}
		}
	}
	if !math.IsInf(mold, 1) {
		r.MoldSetback = number(mold)
	}
	if b.A >= 0 && b.B >= 0 {
		r.From, r.To = p.Panels[b.A].Name, p.Panels[b.B].Name
	}
	return r
}

// partSet is the set angle of a bend that stays part-way, at end.
func (p *Part) partSet(i int, end geom.Angle) geom.Angle {
	b := &p.Bends[i]
	if b.SetTold <= b.Angle {
		return end
	}
	return end * b.SetTold / b.Angle
}

// addSeams measures every seam as finished and judges it.
func (p *Part) addSeams(r *Report) {
	seams, troubles := p.MeasureSeams()
	for _, t := range troubles {
		r.addTrouble(t)
	}
	for _, m := range seams {
		if m.OK {
			r.Seams = append(r.Seams, p.seamReport(m.Seam, m.Gap))
		}
	}
	p.JudgeSeams(r)
}

// BodyName is "panel left" or "bend left".
func (p *Part) BodyName(b Body) string {
	if b.Zone {
		return "bend " + p.Bends[b.Index].Name
	}
	return "panel " + p.Panels[b.Index].Name
}

// addClashes adds the clashes to a quick report.
func (p *Part) addClashes(r *Report, s *shapes, clashes []Clash) {
	worked := s.work
	for i, c := range clashes {
		sw := p.Swings[c.Swing]
		cr := ClashReport{
			Swing: sw.Number, Bends: r.Swings[c.Swing].Bends, A: p.BodyName(c.A), B: p.BodyName(c.B),
			Angle: c.Angle.Degrees(), Depth: c.Depth, AtEnd: c.AtEnd, Undecided: c.Undecided, Overbend: c.Overbend, Clash: c,
		}
		if i < maxCutClashes && s.work-worked < cutAllWork {
			cr.Cuts = s.cuts(&c, len(clashes))
		}
		r.Clashes = append(r.Clashes, cr)
		sev, rule := Stop, "clash"
		if c.Overbend {
			sev, rule = Watch, "fouls-on-overbend"
		}
		if sev == Stop || r.Swings[c.Swing].State == "ok" {
			r.Swings[c.Swing].State = sev.String()
		}
		b := &p.Bends[sw.Bends[0]]
		have, need := number(c.Depth), number(0)
		if c.Undecided {
			have, need = nil, nil
		}
		r.addTrouble(Trouble{sev, rule, "bend", b.Name, p.clashPlace(c), have, need, p.clashMessage(c, &cr)})
	}
}

// addOverlaps adds the overlaps of the finished part that no clash of the report tells of.
func (p *Part) addOverlaps(r *Report, s *shapes) {
	ended := map[[2]Body]bool{}
	for _, c := range r.Clashes {
		if c.AtEnd {
			ended[[2]Body{c.Clash.A, c.Clash.B}] = true
		}
	}
	overlaps, all := s.finishedOverlaps()
	for _, o := range overlaps {
		if ended[[2]Body{o.a, o.b}] || ended[[2]Body{o.b, o.a}] {
			continue
		}
		at := geom.Vec2{}
		kind, name := "panel", ""
		if o.a.Zone {
			kind, name, at = "bend", p.Bends[o.a.Index].Name, p.Bends[o.a.Index].Line[0]
		} else {
			name, at = p.Panels[o.a.Index].Name, p.Panels[o.a.Index].Label
		}
		r.addTrouble(Trouble{Stop, "panels-overlap", kind, name, at, number(o.depth), number(0), fmt.Sprintf(
			"In the finished part %s and %s lie %.2f mm in each other; cut one of them back.", p.placeName(o.a), p.placeName(o.b), o.depth)})
	}
	if !all {
		r.addTrouble(Trouble{Stop, "panels-overlap", "", "", geom.Vec2{}, number(maxClashes), number(0), fmt.Sprintf(
			"Only the first %d overlaps of the finished part are listed; mend these, then look again.", maxClashes)})
	}
}

// clashPlace is where on the blank the clash's first point of contact lies, on A's solid.
func (p *Part) clashPlace(c Clash) geom.Vec2 {
	if c.Rest {
		return p.Panels[p.Bends[p.Swings[c.Swing].Bends[0]].B].Label
	}
	if c.A.Zone {
		z := &p.Bends[c.A.Index]
		return z.Line[0].Add(z.Line[1]).Mul(0.5)
	}
	q := p.Pose(p.StateAt(c.Swing, c.Fraction)).Panels[c.A.Index].LocalPoint(c.Point)
	return geom.Vec2{q[0], q[1]}
}

// clashMessage says who meets whom and where, or what could not be decided.
func (p *Part) clashMessage(c Clash, r *ClashReport) string {
	head := fmt.Sprintf("Swing %d, %s: ", r.Swing, List(r.Bends))
	a, b := p.placeName(c.A), p.placeName(c.B)
	switch {
	case c.Rest:
		return head + fmt.Sprintf("the search for what meets was given up at %s and %s; it is shown as not allowed. Make fewer bends in one swing, or mend the other clashes first.", a, b)
	case c.Undecided:
		return head + fmt.Sprintf("it could not be decided whether %s meets %s from about %.0f degrees on; it is shown as not allowed. Leave more room between them, or bend in another order.", a, b, r.Angle)
	}
	end := "It is clear again at the end of the swing."
	if c.AtEnd {
		end = "They still lie in each other at its end."
	}
	if c.Overbend {
		return head + fmt.Sprintf("%s fouls %s on overbend, at about %.1f degrees, %.2f mm deep, and is clear again when the metal has sprung back. Shorten one of them a little, or finish the last degrees by hand.", a, b, r.Angle, c.Depth)
	}
	cure := "Bend it in another order, or shorten one of them."
	if len(p.Swings) == 1 {
		cure = "Shorten one of them, or bend less."
	}
	switch {
	case p.atCorner(c):
		cure = "Cut a larger relief where their lines cross."
	case len(r.Cuts) > 0 && len(p.Swings) == 1:
		cure = sentence("%s, or bend less.", r.Cuts[0].Words())
	case len(r.Cuts) > 0:
		cure = sentence("bend it in another order, or %s.", r.Cuts[0].Words())
	}
	deep := fmt.Sprintf("%.1f", c.Depth)
	if c.Depth < 0.1 {
		deep = fmt.Sprintf("%.2f", c.Depth)
	}
	return head + fmt.Sprintf("%s meets %s at about %.0f degrees, %s mm deep. %s %s", a, b, r.Angle, deep, end, cure)
}

// atCorner reports whether two bends of one panel, on lines that cross, meet: no order
// parts them.
func (p *Part) atCorner(c Clash) bool {
	if !c.A.Zone || !c.B.Zone {
		return false
	}
	a, b := &p.Bends[c.A.Index], &p.Bends[c.B.Index]
	if a.A != b.A && a.A != b.B && a.B != b.A && a.B != b.B {
		return false
	}
	at, ok := lineCrossing(a.Line[0], a.U, b.Line[0], b.U)
	reach := a.Allowance + b.Allowance
	near := func(l [2]geom.Vec2) bool {
		return min(l[0].Sub(at).Len(), l[1].Sub(at).Len()) <= reach
	}
	return ok && near(a.Line) && near(b.Line)
}

// placeName is how a message calls a solid: a panel by its name, a zone as "the bend at ...".
func (p *Part) placeName(b Body) string {
	if b.Zone {
		return theBend(p.Bends[b.Index].Name)
	}
	return p.Panels[b.Index].Name
}

// List joins names as a sentence does: "a", "a and b", "a, b and c".
func List(ns []string) string {
	switch len(ns) {
	case 0:
		return ""
	case 1:
		return ns[0]
	}
	s := ns[0]
	for _, n := range ns[1 : len(ns)-1] {
		s += ", " + n
	}
	return s + " and " + ns[len(ns)-1]
}

// AddTrouble adds what was found elsewhere, as when a part was made from its sizes.
func (r *Report) AddTrouble(t Trouble) { r.addTrouble(t) }

func (r *Report) addTrouble(t Trouble) {
	w := TroubleWhere{At: [2]float64{t.At[0], t.At[1]}}
	switch t.Kind {
	case "panel":
		w.Panel = t.Name
	case "bend":
		w.Bend = t.Name
	case "seam":
		w.Seam = t.Name
	case "hole":
		w.Hole = t.Name
	}
	r.Troubles = append(r.Troubles, TroubleReport{t.Severity.String(), t.Rule, w, t.Have, t.Need, t.Message})
}
