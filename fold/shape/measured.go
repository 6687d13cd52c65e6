package shape

// This file takes in a base that was measured by its sides and what stands between them:
// diagonals and angles. measured_check.go refuses what no shape has and asks for what is
// missing, measured_start.go finds a shape to begin with, measured_fit.go fits it,
// measured_words.go tells the misfit, measured_stations.go is for widths at stations,
// measured_outline.go judges the outline.

import (
	"fmt"
	"math"

	"dryfold/fold"
	"dryfold/fold/geom"
	"dryfold/fold/sizes"
)

// Misfit tells how well the readings that a base was measured by agree, or what they
// make of it. It is no error: the base is fitted to all of them.
type Misfit struct {
	Path  string // of the reading that disagrees most, "sizes.base.measured.sides[1]"
	Text  string // in plain words, lengths in mm
	Off   float64
	Angle bool // Off is in degrees; else in mm
	Watch bool // the readings disagree by more than their doubt
}

const measuredPath = "sizes.base.measured"

// measuredBase makes the outline of a base that was measured, in mm: the first corner at the
// origin, the first side along +x, counter-clockwise, a corner for each side. num gives the
// number of a field that is given, in mm or degrees; where it says false it has told why, and there
// is no outline. With problems there is none either. u is what messages speak in.
func measuredBase(m *sizes.Measured, u fold.Units, num func(path string, f sizes.Field) (float64, bool)) (outline []geom.Vec2, notes []Misfit, problems []*Problem) {
	b := &measuring{m: m, u: u, num: num, n: len(m.Sides)}
	switch m.Way {
	case sizes.ByStations:
		b.stations()
	case sizes.BySides, sizes.ByAngles:
		b.sides()
	default:
		b.problem(measuredPath+".way", fmt.Sprint(int(m.Way)), "sides, stations or angles")
	}
	if b.failed() {
		return nil, nil, b.problems
	}
	return b.outline, b.notes, nil
}

// reading is one thing that was measured. Lengths in mm, angles in radians.
type reading struct {
	path, name string
	a, b       int  // a length between two corners; or the angle at corner a
	angle      bool // inside the base
	value      float64
	doubt      float64
}

// measuring is one base being made.
type measuring struct {
	m     *sizes.Measured
	u     fold.Units
	num   func(path string, f sizes.Field) (float64, bool)
	n     int       // sides
	given []reading // in the order of the fields
	blank []reading // that could be measured and were not

	quiet    bool // num has told what is wrong
	problems []*Problem
	notes    []Misfit
	unread   string // the first thing that is asked and was not measured
	outline  []geom.Vec2
}

func (b *measuring) failed() bool { return b.quiet || len(b.problems) > 0 }

func (b *measuring) problem(path, found, need string) {
	b.problems = append(b.problems, &Problem{path, found, need})
}

// sides makes a base from sides, diagonals and angles.
func (b *measuring) sides() {
	if b.n < 3 || b.n > maxMeasured {
		b.problem(measuredPath+".sides", fmt.Sprintf("%d sides", b.n), fmt.Sprintf("3 to %d, in order: the front, and on counter-clockwise seen from above", maxMeasured))
		return
	}
	b.readings()
	if b.failed() {
		return
	}
	b.ranges()
	if b.failed() {
		return
	}
	p := b.shape()
	exact := len(b.given) <= 2*b.n-3
	if exact && misfit(b.given, p) > beyondDoubt*beyondDoubt {
		b.judgeExact(p) // what no shape meets may also seem to hold none
	}
	if b.failed() {
		return
	}
	if b.missing(p); b.failed() {
		return
	}
	if exact {
		b.judgeExact(p)
	} else {
		b.judge(p)
	}
	if b.failed() {
		return
	}
	p = settled(p)
	b.problems = checkOutline(p, func(i int) string { return fmt.Sprintf("%s.sides[%d]", measuredPath, i) })
	if len(b.problems) == 0 && geom.Loop(p).Area() <= 0 {
		b.clockwise()
	}
	b.reflex(p)
	b.outline = p
}

// readings takes in what was measured, and what could be besides.
func (b *measuring) readings() {
	m, n := b.m, b.n
	most := n - 3
	if n == 4 {
		most = 2
	}
	if k := len(m.Diagonals); k > most {
		need := fmt.Sprintf("at most %d for %d sides: from the first corner to the third, and on", most, n)
		if n == 3 {
			need = "none: a triangle is given by its sides"
		}
		b.problem(fmt.Sprintf("%s.diagonals[%d]", measuredPath, most), fmt.Sprintf("%d diagonals", k), need)
		return
	}
	if k := len(m.Angles); k > n {
		b.problem(fmt.Sprintf("%s.angles[%d]", measuredPath, n), fmt.Sprintf("%d angles", k), fmt.Sprintf("at most %d, one for each corner", n))
		return
	}
	for i := range n {
		b.take(m.Sides, i, reading{path: fmt.Sprintf("%s.sides[%d]", measuredPath, i), name: b.sideName(i), a: i, b: (i + 1) % n})
	}
	for i := range most {
		r := reading{path: fmt.Sprintf("%s.diagonals[%d]", measuredPath, i), a: 0, b: i + 2}
		if i == 1 && n == 4 {
			r.a, r.b = 1, 3
		}
		r.name = "the diagonal from " + b.cornerName(r.a) + " to " + b.cornerName(r.b)
		b.take(m.Diagonals, i, r)
	}
	for i := range n {
		b.take(m.Angles, i, reading{path: fmt.Sprintf("%s.angles[%d]", measuredPath, i), name: "the angle at " + b.cornerName(i), a: i, angle: true})
	}
}

// take puts entry i of a list of fields among the readings.
func (b *measuring) take(list []sizes.Field, i int, r reading) {
	r.doubt = tapeDoubt
	if r.angle {
		r.doubt = bevelDoubt
	}
	if i >= len(list) || !list[i].Given {
		if i < len(list) && b.unread == "" {
			b.unread = r.name
		}
		b.blank = append(b.blank, r)
		return
	}
	x, ok := b.num(r.path, list[i])
	switch {
	case !ok:
		b.quiet = true
	case r.angle && !(x > 0 && x < 360):
		b.problem(r.path, fig(x), "an angle inside the base, over 0 and under 360 degrees")
	case !r.angle && !(x >= fold.MinSize && x <= fold.MaxSize):
		b.problem(r.path, fig(x/b.u.Scale())+" "+b.u.String(), fmt.Sprintf("a length over 0, at most %s %s", fig(fold.MaxSize/b.u.Scale()), b.u))
	case r.angle:
		r.value = x * math.Pi / 180
		b.given = append(b.given, r)
	default:
		r.value = x
		b.given = append(b.given, r)
	}
}

func (b *measuring) sideName(i int) string {
	if b.n == 4 {
		return [...]string{"the front", "the right side", "the back", "the left side"}[i]
	}
	return fmt.Sprintf("side %d", i+1)
}

func (b *measuring) cornerName(i int) string {
	if b.n == 4 {
		return [...]string{"front left", "front right", "back right", "back left"}[i]
	}
	return fmt.Sprintf("corner %d", i+1)
}

// length is the reading between two corners, nil where there is none.
func (b *measuring) length(i, j int) *reading {
	for k := range b.given {
		r := &b.given[k]
		if !r.angle && (r.a == i && r.b == j || r.a == j && r.b == i) {
			return r
		}
	}
	return nil
}

// say is a length (mm) in the part's units, to what a tape shows; up and down are rounded to that side.
func (b *measuring) say(mm float64) string  { return fig(b.step(mm, math.Round)) + " " + b.u.String() }
func (b *measuring) up(mm float64) string   { return fig(b.step(mm, math.Ceil)) + " " + b.u.String() }
func (b *measuring) down(mm float64) string { return fig(b.step(mm, math.Floor)) + " " + b.u.String() }

func (b *measuring) step(mm float64, round func(float64) float64) float64 {
	per := 10.0
	if b.u == fold.Inch {
		per = 100
	}
	return round(mm/b.u.Scale()*per) / per
}

// value is a reading's size in words.
func (b *measuring) value(r reading, x float64) string {
	if r.angle {
		return degreesWord(x)
	}
	return b.say(x)
}
