package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// TestDrawCut: the files are of their kind, and the flags reach them.
func TestDrawCut(t *testing.T) {
	dir := t.TempDir()
	draw := func(name, part string, flags ...string) (file, said string) {
		t.Helper()
		to := filepath.Join(dir, name)
		status, out, msg := use(append([]string{"draw", parts + "/" + part + ".dryfold", "-o", to}, flags...)...)
		if status != 0 || out != "" {
			t.Fatalf("%q: %d, %s", flags, status, msg)
		}
		data, err := os.ReadFile(to)
		if err != nil {
			t.Fatal(err)
		}
		return strings.ReplaceAll(string(data), "\r\n", "\n"), msg
	}
	bare, said := draw("a.dxf", "slot")
	for _, want := range []string{"\nAC1009\n", "$INSUNITS\n 70\n     4\n", "\nPOLYLINE\n", "\nCIRCLE\n", "\nBEND_DOWN\n", "\nEOF\n"} {
		if !strings.Contains(bare, want) {
			t.Errorf("a.dxf has no %q", want)
		}
	}
	if !strings.Contains(said, "To cut: 6") || !strings.Contains(said, " start") || strings.Contains(bare, "TEXT\n") {
		t.Errorf("said %q", said)
	}
	for _, c := range []struct {
		flags     []string
		has, lack string
	}{
		{[]string{"-units", "in"}, "$INSUNITS\n 70\n     1\n", ""},
		{[]string{"-text", "-kerf", "0.2"}, "\nCut 0.2 mm wide allowed for.\n", ""},
		{[]string{"-text", "-kerf", "0.008in"}, "\nCut 0.203 mm wide allowed for.\n", ""},
		{[]string{"-text", "-kerf", "0.008", "-units", "in"}, "\nCut 0.008 in wide allowed for.\n", ""},
		{[]string{"-bends", "none"}, "POLYLINE", "BEND_"},
		{[]string{"-bends", "notches", "-notch", "1"}, "POLYLINE", "BEND_"},
		{[]string{"-tangents"}, "\nTANGENTS\n", ""},
		{[]string{"-holes", "marked"}, "\nHOLE_MARKS\n", "CIRCLE"},
		{[]string{"-holes", "none"}, "POLYLINE", "CIRCLE"},
		{[]string{"-mirror", "-text"}, "\nBEND_UP\n", "\nBEND_DOWN\n"},
		{[]string{"-other", "-text"}, ", other hand\n", "\nBEND_UP\n"},
		{[]string{"-gaps", "3", "-gap", "1mm", "-text"}, "\nGaps in the outline: 3, 1 mm each.\n", ""},
	} {
		got, _ := draw("b.DXF", "slot", c.flags...)
		if !strings.Contains(got, c.has) || c.lack != "" && strings.Contains(got, c.lack) || got == bare {
			t.Errorf("%q: has %q %v, %q %v", c.flags, c.has, strings.Contains(got, c.has), c.lack, strings.Contains(got, c.lack))
		}
	}
	sheet, _ := draw("a.svg", "slot")
	cut, _ := draw("b.svg", "slot", "-machine")
	if !strings.Contains(cut, `<g id="CUT"`) || strings.Contains(sheet, `<g id="CUT"`) {
		t.Error("-machine makes no cut file, or the marking-out sheet is one")
	}
	if _, said := draw("c.dxf", "fouls"); !strings.Contains(said, "Of severity stop: ") {
		t.Errorf("a part that fouls is drawn without a word: %q", said)
	}
}

// TestDrawCutRefused: what can't be cut is said in the unit asked for, and no file is left.
func TestDrawCutRefused(t *testing.T) {
	to := filepath.Join(t.TempDir(), "a.dxf")
	for _, c := range []struct {
		flags  []string
		status int
		want   string
	}{
		{[]string{"-kerf", "7"}, 1, "The widest cut that works is "},
		{[]string{"-kerf", "7mm", "-units", "in"}, 1, "the cut of 0.276 in"},
		{[]string{"-kerf", "21"}, 2, "need 0 to 20 mm"},
		{[]string{"-kerf", "-1"}, 2, "need 0 to 20 mm"},
		{[]string{"-kerf", "wide"}, 2, "-kerf: found \"wide\""},
		{[]string{"-gaps", "2", "-gap", "0"}, 2, "Width of the gaps"},
		{[]string{"-gaps", "101"}, 2, "0 to 100"},
		{[]string{"-gaps", "90", "-gap", "9"}, 1, "no room for 90"},
		{[]string{"-bends", "dotted"}, 2, "none, lines, notches"},
		{[]string{"-bends", "notches", "-notch", "1e9"}, 2, "-notch"},
		{[]string{"-holes", "square"}, 2, "cut, marked, none"},
	} {
		status, _, msg := use(append([]string{"draw", parts + "/slot.dryfold", "-o", to}, c.flags...)...)
		if status != c.status || !strings.Contains(msg, c.want) {
			t.Errorf("%q: %d, %q; want %d, %q", c.flags, status, msg, c.status, c.want)
		}
	}
	if _, err := os.Stat(to); err == nil {
		t.Error("a file was left")
	}
}
