package paper

import (
	"fmt"
	"regexp"
	"strings"
	"testing"

	"dryfold/fold"
	"dryfold/fold/draft"
	"dryfold/fold/metal"
)

// tested gives a part three test bends of its sheet that sprang back by 4 degrees at 90.
func tested(s fold.Spec) fold.Spec {
	set := 94.0
	s.Tests = nil
	for range 3 {
		s.Tests = append(s.Tests, metal.Strip{Metal: s.Sheet.Metal, Thickness: s.Sheet.Thickness, Angle: 90, Set: &set})
	}
	return s
}

// sheetOf is a part's sheet as it reads, with its whole report.
func sheetOf(t *testing.T, s fold.Spec, o Options) printed {
	t.Helper()
	p := fold.Build(s)
	if !p.Foldable {
		t.Fatal("the part can't be folded")
	}
	rep := p.Check()
	pages, err := MarkingOut(p, &rep, o)
	data := draft.Joined(p.Spec.Name, pages)
	if err != nil {
		t.Fatal(err)
	}
	return readSheet(t, data)
}

// Where to stop the leaf is printed where it was measured, and never what the formula gives: that stands below as a
// lower limit.
func TestSetAnglePrinted(t *testing.T) {
	spec := testParts(t)["assets/uncapping-tray.dryfold"]
	sheet := sheetOf(t, tested(spec), Options{})
	rows := sheet.tables["bends"]
	if got := rows[0][4]; got != "83.6 ± 0.5°" { // 80 x 94/90; a protractor reads half degrees
		t.Errorf("hook down, 80 degrees: stop the leaf at %q", got)
	}
	all := strings.Join(sheet.all, " ")
	if !strings.Contains(all, "measured by you: 3 strips") || strings.Contains(all, "bend a strip") {
		t.Errorf("the source of the set angle: %s", all)
	}

	spec.Tests = nil
	p := fold.Build(spec)
	rep := p.Check()
	sheet = sheetOf(t, spec, Options{})
	all = strings.Join(sheet.all, " ")
	for i, r := range sheet.tables["bends"] {
		if r[4] != "bend a strip first*" {
			t.Errorf("%s was not measured and says %q", r[1], r[4])
		}
		for _, b := range rep.Bends {
			if b.Name == r[1] && b.SetLeast != nil && trim(b.SetLeast[0], 1)+"°" == r[4] {
				t.Errorf("row %d prints the formula's figure", i)
			}
		}
	}
	for _, want := range []string{"* Not measured", "By formula at least 80.3° (1)", "a lower limit", "common practice, no source"} {
		if !strings.Contains(all, want) {
			t.Errorf("the sheet does not say %q", want)
		}
	}

	spec.Bends[0].Angle = 180
	for _, r := range sheetOf(t, spec, Options{}).tables["bends"] {
		if r[1] == "hook down" && r[4] != "flatten" {
			t.Errorf("a hem says %q", r[4])
		}
	}
}

// K is printed with what it rests on: without a source it is assumed; so is how the radius is known, and what the doubt
// is worth.
func TestKPrinted(t *testing.T) {
	parts := testParts(t)
	spec := parts["assets/uncapping-tray.dryfold"]
	kind := func(s fold.Spec) string { return sheetOf(t, s, Options{}).tables["basis"][0][4] }
	spec.Sheet.KFrom = ""
	if got := kind(spec); got != "assumed" {
		t.Errorf("a K without a source is printed as %q", got)
	}
	spec.Sheet.KFrom = "measured on three offcuts"
	if got := kind(spec); got != "measured" {
		t.Errorf("a measured K is printed as %q", got)
	}
	spec.Sheet.KFrom = "published: a mill's certificate"
	if got := kind(spec); got != "published" {
		t.Errorf("a published K is printed as %q", got)
	}
	if got := kind(parts["testdata/parts/measured.dryfold"]); got != "measured" {
		t.Errorf("the K of test bends is printed as %q", got)
	}
	measured := fold.Build(parts["testdata/parts/measured.dryfold"])
	rep := measured.Check()
	if want := fmt.Sprintf("K: %.3f ± %.3f, measured by you", rep.Bends[0].K, rep.Bends[0].KSpread); rep.Bends[0].KSpread <= 0 ||
		!strings.Contains(strings.Join(sheetOf(t, parts["testdata/parts/measured.dryfold"], Options{}).all, " "), want) {
		t.Errorf("the sheet does not say %q", want)
	}
	for i := range spec.Bends {
		spec.Bends[i].RadiusFrom = "nose"
	}
	spec.Bends[0].RadiusFrom = "strip"
	for _, u := range []fold.Units{fold.MM, fold.Inch} {
		all := strings.Join(sheetOf(t, spec, Options{Units: u}).all, " ")
		for _, want := range []string{"Inside radius: measured on a strip (1); the nose's (2,", "What doubt is worth", " instead of "} {
			if !strings.Contains(all, want) {
				t.Errorf("the sheet in %v does not say %q", u, want)
			}
		}
		if u == fold.Inch && strings.Contains(all, " mm instead of") {
			t.Error("doubt is given in mm on a sheet in inches")
		}
	}
}

// The finished sizes stand in the order in which the page tells them: of the two flat ones the larger first.
func TestFinishedOrder(t *testing.T) {
	turned := 0
	for name, spec := range testParts(t) {
		p := fold.Build(spec)
		if !p.Foldable {
			continue
		}
		rep := p.Check()
		z := rep.Finished.Box()
		if z[1] <= z[0] {
			continue
		}
		turned++
		places, unit := 1, 1.0
		if spec.Units == fold.Inch {
			places, unit = 3, 25.4
		}
		want := fmt.Sprintf("%.*f × %.*f × ", places, z[1]/unit, places, z[0]/unit)
		if all := strings.Join(sheetOf(t, spec, Options{Units: spec.Units}).all, " "); !strings.Contains(all, want) {
			t.Errorf("%s: the sheet does not say %q", name, want)
		}
	}
	if turned == 0 {
		t.Error("no part whose larger side lies along y")
	}
}

// The grain stands on the sheet in words and as arrows along it; nothing is said where it isn't known.
func TestGrainPrinted(t *testing.T) {
	spec := testParts(t)["testdata/parts/tray-plain.dryfold"]
	drawn := func(s fold.Spec) bool {
		for _, w := range sheetOf(t, s, Options{}).all {
			if w == "grain" {
				return true
			}
		}
		return false
	}
	says := func(s fold.Spec) string { return strings.Join(sheetOf(t, s, Options{}).all, " ") }
	spec.Sheet.Grain = nil
	if drawn(spec) || strings.Contains(says(spec), "Grain") {
		t.Error("grain that is not known is drawn")
	}
	for angle, want := range map[float64]string{0: "along edge B", 180: "along edge B", -90: "along edge A", 30: "30° off edge B, up to the right", 120: "60° off edge B, up to the left"} {
		spec.Sheet.Grain = &angle
		if !drawn(spec) || !strings.Contains(says(spec), "Grain: "+want+".") {
			t.Errorf("grain at %g degrees is not drawn and said as %q", angle, want)
		}
		p := fold.Build(spec)
		rep := p.Quick()
		pages, _ := MarkingOut(p, &rep, Options{})
		data := draft.Joined(p.Spec.Name, pages)
		turn := ""
		if a := map[float64]float64{-90: 90, 30: 30, 120: -60}[angle]; a != 0 {
			turn = fmt.Sprintf("rotate(%g)", -a)
		}
		i := strings.Index(string(data), `<g class="grain">`)
		if word := regexp.MustCompile(`<text[^>]*>grain<`).FindString(string(data[max(0, i):])); i < 0 || word == "" || !strings.Contains(word, turn) || turn == "" && strings.Contains(word, "rotate") {
			t.Errorf("grain at %g degrees is not drawn with %s", angle, turn)
		}
	}
}

// The metal's own cautions stand on the sheet.
func TestMetalCautions(t *testing.T) {
	spec := testParts(t)["testdata/parts/tray-plain.dryfold"]
	for name, want := range map[string]string{"galvanized steel": "metal fume fever", "stainless 304": "hexavalent chromium", "aluminium 5052-H32": "scribed line on the outside of a bend"} {
		spec.Sheet.Metal = name
		all := strings.Join(sheetOf(t, spec, Options{}).all, " ")
		if n := strings.Count(all, want); n != 1 {
			t.Errorf("%s: %q is said %d times", name, want, n)
		}
	}
}

// A small part's sheet keeps to two pages, whatever stands at its foot; a demo part's to four.
func TestFewPages(t *testing.T) {
	small := map[string]bool{"channel-returns": true, "channel": true, "corner": true, "fouls": true, "hem": true, "measured": true, "measured-inch": true,
		"slot": true, "stated": true, "tube": true}
	for name, spec := range testParts(t) {
		p := fold.Build(spec)
		if !p.Foldable {
			continue
		}
		rep := p.Check()
		for _, u := range []fold.Units{fold.MM, fold.Inch} {
			pages, _, err := layOut(p, &rep, Options{Units: u})
			if err != nil {
				t.Fatal(err)
			}
			most := 4
			if small[strings.TrimSuffix(strings.TrimPrefix(name, "testdata/parts/"), ".dryfold")] {
				most = 2
			}
			if len(pages) > most || pages[0].W+pages[0].H != 210+297 {
				t.Errorf("%s in %v takes %d pages, not %d, the first %g wide", name, u, len(pages), most, pages[0].W)
			}
		}
	}
}
