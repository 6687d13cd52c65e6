package fold

// This file puts bends together that are alike, so that a report speaks of them once.

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// bendGroup is bends of one inside radius and of one kind, whatever the kind is of.
type bendGroup struct {
	radius float64
	kind   string
	bends  []int
}

// byRadius groups the bends by inside radius (within Weld) and kind, in the order of their first; one whose kind is not ok is
// left out.
func (p *Part) byRadius(kind func(i int) (what string, ok bool)) []bendGroup {
	var groups []bendGroup
	for i := range p.Bends {
		what, ok := kind(i)
		if !ok {
			continue
		}
		r := p.Bends[i].Radius
		k := slices.IndexFunc(groups, func(g bendGroup) bool { return math.Abs(g.radius-r) < Weld && g.kind == what })
		if k < 0 {
			k = len(groups)
			groups = append(groups, bendGroup{r, what, nil})
		}
		groups[k].bends = append(groups[k].bends, i)
	}
	return groups
}

// bySource groups the bends by what gave their K, whatever their radius.
func (p *Part) bySource() (groups [][]int) {
	for i := range p.Bends {
		b := &p.Bends[i]
		k := slices.IndexFunc(groups, func(g []int) bool { return p.Bends[g[0]].KBy == b.KBy && p.Bends[g[0]].Rule == b.Rule })
		if k < 0 {
			k = len(groups)
			groups = append(groups, nil)
		}
		groups[k] = append(groups[k], i)
	}
	return groups
}

// these names bends in a sentence.
func (p *Part) these(bends []int) string {
	if len(bends) == 1 {
		return theBend(p.Bends[bends[0]].Name)
	}
	var names []string
	for _, i := range bends {
		names = append(names, p.Bends[i].Name)
	}
	return theBends(names)
}

// someBends names the bends of a group, in brackets; "" for all that the part has.
func (p *Part) someBends(bends []int) string {
	if len(bends) == len(p.Bends) {
		return ""
	}
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
