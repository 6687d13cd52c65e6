package paper

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"dryfold/fold"
	"dryfold/fold/draft"
	"dryfold/fold/geom"
)

// TestRebuilt makes each part again from the text of its sheet alone, folds it,
// and finds the seams' gaps and the finished sizes within what the sheet says
// its rounding is worth. With the bends where their marks lie; by their middles, within a division more.
func TestRebuilt(t *testing.T) {
	specs := testParts(t)
	seams, fractions := 0, 0
	for _, name := range keys(specs) {
		p := fold.Build(specs[name])
		if !p.Foldable {
			continue
		}
		rep := p.Quick()
		for _, o := range []Options{{}, {TrueScale: true, Rule: 0.1}, {Units: fold.Inch}, {Units: fold.Inch, Rule: 1.0 / 16}, {Units: fold.Inch, Rule: 0.001}, {Rule: 1}} {
			t.Run(fmt.Sprintf("%s %s %g", name, o.Units, o.Rule), func(t *testing.T) {
				pages, err := MarkingOut(p, &rep, o)
				data := draft.Joined(p.Spec.Name, pages)
				if err != nil {
					t.Fatal(err)
				}
				sheet := readSheet(t, data)
				all := strings.Join(sheet.all, " ")
				if strings.Contains(all, "could not be found: cut by the part file") {
					t.Fatal("the sheet gives up")
				}
				if strings.Contains(all, "/64") {
					fractions++
				}
				for _, byMark := range []bool{true, false} {
					s, _ := sheet.spec(t, byMark)
					// Which panel lies still is no matter of marking out.
					base := p.Panels[p.Base]
					s.Base, s.Panels = "base", []fold.PanelName{{Name: "base", At: base.Label.Sub(p.Blank.Box.Min).Mul(1 / s.Units.Scale())}}
					q := fold.Build(s)
					if !byMark && !q.Foldable {
						continue // bends on one line, drawn as two that are not
					}
					for _, tr := range q.Troubles {
						if tr.Severity == fold.Stop {
							t.Fatalf("rebuilt: %s", tr.Message)
						}
					}
					got := q.Quick()
					more := 0.02
					if !byMark {
						more += 2.5 * sheet.step(t) * s.Units.Scale()
					}
					says := `no finished size moves by more than ([0-9.]+)`
					size := number(t, strings.TrimSuffix(sheet.line(t, says), ".")) * s.Units.Scale()
					for k := range 3 {
						if d := math.Abs(got.Finished.Box()[k] - rep.Finished.Box()[k]); d > size+more {
							t.Errorf("by marks %v: finished size %d: %.4f, was %.4f: off by more than the %.3f stated", byMark, k, got.Finished.Box()[k], rep.Finished.Box()[k], size)
						}
					}
					if len(rep.Seams) == 0 || !byMark {
						continue
					}
					worth := number(t, sheet.line(t, `no gap by more than ([0-9.]+) `)) * s.Units.Scale()
					for i, was := range rep.Seams {
						n := fmt.Sprint("seam ", i)
						found := false
						for _, is := range got.Seams {
							if is.Name != n {
								continue
							}
							found = true
							seams++
							d := max(math.Abs(is.GapMin-was.GapMin), math.Abs(is.GapMax-was.GapMax))
							if was.GapMin < 0 { // where edges lie in each other the largest gap jumps as one slides past the other's end
								d = math.Abs(is.GapMin - was.GapMin)
							}
							if d > worth+more {
								t.Errorf("%s: gap %.4f to %.4f, was %.4f to %.4f: off by more than the %.3f stated", was.Name, is.GapMin, is.GapMax, was.GapMin, was.GapMax, worth)
							}
							// What is past its limit is said loudly.
							if was.Limit != nil && !was.Open && was.GapMax <= *was.Limit && is.GapMax > *was.Limit+0.05 && !strings.Contains(all, "TOO COARSE") {
								t.Errorf("%s opens to %.3f, past %.3f, and nothing is said", was.Name, is.GapMax, *was.Limit)
							}
						}
						if !found {
							t.Errorf("seam %s is not found in the rebuilt part: %v", was.Name, s.Seams[i])
						}
					}
				}
			})
		}
	}
	if seams < 8 || fractions < 8 {
		t.Errorf("only %d seams were compared, %d sheets in fractions", seams, fractions)
	}
}

// line joins the sheet's text, which may break anywhere, and finds in that.
func (p printed) line(t testing.TB, re string) string {
	t.Helper()
	return printed{all: []string{strings.Join(p.all, " ")}}.find(t, re)
}

// TestDrawnAndListed: every distance in the tables stands in the drawing's
// running dimensions too, and the sheet carries its stamp and cautions.
func TestDrawnAndListed(t *testing.T) {
	specs := testParts(t)
	for _, name := range keys(specs) {
		p := fold.Build(specs[name])
		if !p.Foldable {
			continue
		}
		rep := p.Quick()
		pages, err := MarkingOut(p, &rep, Options{})
		data := draft.Joined(p.Spec.Name, pages)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		sheet := readSheet(t, data)
		drawn := map[string]bool{}
		for _, d := range sheet.dims {
			if _, v, named := strings.Cut(d, " – "); named {
				d = v
			}
			drawn[d] = true
		}
		listed := func(table, what string, cells ...string) {
			for _, c := range cells {
				if !drawn[c] {
					t.Errorf("%s: %s, %v: %s is not among the running dimensions", name, table, what, c)
				}
			}
		}
		for _, table := range []string{"corners", "cutout 1", "holes"} {
			for _, r := range sheet.tables[table] {
				r = sheet.cells(t, r, 1, 2)
				listed(table, r[0], r[1], r[2])
			}
		}
		for _, r := range sheet.tables["lines"] {
			r = sheet.cells(t, r, 2, 4)
			switch {
			case r[1] != "mark":
			case r[2] == r[4]:
				listed("lines", r[0], r[2])
			case r[3] == r[5]:
				listed("lines", r[0], r[3])
			default:
				listed("lines", r[0], r[2:6]...)
			}
		}
		for i, r := range sheet.tables["bends"] {
			mark := sheet.cells(t, sheet.tables["lines"][4*i], 2, 4)
			if from := strings.Fields(r[3])[0]; from != mark[2] && from != mark[3] {
				t.Errorf("%s: bend %s's mark is %q and its line %v", name, r[0], r[3], mark)
			}
		}
		if got, want := len(sheet.tables["bends"]), len(p.Bends); got != want {
			t.Errorf("%s: %d bends are listed, want %d", name, got, want)
		}
		if got, want := len(sheet.tables["holes"]), len(p.Spec.Holes); got != want {
			t.Errorf("%s: %d holes are listed, want %d", name, got, want)
		}
		for _, want := range []string{"THIS FACE UP", "Prove it square"} {
			sheet.find(t, "("+want+")")
		}
		if c := sheet.line(t, `(Cautions\..*)`); !strings.Contains(c, "razor edges") || !strings.Contains(c, "a qualified person where one is required.") {
			t.Errorf("%s: cautions are missing: %s", name, c)
		}
	}
}

// TestBigParts: sheets of many corners and of extreme sizes are made, and stay bounded.
func TestBigParts(t *testing.T) {
	comb := func(n int, pitch float64) fold.Contour { // teeth along the lower edge
		c := fold.Contour{}
		for i := range n {
			x := float64(i) * pitch
			for _, v := range []geom.Vec2{{x, 0}, {x + pitch/2, 0}, {x + pitch/2, pitch}, {x + pitch, pitch}} {
				c = append(c, fold.Vertex{At: v})
			}
		}
		w := float64(n) * pitch
		return append(c, fold.Vertex{At: geom.Vec2{w, 5 * pitch}}, fold.Vertex{At: geom.Vec2{0, 5 * pitch}})
	}
	k := 0.4
	for _, c := range []struct {
		n     int
		pitch float64
	}{{1, 0.5}, {10, 3}, {200, 5}, {1000, 50}, {3, 100000}} {
		w := float64(c.n) * c.pitch
		p := fold.Build(fold.Spec{
			Name: "comb", Sheet: fold.Sheet{Thickness: c.pitch / 10, K: &k}, Outline: comb(c.n, c.pitch),
			Bends: []fold.BendSpec{{Line: [2]geom.Vec2{{0, 3 * c.pitch}, {w, 3 * c.pitch}}, Angle: 90, Radius: c.pitch / 10}},
		})
		rep := p.Quick()
		for _, o := range []Options{{}, {TrueScale: true}} {
			pages, err := MarkingOut(p, &rep, o)
			data := draft.Joined(p.Spec.Name, pages)
			if err != nil {
				t.Errorf("%d teeth of %g: %v", c.n, c.pitch, err)
				continue
			}
			sheet := readSheet(t, data)
			if got, want := len(sheet.tables["corners"]), 4*c.n+2; got != want {
				t.Errorf("%d teeth of %g: %d corners are listed, want %d", c.n, c.pitch, got, want)
			}
			if len(data) > 2700*(c.n+40) {
				t.Errorf("%d teeth of %g: %d bytes", c.n, c.pitch, len(data))
			}
		}
	}
}

// TestHostileNames: whatever a name holds reaches the sheet as text.
func TestHostileNames(t *testing.T) {
	k := 0.4
	for _, name := range []string{`</text><script>alert(1)</script>`, `a & b < c > d "e" 'f'`, "nul \x00, bell \a", "\xff broken", "]]>", strings.Repeat("W", 200)} {
		p := fold.Build(fold.Spec{
			Name: name, Sheet: fold.Sheet{Thickness: 1, K: &k, Metal: name},
			Outline: fold.Contour{{At: geom.Vec2{0, 0}}, {At: geom.Vec2{100, 0}}, {At: geom.Vec2{100, 50}}, {At: geom.Vec2{0, 50}}},
			Bends:   []fold.BendSpec{{Name: name, Line: [2]geom.Vec2{{40, 0}, {40, 50}}, Angle: 90, Radius: 1}},
		})
		rep := p.Quick()
		pages, err := MarkingOut(p, &rep, Options{})
		data := draft.Joined(p.Spec.Name, pages)
		if err != nil {
			t.Fatal(err)
		}
		readSheet(t, data)
		readSheet(t, draft.SVG(Blank(p)))
	}
}

// TestUnfoldable: a part that can't be folded gives an error that says why.
func TestUnfoldable(t *testing.T) {
	p := fold.Build(fold.Spec{Name: "bow tie", Sheet: fold.Sheet{Thickness: 1},
		Outline: fold.Contour{{At: geom.Vec2{0, 0}}, {At: geom.Vec2{100, 100}}, {At: geom.Vec2{100, 0}}, {At: geom.Vec2{0, 100}}}})
	rep := p.Quick()
	if _, err := MarkingOut(p, &rep, Options{}); err == nil || !strings.Contains(err.Error(), "outline") {
		t.Errorf("got %v, want the outline named", err)
	}
	readSheet(t, draft.SVG(Blank(p)))
}
