package fold

// This file finds which pairs of solids may meet in a swing, so that a part of many bends
// doesn't take all pairs one by one: sweeps.go puts boxes round what each solid goes through.

import (
	"cmp"

	"dryfold/fold/geom"
	"dryfold/fold/solid"
)

// candidate is a pair of solids that may meet after the fraction from of the swing, and surely not
// before.
type candidate struct {
	a, b Body // panels first, by index
	from float64
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

// last is the last bend of a panel's route, or -1.
func (c *course) last(panel int) int {
	if r := c.routes[panel]; len(r) > 0 {
		return r[len(r)-1]
	}
	return -1
}

// turning reports that a solid is the zone of a bend that turns.
func (c *course) turning(b Body) bool { return b.Zone && c.place[b.Index] >= 0 }

// candidates lists the pairs of solids that have a turning bend between them and may come within reach of each
// other in the swing whose start v is; a reach under nothing asks for an overlap. all is false where there are too
// many to list.
func (v *view) candidates(reach float64) (out []candidate, all bool) {
	moving, still := v.sweeps()
	add := func(x, y *sweep) {
		from, ok := x.meets(y, reach)
		if !ok {
			return
		}
		a, b := x.body, y.body
		if bodyOrder(b, a) < 0 {
			a, b = b, a
		}
		v.work++
		out = append(out, candidate{a, b, from})
	}
	// Far fewer move than lie still, or turn about more than one bend.
	for i := range moving {
		if v.spent() {
			return out, false
		}
		x := &moving[i]
		for j := i + 1; j < len(moving); j++ {
			if y := &moving[j]; x.last != y.last || x.turns || y.turns {
				add(x, y)
			}
		}
	}
	rows := newRows(still, reach)
	for i := range moving {
		if v.spent() {
			return out, false
		}
		rows.along(&moving[i], func(k int) { add(&moving[i], &still[k]) })
		v.work += len(still) / boxWork
	}
	geom.SortStable(out, func(x, y candidate) int { return cmp.Or(bodyOrder(x.a, y.a), bodyOrder(x.b, y.b)) })
	return out, true
}

// rows are solids that lie still, in rows across the longest extent of them all, so that one that moves is
// held only against those whose rows it goes through.
type rows struct {
	axis  int
	lo, w float64 // the first row's start, and the rows' width
	of    [][]int // the solids in each row
	seen  []int   // by solid: the last that asked for it
	asked int
	reach float64
}

// perRow is about how many solids lie in a row.
const perRow = 4

func newRows(still []sweep, reach float64) *rows {
	r := &rows{seen: make([]int, len(still)), reach: reach}
	box := geom.EmptyBox3()
	for i := range still {
		box.Add(still[i].all.Min)
		box.Add(still[i].all.Max)
	}
	n := len(still)/perRow + 1
	if len(still) > 0 {
		size := box.Size()
		for k := range size {
			if size[k] > size[r.axis] {
				r.axis = k
			}
		}
		r.lo, r.w = box.Min[r.axis], size[r.axis]/float64(n)
	}
	r.of = make([][]int, n)
	for i := range still {
		from, to := r.span(&still[i].all, 0)
		for k := from; k <= to; k++ {
			r.of[k] = append(r.of[k], i)
		}
	}
	return r
}

// span is the rows that a box lies in.
func (r *rows) span(b *geom.Box3, reach float64) (from, to int) {
	if !(r.w > 0) {
		return 0, 0
	}
	row := func(x float64) int {
		return int(max(0, min(float64(len(r.of)-1), (x-r.lo)/r.w)))
	}
	return row(b.Min[r.axis] - reach), row(b.Max[r.axis] + reach)
}

// along calls visit once for each solid in the rows that x goes through.
func (r *rows) along(x *sweep, visit func(k int)) {
	r.asked++
	from, to := r.span(&x.all, max(0, r.reach))
	for k := from; k <= to; k++ {
		for _, i := range r.of[k] {
			if r.seen[i] != r.asked {
				r.seen[i] = r.asked
				visit(i)
			}
		}
	}
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

// near reports whether two boxes come within reach of each other along all axes.
func near(a, b *geom.Box3, reach float64) bool {
	for k := range 3 {
		if a.Min[k] > b.Max[k]+reach || b.Min[k] > a.Max[k]+reach {
			return false
		}
	}
	return true
}
