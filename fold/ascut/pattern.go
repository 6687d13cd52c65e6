package ascut

// This file knows the common mistakes by what they make of the measures.

import (
	"fmt"
	"math"

	"dryfold/fold"
)

// unit tells of measures in the wrong unit.
func (j *judge) unit() bool {
	n, inch, mm, cm := 0, 0, 0, 0
	for i := range j.Lines {
		if !j.Lines[i].measured || !(j.is[i] > 0) {
			continue
		}
		n++
		q := j.is[i] / j.sizes[i].Want
		if math.Abs(q/25.4-1) < inInches {
			inch++
		}
		if math.Abs(q*25.4-1) < inInches {
			mm++
		}
		if want := j.sizes[i].Want; j.spec.Units == fold.MM && math.Abs(10*j.is[i]-want) < max(inCentimetres, inInches*want) {
			cm++
		}
	}
	if n == 0 || inch < n && mm < n && cm < n {
		return false
	}
	is, want := "another unit", "mm"
	if j.spec.Units == fold.Inch {
		want = "inches"
	}
	switch {
	case inch == n && j.spec.Units == fold.Inch:
		is = "mm"
	case mm == n && j.spec.Units == fold.MM:
		is = "inches"
	case cm == n:
		is = "centimetres"
	}
	for i := range j.Lines {
		if l := &j.Lines[i]; l.measured {
			l.State, l.measured = "bad", false
			l.Say = fmt.Sprintf("%s looks like %s; %s are expected.", said(j.is[i], j.spec.Units), is, want)
		}
	}
	j.Pattern = "unit"
	j.Say = append(j.Say, fmt.Sprintf("Measured in the wrong unit: the values look like %s, and %s are expected.", is, want))
	j.tellStale()
	return true
}

// scale tells of a blank whose sizes are all out by the same share: the rule or the print that it was marked from was.
func (j *judge) scale() bool {
	n, top, below, most := 0, 0.0, 0.0, 0.0
	for i := range j.Lines {
		if j.Lines[i].measured {
			is, want := j.is[i], j.sizes[i].Want
			n, top, below, most = n+1, top+is*want, below+want*want, max(most, math.Abs(is-want))
		}
	}
	if n < scaleSizes || most < scaleMost || !j.anyPast() {
		return false
	}
	share := top / below
	for i := range j.Lines {
		if j.Lines[i].measured && math.Abs(j.is[i]-share*j.sizes[i].Want) > scaleNear {
			return false
		}
	}
	// With one edge out, a size that it has no part in stays right: a long one tells.
	for i := range j.Lines {
		if d := math.Abs(share-1) * j.sizes[i].Want; j.Lines[i].measured && d > scaleNear && math.Abs(j.is[i]-j.sizes[i].Want) < d/2 {
			return false
		}
	}
	way := "large"
	if share < 1 {
		way = "small"
	}
	j.Word, j.Pattern = Accept, "scale"
	j.Say = append([]string{fmt.Sprintf("Every size is %s %% too %s, alike: the rule, the tape or the print that it was marked by is out of scale, or that it was measured by. Hold it to another one. If it was marked so, the bend lines and holes are out as well: cut again.",
		fold.Trimmed(100*math.Abs(share-1), 2), way)}, j.Say...)
	return true
}

// anyPast reports whether a size is past its limits.
func (j *judge) anyPast() bool {
	for i := range j.Lines {
		if j.Lines[i].past() {
			return true
		}
	}
	return false
}

// explains reports whether predicted measures, of the sizes that they are for, fit what was measured, to within near of the most they differ by, and much
// better than what is wanted does.
func (j *judge) explains(near func(far float64) float64, predicted func(i int) (float64, bool)) bool {
	plain, misfit, far, n := 0.0, 0.0, 0.0, 0
	for i := range j.Lines {
		if !j.Lines[i].measured {
			continue
		}
		v, ok := predicted(i)
		if !ok {
			continue
		}
		n++
		plain = max(plain, math.Abs(j.Lines[i].Off))
		misfit = max(misfit, math.Abs(j.is[i]-v))
		far = max(far, math.Abs(v-j.sizes[i].Want))
	}
	return n > 0 && misfit <= near(far) && plain > MirrorTold/2 && plain >= muchBetter*max(misfit, chased)
}

// mirror tells of the blank's mirror image.
func (j *judge) mirror() bool {
	if !j.anyPast() {
		return false
	}
	images := j.images()
	for k := range images {
		g := &images[k]
		if j.own(g) { // it has none
			return false
		}
		if !j.explains(func(float64) float64 { return fits }, func(i int) (float64, bool) { return g.measured(j.sizes[i].cand.x, j.sizes[i].cand.y) }) {
			continue
		}
		j.Pattern, j.Word = "mirror", Accept
		j.tellLines()
		face := "The good face is then underneath: see whether that will do, or cut again."
		if j.spec.Sheet.Good == "" {
			face = "Where both faces are alike nothing is lost."
		}
		j.Say = append([]string{
			"This is the blank's mirror image: it was marked from the wrong face. Don't bend it as it lies.",
			"Turned over it has the right outline: mark the bend lines anew on the face that is then up, and measure again. " + face,
		}, j.Say...)
		return true
	}
	return false
}

// deductions tells of widths that are out by what the bends take.
func (j *judge) deductions() bool {
	if !j.anyPast() {
		return false
	}
	sum := func(i int, f func(b *fold.Bend) float64) (v float64) {
		j.crossed(&j.sizes[i].cand, func(b *fold.Bend, cos float64) { v += f(b) * cos })
		return v
	}
	deduction := func(b *fold.Bend) float64 {
		setback, _ := b.Setback(j.part.Thickness)
		return 2*setback - b.Allowance
	}
	inner := func(b *fold.Bend) float64 { // what inside sizes alone fall short by
		setback, _ := b.Setback(j.part.Thickness)
		return b.Allowance - 2*setback*b.Radius/(b.Radius+j.part.Thickness)
	}
	for _, c := range []struct {
		name, say string
		by        func(b *fold.Bend) float64
		sign      float64
	}{
		{"deduction", "too long, as they come out when the outside sizes are added up and the bend deductions are left out", deduction, 1},
		{"twice", "too short, as they come out when the bend deductions are taken off twice", deduction, -1},
		{"allowance", "too short, as they come out when the inside sizes are added up and the bend allowances are left out", inner, -1},
	} {
		var worst, far float64
		n := 0
		if !j.explains(func(far float64) float64 { return max(chased, 0.05*far) }, func(i int) (float64, bool) {
			s := &j.sizes[i]
			if s.cand.use != forWidth {
				return 0, false
			}
			v := c.sign * sum(i, c.by)
			if math.Abs(v) > MirrorTold/2 {
				n++
			}
			worst, far = max(worst, math.Abs(j.Lines[i].Off)), max(far, math.Abs(v))
			return s.Want + v, true
		}) || n == 0 {
			continue
		}
		j.Pattern = c.name
		t := fmt.Sprintf("%.1f T", worst/j.part.Thickness)
		j.Say = append([]string{fmt.Sprintf("The widths across the bends are up to %s (%s) %s. The bend lines are then out as well: check them against the marking-out sheet before anything is trimmed.",
			j.length(worst), t, c.say)}, j.Say...)
		return true
	}
	return false
}

// tellSquare tells of diagonals.
func (j *judge) tellSquare() {
	var off []float64
	for i := range j.sizes {
		if j.sizes[i].cand.use == forDiagonal && j.Lines[i].measured {
			off = append(off, j.Lines[i].Off)
		}
	}
	if len(off) == 2 && j.lean != 0 && math.Abs(off[0]-off[1]) > chased {
		j.Pattern = "square"
		more := ""
		if j.sizes[0].Want > 0 {
			size := j.box.Size()
			more = fmt.Sprintf(" Over the blank's height of %s it leans by %s.", j.length(size[1]), j.length(math.Abs(j.lean)*size[1]))
		}
		j.Say = append(j.Say, fmt.Sprintf("The diagonals differ by %s more than they should: the sheet's corner was not square.%s", j.length(math.Abs(off[0]-off[1])), more))
		return
	}
	j.Say = append(j.Say, "The diagonals don't agree with the other sizes: measure them again, corner to corner.")
}

// datum tells of sizes that are all out by as much from one side of the sheet.
func (j *judge) datum() {
	if j.Pattern != "" {
		return
	}
	for k, name := range []string{"A, at the left", "B, below"} {
		n, others := 0, false
		first := 0.0
		same := true
		for i := range j.Lines {
			l, c := &j.Lines[i], &j.sizes[i].cand
			if !l.measured || c.use == forDiagonal || l.void {
				continue
			}
			from := false
			for cut := range c.by {
				if math.Abs(c.by[cut]) >= tells && j.datumEdge(cut) && math.Abs(j.cuts[cut].Out[k]) > 0.5 {
					from = true
				}
			}
			if !from {
				others = others || l.past()
				continue
			}
			if n++; n == 1 {
				first = l.Off
			}
			same = same && l.past() && math.Abs(l.Off-first) <= fits/2
		}
		if n >= 2 && same && !others {
			j.Pattern = "datum"
			j.Say = append(j.Say, fmt.Sprintf("Everything that is measured from edge %s is out by about %s, and the rest is right: it was marked from another line than that edge.", name, j.length(first)))
			return
		}
	}
}
