package fold

// This file finds what of a job a hand brake's leaf can't do alone, by the shape of the part: bends to be closed
// under the bar, and joggles.

import "math"

// Closing is a bend that goes further than a leaf does: the leaf bends it as far as it goes, the clamp bar closes it.
type Closing struct {
	Leaf bool // the leaf has to bend it first; else an earlier swing has done so
	// Gap is the clear distance between the faces at the fold, End at the free edge of what is folded, mm; End is the
	// distance to the held panel's plane, under nothing where the edge would lie in it.
	Gap, End float64
}

// Closing says how a swing is closed under the bar; ok is false where the leaf does it all.
func (p *Part) Closing(swing int) (c Closing, ok bool) {
	sw := &p.Swings[swing]
	if len(sw.Bends) != 1 || sw.To[0].Degrees() <= LeafHigh {
		return c, false
	}
	b := &p.Bends[sw.Bends[0]]
	sin, cos := math.Sincos(float64(sw.To[0]))
	reach := 0.0 // of the panel, from its tangent line
	for _, q := range p.Panels[b.B].Region.Outer {
		_, s := b.Coord(q)
		reach = max(reach, s-b.Allowance)
	}
	// The inner face leaves the cylinder of the inside radius along its tangent.
	c = Closing{Leaf: sw.From[0].Degrees() < LeafLow-protractor, Gap: 2 * b.Radius, End: b.Radius*(1-cos) + reach*sin}
	return c, true
}

// Joggle is a step made by two close opposite bends, which are pressed at once by hand.
type Joggle struct {
	Bends [2]int // the one nearer to the base first
	Step  float64
}

// Joggles lists the part's joggles: two opposite bends of one angle, parallel and with less flat metal between them than the nose
// needs, whose step is no more than a few thicknesses. The Part must be Foldable.
func (p *Part) Joggles() []Joggle {
	var out []Joggle
	at := make([][]int, len(p.Panels)) // the bends of each panel
	for i := range p.Bends {
		at[p.Bends[i].A] = append(at[p.Bends[i].A], i)
		at[p.Bends[i].B] = append(at[p.Bends[i].B], i)
	}
	taken := make([]bool, len(p.Bends))
	for i := range p.Bends {
		for _, j := range at[p.Bends[i].B] {
			if p.Bends[j].A != p.Bends[i].B || taken[i] || taken[j] {
				continue
			}
			if step, ok := p.joggled(&p.Bends[i], &p.Bends[j]); ok {
				taken[i], taken[j] = true, true
				out = append(out, Joggle{[2]int{i, j}, step})
			}
		}
	}
	return out
}

// joggled gives the step that b, further from the base, makes with a; ok is false where they are no joggle.
func (p *Part) joggled(a, b *Bend) (step float64, ok bool) {
	if a.Up == b.Up || math.Abs(float64(a.Angle-b.Angle)) > joggleAlike || a.N.Dot(b.N) < math.Cos(joggleAlike) ||
		float64(a.Angle) > math.Pi/2+joggleAlike {
		return 0, false
	}
	flat := 0.0
	for _, q := range b.Line {
		_, s := a.Coord(q)
		flat = max(flat, s-a.Allowance-b.Allowance/2)
	}
	// In section the middle of the sheet rises in each bend by its radius times 1 - cos, in the flat by its length times sin.
	sin, cos := math.Sincos(float64(a.Angle))
	step = (a.Radius+b.Radius+p.Thickness)*(1-cos) + flat*sin
	return step, flat < joggleFlat*p.Thickness && step <= joggleStep*p.Thickness
}
