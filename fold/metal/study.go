package metal

// This file holds Study: what several test bends of one metal and thickness say of inside radius, K
// and overbend, and what each strip is worth. fit.go has the arithmetic, study_ask.go what a
// bend asks of it.

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"
)

// Study is what test bends of one metal and thickness say, in mm and degrees.
//
// Spreads are half the width of the range in which a figure lies in at least nine of ten cases, if lengths were read to
// LengthError (CalliperError), angles to AngleError and radii to RadiusError: never less than those errors come to, more where
// the strips differ from each other by more.
type Study struct {
	Strips    []Verdict // one for each strip, in their order
	Groups    []Group   // by inside radius, the smallest first; those whose radius is not known last
	Words     []string  // what there is to say of all together, in whole sentences, lengths in mm
	Faults    []string  // those of Words that say that the strips can\'t all be right, or may not belong together
	Thickness float64   // mean of those used; 0 where none is

	noses []nose
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
	Nose         float64    // that of all who said one; 0 where nobody did, or they are of several
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

	rows   []row // of those used
	words  []string
	faults []string
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
		s.Faults = append(s.Faults, g.faults...)
	}
	s.compareNoses(strips)
	s.sayUsed(strips)
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

// byRadius gathers the strips in use by measured radius, whatever the nose; those without a measured one by nose, with the others of
// that nose where all of those came out alike; and last those without either. Each list by place.
func byRadius(strips []Strip, verdicts []Verdict) [][]int {
	var measured, noses, unknown []int
	for i, t := range strips {
		switch {
		case verdicts[i].State != "used":
		case t.Radius != nil:
			measured = append(measured, i)
		case t.Nose > 0:
			noses = append(noses, i)
		default:
			unknown = append(unknown, i)
		}
	}
	out := gather(measured, RadiusSame, func(i int) float64 { return *strips[i].Radius })
	apart := len(out)
	for _, group := range gather(noses, noseSame, func(i int) float64 { return strips[i].Nose }) {
		home := -1 // the only group with that nose
		for n, g := range out[:apart] {
			if !slices.ContainsFunc(g, func(i int) bool { return sameNose(strips[i].Nose, strips[group[0]].Nose) }) {
				continue
			}
			if home >= 0 {
				home = -1
				break
			}
			home = n
		}
		if home < 0 {
			out = append(out, group)
			continue
		}
		out[home] = append(out[home], group...)
	}
	if len(unknown) > 0 {
		out = append(out, unknown)
	}
	for _, g := range out {
		slices.Sort(g)
	}
	return out
}

// sameNose reports whether two noses are one; 0 is none.
func sameNose(a, b float64) bool { return a > 0 && b > 0 && math.Abs(a-b) <= noseSame }

// gather makes groups of places whose figures lie within reach of the group's least.
func gather(places []int, reach float64, of func(int) float64) (out [][]int) {
	slices.SortStableFunc(places, func(a, b int) int { return cmp.Compare(of(a), of(b)) })
	first := 0.0
	for _, i := range places {
		if len(out) == 0 || of(i) > first+reach {
			out, first = append(out, nil), of(i)
		}
		out[len(out)-1] = append(out[len(out)-1], i)
	}
	return out
}
