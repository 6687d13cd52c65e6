package solid

// Distances against those of the library Bullet in float64, frozen in testdata/oracle/bullet.json.
// make oracle makes the file again and measures both.

import (
	"bufio"
	"encoding/json"
	"flag"
	"fmt"
	"math"
	"math/rand"
	"os"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"dryfold/fold/geom"
)

var (
	rivalFlag = flag.String("rival.pairs", "", "write the rivals' input there instead of comparing")
	timesFlag = flag.String("rival.times", "", "write our times there, ns a pair by kind")
)

// rivalPair is two bodies, each a box (its frame at its middle and half sizes) or the hull of its points.
type rivalPair struct {
	kind string
	body [2]Convex
	box  [2]*rivalBox
}

type rivalBox struct {
	frame geom.Frame
	half  geom.Vec3
}

// rivalPairs are the tray's 78 pairs of boxes and some hundred others of a fixed seed.
func rivalPairs(t testing.TB) []rivalPair {
	var out []rivalPair
	_, boxes := trayRead(t)
	for i := range boxes {
		for j := range i {
			a, b := boxes[j], boxes[i]
			out = append(out, rivalPair{"tray boxes", [2]Convex{a.convex(), b.convex()}, [2]*rivalBox{&a, &b}})
		}
	}
	r := rand.New(rand.NewSource(5))
	block := func() rivalBox {
		return rivalBox{randomFrame(r, 100), geom.Vec3{logUniform(r, 0.1, 500), logUniform(r, 0.1, 100), logUniform(r, 0.01, 5)}}
	}
	for k := range 160 {
		a, b := block(), block()
		x, y := a.convex(), b.convex()
		c := Distance(&x, &y)
		want, kind := logUniform(r, 1e-6, 1e3), "planks"
		if k >= 100 {
			want, kind = -logUniform(r, 1e-6, 1), "planks that overlap"
		}
		a.frame.O = a.frame.O.Add(c.N.Mul(want - c.D))
		if x = a.convex(); kind == "planks" == (Distance(&x, &y).D > 0) {
			out = append(out, rivalPair{kind, [2]Convex{x, y}, [2]*rivalBox{&a, &b}})
		}
	}
	for _, kind := range []string{"slivers", "frustums", "crossing edges", "hems"} {
		for n := 0; n < 60; {
			a, b := randomPair(r, kindOf(kind))
			if Distance(&a, &b).D > 0 {
				out = append(out, rivalPair{kind: kind, body: [2]Convex{a, b}})
				n++
			}
		}
	}
	return out
}

func kindOf(name string) int {
	for i, k := range pairKinds {
		if k == name {
			return i
		}
	}
	panic(name)
}

func (b *rivalBox) convex() Convex {
	h := b.half
	return Prism(geom.Loop{{-h[0], -h[1]}, {h[0], -h[1]}, {h[0], h[1]}, {-h[0], h[1]}}, -h[2], h[2], b.frame)
}

// writeRivals writes a line for each pair: kind; then for each body "box" with its middle, axes and half
// sizes, or "hull" with a count and the points.
func writeRivals(t *testing.T, to string) {
	f, err := os.Create(to)
	require.NoError(t, err)
	w := bufio.NewWriter(f)
	vec := func(v geom.Vec3) { fmt.Fprintf(w, " %.17g %.17g %.17g", v[0], v[1], v[2]) }
	for _, p := range rivalPairs(t) {
		fmt.Fprintf(w, "%s;", p.kind)
		for k := range p.body {
			if b := p.box[k]; b != nil {
				fmt.Fprint(w, " box")
				for _, v := range []geom.Vec3{b.frame.O, b.frame.X, b.frame.Y, b.frame.Z, b.half} {
					vec(v)
				}
				continue
			}
			fmt.Fprintf(w, " hull %d", len(p.body[k].Points))
			for _, v := range p.body[k].Points {
				vec(v)
			}
		}
		fmt.Fprintln(w)
	}
	require.NoError(t, w.Flush())
	require.NoError(t, f.Close())
}

// writeTimes measures each pair over and over, long enough to be told from the clock's own time, and
// writes each kind's mean.
func writeTimes(t *testing.T, to string) {
	sum, n, kinds := map[string]float64{}, map[string]int{}, []string{}
	for _, p := range rivalPairs(t) {
		const times = 200
		best := math.Inf(1)
		for range 10 { // the least of ten: the machine does other things too
			start := time.Now()
			for range times {
				Distance(&p.body[0], &p.body[1])
			}
			best = min(best, float64(time.Since(start).Nanoseconds())/times)
		}
		if n[p.kind] == 0 {
			kinds = append(kinds, p.kind)
		}
		sum[p.kind] += best
		n[p.kind]++
	}
	var out []byte
	for _, k := range kinds {
		out = fmt.Appendf(out, "%s;%.0f\n", k, sum[k]/float64(n[k]))
	}
	require.NoError(t, os.WriteFile(to, out, 0o644))
}

// TestRival compares distances, and depths. Where the two differ by more than 1e-9 mm, our certificate must show
// that it is the rival's: two points, one in each body, and a slab between them, that leave no room for its
// number. For depths the certificate is the move out along N; the rival's own move must not part the
// bodies, or be longer.
func TestRival(t *testing.T) {
	if *rivalFlag != "" {
		writeRivals(t, *rivalFlag)
		return
	}
	if *timesFlag != "" {
		writeTimes(t, *timesFlag)
		return
	}
	data, err := os.ReadFile("../../testdata/oracle/bullet.json")
	require.NoError(t, err)
	var o struct {
		MadeBy string `json:"made_by"`
		Pairs  []struct {
			Kind string
			D    float64
			N    geom.Vec3
		}
	}
	require.NoError(t, json.Unmarshal(data, &o))
	pairs := rivalPairs(t)
	require.Len(t, o.Pairs, len(pairs), "make oracle has not seen these pairs")
	type count struct {
		all, out int
		agree    float64
		worst    float64
	}
	counts, kinds := map[string]*count{}, []string{}
	for i, q := range o.Pairs {
		p := &pairs[i]
		require.Equal(t, p.kind, q.Kind)
		k := counts[p.kind]
		if k == nil {
			k = &count{}
			counts[p.kind], kinds = k, append(kinds, p.kind)
		}
		k.all++
		a, b := &p.body[0], &p.body[1]
		c := Distance(a, b)
		off := math.Abs(q.D - c.D)
		if off <= 1e-9 {
			k.agree = max(k.agree, off)
			continue
		}
		k.out++
		k.worst = max(k.worst, off)
		low, high := certificate(t, a, b, c)
		if c.D > 0 {
			require.True(t, q.D < low || q.D > high, "%s pair %d: the rival's %v lies in what we prove, %v to %v", p.kind, i, q.D, low, high)
			continue
		}
		gap, _, _ := slab(a, b, q.N)
		require.True(t, q.D < low || gap < q.D-1e-12, "%s pair %d: the rival parts them by %v, we by %v", p.kind, i, q.D, c.D)
	}
	t.Log("made by", o.MadeBy)
	for _, k := range kinds {
		c := counts[k]
		t.Logf("%-20s %3d pairs, %3d agree to %.1e mm; of the rival's %d are out, by up to %.1e mm", k, c.all, c.all-c.out, c.agree, c.out, c.worst)
	}
	require.Zero(t, counts["tray boxes"].out)
}

// certificate is what a contact proves by itself: the true distance is between low and high. Depths
// are proven from below alone.
func certificate(t *testing.T, a, b *Convex, c Contact) (low, high float64) {
	low, _, _ = slab(a, b, c.N)
	low /= c.N.Len()
	tol := rounding(a, b)
	if c.D > 0 {
		require.LessOrEqual(t, outside(a, c.A), tol)
		require.LessOrEqual(t, outside(b, c.B), tol)
		return low - tol, c.A.Sub(c.B).Len() + 2*tol
	}
	return low - tol, math.Inf(1)
}

// rounding bounds by how much a distance and its proof can be out by rounding alone. With u = 2^-53 and S the
// greatest coordinate: a nearest point is a sum of up to four corners with weights that sum up to 1,
// within 4u, which is 12 u S; so is the other, and their difference is another 2 u S. A slab takes the
// reach of two bodies, each the greatest of sums of three products, 6 u S by what is told and by which
// corner is taken, and is divided by a length that is right to 3 u. Together less than 64 u S.
func rounding(a, b *Convex) float64 {
	s := 0.0
	for _, c := range [2]*Convex{a, b} {
		for _, p := range c.Points {
			s = max(s, p.Len())
		}
	}
	return 64 * 0x1p-53 * s
}

// outside is how far a point is out of a body: at least, by its faces.
func outside(c *Convex, p geom.Vec3) float64 {
	worst := math.Inf(-1)
	for _, n := range c.Normals {
		reach := math.Inf(-1)
		for _, q := range c.Points {
			reach = max(reach, n.Dot(q))
		}
		worst = max(worst, n.Dot(p)-reach)
	}
	return worst
}
