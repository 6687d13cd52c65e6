package session

// This file holds how the seams are closed: for the whole part, and for a seam of its own.

import (
	"fmt"
	"slices"

	"dryfold/fold"
)

// joinNames are the ways to close a seam as the page names them, and processNames those to weld.
var (
	joinNames    = map[string]string{"weld": "weld", "rivet": "rivets", "spot": "spot welds", "sealant": "sealant", "open": "left open"}
	processNames = map[string]string{"short arc": "short arc", "spray arc": "spray arc", "tig": "TIG", "gas": "gas", "stick": "stick"}
)

// JoinWays are the ways to close a seam to choose from: what the part file says, and the page.
func JoinWays() [][2]string { return named(fold.JoinWays, joinNames) }

// WeldProcesses is JoinWays for the processes of a weld.
func WeldProcesses() [][2]string { return named(fold.WeldProcesses, processNames) }

func named(list []string, names map[string]string) (out [][2]string) {
	for _, id := range list {
		name := names[id]
		if name == "" {
			name = id
		}
		out = append(out, [2]string{id, Title(name)})
	}
	return out
}

// JoinWords say how a seam is closed within a sentence: "TIG weld", "rivets", "left open", "" where it is not said.
func JoinWords(way, process string) string {
	if way == "weld" && process != "" {
		return processNames[process] + " weld"
	}
	return joinNames[way]
}

// Join is how a seam is closed by what is said of it alone, or with own false of all seams. The name "" asks for all.
func (s *Session) Join(seam string) (j fold.JoinSpec, own bool) {
	for _, name := range []string{seam, ""} {
		if i := joinOf(s.spec.Joins, name); i >= 0 {
			return s.spec.Joins[i], name == seam
		}
	}
	return fold.JoinSpec{}, false
}

func joinOf(list []fold.JoinSpec, seam string) int {
	return slices.IndexFunc(list, func(j fold.JoinSpec) bool { return j.Seam == seam })
}

// JoinField names a field of how a seam is closed: its key for errors and for focus.
func JoinField(seam, what string) string { return "join-" + what + "-" + FileName(seam) }

// SetJoinWay says how a seam is closed, one of fold.JoinWays or "" for not said; the name "" speaks of all. A
// seam's own word that says no more than that for all is dropped: it follows that again.
func (s *Session) SetJoinWay(seam, way string) error {
	return s.setJoin(JoinField(seam, "way"), "", seam, func(j *fold.JoinSpec) {
		if j.Way = way; way != "weld" {
			j.Process = ""
		}
	})
}

// SetProcess says how a seam is welded, one of fold.WeldProcesses or "" for not said.
func (s *Session) SetProcess(seam, process string) error {
	return s.setJoin(JoinField(seam, "process"), "", seam, func(j *fold.JoinSpec) { j.Process = process })
}

// SetWidest sets the widest gap that the maker closes there, from a typed length; "" leaves it to published figures.
func (s *Session) SetWidest(seam, text string) error {
	field := JoinField(seam, "widest")
	var widest *float64
	if !blank(text) {
		v, err := ReadLength(text, s.units)
		if err == nil && v < 0 {
			err = fmt.Errorf("%s is no gap. 0 or more would do", quoted(text))
		}
		if err != nil {
			return s.refuse(field, text, err)
		}
		v = s.own(v)
		widest = &v
	}
	return s.setJoin(field, text, seam, func(j *fold.JoinSpec) { j.Widest = widest })
}

// FollowJoin drops what is said of a seam alone.
func (s *Session) FollowJoin(seam string) error {
	next := s.spec
	next.Joins = slices.DeleteFunc(slices.Clone(next.Joins), func(j fold.JoinSpec) bool { return j.Seam == seam })
	return s.take(JoinField(seam, "way"), "", next)
}

func (s *Session) setJoin(field, typed, seam string, f func(*fold.JoinSpec)) error {
	j, _ := s.Join(seam) // a seam's own begins as that for all
	j.Seam = seam
	f(&j)
	next := s.spec
	next.Joins = slices.DeleteFunc(slices.Clone(next.Joins), func(o fold.JoinSpec) bool { return o.Seam == seam })
	all, _ := s.Join("")
	all.Seam = seam
	if seam == "" {
		all = fold.JoinSpec{}
	}
	if !sameJoin(j, all) {
		next.Joins = append(next.Joins, j)
	}
	return s.take(field, typed, next)
}

// renameJoins has what is said of a seam alone follow the seam to its new name, where a panel was renamed in next, which
// makes part; it reports whether there was anything. Seams keep their order then, and nothing else is renamed.
func (s *Session) renameJoins(next *fold.Spec, part *fold.Part) bool {
	own := slices.ContainsFunc(next.Joins, func(j fold.JoinSpec) bool { return j.Seam != "" })
	if !own || !s.Measured() || !part.Foldable {
		return false
	}
	seams, _ := part.FindSeams()
	was := s.report.Seams
	if len(seams) != len(was) {
		return false
	}
	name := map[string]string{} // new by old, where it is another
	for i := range was {
		if old := was[i].Name; old != seams[i].Name && !slices.ContainsFunc(seams, func(x fold.Seam) bool { return x.Name == old }) {
			name[old] = seams[i].Name
		}
	}
	joins := slices.Clone(next.Joins)
	found := false
	for i, j := range joins {
		if now := name[j.Seam]; now != "" && joinOf(joins, now) < 0 {
			joins[i].Seam, found = now, true
		}
	}
	if found {
		next.Joins = joins
	}
	return found
}

func sameJoin(a, b fold.JoinSpec) bool {
	x, y := -1.0, -1.0
	if a.Widest != nil {
		x = *a.Widest
	}
	if b.Widest != nil {
		y = *b.Widest
	}
	return a.Way == b.Way && a.Process == b.Process && x == y
}

// WidestField is the widest gap of a JoinSpec of the open part as its field shows it, "" where none is said.
func (s *Session) WidestField(j fold.JoinSpec) string { return s.figure(j.Widest) }

// figure writes a length of the open part's file for a field, "" where there is none.
func (s *Session) figure(own *float64) string {
	if own == nil {
		return ""
	}
	return FieldLength(*own*s.spec.Units.Scale(), s.units)
}
