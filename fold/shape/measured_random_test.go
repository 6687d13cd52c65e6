package shape

import (
	"flag"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dryfold/fold"
	"dryfold/fold/foldtest"
	"dryfold/fold/geom"
	"dryfold/fold/sizes"
)

var measuredSeed = flag.Uint64("measuredseed", 4, "seed of the random measured bases; 0 takes a new one")

func measuredRand(t *testing.T) *rand.Rand {
	seed := *measuredSeed
	if seed == 0 {
		seed = uint64(time.Now().UnixNano())
	}
	t.Logf("-measuredseed %d", seed)
	return foldtest.Rand(seed)
}

// randomConvex is a convex outline of n corners on an ellipse, none too near another.
func randomConvex(r *rand.Rand, n int, lo, hi float64) []geom.Vec2 {
	a, b := foldtest.LogUniform(r, lo, hi), foldtest.LogUniform(r, lo, hi)
	b = min(max(b, a/4), a*4)
	p := make([]geom.Vec2, n)
	turn := 2 * math.Pi * r.Float64()
	for i := range p {
		sin, cos := math.Sincos(turn + 2*math.Pi*(float64(i)+0.6*(r.Float64()-0.5))/float64(n))
		p[i] = geom.Vec2{a * cos, b * sin}
	}
	return settled(p)
}

// without leaves entry i of a list out.
func without(list []sizes.Field, i int) []sizes.Field {
	out := slices.Clone(list)
	out[i] = sizes.Field{}
	return out
}

// TestMeasuredExactly: outlines measured without error come back, from all that was read, and from
// every choice of just enough; with Bretschneider's formula for the area as a second opinion.
func TestMeasuredExactly(t *testing.T) {
	r := measuredRand(t)
	for range 400 {
		p := randomConvex(r, 4, 20, 5000)
		size := spread(p)
		full := read(p)
		m := full
		switch k := r.IntN(5); k {
		case 0: // sides and diagonals, one missing
			m.Angles = nil
			if i := r.IntN(6); i < 4 {
				m.Sides = without(m.Sides, i)
			} else {
				m.Diagonals = without(m.Diagonals, i-4)
			}
		case 1: // sides and an angle
			m.Diagonals, m.Angles = nil, make([]sizes.Field, 4)
			i := r.IntN(4)
			m.Angles[i] = full.Angles[i]
		case 2: // by angles: two sides in turn and the angles
			m.Way, m.Diagonals = sizes.ByAngles, nil
			i := r.IntN(4)
			m.Sides = without(without(m.Sides, i), (i+1)%4)
			m.Angles = without(m.Angles, r.IntN(4))
		case 3: // by angles: three sides and the two angles between them
			m.Way, m.Diagonals = sizes.ByAngles, nil
			i := r.IntN(4)
			m.Sides = without(m.Sides, i)
			m.Angles = without(without(m.Angles, i), (i+1)%4)
		}
		got, notes, problems := measure(m)
		require.Empty(t, problems, "%+v", m)
		// Near its limits an angle or a flat triangle holds badly: rounding of the readings moves corners a thousandfold.
		sameCorners(t, p, got, 1e-9*size, "%+v", m)
		for _, n := range notes {
			require.False(t, n.Watch, n.Text)
		}
		s := func(i int) float64 { return full.Sides[i].Number }
		d, e := full.Diagonals[0].Number, full.Diagonals[1].Number
		k := s(1)*s(1) + s(3)*s(3) - s(0)*s(0) - s(2)*s(2)
		area := math.Sqrt(4*d*d*e*e-k*k) / 4
		require.InEpsilon(t, area, geom.Loop(got).Area(), 1e-7)
	}
	for range 200 {
		p := randomConvex(r, 3+r.IntN(8), 20, 5000)
		m := read(p)
		if len(p) == 3 || r.IntN(2) == 0 {
			m.Angles = nil
		} else {
			m.Way, m.Diagonals = sizes.ByAngles, nil
			i := r.IntN(len(p))
			m.Sides = without(without(m.Sides, i), (i+1)%len(p))
			m.Angles = without(m.Angles, r.IntN(len(p)))
		}
		if len(p) == 4 {
			m.Diagonals = m.Diagonals[:min(1, len(m.Diagonals))]
		}
		got, _, problems := measure(m)
		require.Empty(t, problems, "%+v", m)
		sameCorners(t, p, got, 1e-8*spread(p), "%+v", m)
	}
}

// numericRows are the readings' slopes by differences: a second way to them.
func numericRows(rs []reading, p []geom.Vec2) [][]float64 {
	free := 2*len(p) - 3
	h := 1e-4 * spread(p)
	rows := make([][]float64, len(rs))
	for i, r := range rs {
		for k := range free {
			step := make([]float64, free)
			step[k] = h
			up := r.model(moved(p, step))
			step[k] = -h
			d := up - r.model(moved(p, step))
			if r.angle {
				d = math.Remainder(d, 2*math.Pi)
			}
			rows[i] = append(rows[i], d/(2*h)/r.doubt)
		}
	}
	return rows
}

// allReadings are what a measuring of m takes in.
func allReadings(m sizes.Measured) *measuring {
	b := &measuring{m: &m, u: fold.MM, num: plainSizes(1), n: len(m.Sides)}
	b.readings()
	return b
}

// noisy adds errors of the doubts' sizes to all that was read.
func noisy(r *rand.Rand, m sizes.Measured, part float64) sizes.Measured {
	add := func(list []sizes.Field, doubt float64) []sizes.Field {
		list = slices.Clone(list)
		for i := range list {
			list[i].Number += doubt * part * r.NormFloat64()
		}
		return list
	}
	m.Sides, m.Diagonals = add(m.Sides, tapeDoubt), add(m.Diagonals, tapeDoubt)
	m.Angles = add(m.Angles, bevelDoubt*180/math.Pi)
	return m
}

// TestMeasuredNoise: with errors as large as the doubts say, the fitted corners miss the true ones by no more than
// least squares must: the error, weighed by the slopes, is a sum of as many squares of standard errors as there are
// unknowns, so on average it is their number. And good readings seldom are called a misfit.
func TestMeasuredNoise(t *testing.T) {
	r := measuredRand(t)
	const many = 1000
	sum, alarms := 0.0, 0
	for range many {
		p := randomConvex(r, 4, 300, 3000)
		m := noisy(r, read(p), 1)
		if r.IntN(2) == 0 {
			m.Angles = nil
		}
		got, notes, problems := measure(m)
		require.Empty(t, problems)
		if len(notes) > 0 && notes[0].Watch {
			alarms++
		}
		weighed := 0.0
		for _, row := range numericRows(allReadings(m).given, p) {
			d := row[0] * (got[1][0] - p[1][0])
			for i := 2; i < 4; i++ {
				d += row[2*i-3]*(got[i][0]-p[i][0]) + row[2*i-2]*(got[i][1]-p[i][1])
			}
			weighed += d * d
		}
		require.Less(t, weighed, 40.0, "%+v", m) // one in ten million by the table of chi squared for 5 unknowns
		sum += weighed
	}
	assert.InDelta(t, 5, sum/many, 5*math.Sqrt(2*5.0/many))
	assert.Less(t, alarms, many*3/100)
	t.Logf("mean of the weighed squares %.2f (5 unknowns), %d of %d good ones called a misfit", sum/many, alarms, many)
}

// TestMeasuredPlanted: 20 mm planted in one length is found wherever it can be told: where, leaving any other reading
// out, by the slopes alone, the rest would still be beyond its doubt.
func TestMeasuredPlanted(t *testing.T) {
	r := measuredRand(t)
	told, named, warned, many := 0, 0, 0, 600
	for range many {
		p := randomConvex(r, 4, 150, 1500)
		clean := read(p)
		m := noisy(r, clean, 0.5)
		i := r.IntN(6)
		wrong := 20.0
		if r.IntN(2) == 0 {
			wrong = -20
		}
		path := measuredPath + ".sides["
		if i < 4 {
			m.Sides[i].Number += wrong
			path += string(rune('0'+i)) + "]"
		} else {
			m.Diagonals[i-4].Number += wrong
			path = measuredPath + ".diagonals[" + string(rune('0'+i-4)) + "]"
		}
		can, shows := canTell(allReadings(clean).given, p, i, wrong)
		_, notes, problems := measure(m)
		if len(problems) > 0 {
			require.Contains(t, problems[0].Need, "agree with no base")
			require.Less(t, spread(p), 20/grossMisfit*2)
			continue
		}
		if shows {
			warned++
			require.NotEmpty(t, notes)
			assert.True(t, notes[0].Watch, "%+v", m)
		}
		if !can {
			continue
		}
		told++
		if notes[0].Path == path && strings.Contains(notes[0].Text, "The others agree without it") {
			named++
			assert.InDelta(t, 20, notes[0].Off, 5)
		}
	}
	t.Logf("of %d misfits %d were told, %d could be laid to one reading, %d were", many, warned, told, named)
	require.Greater(t, told, many/5)
	assert.GreaterOrEqual(t, float64(named), 0.95*float64(told))
}

// canTell reckons, from the slopes by differences, by how many standard deviations the error shows in its own reading
// (shows: clearly beyond doubt), and what is left of that once another reading is blamed: readings' offs go along
// with each other by the projection that least squares is.
func canTell(rs []reading, p []geom.Vec2, i int, wrong float64) (can, shows bool) {
	rows := numericRows(rs, p)
	n := len(rows[0])
	normal := make([][]float64, n)
	for a := range normal {
		normal[a] = make([]float64, n)
		for b := range normal[a] {
			for _, row := range rows {
				normal[a][b] += row[a] * row[b]
			}
		}
	}
	// Gauss and Jordan's way to the rows' projection, and what it leaves.
	left := func(x, y []float64) float64 {
		a := make([][]float64, n)
		for k := range a {
			a[k] = append(slices.Clone(normal[k]), y[k])
		}
		for c := range n {
			top := c
			for k := c; k < n; k++ {
				if math.Abs(a[k][c]) > math.Abs(a[top][c]) {
					top = k
				}
			}
			a[c], a[top] = a[top], a[c]
			for k := range n {
				if k != c {
					f := a[k][c] / a[c][c]
					for j := c; j <= n; j++ {
						a[k][j] -= f * a[c][j]
					}
				}
			}
		}
		sum := 0.0
		for k := range n {
			sum += x[k] * a[k][n] / a[k][k]
		}
		return sum
	}
	own := 1 - left(rows[i], rows[i])
	w := math.Abs(wrong) / tapeDoubt * math.Sqrt(own)
	can = w > 5
	for j := range rows {
		if j == i {
			continue
		}
		other := 1 - left(rows[j], rows[j])
		along := -left(rows[i], rows[j]) / math.Sqrt(own*other)
		if w*math.Sqrt(max(0, 1-along*along)) < 5 {
			can = false
		}
	}
	return can, w > 5
}

// TestMeasuredLarge: the most sides there may be, with all that is to be read and much of it wrong, takes no longer
// than one waits.
func TestMeasuredLarge(t *testing.T) {
	r := measuredRand(t)
	p := randomConvex(r, maxMeasured, 1000, 2000)
	m := read(p)
	start := time.Now()
	got, _, problems := measure(m)
	require.Empty(t, problems)
	sameCorners(t, p, got, 1e-6)
	t.Logf("good: %v", time.Since(start))
	for i := range m.Angles {
		m.Angles[i].Number = 10 + 300*r.Float64()
	}
	start = time.Now()
	measure(m)
	t.Logf("wrong: %v", time.Since(start))
	assert.Less(t, time.Since(start), 10*time.Second)
}

// FuzzMeasured: whatever was read, there is a base that can be, its first side along +x and counter-clockwise, or a problem with
// words; never both, never a number that is none.
func FuzzMeasured(f *testing.F) {
	f.Add(byte(0), byte(4), []byte{80, 60, 80, 60, 100, 100})
	f.Add(byte(0), byte(4), []byte{80, 60, 80, 60, 100, 0, 0, 0, 90})
	f.Add(byte(0), byte(3), []byte{1, 1, 2})
	f.Add(byte(1), byte(3), []byte{0, 0, 0, 30, 9, 0, 0, 31, 20, 0, 0, 30})
	f.Add(byte(2), byte(4), []byte{80, 60, 0, 0, 0, 0, 90, 90, 90, 0})
	f.Add(byte(2), byte(6), []byte{30, 10, 20, 15, 0, 0, 0, 0, 0, 90, 90, 90, 230, 90})
	f.Fuzz(func(t *testing.T, way, n byte, data []byte) {
		next := func(scale float64) sizes.Field {
			if len(data) == 0 {
				return sizes.Field{}
			}
			x := float64(data[0])
			data = data[1:]
			switch x {
			case 0:
				return sizes.Field{}
			case 255:
				return sizes.Is(1e6)
			case 254:
				return sizes.Is(1e-3)
			case 253:
				return sizes.Is(-5)
			}
			return sizes.Is(x * scale)
		}
		m := sizes.Measured{Way: sizes.Way(way % 4)}
		for range n % 12 {
			if m.Way == sizes.ByStations {
				m.Stations = append(m.Stations, sizes.Station{At: next(1), Left: next(1), Right: next(1), Wide: next(2)})
				if k := &m.Stations[len(m.Stations)-1].At; len(m.Stations) == 1 && way > 100 {
					*k = sizes.Is(0)
				}
				continue
			}
			m.Sides = append(m.Sides, next(10))
		}
		for range max(0, int(n%12)-3) + 1 {
			m.Diagonals = append(m.Diagonals, next(10))
		}
		if len(m.Sides) != 4 && len(m.Diagonals) > 0 {
			m.Diagonals = m.Diagonals[:len(m.Diagonals)-1]
		}
		for range n % 12 {
			m.Angles = append(m.Angles, next(1.4))
		}
		got, notes, problems := measure(m)
		if (got == nil) != (len(problems) > 0) {
			t.Fatal(got, problems)
		}
		for _, p := range problems {
			if !strings.HasPrefix(p.Path, measuredPath) || p.Found == "" || p.Need == "" || strings.Contains(p.Error(), "NaN") || strings.Contains(p.Error(), "Inf") {
				t.Fatal(p)
			}
		}
		for _, k := range notes {
			if !(k.Off >= 0) || math.IsInf(k.Off, 0) || strings.Contains(k.Text, "NaN") || strings.Contains(k.Text, "Inf") {
				t.Fatal(k)
			}
		}
		if got == nil {
			return
		}
		if got[0] != (geom.Vec2{}) || got[1][1] != 0 || !(got[1][0] > 0) || !(geom.Loop(got).Area() > 0) || !simple(got) {
			t.Fatal(got)
		}
		for _, p := range got {
			if !finite(p) {
				t.Fatal(got)
			}
		}
	})
}

// BenchmarkMeasured is a four-sided base by all that can be read, with one reading wrong.
func BenchmarkMeasured(b *testing.B) {
	r := foldtest.Rand(4)
	m := noisy(r, read(randomConvex(r, 4, 300, 3000)), 0.5)
	m.Sides[2].Number += 20
	for b.Loop() {
		measure(m)
	}
}
