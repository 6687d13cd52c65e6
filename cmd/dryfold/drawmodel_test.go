package main

import (
	"bytes"
	"encoding/binary"
	"image/gif"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// TestDrawModel: the files are of their kind, and the flags reach them.
func TestDrawModel(t *testing.T) {
	dir := t.TempDir()
	draw := func(name string, flags ...string) []byte {
		t.Helper()
		to := filepath.Join(dir, name)
		if status, _, msg := use(append([]string{"draw", parts + "/tray.dryfold", "-o", to}, flags...)...); status != 0 {
			t.Fatalf("%q: %d, %s", flags, status, msg)
		}
		data, err := os.ReadFile(to)
		if err != nil {
			t.Fatal(err)
		}
		return data
	}
	triangles := func(data []byte) int {
		n := int(binary.LittleEndian.Uint32(data[80:]))
		if len(data) != 84+50*n {
			t.Errorf("%d bytes for %d triangles", len(data), n)
		}
		return n
	}
	done := draw("a.stl")
	if half := draw("b.STL", "-done", "0.5"); bytes.Equal(half, done) {
		t.Error("half way it is as finished")
	}
	if fine, flat := triangles(draw("c.stl", "-chord", "0.001")), triangles(draw("d.stl", "-done", "0")); fine <= triangles(done) || flat >= triangles(done) {
		t.Errorf("%d triangles, %d with a finer chord, %d flat", triangles(done), fine, flat)
	}
	if g := draw("a.glb"); string(g[:4]) != "glTF" || int(binary.LittleEndian.Uint32(g[8:])) != len(g) || bytes.Equal(g, draw("b.glb", "-tint")) {
		t.Errorf("a.glb starts with %q", g[:12])
	}
	for _, c := range []struct {
		flags []string
		w, h  int
	}{{nil, 480, 360}, {[]string{"-size", "160x120", "-dark", "-view", "end"}, 160, 120}} {
		g, err := gif.DecodeAll(bytes.NewReader(draw("a.gif", c.flags...)))
		if err != nil {
			t.Fatal(err)
		}
		if g.Config.Width != c.w || g.Config.Height != c.h || len(g.Image) < 2*4+2 {
			t.Errorf("%q: %d x %d, %d frames", c.flags, g.Config.Width, g.Config.Height, len(g.Image))
		}
	}
}

// TestDrawModelRefused: what can't be drawn is said, and no file is left.
func TestDrawModelRefused(t *testing.T) {
	dir := t.TempDir()
	loose := filepath.Join(dir, "loose.dryfold")
	text := `{"dryfold": 1, "name": "loose", "units": "mm", "sheet": {"thickness": 1, "k": 0.4}, "blank": {"outline": [[0,0],[40,0],[40,20],[0,20]],
		"bends": [{"name": "a", "line": [[10,0],[10,20]], "angle": 90, "radius": 1, "way": "up"}, {"name": "b", "line": [[10.5,0],[10.5,20]], "angle": 90, "radius": 1, "way": "up"}]}}`
	if err := os.WriteFile(loose, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	ok := parts + "/tray.dryfold"
	for _, c := range []struct {
		file, out string
		flags     []string
		status    int
		says      string
	}{
		{ok, "x.stl", []string{"-done", "9"}, 2, "2 swing(s)"},
		{ok, "x.stl", []string{"-chord", "-1"}, 2, "0.0001 to 10 mm is needed"},
		{ok, "x.stl", []string{"-chord", "0"}, 2, "0.0001 to 10 mm is needed"},
		{ok, "x.glb", []string{"-chord", "NaN"}, 2, "0.0001 to 10 mm is needed"},
		{ok, "x.gif", []string{"-size", "big"}, 2, "as 480x360"},
		{ok, "x.gif", []string{"-size", "20x20"}, 2, "120 to 1600"},
		{ok, "x.gif", []string{"-view", "inside"}, 2, "at the brake"},
		{ok, "x.gif", []string{"-done", "1"}, 2, "all of the run-through"},
		{loose, "x.stl", nil, 1, "lies inside the zone of the bend b"},
		{loose, "x.glb", nil, 1, "dryfold check"},
		{loose, "x.gif", nil, 1, "can't be folded"},
		{ok, "x.obj", nil, 2, ".stl, .glb"},
	} {
		to := filepath.Join(dir, c.out)
		status, _, msg := use(append([]string{"draw", c.file, "-o", to}, c.flags...)...)
		if status != c.status || !strings.Contains(msg, c.says) {
			t.Errorf("%s %q: %d, %s", c.out, c.flags, status, msg)
		}
		if _, err := os.Stat(to); err == nil {
			t.Errorf("%s %q left a file", c.out, c.flags)
		}
	}
}
