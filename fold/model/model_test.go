package model

import (
	"flag"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"dryfold/fold"
	"dryfold/fold/foldtest"
	"dryfold/fold/geom"
	"dryfold/fold/partfile"
	"dryfold/fold/shape"
)

var (
	update = flag.Bool("update", false, "write the golden files anew")
	seed   = flag.Uint64("seed", 1, "of the first random part; 0 takes the clock's")
	many   = flag.Int("many", 60, "how many random parts")
)

// read builds a part from its file.
func read(t testing.TB, file string) *fold.Part {
	data, err := os.ReadFile(file)
	require.NoError(t, err)
	spec, err := partfile.Read(data)
	require.NoError(t, err)
	if spec.Sizes != nil {
		made, wrong := shape.Make(spec)
		require.Empty(t, wrong, file)
		return made.Part
	}
	return fold.Build(spec)
}

// known are the parts at hand that can be folded, by name.
func known(t testing.TB) map[string]*fold.Part {
	out := map[string]*fold.Part{}
	for _, pattern := range []string{"../../assets/*.dryfold", "../../testdata/parts/*.dryfold", "../../testdata/sizes/*.dryfold"} {
		files, err := filepath.Glob(pattern)
		require.NoError(t, err)
		for _, f := range files {
			if p := read(t, f); p != nil && p.Foldable {
				out[strings.TrimSuffix(filepath.Base(f), ".dryfold")] = p
			}
		}
	}
	require.Greater(t, len(out), 20)
	return out
}

// names in order, so that a failure is the same every time.
func names(parts map[string]*fold.Part) []string {
	var out []string
	for n := range parts {
		out = append(out, n)
	}
	slices.Sort(out)
	return out
}

// forMany runs a check on parts from seeds that a failure prints.
func forMany(t *testing.T, f func(t *testing.T, r *rand.Rand, p *fold.Part)) {
	first := *seed
	if first == 0 {
		first = uint64(time.Now().UnixNano())
	}
	for k := range uint64(*many) {
		r := foldtest.Rand(first + k)
		if p := fold.Build(foldtest.Random(r)); p.Foldable {
			f(t, r, p)
		}
		if t.Failed() {
			t.Fatalf("again with: go test ./fold/model -run '%s' -seed %d -many 1", t.Name(), first+k)
		}
	}
}

// anyState draws a state: bends flat, on the way, stopped, springing back or finished.
func anyState(r *rand.Rand, p *fold.Part) fold.State {
	s := p.Flat()
	for i := range s {
		b := &p.Bends[i]
		switch r.IntN(5) {
		case 0:
		case 1:
			s[i] = b.Angle
		case 2:
			s[i] = b.Set
		case 3:
			s[i] = b.Set + geom.Angle(r.Float64())*(b.Set-b.Angle)
		default:
			s[i] = geom.Angle(r.Float64()) * b.Set
		}
	}
	return s
}

// below is the area of a loop where s <= at across a bend: the loop cut straight (edges that it
// gets along the cut run both ways and enclose nothing).
func below(b *fold.Bend, l geom.Loop, at float64) float64 {
	var out geom.Loop
	for i, p := range l {
		q := l[(i+1)%len(l)]
		_, s := b.Coord(p)
		_, t := b.Coord(q)
		if s <= at {
			out = append(out, p)
		}
		if (s <= at) != (t <= at) {
			out = append(out, p.Add(q.Sub(p).Mul((at-s)/(t-s))))
		}
	}
	return out.Area()
}

// trueVolume is the part's by closed form. A panel is its area by T. Of a zone what is bent is an annular sector: each
// strip of it is longer at the middle of the sheet than at the neutral line by the ratio of their radii,
// (rho - K T + T/2) / rho, whatever the outline; the rest is flat. A crease is a sector of a cylinder of radius T.
// most is by how much facets of the given number may fall short of it: of a facet of angle a the polygon has
// sin(a)/a of the sector, short by a^2/6 at most.
func trueVolume(p *fold.Part, s fold.State, chord float64) (volume, most float64) {
	t := p.Thickness
	for k := range p.Panels {
		volume += p.Panels[k].Region.Area() * t
	}
	sh := sheet{part: p, state: s, chord: chord}
	for i := range p.Bends {
		b := &p.Bends[i]
		rho, phi := b.Curl(s[i])
		add := func(v float64, r float64) {
			volume += v
			if n := sh.facets(phi, r); n > 0 {
				a := float64(phi) / float64(n) * (1 + 2*snapLine)
				most += v * a * a / 6
			}
		}
		if b.Allowance == 0 {
			add(float64(phi)/2*t*t*tangent(p, i), t)
			continue
		}
		for _, z := range b.Zone {
			for _, l := range z.Loops() {
				bent := below(b, l, rho*float64(phi))
				if phi > 0 {
					add(bent*t*(rho-b.K*t+t/2)/rho, rho-b.K*t+t)
				}
				volume += (l.Area() - bent) * t
			}
		}
	}
	return volume, most
}

// tangent is along how much of a crease its panels meet.
func tangent(p *fold.Part, bend int) float64 {
	sum := 0.0
	for _, j := range joints(p, bend, 0, p.Bends[bend].A, [][]geom.Loop{p.Panels[p.Bends[bend].B].Region.Loops()}) {
		sum += j[1] - j[0]
	}
	return sum
}

// joints are the stretches along a bend's tangent line (side 0 the held one) that a panel shares with regions.
func joints(p *fold.Part, bend, side, panel int, others [][]geom.Loop) (out [][2]float64) {
	b := &p.Bends[bend]
	along := func(loops []geom.Loop) (list [][2]float64) {
		for _, l := range loops {
			for i, v := range l {
				w := l[(i+1)%len(l)]
				u, s := b.Coord(v)
				x, y := b.Coord(w)
				if at := float64(side) * b.Allowance; math.Abs(s-at) < 2e-6 && math.Abs(y-at) < 2e-6 {
					list = append(list, [2]float64{min(u, x), max(u, x)})
				}
			}
		}
		slices.SortFunc(list, func(x, y [2]float64) int { return int(math.Copysign(1, x[0]-y[0])) })
		return list
	}
	mine := along(p.Panels[panel].Region.Loops())
	for _, o := range others {
		for _, x := range along(o) {
			for _, y := range mine {
				if lo, hi := max(x[0], y[0]), min(x[1], y[1]); hi-lo > 1e-7 {
					if k := len(out); k > 0 && lo-out[k-1][1] < 1e-7 && lo >= out[k-1][0] {
						out[k-1][1] = hi
					} else {
						out = append(out, [2]float64{lo, hi})
					}
				}
			}
		}
	}
	return out
}

// euler is vertices less edges and faces of the mesh.
func euler(m Mesh) int { return len(m.Points) - 3*len(m.Tris)/2 + len(m.Tris) }

// wantEuler is twice that of the sheet: each panel and piece of a zone has 1 less its holes, and each stretch along which two
// of them hang together takes 1 away.
func wantEuler(p *fold.Part) int {
	x := 0
	for k := range p.Panels {
		x += 1 - len(p.Panels[k].Region.Holes)
	}
	for i := range p.Bends {
		b := &p.Bends[i]
		if b.Allowance == 0 {
			x -= len(joints(p, i, 0, b.A, [][]geom.Loop{p.Panels[b.B].Region.Loops()}))
		}
		for _, z := range b.Zone {
			x += 1 - len(z.Holes)
			x -= len(joints(p, i, 0, b.A, [][]geom.Loop{z.Loops()})) + len(joints(p, i, 1, b.B, [][]geom.Loop{z.Loops()}))
		}
	}
	return 2 * x
}

// pieces is how many separate surfaces a mesh has.
func pieces(m Mesh) int {
	one := make([]int, len(m.Points))
	for i := range one {
		one[i] = i
	}
	find := func(i int) int {
		for one[i] != i {
			i = one[i]
		}
		return i
	}
	n := len(m.Points)
	for _, t := range m.Tris {
		for k := range 2 {
			if a, b := find(int(t.V[k])), find(int(t.V[k+1])); a != b {
				one[a] = b
				n--
			}
		}
	}
	return n
}

// fans checks that the triangles round each point are one fan: no two sheets touch at a point of the mesh.
func fans(t *testing.T, m Mesh) {
	turn := map[[2]int32]int32{} // point and next corner -> the corner after that
	count := make([]int, len(m.Points))
	for _, q := range m.Tris {
		for k := range 3 {
			turn[[2]int32{q.V[k], q.V[(k+1)%3]}] = q.V[(k+2)%3]
			count[q.V[k]]++
		}
	}
	seen := make([]bool, len(m.Points))
	for _, q := range m.Tris {
		for k := range 3 {
			if v := q.V[k]; !seen[v] {
				seen[v] = true
				n := 0
				for w := q.V[(k+1)%3]; n == 0 || w != q.V[(k+1)%3]; w = turn[[2]int32{v, w}] {
					if n++; n > count[v] {
						break
					}
				}
				require.Equal(t, count[v], n, "triangles round point %d, %v", v, m.Points[v])
			}
		}
	}
	require.NotContains(t, seen, false, "a point of no triangle")
}

// sound makes a mesh and checks all that must hold of any.
func sound(t *testing.T, p *fold.Part, s fold.State, chord float64, name string) Mesh {
	m, err := Make(p, s, chord)
	require.NoError(t, err, name)
	require.True(t, m.Closed(), name)
	fans(t, m)
	require.Equal(t, wantEuler(p), euler(m), "%s: Euler's number", name)
	want, most := trueVolume(p, s, chord)
	got, noise := m.Volume(), 1e-7*want
	slant := slanting(p, s)
	require.LessOrEqual(t, got, want+noise+slant*chord, "%s: volume", name)
	require.GreaterOrEqual(t, got, want-most-noise-slant*chord, "%s: volume, up to %g short", name, most)
	return m
}

// slanting is the area, at most, of cut faces of zones that do not run straight across the bend, where facets may stand on
// either side of the true face.
func slanting(p *fold.Part, s fold.State) (area float64) {
	for i := range p.Bends {
		b := &p.Bends[i]
		if s[i] == 0 {
			continue
		}
		for _, z := range b.Zone {
			for _, l := range z.Loops() {
				for k, v := range l {
					d := l[(k+1)%len(l)].Sub(v)
					if math.Abs(d.Dot(b.U)) > 1e-9 && math.Abs(d.Dot(b.N)) > 1e-9 {
						area += 2 * d.Len() * p.Thickness
					}
				}
			}
		}
	}
	return area
}

// Every part at hand, flat, finished and at each moment of its run-through, has a closed surface with the holes it has, and
// its closed form's volume; in one piece, all of it.
func TestKnown(t *testing.T) {
	parts := known(t)
	for _, name := range names(parts) {
		p := parts[name]
		for n := 0; n <= len(p.Swings); n++ {
			sound(t, p, p.StateAt(n, .37), Chord, name)
			m := sound(t, p, p.StateAt(n, 0), 0.05, name)
			require.Equal(t, 1, pieces(m), name)
		}
		if len(p.Overlaps) == 0 {
			require.Equal(t, 2-2*len(p.Voids), wantEuler(p), "%s: holes", name)
		}
	}
}

// Flat it is the blank by the thickness, arcs within their chords.
func TestFlat(t *testing.T) {
	check := func(t *testing.T, p *fold.Part, name string) {
		m, err := Make(p, nil, 0)
		require.NoError(t, err)
		area, around := p.Blank.Area, 0.0
		for _, o := range p.Overlaps {
			area -= o.Area()
		}
		for _, l := range append([]geom.Loop{p.Outline}, p.Voids...) {
			for i, v := range l {
				around += v.Sub(l[(i+1)%len(l)]).Len()
			}
		}
		require.InDelta(t, area*p.Thickness, m.Volume(), (fold.ArcChord*around+1e-7*area)*p.Thickness, name)
		require.InDelta(t, 0, m.Box().Min[2], 1e-9, name)
		require.InDelta(t, p.Thickness, m.Box().Max[2], 1e-9, name)
	}
	parts := known(t)
	for _, name := range names(parts) {
		check(t, parts[name], name)
	}
	forMany(t, func(t *testing.T, _ *rand.Rand, p *fold.Part) { check(t, p, "random") })
}

// Random parts at random states; half of them of metal that springs back.
func TestRandom(t *testing.T) {
	forMany(t, func(t *testing.T, r *rand.Rand, p *fold.Part) {
		if r.IntN(2) == 0 {
			for i := range p.Bends {
				if b := &p.Bends[i]; b.Allowance > 0 && b.Radius > .5*p.Thickness {
					b.Set = b.Angle * geom.Angle(foldtest.Uniform(r, 1, 1.15))
					b.Work = b.Allowance / float64(b.Set)
				}
			}
		}
		sound(t, p, p.Finished(), Chord, "finished")
		sound(t, p, anyState(r, p), foldtest.LogUniform(r, .001, .2), "on the way")
	})
}

// Random parts as nobody should make them: holes and slots anywhere, flanges without reliefs whose zones run into each
// other or along another panel.
func TestSpoilt(t *testing.T) {
	made, overlaps, cut := 0, 0, 0
	forMany(t, func(t *testing.T, r *rand.Rand, p *fold.Part) {
		s := p.Spec
		if r.IntN(2) == 0 {
			s = unrelieved(r)
		}
		size := p.Blank.Box.Size()
		if r.IntN(2) == 0 {
			size = geom.Vec2{100, 100}
		}
		k := s.Units.Scale()
		for range r.IntN(12) {
			at := geom.Vec2{r.Float64() * size[0] / k, r.Float64() * size[1] / k}
			d := foldtest.LogUniform(r, .01, .2) * min(size[0], size[1]) / k
			if r.IntN(3) > 0 {
				s.Holes = append(s.Holes, fold.Hole{At: at, Diameter: d})
				continue
			}
			a, w := r.Float64()*math.Pi, d*foldtest.LogUniform(r, .01, 1)
			u := geom.Vec2{math.Cos(a), math.Sin(a)}
			v := geom.Perp(u).Mul(w)
			u = u.Mul(d)
			var c fold.Contour
			for _, q := range []geom.Vec2{at.Sub(u).Sub(v), at.Add(u).Sub(v), at.Add(u).Add(v), at.Sub(u).Add(v)} {
				c = append(c, fold.Vertex{At: q})
			}
			s.Cutouts = append(s.Cutouts, c)
		}
		for len(s.Holes)+len(s.Cutouts) > 0 {
			if p = fold.Build(s); p.Foldable {
				break
			}
			if n := len(s.Holes); n > 0 {
				s.Holes = s.Holes[:n-1]
			} else {
				s.Cutouts = s.Cutouts[:len(s.Cutouts)-1]
			}
		}
		if p = fold.Build(s); !p.Foldable {
			return
		}
		made++
		overlaps += len(p.Overlaps)
		for i := range p.Bends {
			cut += len(p.Bends[i].Zone) - 1
		}
		sound(t, p, p.Finished(), .02, "finished")
		sound(t, p, anyState(r, p), .02, "on the way")
	})
	if *many > 50 {
		require.Greater(t, made, *many/3)
		require.Greater(t, overlaps, *many/10)
		require.Greater(t, cut, *many/10)
	}
}

// unrelieved is a floor with flanges on its four sides, cut with no reliefs at all: some as long as their side, some shorter,
// some a little longer.
func unrelieved(r *rand.Rand) fold.Spec {
	k := foldtest.Uniform(r, .2, .5)
	s := fold.Spec{Sheet: fold.Sheet{Thickness: foldtest.LogUniform(r, .5, 3), K: &k}}
	corner := []geom.Vec2{{20, 20}, {80, 20}, {80, 80}, {20, 80}}
	for i, o := range corner {
		u := corner[(i+1)%4].Sub(o).Mul(1. / 60)
		n := geom.Perp(u).Mul(-1)
		at := func(x, y float64) geom.Vec2 { return o.Add(u.Mul(x)).Add(n.Mul(y)) }
		x0, x1, h := 0., 60., foldtest.Uniform(r, 8, 19)
		s.Outline = append(s.Outline, fold.Vertex{At: o}) // where a flange begins, a point twice
		switch r.IntN(3) {
		case 0:
			x0, x1 = foldtest.Uniform(r, 0, 10), foldtest.Uniform(r, 45, 60)
		case 1:
			continue
		}
		lean := foldtest.Uniform(r, -2, 2)
		for _, q := range []geom.Vec2{at(x0, 0), at(x0+lean, h), at(x1-lean, h), at(x1, 0)} {
			s.Outline = append(s.Outline, fold.Vertex{At: q})
		}
		s.Bends = append(s.Bends, fold.BendSpec{Line: [2]geom.Vec2{at(x0, 0), at(x1, 0)}, Angle: foldtest.Uniform(r, 5, 180), Radius: foldtest.Uniform(r, 0, 3), Up: r.IntN(2) == 0})
	}
	return s
}

// With finer chords the volume comes to the closed form's, four times nearer with twice the facets.
func TestConverges(t *testing.T) {
	parts := known(t)
	for _, name := range names(parts) {
		p := parts[name]
		if len(p.Bends) == 0 {
			continue
		}
		want, _ := trueVolume(p, p.Finished(), Chord)
		var off []float64
		for _, chord := range []float64{.0064, .0016, .0004} {
			m, err := Make(p, p.Finished(), chord)
			require.NoError(t, err)
			off = append(off, math.Abs(want-m.Volume()))
		}
		require.Less(t, off[2], 2e-4*want, name)
		for k := range 2 {
			require.Less(t, off[k+1], off[k]/2.5+1e-9*want, "%s: %v", name, off)
		}
	}
}
