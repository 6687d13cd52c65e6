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
// than maxWorth corners times bends, or maxWorthHoles holes).
func (p *Part) FindWorth() []Worth {
	if !p.Foldable || len(p.Bends) == 0 || p.corners()*len(p.Bends) > maxWorth || len(p.Spec.Holes) > maxWorthHoles {
		return nil
	}
	var out []Worth
	box := p.Pose(p.Finished()).Box().Size()
	known := p.newSites()
	try := func(about, when string, change func(*Spec) *lore) {
		next := p.Spec
		next.Bends = slices.Clone(next.Bends)
		l := change(&next)
		if l == nil {
			l = next.lore()
		}
		w := Worth{About: about, If: when}
		for i := range next.Bends {
			if b := next.bend(i, l); b.K != p.Bends[i].K || b.Radius != p.Bends[i].Radius {
				w.K = b.K
				w.measure(p, next, l, box, known)
				out = append(out, w)
				return
			}
		}
	}
	p.radiusWorth(try)
	p.kWorth(try)
	geom.SortStable(out, func(a, b Worth) int { return cmp.Compare(b.Most, a.Most) })
	return out
}

// measure fills in what the changed part comes to.
func (w *Worth) measure(p *Part, next Spec, l *lore, box geom.Vec3, known *sites) {
	q := build(next, l, false)
	if !q.Foldable {
		return
	}
	w.Known = true
	finished := [3]float64(q.Pose(q.Finished()).Box().Size().Sub(box))
	figures := finished[:]
	w.Finished = &finished
	if s, err := p.redevelop(next, l, known); err == nil {
		blank := [2]float64(s.blankBox().Size().Sub(p.Blank.Box.Size()))
		w.BlankKnown, w.Blank = true, &blank
		figures = append(blank[:], figures...)
	}
	for _, x := range figures {
		w.Most = max(w.Most, math.Abs(x))
	}
}

// radiusWorth tries each inside radius that was not measured, as it may well come out.
func (p *Part) radiusWorth(try func(about, when string, change func(*Spec) *lore)) {
	groups := p.byRadius(func(i int) (string, bool) { return radiusFrom(p.Spec.Bends[i]), true })
	out := worthRadius * p.Thickness
	for _, g := range groups {
		var others []float64
		switch g.kind {
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
			when := fmt.Sprintf("R %s instead of %s", figure(r), figure(g.radius)) + p.someBends(g.bends)
			try("radius", when, func(s *Spec) *lore {
				for _, b := range g.bends {
					s.Bends[b].Radius = r / s.Units.Scale()
				}
				if p.Bends[g.bends[0]].KBy != "tests" {
					return nil
				}
				return p.holding(s.lore(), nil) // another radius may have another source of K: that is a doubt of its own
			})
		}
	}
}

// holding makes l leave the K of all bends as it is, but for those.
func (p *Part) holding(l *lore, but []int) *lore {
	l.held = make([]float64, len(p.Bends))
	for i := range p.Bends {
		l.held[i] = p.Bends[i].K
	}
	for _, i := range but {
		l.held[i] = math.NaN()
	}
	return l
}

// kWorth tries, for the bends whose K comes from one source, the others, and K itself a little off.
func (p *Part) kWorth(try func(about, when string, change func(*Spec) *lore)) {
	for _, bends := range p.bySource() {
		who := p.someBends(bends)
		if p.Bends[bends[0]].KBy == "tests" {
			p.spreadWorth(bends, who, try)
			continue
		}
		p.sourceWorth(bends, who, try)
		off := worthK
		for _, i := range bends {
			if p.Bends[i].K+worthK > MaxK {
				off = -worthK
			}
		}
		try("k", p.otherK(bends, func(b *Bend) float64 { return b.K + off }, "")+who, func(s *Spec) *lore {
			l := p.holding(s.lore(), nil)
			for _, i := range bends {
				l.held[i] = max(0, l.held[i]+off)
			}
			return l
		})
	}
}

// spreadWorth tries measured Ks at the end of their spread.
func (p *Part) spreadWorth(bends []int, who string, try func(about, when string, change func(*Spec) *lore)) {
	if !slices.ContainsFunc(bends, func(i int) bool { return p.Bends[i].KSpread > 0 }) {
		return
	}
	end := func(b *Bend) float64 { return min(b.K+b.KSpread, MaxK) }
	try("spread", p.otherK(bends, end, ", the end of your test bends' spread,")+who, func(s *Spec) *lore {
		l := p.holding(s.lore(), bends)
		l.spreads = 1
		return l
	})
}

// sourceWorth tries the test bends and the rules that K does not come from.
func (p *Part) sourceWorth(bends []int, who string, try func(about, when string, change func(*Spec) *lore)) {
	b := &p.Bends[bends[0]]
	own := ""
	switch b.KBy {
	case "part":
		own = "K " + bare(b.K)
	case "rule":
		own = b.Rule
		if r, ok := metal.RuleByName(b.Rule); ok {
			own = r.Name
		}
	case "metal":
		own = "your metal's K"
	}
	l := p.Spec.lore()
	var reached []int
	for _, i := range bends {
		if _, ok, _ := l.tested(p.Bends[i].Radius, p.Thickness); ok {
			reached = append(reached, i)
		}
	}
	if len(reached) > 0 {
		try("tests", "your test bends instead of "+own+p.someBends(reached), func(s *Spec) *lore {
			s.Sheet.K, s.Sheet.KFrom, s.Sheet.Rule = nil, "", ""
			return p.holding(s.lore(), reached)
		})
	}
	for _, r := range metal.Rules {
		if r.ID == b.Rule || slices.ContainsFunc(bends, func(i int) bool {
			_, err := l.ruled(r.ID, p.Bends[i].Radius, p.Thickness)
			return err != nil
		}) {
			continue
		}
		try("rule", fmt.Sprintf("%s instead of %s", r.Name, own)+who, func(s *Spec) *lore {
			s.Sheet.K, s.Sheet.KFrom, s.Sheet.Rule = nil, "", r.ID
			return p.holding(s.lore(), bends)
		})
	}
}

// otherK words another K than those of bends: "K 0.5 instead of 0.45", "K 0.48 to 0.5 instead of 0.43 to 0.45"; as says what
// the other is.
func (p *Part) otherK(bends []int, other func(*Bend) float64, as string) string {
	span := func(k func(*Bend) float64) string {
		lo, hi := math.Inf(1), math.Inf(-1)
		for _, i := range bends {
			x := k(&p.Bends[i])
			lo, hi = min(lo, x), max(hi, x)
		}
		if bare(lo) == bare(hi) {
			return bare(lo)
		}
		return bare(lo) + " to " + bare(hi)
	}
	return "K " + span(other) + as + " instead of " + span(func(b *Bend) float64 { return b.K })
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
	q := &PriceReport{Currency: c.Currency, Known: true}
	var how []string
	k := p.Spec.Units.Scale()
	whole := [2]float64{c.Sheet[0] * k, c.Sheet[1] * k}
	switch {
	case c.PerKg > 0 && r.Blank.Rectangle == nil:
		q.Known = false
		how = append(how, "the weight is not known, so there is no price by the kg")
	case c.PerKg > 0:
		q.Metal = *r.Blank.Rectangle * c.PerKg
		how = append(how, fmt.Sprintf("%.3g kg, the rectangle the blank is cut from, at %s a kg", *r.Blank.Rectangle, money(c.PerKg)))
		if c.PerSheet > 0 {
			how = append(how, "the price of a sheet is not used beside it")
		}
	case c.PerSheet > 0 && whole[0]*whole[1] > 0:
		share := r.Blank.Width * r.Blank.Height / (whole[0] * whole[1])
		q.Metal = share * c.PerSheet
		how = append(how, fmt.Sprintf("%.3g of a sheet at %s", share, money(c.PerSheet)))
		long, short := max(r.Blank.Width, r.Blank.Height), min(r.Blank.Width, r.Blank.Height)
		if long > max(whole[0], whole[1])+Weld || short > min(whole[0], whole[1])+Weld {
			how = append(how, fmt.Sprintf("but the blank does not fit a sheet of %s by %s", figure(whole[0]), figure(whole[1])))
		}
	case c.PerSheet > 0:
		q.Metal = c.PerSheet
		how = append(how, "one sheet at "+money(c.PerSheet))
	}
	if c.PerHour > 0 && c.Hours > 0 {
		q.Work = c.PerHour * c.Hours
		how = append(how, fmt.Sprintf("%s h at %s an hour", bare(c.Hours), money(c.PerHour)))
	} else if c.PerHour > 0 || c.Hours > 0 {
		how = append(how, "work wants both the hours and the price of one")
	}
	if len(how) == 0 {
		return
	}
	q.Total = q.Metal + q.Work
	q.How = strings.Join(how, "; ")
	r.Price = q
}

func money(x float64) string { return fmt.Sprintf("%.2f", x) }
