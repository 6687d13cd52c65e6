package paper

import (
	"errors"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dryfold/fold"
	"dryfold/fold/foldtest"
	"dryfold/fold/geom"
	"dryfold/fold/partfile"
	"dryfold/fold/shape"
	"dryfold/fold/sizes"
)

func makeSizes(s fold.Spec) (fold.Spec, error) {
	m, wrong := shape.Make(s)
	if len(wrong) > 0 {
		return s, errors.New(wrong[0].Error())
	}
	return m.Spec, nil
}

// bySizes are the parts of testdata/sizes, made, with their form.
func bySizes(t testing.TB) map[string]*fold.Part {
	t.Helper()
	out := map[string]*fold.Part{}
	files, _ := filepath.Glob("../../testdata/sizes/*.dryfold")
	for _, f := range files {
		data, err := os.ReadFile(f)
		require.NoError(t, err)
		s, err := partfile.Read(data)
		require.NoError(t, err)
		m, wrong := shape.Make(s)
		require.Empty(t, wrong, f)
		require.NotNil(t, m.Part.Spec.Sizes)
		out[filepath.Base(f)] = m.Part
	}
	require.Greater(t, len(out), 2)
	return out
}

// The panels of chains in card have the metal's outside sizes: from sharp to sharp, (R+T) tan(angle/2) past each tangent line and
// R+T beyond 90 degrees, FAA-H-8083-31 ch. 4. Scored folds take nothing: the blank is as long as its inside faces.
func TestCardChains(t *testing.T) {
	r := seedOf(t)
	done, no := 0, 0
	for range 80 {
		p := fold.Build(foldtest.RandomChain(r).Spec())
		if !p.Foldable {
			continue
		}
		o := CardOptions{Thickness: foldtest.LogUniform(r, 0.5, 3), Crease: []string{Scored, Creased}[r.IntN(2)]}
		o.Paper, o.Roll = Roll, 1000
		_, s, err := Card(p, o)
		if err != nil {
			var f *FieldError
			require.ErrorAs(t, err, &f)
			no++
			continue
		}
		q := fold.Build(s)
		require.True(t, q.Foldable)
		require.InDelta(t, o.Thickness, q.Thickness, 1e-12)
		was, is := outsideLengths(p), outsideLengths(q)
		require.Len(t, is, len(was))
		for i := range was {
			require.InDelta(t, was[i], is[i], 1e-6)
		}
		for i := range q.Bends {
			b := &q.Bends[i]
			if b.Angle.Degrees() >= foldedBack {
				continue
			}
			want := map[string]float64{Scored: 0, Creased: float64(b.Angle) * o.Thickness / 2}[o.Crease]
			require.InDelta(t, want, b.Allowance, 1e-9)
		}
		done++
	}
	t.Logf("%d made, %d refused", done, no)
	if *seedFlag == 1 {
		assert.Greater(t, done, 40)
	}
}

// outsideLengths are the outside sizes of a chain's panels, along it.
func outsideLengths(p *fold.Part) []float64 {
	type panel struct{ at, long float64 }
	var list []panel
	for k := range p.Panels {
		lo, hi := math.Inf(1), math.Inf(-1)
		for _, v := range p.Panels[k].Region.Outer {
			lo, hi = min(lo, v[0]), max(hi, v[0])
		}
		long := hi - lo
		for i := range p.Bends {
			if b := &p.Bends[i]; b.A == k || b.B == k {
				back := b.Radius + p.Thickness
				if b.Angle < math.Pi/2 {
					back *= math.Tan(float64(b.Angle) / 2)
				}
				long += back
			}
		}
		list = append(list, panel{lo, long})
	}
	slices.SortFunc(list, func(a, b panel) int { return int(math.Copysign(1, a.at-b.at)) })
	var out []float64
	for _, x := range list {
		out = append(out, x.long)
	}
	return out
}

// A tray with square walls, and the testdata's parts that have no bend against another, fold to the metal part's box.
func TestCardBox(t *testing.T) {
	box := func(p *fold.Part) geom.Vec3 { return p.Pose(p.Finished()).Box().Size() }
	wall := foldtest.Wall{Inset: 2, InsetEnd: 2, Height: 40, Angle: 90, Radius: 1.5, Up: true}
	list := map[string]fold.Spec{"tray": foldtest.Tray{Thickness: 1, K: 0.42, Floor: geom.Loop{{0, 0}, {200, 0}, {200, 120}, {0, 120}}, Walls: []foldtest.Wall{wall, wall, wall, wall}}.Spec()}
	for name, s := range testParts(t) {
		list[name] = s
	}
	same := []string{"tray", "assets/wax-pan.dryfold", "assets/stand-bracket.dryfold", "testdata/parts/bracket.dryfold", "testdata/parts/bracket-inch.dryfold", "testdata/parts/channel.dryfold",
		"testdata/parts/channel-returns.dryfold", "testdata/parts/tray.dryfold", "testdata/parts/tray-plain.dryfold", "testdata/parts/corner.dryfold", "testdata/parts/tube.dryfold"}
	for _, name := range keys(list) {
		p := fold.Build(list[name])
		if !p.Foldable {
			continue
		}
		for _, crease := range []string{"", Creased} {
			o := CardOptions{Crease: crease}
			pages, s, err := Card(p, o)
			require.NoError(t, err, name)
			q := fold.Build(s)
			if slices.Contains(same, name) {
				d := box(p).Sub(box(q))
				assert.Less(t, d.Len(), 1e-6, name)
			}
			// What it comes to is told as it is.
			z := box(q)
			slices.Sort(z[:])
			text := allText(&pages[0])
			for _, x := range z {
				assert.Contains(t, strings.ReplaceAll(text, "\n", " "), trim(x, 1), name)
			}
			assert.Contains(t, text, "CARD MODEL")
			for i := range q.Bends {
				assert.Contains(t, text+allText(&pages[len(pages)-2]), map[bool]string{true: "up, valley", false: "down, mountain"}[q.Bends[0].Up], "%s %d", name, i)
			}
		}
	}
}

// A part by sizes is made in card of its form: its sizes on the card are the form's, and each that is listed is a field that changes the part.
func TestCardBySizes(t *testing.T) {
	for name, p := range bySizes(t) {
		list := CardSizes(p)
		require.NotEmpty(t, list, name)
		pages, s, err := Card(p, CardOptions{Make: makeSizes})
		require.NoError(t, err, name)
		require.Nil(t, s.Sizes)
		text := allText(&pages[len(pages)-1])
		assert.NotContains(t, text, "+ or -", "made of its form, every size stands as it is")
		for i, c := range list {
			require.NotEmpty(t, c.Path)
			if c.Formula != "" { // it follows from those that are asked for
				assert.Contains(t, text, "follow from others by a formula are left out")
				continue
			}
			assert.Contains(t, text, c.Label)
			if i > 25 {
				continue
			}
			next := p.Spec
			next.Sizes = p.Spec.Sizes.Clone()
			found := false
			next.Sizes.Fields(func(path string, f *sizes.Field, angle bool) {
				if path == c.Path {
					found = true
					require.False(t, angle)
					require.InDelta(t, c.Is, f.Number*p.Spec.Units.Scale(), 1e-9, path)
					f.Number += 2 / p.Spec.Units.Scale()
				}
			})
			require.True(t, found, c.Path)
			m, wrong := shape.Make(next)
			require.Empty(t, wrong, c.Path)
			assert.Greater(t, math.Abs(m.Part.Blank.Area-p.Blank.Area)+m.Part.Blank.Box.Size().Sub(p.Blank.Box.Size()).Len(), 1e-3, "%s: %s changes nothing", name, c.Path)
		}
	}
	// Of a part by its blank the sheet says what the card measures, as the foot of its pages does, not the metal; and the usual card is
	// assumed, also where the page says it.
	p := fold.Build(testParts(t)["assets/uncapping-tray.dryfold"])
	pages, s, err := Card(p, CardOptions{Thickness: usualCard})
	require.NoError(t, err)
	q := fold.Build(s)
	z := q.Pose(q.Finished()).Box().Size()
	long := trim(max(z[0], z[1], z[2]), 1)
	assert.Contains(t, allText(&pages[len(pages)-1]), "\n"+long+"\n")
	assert.Contains(t, allText(&pages[0]), "Folded: "+long)
	assert.Contains(t, allText(&pages[0]), "1.5 mm thick (assumed)")
	pages, _, err = Card(p, CardOptions{Thickness: 1})
	require.NoError(t, err)
	assert.Contains(t, allText(&pages[0]), "1 mm thick (as you gave it)")
	in := CardSize{Is: 100, Changed: true}
	assert.Equal(t, 97.0, in.Back(-3))
	in.Changed = false
	assert.Equal(t, 97.0, in.Back(97))
}

// Without a maker of parts by sizes the metal's blank is laid out anew, and sizes to inside faces are asked for as changes.
func TestCardOfTheBlank(t *testing.T) {
	for name, p := range bySizes(t) {
		pages, _, err := Card(p, CardOptions{})
		require.NoError(t, err, name)
		inside := slices.ContainsFunc(CardSizes(p), func(c CardSize) bool { return c.Changed && c.Formula == "" })
		assert.Equal(t, inside, strings.Contains(allText(&pages[len(pages)-1]), "+ or -"), name)
		assert.Equal(t, p.Spec.Sizes.Faces != sizes.Outside, inside, name)

		// The page's program for sheets is told parts by their blank, with the card that was made of the form and what to ask for.
		made, err := makeSizes(CardSpec(p.Spec, 0, ""))
		require.NoError(t, err)
		plain := *p
		plain.Spec.Sizes = nil
		_, want, err := Card(p, CardOptions{Make: makeSizes})
		require.NoError(t, err)
		pages, got, err := Card(&plain, CardOptions{Make: func(fold.Spec) (fold.Spec, error) { return made, nil }, Sizes: CardSizes(p)})
		require.NoError(t, err)
		assert.Equal(t, want, got)
		assert.NotContains(t, allText(&pages[len(pages)-1]), "changed by hand")

		pages, _, err = Card(p, CardOptions{Make: func(s fold.Spec) (fold.Spec, error) { return s, errors.New("the walls are too short") }})
		require.NoError(t, err)
		assert.Contains(t, strings.ReplaceAll(allText(&pages[0]), "\n", " "), "could not be made of its sizes in card (the walls are too short)")
	}
}

func TestCardRefuses(t *testing.T) {
	p := fold.Build(testParts(t)["testdata/parts/hem.dryfold"])
	require.True(t, p.Foldable)
	for _, c := range []struct {
		field, need string
		o           CardOptions
	}{
		{"thickness", "0.2 mm to 10 mm", CardOptions{Thickness: -1}},
		{"thickness", "0.2 mm to 10 mm", CardOptions{Thickness: math.NaN()}},
		{"thickness", "0.2 mm to 10 mm", CardOptions{Thickness: 30}},
		{"thickness", "card of 1.7 mm at most, or creased", CardOptions{Thickness: 3}},
		{"crease", `"scored" or "creased"`, CardOptions{Crease: "bent"}},
		{"roll", "width", CardOptions{TemplateOptions: TemplateOptions{Paper: Roll, Roll: -1}}},
	} {
		pages, _, err := Card(p, c.o)
		var f *FieldError
		require.ErrorAs(t, err, &f, "%+v", c.o)
		assert.Equal(t, c.field, f.Field)
		assert.Contains(t, f.Need, c.need)
		assert.Empty(t, pages)
	}
	pages, _, err := Card(p, CardOptions{})
	require.NoError(t, err)
	assert.Contains(t, strings.ReplaceAll(allText(&pages[0]), "\n", " "), "Folded right back")
}

// Random parts are made or refused at a field, never something else.
func TestCardRandom(t *testing.T) {
	r := seedOf(t)
	made, no := 0, 0
	for range 60 {
		p := randomPart(r)
		o := CardOptions{TemplateOptions: randomTemplate(r), Thickness: foldtest.LogUniform(r, 0.3, 5), Crease: []string{Scored, Creased}[r.IntN(2)]}
		o.Paper, o.Roll = Roll, 1000
		_, s, err := Card(p, o)
		if err != nil {
			var f *FieldError
			require.ErrorAs(t, err, &f)
			no++
			continue
		}
		require.True(t, fold.Build(s).Foldable)
		made++
	}
	t.Logf("%d made, %d refused", made, no)
}
