package fold

// This file tests that what is said of K speaks of the bends that it is true of.

import (
	"encoding/json"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"dryfold/fold/metal"
)

// twoRadii is a channel of two bends, R 3 and R 1.5, in sheet of 1.5 mm, with test bends that reach the second alone.
func twoRadii() Spec {
	s := Spec{Name: "channel", Sheet: Sheet{Thickness: 1.5, Metal: "Mild steel"}, Outline: pts(0, 0, 160, 0, 160, 40, 0, 40),
		Bends: []BendSpec{bendAt("wide", 50, 0, 50, 40, 90, 3), bendAt("tight", 110, 0, 110, 40, 90, 1.5)}}
	s.Tests = strips3("mild steel", 1.5, 1.5, 0.33)
	return s
}

func worthOf(p *Part, about string) (out []string) {
	for _, w := range p.FindWorth() {
		if w.About == about {
			out = append(out, w.If)
		}
	}
	slices.Sort(out)
	return out
}

// K 0.33 is that of the strips as they were made; FAA-H-8083-31 ch. 4 gives (0.01743/0.0174533 - 1) R/T + 0.0078/0.0174533, 0.444 at
// R = 2T and 0.446 at R = T; DIN 6935 (0.65 + 0.5 log10 R/T)/2.
func TestWorthSpeaksPerGroup(t *testing.T) {
	p := Build(twoRadii())
	require.Equal(t, "rule", p.Bends[0].KBy)
	require.Equal(t, "tests", p.Bends[1].KBy)
	spread := worthOf(p, "spread")
	require.Len(t, spread, 1)
	require.True(t, strings.HasPrefix(spread[0], "K 0."), spread[0])
	require.Contains(t, spread[0], "the end of your test bends' spread, instead of 0.33 (tight)")
	require.Contains(t, worthOf(p, "rule"), "DIN 6935 instead of FAA-H-8083-31 (wide)")
	for _, w := range worthOf(p, "rule") {
		require.Contains(t, w, "(wide)")
	}
	require.Equal(t, []string{"K 0.494 instead of 0.444 (wide)"}, worthOf(p, "k"))
	// Each is worth what those bends come to alone: the finished strip grows by the bend's own deduction.
	din := 0.4002574989
	l := &lore{held: []float64{din, p.Bends[1].K}}
	s := p.Spec
	q := build(s, l, false)
	for _, w := range p.FindWorth() {
		if strings.HasPrefix(w.If, "DIN") {
			for i, x := range q.Pose(q.Finished()).Box().Size().Sub(p.Pose(p.Finished()).Box().Size()) {
				require.InDelta(t, x, w.Finished[i], 1e-9)
			}
		}
	}
	// One source for all bends of several radii: one line for all of them, each bend's own K a little off.
	s.Tests = nil
	p = Build(s)
	require.Equal(t, []string{"K 0.494 to 0.496 instead of 0.444 to 0.446"}, worthOf(p, "k"))
}

// The note names the bends that the test bends reach, whether or not the part's first is one.
func TestTestsUnusedPerGroup(t *testing.T) {
	s := twoRadii()
	given := 0.41
	s.Sheet.K = &given
	p := Build(s)
	tr := troubleOf(t, p, "tests-unused")
	require.Equal(t, "tight", tr.Name)
	require.InDelta(t, 0.33, *tr.Need, 1e-9)
	require.Contains(t, tr.Message, "K 0.41 is used for the bend tight (")
	require.Len(t, slices.DeleteFunc(rules(p), func(r string) bool { return r != "tests-unused" }), 1)
	require.Equal(t, []string{"your test bends instead of K 0.41 (tight)"}, worthOf(p, "tests"))
	require.Equal(t, []string{"K 0.46 instead of 0.41"}, worthOf(p, "k"))
}

// A metal that only a handbook names has that handbook's constant on a part, as the calculator has it:
// (0.71 T + 1.57 R) N/90, Machinery's Handbook (from memory).
func TestHandbookMetalOnPart(t *testing.T) {
	s := angleStrip("bronze", 2, 5)
	s.Sheet.Rule = "machinery"
	p := Build(s)
	require.Equal(t, "machinery", p.Bends[0].Rule)
	require.InDelta(t, 0.71*2+1.57*5, p.Bends[0].Allowance, 1e-9)
	a, err := metal.Reckon(metal.Ask{Thickness: 2, Radius: 5, Angle: 90, Rule: "machinery", Metal: "bronze"})
	require.NoError(t, err)
	require.InDelta(t, a.Allowance, p.Bends[0].Allowance, 1e-12)
	require.Contains(t, troubleOf(t, p, "metal-unknown").Message, "Of it only the constant of Machinery's Handbook's rule is known.")
	s.Sheet.Rule = ""
	require.Contains(t, worthOf(Build(s), "rule"), "Machinery's Handbook instead of FAA-H-8083-31")
	s.Sheet.Metal = "unobtainium"
	require.NotContains(t, worthOf(Build(s), "rule"), "Machinery's Handbook instead of FAA-H-8083-31")
	require.NotContains(t, troubleOf(t, Build(s), "metal-unknown").Message, "Machinery")
}

// What is not known is null, not nothing: with R 0 and K 0.05 a radius of T/2 would take pi/2 (T/2 + 0.05 T) = 0.864 T for the
// bend, less than the two setbacks grow by, T: the blank can't be laid out anew, the part can be folded.
func TestWorthUnknownIsNull(t *testing.T) {
	s := angleStrip("", 2, 0)
	k := 0.05
	s.Sheet.K = &k
	list := Build(s).FindWorth()
	i := slices.IndexFunc(list, func(w Worth) bool { return w.If == "R 1 mm instead of 0 mm" })
	require.GreaterOrEqual(t, i, 0, "%v", list)
	require.Nil(t, list[i].Blank)
	require.False(t, list[i].BlankKnown)
	require.NotNil(t, list[i].Finished)
	text, err := json.Marshal(list[i])
	require.NoError(t, err)
	require.Contains(t, string(text), `"blank_mm":null,"blank_known":false`)
	for _, w := range list {
		require.Equal(t, w.BlankKnown, w.Blank != nil, w.If)
		require.Equal(t, w.Known, w.Finished != nil, w.If)
	}
}
