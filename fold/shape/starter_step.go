package shape

import (
	"slices"
	"strconv"
	"strings"

	"dryfold/fold"
	"dryfold/fold/sizes"
)

// This file bends a stepped tray's floor once more.

// AnotherFloor gives a part that began as the starter "stepped-tray" with one more panel of floor
// beyond its last, as long and rising as much: its side walls go on, and what stood at the last
// floor's far end stands at the new one's. ok is false, and the part as it was, where it has no
// "floor 2" with its named sizes, or has more than a form may hold.
func AnotherFloor(s fold.Spec) (out fold.Spec, ok bool) {
	if s.Sizes == nil {
		return s, false
	}
	f := s.Sizes.Clone()
	flange := func(name string) int {
		return slices.IndexFunc(f.Flanges, func(l sizes.Flange) bool { return l.Name == name })
	}
	named := func(name string) int {
		return slices.IndexFunc(f.Named, func(n sizes.Named) bool { return n.Name == name })
	}
	n := 2
	for flange("floor "+strconv.Itoa(n+1)) >= 0 {
		n++
	}
	last, next := strconv.Itoa(n), strconv.Itoa(n+1)
	rising := "rise_" + last
	if n == 2 {
		rising = "rise"
	}
	at, long, rise := flange("floor "+last), named("long_"+last), named(rising)
	if at < 0 || long < 0 || rise < 0 || named("long_"+next) >= 0 || named("rise_"+next) >= 0 || len(f.Named)+2 > sizes.MaxNamed {
		return s, false
	}

	more := []sizes.Named{f.Named[long], f.Named[rise]}
	more[0].Name, more[0].Label = "long_"+next, "Long, floor "+next
	more[1].Name, more[1].Label = "rise_"+next, "Floor "+next+" rises"
	f.Named = slices.Insert(f.Named, max(long, rise)+1, more...)

	var added []sizes.Flange
	floor := f.Flanges[at]
	floor.Name, floor.On, floor.Side = "floor "+next, "floor "+last, "top"
	floor.Height, floor.Angle = asFormula("long_"+next), asFormula("rise_"+next)
	added = append(added, floor)
	order := slices.Clone(s.Order)
	for i := range f.Flanges {
		l := &f.Flanges[i]
		if l.On != "floor "+last {
			continue
		}
		if l.Side == "top" || l.Side == "" {
			l.On = "floor " + next
			continue
		}
		wall := *l
		wall.On, wall.Name = "floor "+next, strings.TrimSuffix(l.Name, " "+last)+" "+next
		if flange(wall.Name) >= 0 {
			return s, false
		}
		added = append(added, wall)
		for k, step := range order { // it is bent with the piece before it
			if slices.Contains(step.Bends, l.Name) {
				order[k].Bends = append(slices.Clone(step.Bends), wall.Name)
			}
		}
	}
	f.Flanges = append(f.Flanges, added...)

	// The sides run on straight over all floors.
	var long1 strings.Builder
	long1.WriteString("long")
	for i := 2; i <= n; i++ {
		long1.WriteString(" + long_" + strconv.Itoa(i))
	}
	f.Fields(func(_ string, q *sizes.Field, _ bool) {
		q.Formula = strings.ReplaceAll(q.Formula, "("+long1.String()+")", "("+long1.String()+" + long_"+next+")")
		if len(q.Formula) > sizes.MaxFormula {
			at = -1
		}
	})
	if at < 0 {
		return s, false
	}
	out = s
	out.Sizes, out.Order = f.Clone(), append(order, fold.Step{Bends: []string{floor.Name}})
	return out, true
}
