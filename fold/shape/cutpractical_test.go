package shape

import (
	"math"
	"reflect"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"dryfold/fold"
	"dryfold/fold/sizes"
)

// A relief of 2.37 mm becomes a drill that is owned; the gap is told again, and stays.
func TestPracticalDrill(t *testing.T) {
	st, _ := StarterByID("tray")
	s := st.Make(fold.MM)
	s.Sizes.Relief = sizes.Relief{Kind: sizes.Drilled, Size: sizes.Is(2.37)}
	for _, c := range []struct {
		drills []float64
		want   float64
	}{{nil, 2.5}, {[]float64{2, 2.4, 2.5}, 2.4}, {[]float64{2, 2.35}, 2.35}, {[]float64{1, 3}, 3}} {
		tools := sizes.Tools{Drills: c.drills}
		got, changes := Practical(s, tools)
		require.Len(t, changes, 4)
		made, problems := Make(got)
		require.Empty(t, problems)
		for i, x := range changes {
			require.InDelta(t, 2.37, x.Was, 1e-9)
			require.InDelta(t, c.want, x.Is, 1e-9)
			require.Equal(t, sizes.Drilled, x.IsKind)
			require.True(t, x.Measured)
			require.InDelta(t, x.WasLeast, x.IsLeast, 1e-6)
			require.Contains(t, x.Words, "drilled 2.37 mm and is now drilled "+fig(c.want)+" mm")
			require.Contains(t, x.Words, "Its gap stays 0.5 mm.")
			require.NotEmpty(t, x.Path)
			require.InDelta(t, c.want, made.Corners[i].Size, 1e-9)
		}
		again, none := Practical(got, tools)
		require.Empty(t, none)
		require.Equal(t, got, again)
	}
	// No drill large enough: it is sawn.
	got, changes := Practical(s, sizes.Tools{Drills: []float64{1}})
	require.Len(t, changes, 4)
	require.Equal(t, sizes.Sawn, changes[0].IsKind)
	require.Contains(t, changes[0].Words, "is now sawn")
	_, none := Practical(got, sizes.Tools{Drills: []float64{1}})
	require.Empty(t, none)
}

// Slots too narrow to end without a saw are made larger, at the corners that have them alone.
func TestPracticalNarrow(t *testing.T) {
	st, _ := StarterByID("stepped-tray")
	s := st.Make(fold.MM)
	tools := sizes.Tools{NoSaw: true, Drills: []float64{2, 2.5, 3}}
	made, problems := Make(s)
	require.Empty(t, problems)
	require.NotZero(t, badReliefs(CheckCut(made.Part, tools)))
	got, changes := Practical(s, tools)
	made, problems = Make(got)
	require.Empty(t, problems)
	require.Zero(t, badReliefs(CheckCut(made.Part, tools)))
	require.Len(t, changes, 2)
	for _, c := range changes {
		require.Greater(t, c.Is, c.Was)
		require.Equal(t, sizes.Snipped, c.IsKind)
		require.InDelta(t, 0.5, c.IsLeast, 1e-6)
	}
}

// Drilled holes go to the nearest drill, others stay; a formula that is lost is told.
func TestPracticalHoles(t *testing.T) {
	st, _ := StarterByID("tray")
	s := st.Make(fold.MM)
	hole := func(wide sizes.Field, x float64, drilled bool) sizes.Hole {
		return sizes.Hole{On: "floor", X: sizes.Is(x), Y: sizes.Is(60), Wide: wide, Drilled: drilled}
	}
	s.Sizes.Named = append(s.Sizes.Named, sizes.Named{Name: "rivet", Is: sizes.Is(3.2)})
	s.Sizes.Holes = []sizes.Hole{hole(sizes.Is(3.3), 40, true), hole(sizes.Is(3.3), 60, false), hole(sizes.Of("rivet + 0.1"), 80, true), hole(sizes.Is(40), 120, true)}
	s.Sizes.Holes = append(s.Sizes.Holes, sizes.Hole{On: "floor", X: sizes.Is(60), Y: sizes.Is(90), Shape: sizes.Slot, Wide: sizes.Is(5.2), Long: sizes.Is(20), Drilled: true})
	tools := sizes.Tools{Drills: []float64{2, 3.2, 5, 6}}
	got, changes := Practical(s, tools)
	var holes []Change
	for _, c := range changes {
		if !c.Corner {
			holes = append(holes, c)
		}
	}
	require.Len(t, holes, 3)
	require.Equal(t, "sizes.holes[0].wide", holes[0].Path)
	require.InDelta(t, 3.2, holes[0].Is, 1e-12)
	require.Equal(t, "sizes.holes[2].wide", holes[1].Path)
	require.Contains(t, holes[1].Words, "It was the formula rivet + 0.1.")
	require.Equal(t, "sizes.holes[4].wide", holes[2].Path)
	require.InDelta(t, 5, holes[2].Is, 1e-12)
	require.Equal(t, sizes.Is(3.3), s.Sizes.Holes[0].Wide, "the part that was given stays as it was")
	require.Equal(t, sizes.Is(3.3), got.Sizes.Holes[1].Wide)
	require.Equal(t, sizes.Is(40), got.Sizes.Holes[3].Wide, "larger than every drill")
	_, none := Practical(got, tools)
	require.Empty(t, none)
}

// What has no sizes, or can't be made, comes back as it was.
func TestPracticalLeaves(t *testing.T) {
	s := rectangle(100, 60)
	got, changes := Practical(s, sizes.Tools{})
	require.Equal(t, s, got)
	require.Empty(t, changes)
	s.Sizes = &sizes.Form{}
	got, changes = Practical(s, sizes.Tools{})
	require.Equal(t, s, got)
	require.Empty(t, changes)
}

// Whatever the starter, its reliefs and the tools: the changed part is made, no worse to cut than it was, its reliefs are no less than
// needed, its gaps are as wanted, drills are owned ones, and done twice nothing changes.
func TestPracticalRandom(t *testing.T) {
	r := cutRand(t, 6)
	mended, changed := 0, 0
	for range 16 {
		st := Starters[r.IntN(6)] // those with corners
		if r.IntN(4) == 0 {
			st = Starters[r.IntN(len(Starters))]
		}
		u := fold.Units(r.IntN(2))
		s := st.Make(u)
		s.Sizes.Relief.Kind = sizes.ReliefKind(r.IntN(4))
		if r.IntN(2) == 0 {
			s.Sizes.Relief.Size = sizes.Is(math.Exp2(4*r.Float64()-2) / u.Scale())
		}
		tools := sizes.Tools{NoSnips: r.IntN(4) == 0, Kerf: math.Exp2(2.5*r.Float64() - 1), LeastNotch: 10 + 50*r.Float64()}
		for range r.IntN(6) {
			tools.Drills = append(tools.Drills, math.Exp2(5*r.Float64()-1))
		}
		before, problems := Make(s)
		if len(problems) > 0 {
			continue
		}
		kept := s.Sizes.Clone()
		got, changes := Practical(s, tools)
		require.Equal(t, kept, s.Sizes, "the given form was changed")
		after, problems := Make(got)
		require.Empty(t, problems)
		was := badReliefs(CheckCut(fold.Build(before.Spec), tools))
		cuts := CheckCut(fold.Build(after.Spec), tools)
		require.LessOrEqual(t, badReliefs(cuts), was, "%s %+v", st.ID, tools)
		if badReliefs(cuts) < was {
			mended++
		}
		changed += len(changes)
		require.Len(t, after.Corners, len(before.Corners))
		for i, c := range after.Corners {
			require.GreaterOrEqual(t, c.Size, c.Need-1e-9)
			require.Equal(t, before.Corners[i].Gap, c.Gap)
			if c.Measured && before.Corners[i].Measured && math.Abs(before.Corners[i].Least-c.Gap) < 1e-6 {
				require.InDelta(t, c.Gap, c.Least, 1e-6, "%s %+v", st.ID, changes)
			}
		}
		for _, c := range changes {
			require.NotEmpty(t, c.Words)
			require.NotEmpty(t, c.Path)
			if c.IsKind == sizes.Drilled {
				full := tools.Filled(u == fold.Inch)
				require.True(t, slices.ContainsFunc(full.Drills, func(d float64) bool { return math.Abs(d-c.Is) < 1e-3 }) || badReliefs(cuts) > 0, "%s %+v", st.ID, c)
			}
		}
		again, none := Practical(got, tools)
		require.Empty(t, none, "%s %+v %+v", st.ID, tools, changes)
		require.True(t, reflect.DeepEqual(got, again))
	}
	t.Logf("%d parts mended, %d changes", mended, changed)
	require.Greater(t, mended+changed, 8)
}
