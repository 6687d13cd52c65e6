package fold_test

// The kernel's solids against those of the library manifold-3d, frozen in
// testdata/oracle/manifold.json. make oracle makes the file again.

import (
	"encoding/json"
	"flag"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"dryfold/fold"
	"dryfold/fold/geom"
	"dryfold/fold/partfile"
	"dryfold/fold/solid"
)

var geometryFlag = flag.String("geometry", "", "write the oracle's input there instead of comparing")

// oracleParts are the parts compared: files, and random trays by their seed.
func oracleParts(t *testing.T) (names []string, parts []*fold.Part) {
	files, err := filepath.Glob("../testdata/oracle/*.dryfold")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	for _, f := range files {
		data, err := os.ReadFile(f)
		require.NoError(t, err)
		s, err := partfile.Read(data)
		require.NoError(t, err, f)
		names, parts = append(names, filepath.Base(f)), append(parts, built(t, s))
	}
	return names, parts
}

// oracleStates are those compared: each swing half done and done, and all bends at 0.4.
func oracleStates(p *fold.Part) []fold.State {
	var out []fold.State
	for i := range p.Swings {
		out = append(out, p.StateAt(i, 0.5), p.StateAt(i, 1))
	}
	st := p.Finished()
	for i := range st {
		st[i] *= 0.4
	}
	return append(out, st)
}

type oracleFile struct {
	MadeBy string  `json:"made_by"`
	Facet  float64 `json:"facet_mm"`
	Reach  float64 `json:"reach_mm"`
	Cases  []struct {
		Part    string             `json:"part"`
		State   []float64          `json:"state_deg"`
		Volumes map[string]float64 `json:"volumes_mm3"`
		Box     struct{ Min, Max geom.Vec3 }
		Pairs   []struct {
			A, B    string
			Gap     float64 `json:"gap_mm"`
			Overlap float64 `json:"overlap_mm3"`
		}
	}
}

func writeGeometry(t *testing.T, to string) {
	type bend struct {
		Name      string        `json:"name"`
		A         int           `json:"a"`
		B         int           `json:"b"`
		Q         geom.Vec2     `json:"q"`
		U         geom.Vec2     `json:"u"`
		N         geom.Vec2     `json:"n"`
		Up        bool          `json:"up"`
		Radius    float64       `json:"radius"`
		K         float64       `json:"k"`
		Allowance float64       `json:"allowance"`
		Zones     [][]geom.Loop `json:"zones"`
	}
	type panel struct {
		Name  string      `json:"name"`
		Loops []geom.Loop `json:"loops"`
	}
	type part struct {
		File      string       `json:"file"`
		Thickness float64      `json:"thickness"`
		Base      int          `json:"base"`
		Panels    []panel      `json:"panels"`
		Bends     []bend       `json:"bends"`
		States    []fold.State `json:"states"`
	}
	var out []part
	names, parts := oracleParts(t)
	for i, p := range parts {
		o := part{File: names[i], Thickness: p.Thickness, Base: p.Base, States: oracleStates(p)}
		for _, q := range p.Panels {
			o.Panels = append(o.Panels, panel{q.Name, q.Region.Loops()})
		}
		for _, b := range p.Bends {
			x := bend{b.Name, b.A, b.B, b.Q, b.U, b.N, b.Up, b.Radius, b.K, b.Allowance, nil}
			for _, z := range b.Zone {
				x.Zones = append(x.Zones, z.Loops())
			}
			o.Bends = append(o.Bends, x)
		}
		out = append(out, o)
	}
	data, err := json.Marshal(out)
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(to, data, 0o644))
}

// TestOracle compares volumes, boxes, gaps and overlaps at every frozen state.
func TestOracle(t *testing.T) {
	if *geometryFlag != "" {
		writeGeometry(t, *geometryFlag)
		return
	}
	data, err := os.ReadFile("../testdata/oracle/manifold.json")
	require.NoError(t, err)
	var o oracleFile
	require.NoError(t, json.Unmarshal(data, &o))
	t.Logf("made by %s, facets within %g mm", o.MadeBy, o.Facet)
	names, parts := oracleParts(t)
	byName := map[string]*fold.Part{}
	states := 0
	for i, n := range names {
		byName[n] = parts[i]
		states += len(oracleStates(parts[i]))
	}
	require.Len(t, o.Cases, states, "make oracle has not seen these parts")
	panelPairs, overlaps, zonePairs := 0, 0, 0
	for _, c := range o.Cases {
		p := byName[c.Part]
		require.NotNil(t, p, c.Part)
		st := p.Flat()
		require.Len(t, c.State, len(st))
		for i, d := range c.State {
			st[i] = geom.Degrees(d)
		}
		ps := p.Pose(st)
		where := func(what string) string { return c.Part + " " + what }

		index := map[string]fold.Body{}
		for i := range p.Panels {
			name := "panel " + p.Panels[i].Name
			index[name] = fold.Body{Index: i}
			require.InEpsilon(t, p.Panels[i].Region.Area()*p.Thickness, c.Volumes[name], 1e-6, where(name))
		}
		for i := range p.Bends {
			b := &p.Bends[i]
			name := "bend " + b.Name
			index[name] = fold.Body{Zone: true, Index: i}
			// A ring's sector: dV = (R + T/2) T dphi along each mm; facets take the share
			// 1 - sin(x)/x of it, x their angle.
			flat, bent := zoneAreas(b, float64(st[i]))
			want := p.Thickness * (flat + bent*(b.Radius+p.Thickness/2)/b.Rho)
			x := 2 * math.Acos(1-o.Facet/(b.Radius+p.Thickness))
			require.InEpsilon(t, want, c.Volumes[name], x*x/6+1e-6, where(name))
		}
		box := ps.Box()
		for k := range 3 {
			require.InDelta(t, c.Box.Min[k], box.Min[k], o.Facet+1e-6, where("box"))
			require.InDelta(t, c.Box.Max[k], box.Max[k], o.Facet+1e-6, where("box"))
		}

		found := map[[2]string]bool{}
		for _, q := range c.Pairs {
			found[[2]string{q.A, q.B}] = true
			a, b := index[q.A], index[q.B]
			if strings.HasPrefix(c.Part, "sizes-") { // blanks of parts by sizes: no two solids lie in each other, on the way or done
				require.LessOrEqual(t, q.Overlap, 1e-6*math.Pow(p.Thickness, 3), where(q.A+" "+q.B))
			}
			tol := 1e-6 // panels are exact in both
			if a.Zone || b.Zone {
				zonePairs++
				tol = 2 * (o.Facet + fold.ZoneFacet)
			} else {
				panelPairs++
			}
			d := bodiesApart(ps, a, b)
			if q.Overlap > tol { // a sliver of facets that touch has next to no volume
				overlaps++
				require.Less(t, d, tol, where(q.A+" and "+q.B))
			}
			if d > tol {
				require.InDelta(t, q.Gap, d, tol*max(1, d), where(q.A+" and "+q.B))
			} else if d < -max(tol, fold.ClashDepth) {
				require.Positive(t, q.Overlap, where(q.A+" and "+q.B))
			}
		}
		for i := range p.Panels {
			for j := i + 1; j < len(p.Panels); j++ {
				key := [2]string{"panel " + p.Panels[i].Name, "panel " + p.Panels[j].Name}
				if !found[key] {
					require.GreaterOrEqual(t, bodiesApart(ps, fold.Body{Index: i}, fold.Body{Index: j}), o.Reach-1e-6, where(key[0]+" and "+key[1]))
				}
			}
		}
	}
	t.Logf("%d cases: %d pairs of panels, %d pairs with a zone; %d overlap", len(o.Cases), panelPairs, zonePairs, overlaps)
	require.Greater(t, panelPairs, 100)
	require.Greater(t, overlaps, 20)
	require.Greater(t, zonePairs, 100)
}

// zoneAreas splits a zone's developed area at the end of its bent piece.
func zoneAreas(b *fold.Bend, phi float64) (flat, bent float64) {
	for _, z := range b.Zone {
		for _, l := range z.Loops() {
			var cut geom.Loop
			for i, p := range l {
				q := l[(i+1)%len(l)]
				_, s := b.Coord(p)
				_, e := b.Coord(q)
				h := b.Rho * phi
				if s <= h {
					cut = append(cut, p)
				}
				if (s < h) != (e < h) && s != e {
					cut = append(cut, p.Add(q.Sub(p).Mul((h-s)/(e-s))))
				}
			}
			bent += cut.Area()
			flat += l.Area() - cut.Area()
		}
	}
	return flat, bent
}

// bodiesApart is the signed distance of two of the kernel's solids: the least over
// their convex pieces.
func bodiesApart(ps fold.Pose, a, b fold.Body) float64 {
	best := math.Inf(1)
	ys := ps.Solid(b)
	for _, x := range ps.Solid(a) {
		for i := range ys {
			if c, ok := solid.Nearer(&x, &ys[i], best); ok {
				best = min(best, c.D)
			}
		}
	}
	return best
}
