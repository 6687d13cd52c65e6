package model

import (
	"encoding/json"
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"dryfold/fold"
	"dryfold/fold/geom"
)

// The library manifold-3d has folded these parts by itself, panel by panel and zone by zone (testdata/oracle/manifold.json; make
// oracle makes it anew): their volumes together and the box round them are the mesh's, within the facets of both.
func TestManifoldFolds(t *testing.T) {
	data, err := os.ReadFile("../../testdata/oracle/manifold.json")
	require.NoError(t, err)
	var o struct {
		Facet float64 `json:"facet_mm"`
		Cases []struct {
			Part    string
			State   []float64          `json:"state_deg"`
			Volumes map[string]float64 `json:"volumes_mm3"`
			Box     struct{ Min, Max geom.Vec3 }
		}
	}
	require.NoError(t, json.Unmarshal(data, &o))
	require.Greater(t, len(o.Cases), 100)
	parts := map[string]*fold.Part{}
	for _, c := range o.Cases {
		p := parts[c.Part]
		if p == nil {
			p = read(t, "../../testdata/oracle/"+c.Part)
			parts[c.Part] = p
		}
		var s fold.State
		for _, d := range c.State {
			s = append(s, geom.Degrees(d))
		}
		m, err := Make(p, s, o.Facet)
		require.NoError(t, err, c.Part)
		want := 0.0
		for _, v := range c.Volumes {
			want += v
		}
		_, most := trueVolume(p, s, o.Facet)
		require.InDelta(t, want, m.Volume(), 2*most+slanting(p, s)*o.Facet+1e-6*want, "%s at %v", c.Part, c.State)
		box := m.Box()
		for k := range 3 {
			require.InDelta(t, c.Box.Min[k], box.Min[k], 2*o.Facet+1e-6, "%s at %v", c.Part, c.State)
			require.InDelta(t, c.Box.Max[k], box.Max[k], 2*o.Facet+1e-6, "%s at %v", c.Part, c.State)
		}
	}
}
