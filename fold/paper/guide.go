package paper

// This file lays out the guide to a test bend: one page that says how to bend a few
// strips, what to measure of them and where to write it. guidedraw.go has its drawings.

import (
	"fmt"
	"math"
	"strings"

	"dryfold/fold"
	"dryfold/fold/draft"
	"dryfold/fold/geom"
)

// GuideOptions say for which sheet the guide is printed. The zero value is a guide
// for any sheet, in mm.
type GuideOptions struct {
	Units     fold.Units
	Metal     string  // as the part names it; "" leaves a line to write on
	Thickness float64 // mm; 0 leaves a line to write on
}

const (
	guideRows  = 5    // strips that the table has room for
	writeRow   = 8.2  // height of a row that is written in by hand
	guideText  = 96.0 // width of the steps' words
	guideLine  = 4.0  // from line to line of running text
	guideSpace = 4.2  // between steps
)

// strip sizes that the guide asks for: long enough that both legs lie on a
// straightedge and can be held with the fingers (common practice, no source).
func (o GuideOptions) strip() (long, wide string) {
	if o.Units == fold.Inch {
		return trim(max(4, math.Ceil(o.Thickness*30/inch)), 0), "1 1/4"
	}
	return trim(max(100, math.Ceil(o.Thickness*3)*10), 0), "30"
}

const inch = 25.4 // mm

// step of the guide: words, with a drawing beside them.
type step struct {
	head string
	text []string
	high float64 // of the drawing
	draw func(s *draft.Page, at geom.Vec2)
}

// Guide is the guide to a test bend one page of A4 upright: how to cut,
// bend and measure a strip, a table to fill in by hand, and what is to be minded.
// Where the thickness is given the guide says what a measuring error is worth.
func Guide(o GuideOptions) draft.Page {
	const w, h = 210.0, 297.0
	s := draft.Page{Title: "Test bends", W: w, H: h}
	s.Box("paper", 0, 0, w, h)
	y := o.guideHead(&s, w)
	for i, st := range o.steps() {
		y = st.put(&s, i+1, y)
	}
	y = o.guideTable(&s, y+1)
	y = o.byHand(&s, y+2)
	s.Line("rule", geom.Vec2{margin, y}, geom.Vec2{w - margin, y})
	y += 4.4
	for i, l := range draft.Wrap(guideCautions, 2.8, w-2*margin-8) {
		if i == 0 {
			s.Text("dimb", draft.Start, geom.Vec2{margin, y}, "Cautions.")
			l = strings.TrimPrefix(l, "Cautions. ")
			s.Text("note", draft.Start, geom.Vec2{margin + draft.Width("Cautions. ", 2.9), y}, l)
		} else {
			s.Text("note", draft.Start, geom.Vec2{margin, y}, l)
		}
		y += 3.8
	}
	return s
}

const guideCautions = "Cautions. Fresh-cut sheet has razor edges: wear gloves while you handle it, and take the burrs off before you bend. Guard your eyes and face at shears, grinders and drills, your ears at grinders. " +
	"Keep hands and feet clear of the leaf’s swing, the counterweights and the pinch point of the clamp bar. One person works the brake. See that all the fingers you use are seated and tight. " +
	"Never go past the brake’s capacity, and never bend rod, wire or spring steel in it. Follow the machine’s manual, local codes, and a qualified person where one is required."

func (o GuideOptions) guideHead(s *draft.Page, w float64) float64 {
	thick := "______"
	if o.Thickness > 0 {
		thick = trim(o.Thickness/o.Units.Scale(), 4) + " " + unitName(o.Units)
	}
	metal := o.Metal
	if metal == "" {
		metal = "__________________"
	}
	x := w - margin
	for _, f := range [][2]string{{"Thickness", thick}, {"Metal", draft.Clip(metal, 4.2, 74)}} {
		x -= max(draft.Width(f[0], textSize), draft.Width(f[1], 4.2)) + 5
		s.Text("body", draft.Start, geom.Vec2{x, margin + 2.5}, f[0])
		s.Text("fact", draft.Start, geom.Vec2{x, margin + 8}, f[1])
	}
	title(s, "Test bends", x-margin-4)
	s.Text("body", draft.Start, geom.Vec2{margin, margin + 13}, "A few bent strips tell how much of the sheet a bend takes, and how far it springs back: in your metal, on your brake.")
	y := margin + 16.5
	s.Line("rule", geom.Vec2{margin, y}, geom.Vec2{w - margin, y})
	return y + 5.5
}

// put writes a step with its number at the left and its drawing at the right, and
// gives where the next begins.
func (st step) put(s *draft.Page, n int, y float64) float64 {
	s.Circle("box", geom.Vec2{margin + 3, y + 1.4}, 3)
	s.Text("ball", draft.Middle, geom.Vec2{margin + 3, y + 2.45}, fmt.Sprint(n))
	x := margin + 9.5
	s.Text("head", draft.Start, geom.Vec2{x, y + 2.6}, st.head)
	at := y + 7.6
	for _, t := range st.text {
		for _, l := range draft.Wrap(t, textSize, guideText) {
			s.Text("body", draft.Start, geom.Vec2{x, at}, l)
			at += guideLine
		}
		at += 0.9
	}
	st.draw(s, geom.Vec2{x + guideText + 6, y})
	return max(at-guideLine+0.6, y+st.high) + guideSpace
}

func (o GuideOptions) steps() []step {
	long, wide := o.strip()
	u := unitName(o.Units)
	tenth := "0.1 mm"
	if o.Units == fold.Inch {
		tenth = "0.004 in"
	}
	return []step{
		{"Cut three strips or more", []string{
			fmt.Sprintf("From the sheet that the part is made of, %s long and %s wide (%s), the grain lying to the bend as it will in the part. Five strips tell more than three. Ends straight and square, burrs filed off.", long, wide, u),
			fmt.Sprintf("Measure the thickness, and each strip’s length, to %s or better. Mark the middle with a fine felt pen: a line scribed on the outside of a bend may start a crack in aluminium (common practice).", tenth)},
			28, func(s *draft.Page, at geom.Vec2) { o.drawStrip(s, at, long, wide) }},
		{"Bend each at its mark, square across", []string{
			"As the part will be bent: the same brake and the same place along it, the same nose, bar-back and clamping, and about the angle that the part has most.",
			"Read where you stop the leaf, and write it down before you let the leaf back: it tells how far the metal springs back."},
			31, drawBrake},
		{"Measure both legs, outside or inside", []string{
			"Outside: hold a straightedge along the outside of leg b, and measure along the outside of leg a from its end to the straightedge. Then turn it round for leg b.",
			"Inside, where that is handier: from the end of a leg to the inside face of the other. Measure both legs the same way, along both edges of the strip, and take the middle. Tick which way it was."},
			35.5, drawLegs},
		{"Measure the angle, and the radius if you can", []string{
			"The bend angle is how far the leg has turned from flat: 0 flat, 90 square. A protractor that reads the angle between the legs shows 180 less the bend angle.",
			"The inside radius: half of the thickest drill shank that lies in the corner with no light under it, or a radius gauge. If you can’t measure it, leave it empty and write the nose’s radius."},
			31, drawAngle},
	}
}

// guideTable is the table to write in.
func (o GuideOptions) guideTable(s *draft.Page, y float64) float64 {
	s.Text("head", draft.Start, geom.Vec2{margin, y + 2.6}, "Write it down, type it in")
	s.Text("body", draft.Start, geom.Vec2{margin + 52, y + 2.6}, "On the page under Metal, “My test bends”: it gives your K, and makes the blank by it.")
	y += 6.6
	for _, blank := range []struct {
		x    float64
		text string
		to   float64
	}{{margin, "Brake", margin + 62}, {margin + 66, "Nose, bar-back", margin + 128}, {margin + 132, "Date", margin + tableWidth}} {
		s.Text("body", draft.Start, geom.Vec2{blank.x, y + 3}, blank.text)
		s.Line("dimline", geom.Vec2{blank.x + draft.Width(blank.text, textSize) + 1.5, y + 3.6}, geom.Vec2{blank.to, y + 3.6})
	}
	y += 6.6
	u := unitName(o.Units)
	cols := []struct {
		head, unit string
		w          float64
	}{
		{"Strip", "", 12}, {"Length", u, 24}, {"Leg a", u, 24}, {"Leg b", u, 24}, {"Legs measured", "", 27}, {"Bend angle", "degrees", 19},
		{"Leaf stopped at", "degrees", 21}, {"Inside radius", u, 19}, {"Nose radius", u, 18},
	}
	x := margin
	for _, c := range cols {
		s.Text("note", draft.Start, geom.Vec2{x + 1, y + 3}, c.head)
		s.Text("small", draft.Start, geom.Vec2{x + 1, y + 6.2}, c.unit)
		x += c.w
	}
	top := y + 8
	s.Group("fill")
	s.Line("rule", geom.Vec2{margin, top}, geom.Vec2{margin + tableWidth, top})
	for r := range guideRows {
		low := top + float64(r+1)*writeRow
		s.Line("hair", geom.Vec2{margin, low}, geom.Vec2{margin + tableWidth, low})
		s.Text("bold", draft.Start, geom.Vec2{margin + 3, low - 2.9}, fmt.Sprint(r+1))
		x := margin + 12 + 24*3 + 1.0
		for i, way := range []string{"outside", "inside"} {
			box := x + float64(i)*14.5
			s.Box("box", box, low-5.3, 2.5, 2.5)
			s.Text("small", draft.Start, geom.Vec2{box + 3.2, low - 3.2}, way)
		}
	}
	bottom := top + guideRows*writeRow
	x = margin
	for _, c := range cols[:len(cols)-1] {
		x += c.w
		s.Line("hair", geom.Vec2{x, y}, geom.Vec2{x, bottom})
	}
	s.End()
	return bottom + 3
}

// byHand says how K is reckoned without the page, and what a measuring error is worth.
func (o GuideOptions) byHand(s *draft.Page, y float64) float64 {
	t := o.Thickness
	if t <= 0 {
		t = 1
		if o.Units == fold.Inch {
			t = inch / 16
		}
	}
	for _, text := range []string{
		"K by hand, for legs measured outside and a bend of 90°: allowance = length − leg a − leg b + 2 × (radius + thickness); K = (allowance / 1.5708 − radius) / thickness. " +
			"Under 0 or over 0.6 something was misread.",
		o.worthWords(t),
	} {
		for _, l := range draft.Wrap(text, 2.8, tableWidth) {
			s.Text("note", draft.Start, geom.Vec2{margin, y + 2.6}, l)
			y += 3.8
		}
		y += 0.8
	}
	return y + 1.4
}

// worthWords say what 0.1 mm of measuring and a wrong radius do to K in a square
// bend: from allowance = L - a - b + 2(R+T) and K = (allowance/(pi/2) - R)/T.
func (o GuideOptions) worthWords(t float64) string {
	step, places := 0.1, 1
	if o.Units == fold.Inch {
		step, places = 0.004*inch, 3
	}
	perLength := step / (math.Pi / 2 * t)
	perRadius := (2/(math.Pi/2) - 1) * step / t
	return fmt.Sprintf("At %s %s thick, %s %s too much in a leg makes K %.3f too small, and the same in the radius makes it %.3f too great.",
		trim(t/o.Units.Scale(), 4), unitName(o.Units), trim(step/o.Units.Scale(), places), unitName(o.Units), perLength, perRadius)
}
