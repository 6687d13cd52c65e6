package fold

// This file says how wide a seam's gap may be: by what its maker says, else by a figure of a list that speaks of just such a
// joint. The rows are those of testdata/published/weld_fitup.csv; those that give no figure for a gap are left out: AWS D1.3
// (root openings not found), ISO 5817 no. 402 (incomplete root), the spacing of tacks, and the owner manuals' square groove,
// whose 1/16 in is an opening shown, not a limit.

import (
	"fmt"
	"math"
	"strconv"
)

// seamSlack is added to the wanted gap: two edges, each marked to about 0.2 mm
// (common practice, no source), and a little for the cut (mm).
const seamSlack = 0.5

// noFigure: where nobody says how wide a seam may be, a gap of up to this many thicknesses is passed over
// (common practice, no source).
const noFigure = 0.5

// stepThick: where no list speaks of it, faces out of line by up to this many thicknesses are passed over
// (common practice, no source).
const stepThick = 0.5

// throatThick: the throat of a fillet weld in sheet, in thicknesses: legs as long as the sheet is thick (common
// practice, no source). ISO 5817 gives a fillet's gap by the throat.
const throatThick = 0.7

// Common practice: in 20 gauge (0.912 mm of steel) and what is thinner, a gap of 1/16 in already burns through, and the edges of a butt
// weld must touch. It says what is too wide, not how wide will do, so it is told in words beside the limit (mm).
const (
	burnThin = 0.95
	burnRow  = "20 ga butt fit-up"
	burnSay  = "a gap of 1/16 in already burns through in 20 gauge, where edges must touch (common practice)"
)

// fitRow is a row of a list of welds' fit-up. Lengths in mm.
type fitRow struct {
	row       string // how testdata/published/weld_fitup.csv calls it
	joint     string
	process   string // "" for all of WeldProcesses
	over, to  float64
	steel     bool // the list is of steels (and their like) alone
	least     float64
	widest    float64 // the widest gap, plus perThick times the thickness
	perThick  float64
	kind, say string // LimitKind, and the source in words
}

// fitRows are the limits of gaps, as testdata/published/weld_fitup.csv has them with their marks.
var fitRows = []fitRow{
	// Read: a MIG welding handbook, section 8, Joint Design.
	{row: "square butt, short-circuit GMAW, plate <= 3/16 in", joint: jointButt, process: "short arc", to: 4.7625, widest: 0.8,
		kind: "published", say: "0 to 1/32 in for short-arc butt joints up to 3/16 in (a MIG welding handbook)"},
	// Read: the same. Its two columns meet at 3/16 in, which is left to the first.
	{row: "square butt, spray arc, 3/16-1/4 in", joint: jointButt, process: "spray arc", over: 4.7625, to: 6.35, least: 0.8, widest: 2.4,
		kind: "published", say: "1/32 to 3/32 in for spray-arc butt joints of 3/16 to 1/4 in (a MIG welding handbook)"},
	// From memory: ISO 9692-1:2013, table 1, for welding with electrodes, gas-shielded wire, TIG and gas. "About" the thickness.
	{row: "ISO 9692-1 square butt, one side, t <= 4 mm", joint: jointButt, to: 4, steel: true, perThick: 1,
		kind: "from memory", say: "about the thickness, for square butt welds from one side up to 4 mm (ISO 9692-1, from memory)"},
	// From memory: ISO 5817:2014, table 1, level C: 0.3 mm + 0.1 a, with the throat a as throatThick says.
	{row: "ISO 5817 no.617 fillet root gap, t 0.5-3 mm", joint: jointFillet, over: 0.5, to: 3, steel: true, widest: 0.3, perThick: 0.1 * throatThick,
		kind: "from memory", say: "0.3 mm and a tenth of the throat, 0.7 T, for fillet welds (ISO 5817 no. 617 level C, from memory)"},
}

// stepRow is ISO 5817's misalignment of butt welds, level C (from memory): 0.2 mm + 0.15 t for t 0.5 to 3 mm.
var stepRow = fitRow{row: "ISO 5817 no.507 linear misalignment, t 0.5-3 mm", joint: jointButt, over: 0.5, to: 3, steel: true, widest: 0.2, perThick: 0.15,
	kind: "from memory", say: "ISO 5817 no. 507 level C, from memory"}

// most is the row's largest figure at a thickness.
func (f *fitRow) most(t float64) float64 { return f.widest + f.perThick*t }

// speaks reports whether the row is about such a joint, whatever the process. Ends of a range of thicknesses belong to it, but for
// an over that another row's range ends at.
func (f *fitRow) speaks(joint string, t float64, steel bool) bool {
	from := t >= f.over
	if f.process == "spray arc" {
		from = t > f.over
	}
	return f.joint == joint && from && t <= f.to && (steel || !f.steel)
}

// steel reports whether the sheet is, for all that is known, of a metal that lists of steel speak of.
func (p *Part) steel() bool {
	m, ok := p.MetalFacts()
	return !ok || m.Family == "" || m.Family == "steel" || m.Family == "stainless"
}

// gapLimit is how wide a seam may be, and how narrow.
type gapLimit struct {
	most       *float64 // nil: nobody says
	least      float64
	kind, from string // LimitKind and LimitFrom
	leastFrom  string // whose figure least is
}

// gapLimit is the maker's own limit; else the wanted gap and seamSlack, or what a list's row says of just such a weld where that is less;
// else the narrowest figure of the lists' rows that speak of such a joint and of the process, or of any; else none, with the reason in
// words. A figure for one process is never taken for a process that is not said: it is told in words.
func (p *Part) gapLimit(s Seam, c closing, joint string) gapLimit {
	none := func(format string, a ...any) gapLimit {
		return gapLimit{kind: "none", from: fmt.Sprintf(format, a...)}
	}
	switch {
	case c.way == "open":
		return none("left open: it is measured, and no limit holds")
	case c.widest != nil:
		return gapLimit{most: c.widest, kind: "yours", from: "the widest that you close"}
	}
	listed := none("no published figure holds for every way of closing a seam, and yours is not said")
	switch {
	case c.way == "weld":
		listed = p.weldLimit(c, joint)
	case c.way != "":
		listed = none("no published figure for %s", map[string]string{"rivet": "riveted seams", "spot": "spot welds", "sealant": "seams closed with sealant"}[c.way])
	}
	if s.Wanted == nil || listed.most != nil && *listed.most < *s.Wanted+seamSlack {
		return listed
	}
	l := gapLimit{most: number(*s.Wanted + seamSlack), least: listed.least, leastFrom: listed.leastFrom, kind: "common practice",
		from: fmt.Sprintf("the wanted gap of %s mm and %g mm for marking and cutting (common practice)", places2(*s.Wanted), seamSlack)}
	if c.way == "weld" && listed.most == nil {
		l.from += "; " + listed.from
	}
	return l
}

// places2 is a length with up to two places (mm).
func places2(mm float64) string { return strconv.FormatFloat(math.Round(mm*100)/100, 'f', -1, 64) }

// weldLimit is what lists say of a welded joint.
func (p *Part) weldLimit(c closing, joint string) gapLimit {
	t, steel := p.Thickness, p.steel()
	var best, other *fitRow
	for i := range fitRows {
		f := &fitRows[i]
		switch {
		case !f.speaks(joint, t, steel):
		case f.process != "" && f.process != c.process:
			other = f
		case best == nil || f.most(t) < best.most(t):
			best = f
		}
	}
	also := ""
	if other != nil && c.process == "" {
		also = fmt.Sprintf("; for %s %.1f mm is published, and your process is not said", other.process, other.most(t))
	}
	if joint == jointButt && t <= burnThin {
		also += "; " + burnSay
	}
	if best == nil {
		return gapLimit{kind: "none", from: fmt.Sprintf("no published figure for welding %s%s", jointWords(joint, c.process), also)}
	}
	return gapLimit{most: number(best.most(t)), least: best.least, kind: best.kind, from: best.say + also, leastFrom: best.say}
}

// jointWords is a welded joint in the plural, with its process where that is said.
func jointWords(joint, process string) string {
	words := map[string]string{
		jointOpen: "open outside corners", jointClosed: "closed outside corners", jointButt: "butt joints of this thickness or metal",
		jointLap: "lap joints", jointFillet: "fillet joints of this thickness or metal", jointEdge: "edge joints",
	}[joint]
	if words == "" {
		words = "this kind of joint"
	}
	if process != "" {
		words += " by " + process
	}
	return words
}

// stepLimit is how far the faces at a seam may be out of line, and whose figure that is; "" where it is half the thickness.
func (p *Part) stepLimit(c closing, joint string) (mm float64, whose string) {
	if c.way == "weld" && stepRow.speaks(joint, p.Thickness, p.steel()) {
		return stepRow.most(p.Thickness), stepRow.say
	}
	return stepThick * p.Thickness, ""
}
