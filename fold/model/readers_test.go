//go:build readers

package model

// The files as programs of others read them: the Khronos Group's glTF validator, and the library manifold-3d, which
// makes a solid of the triangles or says why not. make readers-test runs these.

import (
	"testing"

	"github.com/stretchr/testify/require"

	"dryfold/testdata/readers"
)

// found is what a reader found.
type found struct {
	Errors, Warnings, Triangles, Genus int
	Messages                           []string
	Volume, Area                       float64
	Min, Max                           [3]float64
}

// readerParts are the demo parts, and parts with a hem, slots and holes.
var readerParts = []string{"uncapping-tray", "hive-roof", "press-hopper", "wax-pan", "stand-bracket", "bracket", "hem", "slot", "zed", "measured-tray"}

func TestReaderGLB(t *testing.T) {
	parts := known(t)
	var files []string
	var made []Mesh
	for k, name := range readerParts {
		p := parts[name]
		m, err := Make(p, p.StateAt(len(p.Swings)-k%2, .5), 0)
		require.NoError(t, err)
		made = append(made, m)
		files = append(files, readers.File(t, "a.glb", GLB(m, Options{Name: p.Spec.Name, Tint: k%3 == 0})))
	}
	for k, got := range readers.Read[[]found](t, "glb.mjs", files...) {
		name, m := readerParts[k], made[k]
		require.Zero(t, got.Errors+got.Warnings, "%s: %v", name, got.Messages)
		require.Empty(t, got.Messages, name)
		require.Equal(t, len(m.Tris), got.Triangles, name)
		require.InEpsilon(t, m.Volume()*1e-9, got.Volume, 1e-4, name)
		require.Equal(t, 1-euler(m)/2, got.Genus, name)
	}
}

func TestReaderSTL(t *testing.T) {
	parts := known(t)
	var files []string
	var made []Mesh
	for _, name := range readerParts {
		p := parts[name]
		m, err := Make(p, p.Finished(), 0)
		require.NoError(t, err)
		made = append(made, m)
		files = append(files, readers.File(t, "a.stl", STL(m, p.Spec.Name)))
	}
	for k, got := range readers.Read[[]found](t, "stl.mjs", files...) {
		name, box := readerParts[k], made[k].Box()
		p := parts[name]
		want, most := trueVolume(p, p.Finished(), Chord)
		require.InDelta(t, want-most/2, got.Volume, most/2+1e-4*want, name)
		require.Equal(t, len(p.Voids), got.Genus, name)
		for k := range 3 {
			require.InDelta(t, box.Min[k], got.Min[k], 1e-3, name)
			require.InDelta(t, box.Max[k], got.Max[k], 1e-3, name)
		}
	}
}

// A file with a triangle missing, or with a number out of place, is found out.
func TestReaderRefuses(t *testing.T) {
	p := known(t)["bracket"]
	m, err := Make(p, p.Finished(), 0)
	require.NoError(t, err)
	open := Mesh{m.Points, m.Tris[1:]}
	require.Contains(t, readers.Refused(t, "stl.mjs", readers.File(t, "a.stl", STL(open, ""))), "Not manifold")
	data := GLB(m, Options{})
	data[len(data)-2] = 0xff // an index past the last point
	require.Positive(t, readers.Read[[]found](t, "glb.mjs", readers.File(t, "a.glb", data))[0].Errors)
}
