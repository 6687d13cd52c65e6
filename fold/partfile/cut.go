// What was measured on the cut blank, and lines scribed by mistake, in a part file: read, judged, written.

package partfile

import "dryfold/fold"

var (
	cutSizeFields = []string{"from", "to", "is"}
	struckFields  = []string{"line"}
)

const (
	asCutNeed   = "a list of what was measured on the cut blank"
	cutSizeNeed = `a size measured on the cut blank: {"from": [x, y], "to": [x, y], "is": ...}`
	struckNeed  = "a list of lines scribed by mistake"
	struckOne   = `a line scribed by mistake: {"line": [[x, y], [x, y]]}`
	apartNeed   = "two points apart from each other"
)

func measuredBound(u fold.Units) bound { return lengthBound(u, "a length", fold.MinSize) }

func (d *decoder) asCut(p *path) (all []fold.CutSize) {
	d.list(p, asCutNeed, func(i int, p *path) {
		if !d.room(p, i, fold.MaxAsCut, "of them") {
			return
		}
		var m fold.CutSize
		seen := d.object(p, cutSizeNeed, cutSizeFields, func(key string, p *path) {
			switch key {
			case "from":
				m.From = d.point(p)
			case "to":
				m.To = d.point(p)
			case "is":
				m.Is = d.number(p, measuredBound(d.units).need)
			}
		})
		d.require(p, cutSizeFields, seen, "from", pointNeed)
		d.require(p, cutSizeFields, seen, "to", pointNeed)
		d.require(p, cutSizeFields, seen, "is", measuredBound(d.units).need())
		all = append(all, m)
	})
	return all
}

func (d *decoder) struck(p *path) (all []fold.StruckLine) {
	d.list(p, struckNeed, func(i int, p *path) {
		if !d.room(p, i, fold.MaxStruck, "of them") {
			return
		}
		var l fold.StruckLine
		seen := d.object(p, struckOne, struckFields, func(_ string, p *path) { l.Line = d.line(p) })
		d.require(p, struckFields, seen, "line", lineNeed)
		all = append(all, l)
	})
	return all
}

func (c *checker) asCut(p *path) {
	c.most(p, len(c.spec.AsCut), fold.MaxAsCut)
	for i, m := range c.spec.AsCut {
		q := p.item(i)
		c.point(q.field("from"), m.From)
		c.point(q.field("to"), m.To)
		if m.From == m.To {
			c.fail(q.field("to"), "the same point as from", apartNeed)
		}
		c.number(q.field("is"), m.Is, measuredBound(c.spec.Units))
	}
}

func (c *checker) struck(p *path) {
	c.most(p, len(c.spec.Struck), fold.MaxStruck)
	for i, l := range c.spec.Struck {
		q := p.item(i).field("line")
		c.point(q.item(0), l.Line[0])
		c.point(q.item(1), l.Line[1])
		if l.Line[0] == l.Line[1] {
			c.fail(q, "a line of no length", apartNeed)
		}
	}
}

func cutSizeText(m fold.CutSize) string {
	return object("from", point(m.From), "to", point(m.To), "is", number(m.Is))
}

func struckText(l fold.StruckLine) string {
	return object("line", "["+point(l.Line[0])+", "+point(l.Line[1])+"]")
}
