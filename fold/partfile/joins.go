// How seams are closed, and what hand and machine may be out by, in a part file: read, judged, written.

package partfile

import (
	"fmt"
	"slices"

	"dryfold/fold"
)

var (
	joinFields  = []string{"seam", "way", "process", "widest"}
	errorFields = []string{"angle_class", "angle", "cut_class", "cut", "line", "thickness", "k"}
)

const (
	joinsNeed = "a list of how seams are closed"
	joinNeed  = `how a seam is closed: {"seam": "...", "way": "weld", "process": "tig", "widest": ...}, or all seams without "seam"`
	saysNeed  = `a "way", a "process" or the "widest" gap`
	// maxJoins: one for each seam that a part can name, and one for all.
	maxJoins = fold.MaxSeams + 1
)

const errorsNeed = `what hand and machine may be out by: {"angle": ..., "cut": ..., "line": ...}`

func joinWayNeed() string    { return "one of " + oneOf(fold.JoinWays) }
func processNeed() string    { return "one of " + oneOf(fold.WeldProcesses) }
func errorClassNeed() string { return "a class of ISO 2768-1: one of " + oneOf(fold.ErrorClasses) }

// errorBound is what hand, machine or sheet may be out by: more is no error but another part.
func errorBound(u fold.Units) bound {
	b := lengthBound(u, "an error", 0)
	b.hi = maxError
	return b
}
func angleErrorBound() bound {
	return bound{what: "an error", hi: maxAngleError, over: true, scale: 1, unit: " degrees"}
}
func kErrorBound() bound { return bound{what: "an error of K", hi: maxKError, scale: 1} }

func (d *decoder) joins(p *path) (all []fold.JoinSpec) {
	d.list(p, joinsNeed, func(i int, p *path) {
		if d.room(p, i, maxJoins, "of them") {
			all = append(all, d.join(p))
		}
	})
	return all
}

func (d *decoder) join(p *path) (j fold.JoinSpec) {
	d.object(p, joinNeed, joinFields, func(key string, p *path) {
		switch key {
		case "seam":
			j.Seam = d.word(p, nameNeed)
		case "way":
			j.Way = d.word(p, joinWayNeed())
		case "process":
			j.Process = d.word(p, processNeed())
		case "widest":
			j.Widest = d.optional(p, gapBound(d.units))
		}
	})
	return j
}

func (d *decoder) errors(p *path) (e fold.ErrorSpec) {
	d.object(p, errorsNeed, errorFields, func(key string, p *path) {
		switch key {
		case "angle_class":
			e.AngleClass = d.word(p, errorClassNeed())
		case "angle":
			e.Angle = d.optional(p, angleErrorBound())
		case "cut_class":
			e.CutClass = d.word(p, errorClassNeed())
		case "cut":
			e.Cut = d.optional(p, errorBound(d.units))
		case "line":
			e.Line = d.optional(p, errorBound(d.units))
		case "thickness":
			e.Thickness = d.optional(p, errorBound(d.units))
		case "k":
			e.K = d.optional(p, kErrorBound())
		}
	})
	return e
}

func (c *checker) joins(p *path) {
	c.most(p, len(c.spec.Joins), maxJoins)
	taken := map[string]*path{}
	for i, j := range c.spec.Joins {
		q := p.item(i)
		if j.Seam != "" {
			c.name(q.field("seam"), j.Seam)
		}
		c.oneOf(q.field("way"), j.Way, fold.JoinWays, joinWayNeed)
		c.oneOf(q.field("process"), j.Process, fold.WeldProcesses, processNeed)
		if j.Process != "" && j.Way != "" && j.Way != "weld" {
			c.fail(q.field("process"), "a way to weld, and the way "+quote(j.Way), `"way": "weld" beside it, or no process`)
		}
		c.optional(q.field("widest"), j.Widest, gapBound(c.spec.Units))
		if j.Way == "" && j.Process == "" && j.Widest == nil {
			c.fail(q, "nothing said of how it is closed", saysNeed)
		}
		if was := taken[j.Seam]; was != nil {
			who := "the seam " + quote(j.Seam)
			if j.Seam == "" {
				who = "all seams"
			}
			c.fail(q, who+" a second time", fmt.Sprintf("one for each seam and one for all; %s has it", was))
		}
		taken[j.Seam] = q
	}
}

// oneOf judges a word that may be left out.
func (c *checker) oneOf(p *path, s string, of []string, need func() string) {
	if s != "" && !slices.Contains(of, s) {
		c.fail(p, "the text "+quote(s), need())
	}
}

func (c *checker) errors(p *path) {
	e, u := c.spec.Errors, c.spec.Units
	either := func(class string, own *float64, name string) {
		c.oneOf(p.field(name+"_class"), class, fold.ErrorClasses, errorClassNeed)
		if class != "" && own != nil {
			c.fail(p.field(name), fmt.Sprintf(`both "%s" and "%s_class"`, name, name), "one of them")
		}
	}
	either(e.AngleClass, e.Angle, "angle")
	c.optional(p.field("angle"), e.Angle, angleErrorBound())
	either(e.CutClass, e.Cut, "cut")
	c.optional(p.field("cut"), e.Cut, errorBound(u))
	c.optional(p.field("line"), e.Line, errorBound(u))
	c.optional(p.field("thickness"), e.Thickness, errorBound(u))
	c.optional(p.field("k"), e.K, kErrorBound())
}

func joinText(j fold.JoinSpec) string {
	return object("seam", maybe(j.Seam), "way", maybe(j.Way), "process", maybe(j.Process), "widest", optional(j.Widest))
}

func errorsText(e fold.ErrorSpec) string {
	return object("angle_class", maybe(e.AngleClass), "angle", optional(e.Angle), "cut_class", maybe(e.CutClass), "cut", optional(e.Cut),
		"line", optional(e.Line), "thickness", optional(e.Thickness), "k", optional(e.K))
}
