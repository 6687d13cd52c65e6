package shape_test

// This file holds corners by sizes to closed forms worked out in space, and whole blanks to developed lengths that
// are printed in books.

import (
	"encoding/csv"
	"fmt"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"dryfold/fold"
	"dryfold/fold/geom"
	"dryfold/fold/shape"
	"dryfold/fold/sizes"

	"github.com/stretchr/testify/require"
)

func madeOf(t *testing.T, s fold.Spec) shape.Made {
	t.Helper()
	m, problems := shape.Make(s)
	require.Empty(t, problems)
	return m
}

// blankBox is a blank's width and height in the part's units.
func blankBox(m shape.Made) geom.Vec2 {
	box := geom.EmptyBox2()
	for _, v := range m.Spec.Outline {
		box.Add(v.At)
	}
	return box.Max.Sub(box.Min)
}

// The developed lengths of the worked examples in testdata/published/bend_allowance.csv (each row names its source, and
// whether it was read or is from memory), from their outside sizes alone. K is the one that the row's own rule means.
func TestMakePublishedLengths(t *testing.T) {
	f, err := os.Open("../../testdata/published/bend_allowance.csv")
	require.NoError(t, err)
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	col := map[string]int{}
	for i, name := range rows[0] {
		col[name] = i
	}
	num := func(row []string, name string) float64 {
		x, err := strconv.ParseFloat(row[col[name]], 64)
		require.NoError(t, err)
		return x
	}
	seen := 0
	for _, row := range rows[1:] {
		if row[col["quantity"]] != "developed_length" || !strings.Contains(row[col["legs"]], ";") {
			continue
		}
		thick, r := num(row, "thickness"), num(row, "inside_radius")
		var legs []float64
		for _, l := range strings.Split(row[col["legs"]], ";") {
			x, err := strconv.ParseFloat(l, 64)
			require.NoError(t, err)
			legs = append(legs, x)
		}
		k := 0.0078 / (math.Pi / 180) // the FAA's (0.01743 R + 0.0078 T) N
		switch id := row[col["case_id"]]; {
		case strings.HasPrefix(id, "WM"): // 0.5 r + 1.5 t off for each bend
			k = ((2*(r+thick)-(0.5*r+1.5*thick))/(math.Pi/2) - r) / thick
		case strings.HasPrefix(id, "TM"): // DIN 6935
			k = (0.65 + 0.5*math.Log10(r/thick)) / 2
		}
		units := fold.MM
		if row[col["units"]] == "in" {
			units = fold.Inch
		}
		form := &sizes.Form{Radius: sizes.Is(r), Base: sizes.Base{Wide: sizes.Is(50 * thick), Long: sizes.Is(legs[1])}}
		form.Flanges = append(form.Flanges, sizes.Flange{Name: "leg 1", On: "floor", Side: "front", Height: sizes.Is(legs[0])})
		on, side := "floor", "back"
		for i, l := range legs[2:] {
			name := fmt.Sprintf("leg %d", i+3)
			form.Flanges = append(form.Flanges, sizes.Flange{Name: name, On: on, Side: side, Height: sizes.Is(l)})
			on, side = name, "top"
		}
		m := madeOf(t, fold.Spec{Units: units, Sheet: fold.Sheet{Thickness: thick, K: &k}, Sizes: form})
		require.InDelta(t, num(row, "published_value"), blankBox(m)[1], num(row, "suggested_tol"), "%s, %s", row[col["case_id"]], row[col["source"]])
		seen++
	}
	require.Equal(t, 4, seen)
}

// aPlane is n.x = d.
type aPlane struct {
	n geom.Vec3
	d float64
}

func planesMeet(a, b, c aPlane) geom.Vec3 {
	bc := b.n.Cross(c.n)
	return bc.Mul(a.d).Add(c.n.Cross(a.n).Mul(b.d)).Add(a.n.Cross(b.n).Mul(c.d)).Mul(1 / a.n.Dot(bc))
}

// innerFace is the inner face of a wall that rises from the line through p along dir (counter-clockwise about the base, outside
// sharps, z = 0), turned by degrees from flat: inwards is on the left.
func innerFace(p, dir geom.Vec2, degrees, thick float64) aPlane {
	dir = dir.Normalize()
	out := geom.Vec3{dir[1], -dir[0], 0}
	a := degrees * math.Pi / 180
	up := out.Mul(math.Cos(a)).Add(geom.Vec3{0, 0, math.Sin(a)}) // along the wall
	n := geom.Vec3{dir[0], dir[1], 0}.Cross(up)                  // square to it
	if n.Dot(out) > 0 {
		n = n.Mul(-1) // inwards
	}
	return aPlane{n, n.Dot(geom.Vec3{p[0], p[1], 0}) + thick}
}

// Edge to edge, square, leaning alike and not, tapered: the front wall's upper edge on the blank is as long as the planes of the
// inner faces leave it, less what keeps the two inner edges the gap apart.
func TestMakeEdgesClosed(t *testing.T) {
	for _, c := range []struct{ front, back, lean, right, left, gap, t, r float64 }{
		{200, 200, 90, 90, 90, 0.5, 1, 1.5},
		{200, 200, 90, 90, 90, 0, 2, 0.5},
		{300, 300, 70, 70, 70, 0.8, 1.2, 2},
		{300, 300, 80, 65, 88, 0.3, 0.9, 1},
		{300, 220, 90, 90, 90, 0.5, 1, 1},
		{240, 300, 75, 60, 85, 1.1, 1.5, 3},
	} {
		high, long := 40.0, 180.0
		form := &sizes.Form{Radius: sizes.Is(c.r), Gap: sizes.Is(c.gap), Base: sizes.Base{Wide: sizes.Is(c.front), WideBack: sizes.Is(c.back), Long: sizes.Is(long)}}
		for i, side := range []string{"front", "right", "back", "left"} {
			form.Flanges = append(form.Flanges, sizes.Flange{Name: side, On: "floor", Side: side, Height: sizes.Is(high), Angle: sizes.Is([]float64{c.lean, c.right, 90, c.left}[i])})
		}
		m := madeOf(t, fold.Spec{Sheet: fold.Sheet{Thickness: c.t}, Sizes: form})

		corners := []geom.Vec2{{-c.front / 2, 0}, {c.front / 2, 0}, {c.back / 2, long}, {-c.back / 2, long}}
		face := func(i int, degrees float64) aPlane {
			return innerFace(corners[i], corners[(i+1)%4].Sub(corners[i]), degrees, c.t)
		}
		front, right, left := face(0, c.lean), face(1, c.right), face(3, c.left)
		top := aPlane{geom.Vec3{0, 0, 1}, high} // of a wall that leans outwards or stands, the inner edge is the highest
		ends := [2]float64{}
		for k, other := range []aPlane{left, right} {
			p := planesMeet(front, other, top)
			edge := front.n.Cross(other.n).Normalize() // where the inner faces meet
			between := math.Pi - math.Acos(front.n.Dot(other.n))
			d := c.gap / 2 / math.Sin(between/2)
			// From the line in which the faces meet along the upper edge, which runs along x.
			sin := edge.Cross(geom.Vec3{1, 0, 0}).Len()
			ends[k] = p[0] + []float64{1, -1}[k]*d/sin
		}
		lo, hi, low := math.Inf(1), math.Inf(-1), math.Inf(1)
		for _, v := range m.Spec.Outline {
			low = min(low, v.At[1])
		}
		for _, v := range m.Spec.Outline {
			if v.At[1] < low+1e-9 {
				lo, hi = min(lo, v.At[0]), max(hi, v.At[0])
			}
		}
		require.InDelta(t, ends[1]-ends[0], hi-lo, 1e-6, "%+v", c)
	}
}

// A lap at a square corner: the wall that stops ends the gap short of the other's inner face, the other runs the set length past
// the outside.
func TestMakeLapClosed(t *testing.T) {
	wide, long, thick, gap := 160.0, 120.0, 1.5, 0.4
	for _, past := range []float64{0, 12, -1} {
		form := &sizes.Form{Radius: sizes.Is(1), Gap: sizes.Is(gap), Base: sizes.Base{Wide: sizes.Is(wide), Long: sizes.Is(long)},
			Corners: []sizes.Corner{{A: "front", B: "right", Close: sizes.Lap, Over: "front", Past: sizes.Is(past)}}}
		for _, side := range []string{"front", "right", "back", "left"} {
			form.Flanges = append(form.Flanges, sizes.Flange{Name: side, On: "floor", Side: side, Height: sizes.Is(30)})
		}
		m := madeOf(t, fold.Spec{Sheet: fold.Sheet{Thickness: thick}, Sizes: form})
		box := geom.EmptyBox2()
		for _, v := range m.Spec.Outline {
			box.Add(v.At)
		}
		front, right := geom.EmptyBox2(), geom.EmptyBox2()
		for _, v := range m.Spec.Outline {
			if v.At[1] < box.Min[1]+1e-9 {
				front.Add(v.At)
			}
			if v.At[0] > box.Max[0]-1e-9 {
				right.Add(v.At)
			}
		}
		short := thick + gap/math.Sqrt2 // edge to edge at the other ends
		require.InDelta(t, wide+past-short, front.Max[0]-front.Min[0], 1e-6, "past %g", past)
		require.InDelta(t, long-thick-gap-short, right.Max[1]-right.Min[1], 1e-6, "past %g", past)
	}
}

// The V notch over a bent floor, walls upright and sides not tapered: its half width at the walls' tops, t over their tangent
// line, is BA/2 - (Rf - Rw - t) tan(rho/2) + g/(2 cos(rho/2)) from the bend's centre line (design, Corners closed by calculation).
func TestMakeVNotchClosed(t *testing.T) {
	for _, c := range []struct{ rho, floor, wall, t, gap, k, high float64 }{
		{14, 2, 1, 1, 0.5, 0.4, 45},
		{30, 1.5, 1.5, 1, 0.3, 0.33, 60},
		{5, 8, 2, 1.5, 0.2, 0.45, 30},
		{60, 3, 0.5, 0.8, 1, 0.4, 25},
		{89, 4, 4, 2, 0.6, 0.42, 50},
	} {
		form := &sizes.Form{Radius: sizes.Is(c.wall), Gap: sizes.Is(c.gap), Base: sizes.Base{Wide: sizes.Is(200), Long: sizes.Is(250)}, Flanges: []sizes.Flange{
			{Name: "floor 2", On: "floor", Side: "back", Height: sizes.Is(220), Along: true, Angle: sizes.Is(c.rho), Radius: sizes.Is(c.floor)},
			{Name: "right", On: "floor", Side: "right", Height: sizes.Is(c.high)},
			{Name: "right 2", On: "floor 2", Side: "start", Height: sizes.Is(c.high)},
		}, Corners: []sizes.Corner{{A: "right", B: "right 2", Close: sizes.Mitre}}}
		m := madeOf(t, fold.Spec{Sheet: fold.Sheet{Thickness: c.t, K: &c.k}, Sizes: form})
		centre := math.NaN()
		for _, b := range m.Spec.Bends {
			if b.Name == "floor 2" {
				centre = b.Line[0][1]
			}
		}
		far := math.Inf(-1)
		for _, v := range m.Spec.Outline {
			far = max(far, v.At[0])
		}
		below, above := math.Inf(-1), math.Inf(1)
		for _, v := range m.Spec.Outline {
			if v.At[0] > far-1e-9 {
				if v.At[1] < centre {
					below = max(below, v.At[1])
				} else {
					above = min(above, v.At[1])
				}
			}
		}
		rho := c.rho * math.Pi / 180
		up := c.high - c.wall - c.t
		want := rho*(c.floor+c.k*c.t)/2 - (c.floor-c.wall-up)*math.Tan(rho/2) + c.gap/2/math.Cos(rho/2)
		require.InDelta(t, want, centre-below, 1e-6, "%+v", c)
		require.InDelta(t, want, above-centre, 1e-6, "%+v", c)
	}
}
