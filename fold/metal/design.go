package metal

import "math"

// This file holds distances that lists of the trade want about a bend: recommendations, where
// they disagree all of them, and no limits of a machine.

// Distance is one list's figure.
type Distance struct {
	Mm     float64
	Note   string // what is measured, and how
	Source Source
}

var (
	school = Source{Kind: Practice, Title: "school reference sheet"}
	lists  = Source{Kind: Practice, Title: "trade lists, which disagree"}
	faaFig = Source{Kind: Published, Title: `FAA-H-8083-31 (2012) Vol.1 ch.4 "Layout and Forming"`}
)

// HoleToBend is how far the edge of a hole or slot should lie from a bend of the inside radius in sheet of
// the thickness (mm), by each list, the least first.
func HoleToBend(radius, thickness float64) []Distance {
	const note = "from the hole's edge to the bend; the list doesn't say from which of its lines"
	return []Distance{
		{2 * thickness, "2 T from the hole's edge to the tangent line", lists},
		{2*thickness + radius, "2 T + R " + note, school},
		{2.5*thickness + radius, "2.5 T + R " + note, lists},
		{3*thickness + radius, "3 T + R " + note, lists},
	}
}

// ReliefHole is the diameter of a drilled relief where two bends meet (mm), by each list that speaks of the
// thickness. Its centre lies where the inside tangent lines cross; it must reach 1/32 to 1/16 in behind them.
func ReliefHole(radius, thickness float64) []Distance {
	d := []Distance{
		{2 * radius, "about twice the inside radius", faaFig},
		{math.Max(radius, mmPerInch/8), "the inside radius, 1/8 in at least: common practice as the handbook tells it", faaFig},
	}
	switch inch := thickness / mmPerInch; {
	case inch <= .064*(1+rowReach):
		d = append(d, Distance{mmPerInch / 8, "at least, in aluminium up to 0.064 in", faaFig})
	case inch >= .072*(1-rowReach) && inch <= .128*(1+rowReach):
		d = append(d, Distance{mmPerInch * 3 / 16, "at least, from 0.072 to 0.128 in", faaFig})
	}
	return d
}

// ReliefHoleRange is from the least to the greatest diameter (mm) that the lists of ReliefHole allow: those that go by the inside
// radius, and no less than those that give a least for the thickness, of which one speaks of aluminium alone.
func ReliefHoleRange(radius, thickness float64, aluminium bool) (lo, hi float64) {
	d := ReliefHole(radius, thickness)
	lo, hi = math.Min(d[0].Mm, d[1].Mm), math.Max(d[0].Mm, d[1].Mm)
	if thin := thickness <= .064*mmPerInch*(1+rowReach); thin && !aluminium {
		return lo, hi
	}
	for _, least := range d[2:] {
		lo, hi = math.Max(lo, least.Mm), math.Max(hi, least.Mm)
	}
	return lo, hi
}

// ReliefNotch is how far a sawn or snipped relief should reach from the bend line's outside sharp into the
// sheet (mm), where the drawing gives nothing.
func ReliefNotch(radius, thickness float64) []Distance {
	return []Distance{{thickness + radius, "T + R deep at least, where the drawing gives nothing", Source{Kind: Published, Title: `Sheet Metal Workbook, 6th ed., "Relief notches"`}}}
}

// ReliefWidth is how wide a relief should be at least (mm). It must be deep enough to pass the tangent line.
func ReliefWidth(thickness float64) []Distance {
	return []Distance{{thickness, "as wide as the thickness at least, and past the tangent line", school}}
}
