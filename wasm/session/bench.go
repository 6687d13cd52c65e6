package session

// This file holds the maker's own bench: the metals and test bends that stay in the
// browser whatever part is open. What is typed on this page goes into the part and on
// to the bench; a part that is only opened leaves the bench alone.

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"dryfold/fold"
	"dryfold/fold/metal"
	"dryfold/fold/partfile"
)

// sameFigure is how near two figures of a test bend lie that are one: mm or degrees.
// Files in inches keep a length to 25 nm; no gauge in a shop reads a thousandth of this.
const sameFigure = 1e-3

// past is one step of the history: the part before it, and what the step itself did
// to the bench.
type past struct {
	spec  fold.Spec
	did   benchStep
	other bool   // it is another part than the one that the step leads from
	hand  string // which hand it was then
}

// benchStep is what a change puts on the bench and takes off it.
type benchStep struct {
	put, off             []metal.Strip // mm
	putMetals, offMetals []metal.Own
}

func (b benchStep) empty() bool {
	return len(b.put)+len(b.off)+len(b.putMetals)+len(b.offMetals) == 0
}

// back is the step that undoes it.
func (b benchStep) back() benchStep {
	return benchStep{put: b.off, off: b.put, putMetals: b.offMetals, offMetals: b.putMetals}
}

// Bench is the maker's own bench, lengths in mm.
func (s *Session) Bench() partfile.Bench { return s.bench }

// BenchSerial changes whenever the bench does.
func (s *Session) BenchSerial() int { return s.benchSerial }

// KeepBench gives the text that TakeBench reads again; SaveBench gives the same as a file with a name for it.
func (s *Session) KeepBench() string { return string(partfile.WriteBench(s.bench, fold.MM)) }

// TakeBench puts what was kept in place of the bench; nothing changes where it can't be read.
func (s *Session) TakeBench(text string) error {
	b, err := partfile.ReadBench([]byte(text))
	if err != nil {
		return err
	}
	s.bench = b
	s.benchSerial++
	return nil
}

// SaveBench gives the bench as a small file, in the units shown, and a name for it.
func (s *Session) SaveBench() (name string, data []byte) {
	return "my-test-bends.drybends", partfile.WriteBench(s.bench, s.units)
}

// MergeBench adds a file's metals and test bends to the bench, and says what came in.
// What is there already is left out, also own metals of a name that the bench knows.
func (s *Session) MergeBench(data []byte) (said string, err error) {
	b, err := partfile.ReadBench(data)
	if err != nil {
		return "", err
	}
	var step benchStep
	step.put = strips(b.Tests).without(s.bench.Tests)
	other := 0
	for _, m := range b.Metals {
		if i := ownNamed(s.bench.Metals, m.Name); i < 0 {
			step.putMetals = append(step.putMetals, m)
		} else if !sameOwn(s.bench.Metals[i], m) {
			other++
		}
	}
	if len(s.bench.Tests)+len(step.put) > fold.MaxTests || len(s.bench.Metals)+len(step.putMetals) > fold.MaxMetals {
		return "", fmt.Errorf("your bench holds %d test bends, and %d more are past the %d that it has room for", len(s.bench.Tests), len(step.put), fold.MaxTests)
	}
	s.applyBench(step)
	tools := s.bench.Tools.IsZero() && !b.Tools.IsZero()
	if tools {
		s.bench.Tools = b.Tools
		s.benchSerial++
	}
	if s.bench.Lip == 0 && b.Lip > 0 {
		s.bench.Lip = b.Lip
		s.benchSerial++
	}
	words := []string{Count(len(step.put), "test bend")}
	if len(step.putMetals) > 0 {
		words = append(words, Count(len(step.putMetals), "metal"))
	}
	if tools {
		words = append(words, "your tools")
	}
	said = List(words) + " came in"
	if sheets := s.sheetsOf(step.put); sheets != "" {
		said += ", of " + sheets
	}
	if n := len(b.Tests) - len(step.put); n > 0 {
		said += fmt.Sprintf("; %d, of %s, %s there already", n, s.sheetsOf(strips(b.Tests).without(step.put)), were(n))
	}
	if other > 0 {
		said += fmt.Sprintf("; of %s by a name that you have too, yours stays", Count(other, "metal"))
	}
	if len(b.Tests) == 0 {
		return said, nil
	}
	switch t, sheet := s.Tests(), s.sheetsOf([]metal.Strip{{Metal: s.spec.Sheet.Metal, Thickness: s.part.Thickness}}); {
	case len(t.Off) > 0:
		said += ". Under Metal: " + Count(len(t.Off), "test bend") + " to use for this part’s sheet, " + sheet
	case len(t.Used) > 0:
		said += ". Those for this part’s sheet, " + sheet + ", are in use"
	default:
		said += ". None is for this part’s sheet, " + sheet
	}
	return said, nil
}

// maxSheets is how many sheets of test bends are named before the rest are counted.
const maxSheets = 4

// sheetsOf names the sheets that test bends (mm) are of: "Stainless 304 1.0 mm and Copper 2.0 mm".
func (s *Session) sheetsOf(list []metal.Strip) string {
	var names []string
	for _, t := range list {
		name := t.Metal
		if name == "" {
			name = "a metal not said"
		}
		name += " " + Thickness(t.Thickness, s.units) + " " + s.units.String()
		if !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	if n := len(names); n > maxSheets+1 {
		names = append(names[:maxSheets:maxSheets], fmt.Sprintf("%d other sheets", n-maxSheets))
	}
	return List(names)
}

func were(n int) string {
	if n == 1 {
		return "was"
	}
	return "were"
}

// Count is a number with its noun: "1 test bend", "3 test bends", "no test bends".
func Count(n int, noun string) string {
	switch n {
	case 0:
		return "no " + noun + "s"
	case 1:
		return "1 " + noun
	}
	return fmt.Sprintf("%d %ss", n, noun)
}

// applyBench puts a step's strips and metals on the bench and takes its others off.
func (s *Session) applyBench(b benchStep) {
	if b.empty() {
		return
	}
	s.bench.Tests = append(strips(s.bench.Tests).without(b.off), b.put...)
	left := slices.DeleteFunc(slices.Clone(s.bench.Metals), func(m metal.Own) bool { return ownNamed(b.offMetals, m.Name) >= 0 })
	s.bench.Metals = append(left, b.putMetals...)
	s.benchSerial++
}

// benchChange is what the change from the open part to next does to the bench: what is
// new in next goes on to it, and what got another name gets it there too. Strips that next has no
// more go off it only if forget says so.
func (s *Session) benchChange(next fold.Spec, forget bool) (did benchStep) {
	was, is := inMM(s.spec), inMM(next)
	fresh := is.without(was)
	for i, t := range fresh { // as many of a kind as the part has, if the bench has fewer
		if strips(s.bench.Tests).count(t)+strips(fresh[:i]).count(t) < is.count(t) {
			did.put = append(did.put, t)
		}
	}
	if forget {
		did.off = was.without(is)
	} else if len(was) == len(is) { // of a metal that was given another name
		for i, t := range was {
			if t.Metal = is[i].Metal; t.Metal != was[i].Metal && sameStrip(t, is[i]) {
				did.off = append(did.off, was[i])
			}
		}
	}
	if len(next.Metals) == len(s.spec.Metals) {
		for i, m := range s.spec.Metals {
			if at := ownNamed(s.bench.Metals, m.Name); at >= 0 && ownNamed(next.Metals, m.Name) < 0 && ownNamed(s.spec.Metals, next.Metals[i].Name) < 0 {
				did.offMetals = append(did.offMetals, s.bench.Metals[at])
			}
		}
	}
	for _, m := range next.Metals {
		if i := ownNamed(s.spec.Metals, m.Name); i >= 0 && sameOwn(s.spec.Metals[i], m) {
			continue
		}
		if i := ownNamed(s.bench.Metals, m.Name); i >= 0 {
			if sameOwn(s.bench.Metals[i], m) {
				continue
			}
			did.offMetals = append(did.offMetals, s.bench.Metals[i])
		}
		did.putMetals = append(did.putMetals, m)
	}
	if room := fold.MaxTests - len(s.bench.Tests); len(did.put) > room {
		did.put = did.put[:max(0, room)]
	}
	if room := fold.MaxMetals - len(s.bench.Metals) + len(did.offMetals); len(did.putMetals) > room {
		did.putMetals = did.putMetals[:max(0, room)]
	}
	return did
}

func ownNamed(list []metal.Own, name string) int {
	plain := func(t string) string { return strings.ToLower(strings.Join(strings.Fields(t), " ")) }
	return slices.IndexFunc(list, func(m metal.Own) bool { return plain(m.Name) == plain(name) })
}

func sameOwn(a, b metal.Own) bool {
	return a.Name == b.Name && a.Like == b.Like && a.Density == b.Density && a.Modulus == b.Modulus && a.Yield == b.Yield &&
		sameMaybe(a.LeastRT, b.LeastRT) && sameMaybe(a.K, b.K) && a.Note == b.Note
}

// strips are test bends, lengths in mm, of which equal ones may be several.
type strips []metal.Strip

// inMM are a part's test bends in mm.
func inMM(spec fold.Spec) strips {
	out := make(strips, len(spec.Tests))
	for i, t := range spec.Tests {
		out[i] = scaledStrip(t, spec.Units.Scale())
	}
	return out
}

// scaledStrip is a test bend with its lengths times k.
func scaledStrip(t metal.Strip, k float64) metal.Strip {
	scaled := func(v float64) float64 { return tidy(v * k) }
	t.Thickness, t.Length, t.Nose = scaled(t.Thickness), scaled(t.Length), scaled(t.Nose)
	t.Legs = [2]float64{scaled(t.Legs[0]), scaled(t.Legs[1])}
	if t.Radius != nil {
		r := scaled(*t.Radius)
		t.Radius = &r
	}
	return t
}

func (l strips) count(t metal.Strip) (n int) {
	for _, x := range l {
		if sameStrip(x, t) {
			n++
		}
	}
	return n
}

// without is the list less others, each taking one of its kind away.
func (l strips) without(others []metal.Strip) (out strips) {
	gone := make([]bool, len(others))
next:
	for _, t := range l {
		for i, o := range others {
			if !gone[i] && sameStrip(t, o) {
				gone[i] = true
				continue next
			}
		}
		out = append(out, t)
	}
	return out
}

func sameStrip(a, b metal.Strip) bool {
	near := func(x, y float64) bool { return math.Abs(x-y) <= sameFigure }
	return a.Name == b.Name && a.Metal == b.Metal && a.Brake == b.Brake && a.Inside == b.Inside && a.Calliper == b.Calliper &&
		near(a.Thickness, b.Thickness) && near(a.Length, b.Length) && near(a.Legs[0], b.Legs[0]) && near(a.Legs[1], b.Legs[1]) &&
		near(a.Angle, b.Angle) && near(a.Nose, b.Nose) && nearMaybe(a.Set, b.Set) && nearMaybe(a.Radius, b.Radius)
}

func sameMaybe(a, b *float64) bool { return a == nil && b == nil || a != nil && b != nil && *a == *b }

func nearMaybe(a, b *float64) bool {
	return a == nil && b == nil || a != nil && b != nil && math.Abs(*a-*b) <= sameFigure
}
