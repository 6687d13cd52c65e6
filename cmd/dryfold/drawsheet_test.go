package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// TestDrawSheetFlags: what is asked for reaches every kind of sheet, and what can't be shown is said.
func TestDrawSheetFlags(t *testing.T) {
	dir := t.TempDir()
	sizes := filepath.Join(filepath.Dir(parts), "sizes")
	draw := func(ending, part string, flags ...string) (sheet, said string) {
		t.Helper()
		to := filepath.Join(dir, "a"+ending)
		status, _, msg := use(append([]string{"draw", part, "-o", to}, flags...)...)
		if status != 0 {
			t.Fatalf("%q: %d, %s", flags, status, msg)
		}
		data, err := os.ReadFile(to)
		if err != nil {
			t.Fatal(err)
		}
		return string(data), msg
	}
	hopper := "../../assets/press-hopper.dryfold"
	for _, kind := range []string{"template", "card"} {
		own, _ := draw(".svg", hopper, "-sheet", kind)
		other, _ := draw(".svg", hopper, "-sheet", kind, "-other", "-hand", "left", "-units", "in", "-paper", "Letter")
		for _, want := range []string{"right hand", "4 in", `width="279.4mm"`} {
			if kind == "card" && want != "right hand" {
				want = "inches"
			}
			if !strings.Contains(other, want) || strings.Contains(own, want) {
				t.Errorf("%s: %q: %v with -other -units in -paper Letter, %v without", kind, want, strings.Contains(other, want), strings.Contains(own, want))
			}
		}
	}
	if card, _ := draw(".svg", filepath.Join(sizes, "measured-tray.dryfold"), "-sheet", "card"); !strings.Contains(card, "form&#39;s sizes are the same") {
		t.Error("a part by sizes is not made in card of its sizes")
	}
	tools := filepath.Join(sizes, "own.drybends")
	if with, _ := draw(".svg", "../../assets/uncapping-tray.dryfold", "-sheet", "cutting", "-tools", tools); !strings.Contains(with, "2.5 mm (2)") {
		t.Error("the cutting sheet knows nothing of -tools")
	}
	if cards, _ := draw(".svg", hopper, "-sheet", "cards"); !strings.Contains(cards, "by errors") || strings.Contains(cards, "bent exactly") {
		t.Error("the cards tell another spread than check does")
	}
	text := `{"dryfold": 1, "name": "底 🔩", "units": "mm", "sheet": {"thickness": 1, "k": 0.4}, "blank": {"outline": [[0,0],[40,0],[40,20],[0,20]],
		"bends": [{"line": [[20,0],[20,20]], "angle": 90, "radius": 1, "way": "up"}]}}`
	file := filepath.Join(dir, "b.dryfold")
	if err := os.WriteFile(file, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	if _, said := draw(".pdf", file); !strings.Contains(said, "底🔩") {
		t.Errorf("letters that no font has go without a word: %q", said)
	}
	if _, said := draw(".pdf", hopper); strings.Contains(said, "letters") {
		t.Errorf("of letters that all fonts have: %q", said)
	}
}
