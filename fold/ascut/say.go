package ascut

// This file puts verdicts in words.

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"dryfold/fold"
)

// said writes a length with its unit: mm to 0.1, inches to 0.001.
func said(mm float64, u fold.Units) string {
	if u == fold.Inch {
		return fmt.Sprintf("%.3f in", mm/25.4)
	}
	return fmt.Sprintf("%.1f mm", mm)
}

// typed writes a length as it was typed, with its unit.
func typed(mm float64, u fold.Units) string {
	return strconv.FormatFloat(math.Round(mm/u.Scale()*1e4)/1e4, 'g', 8, 64) + " " + u.String()
}

func (j *judge) gapWords(mm float64) string {
	if j.spec.Units == fold.Inch {
		return fmt.Sprintf("%.3f in", mm/25.4)
	}
	return fmt.Sprintf("%.2f mm", math.Round(mm*100)/100+0)
}

// tellLines puts in words what each measured size is.
func (j *judge) tellLines() {
	for i := range j.Lines {
		l, s := &j.Lines[i], &j.sizes[i]
		if !l.measured {
			continue
		}
		switch {
		case l.State == "ok":
			l.Say = "Within its limits."
		case l.byEdge:
			l.Say = fmt.Sprintf("%s too %s, because of an edge at its end.", j.length(math.Abs(l.Off)), longShort(l.Off))
		case s.cand.use == forDiagonal:
			l.Say = fmt.Sprintf("%s too %s.", j.length(math.Abs(l.Off)), longShort(l.Off))
		case l.Metal > 0 && s.Opening:
			l.Say = fmt.Sprintf("%s too narrow: too much metal, which can come off.", j.length(-l.Off))
		case l.Metal > 0:
			l.Say = fmt.Sprintf("%s too large: too much metal, which can come off.", j.length(math.Abs(l.Off)))
		case l.Metal < 0 && s.Opening:
			l.Say = fmt.Sprintf("%s too wide: metal is missing, and can't be put back.", j.length(l.Off))
		case l.Metal < 0:
			l.Say = fmt.Sprintf("%s too small: metal is missing, and can't be put back.", j.length(math.Abs(l.Off)))
		default:
			l.Say = fmt.Sprintf("%s too %s.", j.length(math.Abs(l.Off)), longShort(l.Off))
		}
	}
}

func longShort(x float64) string {
	if x < 0 {
		return "short"
	}
	return "long"
}

// remaining lists the sizes that are still to be measured.
func (j *judge) remaining(n int) string {
	var nos []string
	for i := range j.Lines {
		if !j.Lines[i].measured {
			nos = append(nos, fmt.Sprint(j.Lines[i].No))
		}
	}
	if n == 1 {
		return "Still to measure: size " + nos[0] + "."
	}
	return "Still to measure: sizes " + joined(nos) + "."
}

func (j *judge) trimWords(t *TrimEdge) string {
	s := fmt.Sprintf("Size %d: take %s off the %s, %s.", t.Size, j.length(t.By), t.Edge, t.Corners)
	if t.Or != "" {
		s += fmt.Sprintf(" Or off the %s: whichever of the two lies off its mark.", t.Or)
	}
	return s
}

// outcome tells what comes out: what is to be done where metal is missing first, then seams by harm, then finished sizes.
func (j *judge) outcome() {
	if j.Part == nil {
		return
	}
	told, parts := j.either()
	if !j.Part.Foldable {
		j.Say = append(j.Say, "The blank as it was cut can't be folded to this part: its edges run into each other, or a bend line ends in the metal.")
	}
	seams := slices.Clone(j.Seams)
	harmful(seams)
	for _, c := range seams {
		if t := j.seamSays(&c); t != "" && !told[c.Name] {
			j.Say = append(j.Say, t+".")
		}
	}
	if t := finishedSays(j.Finished, j.spec.Units); t != "" && !parts {
		j.Say = append(j.Say, "The finished part comes out "+t+", overall.")
	}
	if left := j.left(); left > chased {
		j.Say = append(j.Say, fmt.Sprintf("The measures don't agree with each other to within %s: measure the sizes past their limits again.", j.length(left)))
	}
}

// harmful sorts seams by what is wrong with them: what is past its limit first, then by how much they change.
func harmful(seams []SeamChange) {
	by := func(c *SeamChange) float64 {
		x := math.Max(math.Abs(c.After[1]-c.Before[1]), math.Abs(c.After[0]-c.Before[0]))
		if c.Gone {
			x = 1e6
		}
		if c.Worse {
			x += 1e6
		}
		return x
	}
	slices.SortStableFunc(seams, func(a, b SeamChange) int {
		switch x, y := by(&a), by(&b); {
		case x > y+gapTold:
			return -1
		case x < y-gapTold:
			return 1
		}
		return 0
	})
}

// seamSays tells of a seam that changes, "" where it is too little to matter.
func (j *judge) seamSays(c *SeamChange) string {
	should := "where it should be " + j.gapWords(c.Before[0])
	if c.After[1] > c.Before[1]+gapTold {
		should = "where it should be " + j.gapWords(c.Before[1])
	}
	limit := "" // for a gap that is too wide
	if mm, ok := j.limitOf(c); ok {
		if limit = ", within its limit of " + j.gapWords(mm); c.Worse {
			limit = ", past its limit of " + j.gapWords(mm)
		}
	} else if c.Worse {
		limit = ", which is too wide"
	}
	switch {
	case c.Gone:
		return c.Name + ": the edges no longer meet"
	case !c.Worse && math.Abs(c.After[0]-c.Before[0]) < gapMatters && math.Abs(c.After[1]-c.Before[1]) < gapMatters:
		return ""
	case c.After[0] < -fold.ClashDepth && c.Worse:
		return fmt.Sprintf("%s closes up: the panels would lie %s in each other, %s", c.Name, j.gapWords(-c.After[0]), should)
	case c.After[1] > c.Before[1]+gapTold:
		return fmt.Sprintf("%s opens to %s, %s%s", c.Name, j.gapWords(c.After[1]), should, limit)
	case c.Worse:
		return fmt.Sprintf("%s closes to %s, %s: past its limit", c.Name, j.gapWords(c.After[0]), should)
	}
	return fmt.Sprintf("%s closes to %s, %s", c.Name, j.gapWords(c.After[0]), should)
}

// limitOf is how wide a seam may be, where that is known.
func (j *judge) limitOf(c *SeamChange) (float64, bool) {
	for i := range j.rep.Seams {
		if s := &j.rep.Seams[i]; s.Name == c.Name {
			mm, _, _, ok := j.widest(s)
			return mm, ok
		}
	}
	return 0, false
}

func finishedSays(boxes [2][3]float64, u fold.Units) string {
	var sizes []string
	for k, name := range []string{"wide", "deep", "high"} {
		if a, b := boxes[0][k], boxes[1][k]; math.Abs(b-a) > tolerated {
			sizes = append(sizes, fmt.Sprintf("%s %s instead of %s", said(b, u), name, said(a, u)))
		}
	}
	return joined(sizes)
}

// either tells, of sizes where metal is missing and either of two edges may be the one, what is to be done for each. It returns the seams that it told of,
// and whether it told of the finished part.
func (j *judge) either() (told map[string]bool, parts bool) {
	told = map[string]bool{}
	for i := range j.Lines {
		l, s := &j.Lines[i], &j.sizes[i]
		if !l.past() || l.Metal >= 0 || s.cand.use == forDiagonal {
			continue
		}
		small := "too small"
		if s.Opening {
			small = "too wide"
		}
		head := fmt.Sprintf("Size %d is %s %s: metal is missing.", s.No, j.length(math.Abs(l.Off)), small)
		said := false
		for cut, x := range j.out {
			if x >= 0 || math.Abs(s.cand.by[cut]) < tells {
				continue
			}
			said, parts = true, true
			o := j.other(i, cut)
			first, bad := j.branch(cut, j.out, told)
			if o < 0 {
				j.Say = append(j.Say, fmt.Sprintf("%s The %s is short, by %s: %s", head, j.cuts[cut].Name, j.length(-x), first))
				continue
			}
			out := slices.Clone(j.out)
			out[cut], out[o] = 0, out[o]+x*s.cand.by[cut]/s.cand.by[o]
			second, worse := j.branch(o, out, told)
			first = fmt.Sprintf("If it is the %s, short by %s: %s", j.cuts[cut].Name, j.length(-x), first)
			second = fmt.Sprintf("If it is the %s, short by %s: %s", j.cuts[o].Name, j.length(-out[o]), second)
			switch {
			case worse && bad:
				head += " Cut again, whichever of its two edges lies off its mark."
			case worse: // by harm
				first, second = second, first
				fallthrough
			default:
				head += " Measure which of its two edges lies off its mark."
			}
			j.Say = append(j.Say, head, first, second)
		}
		if !said {
			j.Say = append(j.Say, head+" Measure it again.")
		}
	}
	return told, parts
}

// branch tells what comes of a blank of which one edge is taken to be the one that is out: its seams by harm, the finished part, and what is to be done.
func (j *judge) branch(cut int, out []float64, told map[string]bool) (say string, worse bool) {
	var seams []SeamChange
	for i := range j.seams {
		s := &j.seams[i]
		if s.cuts[0] != cut && s.cuts[1] != cut {
			continue
		}
		told[s.rep.Name] = true
		c := SeamChange{Name: s.rep.Name, Before: [2]float64{s.min, s.max}, Limit: s.rep.Limit}
		g, ok := j.gap(i, out)
		if c.Gone = !ok; ok {
			c.After = [2]float64{g.least, g.largest}
		}
		c.Worse = c.Gone || j.worsens(s.rep, &c)
		worse = worse || c.Worse
		seams = append(seams, c)
	}
	harmful(seams)
	var says []string
	for i := range seams {
		if t := j.seamSays(&seams[i]); t != "" {
			says = append(says, t)
		}
	}
	if len(says) == 0 {
		says = append(says, "no seam changes by as much as "+j.gapWords(gapMatters))
	}
	p := fold.Build(j.cutAs(out, j.lean))
	if p.Foldable {
		r := p.Sizes()
		if t := finishedSays([2][3]float64{j.rep.Finished.Box(), r.Finished.Box()}, j.spec.Units); t != "" {
			says = append(says, "the finished part comes out "+t)
		}
	} else {
		worse = true
		says = append(says, "the blank can't be folded to this part")
	}
	do := "accept it if that will do"
	if worse {
		do = "cut again"
	}
	return strings.Join(says, "; ") + ": " + do + ".", worse
}
