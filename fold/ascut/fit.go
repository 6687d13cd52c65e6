package ascut

// This file finds the blank as it was cut: the fewest edges, and the least moves of them, that make every measured size come out.

import (
	"math"
	"slices"

	"dryfold/fold/geom"
)

// unknown is an edge that may be out, or (-1) the lean of the whole blank.
type unknown struct {
	cut  int
	late bool // an edge at the left or below: the marking began there
}

// fitter fits moves to measured sizes.
type fitter struct {
	*judge
	rows []int // sizes that must come out
	cols []unknown
	j    [][]float64 // by row and column
	set  []int       // the columns taken
}

// fit fills in out and lean.
func (j *judge) fit() {
	j.out = make([]float64, len(j.cuts))
	f := &fitter{judge: j}
	diagonals := 0
	cuts := map[int]bool{}
	for i := range j.sizes {
		c := &j.sizes[i].cand
		if !j.Lines[i].measured || c.use == forVoid {
			continue
		}
		if c.use == forDiagonal {
			if j.Lines[i].past() {
				f.rows = append(f.rows, i)
			}
			diagonals++
			continue
		}
		f.rows = append(f.rows, i)
		for cut := range c.by {
			if math.Abs(c.by[cut]) >= tells {
				cuts[cut] = true
			}
		}
	}
	for cut := range j.cuts {
		if cuts[cut] {
			o := j.cuts[cut].Out
			f.cols = append(f.cols, unknown{cut, o[0]+o[1] < 0 || j.datumEdge(cut)})
		}
	}
	if diagonals > 0 {
		f.cols = append(f.cols, unknown{-1, false})
	}
	f.run()
	if j.left() > chased {
		// Corners of diagonals that nothing else tells of are taken only where nothing else would explain a size.
		had := map[int]bool{}
		for _, u := range f.cols {
			had[u.cut] = true
		}
		for cut := range j.cuts {
			for _, i := range f.rows {
				if !had[cut] && j.sizes[i].cand.by[cut] != 0 && math.Abs(j.sizes[i].cand.by[cut]) > leastSlide {
					had[cut] = true
					f.cols = append(f.cols, unknown{cut, true})
				}
			}
		}
		f.run()
	}
	// What fits worse than the blank as it should be is no way in which it was cut.
	most := 0.0
	for i := range j.Lines {
		if j.Lines[i].past() {
			most = max(most, math.Abs(j.Lines[i].Off))
		}
	}
	if !(j.left() <= most) {
		clear(j.out)
		j.lean = 0
	}
}

// datumEdge reports whether a cut is the blank's left or lower side, from which all is marked.
func (m *movable) datumEdge(c int) bool {
	for k := range 2 {
		var dir geom.Vec2
		dir[k] = -1
		if m.cuts[c].Out.Dot(dir) > 1-parallel && math.Abs(m.cuts[c].Ends[0][k]-m.box.Min[k]) <= farFrom {
			return true
		}
	}
	return false
}

// off is what is still wrong of a size.
func (j *judge) off(i int) float64 {
	c := &j.sizes[i].cand
	return j.is[i] - j.distance(c.x, c.y, j.out, j.lean)
}

// left is the most that stays unexplained of a size past its limits.
func (j *judge) left() (most float64) {
	for i := range j.Lines {
		if j.Lines[i].past() {
			most = max(most, math.Abs(j.off(i)))
		}
	}
	return most
}

func (f *fitter) run() {
	clear(f.out)
	f.lean = 0
	f.set = nil
	f.j = nil
	for _, i := range f.rows {
		var row []float64
		c := &f.sizes[i].cand
		for _, u := range f.cols {
			if u.cut < 0 {
				row = append(row, c.lean)
			} else {
				row = append(row, c.by[u.cut])
			}
		}
		f.j = append(f.j, row)
	}
	want := make([]float64, len(f.rows))
	for k, i := range f.rows {
		want[k] = f.Lines[i].Off
		if math.Abs(want[k]) <= readNoise {
			want[k] = 0
		}
	}
	left := sumSquares(want)
	for len(f.set) < len(f.rows) && f.most() > readNoise {
		best := -1
		for c := range f.cols {
			if slices.Contains(f.set, c) {
				continue
			}
			set := append(slices.Clone(f.set), c)
			x := f.solve(set, want)
			if x == nil {
				continue
			}
			v := f.rest(set, x, want)
			if v < left-better || best >= 0 && v < left+better && f.cols[best].late && !f.cols[c].late {
				best, left = c, min(v, left)
			}
		}
		if best < 0 {
			return
		}
		f.set = append(f.set, best)
		f.refine(want)
	}
}

// most is the most that a size that must come out is still off.
func (f *fitter) most() (mm float64) {
	for _, i := range f.rows {
		mm = max(mm, math.Abs(f.off(i)))
	}
	return mm
}

// refine makes the moves of the columns taken meet the measures as well as they can: distances between corners are not quite straight in the moves.
func (f *fitter) refine(want []float64) {
	clear(f.out)
	f.lean = 0
	now := slices.Clone(want)
	for range maxRounds {
		x := f.solve(f.set, now)
		if x == nil {
			return
		}
		step := 0.0
		for n, c := range f.set {
			if u := f.cols[c]; u.cut < 0 {
				f.lean += x[n]
				step = max(step, math.Abs(x[n])*f.box.Size().Len())
			} else {
				f.out[u.cut] += x[n]
				step = max(step, math.Abs(x[n]))
			}
		}
		for k, i := range f.rows {
			now[k] = f.off(i)
			if want[k] == 0 {
				now[k] -= f.Lines[i].Off
			}
		}
		if step < held {
			break
		}
	}
}

func sumSquares(v []float64) (s float64) {
	for _, x := range v {
		s += x * x
	}
	return s
}

// rest is the sum of the squares of what columns leave.
func (f *fitter) rest(set []int, x, want []float64) (s float64) {
	for k := range f.rows {
		v := want[k]
		for n, c := range set {
			v -= f.j[k][c] * x[n]
		}
		s += v * v
	}
	return s
}

// solve is the least squares of columns; nil where they tell the same.
func (f *fitter) solve(set []int, want []float64) []float64 {
	n := len(set)
	a := make([][]float64, n)
	scale := make([]float64, n) // a lean is a small number
	for r, c := range set {
		for k := range f.rows {
			scale[r] += f.j[k][c] * f.j[k][c]
		}
		if scale[r] = math.Sqrt(scale[r]); scale[r] == 0 {
			return nil
		}
	}
	for r := range n {
		a[r] = make([]float64, n+1)
		for k := range f.rows {
			for c := range n {
				a[r][c] += f.j[k][set[r]] / scale[r] * f.j[k][set[c]] / scale[c]
			}
			a[r][n] += f.j[k][set[r]] / scale[r] * want[k]
		}
	}
	for c := range n {
		p := c
		for r := c + 1; r < n; r++ {
			if math.Abs(a[r][c]) > math.Abs(a[p][c]) {
				p = r
			}
		}
		if math.Abs(a[p][c]) < sameTelling {
			return nil
		}
		a[c], a[p] = a[p], a[c]
		for r := range n {
			if r != c {
				m := a[r][c] / a[c][c]
				for k := c; k <= n; k++ {
					a[r][k] -= m * a[c][k]
				}
			}
		}
	}
	x := make([]float64, n)
	for r := range n {
		x[r] = a[r][n] / a[r][r] / scale[r]
	}
	return x
}
