package ascut

// This file finds how far a blank may lean.

import (
	"fmt"
	"math"

	"dryfold/fold"
)

// leanLimit is how far a blank may lean one way.
type leanLimit struct {
	limit // mm is x for a mm of y; set where there is one
}

// leanOf is the least lean, to the right (way 1) or left (-1), at which a seam reaches its limit.
func (m *movable) leanOf(way float64) limit {
	k := 0
	if way > 0 {
		k = 1
	}
	if m.leans[k] == nil {
		m.leans[k] = m.findLean(way)
	}
	return m.leans[k].limit
}

func (m *movable) findLean(way float64) *leanLimit {
	none := &leanLimit{}
	height := max(m.box.Size()[1], m.box.Size()[0], 1)
	most := seamLook / height
	bare := *m.blank // a hole changes no seam that does not run through it
	bare.spec.Holes = nil
	at := func(lean float64, only string) map[string]gaps {
		p := fold.Build(bare.leaning(way * lean))
		if !p.Foldable {
			return nil
		}
		out := map[string]gaps{}
		seams, _ := p.FindSeams()
		ps := p.Pose(p.Finished())
		for _, s := range seams {
			if only != "" && s.Name != only {
				continue
			}
			if least, largest, ok := ps.SeamRange(s); ok {
				out[s.Name] = gaps{least, largest}
			}
		}
		return out
	}
	// over is by how much a seam is past its limit, by sides.
	type side struct {
		seam int
		wide bool
	}
	over := func(s side, min, max float64) (float64, bool) {
		x := &m.seams[s.seam]
		if !s.wide {
			return -min, x.min >= 0
		}
		limit, _, _, ok := m.widest(x.rep)
		return max - limit, ok && x.max <= limit
	}
	first := at(most/4, "")
	if first == nil {
		return none
	}
	var worst side
	least, found := math.Inf(1), false
	for i := range m.seams {
		x := &m.seams[i]
		g, ok := first[x.rep.Name]
		if !ok {
			continue
		}
		for _, wide := range []bool{false, true} {
			s := side{i, wide}
			a, ok := over(s, x.min, x.max)
			if !ok {
				continue
			}
			b, _ := over(s, g.least, g.largest)
			if b-a <= dead {
				continue
			}
			if v := most / 4 * -a / (b - a); v < least {
				least, worst, found = v, s, true
			}
		}
	}
	if !found || least > most {
		return none
	}
	x := &m.seams[worst.seam]
	// Straight from here on, or nearly: once more at what was found, and inward by what it is out there.
	a, _ := over(worst, x.min, x.max)
	for range 3 {
		g, ok := at(least, x.rep.Name)[x.rep.Name]
		if !ok {
			return none
		}
		b, _ := over(worst, g.least, g.largest)
		if b <= 0 && b > -leanNear {
			break
		}
		if b-a <= 0 {
			return none
		}
		least *= (-a - leanNear/2) / (b - a)
		if least <= 0 {
			least = 0
			break
		}
	}
	l := &leanLimit{limit{mm: least, set: true}}
	if worst.wide {
		limit, kind, from, _ := m.widest(x.rep)
		l.kind, l.from, l.source = kind, fmt.Sprintf("not square, %s opens to %.2f mm", x.rep.Name, limit), from
	} else {
		l.kind, l.from = "the seam", "not square, "+x.rep.Name+" touches"
	}
	return l
}
