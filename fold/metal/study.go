package metal

// This file holds Study: what several test bends of one metal and thickness say of inside radius, K
// and overbend, and what each strip is worth. fit.go has the arithmetic, study_ask.go what a
// bend asks of it.

import (
	"fmt"
	"slices"
	"strconv"
)

// Study is what test bends of one metal and thickness say, in mm and degrees.
//
// Spreads are half the width of the range in which a figure lies in at least nine of ten cases, if lengths were read to
// LengthError, angles to AngleError and radii to RadiusError: never less than those errors come to, more where
// the strips differ from each other by more.
type Study struct {
	Strips    []Verdict // one for each strip, in their order
	Groups    []Group   // by inside radius, the smallest first; those whose radius is not known last
	Words     []string  // what there is to say of all together, in whole sentences, lengths in mm
	Thickness float64   // mean of those used; 0 where none is

	line  line // K over R/T
	lined bool // whether there is one
}

// Verdict is what one strip is worth.
type Verdict struct {
	Name      string // "Strip 2", or "Strip 2 (its name)"
	State     string // "used", "left out" or "impossible"
	Err       error  // a *StripError where it is impossible
	Group     int    // into Groups; -1 where it is impossible or of another thickness
	K         float64
	KSpread   float64  // 0 where the strip alone gives no K
	Deduction float64  // mm, both legs measured outside less the length; 0 with Length 0
	Ratio     float64  // finished angle over set angle; 0 where Set was not noted
	Words     []string // whole sentences, lengths in mm; at least one
}

// Group is what the strips of one inside radius say.
type Group struct {
	Strips       []int      // all its strips, as places in Study.Strips, those left out among them
	Nose         float64    // 0 where not said
	Radius       float64    // inside
	RadiusSpread float64    // 0 where Radius is the nose's
	RadiusFrom   string     // "measured", "fitted" (from strips of several angles), "nose", "" not known
	Brakes       []string   // named by the strips
	Lengths      int        // how many strips have lengths
	Angles       [2]float64 // least and greatest of those, degrees
	K            float64    // with Radius; see KSpread
	KSpread      float64    // 0 where the group gives no K of its own: no lengths, or Radius not known
	// Deduction is that of the angle they were all bent to; DeductionSpread is 0 where they were
	// bent to several.
	Deduction       float64
	DeductionSpread float64
	Sets            int        // how many strips noted the set angle
	SetAngles       [2]float64 // least and greatest finished angle of those
	Ratio           float64    // finished angle over set angle
	RatioSpread     float64    // 0 with Sets 0
	Says            string     // all of it in a sentence, lengths in mm; "" where every strip was left out

	rows  []row // of those used
	words []string
}

// bad reports a K no metal has.
func badK(k float64) bool { return !(k >= 0 && k <= MaxK) }

// Examine studies test bends, lengths in mm, all of one metal and thickness (see Matching). Strips that
// can't have been so, that are of another thickness than most, or that are off all the others are left out, and their
// Verdict says so.
func Examine(strips []Strip) Study {
	s := Study{Strips: make([]Verdict, len(strips))}
	s.admit(strips)
	for _, members := range byRadius(strips, s.Strips) {
		s.Groups = append(s.Groups, s.group(strips, members))
	}
	slices.SortStableFunc(s.Groups, func(a, b Group) int {
		switch {
		case (a.RadiusFrom == "") != (b.RadiusFrom == ""):
			if a.RadiusFrom == "" {
				return 1
			}
			return -1
		case a.Radius < b.Radius:
			return -1
		case a.Radius > b.Radius:
			return 1
		}
		return 0
	})
	for n, g := range s.Groups {
		for _, i := range g.Strips {
			s.Strips[i].Group = n
		}
		s.Words = append(s.Words, g.words...)
	}
	s.drawLine()
	s.say(strips)
	return s
}

// admit names the strips, and turns away those that are impossible or of another thickness.
func (s *Study) admit(strips []Strip) {
	var thick []float64
	for i, t := range strips {
		v := &s.Strips[i]
		*v = Verdict{Name: "Strip " + strconv.Itoa(i+1), State: "used", Group: -1}
		if t.Name != "" {
			v.Name += " (" + t.Name + ")"
		}
		if v.Err = t.Check(); v.Err != nil {
			v.State = "impossible"
			v.Words = []string{v.Name + " can't be: " + v.Err.Error() + ". It was left out."}
			continue
		}
		thick = append(thick, t.Thickness)
	}
	if len(thick) == 0 {
		return
	}
	slices.Sort(thick)
	middle := thick[(len(thick)-1)/2]
	var n float64
	for i, t := range strips {
		v := &s.Strips[i]
		if v.State != "used" {
			continue
		}
		if !sameThickness(t.Thickness, middle) {
			v.State = "left out"
			v.Words = []string{fmt.Sprintf("%s is %s thick where the others are %s: it belongs to another sheet. It was left out.",
				v.Name, inMM(t.Thickness), inMM(middle))}
			continue
		}
		n++
		s.Thickness += (t.Thickness - s.Thickness) / n
	}
}

// byRadius gathers the strips in use by nose, those without one by measured radius, and last those without either;
// each list by place.
func byRadius(strips []Strip, verdicts []Verdict) [][]int {
	const noses, gauges, unknown = 0, 1, 2
	kind := func(t Strip) (int, float64) {
		switch {
		case t.Nose > 0:
			return noses, t.Nose
		case t.Radius != nil:
			return gauges, *t.Radius
		}
		return unknown, 0
	}
	var used []int
	for i := range strips {
		if verdicts[i].State == "used" {
			used = append(used, i)
		}
	}
	slices.SortStableFunc(used, func(a, b int) int {
		ka, ra := kind(strips[a])
		kb, rb := kind(strips[b])
		switch {
		case ka != kb:
			return ka - kb
		case ra < rb:
			return -1
		case ra > rb:
			return 1
		}
		return 0
	})
	var out [][]int
	last, first := -1, 0.0 // the kind and least radius of the group that is open
	for _, i := range used {
		k, r := kind(strips[i])
		reach := RadiusSame
		if k == noses {
			reach = RadiusSame / 5 // noses are ground to a figure
		}
		if k != last || r > first+reach {
			out = append(out, nil)
			last, first = k, r
		}
		out[len(out)-1] = append(out[len(out)-1], i)
	}
	for _, g := range out {
		slices.Sort(g)
	}
	return out
}
