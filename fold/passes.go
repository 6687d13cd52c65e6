package fold

// This file finds how close solids pass each other in a swing without a clash: the room that is surely left.

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"dryfold/fold/geom"
)

// Pass is a pair of solids that pass each other in a swing, nearer than RoomLook.
type Pass struct {
	Swing int // index into Part.Swings
	A, B  Body
	// Room is surely left between them anywhere in the swing (mm): proved by the directions across which they stay that far apart,
	// as the search for clashes is. RoomStep more is not left, where Sure.
	Room float64
	// Sure is false where the search was given up: there may be more room.
	Sure bool
	// Fraction of the swing, about where they are that near, and their nearest points there, base lying still.
	Fraction float64
	At       [2]geom.Vec3
}

// Passes lists the close passes of every swing, nearest first. Left out are pairs that clash in it, and those that are meant to
// lie close: panels joined by a bend or meeting in a seam, the zones of their bends, and panels that end up lying flat on
// each other; and where roomWork is done or a swing has maxPasses, the pairs not looked at yet. clashes are the part's. The Part
// must be Foldable.
func (p *Part) Passes(clashes []Clash) []Pass {
	return newShapes(p).passes(clashes)
}

func (s *shapes) passes(clashes []Clash) []Pass {
	p := s.part
	meant := map[[2]int]bool{}
	for i := range p.Bends {
		meant[[2]int{p.Bends[i].A, p.Bends[i].B}] = true
	}
	for _, m := range p.foundSeams() {
		meant[[2]int{m.A, m.B}] = true
	}
	clashing := map[[3]any]bool{}
	for _, c := range clashes {
		clashing[[3]any{c.Swing, c.A, c.B}], clashing[[3]any{c.Swing, c.B, c.A}] = true, true
	}
	end := s.still(p.Pose(p.Finished())).at(0)
	var out []Pass
	limit := s.work + roomWork
	for i := range p.Swings {
		var found []Pass
		begin := s.course(i, false).at(0)
		for _, back := range []bool{false, true} {
			if back && p.Swings[i].Out == 1 {
				break
			}
			c := s.course(i, back)
			c.limit = limit
			if len(c.bends) == 0 {
				continue
			}
			start := c.at(0)
			pairs, _ := start.candidates(RoomLook)
			for _, q := range pairs {
				if clashing[[3]any{i, q.a, q.b}] || p.meantClose(meant, q.a, q.b) || end.lapped(q.a, q.b) {
					continue
				}
				if len(found) >= maxPasses || c.spent() {
					break
				}
				y := s.pair(q.a, q.b)
				if q.from == 0 && begin.deep(y) {
					continue // an earlier swing's
				}
				if x, ok := start.pass(y, q.from); ok {
					x.Swing, x.Fraction = i, p.Swings[i].part(x.Fraction, back)
					found = append(found, x)
				}
			}
		}
		geom.SortStable(found, func(a, b Pass) int {
			return cmp.Or(cmp.Compare(a.Room, b.Room), bodyOrder(a.A, b.A), bodyOrder(a.B, b.B))
		})
		for k, x := range found { // a pair may pass on the leaf's way out and again on its way back
			if !slices.ContainsFunc(found[:k], func(y Pass) bool { return y.A == x.A && y.B == x.B }) {
				out = append(out, x)
			}
		}
	}
	return out
}

// meantClose reports whether two solids lie close by design: one panel of the one is one of the other's, or meets it in a bend or a seam.
func (p *Part) meantClose(meant map[[2]int]bool, a, b Body) bool {
	owners := func(x Body) []int {
		if x.Zone {
			return []int{p.Bends[x.Index].A, p.Bends[x.Index].B}
		}
		return []int{x.Index}
	}
	for _, i := range owners(a) {
		for _, j := range owners(b) {
			if i == j || meant[[2]int{i, j}] || meant[[2]int{j, i}] {
				return true
			}
		}
	}
	return false
}

// lapped reports whether two panels lie flat on each other: their faces parallel, less than a sheet's thickness between them.
func (v *view) lapped(a, b Body) bool {
	if a.Zone || b.Zone || math.Abs(v.frame(a.Index).Z.Dot(v.frame(b.Index).Z)) < sameWay {
		return false
	}
	c, ok := v.apart(v.pair(a, b), v.part.Thickness)
	return ok && math.Abs(c.N.Dot(v.frame(a.Index).Z)) > sameWay
}

// pass finds the room between a pair that does not clash, by halves; ok is false where it is RoomLook or more.
func (v *view) pass(q pair, from float64) (Pass, bool) {
	out := Pass{A: q.a, B: q.b, Sure: true}
	lo, hi := 0.0, RoomLook
	for first := true; first || hi-lo > RoomStep; first = false {
		r := hi
		if !first {
			r = (lo + hi) / 2
		}
		at, clear, sure := v.within(q, from, r)
		switch {
		case clear && first:
			return out, false
		case clear:
			lo = r
		default:
			hi = r
			out.Fraction, out.Sure = at, sure
		}
	}
	out.Room = max(0, lo-roomSlack)
	if c, ok := v.at(out.Fraction).apart(q, math.Inf(1)); ok {
		out.At = [2]geom.Vec3{c.A, c.B}
	}
	return out, true
}

// within reports whether a pair stays at least room apart from a fraction of the swing on, and else where it first does not; sure is
// false where the search was given up there.
func (v *view) within(q pair, from, room float64) (at float64, clear, sure bool) {
	var dirs []geom.Vec3
	here := v
	if from > 0 {
		here = v.at(from)
	}
	for range roomSteps {
		s := here.step(q, &dirs, -room, roomSlack-room)
		if s.Hit {
			return here.f, false, true
		}
		f := here.f + s.Length
		if !(f < 1) {
			return 1, true, true
		}
		if f == here.f || v.spent() {
			break
		}
		here = v.at(f)
	}
	return here.f, false, false
}

// JudgePasses sets each swing's Room to the pass that errors of hand and machine come nearest to closing, errors saying what they may
// take of it, and adds a trouble where they may take all.
func (p *Part) JudgePasses(r *Report, errors func(Pass) float64) {
	worst := make([]*RoomReport, len(r.Swings))
	for _, x := range r.Passes {
		e := errors(x)
		k := &worst[x.Swing]
		if *k == nil || x.Room-e < (*k).Room-(*k).Errors-GapSolve { // of equal ones the first
			*k = &RoomReport{A: p.BodyName(x.A), B: p.BodyName(x.B), Room: x.Room, Errors: e, Angle: p.Swings[x.Swing].Leaf(0, x.Fraction).Degrees(), pass: x}
		}
	}
	r.Troubles = slices.DeleteFunc(r.Troubles, func(t TroubleReport) bool { return t.Rule == "close-pass" })
	for i, k := range worst {
		sw := &r.Swings[i]
		sw.Room = k
		if k == nil || k.Room >= k.Errors {
			continue
		}
		if sw.State == "ok" {
			sw.State = Watch.String()
		}
		b := &p.Bends[p.Swings[i].Bends[0]]
		r.addTrouble(Trouble{Watch, "close-pass", "bend", b.Name, b.Line[0], number(k.Room), number(k.Errors), fmt.Sprintf(
			"Swing %d, %s: %s passes %s at about %.0f degrees with %.1f mm of room, and errors of hand and machine may take %.1f mm. Hold the angles closer than that, or leave more room.",
			sw.Number, List(sw.Bends), p.placeName(k.pass.A), p.placeName(k.pass.B), k.Angle, k.Room, k.Errors)})
	}
}
