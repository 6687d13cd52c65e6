// Package metal holds what the kernel needs to know of the sheet's metal: gauges, figures of the
// metals, allowance rules, springback, least radii, and what test bends tell. Every figure says
// where it comes from. This file holds Metal, the list of metals, and how one is found.
package metal

import (
	"strings"
	"sync"
)

// Metal is a sheet metal by name. A Fact that no source gives is not known.
type Metal struct {
	Name      string
	Aliases   []string // other names it goes by, lower case
	Density   Fact     // kg/m3
	Modulus   Fact     // of elasticity, MPa
	Yield     Fact     // MPa
	Tensile   Fact     // strength, MPa
	Family    string   // "steel", "stainless", "aluminium", "copper"; "" if not known
	Temper    Temper
	Constant  float64 // of T in the Machinery's Handbook rule: 0.55, 0.64 or 0.71; 0 where not known
	GrainNote string
	Weld      string
	Coating   string
	Cautions  []string

	Own     bool     // given by the maker
	LeastRT *float64 // the maker's least inside radius over thickness; nil where not given
	K       *float64 // the maker's K; nil where not given
	Note    string   // what the row stands for, or the maker's own words

	rows   []string // the names under which the lists of least radii speak of it
	gauges string   // ID of the gauge table it is sold by, "" for that of its family
}

// Temper is the column of the K by R/T table that a metal belongs to.
type Temper int

// The columns of the table; NoTemper where it is not known.
const (
	NoTemper Temper = iota
	Soft            // "soft/aluminium"
	Medium          // "medium"
	Hard            // "hard/steel"
)

// ByName finds a metal by its name or another it goes by, whatever the case and the punctuation.
func ByName(name string) (Metal, bool) {
	i, ok := places()[key(name)]
	if !ok {
		return Metal{}, false
	}
	return Metals[i], true
}

// places is the metal of the list for each name, by its key.
var places = sync.OnceValue(func() map[string]int {
	all := map[string]int{}
	for i, m := range Metals {
		for _, n := range append([]string{m.Name}, m.Aliases...) {
			if _, taken := all[key(n)]; !taken {
				all[key(n)] = i
			}
		}
	}
	return all
})

// SameName reports whether two names are one: they differ in no more than case, spaces and punctuation.
func SameName(a, b string) bool { return a == b || key(a) != "" && key(a) == key(b) }

// Resolve finds a metal among the maker's own, then in the list; an own metal that bears a name of one in the list stands for
// it under its other names too. An own metal takes what it does
// not give itself from the metal it is like; without one, from the metal of the list of its name.
func Resolve(name string, own []Own) (Metal, bool) {
	n := key(name)
	for _, o := range own {
		if n != "" && key(o.Name) == n {
			return o.metal(), true
		}
	}
	m, ok := ByName(name)
	for _, o := range own {
		if same, found := ByName(o.Name); ok && found && same.Name == m.Name {
			return o.metal(), true
		}
	}
	return m, ok
}

// metal is the maker's metal as one of the list.
func (o Own) metal() Metal {
	like := o.Like
	if like == "" {
		like = o.Name
	}
	m, _ := ByName(like)
	m.Name, m.Aliases, m.Own = strings.TrimSpace(o.Name), nil, true
	if o.Note != "" {
		m.Note = o.Note
	}
	src := o.source()
	one := func(f *Fact, v float64) {
		if v > 0 {
			*f = Fact{Range{v, v}, src}
		}
	}
	one(&m.Density, o.Density)
	one(&m.Modulus, o.Modulus*1000)
	if o.Yield[1] > 0 {
		m.Yield = Fact{Range{o.Yield[0], o.Yield[1]}, src}
		if o.Yield[0] <= 0 {
			m.Yield.Lo = m.Yield.Hi
		}
	}
	m.LeastRT, m.K = o.LeastRT, o.K
	return m
}

// source is where the maker's own figures come from: measured if the maker says where from.
func (o Own) source() Source { return FromWords(o.Note) }

// key is a name without what people spell differently: case, spaces, punctuation, two words.
func key(s string) string {
	s = strings.Map(func(r rune) rune {
		switch {
		case r >= 'A' && r <= 'Z':
			return r + 'a' - 'A'
		case r >= 'a' && r <= 'z' || r >= '0' && r <= '9' || r > 127:
			return r
		}
		return -1
	}, s)
	s = strings.ReplaceAll(s, "aluminum", "aluminium")
	return strings.ReplaceAll(s, "galvanised", "galvanized")
}
