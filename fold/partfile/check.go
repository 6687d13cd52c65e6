// What the values of a part must hold, whether they come from a file, a link or
// a hand-made change. What only the cut blank can tell is not asked here.

package partfile

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"dryfold/fold"
	"dryfold/fold/geom"
	"dryfold/fold/sizes"
)

// Check says what is wrong with a part's values: sizes, counts, names, and names
// that name nothing. The error is an *Error with the path that the value has in a
// part file; the first wrong one is told, in the order of a part file. Whatever
// passes can be written, and reads back equal up to normal form (see Write).
func Check(s fold.Spec) error {
	c := &checker{spec: s}
	var p *path
	c.name(p.field("name"), s.Name)
	c.string(p.field("notes"), s.Notes, 0, fold.MaxNotes, "\n\r\t", notesNeed)
	if s.Units != fold.MM && s.Units != fold.Inch {
		c.fail(p.field("units"), strconv.Itoa(int(s.Units)), unitsNeed)
	}
	c.sheet(p.field("sheet"))
	if s.Sizes != nil {
		c.form(p.field("sizes"), normalForm(s.Sizes))
	} else {
		c.blank(p.field("blank"))
		c.base(p.field("base"))
		c.seams(p.field("seams"))
	}
	c.order(p.field("order"))
	c.joins(p.field("joins"))
	c.errors(p.field("errors"))
	c.asCut(p.field("as_cut"))
	c.struck(p.field("struck"))
	c.metals(p.field("metals"), s.Metals)
	c.strips(p.field("tests"), s.Tests, s.Units)
	c.price(p.field("price"))
	return c.err
}

type checker struct {
	spec fold.Spec
	err  error

	values *sizes.Values // of a part by sizes
	points int           // of its outlines, so far
}

func (c *checker) fail(p *path, found, need string) {
	if c.err == nil {
		c.err = &Error{Path: p.String(), Found: found, Need: need}
	}
}

func (c *checker) number(p *path, v float64, b bound) {
	if c.err == nil && !b.holds(v) {
		c.fail(p, number(v), b.need())
	}
}

func (c *checker) optional(p *path, v *float64, b bound) {
	if v != nil {
		c.number(p, *v, b)
	}
}

func (c *checker) point(p *path, v geom.Vec2) {
	for i := 0; i < 2 && c.err == nil; i++ {
		if b := placeBound(c.spec.Units); !b.holds(v[i]) {
			c.fail(p.item(i), number(v[i]), b.need())
		}
	}
}

func (c *checker) name(p *path, s string) { c.string(p, s, 1, fold.MaxName, "", nameNeed) }

// string judges text of least to most characters; besides those in also, none may
// be a control character. A name of nothing but spaces is no name.
func (c *checker) string(p *path, s string, least, most int, also, need string) {
	if c.err != nil {
		return
	}
	n := utf8.RuneCountInString(s)
	switch {
	case !utf8.ValidString(s):
		c.fail(p, "text that is not UTF-8", need)
	case n > most:
		c.fail(p, fmt.Sprintf("text of %d characters", n), need)
	case n < least:
		c.fail(p, `the text ""`, need)
	case least > 0 && strings.TrimSpace(s) == "":
		c.fail(p, "nothing but spaces", need)
	}
	for _, r := range s {
		if !printable(r) && !strings.ContainsRune(also, r) {
			c.fail(p, fmt.Sprintf("the control character U+%04X", r), need)
			return
		}
	}
}

// printable holds for characters that may stand in a name: no control characters,
// line or paragraph separators, nor those that turn the direction of the text
// after them, which could make a name read as another.
func printable(r rune) bool {
	return !unicode.IsControl(r) && r != '\u2028' && r != '\u2029' &&
		!(r >= '\u202A' && r <= '\u202E') && !(r >= '\u2066' && r <= '\u2069')
}

func (c *checker) most(p *path, n, most int) {
	if n > most {
		c.fail(p, strconv.Itoa(n)+" entries", fmt.Sprintf("at most %d", most))
	}
}

func (c *checker) sheet(p *path) {
	s, u := c.spec.Sheet, c.spec.Units
	c.number(p.field("thickness"), s.Thickness, thicknessBound(u))
	if s.Metal != "" {
		c.name(p.field("metal"), s.Metal)
	}
	c.optional(p.field("k"), s.K, kBound())
	if s.KFrom != "" {
		c.name(p.field("k_from"), s.KFrom)
		if s.K == nil {
			c.fail(p.field("k_from"), "where K comes from, but no K", `"k" beside it, or neither`)
		}
	}
	if s.Rule != "" && !knownRule(s.Rule) {
		c.fail(p.field("rule"), "the text "+quote(s.Rule), ruleNeed())
	}
	c.optional(p.field("grain"), s.Grain, grainBound())
	if s.Good != "" && s.Good != "up" && s.Good != "down" {
		c.fail(p.field("good"), "the text "+quote(s.Good), wayNeed)
	}
	c.optional(p.field("shortest_lip"), s.Lip, lipBound(c.spec.Units))
}

func (c *checker) blank(p *path) {
	s, u := c.spec, c.spec.Units
	c.contours(p)
	c.most(p.field("holes"), len(s.Holes), fold.MaxHoles)
	for i, h := range s.Holes {
		q := p.field("holes").item(i)
		c.point(q.field("at"), h.At)
		c.number(q.field("diameter"), h.Diameter, diameterBound(u))
	}
	c.chords(p)
	c.most(p.field("bends"), len(s.Bends), fold.MaxBends)
	taken := map[string]*path{}
	for i, b := range s.Bends {
		q := p.field("bends").item(i)
		if b.Name != "" {
			c.name(q.field("name"), b.Name)
		}
		c.point(q.field("line").item(0), b.Line[0])
		c.point(q.field("line").item(1), b.Line[1])
		if b.Line[0] == b.Line[1] {
			c.fail(q.field("line"), "the same point twice", "two different ends")
		}
		c.number(q.field("angle"), b.Angle, angleBound())
		c.number(q.field("radius"), b.Radius, radiusBound(u))
		if b.RadiusFrom != "" && !slices.Contains(fold.RadiusKnown, b.RadiusFrom) {
			c.fail(q.field("radius_from"), "the text "+quote(b.RadiusFrom), radiusFromNeed())
		}
		c.unique(taken, q, bendName(s, i))
	}
	c.most(p.field("panels"), len(s.Panels), fold.MaxPanels)
	taken = map[string]*path{}
	for i, n := range s.Panels {
		q := p.field("panels").item(i)
		c.name(q.field("name"), n.Name)
		c.point(q.field("at"), n.At)
		c.unique(taken, q, n.Name)
	}
}

// unique refuses a name that an earlier entry has.
func (c *checker) unique(taken map[string]*path, p *path, name string) {
	if q := taken[name]; q != nil && c.err == nil {
		c.fail(p.field("name"), "the name "+quote(name)+" a second time", "a name that "+q.String()+" does not have")
	}
	taken[name] = p
}

// bendName is the name by which an order knows the bend.
func bendName(s fold.Spec, i int) string {
	if n := s.Bends[i].Name; n != "" {
		return n
	}
	return "bend " + strconv.Itoa(i+1)
}

func (c *checker) base(p *path) {
	b := c.spec.Base
	if b == "" || slices.ContainsFunc(c.spec.Panels, func(n fold.PanelName) bool { return n.Name == b }) {
		return
	}
	rest, auto := strings.CutPrefix(b, "panel ")
	n, err := strconv.Atoi(rest)
	if !auto || err != nil || strconv.Itoa(n) != rest || n < 1 || n > fold.MaxPanels {
		c.fail(p, quote(b)+", which names no panel", baseNeed)
	}
}

func (c *checker) seams(p *path) {
	c.most(p, len(c.spec.Seams), fold.MaxSeams)
	taken := map[string]*path{}
	for i, s := range c.spec.Seams {
		q := p.item(i)
		name := s.Name
		if name == "" {
			name = "seam " + strconv.Itoa(i+1)
		} else {
			c.name(q.field("name"), name)
		}
		c.unique(taken, q, name)
		c.point(q.field("a"), s.A)
		c.point(q.field("b"), s.B)
		c.optional(q.field("gap"), s.Gap, gapBound(c.spec.Units))
		if s.Join != "" {
			c.name(q.field("join"), s.Join)
		}
	}
}

// order judges that each name is a bend's, that a bend stands once only unless it
// was left part-way each time before, and that it is always turned further.
func (c *checker) order(p *path) {
	c.most(p, len(c.spec.Order), fold.MaxSteps)
	type state struct {
		full float64 // the bend's angle
		done float64 // how far it is turned by now
		in   *path   // the swing that turned it last
	}
	bends := map[string]*state{}
	for _, b := range c.bends() {
		bends[b.Name] = &state{full: b.Angle}
	}
	names := 0
	for i, s := range c.spec.Order {
		q := p.item(i)
		if len(s.Bends) == 0 {
			c.fail(q, "an empty list", stepNeed)
		}
		if s.To != nil && len(s.Bends) > 1 {
			c.fail(q, "a part bend of several bends", "one bend, or no part angle")
		}
		if names += len(s.Bends); names > fold.MaxSteps {
			c.fail(q, fmt.Sprintf("more than %d names in the order", fold.MaxSteps), fmt.Sprintf("at most %d", fold.MaxSteps))
		}
		for j, name := range s.Bends {
			if c.err != nil {
				return
			}
			at := q
			switch {
			case s.To != nil:
				at = q.field("bend")
			case len(s.Bends) > 1:
				at = q.item(j)
			}
			b := bends[name]
			if b == nil {
				c.fail(at, quote(name)+", which names no bend", "a bend's name"+c.someBends())
				return
			}
			if b.in != nil && b.done >= b.full {
				c.fail(at, quote(name)+", which "+b.in.String()+" has turned to its full angle",
					`each bend once, or an earlier {"bend": name, "to": angle}`)
				return
			}
			to := b.full
			if s.To != nil {
				to = *s.To
				c.number(q.field("to"), to, angleBound())
				switch {
				case to > b.full:
					c.fail(q.field("to"), number(to), "at most "+number(b.full)+", the bend's angle")
				case b.in != nil && to <= b.done:
					c.fail(q.field("to"), number(to), "more than "+number(b.done)+" degrees, to which "+b.in.String()+" has turned it")
				}
			}
			b.done, b.in = to, q
		}
	}
}

// bends are the names and angles of all bends that an order can name.
func (c *checker) bends() (all []fold.BendSpec) {
	if f := c.spec.Sizes; f != nil {
		return c.flangeBends(f)
	}
	for i, b := range c.spec.Bends {
		all = append(all, fold.BendSpec{Name: bendName(c.spec, i), Angle: b.Angle})
	}
	return all
}

// someBends lists the first few bends' names for a message.
func (c *checker) someBends() string {
	const few = 5
	var out []string
	for i, b := range c.bends() {
		if i == few {
			out = append(out, "...")
			break
		}
		out = append(out, quote(b.Name))
	}
	if out == nil {
		return "; this part has no bends"
	}
	return ": " + strings.Join(out, ", ")
}
