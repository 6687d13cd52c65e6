package shape_test

import (
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"dryfold/fold"
	"dryfold/fold/geom"
	"dryfold/fold/shape"
	"dryfold/fold/sizes"

	"github.com/stretchr/testify/require"
)

var (
	hostileSeed  = flag.Uint64("hostile.seed", 20261127, "seed of the forms of every kind; 0 draws one")
	hostileParts = flag.Int("hostile.parts", 300, "how many forms of every kind")
	hostileWhy   = flag.Bool("hostile.why", false, "say why each was refused")
	hostileOne   = flag.Int("hostile.one", -1, "only this one")
)

// mostFollowed: so many needs are followed in a form one after the other.
const mostFollowed = 8

var (
	number  = regexp.MustCompile(`-?[0-9]+(\.[0-9]+)?`)
	atLeast = regexp.MustCompile(`at least ([0-9.]+) (mm|in)`)
)

// follow gives a form what a problem asks for, where that is a least length.
func follow(s fold.Spec, p shape.Problem) (fold.Spec, bool) {
	m := atLeast.FindStringSubmatch(p.Need)
	if m == nil || s.Sizes == nil {
		return s, false
	}
	x, err := strconv.ParseFloat(m[1], 64)
	if err != nil {
		return s, false
	}
	out, done := s, false
	out.Sizes = s.Sizes.Clone()
	out.Sizes.Fields(func(path string, q *sizes.Field, _ bool) {
		if path == p.Path {
			*q, done = sizes.Is(x), true
		}
	})
	return out, done
}

// makeSlow is far more than any of these forms takes, on a busy machine.
const makeSlow = 20 * time.Second

// hostile draws form k of a seed: each has dice of its own.
func hostile(seed uint64, k int) (fold.Spec, string) {
	r := rand.New(rand.NewPCG(seed, uint64(k)))
	if k%10 == 9 {
		return spoiledStarter(r), "starter"
	}
	s, kind := hostileSpec(r)
	if k%10 == 8 {
		spoil(r, &s)
		kind = "spoiled " + kind
	}
	return s, kind
}

// A form of whatever kind is either refused, with a field and what would do, or makes a part that folds, without
// overlaps on its blank, with every seam's gap as wanted or told.
func TestMakeHostile(t *testing.T) {
	seed := *hostileSeed
	if seed == 0 {
		seed = rand.Uint64()
	}
	t.Logf("seed %d", seed)
	made, refused := map[string]int{}, map[string]int{}
	why := map[string]int{}
	seams, told, followed := 0, 0, 0
	for k := range *hostileParts {
		if *hostileOne >= 0 && k != *hostileOne {
			continue
		}
		s, kind := hostile(seed, k)
		name := fmt.Sprintf("form %d (%s)", k, kind)
		m, problems, err := tryMake(s)
		if err != "" {
			t.Errorf("%s: %s", name, err)
			continue
		}
		for range mostFollowed { // what is asked for does help
			if len(problems) == 0 {
				break
			}
			was := *problems[0]
			next, ok := follow(s, was)
			if !ok {
				break
			}
			followed++
			s = next
			if m, problems, err = tryMake(s); err != "" {
				break
			}
			for _, p := range problems {
				if p.Path == was.Path && strings.HasPrefix(p.Need, "at least") {
					err = fmt.Sprintf("%s: %q was followed, and then %q", was.Path, was.Need, p.Need)
				}
			}
		}
		if err != "" {
			t.Errorf("%s: %s", name, err)
			continue
		}
		if len(problems) > 0 {
			refused[kind]++
			why[fmt.Sprintf("%.60s", number.ReplaceAllString(problems[0].Need, "#"))]++
			if *hostileWhy {
				t.Logf("%s: %s: %s, needed is %s", name, problems[0].Path, problems[0].Found, problems[0].Need)
			}
			continue
		}
		made[kind]++
		a, b, bad := sound(s, m)
		seams, told = seams+a, told+b
		for _, x := range bad {
			t.Errorf("%s: %s", name, x)
		}
	}
	t.Logf("made %v, refused %v; %d seams, %d of them told; %d needs followed", made, refused, seams, told, followed)
	if testing.Verbose() {
		var list []string
		for w, n := range why {
			list = append(list, fmt.Sprintf("%4d %s", n, w))
		}
		slices.Sort(list)
		for _, w := range list {
			t.Log(w)
		}
	}
	if *hostileOne < 0 {
		require.Greater(t, made["stepped"], 0)
		require.Greater(t, refused["starter"], 0)
	}
}

// tryMake makes a part; err says what must never happen.
func tryMake(s fold.Spec) (m shape.Made, problems []*shape.Problem, err string) {
	defer func() {
		if x := recover(); x != nil {
			err = fmt.Sprintf("panic: %v", x)
			if *hostileOne >= 0 {
				panic(x)
			}
		}
	}()
	began := time.Now()
	m, problems = shape.Make(s)
	if d := time.Since(began); d > makeSlow {
		return m, problems, fmt.Sprintf("took %s", d)
	}
	for _, p := range problems {
		if p.Path == "" || p.Need == "" || p.Found == "" {
			return m, problems, fmt.Sprintf("a problem without path, need or found: %+v", *p)
		}
	}
	return m, problems, ""
}

// sound looks at a part that was made: how many seams it has, of how many something is told, and what is wrong.
func sound(s fold.Spec, m shape.Made) (seams, told int, bad []string) {
	say := func(format string, a ...any) { bad = append(bad, fmt.Sprintf(format, a...)) }
	ok := true
	see := func(x float64) { ok = ok && !math.IsNaN(x) && math.Abs(x) <= 1e7 }
	for _, v := range m.Spec.Outline {
		see(v.At[0])
		see(v.At[1])
	}
	for _, l := range m.Spec.Bends {
		see(l.Angle)
		see(l.Radius)
		see(l.Line[0][0] + l.Line[0][1] + l.Line[1][0] + l.Line[1][1])
	}
	for _, k := range m.Marks {
		for _, q := range []shape.Spot{k.A, k.B, k.Pivot} {
			see(q.X + q.Y + q.Z)
		}
	}
	if !ok {
		say("a number that is none")
	}
	p := fold.Build(m.Spec)
	if !p.Foldable {
		say("not foldable")
		return
	}
	if len(p.Overlaps) > 0 {
		say("%d overlaps of zones", len(p.Overlaps))
	}
	for _, x := range p.Troubles {
		if x.Severity == fold.Stop && x.Kind != "hole" && x.Kind != "cutout" { // those are told at the hole
			say("a stop: %s", x.Message)
		}
	}
	loop := p.Outline // arcs by their chords
	if len(loop) > 3000 {
		loop = nil // the search goes by pairs
	}
	if a, b := crossing(loop); a >= 0 {
		say("outline crosses itself: edges %d and %d at %v", a, b, loop[a])
	}
	if len(p.Panels) != len(m.Spec.Panels) || len(p.Bends) != len(m.Spec.Bends) {
		say("%d panels of %d, %d bends of %d", len(p.Panels), len(m.Spec.Panels), len(p.Bends), len(m.Spec.Bends))
	}
	noted := map[string]bool{}
	for _, n := range m.Notes {
		noted[n.Name] = true
	}
	for _, c := range m.Corners {
		if !c.Measured {
			if c.Close != sizes.Apart && !noted[c.Name] && !seamless(p, c) {
				say("%s is to close (%d), has no gap, and nothing is told", c.Name, c.Close)
			}
			continue
		}
		seams++
		if math.Abs(c.Least-c.Gap) > 1e-6 {
			if told++; !noted[c.Name] {
				say("%s: gap %g, wanted %g, and nothing is told", c.Name, c.Least, c.Gap)
			}
		}
	}
	return
}

// seamless reports whether a corner's seam could not be named for want of room on its edges.
func seamless(p *fold.Part, c shape.MadeCorner) bool {
	for _, s := range p.Spec.Seams {
		if s.Name == c.Name {
			return false
		}
	}
	return true
}

// crossing finds two edges of a loop that cross properly, -1 for none.
func crossing(l geom.Loop) (int, int) {
	n := len(l)
	for i := range n {
		a, b := l[i], l[(i+1)%n]
		for j := i + 2; j < n; j++ {
			if i == 0 && j == n-1 {
				continue
			}
			c, d := l[j], l[(j+1)%n]
			s := func(p, q, r geom.Vec2) float64 { return geom.Cross2(q.Sub(p), r.Sub(p)) }
			if s(a, b, c)*s(a, b, d) < 0 && s(c, d, a)*s(c, d, b) < 0 {
				return i, j
			}
		}
	}
	return -1, -1
}

// FuzzMake makes forms from bytes.
func FuzzMake(f *testing.F) {
	f.Add([]byte{})
	f.Add([]byte{100, 1, 60, 90, 2, 1, 1, 0, 120, 90, 3, 2, 1, 7, 40})
	for k := range 8 {
		r := rand.New(rand.NewPCG(uint64(k), 3))
		b := make([]byte, 200)
		for i := range b {
			b[i] = byte(r.IntN(256))
		}
		f.Add(b)
	}
	f.Fuzz(func(t *testing.T, b []byte) {
		d := &bytesDice{b: b}
		way := d.IntN(4)
		var s fold.Spec
		if way == 0 {
			s = spoiledStarter(d)
		} else {
			s, _ = hostileSpec(d)
			if way == 1 {
				spoil(d, &s)
			}
		}
		m, problems, err := tryMake(s)
		require.Empty(t, err)
		if len(problems) == 0 {
			_, _, bad := sound(s, m)
			require.Empty(t, bad)
		}
	})
}
