package ascut

// This file puts sizes in words.

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"dryfold/fold"
	"dryfold/fold/geom"
)

// side is the side of the drawing that a direction points to.
func side(d geom.Vec2) string {
	var out []string
	switch {
	case d[1] > 0.4:
		out = append(out, "upper")
	case d[1] < -0.4:
		out = append(out, "lower")
	}
	switch {
	case d[0] > 0.4:
		out = append(out, "right")
	case d[0] < -0.4:
		out = append(out, "left")
	}
	return strings.Join(out, " ")
}

// nameCuts names every cut by the panel that has most of it and the side of the drawing it looks to.
func (m *movable) nameCuts() {
	best := make([]float64, len(m.cuts))
	m.panels = make([]int, len(m.cuts))
	for c := range m.cuts {
		m.cuts[c].Name = side(m.cuts[c].Out) + " edge"
		m.panels[c] = -1
	}
	for k, loop := range m.bare {
		length := map[int]float64{}
		for i := range loop {
			if c := m.cutOf(k, i); c >= 0 {
				length[c] += loop[(i+1)%len(loop)].Sub(loop[i]).Len()
			}
		}
		for c, l := range length {
			if l > best[c]+onLine {
				best[c], m.panels[c] = l, k
				m.cuts[c].Name = side(m.cuts[c].Out) + " edge of " + m.part.Panels[k].Name
			}
		}
	}
}

// spotWords says what a rule is held to.
func (m *movable) spotWords(s spot, other geom.Vec2) string {
	switch s.kind {
	case atEdge:
		return m.cuts[s.index].Name
	case atHole, atVoid:
		return m.voidSpot(s)
	case atBend:
		return "end of bend line " + m.part.Bends[s.index].Name
	}
	n := len(m.at)
	panel, at := m.holds(s.at), s.at
	switch {
	case panel >= 0:
	case s.cut < 0:
		panel = m.panelOf(m.of[s.index], m.of[(s.index+1)%n])
	default:
		panel = m.panels[s.cut]
	}
	if panel < 0 {
		return side(at.Sub(other)) + " corner"
	}
	box := geom.EmptyBox2()
	for _, p := range m.bare[panel] {
		box.Add(p)
	}
	from := at.Sub(box.Min.Add(box.Max).Mul(0.5))
	size := box.Size()
	return side(geom.Vec2{from[0] / max(size[0], fold.Weld), from[1] / max(size[1], fold.Weld)}.Normalize()) + " corner of " + m.part.Panels[panel].Name
}

// holds is the panel that has a corner at a place, -1 where none or several have.
func (m *movable) holds(at geom.Vec2) int {
	found := -1
	for k, loop := range m.bare {
		for _, p := range loop {
			if p.Sub(at).Len() <= onLine {
				if found >= 0 {
					return -1
				}
				found = k
				break
			}
		}
	}
	return found
}

// panelOf is the panel of two cuts that meet, that of the longer where they differ; -1 where there is none.
func (m *movable) panelOf(c, d int) int {
	if c < 0 || d < 0 {
		return -1
	}
	a, b := m.panels[c], m.panels[d]
	if a < 0 || b >= 0 && m.cuts[d].length() > m.cuts[c].length() {
		return b
	}
	return a
}

// what says in words what is measured.
func (m *movable) what(c *candidate) string {
	head := ""
	d := c.y.at.Sub(c.x.at).Normalize()
	switch {
	case c.use == forDiagonal:
		head = "diagonal"
	case c.opening:
		head = "mouth of the notch"
		if c.seam >= 0 {
			head += " at " + m.seams[c.seam].rep.Name
		}
	case math.Abs(d[1]) < 0.3:
		head = "across"
	case math.Abs(d[0]) < 0.3:
		head = "up"
	default:
		head = "slanting"
	}
	return fmt.Sprintf("%s: %s to %s", head, m.spotWords(c.x, c.y.at), m.spotWords(c.y, c.x.at))
}

// catches says what a size is there for.
func (h *chooser) catches(c *candidate, own bool) []string {
	var out []string
	if c.use == forVoid {
		return []string{h.voidName(c.y) + " in the wrong place"}
	}
	if c.use == forDiagonal {
		out = append(out, "a corner that was not square")
	}
	if d := h.deducted(c); c.use != forDiagonal && d > MirrorTold/2 {
		out = append(out, "a forgotten bend deduction")
	}
	if !own && h.tellsMirror(c) {
		out = append(out, "a mirror image")
	}
	var seams []string
	for i := range h.seams {
		for _, cut := range h.seams[i].cuts {
			if cut >= 0 && c.use != forDiagonal && c.covers(cut) && len(h.playOf(cut).does) > 0 {
				seams = append(seams, h.seams[i].rep.Name)
				break
			}
		}
	}
	switch {
	case len(seams) == 1:
		out = append(out, "the gap of "+seams[0])
	case len(seams) > 1:
		out = append(out, "the gaps of "+joined(seams))
	}
	return out
}

// does lists what a mm does to the seams, too little (way -1) or too much (1) of the size.
func (h *chooser) does(c *candidate, way float64) (out []Does) {
	if c.use == forDiagonal || c.use == forMirror || c.use == forVoid {
		return nil
	}
	for cut := range h.cuts {
		by := c.by[cut]
		if math.Abs(by) < tells {
			continue
		}
		for _, e := range h.playOf(cut).does {
			s := h.seams[e.seam].rep
			d := Does{s.Name, way*by < 0, e.missing / math.Abs(by)}
			if !d.Opens {
				d.By = e.extra / math.Abs(by)
			}
			if d.By < leastDoes || s.Open {
				continue
			}
			if i := slices.IndexFunc(out, func(o Does) bool { return o.Seam == d.Seam && o.Opens == d.Opens }); i >= 0 {
				out[i].By = max(out[i].By, d.By)
				continue
			}
			out = append(out, d)
		}
	}
	return out
}

// edges lists the edges that a size tells of, that at the right or above first.
func (h *chooser) edges(c *candidate) (out []string) {
	if c.use == forDiagonal || c.use == forMirror {
		return nil
	}
	for _, late := range []bool{false, true} {
		for cut := range h.cuts {
			o := h.cuts[cut].Out
			if c.covers(cut) && (o[0]+o[1] < 0 || h.datumEdge(cut)) == late {
				out = append(out, h.cuts[cut].Name)
			}
		}
	}
	return out
}

func joined(ns []string) string {
	if len(ns) < 2 {
		return strings.Join(ns, "")
	}
	return strings.Join(ns[:len(ns)-1], ", ") + " and " + ns[len(ns)-1]
}

// Length writes a length for the maker: mm to 0.1 (finer where a calliper is asked for), inches to 0.001 or the nearest 1/64.
func Length(mm float64, u fold.Units, step float64) string {
	if u == fold.Inch {
		if k := step / ruleInch; k > 0.9 && math.Abs(k-math.Round(k)) < 1e-9 { // 64ths, 32nds, 16ths
			n := int(math.Round(mm / ruleInch))
			if math.Abs(float64(n)*ruleInch-mm) < 1e-6 {
				return fraction(n)
			}
		}
		return fmt.Sprintf("%.3f", mm/25.4)
	}
	if step < calliperStep || math.Abs(step*10-math.Round(step*10)) > 1e-9 && step < 1 {
		return fmt.Sprintf("%.2f", mm)
	}
	return fmt.Sprintf("%.1f", mm)
}

// fraction writes n 64ths.
func fraction(n int) string {
	whole, part, of := n/64, n%64, 64
	for part > 0 && part%2 == 0 {
		part, of = part/2, of/2
	}
	switch {
	case part == 0:
		return fmt.Sprint(whole)
	case whole == 0:
		return fmt.Sprintf("%d/%d", part, of)
	}
	return fmt.Sprintf("%d %d/%d", whole, part, of)
}
