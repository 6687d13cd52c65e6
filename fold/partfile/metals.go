// The metals that a maker describes, in a part file or a bench's: read, judged, written.

package partfile

import (
	"slices"
	"strings"

	"dryfold/fold"
	"dryfold/fold/metal"
)

var metalFields = []string{"name", "like", "density", "modulus_gpa", "yield_mpa", "least_radius_t", "k", "note"}

const metalNeed = `a metal: {"name": "...", "like": "...", "k": ...}`

func yieldNeed() string {
	b := yieldBound()
	b.what = "two yield strengths"
	return b.need() + ", [least, greatest]"
}

// likeNeed lists the metals that an own one may be like.
func likeNeed() string {
	var names []string
	for _, m := range metal.Metals {
		names = append(names, m.Name)
	}
	return "a metal of the list: " + oneOf(names)
}

// oneOf is the texts, quoted, with commas between.
func oneOf(texts []string) string {
	return `"` + strings.Join(texts, `", "`) + `"`
}

// ruleNeed lists the rules of bend allowance by their IDs.
func ruleNeed() string {
	var ids []string
	for _, r := range metal.Rules {
		ids = append(ids, r.ID)
	}
	return "one of " + oneOf(ids)
}

func knownRule(id string) bool {
	return slices.ContainsFunc(metal.Rules, func(r metal.Rule) bool { return r.ID == id })
}

func radiusFromNeed() string { return "one of " + oneOf(fold.RadiusKnown) }

func (d *decoder) metals(p *path) (all []metal.Own) {
	d.list(p, "a list of metals", func(i int, p *path) {
		if d.room(p, i, fold.MaxMetals, "metals") {
			all = append(all, d.metal(p))
		}
	})
	return all
}

func (d *decoder) metal(p *path) (m metal.Own) {
	seen := d.object(p, metalNeed, metalFields, func(key string, p *path) {
		switch key {
		case "name":
			m.Name = d.text(p, nameNeed)
		case "like":
			m.Like = d.word(p, likeNeed())
		case "density":
			m.Density = d.given(p, densityBound())
		case "modulus_gpa":
			m.Modulus = d.given(p, modulusBound())
		case "yield_mpa":
			m.Yield = two(d, p, yieldNeed(), func(p *path) float64 { return d.given(p, yieldBound()) })
		case "least_radius_t":
			m.LeastRT = d.optional(p, leastRadiusBound())
		case "k":
			m.K = d.optional(p, kBound())
		case "note":
			m.Note = d.word(p, nameNeed)
		}
	})
	d.require(p, metalFields, seen, "name", nameNeed)
	return m
}

func (c *checker) metals(p *path, all []metal.Own) {
	c.most(p, len(all), fold.MaxMetals)
	for i, m := range all {
		if c.err != nil {
			return
		}
		q := p.item(i)
		c.name(q.field("name"), m.Name)
		if first := slices.IndexFunc(all[:i], func(o metal.Own) bool { return metal.SameName(o.Name, m.Name) }); first >= 0 {
			c.fail(q.field("name"), "the name "+quote(m.Name)+" a second time", "a name that "+p.item(first).String()+
				" does not have: capital letters and punctuation tell no metals apart")
		}
		if _, ok := metal.ByName(m.Like); m.Like != "" && !ok {
			c.fail(q.field("like"), "the text "+quote(m.Like), likeNeed())
		}
		c.figure(q.field("density"), m.Density, densityBound())
		c.figure(q.field("modulus_gpa"), m.Modulus, modulusBound())
		if y := q.field("yield_mpa"); m.Yield != [2]float64{} {
			c.number(y.item(0), m.Yield[0], yieldBound())
			c.number(y.item(1), m.Yield[1], yieldBound())
			if m.Yield[0] > m.Yield[1] {
				c.fail(y, "["+number(m.Yield[0])+", "+number(m.Yield[1])+"], which falls", "the least before the greatest")
			}
		}
		c.optional(q.field("least_radius_t"), m.LeastRT, leastRadiusBound())
		c.optional(q.field("k"), m.K, kBound())
		if m.Note != "" {
			c.name(q.field("note"), m.Note)
		}
	}
}

// figure judges a number that is 0 where none was given.
func (c *checker) figure(p *path, v float64, b bound) {
	if v != 0 {
		c.number(p, v, b)
	}
}

func metalText(m metal.Own) string {
	return object("name", text(m.Name), "like", maybe(m.Like), "density", figure(m.Density),
		"modulus_gpa", figure(m.Modulus), "yield_mpa", pair(m.Yield, number), "least_radius_t", optional(m.LeastRT),
		"k", optional(m.K), "note", maybe(m.Note))
}
