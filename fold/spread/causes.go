package spread

// This file holds what can be out by how much, for one part: the causes, and where their sizes come from.

import (
	"fmt"
	"math"
	"strings"

	"dryfold/fold"
	"dryfold/fold/geom"
	"dryfold/fold/metal"
)

// kindOf says what a cause moves.
type kindOf int

const (
	byAngle kindOf = iota
	byLine
	byThickness
	byK
	byCut
)

// cause is one independent error: so much plus and minus, which holds 95 of 100, is two standard deviations.
type cause struct {
	kind  kindOf
	name  string
	bend  string  // the first bend's name, "" where it is no bend's
	bends []int   // by angle: those of one swing; by line: one
	plus  float64 // radians, mm, or of K: a factor of each bend's own spread
	cut   int     // by cut: index into causes.cuts
}

// cutEdge is a straight cut edge of a panel that can come to lie off its place, along its normal.
type cutEdge struct {
	panel          int  // the first that was met along it
	contour, first int  // see causes.contour
	p, q           vec2 // ends on the blank, material on the left
	out            vec2 // unit, out of the material
	plus           float64
	cause          int // -1: it is cut true
}

// causes are all errors of a part.
type causes struct {
	part  *fold.Part
	all   []cause
	angle []int // by bend: its cause, -1 for none
	line  []int
	thick int
	k     int
	kPlus []float64 // by bend: K's range, plus and minus
	cuts  []cutEdge
	// firsts are the answers of straight, by contour and edge.
	firsts map[[2]int]int
	told   []fold.ErrorReport
}

// given is a maker's own figure: finite, 0 or more, and no more than most.
func given(v *float64, scale, most float64) (float64, bool) {
	if v == nil || !(*v >= 0 && *v*scale <= most) {
		return 0, false
	}
	return *v * scale, true
}

// class is the class taken, and whether it was said.
func class(said, usual string) (string, bool) {
	for _, c := range classes {
		if said == c {
			return c, true
		}
	}
	return usual, false
}

func newCauses(p *fold.Part) *causes {
	c := &causes{part: p, thick: -1, k: -1, firsts: map[[2]int]int{}}
	c.bendAngles()
	c.bendLines()
	c.thickness()
	c.ks()
	return c
}

func (c *causes) add(x cause) int {
	if !(x.plus > 0) {
		return -1
	}
	c.all = append(c.all, x)
	return len(c.all) - 1
}

// leg is how far a panel reaches from a bend's line, square to it.
func leg(p *fold.Part, panel int, b *fold.Bend) float64 {
	far := 0.0
	for _, q := range p.Panels[panel].Region.Outer {
		_, s := b.Coord(q)
		far = max(far, math.Abs(s-b.Allowance/2))
	}
	return far
}

// bendAngles: bends of one swing are turned by one leaf, and share its error. By class it goes by the shorter of
// the two legs; of several bends in one swing the largest figure is taken.
func (c *causes) bendAngles() {
	p := c.part
	e := p.Spec.Errors
	own, isOwn := given(e.Angle, 1, 90)
	cl, said := class(e.AngleClass, angleClass)
	low, high := math.Inf(1), 0.0
	c.angle = make([]int, len(p.Bends))
	for i := range c.angle {
		c.angle[i] = -1
	}
	plus := func(i int) float64 {
		b := &p.Bends[i]
		deg := own
		if !isOwn {
			deg = look(angular, min(leg(p, b.A, b), leg(p, b.B, b)), cl)
		}
		low, high = min(low, deg), max(high, deg)
		return float64(geom.Degrees(deg))
	}
	final := p.Finished()
	last := make([]int, len(p.Bends)) // the last swing that turns each bend
	for s, sw := range p.Swings {
		for _, b := range sw.Bends {
			last[b] = s
		}
	}
	for s, sw := range p.Swings {
		x := cause{kind: byAngle}
		var names []string
		for _, b := range sw.Bends {
			if last[b] != s || final[b] <= 0 {
				continue
			}
			x.plus = max(x.plus, plus(b))
			x.bends = append(x.bends, b)
			names = append(names, p.Bends[b].Name)
		}
		if len(names) == 0 {
			continue
		}
		x.bend = names[0]
		x.name = "angle of " + bendWords(names)
		k := c.add(x)
		for _, b := range x.bends {
			c.angle[b] = k
		}
	}
	r := fold.ErrorReport{Name: "bend angle", Low: low, High: high, Unit: "deg"}
	switch {
	case isOwn:
		r.Source, r.Kind, r.Given = "your own figure", "yours", true
	default:
		r.Class, r.Given, r.Kind = cl, said, "from memory"
		r.Source = fmt.Sprintf("ISO 2768-1, table 3, class %s, by the length of the shorter leg", cl)
	}
	if len(c.all) > 0 || high > 0 || isOwn {
		c.told = append(c.told, tidy(r))
	}
}

// bendWords names bends in a cause: "bend left", "bend 3", "bends left and right", "bend 3 and bend 4".
func bendWords(names []string) string {
	numbered := false
	for _, n := range names {
		numbered = numbered || strings.HasPrefix(n, "bend ")
	}
	switch {
	case !numbered && len(names) > 1:
		return "bends " + andWords(names)
	case !numbered:
		return "bend " + names[0]
	}
	var out []string
	for _, n := range names {
		if !strings.HasPrefix(n, "bend ") {
			n = "bend " + n
		}
		out = append(out, n)
	}
	return andWords(out)
}

func andWords(names []string) string {
	if len(names) == 1 {
		return names[0]
	}
	return strings.Join(names[:len(names)-1], ", ") + " and " + names[len(names)-1]
}

// bendLines: each by itself.
func (c *causes) bendLines() {
	p := c.part
	own, isOwn := given(p.Spec.Errors.Line, p.Spec.Units.Scale(), 1000)
	mm := lineError
	if isOwn {
		mm = own
	}
	c.line = make([]int, len(p.Bends))
	for i := range p.Bends {
		name := p.Bends[i].Name
		c.line[i] = c.add(cause{kind: byLine, name: "line of " + bendWords([]string{name}), bend: name, bends: []int{i}, plus: mm})
	}
	r := fold.ErrorReport{Name: "bend line", Low: mm, High: mm, Unit: "mm", Kind: "common practice",
		Source: "sheet and marks are no better than this (common practice, no source)"}
	if isOwn {
		r.Source, r.Kind, r.Given = "your own figure", "yours", true
	}
	if len(p.Bends) > 0 {
		c.told = append(c.told, r)
	}
}

func (c *causes) thickness() {
	p := c.part
	own, isOwn := given(p.Spec.Errors.Thickness, p.Spec.Units.Scale(), p.Thickness)
	mm := thicknessPart * p.Thickness
	if isOwn {
		mm = own
	}
	c.thick = c.add(cause{kind: byThickness, name: "thickness", plus: mm})
	r := fold.ErrorReport{Name: "thickness", Low: mm, High: mm, Unit: "mm", Kind: "assumed",
		Source: fmt.Sprintf("%g percent of the thickness, assumed: no list at hand says it", 100*thicknessPart)}
	if isOwn {
		r.Source, r.Kind, r.Given = "your own figure", "yours", true
	}
	c.told = append(c.told, r)
}

// ks: one error of K for all bends, each by its own range: sheet and rule are the same for all.
func (c *causes) ks() {
	p := c.part
	own, isOwn := given(p.Spec.Errors.K, 1, 1)
	c.kPlus = make([]float64, len(p.Bends))
	low, high := math.Inf(1), 0.0
	var from []string
	seen := map[string]bool{}
	for i := range p.Bends {
		b := &p.Bends[i]
		k := own
		if !isOwn {
			k = b.KSpread
		}
		c.kPlus[i] = k
		low, high = min(low, k), max(high, k)
		if s := b.KSource; k > 0 && !seen[s] {
			seen[s] = true
			from = append(from, s)
		}
	}
	if len(p.Bends) == 0 {
		return
	}
	if high > 0 {
		c.k = c.add(cause{kind: byK, name: "K", plus: 1})
	}
	r := fold.ErrorReport{Name: "K", Low: low, High: high}
	kinds := map[metal.Kind]string{metal.Assumed: "assumed", metal.Practice: "common practice", metal.Given: "yours", metal.Published: "published", metal.Measured: "yours"}
	switch {
	case isOwn:
		r.Source, r.Kind, r.Given = "your own figure", "yours", true
	case high == 0:
		r.Source, r.Kind = "how far K may be out is not known: taken as right", "assumed"
	default:
		r.Source, r.Kind = "the range in which K lies: "+strings.Join(from, "; "), "assumed"
		for i := range p.Bends {
			if p.Bends[i].KSpread > 0 {
				r.Kind = kinds[p.Bends[i].KKind]
				break
			}
		}
	}
	c.told = append(c.told, r)
}

// tidy sets the figures of a report that met no bend to 0.
func tidy(r fold.ErrorReport) fold.ErrorReport {
	if math.IsInf(r.Low, 0) {
		r.Low = r.High
	}
	return r
}
