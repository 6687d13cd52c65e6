package paper

// The blank at full size on paper, to be stuck to the metal: this file holds what can be
// asked for, and what of it is refused; tiles.go cuts the blank up into pages, tile.go draws one
// of them, checksquare.go the square that proves the printer.

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"dryfold/fold"
	"dryfold/fold/draft"
	"dryfold/fold/geom"
)

// Roll is the paper of a template that comes off a roll.
const Roll = "roll"

// TemplateOptions say how a template is printed. The zero value is in mm on A4.
type TemplateOptions struct {
	Units fold.Units // of the numbers on it, of its check square and of Printed
	Paper string     // one of Papers, or Roll; "" is A4. Upright or across, whichever takes fewer pages
	Roll  float64    // the roll's width, mm
	// Margin is what the printer leaves white round a page, Overlap by how much neighbouring pages show the
	// same, mm; nil is 8 and 10.
	Margin, Overlap *float64
	// Printed is what the check square of the last print measured, across and down, in Units; 0 where it was not
	// measured. Before is by how much that print was scaled, as it says itself; 0 is 1. See Correction.
	Printed, Before [2]float64
	Hand            string // "left" or "right"; "" where it isn't said
	Other           bool   // the mirror image, for the other hand; Hand is that of the part itself
}

// FieldError says that one of the options can't be so: which, what was found there and what would do.
type FieldError struct {
	Field string // "paper", "printed[0]"
	Found string
	Need  string
}

// Error is one line.
func (e *FieldError) Error() string { return e.Field + ": found " + e.Found + "; need " + e.Need }

func refused(field, found, need string, args ...any) *FieldError {
	return &FieldError{field, found, fmt.Sprintf(need, args...)}
}

// paperSizes are Papers upright, mm: ISO 216's A4 and A3; 8 1/2 by 11 and 11 by 17 in.
var paperSizes = map[string]geom.Vec2{"a4": {210, 297}, "a3": {297, 420}, "letter": {215.9, 279.4}, "tabloid": {279.4, 431.8}}

// square is the check square's side and how it is called.
func (o *TemplateOptions) square() (mm float64, name string) {
	if o.Units == fold.Inch {
		return 4 * 25.4, "4 in"
	}
	return 100, "100 mm"
}

// Correction is by how much the print is scaled, across and down, so that it comes out true: what the last print was scaled by, times
// what its check square should have measured, by what it did measure.
func (o *TemplateOptions) Correction() (geom.Vec2, error) {
	mm, name := o.square()
	full := mm / o.Units.Scale()
	var out geom.Vec2
	for k, way := range []string{"across", "down"} {
		out[k] = 1
		if b := o.Before[k]; b != 0 {
			if !(b >= leastCorrection && b <= mostCorrection) {
				return out, refused(fmt.Sprintf("before[%d]", k), strconv.FormatFloat(b, 'g', 6, 64), "the scale of the print that was measured, from %g to %g; 0 if it was not scaled", leastCorrection, mostCorrection)
			}
			out[k] = b
		}
		m := o.Printed[k]
		if m == 0 {
			continue
		}
		field, found := fmt.Sprintf("printed[%d]", k), strconv.FormatFloat(m, 'g', 6, 64)+" "+o.Units.String()
		if !(math.Abs(m/full-1) <= printerOut+1e-12) {
			return out, refused(field, found, "%s to %s, what the check square of %s measures %s; a printer that is out by more is set to fit the page: print at 100 %%, actual size, and measure again",
				trim(full*(1-printerOut), 2), trim(full*(1+printerOut), 2), name, way)
		}
		out[k] *= full / m
		if !(out[k] >= leastCorrection && out[k] <= mostCorrection) {
			return out, refused(field, found, "what the last print's check square measured; with the %s %% which that was scaled by it comes to %s %%, more than any printer is out by: begin anew without a correction",
				trim(100*o.Before[k], 2), trim(100*out[k], 2))
		}
	}
	return out, nil
}

// scaledWords say by how much a print is scaled; "" where it is not.
func scaledWords(s geom.Vec2) string {
	f := func(x float64) string { return trim(100*x, 2) + " %" }
	switch {
	case s == geom.Vec2{1, 1}:
		return ""
	case s[0] == s[1]:
		return "Scaled " + f(s[0]) + " across and down to correct your printer, by the check square as you measured it."
	}
	return "Scaled " + f(s[0]) + " across and " + f(s[1]) + " down to correct your printer, by the check square as you measured it."
}

// Template gives the pages of the blank at full size, cut up into tiles that overlap. Tiles with no metal on them
// are left out. An option that can't be is a *FieldError; a part that can't be folded is another error.
func Template(p *fold.Part, rep *fold.Report, o TemplateOptions) ([]draft.Page, error) {
	if !p.Foldable {
		return nil, cantFold(p, "printed as a template")
	}
	return newTemplate(p, rep, o).pages()
}

// cantFold says why nothing can be made of a blank.
func cantFold(p *fold.Part, what string) error {
	for _, t := range p.Troubles {
		if t.Severity == fold.Stop {
			return fmt.Errorf("the blank can't be %s until it can be folded: %s", what, t.Message)
		}
	}
	return fmt.Errorf("the blank can't be %s until it can be folded", what)
}

// template is a template in the making. Its plane has the blank in mm as it is printed, scaled and with y downwards, from
// the upper left corner of the blank's box.
type template struct {
	part  *fold.Part
	opt   TemplateOptions
	kind  string   // what the pages are called
	facts []string // about the part, at the foot of every page
	loud  string   // in bold there
	under string   // below THIS FACE UP: which face that is
	stamp string   // what stands there too
	work  string   // what the lines are, and cautions
	word  func(b *fold.Bend) string
	bare  bool // no tangent lines
	names []string

	scale  geom.Vec2
	margin float64
	over   float64
	ink    []piece
	lines  []ink // the same as straight lines, and which bend each belongs to
	rim    int   // how many of these are the metal's edges
}

func newTemplate(p *fold.Part, rep *fold.Report, o TemplateOptions) *template {
	t := &template{part: p, opt: o, kind: "full-size template", names: cardNumbers(p), word: func(b *fold.Bend) string {
		if b.Up {
			return "up"
		}
		return "down"
	}}
	m := marks{units: o.Units}
	metal := p.Metal
	if metal == "" {
		metal = "metal not said"
	}
	t.facts = append(t.facts, fmt.Sprintf("%s, %s %s thick. Blank %s %s.", draft.Clip(metal, 2.8, 60), m.fine(p.Thickness), unitName(o.Units), blankWords(p, o.Units), unitName(o.Units)))
	t.work = "Thick: cut. Long and short dashes: sight line, the mark for the nose's edge (none: the thin line is it). Thin: middle of the bend. Dashed: its edges. Fine grey: datum edges A and B. Prick hole centres through. Cut sheet has razor edges: gloves, and deburr. Follow the machine's manual, local codes, and a qualified person where one is required."
	t.under = map[string]string{"up": "it is the good face", "down": "the good face is underneath"}[p.Spec.Sheet.Good]
	t.loud = notReady(rep, o.Units)
	return t
}

// length writes a length of the blank in the numbers' units: to 0.1 mm or 0.001 in.
func (t *template) length(mm float64) string {
	if t.opt.Units == fold.Inch {
		return trim(mm/25.4, 3)
	}
	return trim(mm, 1)
}

// hand says which hand the template is for, "" where it isn't said.
func (t *template) hand() string {
	h := t.opt.Hand
	if t.opt.Other {
		switch h {
		case "left":
			return "right hand"
		case "right":
			return "left hand"
		}
		return "other hand, mirrored"
	}
	if h == "" {
		return ""
	}
	return h + " hand"
}

// pages draws all pages.
func (t *template) pages() ([]draft.Page, error) {
	g, err := t.plan()
	if err != nil {
		return nil, err
	}
	return t.tilePages(g), nil
}

// plan checks the options, lays the blank out and cuts it up.
func (t *template) plan() (*tiling, error) {
	o := &t.opt
	if o.Hand != "" && o.Hand != "left" && o.Hand != "right" {
		return nil, refused("hand", strconv.Quote(draft.Clip(o.Hand, 3, 60)), `"left", "right" or nothing`)
	}
	var err error
	if t.scale, err = o.Correction(); err != nil {
		return nil, err
	}
	field := func(name string, given *float64, usual, lo, hi float64, why string) (float64, error) {
		if given == nil {
			return usual, nil
		}
		if !(*given >= lo && *given <= hi) {
			return 0, refused(name, strconv.FormatFloat(*given, 'g', 6, 64)+" mm", "%g mm to %g mm, %s", lo, hi, why)
		}
		return *given, nil
	}
	if t.margin, err = field("margin", o.Margin, usualMargin, 0, mostMargin, "what the printer leaves white round the page"); err != nil {
		return nil, err
	}
	if t.over, err = field("overlap", o.Overlap, usualOverlap, leastOverlap, mostOverlap, "by how much neighbouring pages show the same: room for the match marks"); err != nil {
		return nil, err
	}
	paper, err := t.paper()
	if err != nil {
		return nil, err
	}
	t.draw()
	return t.tile(paper)
}

// paper is the chosen paper upright; of a roll its width and how long a page may be.
func (t *template) paper() (geom.Vec2, error) {
	o := &t.opt
	name := strings.ToLower(strings.TrimSpace(o.Paper))
	if name == "" {
		name = "a4"
	}
	mm, called := o.square()
	// The check square has to stand on every page, however far it is scaled.
	need := math.Ceil(mm*mostCorrection + 2*t.margin + 2*squareRoom)
	if name == Roll {
		if !(o.Roll >= need && o.Roll <= widestRoll) {
			return geom.Vec2{}, refused("roll", strconv.FormatFloat(o.Roll, 'g', 6, 64)+" mm", "a width from %g mm to %g mm: with margins of %g mm nothing narrower holds the check square of %s", need, widestRoll, t.margin, called)
		}
		return geom.Vec2{o.Roll, longestPage}, nil
	}
	size, ok := paperSizes[name]
	if !ok {
		return size, refused("paper", strconv.Quote(draft.Clip(o.Paper, 3, 60)), "one of %s, or %s", strings.Join(Papers, ", "), Roll)
	}
	if size[0] < need {
		most := math.Floor((size[0] - mm*mostCorrection - 2*squareRoom) / 2)
		return size, refused("margin", trim(t.margin, 2)+" mm", "%g mm at most on %s, which has to hold the check square of %s between them", most, Papers[slices.IndexFunc(Papers, func(s string) bool { return strings.EqualFold(s, name) })], called)
	}
	return size, nil
}
