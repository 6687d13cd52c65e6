package ascut

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"dryfold/assets"
	"dryfold/fold"

	"github.com/stretchr/testify/require"
)

// TestTwoMillimetres: each straight edge that a size of a demo part hangs on is cut 2 mm off, outward and inward, in the outline and by hand. It is caught, and where the
// one edge is told, the seams come out as those of the part that is built from the wrong outline.
func TestTwoMillimetres(t *testing.T) {
	seams, trims, lacks := 0, 0, 0
	for _, d := range assets.Demos() {
		s := demos(t)[d.File]
		x := look(s)
		seen := map[int]bool{}
		for i := range x.l.Sizes {
			z := &x.l.Sizes[i]
			for c := range x.l.work.cuts {
				if seen[c] || !z.cand.covers(c) || z.cand.use == forDiagonal {
					continue
				}
				seen[c] = true
				cut := &x.l.work.cuts[c]
				for _, by := range []float64{-2, 2} {
					name := fmt.Sprintf("%s, %s by %+.0f", d.File, cut.Name, by)
					wrong, places, ok := cutByHand(s, cut.Ends[0], cut.Ends[1], by)
					if !ok {
						continue
					}
					v := x.measured(places)
					require.NotEqual(t, Bend, v.Word, name)
					require.NotEqual(t, Measure, v.Word, name)
					require.NotEmpty(t, v.Say, name)
					switch v.Word {
					case Trim:
						trims++
						require.Positive(t, by, name)
					default:
						lacks++
					}
					if math.Abs(v.out[c]-by) > 1e-9 || moves(v) != 1 {
						continue // another edge makes the same measures: told as the other one that may be it
					}
					p := fold.Build(wrong)
					if !p.Foldable {
						require.False(t, v.Part.Foldable, name)
						continue
					}
					r := p.Quick()
					told := map[string]SeamChange{}
					for _, c := range v.Seams {
						told[c.Name] = c
					}
					for k := range r.Seams {
						g := &r.Seams[k]
						if c, ok := told[g.Name]; ok {
							require.InDelta(t, g.GapMin, c.After[0], 1e-6, "%s: %s", name, g.Name)
							require.InDelta(t, g.GapMax, c.After[1], 1e-6, "%s: %s", name, g.Name)
							seams++
							if c.After[1] > c.Before[1]+gapTold {
								require.Contains(t, strings.Join(v.Say, " "), fmt.Sprintf("%s opens to", g.Name), name)
							}
							continue
						}
						for m := range x.r.Seams {
							if b := &x.r.Seams[m]; b.Name == g.Name {
								require.InDelta(t, g.GapMin, b.GapMin, 2*gapTold, "%s: %s", name, g.Name)
								require.InDelta(t, g.GapMax, b.GapMax, 2*gapTold, "%s: %s", name, g.Name)
							}
						}
					}
				}
			}
		}
	}
	t.Logf("%d seams compared, %d trims, %d others", seams, trims, lacks)
	require.Greater(t, seams, 25)
	require.Greater(t, trims, 20)
	require.Greater(t, lacks, 20)
}

// moves counts the edges that are out.
func moves(v *Verdict) (n int) {
	for _, x := range v.out {
		if math.Abs(x) > 1e-6 {
			n++
		}
	}
	return n
}

// TestDemoLists: what the demo parts' lists must hold.
func TestDemoLists(t *testing.T) {
	for _, d := range assets.Demos() {
		x := look(demos(t)[d.File])
		require.GreaterOrEqual(t, len(x.l.Sizes), 4, d.File)
		require.LessOrEqual(t, len(x.l.Sizes), MaxSizes, d.File)
		all := ""
		for i := range x.l.Sizes {
			z := &x.l.Sizes[i]
			require.Equal(t, i+1, z.No)
			require.LessOrEqual(t, z.Low, z.Want, d.File)
			require.GreaterOrEqual(t, z.High, z.Want, d.File)
			require.GreaterOrEqual(t, z.Low, z.least-1e-9, "%s %d: rounded inward", d.File, z.No)
			require.LessOrEqual(t, z.High, z.most+1e-9, "%s %d: rounded inward", d.File, z.No)
			require.NotEmpty(t, z.LowFrom)
			require.NotEmpty(t, z.HighFrom)
			all += strings.Join(z.Catches, ", ") + "\n"
		}
		require.Contains(t, all, "a corner that was not square", d.File)
		require.Contains(t, all, "a forgotten bend deduction", d.File)
		// The spoilt tray alone is no mirror image of itself.
		require.Equal(t, d.File != "faulty-tray.dryfold", x.l.Own, d.File)
		require.Equal(t, d.File == "faulty-tray.dryfold", strings.Contains(all, "a mirror image"), d.File)
		require.Equal(t, Bend, x.typed(x.wants()...).Word, d.File)
		require.Equal(t, Measure, x.typed().Word, d.File)
	}
}

// TestLimitsBuilt: a hundredth inside of a limit the part as built from the outline moved by hand keeps its seams, a hundredth outside one is past.
func TestLimitsBuilt(t *testing.T) {
	n := 0
	for _, d := range assets.Demos() {
		s := demos(t)[d.File]
		n += limitsBuilt(t, d.File, s, look(s))
	}
	require.Greater(t, n, 60)
	random(t, 25, func(at uint64, s fold.Spec, x *looked) { n += limitsBuilt(t, fmt.Sprintf("seed %d", at), s, x) })
	t.Logf("%d parts built", n)
}

func limitsBuilt(t *testing.T, name string, s fold.Spec, x *looked) (n int) {
	m := x.l.work
	for c := range m.cuts {
		p, ok := x.l.plays[c]
		if !ok {
			continue
		}
		cut := &m.cuts[c]
		for _, l := range []struct {
			way float64
			limit
		}{{-1, p.in}, {1, p.out}} {
			if !l.set || l.kind == "the swing" || l.mm < 0.05 {
				continue
			}
			past := func(f float64) bool {
				wrong, _, ok := cutByHand(s, cut.Ends[0], cut.Ends[1], l.way*l.mm*f)
				if !ok {
					return f > 1
				}
				n++
				q := fold.Build(wrong)
				if !q.Foldable {
					return f > 1
				}
				r := q.Quick()
				for i := range m.seams {
					for k := range r.Seams {
						if r.Seams[k].Name != m.seams[i].rep.Name || m.seams[i].cuts[0] != c && m.seams[i].cuts[1] != c {
							continue
						}
						if r.Seams[k].GapMin < 1e-6 && m.seams[i].min > 0 { // it touches; farther out it may slide along
							return true
						}
						if most, _, _, ok := m.widest(m.seams[i].rep); ok && r.Seams[k].GapMax > most && m.seams[i].max <= most {
							return true
						}
					}
				}
				return false
			}
			require.False(t, past(0.99), "%s: %s %+.0f by %v", name, cut.Name, l.way, l.limit)
			require.True(t, past(1.01), "%s: %s %+.0f by %v", name, cut.Name, l.way, l.limit)
		}
	}
	return n
}

// TestSeamRange: the two gaps that limits are found by are those of the whole measure.
func TestSeamRange(t *testing.T) {
	for name, s := range demos(t) {
		p := fold.Build(s)
		ps := p.Pose(p.Finished())
		seams, _ := p.FindSeams()
		for _, q := range seams {
			g, ok := ps.MeasureSeam(q)
			least, largest, too := ps.SeamRange(q)
			require.Equal(t, ok, too, name)
			require.Equal(t, []float64{g.Min, g.Max}, []float64{least, largest}, "%s: %s", name, q.Name)
		}
	}
}
