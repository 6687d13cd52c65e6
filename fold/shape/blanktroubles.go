package shape

// This file finds what is wrong with a blank as a whole that cutting it into panels doesn't tell: it doesn't fit the
// sheet, it lies over itself by how much, a hole is eaten by a relief, a panel has hardly any width.

import (
	"fmt"
	"math"
	"slices"

	"dryfold/fold"
	"dryfold/fold/geom"
)

// BlankTroubles are the blank's own troubles, beside those that the part has already. made is how a part by sizes was made, its zero
// value for a part by its blank.
func BlankTroubles(made Made, p *fold.Part) (out []fold.Trouble) {
	if len(p.Outline) < 3 {
		return nil
	}
	out = append(out, FitsSheet(p)...)
	out = append(out, liesOver(p)...)
	out = append(out, eaten(made, p)...)
	return append(out, vanishing(p)...)
}

// FitsSheet compares the blank's box with the sheet that the maker buys, both ways round: the trouble where it doesn't fit.
func FitsSheet(p *fold.Part) []fold.Trouble {
	k := p.Spec.Units.Scale()
	long, short := p.Spec.Price.Sheet[0]*k, p.Spec.Price.Sheet[1]*k
	if !(long > 0 && short > 0) {
		return nil
	}
	if long < short {
		long, short = short, long
	}
	box := p.Blank.Box.Size()
	most, least := max(box[0], box[1]), min(box[0], box[1])
	if most <= long+sheetSlack && least <= short+sheetSlack {
		return nil
	}
	have, need := most, long
	if least > short+sheetSlack && least-short > most-long {
		have, need = least, short
	}
	mid := p.Blank.Box.Min.Add(p.Blank.Box.Max).Mul(0.5)
	return []fold.Trouble{{Severity: fold.Watch, Rule: "blank-no-fit", At: mid, Have: &have, Need: &need, Message: fmt.Sprintf(
		"The blank is %.1f mm by %.1f mm, the sheet %.1f mm by %.1f mm: laid square it doesn't fit, turned a quarter neither. Take a larger sheet, make the part %.1f mm smaller that way, or make it in two pieces.",
		most, least, long, short, math.Ceil((have-need)*10)/10)}}
}

// liesOver tells by how much a blank lies over itself.
func liesOver(p *fold.Part) []fold.Trouble {
	k := slices.IndexFunc(p.Troubles, func(t fold.Trouble) bool { return t.Rule == "blank-overlap" && t.Kind == "" })
	if k < 0 {
		return nil
	}
	area, at := areaTwice(p.Outline)
	if area <= 0 {
		return nil
	}
	words := fmt.Sprintf("The blank lies over itself by %s cm2 in all.", fig(math.Round(area/100*100)/100))
	if p.Spec.Units == fold.Inch {
		words = fmt.Sprintf("The blank lies over itself by %s sq in in all.", fig(area/25.4/25.4))
	}
	return []fold.Trouble{{Severity: fold.Note, Rule: "blank-overlap", At: at, Have: &area, Message: words}}
}

// areaTwice is the area that an outline covers more than once, and a point of the largest such piece.
func areaTwice(l geom.Loop) (area float64, at geom.Vec2) {
	var segs []geom.Segment
	for i, a := range l {
		segs = append(segs, geom.Segment{A: a, B: l[(i+1)%len(l)], Tag: i})
	}
	arr, _ := geom.Arrange(segs, fold.Weld, maxLooks)
	if arr == nil {
		return 0, at
	}
	most := 0.0
	for f := 1; f < len(arr.Faces); f++ {
		q, _ := arr.Inside(f)
		if n := windings(l, q); n <= 1 && n >= -1 {
			continue
		}
		sum := 0.0
		for _, h := range arr.Faces[f].Loops {
			sum += arr.LoopPoints(h).Area()
		}
		if area += sum; sum > most {
			most, at = sum, q
		}
	}
	return area, at
}

// windings is how often a loop goes counter-clockwise round a point that is not on it.
func windings(l geom.Loop, p geom.Vec2) (n int) {
	for i, a := range l {
		b := l[(i+1)%len(l)]
		left := geom.Cross2(b.Sub(a), p.Sub(a))
		switch {
		case a[1] <= p[1] && b[1] > p[1] && left > 0:
			n++
		case a[1] > p[1] && b[1] <= p[1] && left < 0:
			n--
		}
	}
	return n
}

// eaten tells which relief, notch or edge a hole runs into, how far, and by how much to move it. That it does is a trouble of
// the part already.
func eaten(made Made, p *fold.Part) (out []fold.Trouble) {
	var c *cutting
	for _, t := range p.Troubles {
		if t.Rule != "void-off-sheet" || t.Kind != "hole" {
			continue
		}
		if c == nil {
			c = &cutting{part: p, list: cutRims(p.Spec), inch: p.Spec.Units == fold.Inch}
			c.namePanels()
		}
		k := 1
		for k <= len(p.Voids) && c.holeName(k) != t.Name {
			k++
		}
		if k > len(p.Voids) || len(p.Voids) != len(p.Spec.Cutouts)+len(p.Spec.Holes) {
			continue
		}
		var outline []cutRim
		for _, e := range c.list {
			if e.contour == 0 {
				outline = append(outline, e)
			}
		}
		// The point of the hole that lies farthest off the metal, and the piece of the edge nearest to it.
		deep, at := 0.0, geom.Vec2{}
		inside := false
		for _, q := range p.Voids[k-1] {
			if d := depthIn(outline, q); d < 0 {
				if -d > deep {
					deep, at = -d, q
				}
			} else {
				inside = true
			}
		}
		if !inside || deep == 0 {
			continue // wholly off the sheet
		}
		near, least := 0, math.Inf(1)
		for i := range outline {
			d := min(outline[i].a.Sub(at).Len(), outline[i].b.Sub(at).Len())
			if q, ok := outline[i].foot(at); ok {
				d = min(d, q.Sub(at).Len())
			}
			if d < least {
				near, least = i, d
			}
		}
		where := c.where(near, near, at)
		if c.panel(near) == "" { // a relief's own edge
			where = c.where(outline[near].prev, outline[near].next, at)
		}
		name := t.Name
		if i := k - 1 - len(p.Spec.Cutouts); made.Spec.Sizes != nil && len(made.Holes) == len(p.Voids) {
			if i < 0 { // cutouts stand behind the holes there
				i = len(p.Spec.Holes) + k - 1
			}
			if f := made.Holes[i]; f < len(made.Spec.Sizes.Holes) && made.Spec.Sizes.Holes[f].Name != "" {
				name += " (" + made.Spec.Sizes.Holes[f].Name + ")"
			}
		}
		sliver := max(stripThick*p.Thickness, stripLeast)
		need := deep + sliver
		have := deep
		out = append(out, fold.Trouble{Severity: fold.Note, Rule: "hole-eaten", Kind: "hole", Name: t.Name, At: at, Have: &have, Need: &need, Message: capital(fmt.Sprintf(
			"%s reaches %.1f mm into what is cut away %s. Move it %.1f mm back or make it smaller, so that %.1f mm of metal stay between.",
			name, deep, where, need, sliver))})
	}
	return out
}

// vanishing finds panels that are narrower than the sheet is thick, or nearly so.
func vanishing(p *fold.Part) (out []fold.Trouble) {
	if !p.Foldable {
		return nil
	}
	least := max(stripThick*p.Thickness, stripLeast) / 2
	rooms := max(8, maxRooms/len(p.Panels))
	for k := range p.Panels {
		q := &p.Panels[k]
		if roomAt(q.Region, q.Label) >= least {
			continue // wide enough at its label already
		}
		var list []cutRim
		for _, l := range q.Region.Loops() {
			for i, a := range l {
				list = append(list, cutRim{a: a, b: l[(i+1)%len(l)]})
			}
		}
		at, wide := widestIn(list, rooms)
		if wide >= least {
			continue
		}
		have, need := wide, least
		out = append(out, fold.Trouble{Severity: fold.Watch, Rule: "panel-vanishes", Kind: "panel", Name: q.Name, At: at, Have: &have, Need: &need, Message: capital(fmt.Sprintf(
			"%s is %s mm wide at its widest: hardly anything is left of it to hold or to bend. Make it larger, or leave it out.", panelWords(q.Name), fig(wide)))})
	}
	return out
}

// roomAt is twice the distance from a point to the region's edge.
func roomAt(r geom.Region, at geom.Vec2) float64 {
	d := math.Inf(1)
	for _, l := range r.Loops() {
		for i, a := range l {
			x, _ := geom.SegmentDistance(at, a, l[(i+1)%len(l)])
			d = min(d, x)
		}
	}
	return 2 * d
}

func panelWords(name string) string {
	if len(name) > 6 && name[:6] == "panel " {
		return name
	}
	return "the panel " + name
}
