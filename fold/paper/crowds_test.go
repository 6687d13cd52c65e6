package paper

import (
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"dryfold/fold"
	"dryfold/fold/draft"
	"dryfold/fold/geom"
)

// Every corner of the tray is numbered once, in the drawing or enlarged: of those in the drawing none lies near both its
// neighbours, of those enlarged each lies near one. Distances are taken from the part file's own corners.
func TestCrowdedCornersAreEnlarged(t *testing.T) {
	p := fold.Build(testParts(t)["assets/uncapping-tray.dryfold"])
	rep := p.Quick()
	for _, o := range []Options{{}, {Units: fold.Inch}, {Paper: "A3"}} {
		pages, err := MarkingOut(p, &rep, o)
		require.NoError(t, err)
		drawn, large, scale := map[int]int{}, map[int]int{}, 0.0
		for _, g := range pages {
			var groups []string
			for _, x := range g.Items {
				switch x.Kind {
				case draft.Open:
					groups = append(groups, x.Class)
				case draft.Close:
					groups = groups[:len(groups)-1]
				case draft.Text:
					if s, ok := strings.CutPrefix(x.Words, "1 : "); ok && x.Class == "fact" {
						v, err := strconv.ParseFloat(s, 64)
						require.NoError(t, err)
						scale = 1 / v
					}
					no, err := strconv.Atoi(x.Words)
					if err != nil || !slices.Contains(groups, "numbers") {
						continue
					}
					if slices.Contains(groups, "place") {
						large[no]++
					} else {
						drawn[no]++
					}
				}
			}
		}
		outline := takeMarks(p, calliper(fold.MM, 3)).contours[0]
		n := len(outline)
		require.NotEmpty(t, large)
		for i, k := range outline {
			a := outline[(i+n-1)%n].exact.Sub(k.exact).Len()*scale < crowdFrom
			b := outline[(i+1)%n].exact.Sub(k.exact).Len()*scale < crowdFrom
			require.Equal(t, 1, drawn[k.no]+large[k.no], "corner %d, %v", k.no, o)
			if large[k.no] > 0 {
				require.True(t, a || b, "corner %d is enlarged, %v", k.no, o)
			} else {
				require.False(t, a && b, "corner %d is not enlarged, %v", k.no, o)
			}
		}
	}
}

// The tray's fall is bent so little that its tangent lines lie 0.49 mm apart (its allowance): no rule makes them one figure.
func TestTangentLinesDoNotRunTogether(t *testing.T) {
	spec := testParts(t)["assets/uncapping-tray.dryfold"]
	p := fold.Build(spec)
	for _, o := range []Options{{}, {Rule: 1}, {Units: fold.Inch}, {Units: fold.Inch, Rule: 1.0 / 16}} {
		sheet := sheetOf(t, spec, o)
		for _, r := range sheet.tables["bends"] {
			if a, b, ok := strings.Cut(r[len(r)-1], ", "); ok {
				require.NotEqual(t, a, b, "%s, %v", r[1], o)
				if r[1] == "fall" {
					i := slices.IndexFunc(p.Bends, func(b fold.Bend) bool { return b.Name == "fall" })
					require.InDelta(t, p.Bends[i].Allowance/o.Units.Scale(), number(t, b)-number(t, a), 0.11/o.Units.Scale())
				}
			}
		}
	}
}

// One bend's lines stand enlarged on the first page of the tray's sheet, also of that for the other hand and in inches.
func TestLinesOfABendStayOnTheFirstPage(t *testing.T) {
	p := fold.Build(testParts(t)["assets/uncapping-tray.dryfold"])
	rep := p.Quick()
	for _, o := range []Options{{}, {Other: true}, {Other: true, Hand: "left"}, {Units: fold.Inch}, {Units: fold.Inch, Other: true, Hand: "left"}} {
		pages, err := MarkingOut(p, &rep, o)
		require.NoError(t, err)
		require.Contains(t, pageWords(pages[0]), "Lines of bend", "%+v", o)
	}
}

// At full size every panel of the tray has its name inside itself, by the part's own regions.
func TestPanelNames(t *testing.T) {
	p := fold.Build(testParts(t)["assets/uncapping-tray.dryfold"])
	box := p.Blank.Box
	var g draft.Page
	panelNames(&g, p, func(v geom.Vec2) geom.Vec2 { return geom.Vec2{v[0] - box.Min[0], box.Max[1] - v[1]} }, &placer{limit: geom.Box2{Max: box.Size()}})
	named := map[string]bool{}
	for _, x := range g.Items {
		if x.Kind == draft.Text {
			i := slices.IndexFunc(p.Panels, func(q fold.Panel) bool { return q.Name == x.Words })
			require.GreaterOrEqual(t, i, 0, x.Words)
			require.True(t, p.Panels[i].Region.Contains(geom.Vec2{x.At[0] + box.Min[0], box.Max[1] - x.At[1]}), x.Words)
			named[x.Words] = true
		}
	}
	require.Len(t, named, len(p.Panels))
}
