package fold

// This file joins panels by their bends, names them, and hangs them on the base.

import (
	"fmt"
	"math"
	"slices"

	"dryfold/fold/geom"
)

// joinBends finds which panels each bend joins and sets its coordinates.
func (b *cutter) joinBends() {
	p := b.part
	a := b.arr
	sides := make([][2]map[int]float64, len(p.Bends)) // panel -> length along that tangent line
	bare := make([][2]float64, len(p.Bends))
	ears := make([][2]float64, len(p.Bends)) // length along which ears hang on a panel
	earAt := make([][2]geom.Vec2, len(p.Bends))
	touching := make([]map[int]bool, len(p.Bends)) // zones that lie against this one
	for i := range sides {
		sides[i] = [2]map[int]float64{{}, {}}
		touching[i] = map[int]bool{}
	}
	for h := range a.From {
		f, g := a.Face[h], a.Face[geom.Twin(h)]
		length := a.Points[a.To(h)].Sub(a.Points[a.From[h]]).Len()
		mid := a.Points[a.From[h]].Add(a.Points[a.To(h)]).Mul(0.5)
		if i := b.crease(h / 2); i >= 0 {
			if b.group[f] >= 0 {
				side := 0
				d := a.Points[a.To(h)].Sub(a.Points[a.From[h]])
				if d.Dot(b.zones[i].u) > 0 { // its left is the far side
					side = 1
				}
				sides[i][side][b.group[f]] += length
			}
			continue
		}
		i := b.owner[f]
		if i < 0 || !b.hasTangent(h/2, i) || b.chordAlong(h/2) >= 0 {
			continue
		}
		side := 0
		if _, t := b.zones[i].coord(mid); t > 0 {
			side = 1
		}
		if !b.core[f] {
			if b.group[g] >= 0 {
				ears[i][side] += length
				earAt[i][side] = mid
			}
			continue
		}
		if gi := b.group[g]; gi >= 0 {
			sides[i][side][gi] += length
		} else if o := b.owner[g]; o >= 0 && o != i {
			touching[i][o] = true
		}
	}
	for _, who := range b.crowd {
		for _, i := range who {
			for _, o := range who {
				touching[i][o] = touching[i][o] || o != i
			}
		}
	}
	for i := range p.Bends {
		bend := &p.Bends[i]
		z := &b.zones[i]
		if len(z.runs) == 0 {
			continue
		}
		for _, r := range z.runs {
			bend.Length += r[1] - r[0]
		}
		bend.Line = [2]geom.Vec2{z.at(z.runs[0][0], 0), z.at(z.runs[len(z.runs)-1][1], 0)}
		ends := [2]int{-1, -1}
		for side := range 2 {
			var who []int
			for k := range sides[i][side] {
				who = append(who, k)
			}
			slices.SortFunc(who, func(x, y int) int {
				if d := sides[i][side][y] - sides[i][side][x]; math.Abs(d) > Weld {
					return int(math.Copysign(1, d))
				}
				return x - y
			})
			bare[i][side] = bend.Length
			for _, k := range who {
				bare[i][side] -= sides[i][side][k]
			}
			if len(who) > 0 {
				ends[side] = who[0]
			}
			if len(who) > 1 {
				b.fatal = true
				p.trouble(Stop, "bend-splits", "bend", bend.Name, bend.Line[0], number(float64(len(who))), number(1), sentence(
					"%s joins %d separate panels on one side. Give each stretch its own bend; they can be made in one swing.", theBend(bend.Name), len(who)))
			}
		}
		bend.A, bend.B = ends[0], ends[1]
		if ends[0] < 0 || ends[1] < 0 {
			b.fatal = true
			var near, others []int // bends in the way; those of them not named yet
			far := 0.0
			for o := range p.Bends {
				if !touching[i][o] {
					continue
				}
				near = append(near, o)
				if key := [2]int{min(i, o), max(i, o)}; !b.crowded[key] {
					b.crowded[key] = true
					others = append(others, o)
					far = max(far, math.Abs(b.across(o, z.o)))
				}
			}
			if len(near) > 0 {
				if len(others) > 0 {
					b.sayCrowd(i, others, far)
				}
			} else {
				p.trouble(Stop, "bend-bare", "bend", bend.Name, bend.Line[0], number(0), nil, sentence(
					"%s has no metal on one side: its zone of %.2f mm reaches past the edge. Make the flange wider.", theBend(bend.Name), bend.Allowance))
			}
			continue
		}
		for side := range 2 {
			if z.half > 0 && bare[i][side] > max(bareLength, 1e-3*bend.Length) && b.fullyBare(i, side) > bareLength {
				p.trouble(Watch, "bend-bare", "bend", bend.Name, bend.Line[0], number(bare[i][side]), number(0), sentence(
					"%s has no metal along %.1f mm of one of its tangent lines; it may bend unevenly there.", theBend(bend.Name), bare[i][side]))
				break
			}
		}
		for side := range 2 {
			if over := ears[i][side]; over > longEar*bend.Allowance {
				p.trouble(Watch, "relief-short", "bend", bend.Name, earAt[i][side], number(over), number(0), sentence(
					"The zone of %s runs on for %.1f mm past the ends of its line, along an edge that it would tear or drag with it. Cut a relief at each end, at least %.1f mm past the line.",
					theBend(bend.Name), over, bend.Allowance/2))
				break
			}
		}
	}
}

// longEar: ears that hang on one panel for more than so many times the bend's allowance are
// no corner or slanting end any more, but an edge of the panel that should lie still.
const longEar = 3

// bareLength: a tangent line with less than this bare of metal is as good as full (mm).
const bareLength = 0.5

// fullyBare is how much of a side's tangent line, within the bend's runs less the zone's own
// reach at each end (where reliefs and mitres bite), has no metal.
func (b *cutter) fullyBare(i, side int) float64 {
	z := &b.zones[i]
	across := z.half
	if side == 0 {
		across = -z.half
	}
	have := newLineHits(b.chords).runs(z.at(0, across), z.u)
	total := 0.0
	for _, r := range z.runs {
		lo, hi := r[0]+2*z.half, r[1]-2*z.half
		if hi <= lo {
			continue
		}
		got := 0.0
		for _, h := range have {
			got += max(0, min(h[1], hi)-max(h[0], lo))
		}
		total += hi - lo - got
	}
	return total
}

// namePanels gives the panels the file's names, the rest "panel N" by area.
func (b *cutter) namePanels() {
	p := b.part
	for i, pn := range p.Spec.Panels {
		at := pn.At.Mul(b.k)
		hit := -1
		for k := range p.Panels {
			if p.Panels[k].Region.Contains(at) {
				hit = k
			}
		}
		switch {
		case hit < 0:
			p.trouble(Stop, "panel-name", "panel", pn.Name, at, nil, nil, sentence(
				"The point %s that names panel %s lies on no panel: it is in a bend zone, a hole or off the sheet. Give a point inside the panel.", p.spot(at), pn.Name))
		case p.Panels[hit].Name != "":
			p.trouble(Stop, "panel-name", "panel", pn.Name, at, nil, nil, fmt.Sprintf(
				"The names %s and %s point at one panel; is a bend between them missing?", p.Panels[hit].Name, pn.Name))
		default:
			p.Panels[hit].Name = p.Spec.Panels[i].Name
		}
	}
	order := make([]int, 0, len(p.Panels))
	for k := range p.Panels {
		order = append(order, k)
	}
	slices.SortFunc(order, func(x, y int) int { return b.byArea(x, y) })
	// Panels stand by area, largest first, named or not.
	back := make([]int, len(order))
	sorted := make([]Panel, len(order))
	for to, from := range order {
		back[from] = to
		sorted[to] = p.Panels[from]
	}
	p.Panels = sorted
	for i := range p.Bends {
		if p.Bends[i].A >= 0 {
			p.Bends[i].A = back[p.Bends[i].A]
		}
		if p.Bends[i].B >= 0 {
			p.Bends[i].B = back[p.Bends[i].B]
		}
	}
	for f, g := range b.group {
		if g >= 0 {
			b.group[f] = back[g]
		}
	}
	taken := map[string]bool{}
	for _, q := range p.Panels {
		taken[q.Name] = true
	}
	for k := range p.Panels {
		if p.Panels[k].Name == "" {
			name := fmt.Sprintf("panel %d", k+1)
			for n := len(p.Panels) + 1; taken[name]; n++ {
				name = fmt.Sprintf("panel %d", n)
			}
			taken[name] = true
			p.Panels[k].Name = name
		}
	}
}

// byArea sorts panels by area, largest first; ties by least x, then y.
func (b *cutter) byArea(x, y int) int {
	p, q := &b.part.Panels[x], &b.part.Panels[y]
	if d := q.Area - p.Area; math.Abs(d) > 1e-6*(p.Area+q.Area) {
		return int(math.Copysign(1, d))
	}
	bp, bq := geom.EmptyBox2(), geom.EmptyBox2()
	for _, v := range p.Region.Outer {
		bp.Add(v)
	}
	for _, v := range q.Region.Outer {
		bq.Add(v)
	}
	for k := range 2 {
		if d := bp.Min[k] - bq.Min[k]; math.Abs(d) > Weld {
			return int(math.Copysign(1, d))
		}
	}
	return x - y
}

// checkVoids names holes and slots that cross a bend.
func (b *cutter) checkVoids() {
	p := b.part
	for i := range p.Bends {
		z := &b.zones[i]
		if len(z.runs) == 0 || z.half == 0 {
			continue
		}
		first, last := z.runs[0][0], z.runs[len(z.runs)-1][1]
		n := 1 + len(p.Spec.Cutouts) + len(p.Spec.Holes)
		lo, hi := make([]float64, n), make([]float64, n)
		met, bite := make([]bool, n), make([]bool, n)
		for _, c := range b.chords {
			if c.contour == 0 {
				continue
			}
			s, t := z.coord(c.a)
			s2, t2 := z.coord(c.b)
			if !met[c.contour] {
				met[c.contour] = true
				lo[c.contour], hi[c.contour] = s, s
			}
			lo[c.contour], hi[c.contour] = min(lo[c.contour], s), max(hi[c.contour], s)
			if min(t, t2) < z.half-Weld && max(t, t2) > -z.half+Weld && max(s, s2) > first+Weld && min(s, s2) < last-Weld {
				bite[c.contour] = true
			}
		}
		for id := 1; id < n; id++ {
			if bite[id] && lo[id] > first+Weld && hi[id] < last-Weld {
				at := z.at((lo[id]+hi[id])/2, 0)
				p.trouble(Watch, "void-in-bend", "hole", p.voidName(id), at, nil, nil, sentence(
					"%s crosses the zone of %s and will pull out of shape. Keep it clear of the zone, or drill it after bending.", p.voidName(id), theBend(p.Bends[i].Name)))
			}
		}
	}
}

// tree hangs every panel on the base and turns each bend to face away from it.
func (b *cutter) tree() bool {
	p := b.part
	if len(p.Panels) == 0 {
		if !b.fatal {
			p.trouble(Stop, "bend-bare", "", "", p.Outline[0], nil, nil, "No flat panel is left between the bends.")
		}
		return false
	}
	p.Base = 0
	if p.Spec.Base != "" {
		p.Base = -1
		for k := range p.Panels {
			if p.Panels[k].Name == p.Spec.Base {
				p.Base = k
			}
		}
		if p.Base < 0 {
			p.Base = 0
			p.trouble(Stop, "base", "panel", p.Spec.Base, p.Outline[0], nil, nil, fmt.Sprintf(
				"No panel is called %s, which should lie still; the largest, %s, is taken.", p.Spec.Base, p.Panels[0].Name))
		}
	}
	if b.fatal {
		return false
	}
	at := make([][]int, len(p.Panels))
	for i := range p.Bends {
		at[p.Bends[i].A] = append(at[p.Bends[i].A], i)
		if p.Bends[i].A != p.Bends[i].B {
			at[p.Bends[i].B] = append(at[p.Bends[i].B], i)
		}
	}
	seen := make([]bool, len(p.Panels))
	used := make([]bool, len(p.Bends))
	seen[p.Base] = true
	p.order = []int{p.Base}
	ok := true
	for n := 0; n < len(p.order); n++ {
		k := p.order[n]
		for _, i := range at[k] {
			if used[i] {
				continue
			}
			used[i] = true
			bend := &p.Bends[i]
			if bend.B == k && bend.A != k {
				bend.A, bend.B = bend.B, bend.A
				b.place(i, true)
			} else {
				b.place(i, false)
			}
			if seen[bend.B] {
				ok = false
				p.trouble(Stop, "bend-loop", "bend", bend.Name, bend.Line[0], nil, nil, b.ringMessage(i))
				continue
			}
			seen[bend.B] = true
			p.Panels[bend.B].Parent = i
			p.order = append(p.order, bend.B)
		}
	}
	for k := range p.Panels {
		if !seen[k] {
			ok = false
			p.trouble(Stop, "loose-panel", "panel", p.Panels[k].Name, p.Panels[k].Label, nil, nil, sentence(
				"%s is joined to the rest by no bend; is a bend missing, or a cut too long?", thePanel(p.Panels[k].Name)))
		}
	}
	if ok {
		b.settleEdges()
	}
	return ok
}

// place sets bend i's coordinates: from A's tangent line towards B.
func (b *cutter) place(i int, flipped bool) {
	bend, z := &b.part.Bends[i], &b.zones[i]
	first := z.runs[0][0]
	bend.U, bend.N, bend.Q = z.u, z.n, z.at(first, -z.half)
	if flipped {
		last := z.runs[len(z.runs)-1][1]
		bend.U, bend.N, bend.Q = z.u.Mul(-1), z.n.Mul(-1), z.at(last, z.half)
	}
}

// ringMessage names the bends of the ring that bend i closes.
func (b *cutter) ringMessage(i int) string {
	p := b.part
	up := func(k int) []int {
		var path []int
		for p.Panels[k].Parent >= 0 {
			path = append(path, p.Panels[k].Parent)
			k = p.Bends[p.Panels[k].Parent].A
		}
		return path
	}
	x, y := up(p.Bends[i].A), up(p.Bends[i].B)
	for len(x) > 0 && len(y) > 0 && x[len(x)-1] == y[len(y)-1] {
		x, y = x[:len(x)-1], y[:len(y)-1]
	}
	names := []string{p.Bends[i].Name}
	for _, j := range append(x, y...) {
		names = append(names, p.Bends[j].Name)
	}
	if len(names) == 1 {
		return sentence("%s has the same panel on both sides, so the sheet can't fold there; take the cut right through to the edge.", theBend(names[0]))
	}
	return sentence("%s close a ring, so the sheet can't fold without tearing. Cut one of them through.", theBends(names))
}

// settleEdges frees edges against a zone that does not belong to the panel: the
// metal has to part there.
func (b *cutter) settleEdges() {
	p := b.part
	for k := range p.Panels {
		for _, es := range p.Panels[k].Edges {
			for i := range es {
				if j := es[i].Bend; j >= 0 && p.Bends[j].A != k && p.Bends[j].B != k {
					es[i] = Edge{Bend: -1, Contour: -1}
				}
			}
		}
	}
}

// makeSwings lays out the order: listed steps, then the other bends in file order.
// Steps that name nothing, or go past a bend's angle, are the reader's matter and are left out.
func (p *Part) makeSwings() []Swing {
	byName := map[string]int{}
	for i := range p.Bends {
		byName[p.Bends[i].Name] = i
	}
	now := p.Flat()
	done := make([]bool, len(p.Bends))
	var out []Swing
	add := func(bends []int, to []geom.Angle) {
		if len(bends) == 0 {
			return
		}
		sw := Swing{Number: len(out) + 1, Bends: bends}
		var way, back geom.Angle
		for k, i := range bends {
			set := to[k]
			if set == p.Bends[i].Angle {
				set = p.Bends[i].Set
			}
			sw.From = append(sw.From, now[i])
			sw.To = append(sw.To, to[k])
			sw.Set = append(sw.Set, set)
			way, back = max(way, set-now[i]), max(back, set-to[k])
			now[i] = to[k]
			done[i] = done[i] || to[k] == p.Bends[i].Angle
		}
		sw.Out = 1
		if back > 0 {
			sw.Out = float64(way / (way + back))
		}
		out = append(out, sw)
	}
	for _, st := range p.Spec.Order {
		var bends []int
		var to []geom.Angle
		for _, name := range st.Bends {
			i, ok := byName[name]
			if !ok || done[i] || slices.Contains(bends, i) {
				continue
			}
			t := p.Bends[i].Angle
			if st.To != nil && geom.Degrees(*st.To) < t {
				t = geom.Degrees(*st.To)
			}
			bends = append(bends, i)
			to = append(to, t)
		}
		add(bends, to)
	}
	for i := range p.Bends {
		if now[i] == 0 && !done[i] {
			add([]int{i}, []geom.Angle{p.Bends[i].Angle})
		}
	}
	return out
}
