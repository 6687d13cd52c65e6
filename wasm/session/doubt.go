package session

// This file says what doubt about a number is worth: the part is built once more
// with the number changed, and its finished sizes compared.

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"dryfold/fold"
)

// How far a number that nobody measured may well be out (common practice, no
// source): published rules for K differ by as much, and the radius that a nose
// leaves by half the thickness.
const (
	kOut = 0.05
	rOut = 0.5 // of the thickness
)

// Doubt is one number that may be out, and what the blank, cut as it is, would
// then make. Long, Wide and High are the changes of the finished sizes in mm.
type Doubt struct {
	If               string // "K were 0.47 instead of 0.42"
	Long, Wide, High float64
	Known            bool // false where the part would not fold then
}

// Doubts are what K and the inside radii are worth on the part shown, the greater first.
func (s *Session) Doubts() []Doubt {
	p := s.Part()
	if !p.Foldable || len(p.Bends) == 0 {
		return nil
	}
	if s.doubtsOf == p && s.doubtsIn == s.units {
		return s.doubts
	}
	k := p.Bends[0].K + kOut
	if k > fold.MaxK {
		k = p.Bends[0].K - kOut
	}
	withK := p.Spec
	withK.Sheet.K = &k
	withR := p.Spec
	withR.Bends = slices.Clone(withR.Bends)
	more := rOut * p.Thickness
	for i := range withR.Bends {
		withR.Bends[i].Radius += more / p.Spec.Units.Scale()
	}
	list := []Doubt{
		s.doubt(fmt.Sprintf("If K is %.2f instead of %.2f", k, p.Bends[0].K), withK),
		s.doubt(fmt.Sprintf("If the inside radii come out %s %s larger", FieldLength(more, s.units), s.units), withR),
	}
	slices.SortStableFunc(list, func(a, b Doubt) int {
		return cmp.Compare(b.most(), a.most())
	})
	s.doubts, s.doubtsOf, s.doubtsIn = list, p, s.units
	return list
}

func (d Doubt) most() float64 { return max(math.Abs(d.Long), math.Abs(d.Wide), math.Abs(d.High)) }

func (s *Session) doubt(when string, spec fold.Spec) Doubt {
	d := Doubt{If: when}
	q := fold.Build(spec)
	if !q.Foldable {
		return d
	}
	d.Known = true
	was, is := s.Report().Finished.Box(), q.Sizes().Finished.Box()
	d.Long, d.Wide, d.High = is[0]-was[0], is[1]-was[1], is[2]-was[2]
	if was[1] > was[0] {
		d.Long, d.Wide = d.Wide, d.Long
	}
	return d
}

// Words tell a doubt in a sentence, lengths in the units shown.
func (d Doubt) Words(u fold.Units) string {
	if !d.Known {
		return d.If + ", the part would not fold."
	}
	least, places := 0.05, 1 // mm
	if u == fold.Inch {
		least, places = 0.0005*inch, 3
	}
	var said []string
	for _, x := range []struct {
		d         float64
		more, few string
	}{{d.Long, "longer", "shorter"}, {d.Wide, "wider", "narrower"}, {d.High, "higher", "lower"}} {
		word := x.more
		if x.d < 0 {
			word = x.few
		}
		if math.Abs(x.d) >= least {
			said = append(said, fixed(math.Abs(x.d)/u.Scale(), places)+" "+u.String()+" "+word)
		}
	}
	if len(said) == 0 {
		return fmt.Sprintf("%s, no finished size changes by %s %s.", d.If, trimmed(least*2/u.Scale(), places), u)
	}
	return d.If + ", the part comes out " + List(said) + "."
}
