package shape_test

import (
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"dryfold/fold"
	"dryfold/fold/geom"
	"dryfold/fold/shape"
	"dryfold/fold/sizes"

	"github.com/stretchr/testify/require"
)

var (
	makeSeed  = flag.Uint64("make.seed", 20261127, "seed of the random parts by sizes; 0 draws one")
	makeParts = flag.Int("make.parts", 300, "how many random parts by sizes")
)

// randomForm is a base of 3 to 7 sides with walls, some of them with a lip, leaning as they like.
func randomForm(r *rand.Rand) fold.Spec {
	log := func(lo, hi float64) float64 { return lo * math.Pow(hi/lo, r.Float64()) }
	t := log(0.5, 4)
	n := 3 + r.IntN(5)
	f := &sizes.Form{
		Faces: sizes.Faces(r.IntN(2)), Radius: sizes.Is(log(0.2*t, 3*t)), Gap: sizes.Is(log(0.05, 2)),
		Relief: sizes.Relief{Kind: sizes.ReliefKind(r.IntN(4))}, Mirror: r.IntN(4) == 0,
	}
	if r.IntN(3) == 0 {
		f.Relief.Size = sizes.Is(log(0.5*t, 6*t))
	}
	big := log(60*t, 400*t)
	turn := r.Float64() * 2 * math.Pi
	for i := range n {
		a := turn + (float64(i)+0.5*(r.Float64()-0.5))*2*math.Pi/float64(n)
		f.Base.Points = append(f.Base.Points, sizes.Point{X: sizes.Is(big * math.Cos(a)), Y: sizes.Is(big * math.Sin(a) * 0.8)})
	}
	down := r.IntN(3) == 0
	for i := range n {
		if r.IntN(8) == 0 {
			continue
		}
		w := sizes.Flange{Name: fmt.Sprintf("wall %d", i+1), On: "floor", Side: fmt.Sprintf("side %d", i+1),
			Height: sizes.Is(log(8*t, 30*t)), Down: down, Angle: sizes.Is(50 + 70*r.Float64())}
		if n == 4 {
			w.Side = []string{"front", "right", "back", "left"}[i]
		}
		if r.IntN(4) == 0 {
			w.Angle = sizes.Field{} // 90
		}
		if r.IntN(5) == 0 {
			w.Radius = sizes.Is(log(0.2*t, 4*t))
		}
		if r.IntN(6) == 0 {
			w.Along = true
		}
		if r.IntN(10) == 0 {
			w.From = sizes.Is(log(5*t, 15*t))
		}
		f.Flanges = append(f.Flanges, w)
		if r.IntN(4) == 0 {
			f.Flanges = append(f.Flanges, sizes.Flange{Name: fmt.Sprintf("lip %d", i+1), On: w.Name, Height: sizes.Is(log(6*t, 12*t)), Along: true,
				Down: !down, Angle: sizes.Is(40 + 80*r.Float64())})
		}
	}
	return fold.Spec{Sheet: fold.Sheet{Thickness: t}, Sizes: f}
}

// Every part that is made folds to the sizes that were asked for, read off its solids: the faces' planes meet in the lines
// that were measured, the tops are as high as was said, and each seam's least gap is the wanted one.
func TestMakeRandom(t *testing.T) {
	seed := *makeSeed
	if seed == 0 {
		seed = rand.Uint64()
	}
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 1))
	made, seams, refused, sizesRead := 0, 0, map[string]int{}, 0
	for k := range *makeParts {
		s := randomForm(r)
		m, problems := shape.Make(s)
		if len(problems) > 0 {
			for _, p := range problems {
				require.NotEmpty(t, p.Path)
				require.NotEmpty(t, p.Need)
			}
			refused[problems[0].Need]++
			continue
		}
		made++
		p := fold.Build(m.Spec)
		require.True(t, p.Foldable, "part %d", k)
		require.Empty(t, p.Overlaps, "part %d: zones overlap", k)
		for _, c := range m.Corners {
			if c.Measured {
				seams++
				require.InDelta(t, c.Gap, c.Least, 1e-6, "part %d, %s", k, c.Name)
			}
		}
		sizesRead += readBack(t, k, s, m, p)
	}
	t.Logf("%d made with %d seams and %d sizes read back, %d refused", made, seams, sizesRead, len(refused))
	for why, n := range refused {
		t.Logf("%4d %.150s", n, why)
	}
	require.Greater(t, made, *makeParts/3)
}

// readBack reads the base's lines and the walls' heights off the folded part.
func readBack(t *testing.T, k int, s fold.Spec, m shape.Made, p *fold.Part) int {
	f := s.Sizes
	pose := p.Pose(p.Finished())
	index := map[string]int{}
	for i, n := range p.Panels {
		index[n.Name] = i
	}
	lips := map[string]bool{}
	for _, l := range f.Flanges {
		lips[l.On] = true
	}
	var pts []geom.Vec2
	for _, q := range f.Base.Points {
		pts = append(pts, geom.Vec2{q.X.Number, q.Y.Number})
	}
	lines := map[string][2]geom.Vec2{} // where the measured line of each side lies, as folded
	n := 0
	for _, l := range f.Flanges {
		if l.On != "floor" {
			continue
		}
		i := index[l.Name]
		fr := pose.Panels[i]
		up := !l.Down
		// Faces: of the base z, of the wall z in its own frame.
		zb, zw := 0.0, 0.0
		if up != (f.Faces == sizes.Outside) {
			zb, zw = p.Thickness, p.Thickness
		}
		angle := 90.0
		if l.Angle.Given {
			angle = l.Angle.Number
		}
		// The wall's face plane cuts the base's face plane z = zb in a line.
		o := fr.Point(geom.Vec3{0, 0, zw})
		nrm := fr.Z
		dir := geom.Vec2{-nrm[1], nrm[0]}.Normalize()
		// point: nrm.(x - o) = 0 with x[2] = zb
		c := nrm.Dot(o) - nrm[2]*zb
		flat := geom.Vec2{nrm[0], nrm[1]}
		q := flat.Mul(c / flat.Dot(flat))
		if angle <= 90 {
			lines[l.Side] = [2]geom.Vec2{q, q.Add(dir)}
		}
		// Height: the highest corner of the panel's solid, square to the base.
		if !l.Along && !lips[l.Name] {
			sign := 1.0
			if l.Down {
				sign = -1
			}
			high := math.Inf(-1)
			for _, v := range p.Panels[i].Region.Outer {
				for _, z := range []float64{0, p.Thickness} {
					high = max(high, sign*(fr.Point(geom.Vec3{v[0], v[1], z})[2]-zb))
				}
			}
			require.InDelta(t, l.Height.Number, high, 1e-9, "part %d: height of %s", k, l.Name)
			n++
		}
	}
	// The lines' mutual positions: distances of the outline's measured corners.
	side := func(i int) string {
		if len(pts) == 4 {
			return []string{"front", "right", "back", "left"}[i]
		}
		return fmt.Sprintf("side %d", i+1)
	}
	area := geom.Loop(pts).Area()
	var at []geom.Vec2
	var of []int
	for i := range pts {
		a, okA := lines[side((i+len(pts)-1)%len(pts))]
		b, okB := lines[side(i)]
		if okA && okB {
			x, ok := meet(a, b)
			require.True(t, ok)
			at, of = append(at, x), append(of, i)
		}
	}
	_ = area
	for i := range at {
		for j := range i {
			want := pts[of[i]].Sub(pts[of[j]]).Len()
			require.InDelta(t, want, at[i].Sub(at[j]).Len(), 1e-9*max(1, want/100), "part %d: corners %d and %d", k, of[i], of[j])
			n++
		}
	}
	return n
}

func meet(a, b [2]geom.Vec2) (geom.Vec2, bool) {
	d, e := a[1].Sub(a[0]), b[1].Sub(b[0])
	den := geom.Cross2(d, e)
	if math.Abs(den) < 1e-12 {
		return geom.Vec2{}, false
	}
	return a[0].Add(d.Mul(geom.Cross2(b[0].Sub(a[0]), e) / den)), true
}
