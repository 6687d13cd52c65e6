package paper

import (
	"fmt"
	"math"
	"os"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"dryfold/fold"
	"dryfold/fold/cutting"
	"dryfold/fold/draft"
	"dryfold/fold/foldtest"
	"dryfold/fold/geom"
	"dryfold/fold/partfile"
	"dryfold/fold/shape"
	"dryfold/fold/sizes"
)

func demoPart(t testing.TB, name string) *fold.Part {
	t.Helper()
	data, err := os.ReadFile(name)
	require.NoError(t, err)
	s, err := partfile.Read(data)
	require.NoError(t, err)
	if s.Sizes == nil {
		return fold.Build(s)
	}
	m, problems := shape.Make(s)
	require.Empty(t, problems)
	return m.Part
}

// cutPages makes a part’s cutting sheet, and reads it back.
func cutPages(t *testing.T, p *fold.Part, tools sizes.Tools, o Options) (cutting.Plan, []draft.Page, printed) {
	t.Helper()
	rep := p.Quick()
	plan := cutting.Make(p, tools)
	pages, err := Cutting(p, &rep, plan, o)
	require.NoError(t, err)
	require.NotEmpty(t, pages)
	return plan, pages, readSheet(t, draft.Joined(p.Spec.Name, pages))
}

// Every edge of every demo part stands in the table of steps once, by the numbers of the marking-out sheet’s corners; every drilled place
// in the drill list, at its place; everything stands inside the margins.
func TestCuttingSheet(t *testing.T) {
	specs := testParts(t)
	for _, name := range keys(specs) {
		p := fold.Build(specs[name])
		if specs[name].Sizes != nil {
			p = demoPart(t, "../../"+name)
		}
		if !p.Foldable {
			continue
		}
		for i, o := range []Options{{}, {Units: fold.Inch, Paper: "Letter"}, {Paper: "A3"}} {
			if i > 1 && !strings.HasPrefix(name, "assets/") {
				continue
			}
			rep := p.Quick()
			marking, err := MarkingOut(p, &rep, Options{Units: o.Units})
			require.NoError(t, err)
			_, corners := readSheet(t, draft.Joined("", marking)).spec(t, false)
			for _, tools := range []sizes.Tools{{}, {ShearsLength: 1000, Nibbler: 3, Disc: 1.2}} {
				plan, pages, text := cutPages(t, p, tools, o)
				checkCutSheet(t, p, plan, pages, text, o, corners)
			}
		}
	}
}

// checkCutSheet holds a sheet against its plan; corners are those that the marking-out sheet prints, in its units.
func checkCutSheet(t *testing.T, p *fold.Part, plan cutting.Plan, pages []draft.Page, text printed, o Options, corners map[int]geom.Vec2) {
	t.Helper()
	scale := o.Units.Scale()
	ends := map[string]int{} // how often each edge is named
	for _, row := range stepRows(pages) {
		for _, m := range regexp.MustCompile(`(\d+)–(\d+)`).FindAllStringSubmatch(row, -1) {
			ends[m[0]]++
		}
	}
	origin := p.Blank.Box.Min
	found := 0
	for i := range plan.Edges {
		e := &plan.Edges[i]
		if e.Whole || e.Corners[0] < 0 {
			continue
		}
		drilled := plan.Steps[e.Step-1].Kind == cutting.Bored
		near := func(name string) bool {
			a, b, _ := strings.Cut(name, "–")
			x, y := corners[int(number(t, a))].Mul(scale), corners[int(number(t, b))].Mul(scale)
			f, g := e.A.Sub(origin), e.B.Sub(origin)
			const off = 0.51 // half of what a rule shows, each way
			return x.Sub(f).Len() < off && y.Sub(g).Len() < off || x.Sub(g).Len() < off && y.Sub(f).Len() < off
		}
		n := 0
		for name, times := range ends {
			if near(name) {
				n += times
			}
		}
		if drilled {
			continue // the drill list has it
		}
		require.GreaterOrEqual(t, n, 1, "%s: the edge from %v to %v is in no step: %v", p.Spec.Name, e.A, e.B, ends)
		found++
	}
	require.Greater(t, found, 2)
	total := 0
	for _, n := range ends {
		total += n
	}
	require.Equal(t, found, total, "edges that the steps name")
	// The drill list.
	rows := text.tables["drills"]
	rep := p.Quick()
	words, err := CuttingWords(p, &rep, plan, o)
	require.NoError(t, err)
	require.Len(t, rows, len(plan.Drills))
	for i, b := range plan.Drills {
		row := rows[i]
		require.Equal(t, "D"+strconv.Itoa(i+1), row[0])
		at := geom.Vec2{number(t, row[1]), number(t, row[2])}.Mul(scale)
		require.InDelta(t, 0, at.Sub(b.At.Sub(origin)).Len(), 0.2501*math.Sqrt2, // half of 0.5 mm each way
			"%v", row)
		require.Contains(t, strings.Join(row, " "), strings.Fields(b.Size)[0])
		w := words.Drills[i]
		require.Equal(t, row[:3], []string{w.No, w.A, w.B}, "the page shows what is printed")
	}
	// Nothing printed lies off its page.
	for _, g := range pages {
		for _, x := range g.Items {
			if x.Kind != draft.Text {
				continue
			}
			size := x.Size
			if size == 0 {
				size = draft.Styles[x.Class].Size
			}
			w := draft.Width(x.Words, size)
			lo := x.At[0] - w*[...]float64{0, 0.5, 1}[x.To]
			require.Greater(t, lo, 3.0, "%s: %q", p.Spec.Name, x.Words)
			require.Less(t, lo+w, g.W-3, "%s: %q", p.Spec.Name, x.Words)
			require.Greater(t, x.At[1], 5.0, x.Words)
			require.Less(t, x.At[1], g.H-4, "%s: %q", p.Spec.Name, x.Words)
		}
	}
	all := strings.Join(text.all, " ")
	for _, w := range []string{"razor edges", "qualified person", "In this order"} {
		require.Contains(t, all, w)
	}
}

// stepRows is the text of each row of the steps.
func stepRows(pages []draft.Page) (out []string) {
	var groups []string
	row := ""
	for _, g := range pages {
		for _, x := range g.Items {
			switch x.Kind {
			case draft.Open:
				groups = append(groups, x.Class)
				row = ""
			case draft.Close:
				if n := len(groups); n > 1 && groups[n-1] == "row" && groups[n-2] == "steps" {
					out = append(out, row)
				}
				groups = groups[:len(groups)-1]
			case draft.Text:
				row += x.Words + " "
			}
		}
	}
	return out
}

// What is struck out is crossed out; what is amiss stands at the head; the hand is told.
func TestCuttingSays(t *testing.T) {
	s := fold.Spec{Name: "plate", Sheet: fold.Sheet{Thickness: 1}, Outline: foldtest.Points(0, 0, 300, 0, 300, 200, 20, 200, 0, 120),
		Bends:  []fold.BendSpec{{Line: [2]geom.Vec2{{100, 0}, {100, 200}}, Angle: 90, Radius: 1, Up: true}},
		Struck: []fold.StruckLine{{Line: [2]geom.Vec2{{150, 20}, {250, 20}}}}}
	p := fold.Build(s)
	_, _, other := cutPages(t, p, sizes.Tools{ShearsLength: 250}, Options{Hand: "left", Other: true})
	all := strings.Join(other.all, " ")
	require.NotContains(t, all, "DON’T CUT") // the line was scribed on this hand's sheet
	require.Contains(t, all, "WATCH: The edge at")
	require.Contains(t, all, "longer than the shears")
	require.Contains(t, all, "OTHER HAND: RIGHT")
	// What is amiss is told in full: 20 slots under the saw's cut, each by its place from A and B, which here are the
	// file's x + 30 and y - 40.
	comb := fold.Spec{Name: "comb", Sheet: fold.Sheet{Thickness: 1}, Outline: foldtest.Points(-30, 40, 470, 40, 470, 100)}
	for i := 19; i >= 0; i-- {
		x := 20 * float64(i)
		comb.Outline = append(comb.Outline, foldtest.Points(x+0.5, 100, x+0.5, 80, x, 80, x, 100)...)
	}
	comb.Outline = append(comb.Outline, foldtest.Points(-30, 100)...)
	_, many, text := cutPages(t, fold.Build(comb), sizes.Tools{}, Options{})
	told := strings.Join(text.all, " ")
	require.Contains(t, told, "What else is amiss")
	require.NotContains(t, told, "which the page tells")
	require.Greater(t, len(many), 1)
	for i := range 20 {
		require.Contains(t, strings.ReplaceAll(told, " mm", "mm"), strconv.FormatFloat(30.3+20*float64(i), 'f', 1, 64)+"mm from A (left) and 40.0mm from B")
	}
	_, pages, text := cutPages(t, p, sizes.Tools{ShearsLength: 250}, Options{})
	require.Contains(t, strings.Join(text.all, " "), "DON’T CUT")
	require.Len(t, pages, 1, "a plain plate stands on one page")
	s.Struck[0].Line = [2]geom.Vec2{{150, 0}, {250, 0}}
	_, _, text = cutPages(t, fold.Build(s), sizes.Tools{}, Options{Units: fold.Inch})
	require.Contains(t, strings.Join(text.all, " "), "STOP: Struck line 1 lies on an edge")
	rep := p.Quick()
	_, err := Cutting(p, &rep, cutting.Plan{}, Options{})
	require.ErrorContains(t, err, "nothing to cut")
	_, err = Cutting(p, &rep, cutting.Make(p, sizes.Tools{}), Options{Paper: "A9"})
	require.ErrorContains(t, err, "one of A4")
}

// Blanks long, tiny, of many edges and of many drills have sheets in moments, and what is left out is told.
func TestCuttingLarge(t *testing.T) {
	long := fold.Spec{Name: strings.Repeat("long ", 40), Sheet: fold.Sheet{Thickness: 1}, Outline: foldtest.Points(0, 0, 9000, 0, 9000, 3, 0, 3)}
	tiny := fold.Spec{Name: "tiny", Sheet: fold.Sheet{Thickness: 1}, Outline: foldtest.Points(0, 0, 2, 0, 2, 1, 0, 1)}
	holes := fold.Spec{Name: "holes", Sheet: fold.Sheet{Thickness: 1}, Outline: foldtest.Points(0, 0, 900, 0, 900, 500, 0, 500)}
	for i := range 700 {
		holes.Holes = append(holes.Holes, fold.Hole{At: geom.Vec2{10 + 20*float64(i%40), 10 + 20*float64(i/40)}, Diameter: 5})
	}
	teeth := fold.Spec{Name: "teeth", Sheet: fold.Sheet{Thickness: 1}, Outline: foldtest.Points(0, -50, 6000, -50)}
	for i := 299; i >= 0; i-- {
		x := 20 * float64(i)
		teeth.Outline = append(teeth.Outline, foldtest.Points(x+20, 0, x+10, 15, x, 0)...)
	}
	for _, s := range []fold.Spec{long, tiny, holes, teeth} {
		_, pages, text := cutPages(t, fold.Build(s), sizes.Tools{}, Options{})
		require.Less(t, len(pages), 40)
		if s.Name == "teeth" {
			require.Contains(t, strings.Join(text.all, " "), "more")
		}
	}
}

func BenchmarkCutting(b *testing.B) {
	p := demoPart(b, "../../assets/uncapping-tray.dryfold")
	rep := p.Quick()
	for b.Loop() {
		if _, err := Cutting(p, &rep, cutting.Make(p, sizes.Tools{}), Options{}); err != nil {
			b.Fatal(err)
		}
	}
}

// The uncapping tray’s sheet in words, in mm and inches: testdata/cutting-*.txt, made anew with -update.
func TestCuttingGolden(t *testing.T) {
	p := demoPart(t, "../../assets/uncapping-tray.dryfold")
	for _, o := range []Options{{}, {Units: fold.Inch, Paper: "Letter", Hand: "left", Other: true}} {
		_, pages, _ := cutPages(t, p, sizes.Tools{ShearsLength: 610}, o)
		var b strings.Builder
		for _, g := range pages {
			fmt.Fprintf(&b, "== %s, %.1f by %.1f\n", g.Title, g.W, g.H)
			for _, x := range g.Items {
				if x.Kind == draft.Text {
					fmt.Fprintf(&b, "%.1f %.1f %s\n", x.At[0]+0, x.At[1]+0, x.Words)
				}
			}
		}
		golden := "testdata/cutting-uncapping-tray-" + o.Units.String() + ".txt"
		if *updateFlag {
			require.NoError(t, os.WriteFile(golden, []byte(b.String()), 0o644))
		}
		want, err := os.ReadFile(golden)
		require.NoError(t, err)
		require.Equal(t, string(want), b.String(), "%s: go test ./fold/paper -run CuttingGolden -update, and read the difference", golden)
	}
}
