package paper

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dryfold/fold"
	"dryfold/fold/draft"
	"dryfold/fold/foldtest"
	"dryfold/fold/geom"
)

// turnedInk is the box that a text takes, upright too; ok is false for one that leans.
func turnedInk(x draft.Item) (geom.Box2, bool) {
	b := inkOf(x)
	switch x.Turn {
	case 0:
		return b, true
	case 90: // about its place: what lay to the right now lies above
		lo, hi := b.Min.Sub(x.At), b.Max.Sub(x.At)
		return geom.Box2{Min: x.At.Add(geom.Vec2{lo[1], -hi[0]}), Max: x.At.Add(geom.Vec2{hi[1], -lo[0]})}, true
	}
	return b, false
}

// tidySheet fails where a text leaves its page, is smaller than can be read, or lies over another.
func tidySheet(t *testing.T, what string, pages []draft.Page) {
	t.Helper()
	for n, g := range pages {
		var texts []draft.Item
		var boxes []geom.Box2
		for _, x := range g.Items {
			if x.Kind != draft.Text {
				continue
			}
			size := x.Size
			if size == 0 {
				size = draft.Styles[x.Class].Size
			}
			if size < smallSize-1e-9 {
				t.Errorf("%s, page %d: %q is %.2f mm high", what, n+1, x.Words, size)
			}
			b, ok := turnedInk(x)
			if !ok {
				continue
			}
			if b.Min[0] < margin-3 || b.Max[0] > g.W-margin+3 || b.Min[1] < margin-3 || b.Max[1] > g.H-4 {
				t.Errorf("%s, page %d: %q at %v leaves the page of %g x %g", what, n+1, x.Words, b, g.W, g.H)
			}
			texts, boxes = append(texts, x), append(boxes, b)
		}
		order := make([]int, len(boxes))
		for i := range order {
			order[i] = i
		}
		slices.SortFunc(order, func(a, b int) int { return int(math.Copysign(1, boxes[a].Min[1]-boxes[b].Min[1])) })
		for i, a := range order {
			for _, b := range order[i+1:] {
				if boxes[b].Min[1] > boxes[a].Max[1] {
					break
				}
				if o, p := boxes[a], boxes[b]; o.Min[0] < p.Max[0]-0.1 && p.Min[0] < o.Max[0]-0.1 && o.Min[1] < p.Max[1]-0.1 && p.Min[1] < o.Max[1]-0.1 {
					t.Errorf("%s, page %d: %q at %v lies over %q at %v", what, n+1, texts[a].Words, o, texts[b].Words, p)
				}
			}
		}
	}
}

// Labels keep off each other, on every sheet of every part that we have, in both units, by several rules and on every paper.
func TestTidySheets(t *testing.T) {
	specs := testParts(t)
	for n, name := range keys(specs) {
		p := fold.Build(specs[name])
		if !p.Foldable {
			continue
		}
		rep := p.Quick()
		for i, o := range []Options{{}, {Units: fold.Inch, Paper: "Letter"}, {Rule: 0.1, Paper: "A3", Hand: "left"}, {Units: fold.Inch, Rule: 1.0 / 16, Paper: "Tabloid", Hand: "right", Other: true}, {TrueScale: true, Other: true}} {
			if i > 1 && (n+i)%3 > 0 { // not every part by every rule: it takes too long
				continue
			}
			pages, err := MarkingOut(p, &rep, o)
			require.NoError(t, err)
			tidySheet(t, fmt.Sprintf("%s %+v", name, o), pages)
			if o.Paper != "" {
				at := papersFrom(o.Paper)[0]
				assert.Equal(t, at, [2]float64{pages[len(pages)-1].W, pages[len(pages)-1].H}, "tables are on the paper asked for")
			}
		}
	}
}

// The same of random parts, and of parts with long names, tiny and huge ones.
func TestTidyRandom(t *testing.T) {
	seed := *seedFlag
	if seed == 0 {
		seed = uint64(time.Now().UnixNano())
	}
	r := rand.New(rand.NewPCG(seed, 7))
	made := 0
	for i := range 24 {
		s := foldtest.Random(r)
		if i%4 == 0 {
			s = foldtest.RandomTray(r)
		}
		if i%5 == 0 {
			s.Name = strings.Repeat("a very long name ", 12)
			for k := range s.Bends {
				s.Bends[k].Name = fmt.Sprintf("%s %d", strings.Repeat("Wide", 12), k)
			}
			s.Order, s.Base, s.Seams, s.Joins = nil, "", nil, nil
			s.Sheet.Metal = strings.Repeat("W", 150)
		}
		if k := []float64{1, 0.2, 40}[i%3]; k != 1 && i%2 == 1 {
			s = foldtest.Map(s, func(v geom.Vec2) geom.Vec2 { return v.Mul(k) })
		}
		p := fold.Build(s)
		if !p.Foldable {
			continue
		}
		made++
		rep := p.Quick()
		for _, o := range []Options{{}, {Units: fold.Inch, Hand: "left"}} {
			pages, err := MarkingOut(p, &rep, o)
			require.NoError(t, err)
			tidySheet(t, fmt.Sprintf("seed %d, part %d %+v", seed, i, o), pages)
			assert.Equal(t, pages, func() []draft.Page { again, _ := MarkingOut(p, &rep, o); return again }(), "the same twice")
		}
	}
	assert.Greater(t, made, 8)
}

// What the sheet promises stands on it: the order of marking, which face, which hand, the diagonals, the lines' names.
func TestSheetSays(t *testing.T) {
	parts := testParts(t)
	says := func(s fold.Spec, o Options) string { return strings.Join(sheetOf(t, s, o).all, " ") }
	tray := parts["assets/uncapping-tray.dryfold"]
	all := says(tray, Options{})
	last := -1
	for _, step := range []string{"Lay out, in this order", "Edges A and B: straight, square (400 up A, 300 along B: 500 across).", "All figures from A,", "all figures from B",
		"Scribe corners 1 to 50.", "Bend marks last", "Check the diagonals. Then cut.", "Sheet, diagonals", "Check before bending", "on the sheet “Check before bending”"} {
		at := strings.Index(all, step)
		assert.Greater(t, at, last, step)
		last = at
	}
	for _, want := range []string{"THIS FACE UP It is the good face.", "SCRIBE CUTS ONLY On this face. Never the marks of 4, 5, 6, 7: it is the good face.", "BENDS: FELT PEN Up, 4, 5, 6, 7: this face. Down, 1, 2, 3: other face. Inside the bend.",
		"mark: sight line", "held tangent line", "far tangent line", "FAA-H-8083-31", "pinch point", "Rounded to 0.5 mm."} {
		assert.Contains(t, all, want)
	}
	for _, not := range []string{"HAND", "TOO COARSE", "CALLIPER"} {
		assert.NotContains(t, all, not)
	}
	assert.Contains(t, says(parts["assets/hive-roof.dryfold"], Options{}), "BENDS: SOFT PENCIL", "aluminium")
	assert.Contains(t, says(parts["assets/hive-roof.dryfold"], Options{}), "on the good face below")
	assert.Contains(t, says(parts["assets/stand-bracket.dryfold"], Options{Units: fold.Inch}), "Punch hole centres, H1 to H6.")

	// Hands. A tray with one notch more on one side has another hand.
	one := tray
	one.Name = "Left tray"
	one.Holes = append(slices.Clone(one.Holes), fold.Hole{At: geom.Vec2{60, 100}, Diameter: 6})
	assert.Contains(t, says(one, Options{Hand: "left"}), "LEFT HAND")
	assert.NotContains(t, says(one, Options{Hand: "left"}), "OTHER HAND")
	other := says(one, Options{Hand: "left", Other: true})
	assert.Contains(t, other, "OTHER HAND: RIGHT")
	assert.Contains(t, other, "Right tray")
	assert.Contains(t, says(one, Options{Other: true}), "OTHER HAND")
	bracket := parts["assets/stand-bracket.dryfold"]
	bracket.Order = nil // which bend is first is no matter of hands
	assert.Contains(t, says(bracket, Options{Hand: "right"}), "BOTH HANDS ALIKE")
}

// The other hand's sheet gives the mirror image: every corner is as far from the blank's right end as it is from A on
// the part's own, and every hole.
func TestOtherHand(t *testing.T) {
	spec := testParts(t)["assets/uncapping-tray.dryfold"]
	spec.Holes = []fold.Hole{{At: geom.Vec2{60, 100}, Diameter: 6}}
	own, _ := sheetOf(t, spec, Options{Rule: 0.1}).spec(t, true)
	other, _ := sheetOf(t, spec, Options{Rule: 0.1, Other: true}).spec(t, true)
	wide := fold.Build(spec).Blank.Box.Size()[0]
	near := func(v geom.Vec2, in fold.Contour) bool {
		for _, q := range in {
			if q.At.Sub(v).Len() < 0.16 {
				return true
			}
		}
		return false
	}
	require.Len(t, other.Outline, len(own.Outline))
	for _, v := range own.Outline {
		assert.True(t, near(geom.Vec2{wide - v.At[0], v.At[1]}, other.Outline), "%v", v.At)
	}
	assert.InDelta(t, wide-own.Holes[0].At[0], other.Holes[0].At[0], 0.16)
	assert.False(t, near(own.Holes[0].At, fold.Contour{{At: other.Holes[0].At}}), "the hole is on one side")
	for i, b := range own.Bends {
		assert.Equal(t, b.Up, other.Bends[i].Up)
		assert.Equal(t, fold.OtherHand(b.Name), other.Bends[i].Name)
	}
}

// A rule that is too coarse for a seam is said so loudly; and with the figures that are to be marked with a calliper, and
// only these, the gaps keep their limits.
func TestTooCoarse(t *testing.T) {
	loud, healed := 0, 0
	specs := testParts(t)
	for _, name := range keys(specs) {
		p := fold.Build(specs[name])
		if !p.Foldable {
			continue
		}
		rep := p.Quick()
		for _, o := range []Options{{}, {Rule: 1}, {Rule: 2}, {Units: fold.Inch, Rule: 1.0 / 16}, {Units: fold.Inch, Rule: 1.0 / 32}} {
			pages, err := MarkingOut(p, &rep, o)
			require.NoError(t, err)
			sheet := readSheet(t, draft.Joined("", pages))
			all := strings.Join(sheet.all, " ")
			if !strings.Contains(all, "IS TOO COARSE HERE") {
				continue
			}
			loud++
			require.NotEmpty(t, sheet.tables["care"], name)
			assert.Contains(t, all, "by the table “With a calliper”")
			if strings.Contains(all, "Even so not every gap") {
				continue
			}
			// Its figures in place of the rule's.
			care := map[string][][]string{}
			for _, r := range sheet.tables["care"] {
				assert.NotContains(t, r[1]+r[2], "/", "a calliper reads decimals")
				care[r[0]] = append(care[r[0]], r[1:])
			}
			for table, rows := range sheet.tables {
				for _, r := range rows {
					switch fine := care["corner "+strings.TrimSuffix(r[0], " arc")]; {
					case table != "corners" && !strings.HasPrefix(table, "cutout"):
					case fine != nil:
						assert.InDelta(t, number(t, r[1]), number(t, fine[0][0]), 0.6*sheet.step(t))
						r[1], r[3] = fine[0][0], fine[0][1]
					}
				}
			}
			for _, r := range sheet.tables["lines"] {
				if r[1] != "mark" {
					continue
				}
				for e, end := range []string{"1st", "2nd"} {
					for _, fine := range care[fmt.Sprintf("mark %s, %s", r[0], end)] {
						if math.Abs(number(t, fine[0])-number(t, r[2+4*e])) < 0.6*sheet.step(t) && math.Abs(number(t, fine[1])-number(t, r[4+4*e])) < 0.6*sheet.step(t) {
							r[2+4*e], r[4+4*e] = fine[0], fine[1]
						}
					}
				}
			}
			s, _ := sheet.spec(t, true)
			q := fold.Build(s)
			require.True(t, q.Foldable, name)
			got := q.Quick()
			for i, was := range rep.Seams {
				for _, is := range got.Seams {
					if is.Name != fmt.Sprint("seam ", i) {
						continue
					}
					healed++
					if was.Limit != nil && !was.Open && was.GapMax <= *was.Limit {
						assert.LessOrEqual(t, is.GapMax, *was.Limit+0.05, "%s %+v, %s", name, o, was.Name)
					}
					if was.GapMin >= 0 {
						assert.GreaterOrEqual(t, is.GapMin, -0.05, "%s %+v, %s", name, o, was.Name)
					}
				}
			}
		}
	}
	assert.Greater(t, healed, 10)
	assert.Greater(t, loud, 3)
}

// The finest divisions that rules have, against arithmetic on whole numbers.
func TestRuler(t *testing.T) {
	for _, parts := range []int{2, 4, 8, 16, 32, 64} {
		r, err := newRuler(fold.Inch, 1/float64(parts))
		require.NoError(t, err)
		for n := range 3 * parts {
			for _, off := range []float64{-0.49, 0, 0.49} {
				x := (float64(n) + off) / float64(parts)
				if x < 0 {
					continue
				}
				assert.Equal(t, float64(n)/float64(parts), number(t, r.say(x)), "%g by 1/%d is %s", x, parts, r.say(x))
				assert.NotRegexp(t, `[02468]/[0-9]*[02468]$`, r.say(x), "in lowest terms")
			}
		}
	}
	inch, _ := newRuler(fold.Inch, 0)
	assert.Equal(t, "12 17/64", inch.say(12.2656))
	assert.Equal(t, "12", inch.say(11.9999))
	assert.Equal(t, "3/8", inch.say(0.375))
	assert.Equal(t, "+0.004", inch.off(12.2616))
	assert.Equal(t, "−0.004", inch.off(12.2696))
	assert.Equal(t, "0", inch.off(12.2654))
	assert.Equal(t, "1/64 in", inch.name())
	mm, _ := newRuler(fold.MM, 0)
	for x, want := range map[float64]string{12.24: "12.0", 12.26: "12.5", 0: "0.0", -0.1: "0.0", 349.6641: "349.5"} {
		assert.Equal(t, want, mm.say(x))
	}
	assert.Equal(t, "−0.2", mm.off(349.6641))
	for _, c := range []struct {
		u    fold.Units
		step float64
		say  string
	}{{fold.MM, 1, "12"}, {fold.MM, 0.1, "12.3"}, {fold.MM, 0.25, "12.25"}, {fold.MM, 0.02, "12.34"}, {fold.Inch, 0.01, "12.35"}, {fold.Inch, 0.001, "12.346"}, {fold.Inch, 0.5, "12 1/2"}} {
		r, err := newRuler(c.u, c.step)
		require.NoError(t, err)
		assert.Equal(t, c.say, r.say(12.3456), "%v", c)
	}
	for _, c := range []struct {
		u    fold.Units
		step float64
	}{{fold.MM, -1}, {fold.MM, 0.001}, {fold.MM, 11}, {fold.MM, math.NaN()}, {fold.MM, math.Inf(1)}, {fold.MM, 1.0 / 3}, {fold.Inch, 1.0 / 3}, {fold.Inch, 1}, {fold.Inch, 1e-9}} {
		_, err := newRuler(c.u, c.step)
		assert.ErrorContains(t, err, "the rule's finest division", "%v", c)
	}
}

// Options that are none are named.
func TestBadOptions(t *testing.T) {
	p := fold.Build(testParts(t)["testdata/parts/channel.dryfold"])
	rep := p.Quick()
	for want, o := range map[string]Options{"the rule's finest division: -1 mm": {Rule: -1}, `the paper: "A5"`: {Paper: "A5"}, `the hand: "middle"`: {Hand: "middle"}} {
		pages, err := MarkingOut(p, &rep, o)
		assert.ErrorContains(t, err, want)
		assert.Empty(t, pages)
	}
}

// The marks are where the sight line is: one inside radius from the held tangent line (FAA-H-8083-31), worked out here
// from the printed tangent lines and radius.
func TestMarks(t *testing.T) {
	specs := testParts(t)
	for _, name := range keys(specs) {
		p := fold.Build(specs[name])
		if !p.Foldable {
			continue
		}
		rep := p.Quick()
		pages, err := MarkingOut(p, &rep, Options{Rule: 0.01})
		require.NoError(t, err)
		for _, b := range readSheet(t, draft.Joined("", pages)).bends(t) {
			l := b.lines
			for i := range 2 {
				held, far, mark, middle := l["held tangent"][i], l["far tangent"][i], l["mark"][i], l["middle"][i]
				if n := far.Sub(held).Len(); math.Abs(n-b.takes) < 0.03 && b.takes > 0.5 { // elsewhere A or B cuts a line off
					assert.InDelta(t, 0, held.Add(far.Sub(held).Mul(b.radius/n)).Sub(mark).Len(), 0.03*max(1, b.radius/n), "%s, %s: mark", name, b.name)
					assert.InDelta(t, 0, held.Add(far).Mul(0.5).Sub(middle).Len(), 0.03, "%s, %s: middle", name, b.name)
				}
			}
		}
	}
}

// Goldens: the tray in mm, the bracket in inches.
func TestSheetGolden(t *testing.T) {
	specs := testParts(t)
	for name, u := range map[string]fold.Units{"uncapping-tray": fold.MM, "stand-bracket": fold.Inch} {
		p := fold.Build(specs["assets/"+name+".dryfold"])
		rep := p.Check()
		pages, err := MarkingOut(p, &rep, Options{Units: u})
		require.NoError(t, err)
		golden(t, "testdata/marking-"+name+".txt", pages)
	}
}
