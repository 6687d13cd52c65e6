package ascut

import (
	"encoding/csv"
	"fmt"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"dryfold/fold"
	"dryfold/fold/foldtest"
	"dryfold/fold/geom"

	"github.com/stretchr/testify/require"
)

// pan is a plain box: a floor of 200 x 120, four walls 40 high, and a wall's end that is longer on one side, so that it has a mirror image.
func pan() fold.Spec {
	w := foldtest.Wall{Height: 40, Angle: 90, Radius: 1, Up: true, Inset: 1, InsetEnd: 1}
	t := foldtest.Tray{Thickness: 1, K: 0.42, Floor: geom.Loop{{0, 0}, {200, 0}, {200, 120}, {0, 120}}, Walls: []foldtest.Wall{w, w, w, w}}
	t.Walls[2].Inset = 30
	return t.Spec()
}

func all(v *Verdict) string { return strings.Join(v.Say, "\n") }

// TestGeneral holds the table against the published list.
func TestGeneral(t *testing.T) {
	f, err := os.Open("../../testdata/published/iso2768.csv")
	require.NoError(t, err)
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	n := 0
	for _, r := range rows[1:] {
		if r[2] != "linear_mm" || r[5] == "" {
			continue
		}
		to := r[3][strings.LastIndexAny(r[3], "-=")+1:]
		if strings.HasPrefix(r[3], ">") {
			to = "1e5"
		}
		length, err := strconv.ParseFloat(to, 64)
		require.NoError(t, err, r[3])
		plus, err := strconv.ParseFloat(r[5], 64)
		require.NoError(t, err)
		got, kind, from := generalPlus(&fold.Spec{Errors: fold.ErrorSpec{CutClass: r[4]}}, length)
		require.Equal(t, plus, got, "%v", r)
		require.Equal(t, "published", kind)
		require.Contains(t, from, "class "+r[4])
		n++
	}
	require.Greater(t, n, 25)
	own := 0.02
	got, kind, _ := generalPlus(&fold.Spec{Units: fold.Inch, Errors: fold.ErrorSpec{Cut: &own}}, 100)
	require.InDelta(t, 0.508, got, 1e-12)
	require.Equal(t, "yours", kind)
}

func TestPartly(t *testing.T) {
	x := look(pan())
	is := x.wants()
	is[1], is[3] = none, none
	v := x.typed(is...)
	require.Equal(t, Measure, v.Word)
	require.Equal(t, "Still to measure: sizes 2 and 4.", v.Say[0])
	// A wrong one is told at once.
	is[0] -= 3
	v = x.typed(is...)
	require.Equal(t, Accept, v.Word)
	require.Equal(t, "small", v.Lines[0].State)
	require.Contains(t, all(v), "Still to measure: sizes 2 and 4.")
	is[0] += 6
	v = x.typed(is...)
	require.Equal(t, Trim, v.Word)
	require.InDelta(t, 3, v.Trims[0].By, 1e-9)
	require.Contains(t, all(v), "Size 1: take 3.0 mm off the right edge of wall 1")
}

func TestBadValues(t *testing.T) {
	x := look(pan())
	for _, c := range []struct {
		is   float64
		want string
	}{
		{0, "0.0 mm can't have been measured; from "},
		{-5, "-5.0 mm can't have been measured; from "},
		{math.NaN(), "It is no number; from "},
		{math.Inf(1), "It is no number; from "},
		{x.l.Sizes[0].Want * 10, "is a slip of the decimal point; from "},
		{x.l.Sizes[0].Want / 10, "is a slip of the decimal point; from "},
		{x.l.Sizes[0].Want * 2.01, "is a slip of the decimal point or of the pen, or another size was measured; from "},
		{x.l.Sizes[0].Want * 0.49, "is a slip of the decimal point or of the pen, or another size was measured; from "},
	} {
		is := x.wants()
		is[0] = c.is
		v := x.typed(is...)
		require.Equal(t, Measure, v.Word, "%v", c.is)
		require.Equal(t, "bad", v.Lines[0].State)
		require.Contains(t, v.Lines[0].Say, c.want)
		require.Contains(t, v.Lines[0].Say, " mm is expected", "%v", v.Lines[0].Say)
		require.Contains(t, all(v), "Still to measure: size 1.")
	}
}

func TestWrongUnit(t *testing.T) {
	x := look(pan())
	is := x.wants()
	for i := range is {
		is[i] = math.Round(is[i]/25.4*64) / 64
	}
	v := x.typed(is...)
	require.Equal(t, "unit", v.Pattern)
	require.Equal(t, Measure, v.Word)
	require.Contains(t, all(v), "the values look like inches, and mm are expected")
	y := look(foldtest.InInches(pan()))
	is = y.wants()
	for i := range is {
		is[i] *= 25.4
	}
	v = y.typed(is...)
	require.Equal(t, "unit", v.Pattern)
	require.Contains(t, all(v), "the values look like mm, and inches are expected")
}

// TestCentimetres: sizes read in centimetres, to a mm, are told as such, and one of them alone as a slip; nothing is fitted to them.
func TestCentimetres(t *testing.T) {
	x := look(pan())
	is := x.wants()
	for i := range is {
		is[i] = math.Round(is[i]) / 10
	}
	v := x.typed(is...)
	require.Equal(t, "unit", v.Pattern)
	require.Contains(t, all(v), "the values look like centimetres, and mm are expected")
	is = x.wants()
	is[2] = math.Round(is[2]+3) / 10
	v = x.typed(is...)
	require.Equal(t, "bad", v.Lines[2].State)
	require.Equal(t, Measure, v.Word)
	// Nonsense fits no blank: no figure of it is larger than what was typed.
	is = x.wants()
	for i := range is {
		is[i] /= 5
	}
	v = x.typed(is...)
	require.NotEqual(t, Bend, v.Word)
	most := 0.0
	for _, l := range v.Lines {
		most = max(most, math.Abs(l.Off))
	}
	for _, o := range v.out {
		require.LessOrEqual(t, math.Abs(o), 3*most)
	}
}

// TestShortTold: an edge that is short is named with by how much, also where no seam and no overall size tells of it.
func TestShortTold(t *testing.T) {
	x := look(pan())
	is := x.wants()
	is[0] -= 2
	v := x.typed(is...)
	require.Equal(t, Accept, v.Word)
	require.Contains(t, all(v), "short by 2.0 mm:")
}

func TestStale(t *testing.T) {
	x := look(pan())
	p := *x.p
	z := &x.l.Sizes[0]
	p.Spec.AsCut = []fold.CutSize{{From: z.From.Add(geom.Vec2{0, 5}), To: z.To.Add(geom.Vec2{0, 9}), Is: 12}, {From: z.To, To: z.From.Add(geom.Vec2{0.3, 0}), Is: z.Want}}
	v := Judge(&p, &x.r, x.l.Sizes)
	require.Len(t, v.Stale, 1)
	require.Equal(t, 12.0, v.Stale[0].Is)
	require.Contains(t, all(v), "1 measured value fits no size of this blank any more")
	require.Equal(t, "ok", v.Lines[0].State, "told the other way round, and moved a little")
	require.Equal(t, Measure, v.Word)
}

// TestNotSquare: the pan marked from a corner that is out by so much, its corners leaned here.
func TestNotSquare(t *testing.T) {
	s := pan()
	x := look(s)
	lo := x.p.Blank.Box.Min
	for _, lean := range []float64{-0.02, 0.02} {
		var places []geom.Vec2
		for _, c := range s.Outline {
			places = append(places, geom.Vec2{c.At[0] + lean*(c.At[1]-lo[1]), c.At[1]})
		}
		v := x.measured(places)
		require.NotEqual(t, Bend, v.Word)
		require.Equal(t, "square", v.Pattern)
		require.InDelta(t, lean, v.lean, 1e-4)
		require.Contains(t, all(v), "the sheet's corner was not square")
	}
}

// TestDeductionsLeftOut: the pan whose walls stand out by the outside sizes alone, drawn here with the deduction that handbooks give, 2(R+T) - BA.
func TestDeductionsLeftOut(t *testing.T) {
	x := look(pan())
	bd := 2*(1.0+1) - math.Pi/2*(1+0.42)
	is := x.wants()
	for _, c := range []struct {
		name string
		by   float64 // for each of two walls
	}{{"deduction", bd}, {"twice", -bd}, {"allowance", -(math.Pi/2*1.42 - 2*1.0)}} {
		got := append([]float64(nil), is...)
		for i := range got {
			if x.l.Sizes[i].cand.use == forWidth {
				got[i] += 2 * c.by
			}
		}
		v := x.typed(got...)
		if 2*math.Abs(c.by) > MirrorTold/2 {
			require.Equal(t, c.name, v.Pattern)
			require.Equal(t, Accept, v.Word, "the bend lines are out as well")
			require.Contains(t, all(v), "The bend lines are then out as well")
		} else {
			require.NotEqual(t, c.name, v.Pattern, "too little to tell")
		}
	}
	// 3 mm on one width alone is no pattern.
	got := append([]float64(nil), is...)
	got[0] += 3
	require.Empty(t, x.typed(got...).Pattern)
}

// TestMirrorWords: a pan with one wall cut shorter at one end, marked from the wrong face.
func TestMirrorWords(t *testing.T) {
	s := pan()
	x := look(s)
	require.False(t, x.l.Own)
	g := x.l.work.images()[0]
	var is []float64
	for i := range x.l.Sizes {
		v, ok := g.measured(x.l.Sizes[i].cand.x, x.l.Sizes[i].cand.y)
		require.True(t, ok)
		is = append(is, v)
	}
	v := x.typed(is...)
	require.Equal(t, "mirror", v.Pattern)
	require.Equal(t, Accept, v.Word)
	require.Contains(t, all(v), "This is the blank's mirror image: it was marked from the wrong face.")
	require.Contains(t, all(v), "Where both faces are alike nothing is lost.")
	s.Sheet.Good = "up"
	require.Contains(t, all(look(s).typed(is...)), "The good face is then underneath")
}

// TestHostile: nothing panics, whatever the part or the values.
func TestHostile(t *testing.T) {
	for _, s := range []fold.Spec{{}, {Sheet: fold.Sheet{Thickness: math.NaN()}}, {Sheet: fold.Sheet{Thickness: 1}, Outline: foldtest.Points(0, 0, 1, 0)}} {
		p := fold.Build(s)
		r := p.Quick()
		l := Look(p, &r)
		require.Empty(t, l.Sizes)
		require.NotEmpty(t, l.Notes)
		v := Judge(p, &r, l.Sizes)
		require.Equal(t, Measure, v.Word)
	}
	require.Equal(t, Measure, (&looked{p: fold.Build(fold.Spec{}), l: &List{}}).typed().Word)
	// Slivers, and a plate without bends.
	for _, s := range []fold.Spec{
		{Sheet: fold.Sheet{Thickness: 1}, Outline: foldtest.Points(0, 0, 100, 0, 100, 1e-4, 0, 1e-4)},
		{Sheet: fold.Sheet{Thickness: 1}, Outline: foldtest.Points(0, 0, 100, 0, 100, 50, 50, 50.0001, 0, 50)},
		{Sheet: fold.Sheet{Thickness: 1}, Outline: fold.Contour{{At: geom.Vec2{0, 0}}, {At: geom.Vec2{10, 0}, Through: &geom.Vec2{5, -5}}}},
		{Sheet: fold.Sheet{Thickness: 1}, Outline: foldtest.Points(0, 0, 100, 0, 50, 50)},
	} {
		x := look(s)
		require.True(t, x.p.Foldable)
		is := x.wants()
		if len(is) == 0 {
			require.NotEmpty(t, x.l.Notes)
			continue
		}
		require.Equal(t, Bend, x.typed(is...).Word)
		for i := range is {
			for _, v := range []float64{1e-300, 1e300, is[i] * 9, is[i] / 9, -1, math.MaxFloat64} {
				w := append([]float64(nil), is...)
				w[i] = v
				require.NotEqual(t, Bend, x.typed(w...).Word, "%v %v: %v", i, v, x.l.Sizes[i])
			}
		}
	}
	// Values at random.
	for at := range uint64(20) {
		r := foldtest.Rand(at)
		x := look(foldtest.Random(r))
		var is []float64
		for i := range x.l.Sizes {
			is = append(is, x.l.Sizes[i].Want*foldtest.LogUniform(r, 0.2, 5))
		}
		require.NotEmpty(t, x.typed(is...).Word)
	}
}

// TestCalliper: a limit that a rule can't show asks for a calliper.
func TestCalliper(t *testing.T) {
	for _, c := range []struct {
		want, low, high float64 // limits below and above
		step            float64
		lo, hi          float64
	}{
		{100, 0.6, 0.6, 0.5, 99.5, 100.5},
		{100.3, 0.5, 0.5, 0.1, 99.8, 100.8}, // a rule would leave 0.2 of the 0.5 above
		{100.0, 0.9, 0.9, 0.5, 99.5, 100.5},
		{100.3, 0.2, 0.05, 0.1, 100.1, 100.3},
		{100.33, 0.02, 0.02, 0.02, 100.32, 100.34},
		{100.33, 0.001, 0, 0.02, 100.33, 100.33},
	} {
		s := Size{Want: c.want, least: c.want - c.low, most: c.want + c.high}
		s.round(fold.MM, 0)
		require.Equal(t, c.step, s.Step, "%v", c)
		require.Equal(t, c.step < 0.5, s.Calliper)
		require.InDelta(t, c.lo, s.Low, 1e-9, "%v", c)
		require.InDelta(t, c.hi, s.High, 1e-9, "%v", c)
	}
	s := Size{Want: 101.6, least: 101, most: 102.2}
	s.round(fold.Inch, 0)
	require.Equal(t, "3 63/64", Length(s.Low, fold.Inch, s.Step))
	require.Equal(t, "4 1/64", Length(s.High, fold.Inch, s.Step))
}

// TestEither: where either of two edges may be the one, each is told with what comes of it and what to do, the harmful first; the seams as the part built
// from the wrong outline has them.
func TestEither(t *testing.T) {
	s := demos(t)["uncapping-tray.dryfold"]
	x := look(s)
	m := x.l.work
	n := 0
	for i := range x.l.Sizes {
		z := &x.l.Sizes[i]
		if z.cand.use == forDiagonal {
			continue
		}
		is := x.wants()
		is[i] -= 2
		if z.Opening {
			is[i] += 4
		}
		v := x.typed(is...)
		require.Equal(t, Accept, v.Word)
		require.Contains(t, v.Say[0], fmt.Sprintf("Size %d is 2.0 mm too ", z.No))
		require.Len(t, v.Say, 3, "%v", v.Say)
		require.False(t, !strings.Contains(v.Say[1], "cut again") && strings.Contains(v.Say[2], "cut again"), "by harm: %v", v.Say)
		for c := range m.cuts {
			if !z.cand.covers(c) {
				continue
			}
			cut := &m.cuts[c]
			wrong, _, ok := cutByHand(s, cut.Ends[0], cut.Ends[1], -2/math.Abs(z.cand.by[c]))
			if !ok {
				continue
			}
			q := fold.Build(wrong)
			r := q.Quick()
			said := ""
			for _, t := range v.Say[1:] {
				if strings.HasPrefix(t, "If it is the "+cut.Name+", short by") {
					said = t
				}
			}
			require.NotEmpty(t, said, cut.Name)
			worse := false
			for k := range r.Seams {
				g := &r.Seams[k]
				for b := range x.r.Seams {
					if o := &x.r.Seams[b]; o.Name == g.Name && g.GapMax > o.GapMax+gapMatters+0.01 {
						var mm float64
						_, rest, ok := strings.Cut(said, g.Name+" opens to ")
						require.True(t, ok, said)
						_, err := fmt.Sscan(rest, &mm)
						require.NoError(t, err)
						require.InDelta(t, g.GapMax, mm, 0.02, "%s %s", cut.Name, said)
						n++
						if g.Limit != nil && g.GapMax > *g.Limit {
							worse = true
							require.Contains(t, said, fmt.Sprintf("past its limit of %.2f mm", *g.Limit))
						}
					}
				}
			}
			require.Equal(t, worse, strings.HasSuffix(said, "cut again."), said)
		}
		require.NotContains(t, all(v), " 0.59 mm", "what is no harm is left out")
	}
	require.Greater(t, n, 5)
}

// TestScale: a blank that is 1 % out as a whole, read to half a mm, is told as such; with one edge 2 mm out it is not.
func TestScale(t *testing.T) {
	x := look(pan())
	for _, share := range []float64{1.01, 0.99} {
		is := x.wants()
		for i := range is {
			is[i] = math.Round(is[i]*share*2) / 2
		}
		v := x.typed(is...)
		require.Equal(t, "scale", v.Pattern, all(v))
		require.Equal(t, Accept, v.Word)
		require.Contains(t, all(v), "alike")
		require.Contains(t, all(v), map[bool]string{true: "large", false: "small"}[share > 1])
	}
	for k := range x.wants() {
		for _, off := range []float64{2, -2} {
			is := x.wants()
			is[k] += off
			require.NotEqual(t, "scale", x.typed(is...).Pattern, "size %d by %g", k+1, off)
		}
	}
}
