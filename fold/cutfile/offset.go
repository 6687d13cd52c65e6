package cutfile

// This file allows for the width of the cut: each contour is moved to its right, away from the material, by half
// of it. What lies at that distance is made of strands: every edge moved over, and an arc about every corner that stands
// out. Where strands cross, what comes nearer than the distance goes, and the rest is joined into one loop again.

import (
	"fmt"
	"math"
	"slices"

	"dryfold/fold/geom"
)

// strand is a piece at the distance, and the stretch of the contour that it is of: places count pieces, 2.5 is the middle
// of piece 2. An arc about a corner is of no stretch: from and to are the corner's place.
type strand struct {
	geom.Piece
	from, to float64
	corner   bool // about a corner
	bound    bool // it ends where the next begins
}

// allow moves every contour and hole for the cut's width. What closes up is an error that names the place, and the widest
// cut that works.
func (b *blank) allow(kerf float64) error {
	if kerf == 0 {
		return nil
	}
	d := kerf / 2
	var worst *Error
	least, more := kerf, -1
	refuse := func(widest float64, e *Error) {
		more++
		if worst == nil || widest < least {
			worst, least = e, widest
		}
	}
	for i, h := range b.holes {
		if r := h.Radius - d; r > join {
			b.holes[i].Radius = r
			continue
		}
		at := h.At
		refuse(2*h.Radius, &Error{At: &at, Words: fmt.Sprintf("Hole %d at %s, %.2f mm across, is no wider than the cut of %.2f mm.", i+1, b.spot(at), 2*h.Radius, kerf)})
	}
	for i := range b.contours {
		c := &b.contours[i]
		if len(c.ps) > maxOffset {
			return &Error{Field: "kerf", Words: fmt.Sprintf("Width of the cut: %s has %d edges, and it can be allowed for on up to %d. Give 0 and let the machine allow for it.", c.what, len(c.ps), maxOffset)}
		}
		work := offsetWork
		o := offset(c.ps, d, c.void, &work)
		if work < 0 {
			return &Error{Field: "kerf", Words: fmt.Sprintf("Width of the cut: %s has too many edges too close together for %.2f mm. Give 0 and let the machine allow for it.", c.what, kerf)}
		}
		if o.ok {
			c.ps = o.loop
			b.noteUncut(c.what, kerf, o.left)
			continue
		}
		lo, hi := 0.0, kerf
		at := o.at
		for hi-lo > kerfStep && work > 0 { // where work runs out, what is known to work is told
			m := (lo + hi) / 2
			tried := offset(c.ps, m/2, c.void, &work)
			switch {
			case work < 0:
			case tried.ok:
				lo = m
			default:
				hi, at = m, tried.at
			}
		}
		what := "A notch or slot of " + c.what
		if c.void {
			what = "A narrow place of " + c.what
		}
		words := fmt.Sprintf("%s at %s is narrower than the cut of %.2f mm, about %.2f mm.", what, b.spot(at), kerf, lo)
		switch {
		case work < 0:
			words = fmt.Sprintf("%s at %s is narrower than the cut of %.2f mm.", what, b.spot(at), kerf)
		case lo < kerfStep:
			words = fmt.Sprintf("%s at %s is narrower than any cut.", what, b.spot(at))
		}
		refuse(lo, &Error{At: &at, Words: words})
	}
	if worst == nil {
		return nil
	}
	worst.Field = "kerf"
	if more == 1 {
		worst.Words += " There is one more such place."
	} else if more > 1 {
		worst.Words += fmt.Sprintf(" There are %d more such places.", more)
	}
	if w := math.Floor(least*100) / 100; w >= least-join && w > 0.01 { // as wide as a hole is too wide
		least = w - 0.01
	}
	if w := math.Floor(least*100) / 100; w > 0 {
		worst.Words += fmt.Sprintf(" The widest cut that works is %.2f mm; else widen it, or leave it out and cut it by hand.", w)
	} else {
		worst.Words += " Widen it, or leave it out and cut it by hand."
	}
	return worst
}

// moved is what an offset came to.
type moved struct {
	ok   bool
	loop []geom.Piece
	left []uncut   // where the cut does not reach into a corner or notch
	at   geom.Vec2 // where it closes up, if not ok
}

// offset moves a closed chain to its right by d. It is ok if one loop comes of it that goes once along the whole
// contour, that loses no notch, and each of whose points lies at the distance and none nearer.
// Once work is under 0 it has given up.
func offset(ps []geom.Piece, d float64, void bool, work *int) moved {
	// What holds by a hair does not hold.
	if far := offsetAt(ps, d+exactly, void, work); !far.ok {
		return far
	}
	return offsetAt(ps, d, void, work)
}

func offsetAt(ps []geom.Piece, d float64, void bool, work *int) moved {
	o := &offsetter{ps: ps, d: d, void: void, work: work, near: newGrid(ps, d+2*exactly)}
	o.strands = strandsOf(ps, d)
	o.trimCorners()
	if o.cut() {
		if !o.chain() {
			return moved{at: o.at}
		}
	}
	if !o.judge() {
		return moved{at: o.at}
	}
	loop := make([]geom.Piece, len(o.strands))
	for i, s := range o.strands {
		loop[i] = s.Piece
	}
	return moved{ok: true, loop: loop, left: o.left}
}

type offsetter struct {
	ps      []geom.Piece
	d       float64
	void    bool
	near    *grid
	work    *int
	strands []strand
	left    []uncut
	at      geom.Vec2
}

// strandsOf are all pieces moved over, and the arcs about the corners that stand out, in order.
func strandsOf(ps []geom.Piece, d float64) []strand {
	n := len(ps)
	var out []strand
	over := func(p geom.Piece) (geom.Piece, bool) {
		q := geom.Piece{A: p.A.Add(right(p, 0).Mul(d)), B: p.B.Add(right(p, 1).Mul(d)), Turn: p.Turn}
		return q, 1+p.Curve()*d > 1e-9 && q.Chord() > join
	}
	for i, p := range ps {
		q, there := over(p)
		if there {
			out = append(out, strand{Piece: q, from: float64(i), to: float64(i + 1)})
		}
		next := ps[(i+1)%n]
		e, s := p.End(), next.Start()
		turn := math.Atan2(geom.Cross2(e, s), e.Dot(s))
		_, goesOn := over(next)
		switch {
		case turn > smooth:
			a := geom.Piece{A: p.B.Add(right(p, 1).Mul(d)), B: p.B.Add(right(next, 0).Mul(d)), Turn: turn}
			if there {
				out[len(out)-1].bound = true
			}
			out = append(out, strand{Piece: a, from: float64(i + 1), to: float64(i + 1), corner: true, bound: goesOn})
		case turn > -smooth && there && goesOn:
			out[len(out)-1].bound = true
		}
	}
	// Ends that all but meet are made one.
	for i := range out {
		if out[i].bound {
			j := (i + 1) % len(out)
			m := out[i].B.Add(out[j].A).Mul(0.5)
			out[i].Piece, out[j].Piece = ending(out[i].Piece, m), beginning(out[j].Piece, m)
		}
	}
	return out
}

// ending is the piece with another end near its own, on the same circle.
func ending(p geom.Piece, b geom.Vec2) geom.Piece {
	if p.Turn != 0 {
		_, f := p.Right(b)
		p.Turn *= f
	}
	p.B = b
	return p
}

// beginning is the piece with another beginning near its own.
func beginning(p geom.Piece, a geom.Vec2) geom.Piece { return ending(p.Reversed(), a).Reversed() }

// trimCorners takes neighbours at inside corners back to where they cross, where both are long enough.
func (o *offsetter) trimCorners() {
	n := len(o.strands)
	type trim struct {
		on   bool
		x    crossing
		next int
	}
	ends := make([]trim, n)
	for i, s := range o.strands {
		j := (i + 1) % n
		if s.bound || j == i {
			continue
		}
		for _, x := range crossings(s.Piece, o.strands[j].Piece) {
			if x.f > 0 && x.g < 1 && (!ends[i].on || x.f > ends[i].x.f) {
				ends[i] = trim{true, x, j}
			}
		}
	}
	for again := true; again; {
		again = false
		for i := range o.strands {
			prev := (i + n - 1) % n
			if ends[prev].on && ends[i].on && ends[prev].x.g > ends[i].x.f-join/o.strands[i].Len() {
				ends[prev].on, ends[i].on, again = false, false, true
			}
		}
	}
	old := slices.Clone(o.strands)
	for i := range o.strands {
		s := &o.strands[i]
		prev := (i + n - 1) % n
		from, to := 0.0, 1.0
		if ends[prev].on {
			from = ends[prev].x.g
		}
		if ends[i].on {
			to = ends[i].x.f
			s.bound = true
		}
		if from == 0 && to == 1 {
			continue
		}
		*s = old[i].part(from, to)
		if ends[prev].on {
			s.Piece.A = ends[prev].x.at
		}
		if ends[i].on {
			s.Piece.B = ends[i].x.at
			s.bound = true
		} else {
			s.bound = old[i].bound
		}
	}
}

// part is what lies between two fractions of a strand.
func (s strand) part(from, to float64) strand {
	out := s
	out.Piece = s.Piece.Part(from, to)
	out.from, out.to = s.from+(s.to-s.from)*from, s.from+(s.to-s.from)*to
	return out
}

// cut splits the strands where they cross, and reports whether there is anything to take out.
func (o *offsetter) cut() bool {
	n := len(o.strands)
	all := make([]geom.Piece, n)
	loose := false
	for i, s := range o.strands {
		all[i] = s.Piece
		loose = loose || !s.bound
	}
	splits := make([][]float64, n)
	crossed := false
	newGrid(all, join).pairs(o.work, func(i, j int) {
		for _, x := range crossings(all[i], all[j]) {
			if j == (i+1)%n && o.strands[i].bound && x.at.Sub(all[i].B).Len() < 10*join ||
				i == (j+1)%n && o.strands[j].bound && x.at.Sub(all[j].B).Len() < 10*join {
				continue
			}
			crossed = true
			splits[i] = append(splits[i], x.f)
			splits[j] = append(splits[j], x.g)
		}
	})
	if !loose && !crossed {
		return false
	}
	if *o.work < 0 {
		o.strands = nil
		return true
	}
	var out []strand
	for i, s := range o.strands {
		fs := append(splits[i], 0, 1)
		slices.Sort(fs)
		last, long := 0.0, s.Len()
		for _, f := range fs[1:] {
			if (f-last)*long < join {
				continue
			}
			q := s.part(last, f)
			q.bound = s.bound && f == 1
			last = f
			if o.distance(q.At(0.5), o.d-nearSlack) >= o.d-nearSlack {
				out = append(out, q)
			}
		}
	}
	o.strands = out
	return true
}

// distance is how far v lies from the contour; once it is under enough, that will do. Beyond the grid's reach it is infinite.
func (o *offsetter) distance(v geom.Vec2, enough float64) float64 {
	least := math.Inf(1)
	for _, i := range o.near.at(v) {
		if *o.work--; *o.work < 0 {
			return 0
		}
		b := &o.near.boxes[i]
		if v[0] < b.Min[0] || v[1] < b.Min[1] || v[0] > b.Max[0] || v[1] > b.Max[1] {
			continue
		}
		if least = min(least, o.ps[i].Distance(v)); least < enough {
			break
		}
	}
	return least
}

// chain joins the strands that are left into one loop; false where that can't be done.
func (o *offsetter) chain() bool {
	n := len(o.strands)
	if n == 0 {
		o.at = middle(o.ps)
		return false
	}
	// The strand that begins where one ends, by a net of cells that are wider than what counts as one place.
	const cell = 16 * join
	key := func(v geom.Vec2) [2]int64 {
		return [2]int64{int64(math.Floor(v[0] / cell)), int64(math.Floor(v[1] / cell))}
	}
	starts := map[[2]int64][]int{}
	for i, s := range o.strands {
		k := key(s.A)
		starts[k] = append(starts[k], i)
	}
	next := func(i int) int {
		k, best, by := key(o.strands[i].B), -1, 4*join
		for dx := int64(-1); dx <= 1; dx++ {
			for dy := int64(-1); dy <= 1; dy++ {
				for _, j := range starts[[2]int64{k[0] + dx, k[1] + dy}] {
					if d := o.strands[j].A.Sub(o.strands[i].B).Len(); d < by {
						best, by = j, d
					}
				}
			}
		}
		return best
	}
	used := make([]bool, n)
	var loops [][]int
	for i := range o.strands {
		if used[i] {
			continue
		}
		var loop []int
		for j := i; ; {
			if j < 0 || used[j] && j != i {
				o.at = o.strands[loop[len(loop)-1]].B
				return false
			}
			if used[j] {
				break
			}
			used[j] = true
			loop = append(loop, j)
			j = next(j)
		}
		loops = append(loops, loop)
	}
	// With more than one loop a neck has closed: it lies where the longest leaves something out.
	best, most := 0, -1.0
	for k, l := range loops {
		long := 0.0
		for _, i := range l {
			long += o.strands[i].Len()
		}
		if long > most {
			best, most = k, long
		}
	}
	var out []strand
	for _, i := range loops[best] {
		out = append(out, o.strands[i])
	}
	for i := range out {
		j := (i + 1) % len(out)
		if out[i].B != out[j].A {
			out[j].Piece = beginning(out[j].Piece, out[i].B)
		}
	}
	o.strands = out
	if len(loops) > 1 {
		o.judge()
		return false
	}
	return true
}

// middle is that of a chain's box.
func middle(ps []geom.Piece) geom.Vec2 {
	b := geom.EmptyBox2()
	for _, p := range ps {
		b.Add(p.A)
		b.Add(p.B)
	}
	return b.Min.Add(b.Max).Mul(0.5)
}
