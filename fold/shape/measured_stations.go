package shape

// This file makes a base from widths at several stations from its front: how far each
// side lies from a straight line square to the front, or the width alone.

import (
	"fmt"
	"math"

	"dryfold/fold"
	"dryfold/fold/geom"
	"dryfold/fold/sizes"
)

// row is a station in mm.
type row struct {
	path        string
	at          float64
	left, right float64 // x of the two sides
}

// stations makes the base: the front, the right side from station to station, the back, and
// the left side back again. Stations that lie on one straight line, as near as a tape
// tells, make one side.
func (b *measuring) stations() {
	rows := b.rows()
	if b.failed() {
		return
	}
	geom.SortStable(rows, func(x, y row) int {
		if x.at == y.at {
			return 0
		}
		return sign(x.at - y.at)
	})
	for i := 1; i < len(rows); i++ {
		if rows[i].at-rows[i-1].at < fold.MinSize {
			b.problem(rows[i].path+".at", b.say(rows[i].at), "a place that no other station has")
			return
		}
	}
	if first := rows[0]; math.Abs(first.at) > fold.MinSize {
		b.problem(first.path+".at", b.say(first.at), "a station at 0: the base begins at its front")
		return
	}
	var left, right []geom.Vec2
	for _, r := range rows {
		left = append(left, geom.Vec2{r.left, r.at})
		right = append(right, geom.Vec2{r.right, r.at})
	}
	keepRight := b.straightened(right, rows, "right")
	keepLeft := b.straightened(left, rows, "left")
	for i, p := range right {
		if keepRight[i] {
			b.outline = append(b.outline, p)
		}
	}
	paths := []string{rows[0].path}
	for i, r := range rows {
		if keepRight[i] {
			paths = append(paths, r.path)
		}
	}
	for i := len(left) - 1; i > 0; i-- {
		if keepLeft[i] {
			b.outline = append(b.outline, left[i])
			paths = append(paths, rows[i].path)
		}
	}
	b.outline = settled(append([]geom.Vec2{left[0]}, b.outline...))
	b.problems = checkOutline(b.outline, func(i int) string { return paths[i] })
}

// rows takes the stations in.
func (b *measuring) rows() []row {
	m := b.m
	if len(m.Stations) < 2 || len(m.Stations) > sizes.MaxSides {
		b.problem(measuredPath+".stations", fmt.Sprintf("%d stations", len(m.Stations)), fmt.Sprintf("2 to %d: one at the front, one at the back, and where the sides change between", sizes.MaxSides))
		return nil
	}
	var rows []row
	for i, s := range m.Stations {
		r := row{path: fmt.Sprintf("%s.stations[%d]", measuredPath, i)}
		at, ok := b.stationSize(r.path+".at", s.At)
		if !ok && !s.At.Given {
			b.problem(r.path+".at", "nothing", "how far the station lies from the front")
		}
		if at < 0 {
			b.problem(r.path+".at", b.say(at), "0 or more, from the front towards the back")
		}
		r.at = at
		left, hasLeft := b.stationSize(r.path+".left", s.Left)
		right, hasRight := b.stationSize(r.path+".right", s.Right)
		wide, hasWide := b.stationSize(r.path+".wide", s.Wide)
		if b.failed() {
			continue
		}
		switch {
		case hasLeft && hasRight:
			if hasWide {
				left, right = b.widened(r.path, left, right, wide)
			}
		case hasLeft && hasWide:
			right = wide - left
		case hasRight && hasWide:
			left = wide - right
		case hasWide:
			left, right = wide/2, wide/2
		case hasLeft:
			b.problem(r.path+".right", "nothing", "how far the right side lies from the line, or the width")
			continue
		case hasRight:
			b.problem(r.path+".left", "nothing", "how far the left side lies from the line, or the width")
			continue
		default:
			b.problem(r.path+".wide", "nothing", "the width there, or how far both sides lie from the line")
			continue
		}
		if left+right < fold.MinSize {
			path := r.path + ".right"
			if hasWide {
				path = r.path + ".wide"
			}
			b.problem(path, "a width of "+b.say(left+right), "a width over 0")
		}
		r.left, r.right = -left, right
		rows = append(rows, r)
	}
	return rows
}

// stationSize is a field in mm; ok where it is given.
func (b *measuring) stationSize(path string, f sizes.Field) (x float64, ok bool) {
	if !f.Given {
		return 0, false
	}
	x, ok = b.num(path, f)
	if !ok {
		b.quiet = true
		return 0, false
	}
	if !(math.Abs(x) <= fold.MaxSize) {
		b.problem(path, fig(x/b.u.Scale())+" "+b.u.String(), fmt.Sprintf("a length within %s %s", fig(fold.MaxSize/b.u.Scale()), b.u))
		return 0, false
	}
	return x, true
}

// widened fits left, right and width to each other: each is off alike.
func (b *measuring) widened(path string, left, right, wide float64) (float64, float64) {
	over := wide - left - right
	if over == 0 {
		return left, right
	}
	// Three tapes' doubts add up by their squares.
	watch := math.Abs(over) > beyondDoubt*tapeDoubt*math.Sqrt(3)
	if gross := grossMisfit * max(math.Abs(left), math.Abs(right), math.Abs(wide)); math.Abs(over) > gross {
		b.problem(path+".wide", b.say(wide), "about "+b.say(left+right)+", which left and right make together, or another reading of them")
		return left, right
	}
	text := fmt.Sprintf("Left and right make %s together, and the width was read as %s.", inWords(reading{}, left+right), inWords(reading{}, wide))
	if watch {
		text += " Which of the three is wrong they can't tell: measure them again."
	} else {
		text += " The base is fitted to all three."
	}
	b.notes = append(b.notes, Misfit{Path: path + ".wide", Text: text, Off: math.Abs(over), Watch: watch})
	return left + over/3, right + over/3
}

// straightened says which points of a side remain corners: its ends, and those that lie off the
// straight line between their neighbours by more than a tape's doubt. It notes the most that is taken off.
func (b *measuring) straightened(p []geom.Vec2, rows []row, side string) []bool {
	keep := make([]bool, len(p))
	keep[0], keep[len(p)-1] = true, true
	most, where := 0.0, -1
	var split func(i, j int)
	split = func(i, j int) {
		far, at := 0.0, -1
		for k := i + 1; k < j; k++ {
			if d := sidewise(p[k], p[i], p[j]); d > far || at < 0 {
				far, at = d, k
			}
		}
		switch {
		case at < 0:
		case far > tapeDoubt:
			keep[at] = true
			split(i, at)
			split(at, j)
		case far > most:
			most, where = far, at
		}
	}
	split(0, len(p)-1)
	if where >= 0 && most > fold.MinSize {
		b.notes = append(b.notes, Misfit{Path: rows[where].path, Off: most,
			Text: fmt.Sprintf("The %s side is taken as straight past this station: it lies %s off the line, less than a tape tells.", side, fig(math.Round(most*100)/100)+" mm")})
	}
	return keep
}

// sidewise is how far p lies to the side of the line a to b, along a width.
func sidewise(p, a, b geom.Vec2) float64 {
	t := (p[1] - a[1]) / (b[1] - a[1])
	return math.Abs(p[0] - (a[0] + t*(b[0]-a[0])))
}
