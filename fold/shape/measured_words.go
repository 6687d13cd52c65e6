package shape

// This file tells how well readings agree, and which of them is likely wrong.

import (
	"fmt"
	"math"
	"slices"
	"strconv"

	"dryfold/fold/geom"
)

// judge tells how well more readings than are needed agree.
func (b *measuring) judge(p []geom.Vec2) {
	part := checked(b.given, p)
	if part == nil {
		b.problem(measuredPath+".sides", "readings that don't hold the base's shape", "corners that lie farther off a straight line")
		return
	}
	order, worst := ranked(b.given, p, part)
	if len(order) == 0 {
		return
	}
	first := b.given[order[0]]
	if worst <= beyondDoubt {
		delta := first.off(p) / part[order[0]]
		if inWords(first, first.value-delta) == inWords(first, first.value) {
			return // nothing that a tape shows
		}
		text := fmt.Sprintf("More was measured than is needed, and it agrees: by the others, %s would be %s, and %s was read. The base is fitted to all of it.",
			first.name, inWords(first, first.value-delta), inWords(first, first.value))
		b.note(first, text, delta, false)
		return
	}
	b.disagree(p, part, order)
}

// judgeExact refuses readings, no more than are needed, that no shape meets.
func (b *measuring) judgeExact(p []geom.Vec2) {
	longest := b.longest()
	bad, most := -1, 0.0
	for i, r := range b.given {
		d := math.Abs(r.off(p))
		if r.angle {
			d *= longest
		}
		if !(d <= exactly*longest) && !(d <= most) {
			bad, most = i, d
		}
	}
	if bad < 0 {
		return
	}
	// The others hold, and this one comes as near as it can.
	r := b.given[bad]
	eased := slices.Clone(b.given)
	eased[bad].doubt *= 1e4
	near := r.model(fitted(eased, p))
	word := "at least "
	if near < r.value {
		word = "at most "
	}
	b.problem(r.path, b.value(r, r.value), word+"about "+b.value(r, near)+", which is as near as the other readings let it come")
}

// ranked gives the readings that others check, the one most beyond its doubt first, and
// by how many standard deviations that one is.
func ranked(rs []reading, p []geom.Vec2, part []float64) (order []int, worst float64) {
	score := make([]float64, len(rs))
	for i, r := range rs {
		if part[i] >= leastCheck {
			score[i] = math.Abs(r.off(p)) / r.doubt / math.Sqrt(part[i])
			worst = max(worst, score[i])
			order = append(order, i)
		}
	}
	geom.SortStable(order, func(i, j int) int {
		// All alike where one reading is too many: then the one that the rest checks best, and
		// of those that was likely taken last.
		if d := score[j] - score[i]; math.Abs(d) > alikeReadings*worst {
			return sign(d)
		}
		if d := part[j] - part[i]; math.Abs(d) > alikeReadings {
			return sign(d)
		}
		return j - i
	})
	return order, worst
}

func sign(x float64) int {
	if x > 0 {
		return 1
	}
	return -1
}

// suspect is a reading left out, and what the others then say.
type suspect struct {
	at     int
	would  float64 // what the others make it
	misfit float64 // of the others
	agree  bool    // the others agree within their doubt
	beyond bool    // it is itself beyond its doubt
}

// disagree tells of readings that disagree: which one is wrong, where leaving it out and no
// other makes the rest agree.
func (b *measuring) disagree(p []geom.Vec2, part []float64, order []int) {
	var list []suspect
	good := simple(p)
	for _, i := range order[:min(len(order), maxSuspects)] {
		rest := slices.Delete(slices.Clone(b.given), i, i+1)
		var q []geom.Vec2
		if good {
			q = fitted(rest, p)
		} else if q = (&measuring{n: b.n, given: rest}).shape(); !simple(q) {
			continue
		}
		s := suspect{at: i, would: b.given[i].model(q), misfit: misfit(rest, q), agree: true,
			beyond: math.Abs(b.given[i].off(p)) > beyondDoubt*b.given[i].doubt*math.Sqrt(part[i])}
		if with := checked(rest, q); with != nil {
			_, worst := ranked(rest, q, with)
			s.agree = worst <= beyondDoubt
		} else {
			continue // the rest does not hold the shape
		}
		list = append(list, s)
	}
	if len(list) == 0 {
		r := b.given[order[0]]
		b.problem(r.path, b.value(r, r.value), "readings that agree with each other")
		return
	}
	geom.SortStable(list, func(x, y suspect) int {
		switch d := y.misfit - x.misfit; {
		case math.Abs(d) <= alikeReadings*max(x.misfit, y.misfit, 1):
			return 0
		case d > 0:
			return -1
		default:
			return 1
		}
	})
	best := list[0]
	r := b.given[best.at]
	delta := math.Remainder(r.value-best.would, 2*math.Pi)
	gross := math.Abs(delta) > grossMisfit
	if !r.angle {
		delta = r.value - best.would
		gross = math.Abs(delta) > grossMisfit*b.longest()
	}
	if gross || !good {
		b.problem(r.path, b.value(r, r.value), "about "+b.value(r, best.would)+", which the other readings make it, or another reading of them: as they are they agree with no base")
		return
	}
	var agreeing []suspect
	for _, s := range list {
		if s.agree {
			agreeing = append(agreeing, s)
		}
	}
	says := fmt.Sprintf("By the other readings %s would be %s, but %s was read: %s off. ",
		r.name, inWords(r, best.would), inWords(r, r.value), inWords(r, math.Abs(delta)))
	switch {
	case len(agreeing) == 1:
		says += "The others agree without it: measure it again."
	case len(agreeing) == 2:
		says += "It or " + b.given[agreeing[1].at].name + " is wrong: the others agree without either. Measure both again."
	case len(agreeing) > 2:
		says += "Which of them is wrong they can't tell; " + b.again(agreeing) + b.oneMore()
	default:
		says += "The others don't agree without it either: more than one is wrong, or the base is not flat."
	}
	b.note(r, b.angleSum()+says+b.slip(p, list), delta, true)
}

func (b *measuring) note(r reading, text string, off float64, watch bool) {
	off = math.Abs(off)
	if r.angle {
		off *= 180 / math.Pi
	}
	b.notes = append(b.notes, Misfit{Path: r.path, Text: text, Off: off, Angle: r.angle, Watch: watch})
}

// again asks for the likeliest readings anew: the diagonals where both may be it.
func (b *measuring) again(list []suspect) string {
	var diagonals []suspect
	for _, s := range list {
		if r := b.given[s.at]; !r.angle && b.diagonal(&r) {
			diagonals = append(diagonals, s)
		}
	}
	switch {
	case b.n == 4 && len(diagonals) == 2:
		return "measure the diagonals again"
	case len(diagonals) > 0 && diagonals[0].at != list[0].at:
		list = []suspect{list[0], diagonals[0]}
	}
	return "measure " + b.given[list[0].at].name + " and " + b.given[list[1].at].name + " again"
}

// oneMore is what could be measured besides, of what is asked; where all of it was, the others come next.
func (b *measuring) oneMore() string {
	if b.unread != "" {
		return " first, or measure " + b.unread + " too."
	}
	return " first, then the others."
}

// inWords is a reading's size in the words of a note: in mm or degrees, whatever the part's units,
// as all troubles are told.
func inWords(r reading, x float64) string {
	if r.angle {
		return degreesWord(x)
	}
	return fig(math.Round(x*10)/10) + " mm"
}

func degreesWord(x float64) string { return fig(math.Round(x*180/math.Pi*100)/100) + " degrees" }

func (b *measuring) longest() float64 {
	most := 0.0
	for _, r := range b.given {
		if !r.angle {
			most = max(most, r.value)
		}
	}
	return most
}

// angleSum says what all angles together come to, where that is wrong.
func (b *measuring) angleSum() string {
	sum, count := 0.0, 0
	for _, r := range b.given {
		if r.angle {
			sum, count = sum+r.value, count+1
		}
	}
	want := float64(b.n-2) * math.Pi
	if count < b.n || math.Abs(sum-want) <= beyondDoubt*bevelDoubt*math.Sqrt(float64(b.n)) {
		return ""
	}
	return fmt.Sprintf("The angles add up to %s and not to %s. ", degreesWord(sum), degreesWord(want))
}

// slip names the one slip of the pen that would explain a misfit: two digits of a reading, or two
// readings, that changed places. "" where there is none or more than one.
func (b *measuring) slip(p []geom.Vec2, list []suspect) string {
	var found []string
	for _, s := range list {
		r := b.given[s.at]
		for _, x := range b.turned(r) {
			if s.agree && math.Abs(x-s.would) <= beyondDoubt*r.doubt {
				found = append(found, fmt.Sprintf(" %s for %s would agree: did two digits change places?", inWords(r, x), r.name))
			}
		}
	}
	for i, s := range list {
		for _, t := range list[i+1:] {
			x, y := b.given[s.at], b.given[t.at]
			if !s.beyond || !t.beyond || x.angle != y.angle || math.Abs(x.value-y.value) <= 2*beyondDoubt*x.doubt {
				continue
			}
			rs := slices.Clone(b.given)
			rs[s.at].value, rs[t.at].value = y.value, x.value
			q := fitted(rs, p)
			if part := checked(rs, q); part != nil && simple(q) {
				if _, worst := ranked(rs, q, part); worst <= beyondDoubt {
					found = append(found, fmt.Sprintf(" All would agree with %s and %s changed about: were they?", x.name, y.name))
				}
			}
		}
	}
	if len(found) != 1 {
		return ""
	}
	return found[0]
}

// turned are the sizes that a reading would be with two neighbouring digits changed about.
func (b *measuring) turned(r reading) []float64 {
	scale := b.u.Scale()
	if r.angle {
		scale = math.Pi / 180
	}
	text := []byte(strconv.FormatFloat(math.Round(r.value/scale*1e4)/1e4, 'f', -1, 64))
	var out []float64
	for i := 0; i+1 < len(text); i++ {
		if text[i] == text[i+1] || text[i] == '.' || text[i+1] == '.' {
			continue
		}
		t := slices.Clone(text)
		t[i], t[i+1] = t[i+1], t[i]
		if x, err := strconv.ParseFloat(string(t), 64); err == nil && x > 0 {
			out = append(out, x*scale)
		}
	}
	return out
}
