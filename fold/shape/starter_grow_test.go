package shape

import (
	"flag"
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"dryfold/fold"
	"dryfold/fold/foldtest"
	"dryfold/fold/sizes"
)

var (
	grownSeed = flag.Uint64("grownseed", 20261127, "seed of the starters with flanges added; 0 draws one")
	grownRuns = flag.Int("grownruns", 300, "how many starters with flanges added")
)

// grown is a starter with one or two flanges, hems or joggles added on free sides.
func grown(seed uint64) fold.Spec {
	r := foldtest.Rand(seed)
	all := slices.DeleteFunc(slices.Clone(Starters), func(s Starter) bool { return s.ID == "lid" }) // all by outside sizes
	spec := all[r.IntN(len(all))].Make(fold.MM)
	f, t := spec.Sizes, spec.Sheet.Thickness
	for k := range f.Named {
		if n := &f.Named[k]; !n.Angle {
			n.Is.Number *= foldtest.LogUniform(r, 0.7, 1.5)
		} else if n.Is.Number == 0 {
			n.Is.Number = foldtest.Uniform(r, 0, 20)
		}
	}
	f.Relief.Kind = sizes.ReliefKind(r.IntN(4))
	for k := range 1 + r.IntN(2) {
		l := sizes.Flange{Name: fmt.Sprintf("new %d", k), Down: r.IntN(2) == 0, Along: r.IntN(2) == 0, Height: sizes.Is(foldtest.LogUniform(r, 6, 40) * t)}
		if j := r.IntN(len(f.Flanges) + 1); j == len(f.Flanges) {
			l.On, l.Side = f.Base.Name, wallNames[r.IntN(4)]
		} else {
			l.On, l.Side = f.Flanges[j].Name, []string{"top", "start", "end"}[r.IntN(3)]
		}
		if slices.ContainsFunc(f.Flanges, func(o sizes.Flange) bool {
			return o.On == l.On && (o.Side == l.Side || o.Side == "" && l.Side == "top")
		}) {
			continue
		}
		switch r.IntN(6) {
		case 0:
			l.Along, l.Hem = false, &sizes.Hem{Clear: sizes.Is(t * foldtest.Uniform(r, 0, 2)), Teardrop: r.IntN(3) == 0}
		case 1:
			l.Joggle = &sizes.Joggle{At: sizes.Is(t * foldtest.Uniform(r, 5, 20)), Depth: sizes.Is(t * foldtest.Uniform(r, 1, 4)), Out: r.IntN(2) == 0}
		default:
			l.Angle = sizes.Is(foldtest.Uniform(r, 10, 150))
		}
		if r.IntN(3) == 0 {
			l.From = sizes.Is(foldtest.Uniform(r, 0, 30) * t)
		}
		if r.IntN(3) == 0 {
			l.To = sizes.Is(foldtest.Uniform(r, 0, 30) * t)
		}
		if r.IntN(5) == 0 {
			l.LeanStart, l.LeanEnd = sizes.Is(foldtest.Uniform(r, -20, 40)), sizes.Is(foldtest.Uniform(r, -20, 40))
		}
		f.Flanges = append(f.Flanges, l)
	}
	spec.Order = nil
	return spec
}

// Whatever is added to a starter, it is refused with a reason, or it folds: with every flange that was added as high as was
// asked, measured from the faces, and every seam's least gap the wanted one; where it is not, that is told.
func TestGrownStarters(t *testing.T) {
	seed := drawn(*grownSeed)
	t.Logf("seed %d", seed)
	made := 0
	for i := range *grownRuns {
		spec := grown(seed*100_000 + uint64(i))
		m, bad := Make(spec)
		if len(bad) > 0 {
			for _, p := range bad {
				require.True(t, p.Path != "" && p.Found != "" && p.Need != "", "%d: %+v", i, p)
			}
			continue
		}
		made++
		p := fold.Build(m.Spec)
		require.True(t, p.Foldable, i)
		told := func(rule, name string) bool {
			return slices.ContainsFunc(m.Notes, func(n fold.Trouble) bool { return n.Rule == rule && n.Name == name })
		}
		for _, c := range m.Corners {
			if c.Close != sizes.Apart && c.Measured && !told("corner-opens", c.Name) {
				require.InDelta(t, c.Gap, c.Least, 1e-6, "%d: %s", i, c.Name)
			}
		}
		f := starterPart{folded{t, p, p.Pose(p.Finished())}, m}
		for _, l := range spec.Sizes.Flanges {
			topped := slices.ContainsFunc(spec.Sizes.Flanges, func(o sizes.Flange) bool { return o.On == l.Name && (o.Side == "" || o.Side == "top") })
			if l.Height.Formula != "" || l.Hem != nil || l.Joggle != nil || topped || told("flange-cut-off", l.Name) {
				continue
			}
			b := p.Bends[f.bend(l.Name)]
			got := 0.0
			if l.Along {
				got = f.reach(l.Name, f.plane(l.Name, !b.Up), f.limitBack(l.Name, !b.Up))
			} else { // over the outside face of what it stands on
				face := f.plane(p.Panels[b.A].Name, !b.Up)
				if !b.Up {
					face.n, face.d = face.n.Mul(-1), -face.d
				}
				got = f.extreme(l.Name, face.n) - face.d
			}
			require.InDelta(t, l.Height.Number, got, 1e-7, "%d: %s on %s", i, l.Name, l.On)
		}
	}
	t.Logf("%d of %d made", made, *grownRuns)
	require.Greater(t, made, *grownRuns/3)
}
