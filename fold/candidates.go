package fold

// This file finds which pairs of solids may meet in a swing, so that a part of many bends
// doesn't take all pairs one by one.

import (
	"cmp"
	"slices"

	"dryfold/fold/geom"
	"dryfold/fold/solid"
)

// candidate is a pair of solids that may meet after the fraction from of the swing, and surely not
// before.
type candidate struct {
	a, b Body // panels first, by index
	from float64
}

// set is the solids that hang together while a swing is made.
type set struct {
	panel  int // any of them
	bodies []Body
	of     []Body      // whose box each piece of tree is
	tree   *solid.Body // boxes round them, in space as at the start
}

// boxes are boxes round solids, in space, and whose each is.
func (v *view) boxes(bodies []Body) (boxes []solid.Convex, of []Body) {
	for _, b := range bodies {
		var whole *solid.Body
		if !b.Zone {
			whole = v.panels[b.Index]
		}
		for _, g := range v.groups(b, whole) {
			if !g.Empty() {
				boxes = append(boxes, g.Box())
				of = append(of, b)
			}
		}
	}
	return boxes, of
}

// sets gathers the solids that hang together, but turning zones, by the last bend of their panels' routes; -1
// for those that lie still. The sets come in the order of their first panels.
func (v *view) sets(bodies []Body) (all []*set, by map[int]*set) {
	by = map[int]*set{}
	for _, b := range bodies {
		if v.turning(b) {
			continue
		}
		panel := v.part.carrier(b)
		last := v.last(panel)
		if by[last] == nil {
			by[last] = &set{panel: panel}
			all = append(all, by[last])
		}
		by[last].bodies = append(by[last].bodies, b)
	}
	for _, t := range all {
		var boxes []solid.Convex
		boxes, t.of = v.boxes(t.bodies)
		t.tree = solid.NewBody(boxes)
		v.work += boxWork * len(boxes)
	}
	return all, by
}

// last is the last bend of a panel's route, or -1.
func (c *course) last(panel int) int {
	if r := c.routes[panel]; len(r) > 0 {
		return r[len(r)-1]
	}
	return -1
}

// turning reports that a solid is the zone of a bend that turns.
func (c *course) turning(b Body) bool { return b.Zone && c.place[b.Index] >= 0 }

// candidates lists the pairs of solids that have a turning bend between them and may meet in
// the swing whose start v is. all is false where there are too many to list.
func (v *view) candidates() (out []candidate, all bool) {
	add := func(a, b Body, from float64) {
		if bodyOrder(b, a) < 0 {
			a, b = b, a
		}
		v.work++
		out = append(out, candidate{a, b, from})
	}
	var windows []*view
	for k := range meetWindows {
		windows = append(windows, v.at(float64(k)/meetWindows))
	}
	bodies := v.part.bodies()
	sets, by := v.sets(bodies)
	for i, x := range sets {
		for _, y := range sets[i+1:] {
			if v.spent() {
				return out, false
			}
			if m := v.between(x, y); len(m.Turns) == 1 {
				for _, w := range windows {
					m := w.between(x, y)
					solid.Meet(w.tree(v, x), w.tree(v, y), &m, ClashDepth, 1.0/meetWindows, func(k, l int) { add(x.of[k], y.of[l], w.f) })
				}
				continue
			}
			for _, a := range x.bodies {
				for _, b := range y.bodies {
					add(a, b, 0)
				}
			}
		}
	}
	for _, k := range v.bends {
		z := Body{true, k}
		near := v.aroundZone(k, by)
		for _, b := range bodies {
			switch {
			case v.turning(b):
				if b.Index > k {
					add(b, z, 0)
				}
			case near == nil || near[b]:
				add(b, z, 0)
			}
		}
	}
	geom.SortStable(out, func(x, y candidate) int {
		return cmp.Or(bodyOrder(x.a, y.a), bodyOrder(x.b, y.b), cmp.Compare(x.from, y.from))
	})
	return slices.CompactFunc(out, func(x, y candidate) bool { return x.a == y.a && x.b == y.b }), true
}

// between is how one set moves seen from another.
func (v *view) between(x, y *set) solid.Motion {
	return v.motion(group{panel: x.panel, zone: -1}, group{panel: y.panel, zone: -1})
}

// tree is a set's tree of boxes at this moment.
func (v *view) tree(start *view, t *set) *solid.Placed {
	back := solid.InFrame(start.frame(t.panel), geom.Identity())
	p := t.tree.Place(v.frame(t.panel).Compose(back))
	p.Work = &v.work
	return p
}

// aroundZone lists the solids that a turning zone can reach, where all others lie still against one of its
// panels; else nil. Seen from either panel the zone stays within its allowance
// and the thickness of the tangent line that they share.
func (v *view) aroundZone(bend int, by map[int]*set) map[Body]bool {
	if len(v.bends) > 1 {
		return nil
	}
	b := &v.part.Bends[bend]
	from, to := b.run()
	r := b.Allowance + 2*v.part.Thickness
	near := map[Body]bool{}
	for _, panel := range []int{b.A, b.B} {
		at := b.Q
		if panel == b.B {
			at = at.Add(b.N.Mul(b.Allowance))
		}
		c := func(u, s float64) geom.Vec2 { return at.Add(b.U.Mul(u)).Add(b.N.Mul(s)) }
		l := geom.Loop{c(from, -r), c(to, -r), c(to, r), c(from, r)}
		if l.Area() < 0 {
			l = l.Reversed()
		}
		box := solid.NewBody([]solid.Convex{solid.Prism(l, -r, r, v.frame(panel))}).Place(geom.Identity())
		t := by[v.last(panel)]
		solid.Overlaps(v.tree(v, t), box, 0, func(k, _ int, _ float64) { near[t.of[k]] = true })
	}
	return near
}

// run is how far a bend's zone reaches along its line.
func (b *Bend) run() (from, to float64) {
	for i, r := range b.Zone {
		for k, p := range r.Outer {
			u, _ := b.Coord(p)
			if i == 0 && k == 0 {
				from, to = u, u
			}
			from, to = min(from, u), max(to, u)
		}
	}
	return from, to
}

// bodyOrder sorts solids: panels, then zones, by index.
func bodyOrder(a, b Body) int {
	if a.Zone != b.Zone {
		if b.Zone {
			return -1
		}
		return 1
	}
	return cmp.Compare(a.Index, b.Index)
}
