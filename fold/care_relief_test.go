package fold_test

// This file tests what is said of relief holes against testdata/published/design_rules.csv.

import (
	"encoding/csv"
	"math"
	"os"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"dryfold/fold"
	"dryfold/fold/foldtest"
	"dryfold/fold/geom"
)

// roundPan is a pan whose walls end at round reliefs of a diameter about the floor's corners, open to the notches.
func roundPan(metal string, radius, thickness, diameter float64) fold.Spec {
	r := diameter / 2
	wall := foldtest.Wall{Inset: r, InsetEnd: r, Height: 40, Angle: 90, Radius: radius, Up: true}
	s := foldtest.Tray{Thickness: thickness, K: 0.42, Floor: geom.Loop{{0, 0}, {200, 0}, {200, 120}, {0, 120}},
		Walls: []foldtest.Wall{wall, wall, wall, wall}}.Spec()
	s.Sheet.Metal = metal
	in := r * math.Sqrt2 / 2
	var out fold.Contour
	for i := 0; i < len(s.Outline); i++ {
		v := s.Outline[i]
		x, y := v.At[0], v.At[1]
		if (x == 0 || x == 200) && (y == 0 || y == 120) { // a corner of the floor: an arc instead
			v = s.Outline[i+1]
			i++
			v.Through = &geom.Vec2{x + math.Copysign(in, 100-x), y + math.Copysign(in, 60-y)}
		}
		out = append(out, v)
	}
	s.Outline = append(out[1:], out[0]) // begins with a corner that is no arc's
	return s
}

func reliefNotes(p *fold.Part) (out []fold.Trouble) {
	for _, t := range p.Troubles {
		if t.Rule == "relief-narrow" && t.Need != nil {
			out = append(out, t)
		}
	}
	return out
}

// FAA-H-8083-31 ch. 4 (read, as the file has it): about 2 R; common practice R, but 1/8 in at least; in aluminium up to
// 0.064 in 1/8 in at least, from 0.072 to 0.128 in 3/16 in.
func TestReliefHoles(t *testing.T) {
	file, err := os.Open("../testdata/published/design_rules.csv")
	require.NoError(t, err)
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	require.NoError(t, err)
	value := map[string]string{}
	for _, row := range rows {
		value[row[0]] = row[1]
	}
	require.Equal(t, "about 2 x bend radius; common practice = bend radius but not under 1/8 in", value["relief hole diameter"])
	require.Equal(t, "1/8 in dia", value["relief hole minimum, aluminium T<=0.064 in"])
	require.Contains(t, value["relief hole minimum, T 0.072-0.128 in"], "3/16 in dia")
	const in = 25.4
	for _, c := range []struct {
		metal            string
		radius, th, need float64
	}{
		{"Mild steel", 2, 1, in / 8},       // the less of 4 and 1/8 in
		{"Mild steel", 1, 1, 2},            // of 2 and 1/8 in
		{"Mild steel", 5, 1.5, 5},          // of 10 and 5
		{"5052-H32", 1, 1, in / 8},         // the aluminium row
		{"Mild steel", 1, 2, 3. / 16 * in}, // the row from 0.072 in
		{"5052-H32", 6, 0.1 * in, 6},       // more than the row
		{"Mild steel", 1, 0.2 * in, 2},     // thicker than the rows go
		{"Mild steel", 1.5, 0.072 * in, in / 16 * 3},
	} {
		p := built(t, roundPan(c.metal, c.radius, c.th, c.need-0.2))
		notes := slices.DeleteFunc(reliefNotes(p), func(x fold.Trouble) bool { return math.Abs(*x.Need-c.need) > 1e-9 })
		require.Len(t, notes, 4, "%+v: %v", c, p.Troubles)
		for i, n := range notes {
			require.InDelta(t, c.need-0.2, *n.Have, 1e-9)
			require.Equal(t, fold.Note, n.Severity)
			require.Contains(t, n.Message, "FAA-H-8083-31")
			require.Contains(t, n.Message, "The relief hole where the bends wall", "%d", i)
		}
		p = built(t, roundPan(c.metal, c.radius, c.th, c.need))
		require.Empty(t, slices.DeleteFunc(reliefNotes(p), func(x fold.Trouble) bool { return math.Abs(*x.Need-c.need) > 1e-9 }), "%+v: %v", c, p.Troubles)
	}
}

// A rounded corner of the floor is no relief hole, nor is a hole elsewhere.
func TestNoReliefHoles(t *testing.T) {
	s := roundPan("Mild steel", 2, 1, 3)
	for i, v := range s.Outline {
		if v.Through != nil { // bulging out instead
			x, y := v.Through[0], v.Through[1]
			x, y = x+math.Copysign(0.8, x-100), y+math.Copysign(0.8, y-60)
			s.Outline[i].Through = &geom.Vec2{x, y}
		}
	}
	s.Holes = append(s.Holes, fold.Hole{At: geom.Vec2{60, 60}, Diameter: 1})
	for _, n := range reliefNotes(built(t, s)) {
		require.NotContains(t, n.Message, "relief hole")
	}
}
