package paper

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"dryfold/fold"
	"dryfold/fold/draft"
	"dryfold/fold/geom"
)

// dim is one running dimension: a distance from a datum edge and what lies there.
type dim struct {
	value  float64  // printed units
	text   string   // as printed, with the names of bends and holes that lie there
	wide   float64  // the text's width on paper
	strong bool     // a bend line lies there
	at     float64  // mm from the datum
	reach  float64  // mm from the other datum to the nearest thing there
	far    float64  // and to the farthest
	names  []string // bends by card number, holes by theirs
}

// dims are the running dimensions along an axis: 0 from A, 1 from B, rising,
// equal ones joined. apart says of which bends all four lines are drawn; of the others only the mark is.
func (m *marks) dims(axis int, cards []string, apart []bool) []dim {
	found := map[float64]*dim{}
	add := func(p geom.Vec2, name string, strong bool) {
		v := p[axis]
		d := found[v]
		if d == nil {
			d = &dim{value: v, at: v * m.units.Scale(), reach: p[1-axis] * m.units.Scale()}
			found[v] = d
		}
		d.reach = min(d.reach, p[1-axis]*m.units.Scale())
		d.far = max(d.far, p[1-axis]*m.units.Scale())
		d.strong = d.strong || strong
		if name != "" && !slices.Contains(d.names, name) {
			d.names = append(d.names, name)
		}
	}
	for _, c := range m.contours {
		for _, k := range c {
			add(k.at, "", false)
		}
	}
	for _, b := range m.bends {
		for k, l := range b.lines {
			if k != sightLine && !apart[b.index] {
				continue
			}
			name, strong := "", k == sightLine
			if strong {
				name = cards[b.index]
			}
			switch {
			case l.along == axis: // the one figure that draws it
				add(l.ends[0], name, strong)
				add(l.ends[1], name, strong)
			case l.along < 0 && (k == sightLine || k == bendLine):
				add(l.ends[0], name, strong)
				add(l.ends[1], name, strong)
			}
		}
	}
	for i, h := range m.holes {
		add(h.at, fmt.Sprintf("H%d", i+1), false)
	}
	add(geom.Vec2{}, "", false)
	add(geom.Vec2{m.width, m.height}, "", false)
	out := make([]dim, 0, len(found))
	for _, d := range found {
		d.text = m.say(d.value)
		slices.SortFunc(d.names, byNumber)
		if n := len(d.names); n > 2 && draft.Width(strings.Join(d.names, " "), 2.9) > maxDimNames {
			d.text = d.names[0] + "…" + d.names[n-1] + " – " + d.text
		} else if n > 0 {
			d.text = strings.Join(d.names, " ") + " – " + d.text
		}
		d.wide = draft.Width(d.text, 2.9)
		out = append(out, *d)
	}
	geom.SortStable(out, func(a, b dim) int { return cmp.Compare(a.value, b.value) })
	return out
}

// cardNumbers are each bend's swings as the job cards number them: "4", or "2+5"
// for a bend made in two goes.
func cardNumbers(p *fold.Part) []string {
	out := make([]string, len(p.Bends))
	for _, s := range p.Swings {
		for _, b := range s.Bends {
			if out[b] != "" {
				out[b] += "+"
			}
			out[b] += fmt.Sprint(s.Number)
		}
	}
	return out
}

// byNumber sorts card numbers as numbers, holes after bends.
func byNumber(a, b string) int {
	if h := strings.HasPrefix(a, "H"); h != strings.HasPrefix(b, "H") {
		if h {
			return 1
		}
		return -1
	}
	if len(a) != len(b) && !strings.Contains(a+b, "+") {
		return len(a) - len(b)
	}
	return strings.Compare(a, b)
}

// A row of running dimensions stands at the left, below or above the drawing.
type side int

const (
	left side = iota
	below
	above
)

// row is the dimensions that stand on a side: those from A stand below, or, in a
// split frame, each on the side nearer to what it measures.
func (sh *sheet) row(w side, f frame) []dim {
	if w == left {
		return sh.shown(1, f.scale)
	}
	if !f.split {
		if w == above {
			return nil
		}
		return sh.shown(0, f.scale)
	}
	// What lies as near to the one side as to the other goes to either in turn.
	var out []dim
	high := sh.part.Blank.Box.Size()[1]
	turn := below
	for _, d := range sh.shown(0, f.scale) {
		to := below
		switch nearer := d.reach - (high - d.far); {
		case d.value == 0:
		case nearer > high/100:
			to = above
		case nearer > -high/100:
			to = turn
			turn = below + above - turn
		}
		if to == w {
			out = append(out, d)
		}
	}
	return out
}

// sideKey says of what spreadDims depend on.
type sideKey struct {
	side   side
	scale  float64
	turned bool
	split  bool
}

// sideDims are the dimensions of a side, and where their labels stand, in mm on paper from the datum.
type sideDims struct {
	dims []dim
	at   []float64
}

// spreadDims are the dimensions of a side, and where their labels stand, in mm
// on paper from the datum.
func (sh *sheet) spreadDims(w side, f frame) ([]dim, []float64) {
	key := sideKey{w, f.scale, f.turned, f.split}
	if x, known := sh.sides[key]; known {
		return x.dims, x.at
	}
	ds := sh.row(w, f)
	at, size := make([]float64, len(ds)), make([]float64, len(ds))
	for i, d := range ds {
		at[i], size[i] = d.at*f.scale, dimPitch
		if w != left && !f.turned {
			size[i] = d.wide + 1.5
		}
	}
	least := math.Inf(-1)
	if w != left {
		least = -4 // clear of those at the left
	}
	at = spread(at, size, least)
	sh.sides[key] = sideDims{ds, at}
	return ds, at
}

// dimInk are the running dimensions' leaders and their labels' middles, as lines.
func (sh *sheet) dimInk(f frame) (out []ink) {
	rows, at := sh.spreadDims(left, f)
	for i, d := range rows {
		tip, turn := f.at(geom.Vec2{0, d.at}).Sub(geom.Vec2{3.5, 0}), geom.Vec2{f.origin[0] - dimLeader + 1.6, f.origin[1] - at[i]}
		out = append(out, ink{tip.Add(geom.Vec2{3.5, 0}), tip, -1}, ink{tip, turn, -1}, ink{turn, turn.Sub(geom.Vec2{d.wide, 0}), -1})
	}
	for _, w := range []side{below, above} {
		edge, way := f.origin[1], 1.0
		if w == above {
			edge, way = f.at(geom.Vec2{0, sh.part.Blank.Box.Size()[1]})[1], -1
		}
		rows, at := sh.spreadDims(w, f)
		for i, d := range rows {
			tip, turn := geom.Vec2{f.origin[0] + d.at*f.scale, edge + 3.5*way}, geom.Vec2{f.origin[0] + at[i], edge + (dimLeader-1.6)*way}
			out = append(out, ink{geom.Vec2{tip[0], edge}, tip, -1}, ink{tip, turn, -1})
			if f.turned {
				out = append(out, ink{turn, turn.Add(geom.Vec2{0, d.wide * way}), -1})
			}
		}
	}
	return out
}

// overhang is how far the labels of a side reach before the datum and past the
// blank's end.
func (sh *sheet) overhang(w side, f frame) (before, past float64) {
	ds, at := sh.spreadDims(w, f)
	end := sh.part.Blank.Box.Size()[0] * f.scale
	if w == left {
		end = sh.part.Blank.Box.Size()[1] * f.scale
	}
	for i, d := range ds {
		half := dimPitch / 2
		if w != left && !f.turned {
			half = d.wide/2 + 0.5
		}
		before, past = max(before, half-at[i]), max(past, at[i]+half-end)
	}
	return before, past
}

// gutters are the room that the dimensions take on each side, from the blank's
// box outwards.
func (sh *sheet) gutters(f frame) (leftward, down, up float64) {
	ds, _ := sh.spreadDims(left, f)
	for _, d := range ds {
		leftward = max(leftward, d.wide)
	}
	leftward += dimLeader + 1
	wide := func(w side) float64 {
		ds, _ := sh.spreadDims(w, f)
		if len(ds) == 0 {
			return 0
		}
		if !f.turned {
			return dimLeader + 4
		}
		t := 0.0
		for _, d := range ds {
			t = max(t, d.wide)
		}
		return dimLeader + t + 1
	}
	return leftward, wide(below), wide(above)
}
