package ascut

// This file puts verdicts in words.

import (
	"fmt"
	"math"
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

// outcome tells what comes out: seams, finished sizes.
func (j *judge) outcome() {
	if j.Part == nil {
		return
	}
	if !j.Part.Foldable {
		j.Say = append(j.Say, "The blank as it was cut can't be folded to this part: its edges run into each other, or a bend line ends in the metal.")
	}
	for _, c := range j.Seams {
		limit := ""
		if c.Limit != nil {
			limit = fmt.Sprintf(", its limit is %s", j.gapWords(*c.Limit))
		}
		past := ""
		if c.Worse {
			past = ": past its limit"
		}
		switch {
		case c.Gone:
			j.Say = append(j.Say, fmt.Sprintf("%s: the edges no longer meet.", c.Name))
		case c.After[0] < -fold.ClashDepth && c.Worse:
			j.Say = append(j.Say, fmt.Sprintf("%s closes up: the panels would lie %s in each other, where the gap should be %s.", c.Name, j.gapWords(-c.After[0]), j.gapWords(c.Before[0])))
		case c.After[1] > c.Before[1]+gapTold:
			j.Say = append(j.Say, fmt.Sprintf("%s opens to %s, where it should be %s%s%s.", c.Name, j.gapWords(c.After[1]), j.gapWords(c.Before[1]), limit, past))
		default:
			j.Say = append(j.Say, fmt.Sprintf("%s closes to %s, where it should be %s%s.", c.Name, j.gapWords(c.After[0]), j.gapWords(c.Before[0]), past))
		}
	}
	var sizes []string
	for k, name := range []string{"wide", "deep", "high"} {
		if a, b := j.Finished[0][k], j.Finished[1][k]; math.Abs(b-a) > tolerated {
			sizes = append(sizes, fmt.Sprintf("%s %s instead of %s", j.length(b), name, j.length(a)))
		}
	}
	if len(sizes) > 0 {
		j.Say = append(j.Say, "The finished part comes out "+strings.Join(sizes, ", ")+", overall.")
	}
	if left := j.left(); left > chased {
		j.Say = append(j.Say, fmt.Sprintf("The measures don't agree with each other to within %s: measure the sizes past their limits again.", j.length(left)))
	}
	// The other end may be the one.
	for i := range j.Lines {
		l := &j.Lines[i]
		if !l.past() || l.Metal >= 0 || j.sizes[i].cand.use == forDiagonal {
			continue
		}
		for cut, x := range j.out {
			if x >= 0 || math.Abs(j.sizes[i].cand.by[cut]) < tells {
				continue
			}
			if o := j.other(i, cut); o >= 0 {
				j.Say = append(j.Say, fmt.Sprintf("Size %d: this is so if the %s is short, by %s. Should it be the %s that lies off its mark: %s.",
					j.sizes[i].No, j.cuts[cut].Name, j.length(-x), j.cuts[o].Name, j.instead(o, x*j.sizes[i].cand.by[cut]/j.sizes[i].cand.by[o])))
			} else {
				j.Say = append(j.Say, fmt.Sprintf("Size %d: the %s is short, by %s.", j.sizes[i].No, j.cuts[cut].Name, j.length(-x)))
			}
		}
	}
}

// instead tells what comes of a cut that is out alone.
func (j *judge) instead(cut int, x float64) string {
	out := make([]float64, len(j.cuts))
	out[cut] = x
	var says []string
	for i := range j.seams {
		s := &j.seams[i]
		if s.cuts[0] != cut && s.cuts[1] != cut {
			continue
		}
		if g, ok := j.gap(i, out); ok && g.largest > s.max+gapTold {
			says = append(says, fmt.Sprintf("%s opens to %s", s.rep.Name, j.gapWords(g.largest)))
		}
	}
	if len(says) == 0 {
		return "no seam opens, and the part is so much smaller there"
	}
	return joined(says)
}
