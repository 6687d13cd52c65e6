package fold

// This file says what doubt about the numbers a bend depends on is worth on this part:
// the blank is laid out anew, and the part folded anew, with the number changed.

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"dryfold/fold/geom"
	"dryfold/fold/metal"
)

// How far a number that nobody measured may well be out (common practice, no source):
// published rules for K differ by as much, and the radius that a nose leaves by half the
// thickness.
const (
	worthK      = 0.05
	worthRadius = 0.5 // of the thickness
)

// FindWorth says what the part's unmeasured numbers are worth, the greatest first. Each is one
// change: a radius as it may well come out, another published rule, K a little higher, a
// measured K at the end of its spread. nil where the part can't be folded or is too large for it (more
// than maxWorth corners times bends).
func (p *Part) FindWorth() []Worth {
	if !p.Foldable || len(p.Bends) == 0 || p.corners()*len(p.Bends) > maxWorth {
		return nil
	}
	var out []Worth
	box := p.Pose(p.Finished()).Box().Size()
	known := sites{}
	try := func(about, when string, change func(*Spec)) {
		next := p.Spec
		next.Bends = slices.Clone(next.Bends)
		change(&next)
		w := Worth{About: about, If: when}
		l := next.lore()
		for i := range next.Bends {
			if b := next.bend(i, l); b.K != p.Bends[i].K || b.Radius != p.Bends[i].Radius {
				w.K = b.K
				w.measure(p, next, box, known)
				out = append(out, w)
				return
			}
		}
	}
	p.radiusWorth(try)
	p.kWorth(try)
	slices.SortStableFunc(out, func(a, b Worth) int { return cmp.Compare(b.Most, a.Most) })
	return out
}

// measure fills in what the changed part comes to.
func (w *Worth) measure(p *Part, next Spec, box geom.Vec3, known sites) {
	q := build(next, false)
	if !q.Foldable {
		return
	}
	w.Known = true
	w.Finished = [3]float64(q.Pose(q.Finished()).Box().Size().Sub(box))
	if s, err := p.redevelop(next, known); err == nil {
		w.BlankKnown = true
		w.Blank = [2]float64(s.blankBox().Size().Sub(p.Blank.Box.Size()))
	}
	for _, x := range append(w.Blank[:], w.Finished[:]...) {
		w.Most = max(w.Most, math.Abs(x))
	}
}

// radiusWorth tries each inside radius that was not measured, as it may well come out.
func (p *Part) radiusWorth(try func(about, when string, change func(*Spec))) {
	type group struct {
		radius float64
		from   string
		bends  []int
	}
	var groups []group
	for i := range p.Bends {
		r, from := p.Bends[i].Radius, radiusFrom(p.Spec.Bends[i])
		k := slices.IndexFunc(groups, func(g group) bool { return math.Abs(g.radius-r) < Weld && g.from == from })
		if k < 0 {
			k = len(groups)
			groups = append(groups, group{r, from, nil})
		}
		groups[k].bends = append(groups[k].bends, i)
	}
	out := worthRadius * p.Thickness
	for _, g := range groups {
		var others []float64
		switch g.from {
		case "strip":
			continue
		case "nose": // the sheet can lie round the nose more widely, never more tightly
			others = []float64{g.radius + out}
		default:
			others = []float64{g.radius + out, g.radius - out}
			if others[1] < 0 {
				others[1] = 0
			}
		}
		for _, r := range others {
			if r == g.radius {
				continue
			}
			when := fmt.Sprintf("R %s instead of %s", figure(r), figure(g.radius))
			if len(groups) > 1 {
				when += p.someBends(g.bends)
			}
			try("radius", when, func(s *Spec) {
				for _, b := range g.bends {
					s.Bends[b].Radius = r / s.Units.Scale()
				}
			})
		}
	}
}

// someBends names the bends of a group, in brackets.
func (p *Part) someBends(bends []int) string {
	const few = 3
	var names []string
	for i, b := range bends {
		if i == few {
			names = append(names, fmt.Sprintf("%d more", len(bends)-few))
			break
		}
		names = append(names, p.Bends[b].Name)
	}
	return " (" + strings.Join(names, ", ") + ")"
}

// kWorth tries the rules that K does not come from, and K itself a little off.
func (p *Part) kWorth(try func(about, when string, change func(*Spec))) {
	b := &p.Bends[0]
	name := "the rule"
	own := "the K of your test bends"
	switch {
	case p.Spec.Sheet.K != nil:
		own = fmt.Sprintf("K %s", bare(*p.Spec.Sheet.K))
	case b.Rule != "":
		if r, ok := metal.RuleByName(b.Rule); ok {
			name = r.Name
		}
		own = name
	case b.KKind == metal.Assumed:
		own = "your metal's K"
	}
	if b.KKind == metal.Measured && p.Spec.Sheet.K == nil {
		if b.KSpread > 0 {
			try("spread", fmt.Sprintf("K %s, the end of your test bends' spread, instead of %s", bare(b.K+b.KSpread), bare(b.K)), func(s *Spec) {
				k := min(b.K+b.KSpread, MaxK)
				s.Sheet.K = &k
			})
		}
		return
	}
	m, known := p.MetalFacts()
	for _, r := range metal.Rules {
		if r.ID == b.Rule {
			continue
		}
		if _, _, err := metal.ByRule(r.ID, m, known, b.Radius, p.Thickness); err != nil {
			continue
		}
		try("rule", fmt.Sprintf("%s instead of %s", r.Name, own), func(s *Spec) {
			s.Sheet.K, s.Sheet.KFrom, s.Sheet.Rule = nil, "", r.ID
		})
	}
	k := b.K + worthK
	if k > MaxK {
		k = b.K - worthK
	}
	try("k", fmt.Sprintf("K %s instead of %s", bare(k), bare(b.K)), func(s *Spec) { s.Sheet.K = &k })
}

// bare writes a number without a unit, to 0.001.
func bare(x float64) string { return strings.TrimSuffix(figure(x), " mm") }

// radiusFrom is how a bend's radius is known, "assumed" where it is not said.
func radiusFrom(b BendSpec) string {
	if b.RadiusFrom == "" {
		return "assumed"
	}
	return b.RadiusFrom
}

// addPrice reckons the price, where the maker gave anything to reckon by.
func (p *Part) addPrice(r *Report) {
	c := p.Spec.Price
	if c == (Price{}) {
		return
	}
	q := &PriceReport{Currency: c.Currency}
	var how []string
	if c.PerKg > 0 && r.Blank.Rectangle != nil {
		q.Metal += *r.Blank.Rectangle * c.PerKg
		how = append(how, fmt.Sprintf("%.3g kg, the rectangle the blank is cut from, at %s a kg", *r.Blank.Rectangle, money(c.PerKg)))
	}
	if c.PerKg > 0 && r.Blank.Rectangle == nil {
		how = append(how, "the weight is not known, so nothing by the kg")
	}
	if c.PerSheet > 0 {
		k := p.Spec.Units.Scale()
		if whole := c.Sheet[0] * c.Sheet[1] * k * k; whole > 0 {
			share := r.Blank.Width * r.Blank.Height / whole
			q.Metal += share * c.PerSheet
			how = append(how, fmt.Sprintf("%.3g of a sheet at %s", share, money(c.PerSheet)))
		} else {
			q.Metal += c.PerSheet
			how = append(how, "one sheet at "+money(c.PerSheet))
		}
	}
	if c.PerHour > 0 && c.Hours > 0 {
		q.Work = c.PerHour * c.Hours
		how = append(how, fmt.Sprintf("%s h at %s an hour", bare(c.Hours), money(c.PerHour)))
	}
	q.Total = q.Metal + q.Work
	q.How = strings.Join(how, "; ")
	r.Price = q
}

func money(x float64) string { return fmt.Sprintf("%.2f", x) }
