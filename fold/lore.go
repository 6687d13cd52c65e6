package fold

// This file finds what is known of the sheet's metal, and from it the K and the set angle of each bend.

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"dryfold/fold/geom"
	"dryfold/fold/metal"
)

// lore is what a part's metal, rule and test bends say.
type lore struct {
	metal metal.Metal // as the rules know it; the zero value where they don't
	known bool        // metal is one of the list, the maker's own, or of a handbook
	study metal.Study
	tests int // test bends of this metal and thickness

	held    []float64 // K by bend, whatever else is said; nil for none, NaN for one that is not held. For what doubt is worth
	spreads float64   // so many spreads are added to each measured K
}

// lore reads the Spec's metal and studies the test bends that are of it.
func (s *Spec) lore() *lore {
	l := &lore{}
	if l.metal, l.known = metal.Resolve(s.Sheet.Metal, s.Metals); !l.known {
		l.metal, l.known = metal.HandbookMetal(s.Sheet.Metal)
	}
	k := s.Units.Scale()
	strips := make([]metal.Strip, len(s.Tests))
	for i, t := range s.Tests {
		strips[i] = stripInMM(t, k)
	}
	var fit []metal.Strip
	for _, i := range metal.Matching(strips, s.Sheet.Metal, s.Metals, s.Sheet.Thickness*k) {
		fit = append(fit, strips[i])
	}
	l.tests = len(fit)
	if l.tests > 0 {
		l.study = metal.Examine(fit)
	}
	return l
}

// stripInMM is a test bend of a unit of k mm with its lengths in mm.
func stripInMM(t metal.Strip, k float64) metal.Strip {
	t.Thickness, t.Length, t.Nose = t.Thickness*k, t.Length*k, t.Nose*k
	t.Legs[0], t.Legs[1] = t.Legs[0]*k, t.Legs[1]*k
	if t.Radius != nil {
		t.Radius = number(*t.Radius * k)
	}
	return t
}

// MetalFacts is the part's metal where it is one of the list or the maker's own.
func (p *Part) MetalFacts() (metal.Metal, bool) {
	return metal.Resolve(p.Spec.Sheet.Metal, p.Spec.Metals)
}

// bend is a bend by itself, before the blank is cut: its sizes, K and set angle. K comes from the part's
// own figure; else from a rule the part names; else from the test bends that fit; else from what the
// maker's own metal says; else from metal.DefaultRule.
func (s *Spec) bend(i int, l *lore) Bend {
	bs := s.Bends[i]
	k, t := s.Units.Scale(), s.Sheet.Thickness*s.Units.Scale()
	b := Bend{Name: bs.name(i), Angle: geom.Degrees(bs.Angle), Radius: bs.Radius * k, Up: bs.Up, A: -1, B: -1}
	from := l.k(s, b.Radius, t)
	if l.held != nil && !math.IsNaN(l.held[i]) {
		from.k = l.held[i]
	}
	from.k = min(max(from.k+l.spreads*from.spread, 0), MaxK)
	b.K, b.KSource, b.KKind, b.KSpread, b.Rule, b.KBy = from.k, from.source, from.kind, from.spread, from.rule, from.by
	b.Rho = b.Radius + b.K*t
	b.Allowance = float64(b.Angle) * b.Rho
	if b.Allowance < MinZone {
		b.Allowance, b.Rho = 0, 0
	}
	b.Set, b.Work = b.Angle, b.Rho
	if bs.Angle < hemAngle && l.tests > 0 {
		if set, doubt, src, ok := l.study.Set(bs.Angle, b.Radius, t); ok {
			b.SetSource, b.SetDoubt, b.SetTold = src.String(), doubt, geom.Degrees(set)
			if b.SetTold > b.Angle && b.Allowance > 0 {
				b.Set = b.SetTold
				if tight := geom.Angle(b.Allowance / max(b.K*t, MinZone)); b.Set > tight { // the nose can be no sharper than a crease
					if b.Set = tight; b.Set < b.Angle*(1+1e-9) {
						b.Set = b.Angle
					}
					b.SetSource += fmt.Sprintf("; with R %s and K %s the bend can be turned no further than %.1f degrees, and is shown so: one of the two is not right", figure(b.Radius), bare(b.K), b.Set.Degrees())
				}
				if b.Set > b.Angle {
					b.Work = b.Allowance / float64(b.Set)
				}
			}
		}
	}
	return b
}

// Bending gives how the Spec's sheet bends: a bend by itself, of a radius in the Spec's units, with its
// K, allowance and set angle in mm and radians, not yet placed on the blank.
func (s Spec) Bending() func(BendSpec) Bend {
	l := s.lore()
	return func(b BendSpec) Bend {
		one := s
		one.Bends = []BendSpec{b}
		return one.bend(0, l)
	}
}

// kFrom is a K with where it comes from.
type kFrom struct {
	k, spread float64
	source    string
	kind      metal.Kind
	rule      string
	by        string // as Bend.KBy
}

func (l *lore) k(s *Spec, radius, t float64) kFrom {
	if s.Sheet.K != nil {
		src := metal.FromWords(s.Sheet.KFrom)
		if s.Sheet.KFrom == "" {
			src.Title = "given in the part without a source"
		}
		return kFrom{k: *s.Sheet.K, kind: src.Kind, source: src.String(), by: "part"}
	}
	var why []string
	if s.Sheet.Rule != "" {
		f, err := l.ruled(s.Sheet.Rule, radius, t)
		if err == nil {
			return f
		}
		why = append(why, err.Error())
	}
	if f, ok, not := l.tested(radius, t); ok {
		return f.because(why)
	} else if not != "" {
		why = append(why, not)
	}
	if k := l.metal.K; k != nil {
		src := metal.FromWords(l.metal.Note)
		f := kFrom{k: *k, kind: src.Kind, source: src.String() + ", with your metal " + l.metal.Name, by: "metal"}
		return f.because(why)
	}
	f, err := l.ruled(metal.DefaultRule, radius, t)
	if err != nil { // sizes that are refused elsewhere
		return kFrom{by: "rule"}
	}
	return f.because(why)
}

// because adds why what would go before has no answer.
func (f kFrom) because(why []string) kFrom {
	if len(why) > 0 {
		f.source += " (" + strings.Join(why, " ") + ")"
	}
	return f
}

// ruled is the K of a rule.
func (l *lore) ruled(rule string, radius, t float64) (kFrom, error) {
	k, src, err := metal.ByRule(rule, l.metal, l.known, radius, t)
	if err != nil {
		return kFrom{}, err
	}
	return kFrom{k: min(max(k, 0), MaxK), kind: src.Kind, source: src.String(), rule: rule, by: "rule"}, nil
}

// tested is the K of the test bends that fit; not says why they give none, where there are any.
func (l *lore) tested(radius, t float64) (f kFrom, ok bool, not string) {
	if l.tests == 0 {
		return kFrom{}, false, ""
	}
	k, spread, src, ok, why := l.study.K(radius, t)
	if !ok || !(k >= 0 && k <= MaxK) {
		return kFrom{}, false, why
	}
	f = kFrom{k: k, spread: spread, kind: src.Kind, source: src.String(), by: "tests"}
	if why != "" { // a caution
		f.source += ". " + why
	}
	return f, true, ""
}

// grainTo is how a bend lies to the grain: across, along or slanting, "" if the grain is not said.
func (p *Part) grainTo(b *Bend) string {
	if p.Spec.Sheet.Grain == nil {
		return ""
	}
	sin, cos := math.Sincos(*p.Spec.Sheet.Grain * math.Pi / 180)
	switch along := math.Abs(b.U.Dot(geom.Vec2{cos, sin})); {
	case along > math.Cos(grainSlant):
		return "along"
	case along < math.Sin(grainSlant):
		return "across"
	}
	return "slanting"
}

// figure writes a length in mm as messages do, without needless places: "1.5 mm".
func figure(mm float64) string {
	return strconv.FormatFloat(math.Round(mm*1000)/1000, 'f', -1, 64) + " mm"
}
