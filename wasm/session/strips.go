package session

// This file holds the test bends of the open part as the page shows and changes them.
// stripform.go has the form that one is typed into, bench.go what stays in the browser.

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"dryfold/fold"
	"dryfold/fold/metal"
)

// Tests are the test bends as the page shows them, lengths in mm.
type Tests struct {
	In    []int         // places in the part's list of those of its metal and thickness
	Used  []metal.Strip // those
	Other []int         // places of those of another metal or thickness
	Off   []metal.Strip // on the bench, of this metal and thickness, but not in the part
	Study metal.Study   // of Used
	Alone []Alone       // what each of Used says alone, of the part's first bend
}

// Alone is the K that one strip gives a bend, with its spread.
type Alone struct {
	K, Spread float64
	OK        bool
}

// Tests are the test bends that concern the open part; not to be changed.
func (s *Session) Tests() *Tests {
	if s.tests != nil && s.testsOf == s.serial && s.testsBench == s.benchSerial {
		return s.tests
	}
	var t Tests
	all := inMM(s.spec)
	t.In = s.matching(all)
	for i, strip := range all {
		if slices.Contains(t.In, i) {
			t.Used = append(t.Used, strip)
		} else {
			t.Other = append(t.Other, i)
		}
	}
	for _, i := range s.matching(s.bench.Tests) {
		t.Off = append(t.Off, s.bench.Tests[i])
	}
	t.Off = strips(t.Off).without(all)
	t.Study = metal.Examine(t.Used)
	for _, strip := range t.Used {
		var a Alone
		a.K, a.Spread, a.OK = s.alone(strip)
		t.Alone = append(t.Alone, a)
	}
	s.tests, s.testsOf, s.testsBench = &t, s.serial, s.benchSerial
	return &t
}

// alone is the K that one strip gives by its own radius, or, where that is not known,
// with the inside radius of the part's first bend.
func (s *Session) alone(t metal.Strip) (k, spread float64, ok bool) {
	study := metal.Examine([]metal.Strip{t})
	if v := study.Strips[0]; v.KSpread > 0 {
		return v.K, v.KSpread, true
	}
	for _, b := range s.part.Bends {
		if !hem(b.Angle.Degrees()) {
			k, spread, _, ok, _ = study.K(b.Radius, s.part.Thickness)
			break
		}
	}
	return k, spread, ok
}

// matching are the places of the strips of the part's metal and thickness.
func (s *Session) matching(list []metal.Strip) []int {
	return metal.Matching(list, s.spec.Sheet.Metal, s.OwnMetals(), s.part.Thickness)
}

// OwnMetals are the part's own metals, and those of the bench that it doesn't name.
func (s *Session) OwnMetals() []metal.Own { return s.ownMetals(s.spec) }

func (s *Session) ownMetals(spec fold.Spec) []metal.Own {
	own := slices.Clip(spec.Metals)
	for _, m := range s.bench.Metals {
		if ownNamed(spec.Metals, m.Name) < 0 {
			own = append(own, m)
		}
	}
	return own
}

// OtherStrip is one of the part's test bends by its place, lengths in mm.
func (s *Session) OtherStrip(at int) metal.Strip {
	return scaledStrip(s.spec.Tests[at], s.spec.Units.Scale())
}

// OtherSheets names the sheets of the part's test bends that are not of its own.
func (s *Session) OtherSheets() string {
	var list []metal.Strip
	for _, i := range s.Tests().Other {
		list = append(list, s.OtherStrip(i))
	}
	return s.sheetsOf(list)
}

// LeaveOut takes a test bend out of the part; it stays on the bench.
func (s *Session) LeaveOut(at int) error { return s.takeOut(at, false) }

// DropStrip takes a test bend out of the part and off the bench.
func (s *Session) DropStrip(at int) error { return s.takeOut(at, true) }

func (s *Session) takeOut(at int, forget bool) error {
	if at < 0 || at >= len(s.spec.Tests) {
		return errors.New("there is no such test bend")
	}
	next := s.spec
	next.Tests = slices.Delete(slices.Clone(next.Tests), at, at+1)
	if len(next.Tests) == 0 {
		next.Tests = nil
	}
	if !forget { // a strip that a file brought is kept too
		if t := s.OtherStrip(at); strips(s.bench.Tests).count(t) < inMM(s.spec).count(t) && len(s.bench.Tests) < fold.MaxTests {
			return s.changeTests(next, benchStep{put: []metal.Strip{t}})
		}
	}
	return s.changeTests(next, s.benchChange(next, forget))
}

// ForgetStrip takes a test bend that the part doesn't have off the bench.
func (s *Session) ForgetStrip(t metal.Strip) {
	s.applyBench(benchStep{off: []metal.Strip{t}})
}

// UseStrips takes test bends of the bench into the part.
func (s *Session) UseStrips(list []metal.Strip) error {
	next := s.spec
	next.Tests = slices.Clone(next.Tests)
	for _, t := range list {
		next.Tests = append(next.Tests, scaledStrip(t, 1/next.Units.Scale()))
	}
	return s.changeTests(next, s.benchChange(next, false))
}

// UseTests has K follow the test bends where the part gives a figure or names a rule.
func (s *Session) UseTests() error {
	next := s.spec
	next.Sheet.K, next.Sheet.KFrom, next.Sheet.Rule = nil, "", ""
	return s.changeTests(next, benchStep{})
}

// UseRadius gives the bends of one inside radius another, in mm, known as fold.RadiusKnown has it.
func (s *Session) UseRadius(from, to float64, known string) error {
	next := s.spec
	next.Bends = slices.Clone(next.Bends)
	for i, b := range s.part.Bends {
		if math.Abs(b.Radius-from) <= sameFigure && !hem(b.Angle.Degrees()) {
			_ = s.editBend(&next, i, func(b *fold.BendSpec) { b.Radius, b.RadiusFrom = s.own(to), known })
		}
	}
	return s.changeTests(next, benchStep{})
}

// hem reports whether a bend angle is one that a strip's bend tells nothing of.
func hem(deg float64) bool { return deg >= metal.MaxStripTurn }

// changeTests makes a change after which K may be another, keeping what KeepsSizes says
// where that can be done, else the blank.
func (s *Session) changeTests(next fold.Spec, did benchStep) error {
	was, now := s.part, fold.Build(next)
	if slices.EqualFunc(now.Bends, was.Bends, func(a, b fold.Bend) bool { return a.K == b.K && a.Radius == b.Radius }) {
		return s.changeWith(next, did)
	}
	kept := false
	if s.KeepsSizes() {
		laid, err := s.laidOut(next)
		kept = err == nil && s.changeWith(laid, did) == nil
	}
	if !kept {
		if err := s.changeWith(next, did); err != nil {
			return err
		}
	}
	s.fit = fit{was.Blank.Box.Size(), s.part.Blank.Box.Size(), kept, s.serial}
	return nil
}

// fit is what the last change of test bends did to the blank.
type fit struct {
	was, is [2]float64 // the blank's width and height before and after, mm
	kept    bool       // it was laid out anew, the finished sizes are as before
	serial  int        // of the part that it made
}

// FitWords say what the last change of test bends did to the blank, "" where something
// else was changed since.
func (s *Session) FitWords() string {
	if s.fit.serial != s.serial {
		return ""
	}
	if !s.fit.kept {
		return "The blank stays as it is; the finished part is another."
	}
	size := func(v [2]float64) string { return Length(v[0], s.units) + " × " + Length(v[1], s.units) }
	if size(s.fit.was) == size(s.fit.is) {
		return fmt.Sprintf("Blank and finished part are as large as before: %s %s.", size(s.fit.is), s.units)
	}
	return fmt.Sprintf("The blank is now %s %s, before it was %s. The finished part is as large as before.", size(s.fit.is), s.units, size(s.fit.was))
}

// Reach is what the test bends say to the bends of one inside radius.
type Reach struct {
	Radius float64 // mm, of the part's bends
	Bends  []int
	K      float64
	Spread float64
	Source metal.Source
	OK     bool
	Why    string // why they don't reach, or what is to be minded
	// Instead are the inside radii that the strips know, for which bends and strips would agree: where they don't reach.
	Instead []Offer
	// Measured is the inside radius that the strips came out with where they reach these bends, and
	// the part doesn't say so of them yet; else nil.
	Measured *Offer
}

// Offer is an inside radius that test bends came out with.
type Offer struct {
	Radius float64 // mm, to 0.01
	Known  string  // how, as fold.RadiusKnown has it: "strip" where it was measured or fitted, "nose" where only the nose is known
	Strips int     // that K of this radius stands on
}

// maxOffers is how many radii are offered at most: a choice, no list.
const maxOffers = 3

// Reaches are what the strips in use say to the part's bends, by inside radius; hems aside.
func (s *Session) Reaches() (list []Reach) {
	t := s.Tests()
	for i := range s.part.Bends {
		b := &s.part.Bends[i]
		if hem(b.Angle.Degrees()) {
			continue
		}
		at := slices.IndexFunc(list, func(r Reach) bool { return math.Abs(r.Radius-b.Radius) <= sameFigure })
		if at < 0 {
			r := Reach{Radius: b.Radius}
			r.K, r.Spread, r.Source, r.OK, r.Why = t.Study.K(b.Radius, s.part.Thickness)
			offers := offered(&t.Study, b.Radius)
			if !r.OK {
				r.Instead = offers[:min(len(offers), maxOffers)]
			} else if s.spec.Bends[i].RadiusFrom != "strip" {
				for k := range offers {
					o := &offers[k]
					if d := math.Abs(o.Radius - b.Radius); o.Known == "strip" && d <= metal.RadiusSame && (r.Measured == nil || d < math.Abs(r.Measured.Radius-b.Radius)) {
						r.Measured = o
					}
				}
			}
			r.Why = fold.InUnits(r.Why, s.units)
			list, at = append(list, r), len(list)
		}
		list[at].Bends = append(list[at].Bends, i)
	}
	return list
}

// offered are the inside radii of which the strips give K: that of the most strips first, of as many the one
// nearest to the asked radius.
func offered(study *metal.Study, radius float64) (out []Offer) {
	for i := range study.Groups {
		g := &study.Groups[i]
		if g.KSpread == 0 || g.RadiusFrom == "" || !(g.K >= 0 && g.K <= metal.MaxK) {
			continue
		}
		o := Offer{math.Round(g.Radius*100) / 100, "strip", g.Lengths}
		if g.RadiusFrom == "nose" {
			o.Known = "nose"
		}
		out = append(out, o)
		for k := len(out) - 1; k > 0 && out[k].before(out[k-1], radius); k-- {
			out[k-1], out[k] = out[k], out[k-1]
		}
	}
	return out
}

// before reports whether an offer comes before another for bends of a radius.
func (o Offer) before(other Offer, radius float64) bool {
	if o.Strips != other.Strips {
		return o.Strips > other.Strips
	}
	return math.Abs(o.Radius-radius) < math.Abs(other.Radius-radius)
}
