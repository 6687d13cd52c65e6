package spread

import (
	"testing"

	"github.com/stretchr/testify/require"

	"dryfold/fold"
)

func TestWords(t *testing.T) {
	require.Equal(t, "bend left", bendWords([]string{"left"}))
	require.Equal(t, "bend 3", bendWords([]string{"bend 3"}))
	require.Equal(t, "bends left and right", bendWords([]string{"left", "right"}))
	require.Equal(t, "bend 3, bend 4 and bend left", bendWords([]string{"bend 3", "bend 4", "left"}))
	require.Equal(t, `bends "left" and "right"`, quotedBends([]string{"left", "right"}))
	require.Equal(t, `bend "left" and bend 3`, quotedBends([]string{"bend 3", "left"}))
	require.Equal(t, `bends "a", "b", "c" and "d" and 2 more`, quotedBends([]string{"a", "b", "c", "d", "e", "f"}))
	for part, percent := range map[float64]int{0.124: 10, 0.126: 15, 0.31: 30, 1: 100} {
		require.Equal(t, percent, rounded(part))
	}
	for end, want := range map[string]string{"foot": "the foot", "at back": "the end at back", "one end": "one end", "other end": "the other end", "free end": "the free end"} {
		require.Equal(t, want, theEnd(end))
	}
}

// TestWatch: two walls alike are both named, one that is worse is named alone, and what it does is what its plus does.
func TestWatch(t *testing.T) {
	p := fold.Build(only(corner(60, 1), 1))
	r := p.Quick()
	require.True(t, Add(p, &r, Options{Samples: 5000, Seed: 1}))
	require.Regexp(t, `^The largest parts of the error are the angles of bends "(right" and "back|back" and "right)" \((35|40) % each\): 1 degree too little on one of them opens the top by 0\.[678] mm\.$`, r.Seams[0].Spread.Watch)
	require.Regexp(t, `^The largest parts of the error at the seam are the angles of bends "(right" and "back|back" and "right)" \((35|40) % each\)\.$`, r.Spread.Watch)
	// Nothing varies: nothing to say.
	p = fold.Build(only(corner(60, 1), 0))
	r = p.Quick()
	require.True(t, Add(p, &r, Options{Samples: 500}))
	require.Empty(t, r.Seams[0].Spread.Watch)
	require.Empty(t, r.Spread.Watch)
	// Edges alone.
	zero, cut := 0.0, 0.4
	s := corner(60, 1)
	s.Errors = fold.ErrorSpec{Angle: &zero, Line: &zero, Thickness: &zero, K: &zero, Cut: &cut}
	p = fold.Build(s)
	r = p.Quick()
	require.True(t, Add(p, &r, Options{Samples: 500}))
	require.Equal(t, "No one bend makes much of the error: cutting the edges makes 100 %.", r.Seams[0].Spread.Watch)
}

// TestLargest: the largest first, in steps of 5 percent; bends alike together, those of another kind or of less apart, what no one cause
// makes and what is little left out.
func TestLargest(t *testing.T) {
	w := &work{part: &fold.Part{}, c: &causes{}}
	for i, n := range []string{"a", "back", "c", "bend 4", "e"} {
		w.part.Bends = append(w.part.Bends, fold.Bend{Name: n})
		w.c.all = append(w.c.all, cause{kind: byAngle, name: "angle of bend " + n, bends: []int{i}}, cause{kind: byLine, name: "line of bend " + n, bends: []int{i}})
	}
	w.c.all = append(w.c.all, cause{kind: byAngle, name: "angle of bends c and e", bends: []int{2, 4}})
	said := func(shares ...fold.Share) string {
		return w.said(w.largest(shares), "it", func(k *item) string { return ": so much" })
	}
	share := func(name string, part float64) fold.Share { return fold.Share{Cause: name, Part: part} }
	for _, c := range []struct {
		want   string
		shares []fold.Share
	}{
		{"", nil},
		{"", []fold.Share{share("together", 0.9), share("angle of bend a", 0.1)}},
		{"No one bend makes much of it: cutting the edges makes 55 %.", []fold.Share{share("cut edges", 0.57), share("angle of bend back", 0.12)}},
		{"No one bend makes much of it: the sheet's thickness makes 60 %; measure it.", []fold.Share{share("thickness", 0.6), share("cut edges", 0.3)}},
		{`The largest part of it is cutting the edges (30 %); then the angle of bend "back" (25 %): so much.`, []fold.Share{share("angle of bend back", 0.25), share("cut edges", 0.31)}},
		{`The largest parts of it are the angles of bends "a" and "back" (25 % each): so much; then cutting the edges (20 %).`,
			[]fold.Share{share("angle of bend back", 0.27), share("angle of bend a", 0.25), share("cut edges", 0.2)}},
		{`The largest part of it is the angle of bend "back" (35 %): so much; then the angle of bend "a" (25 %).`, []fold.Share{share("angle of bend back", 0.35), share("angle of bend a", 0.25)}},
		{`The largest part of it is the angle of bend "a" (30 %): so much; then the line of bend "a" (30 %).`, []fold.Share{share("line of bend a", 0.3), share("angle of bend a", 0.3)}},
		{`The largest part of it is the angle of bends "c" and "e" in one swing (30 %): so much.`, []fold.Share{share("angle of bends c and e", 0.3)}},
		{`The largest parts of it are the angles of bend "back", and of bends "c" and "e" (30 % each): so much.`, []fold.Share{share("angle of bends c and e", 0.3), share("angle of bend back", 0.3)}},
		{`The largest part of it is the line of bend 4 (90 %): so much.`, []fold.Share{share("line of bend bend 4", 0.9)}},
		{`The largest part of it is K (20 %); then the lines of bends "a" and "c" (15 % each): so much.`, []fold.Share{share("K", 0.2), share("line of bend a", 0.14), share("line of bend c", 0.14)}},
	} {
		require.Equal(t, c.want, said(c.shares...))
	}
}

// TestAsDrawn: where care can't mend it no cause is named.
func TestAsDrawn(t *testing.T) {
	limit := 1.0
	require.Empty(t, asDrawn(&fold.SeamReport{GapMax: 1, Limit: &limit}))
	require.Empty(t, asDrawn(&fold.SeamReport{GapMax: 9}))
	require.Equal(t, "It is too wide as drawn, and no care mends that.", asDrawn(&fold.SeamReport{GapMax: 1.01, Limit: &limit}))
	require.Empty(t, asDrawn(&fold.SeamReport{GapMax: 1.01, Limit: &limit, Open: true}))
	require.Equal(t, "Its panels lie in each other as drawn, and no care mends that.", asDrawn(&fold.SeamReport{GapMin: -0.2, GapMax: 0.5, Limit: &limit}))
	// And so it stands in the report.
	s := corner(60, 1)
	s.Joins = []fold.JoinSpec{{Widest: new(float64)}}
	p := fold.Build(s)
	r := p.Quick()
	require.True(t, Add(p, &r, Options{Samples: 200}))
	require.Equal(t, asDrawn(&r.Seams[0]), r.Seams[0].Spread.Watch)
	require.NotEmpty(t, r.Seams[0].Spread.Watch)
}
