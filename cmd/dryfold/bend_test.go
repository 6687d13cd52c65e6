package main

// The bend calculator as a user calls it: worked examples as published, in inches
// and in mm, from the JSON and from the text; wrong input; golden answers in
// testdata/golden/bend, which go test ./cmd/dryfold -update writes anew.

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

const goldenBend = "../../testdata/golden/bend"

// worked is one published example: how each of its figures is asked for.
type worked struct {
	thickness, radius, angle float64
	legs                     []float64
	args                     []string
}

// published reads testdata/published/bend_allowance.csv: the rows in order, by column name.
func published(t *testing.T) []map[string]string {
	t.Helper()
	f, err := os.Open("../../testdata/published/bend_allowance.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	all, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var rows []map[string]string
	for _, r := range all[1:] {
		m := map[string]string{}
		for i, name := range all[0] {
			m[name] = r[i]
		}
		rows = append(rows, m)
	}
	return rows
}

// workbookK is the K at which the deduction of the school textbook's rule v = 0.5 R + 1.5 T
// holds for R = T at 90 degrees: 2 (R + T) - pi/2 (R + K T) = 0.5 R + 1.5 T.
var workbookK = fmt.Sprintf("%.6f", 2/(math.Pi/2)-1)

// ask is the command line's worth of a row. The rule is the example's own.
func ask(t *testing.T, row map[string]string) worked {
	w := worked{thickness: float(t, row["thickness"])}
	radius, angle := row["inside_radius"], row["bend_angle_deg"]
	switch id, what := row["case_id"], row["quantity"]; {
	case id == "FAA-U" && what == "bend_allowance":
		// The handbook takes it from its chart, whose column is R 0.156 in.
		radius, w.args = "0.156", []string{"-rule", "faa"}
	case id == "FAA-L60" && what == "bend_allowance_per_degree":
		// The chart is computed with 0.01745 where the printed formula has 0.01743: pi/180, so that its
		// K is 0.0078 over that.
		w.args = []string{"-k", "0.446907"}
	case id == "FAA-U" || id == "FAA-L60" || id == "SMW-3bend" || id == "BD-45":
		w.args = []string{"-rule", "FAA"}
	case id == "MH-diag5" && what == "bend_allowance_left":
		radius, angle, w.args = "0.375", "180", []string{"-rule", "machinery", "-metal", "soft steel"}
	case id == "MH-diag5" && what == "bend_allowance_right":
		radius, angle, w.args = "0.625", "60", []string{"-rule", "Machinery's Handbook", "-metal", "soft steel"}
	case id == "WM-U":
		w.args = []string{"-k", workbookK}
	case id == "TM-U":
		w.args = []string{"-rule", "DIN 6935"}
	default:
		t.Fatalf("nothing is known of the example %s, %s", id, what)
	}
	w.radius, w.angle = float(t, radius), float(t, angle)
	if strings.Contains(row["legs"], ";") {
		for _, l := range strings.Split(row["legs"], ";") {
			w.legs = append(w.legs, float(t, l))
		}
	}
	return w
}

func float(t *testing.T, s string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// line is the command line that asks in a unit, given lengths of the scale to one of it.
func (w worked) line(unit string, scale float64) []string {
	say := func(v float64) string { return strconv.FormatFloat(v*scale, 'f', -1, 64) + unit }
	args := []string{"bend", "-thickness", say(w.thickness), "-radius", say(w.radius), "-angle", fmt.Sprint(w.angle)}
	if w.legs != nil {
		var legs []string
		for _, l := range w.legs {
			legs = append(legs, say(l))
		}
		args = append(args, "-legs", strings.Join(legs, ","))
	}
	return append(args, w.args...)
}

// answer is bend's JSON as a reader sees it.
type answer struct {
	Thickness     float64  `json:"thickness_mm"`
	Radius        float64  `json:"inside_radius_mm"`
	Angle         float64  `json:"angle_deg"`
	Included      float64  `json:"included_angle_deg"`
	K             float64  `json:"k"`
	KSource       string   `json:"k_source"`
	KKind         string   `json:"k_kind"`
	Rule          string   `json:"rule"`
	Allowance     float64  `json:"allowance_mm"`
	PerDegree     float64  `json:"allowance_per_deg_mm"`
	Setback       float64  `json:"setback_mm"`
	MoldSetback   *float64 `json:"mold_setback_mm"`
	Deduction     float64  `json:"deduction_mm"`
	MoldDeduction *float64 `json:"mold_deduction_mm"`
	Developed     *float64 `json:"developed_mm"`
	Legs          []struct {
		Outside float64 `json:"outside_mm"`
		Inside  float64 `json:"inside_mm"`
		Flat    float64 `json:"flat_mm"`
	} `json:"legs"`
	Marks []struct {
		From float64 `json:"tangent_from_mm"`
		Line float64 `json:"bend_line_mm"`
		To   float64 `json:"tangent_to_mm"`
	} `json:"marks"`
	Others []struct {
		Rule       string
		K          *float64
		Allowance  *float64 `json:"allowance_mm"`
		Deduction  *float64 `json:"deduction_mm"`
		Developed  *float64 `json:"developed_mm"`
		Difference *float64 `json:"difference_mm"`
		Why        string
	} `json:"others"`
	SetLeast *[2]float64 `json:"set_angle_least_deg"`
	Set      *float64    `json:"set_angle_deg"`
	Notes    []string    `json:"notes"`
	Error    *problem    `json:"error"`
}

func bendAnswer(t *testing.T, args ...string) answer {
	t.Helper()
	status, out, msg := use(append(args, "-json")...)
	var a answer
	if err := json.Unmarshal([]byte(out), &a); err != nil || status != 0 || msg != "" || a.Error != nil {
		t.Fatalf("%q: %d, %s%s", args, status, out, msg)
	}
	return a
}

// textNumbers finds the two numbers behind a label of the text: the unit asked in first.
func textNumbers(t *testing.T, text, label string) [2]float64 {
	t.Helper()
	m := regexp.MustCompile(`(?m)^ *` + label + ` +(-?[0-9.]+) +(-?[0-9.]+)`).FindStringSubmatch(text)
	if m == nil {
		t.Fatalf("no %s in\n%s", label, text)
	}
	return [2]float64{float(t, m[1]), float(t, m[2])}
}

// TestPublishedExamples: every worked example through the command, asked in inches and in mm, read from the
// JSON and from the text. The figures are those that the books print; each is met within the
// row's tolerance, which is half its last printed digit or what the book's own rounding on the way costs.
func TestPublishedExamples(t *testing.T) {
	rows := published(t)
	if len(rows) < 22 {
		t.Fatalf("only %d rows", len(rows))
	}
	for _, row := range rows {
		name := row["case_id"] + " " + row["quantity"] + ", " + row["source"] + " (" + row["read"] + ")"
		perUnit := 1.0
		if row["units"] == "in" {
			perUnit = 25.4
		}
		want, tol := float(t, row["published_value"])*perUnit, float(t, row["suggested_tol"])*perUnit
		if row["case_id"] == "MH-diag5" && row["quantity"] == "developed_length" {
			// Two bends of different radii: 3.5 in straight, and each bend's allowance as above.
			sum := 3.5 * perUnit
			for _, r := range rows {
				if r["case_id"] == "MH-diag5" && strings.HasPrefix(r["quantity"], "bend_allowance") {
					sum += bendAnswer(t, ask(t, r).line("in", 1)...).Allowance
				}
			}
			if math.Abs(sum-want) > tol {
				t.Errorf("%s: %g, want %g", name, sum, want)
			}
			continue
		}
		w := ask(t, row)
		for _, unit := range []string{"in", "mm"} {
			scale := perUnit
			if unit == "in" {
				scale /= 25.4
			}
			args := w.line(unit, scale)
			got, inText := figure(t, row["quantity"], bendAnswer(t, args...), args, unit)
			if !(math.Abs(got-want) <= tol) {
				t.Errorf("%s in %s: %.6f mm, want %.6f within %.6f", name, unit, got, want, tol)
			}
			for i, v := range inText {
				if !(math.Abs(v-want) <= tol+textRounding) {
					t.Errorf("%s in %s, column %d of the text: %.6f mm, want %.6f within %.6f", name, unit, i, v, want, tol)
				}
				if !(math.Abs(v-got) <= textRounding) {
					t.Errorf("%s in %s, column %d: the text says %.6f mm, the JSON %.6f", name, unit, i, v, got)
				}
			}
		}
	}
}

// textRounding is half the last place of the text: 0.00005 in, the coarser of the two columns, in mm.
const textRounding = 0.00005*25.4 + 1e-6

// figure is the quantity as the JSON gives it and as both columns of the text do, in mm.
func figure(t *testing.T, what string, a answer, args []string, unit string) (mm float64, text []float64) {
	_, out, _ := use(args...)
	first, second := 25.4, 1.0
	if unit == "mm" {
		first, second = second, first
	}
	from := func(label string, times float64) []float64 {
		n := textNumbers(t, out, label)
		return []float64{n[0] * first * times, n[1] * second * times}
	}
	switch {
	case what == "setback":
		return a.Setback, from("Setback", 1)
	case what == "two_setbacks":
		return 2 * a.Setback, nil
	case what == "bend_deduction":
		return a.Deduction, from("Bend deduction", 1)
	case strings.HasPrefix(what, "bend_allowance_per"):
		return a.PerDegree, from("for one degree", 1)
	case strings.HasPrefix(what, "bend_allowance"):
		return a.Allowance, from("Bend allowance", 1)
	case what == "developed_length":
		return *a.Developed, from("Developed length", 1)
	case strings.HasPrefix(what, "flat"):
		return a.Legs[what[len("flat")]-'1'].Flat, nil
	case what == "sum_mold_lines":
		sum := 0.0
		for _, l := range a.Legs {
			sum += l.Outside
		}
		if !(*a.Developed < sum) {
			t.Errorf("%q: the developed length is not less than the outside sizes", args)
		}
		return sum, nil
	}
	t.Fatalf("nothing is known of %s", what)
	return 0, nil
}

// TestHandbookDigits: figures to the digits in which the books print them, as they stand in the text.
// FAA-H-8083-31 ch. 4 and Sheet Metal Workbook p. 22, both read; Tabellenbuch Metall and Machinery's Handbook, from memory.
func TestHandbookDigits(t *testing.T) {
	for _, c := range []struct {
		args, label string
		places      int
		want        string
		column      int
	}{
		{"-thickness .040in -radius .16in -angle 90", "Setback", 2, "0.20", 0},
		{"-thickness .040in -radius .156in -angle 90", "Bend allowance", 2, "0.27", 0},
		{"-thickness .050in -radius .032in -angle 90", "Bend allowance", 3, "0.085", 0},
		{"-thickness .050in -radius .032in -angle 90", "Bend deduction", 3, "0.079", 0},
		{"-thickness .050in -radius .032in -angle 90", "Setback", 3, "0.082", 0},
		{"-thickness .125in -radius .375in -angle 180 -rule machinery -metal soft_steel", "Bend allowance", 4, "1.3375", 0},
		{"-thickness .125in -radius .625in -angle 60 -rule machinery -metal soft_steel", "Bend allowance", 4, "0.7075", 0},
		{"-thickness 2mm -radius 4mm -angle 90 -rule din", "Bend deduction", 3, "4.459", 0},
		{"-thickness 2mm -radius 4mm -angle 90 -rule din -legs 25,20,15", "Developed length", 2, "51.08", 0},
		{"-thickness 1mm -radius 1mm -angle 90 -rule din -legs 50,40,30", "Developed length", 2, "116.16", 0},
	} {
		args := append([]string{"bend"}, strings.Fields(c.args)...)
		for i := range args {
			args[i] = strings.ReplaceAll(args[i], "_", " ")
		}
		_, out, msg := use(args...)
		if got := fmt.Sprintf("%.*f", c.places, textNumbers(t, out, c.label)[c.column]); msg != "" || got != c.want {
			t.Errorf("%s: %s %s, want %s %s", c.args, c.label, got, c.want, msg)
		}
	}
}

// TestPastSquare: past 90 degrees both setbacks are given; at 180 and over there is no sharp.
func TestPastSquare(t *testing.T) {
	a := bendAnswer(t, "bend", "-thickness", "1mm", "-radius", "2mm", "-angle", "120")
	if a.Setback != 3 || a.MoldSetback == nil || math.Abs(*a.MoldSetback-3*math.Sqrt(3)) > 1e-6 || a.Included != 60 {
		t.Errorf("%+v", a)
	}
	if a.MoldDeduction == nil || math.Abs(*a.MoldDeduction-(2**a.MoldSetback-a.Allowance)) > 3e-6 {
		t.Errorf("deduction to the sharps: %+v", a)
	}
	if math.Abs(a.Deduction-(6-a.Allowance)) > 2e-6 {
		t.Errorf("the deduction past 90 degrees is not by R + T: %+v", a)
	}
	for _, deg := range []string{"180", "240"} {
		a := bendAnswer(t, "bend", "-thickness", "1mm", "-radius", "2mm", "-angle", deg)
		if a.Setback != 3 || a.MoldSetback != nil || a.MoldDeduction != nil {
			t.Errorf("%s: %+v", deg, a)
		}
	}
}

// TestIncludedAngle: both ways of giving the angle give the same bend, and the text
// says which was meant.
func TestIncludedAngle(t *testing.T) {
	for _, deg := range []string{"1", "30", "60", "90", "135", "179"} {
		v := float(t, deg)
		flat := bendAnswer(t, "bend", "-thickness", "1mm", "-radius", "1mm", "-angle", deg)
		included := bendAnswer(t, "bend", "-thickness", "1mm", "-radius", "1mm", "-included", "-angle", fmt.Sprint(180-v))
		if flat.Angle != v || flat.Included != 180-v || flat.Allowance != included.Allowance || flat.Angle != included.Angle {
			t.Errorf("%s: %+v, %+v", deg, flat, included)
		}
	}
	_, out, _ := use("bend", "-thickness", "1mm", "-radius", "1mm", "-included", "-angle", "135")
	for _, want := range []string{"Bend of 45 degrees from flat (you gave the included angle, 135)", "A 45, turned from flat", "B 135, the included angle"} {
		if !strings.Contains(out, want) {
			t.Errorf("no %q in\n%s", want, out)
		}
	}
}

// TestLengthsAsWritten: the same bend in every way of writing it.
func TestLengthsAsWritten(t *testing.T) {
	if got := bendAnswer(t, "bend", "-thickness", "1/2", "-radius", "3/2", "-angle", "90", "-units", "mm"); got.Thickness != 0.5 || got.Radius != 1.5 {
		t.Errorf("-units mm does not hold for fractions: %+v", got)
	}
	if got := bendAnswer(t, "bend", "-thickness", "1/16", "-radius", "0.1", "-angle", "90"); got.Thickness != 1.5875 || !strings.Contains(strings.Join(got.Notes, " "), "Fractions without a unit are read as inches") {
		t.Errorf("a fraction is no inches, or it is unsaid: %+v", got)
	}
	want := bendAnswer(t, "bend", "-thickness", "1.5875mm", "-radius", "3.175mm", "-angle", "90", "-legs", "25.4mm,38.1mm")
	for _, c := range []string{
		"-thickness|1/16in|-radius|1/8in|-angle|90|-legs|1in,1 1/2in",
		"-thickness|.0625\"|-radius|0.125″|-angle|90°|-legs|1,1.5",
		"-thickness|62.5 thou|-radius|1/8 inch|-angle|90 deg|-legs|1;1-1/2",
		"-thickness|.0625|-radius|.125|-angle|90|-legs|1,1.5|-units|in",
		"-thickness|1.5875|-radius|3.175|-angle|90|-legs|25.4,38.1",
		"-thickness|1,5875|-radius|3,175|-angle|90,0|-legs|25,4; 38,1|-units|mm",
		"-thickness|16 ga us|-radius|1/8 in|-angle|90|-legs|1,1 1/2",
		"-thickness|#16 US Standard|-radius|0.3175cm|-angle|90|-legs|25.4,38.1mm",
		"-thickness|16 ga us|-radius|1/8|-angle|90|-legs|1,1.5|-units|in",
		"-thickness|1/16|-radius|1/8|-angle|90|-legs|1,1 1/2",
		"-thickness|1.5875mm|-radius|1/8|-angle|90|-legs|1in,1 1/2",
		"-thickness|1.5875mm|-radius|3.175mm|-angle|90|-legs|1,1.5in",
		"-thickness|1.5875mm|-radius|3.175mm|-angle|90|-units|mm|-legs|1,1.5\"",
		"-thickness|1/16in|-radius|1/8in|-angle|90|-legs|2.54,3.81cm",
		"-thickness|1.5875mm|-radius|1/8|-angle|90|-legs|1000,1500thou",
	} {
		got := bendAnswer(t, append([]string{"bend"}, strings.Split(c, "|")...)...)
		for _, d := range []float64{got.Thickness - want.Thickness, got.Radius - want.Radius, got.Angle - 90, *got.Developed - *want.Developed} {
			if math.Abs(d) > 2e-6 { // two numbers rounded to 1e-6
				t.Errorf("%s: thickness %g, R %g, %g long; want %g, %g, %g", c, got.Thickness, got.Radius, *got.Developed, want.Thickness, want.Radius, *want.Developed)
				break
			}
		}
	}
	if got := bendAnswer(t, "bend", "-thickness", "1.5875", "-radius", "3.175", "-angle", "90"); len(got.Notes) == 0 || !strings.Contains(got.Notes[0], "are read as mm") {
		t.Errorf("bare numbers are read as mm unsaid: %q", got.Notes)
	}
}

// TestStrip: flats, bends and marks add up to the developed length, inside sizes
// give the same strip as outside ones, and another rule's length is its own.
func TestStrip(t *testing.T) {
	for _, deg := range []string{"25", "90", "130", "180"} {
		line := []string{"bend", "-thickness", "1.2mm", "-radius", "2mm", "-angle", deg, "-metal", "mild steel"}
		a := bendAnswer(t, append(line, "-legs", "30,42,25mm")...)
		at := 0.0
		var inside []string
		for i, l := range a.Legs {
			at += l.Flat
			inside = append(inside, fmt.Sprint(l.Inside))
			if i < len(a.Marks) {
				m := a.Marks[i]
				if math.Abs(m.From-at) > 1e-5 || math.Abs(m.To-at-a.Allowance) > 1e-5 || math.Abs(m.Line-(m.From+m.To)/2) > 1e-5 {
					t.Errorf("%s degrees: mark %d is %+v", deg, i, m)
				}
				at += a.Allowance
			}
		}
		if math.Abs(at-*a.Developed) > 1e-5 {
			t.Errorf("%s degrees: flats and bends make %g, the developed length is %g", deg, at, *a.Developed)
		}
		b := bendAnswer(t, append(line, "-inside", "-legs", strings.Join(inside, ",")+"mm")...)
		if math.Abs(*b.Developed-*a.Developed) > 1e-5 {
			t.Errorf("%s degrees: %g by the inside sizes, %g by the outside ones", deg, *b.Developed, *a.Developed)
		}
		last := math.Inf(1)
		for _, o := range a.Others {
			c := bendAnswer(t, append(line, "-legs", "30,42,25mm", "-rule", o.Rule)...)
			if c.Rule != o.Rule || math.Abs(c.K-*o.K) > 2e-6 || math.Abs(*c.Developed-*a.Developed-*o.Difference) > 1e-5 || math.Abs(*c.Developed-*o.Developed) > 1e-5 {
				t.Errorf("%s degrees: beside it %s gives %g, by itself %g", deg, o.Rule, *o.Developed, *c.Developed)
			}
			if math.Abs(*o.Difference) > last {
				t.Errorf("%s degrees: the others are not biggest first", deg)
			}
			last = math.Abs(*o.Difference)
		}
		if len(a.Others) != 3 {
			t.Errorf("%d other rules", len(a.Others))
		}
	}
}

// TestBendWrong: what can't be is refused with status 2, naming the flag and what would do.
func TestBendWrong(t *testing.T) {
	for _, c := range []struct{ args, path, found, need string }{
		{"-radius|1mm", "thickness", "nothing", "16 ga us"},
		{"-thickness|1mm", "radius", "nothing", "0 for a sharp bend"},
		{"-thickness|1mm|-radius|1mm", "angle", "nothing", "from flat"},
		{"-thickness|16 ga|-radius|1mm|-angle|90", "thickness", "without its table", "galvanized (galvanized sheet: 0.0635 in, 1.6129 mm)"},
		{"-thickness|16ga|-radius|1mm|-angle|90|-metal|304", "thickness", "without its table", "commonly sold by us"},
		{"-thickness|16 ga moon|-radius|1mm|-angle|90", "thickness", "moon", "msg (Manufacturers' Standard)"},
		{"-thickness|39 ga us|-radius|1mm|-angle|90", "thickness", "39 ga us", "7/0"},
		{"-thickness|99 ga|-radius|1mm|-angle|90", "thickness", "99 ga", "US Standard"},
		{"-thickness|99 ga us|-radius|1mm|-angle|90", "thickness", "99 ga us\", which is not in that table", "US Standard, which goes from 7/0 (0.5000 in, 12.7000 mm) to 38"},
		{"-thickness|1.5 ga us|-radius|1mm|-angle|90", "thickness", "1.5 ga us", "whole number, or as 2/0"},
		{"-thickness|0in|-radius|1in|-angle|90", "thickness", "0 in", "it must be 0.000039 in to"},
		{"-thickness|1mm|-radius|1mm|-angle|90|-metal|bronze", "metal", "bronze", "-rule machinery alone"},
		{"-thickness|1mm|-radius|1/8|-angle|90|-legs|20,20", "legs[0]", "20 without a unit", "20mm or 20in"},
		{"-thickness|0mm|-radius|1mm|-angle|90", "thickness", "0 mm", "0.001 mm"},
		{"-thickness|-1mm|-radius|1mm|-angle|90", "thickness", "-1 mm", "0.001 mm"},
		{"-thickness|thick|-radius|1mm|-angle|90", "thickness", "thick", "1.5mm"},
		{"-thickness|1mm|-radius|-0.5mm|-angle|90", "radius", "-0.5 mm", "0 mm"},
		{"-thickness|1mm|-radius|1.2.3mm|-angle|90", "radius", "1.2.3mm", "inside radius"},
		{"-thickness|1mm|-radius|1/0in|-angle|90", "radius", "1/0in", "inside radius"},
		{"-thickness|1mm|-radius|NaN|-angle|90", "radius", "NaN", "inside radius"},
		{"-thickness|1mm|-radius|1mm|-angle|241", "angle", "241", "240"},
		{"-thickness|1mm|-radius|1mm|-angle|0", "angle", "0", "over 0"},
		{"-thickness|1mm|-radius|1mm|-angle|Inf", "angle", "Inf", "degrees"},
		{"-thickness|1mm|-radius|1mm|-included|-angle|180", "angle", "an included angle of 180", "under 180"},
		{"-thickness|1mm|-radius|1mm|-angle|90|-k|0.61", "k", "0.61", "0 to 0.6"},
		{"-thickness|1mm|-radius|1mm|-angle|90|-k|-0.1", "k", "-0.1", "0 to 0.6"},
		{"-thickness|1mm|-radius|1mm|-angle|90|-k|half", "k", "half", "number"},
		{"-thickness|1mm|-radius|1mm|-angle|90|-k|0.4|-rule|din", "rule", "both", "one of them"},
		{"-thickness|1mm|-radius|1mm|-angle|90|-rule|guess", "rule", "guess", "din (DIN 6935)"},
		{"-thickness|1mm|-radius|1mm|-angle|90|-rule|machinery", "metal", "not said", "0.71 for cold-rolled steel"},
		{"-thickness|1mm|-radius|1mm|-angle|90|-metal|unobtainium", "metal", "unobtainium", "Stainless 304"},
		{"-thickness|1mm|-radius|1mm|-angle|90|-legs|20", "legs", "20 mm", "two legs"},
		{"-thickness|1mm|-radius|1mm|-angle|90|-legs|20,-5,20", "legs[1]", "-5 mm", "over 0 mm"},
		{"-thickness|1mm|-radius|1mm|-angle|90|-legs|20,3.9,20", "legs[1]", "3.9 mm", "at least 4 mm outside"},
		{"-thickness|1mm|-radius|1mm|-angle|90|-legs|20,,20", "legs[1]", "nothing", "length"},
		{"-thickness|1mm|-radius|1mm|-angle|90|-legs|50 20 50", "legs[0]", "50 20 50", "commas between legs: -legs 50,20,50mm"},
		{"-thickness|0.04in|-radius|0.16in|-angle|90|-legs|1,.1,1", "legs[1]", "0.1 in", "at least 0.4 in outside"},
		{"-thickness|1mm|-radius|0.1in|-angle|90|-legs|20,20", "legs[0]", "20 without a unit", "20mm or 20in"},
		{"-thickness|16 ga us|-radius|0.1|-angle|90", "radius", "0.1 without a unit", "0.1in"},
		{"-thickness|1mm|-radius|1mm|-angle|90|-units|cubits", "units", "cubits", "mm or in"},
	} {
		var args []string
		if c.args != "" {
			args = strings.Split(c.args, "|")
		}
		status, out, msg := use(append([]string{"bend", "-json"}, args...)...)
		var a answer
		if err := json.Unmarshal([]byte(out), &a); err != nil || status != 2 || a.Error == nil || strings.Count(out, "\n") != 1 {
			t.Errorf("%s: %d, %s", c.args, status, out)
			continue
		}
		e := a.Error
		if e.Path == nil || *e.Path != c.path || !strings.Contains(e.Found, c.found) || !strings.Contains(e.Need, c.need) || !strings.Contains(msg, e.Found) {
			t.Errorf("%s: %s", c.args, msg)
		}
	}
	if status, out, msg := use("bend"); status != 2 || out != "" || !strings.Contains(msg, "-thickness T -radius R -angle A") {
		t.Errorf("bend alone: %d, %s%s", status, out, msg)
	}
	// A file of test bends that can't be used, and what is no flag.
	for _, c := range []struct{ args, want string }{
		{"-tests|no-such-file", "no such file"},
		{"-tests|" + parts + "/tray.dryfold", "a part file"},
		{"surplus", "surplus"},
		{"-nonsense", "nonsense"},
	} {
		status, _, msg := use(append([]string{"bend", "-thickness", "1mm", "-radius", "1mm", "-angle", "90"}, strings.Split(c.args, "|")...)...)
		if status != 2 || !strings.Contains(msg, c.want) {
			t.Errorf("%s: %d, %s", c.args, status, msg)
		}
	}
}

// TestBendHostile: whatever is written, the answer is one JSON object, with status 0 or 2, and no mistake of ours.
func TestBendHostile(t *testing.T) {
	const seed = 1
	r := rand.New(rand.NewPCG(seed, 0))
	pieces := []string{"0", "1", "7", "9", ".", ",", "/", "-", " ", ";", "mm", "in", "\"", "ga", "us", "#", "000000", "999999999999", "1/2", "e9", "NaN", "Inf", "é", "\x00", "°", "90", "cm", "0.5"}
	text := func() string {
		s := ""
		for range 1 + r.IntN(4) {
			s += pieces[r.IntN(len(pieces))]
		}
		return s
	}
	good := 0
	for i := range 3000 {
		args := []string{"bend", "-json", "-thickness=1mm", "-radius=1mm", "-angle=90"}
		for _, f := range []string{"thickness", "radius", "angle", "legs", "k", "units", "metal", "rule"} {
			if r.IntN(8) == 0 {
				args = append(args, "-"+f+"="+text())
			}
		}
		if i%3 == 0 {
			args = append([]string{"gauge", "-json", "--"}, text())
		}
		status, out, msg := use(args...)
		if (status != 0 && status != 2) || !json.Valid([]byte(out)) || strings.Count(out, "\n") != 1 || (status == 0) != (msg == "") || strings.Contains(msg, "mistake of ours") {
			t.Fatalf("seed %d: %q: %d, %s%s", seed, args, status, out, msg)
		}
		if status == 0 {
			good++
		}
	}
	if good < 300 {
		t.Errorf("seed %d: only %d were good", seed, good)
	}
}

// TestBendByTests: the maker's strips give K where they fit, a rule where they don't.
func TestBendByTests(t *testing.T) {
	file := filepath.Join(t.TempDir(), "own.drybends")
	// Strips as the formulas make them at K 0.4: R 2, T 1, at 90 degrees the deduction is 6 - pi/2 2.4.
	legs := (100 + 6 - math.Pi/2*2.4) / 2
	strip := fmt.Sprintf(`{"metal": "Mild steel", "thickness": 1, "length": 100, "legs": [%[1]f, %[1]f], "angle": 90, "set": 92, "radius": 2}`, legs)
	text := `{"dryfold_bench": 1, "units": "mm", "tests": [` + strip + "," + strip + "," + strip + `]}`
	if err := os.WriteFile(file, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	a := bendAnswer(t, "bend", "-thickness", "1mm", "-radius", "2mm", "-angle", "90", "-tests", file)
	if math.Abs(a.K-0.4) > 1e-3 || a.KKind != "measured by you" || a.Rule != "" || a.Set == nil || math.Abs(*a.Set-92) > 0.01 || !strings.Contains(strings.Join(a.Notes, " "), "taken as Mild steel") {
		t.Errorf("%+v", a)
	}
	a = bendAnswer(t, "bend", "-thickness", "1mm", "-radius", "2mm", "-angle", "90", "-tests", file, "-metal", "copper")
	if a.Rule != "faa" || a.Set != nil {
		t.Errorf("strips of steel speak of copper: %+v", a)
	}
	if notes := strings.Join(a.Notes, " "); !strings.Contains(notes, "is of copper 1 mm thick: K is not by them. They are of Mild steel 1 mm.") {
		t.Error(notes)
	}
	a = bendAnswer(t, "bend", "-thickness", "2mm", "-radius", "2mm", "-angle", "90", "-tests", file)
	if notes := strings.Join(a.Notes, " "); a.Rule != "faa" || !strings.Contains(notes, "is of Mild steel 2 mm thick") {
		t.Error(notes)
	}
	// A rule or a K goes before them; then they stand beside it.
	for _, before := range [][]string{{"-rule", "din"}, {"-k", "0.3"}} {
		args := append([]string{"bend", "-thickness", "1mm", "-radius", "2mm", "-angle", "90", "-tests", file}, before...)
		a := bendAnswer(t, args...)
		beside := false
		for _, o := range a.Others {
			beside = beside || o.Rule == "tests" && math.Abs(*o.K-0.4) < 1e-3
		}
		_, out, _ := use(args...)
		if !beside || !strings.Contains(out, "Your test bends") || !strings.Contains(strings.Join(a.Notes, " "), "goes before your own test bends") {
			t.Errorf("%q: %s", before, out)
		}
	}
	// Where the radius was measured, the nose does not matter.
	other := strings.Replace(strip, `"radius": 2`, `"radius": 2, "nose": 1`, 1)
	if err := os.WriteFile(file, []byte(`{"dryfold_bench": 1, "units": "mm", "tests": [`+strip+","+other+","+strip+`]}`), 0o644); err != nil {
		t.Fatal(err)
	}
	if a := bendAnswer(t, "bend", "-thickness", "1mm", "-radius", "2mm", "-angle", "90", "-tests", file); a.KSource != "measured by you: 3 strips, R 2 mm" {
		t.Error(a.KSource)
	}
	_, out, _ := use("bend", "-thickness", "1mm", "-radius", "2mm", "-angle", "90", "-tests", file)
	if !strings.Contains(out, "measured by you") || !strings.Contains(out, "92.0 deg") {
		t.Error(out)
	}
}

// goldenBends are the answers that are kept whole.
var goldenBends = map[string]string{
	"faa-u":        "-thickness|0.040in|-radius|0.16in|-angle|90|-legs|1,2,1",
	"din-u":        "-thickness|2mm|-radius|4mm|-angle|90|-rule|din|-legs|25,20,15",
	"machinery":    "-thickness|1/8in|-radius|5/8in|-angle|120|-included|-rule|machinery|-metal|soft steel",
	"own-k":        "-thickness|1.5|-radius|2|-angle|45|-k|0.42",
	"gauge":        "-thickness|16 ga msg|-radius|1/16in|-angle|90|-metal|mild steel|-legs|1,2in|-inside",
	"acute":        "-thickness|1mm|-radius|1.5mm|-angle|135|-metal|304",
	"hem":          "-thickness|0.8mm|-radius|0|-angle|180|-metal|3003-H14",
	"teardrop":     "-thickness|0.8mm|-radius|1.5mm|-angle|220|-metal|copper",
	"test-strips":  "-thickness|1.6mm|-radius|1.5mm|-angle|90|-metal|offcut aluminium|-tests|" + parts + "/measured.drybends",
	"given-bronze": "-thickness|0.8mm|-radius|1mm|-angle|90|-metal|bell bronze sheet|-tests|" + parts + "/measured.drybends",
}

func TestBendGolden(t *testing.T) {
	if *update {
		if err := os.MkdirAll(goldenBend, 0o755); err != nil {
			t.Fatal(err)
		}
	}
	for name, line := range goldenBends {
		args := append([]string{"bend"}, strings.Split(line, "|")...)
		_, text, msg := use(args...)
		_, out, msg2 := use(append(args, "-json")...)
		if msg+msg2 != "" {
			t.Errorf("%s: %s%s", name, msg, msg2)
			continue
		}
		for _, l := range strings.Split(text, "\n") {
			if n := len([]rune(l)); n > 120 || strings.TrimRight(l, " ") != l {
				t.Errorf("%s: a line of %d characters: %q", name, n, l)
			}
		}
		var b bytes.Buffer
		if err := json.Indent(&b, []byte(out), "", " "); err != nil {
			t.Fatal(err)
		}
		for ending, got := range map[string]string{".txt": text, ".json": b.String()} {
			at := filepath.Join(goldenBend, name+ending)
			if *update {
				if err := os.WriteFile(at, []byte(got), 0o644); err != nil {
					t.Fatal(err)
				}
				continue
			}
			want, err := os.ReadFile(at)
			if err != nil {
				t.Errorf("%v; go test ./cmd/dryfold -update writes it", err)
				continue
			}
			if ending == ".json" {
				if d := differ(tokens(t, got), tokens(t, string(want))); d != "" {
					t.Errorf("%s: %s", name, d)
				}
			} else if got != string(want) {
				t.Errorf("%s: got\n%s\nwant\n%s", at, got, want)
			}
		}
	}
}

// TestHandbookMetal: the Handbook's metals that the list does not have, for its rule alone.
func TestHandbookMetal(t *testing.T) {
	for name, c := range map[string]float64{"bronze": .71, "hard copper": .71, "spring steel": .71, "soft brass": .55, "soft copper": .55, "half-hard brass": .64, "soft steel": .64} {
		a := bendAnswer(t, "bend", "-thickness", "2mm", "-radius", "3mm", "-angle", "60", "-rule", "machinery", "-metal", name)
		if want := (c*2 + 1.57*3) * 60 / 90; math.Abs(a.Allowance-want) > 1e-6 {
			t.Errorf("%s: %g, want %g", name, a.Allowance, want)
		}
		if said := strings.Contains(strings.Join(a.Notes, " "), "is no metal of the list"); said != (name == "bronze" || name == "hard copper" || name == "spring steel") {
			t.Errorf("%s: %q", name, a.Notes)
		}
	}
}

// TestHemDrawings: the drawings of a hem and of a teardrop differ, and no angle is without one.
func TestHemDrawings(t *testing.T) {
	drawn := func(deg float64) string {
		var b bytes.Buffer
		drawAngles(&b, deg)
		s, _, _ := strings.Cut(b.String(), "    A ")
		return s
	}
	seen := map[string]float64{}
	for _, deg := range []float64{45, 90, 120, 165, 180, 240} {
		s := drawn(deg)
		if was, twice := seen[s]; twice || strings.Count(s, "A") != 1 || strings.Count(s, "B") != 1 {
			t.Errorf("%g degrees is drawn as %g:\n%s", deg, was, s)
		}
		seen[s] = deg
	}
}

// TestKeysAsCheck: bend's JSON names the least radius as check's does.
func TestKeysAsCheck(t *testing.T) {
	_, out, _ := use("bend", "-json", "-thickness", "1.6mm", "-radius", "1mm", "-angle", "90", "-metal", "6061-T6")
	_, check, _ := use("check", "-json", parts+"/measured.dryfold")
	list := regexp.MustCompile(`"least_radius":\[\{"([a-z_]+)":[^,]*,"([a-z_]+)":[^,]*,"([a-z_]+)":[^,]*,"([a-z_]+)":[^,]*,"([a-z_]+)":`)
	a, b := list.FindStringSubmatch(out), list.FindStringSubmatch(check)
	if a == nil || b == nil || fmt.Sprint(a[1:]) != fmt.Sprint(b[1:]) {
		t.Errorf("%q and %q", a, b)
	}
}

// TestGivenDigits: a gauge's thickness is printed whole.
func TestGivenDigits(t *testing.T) {
	_, out, _ := use("bend", "-thickness", "15 ga us", "-radius", "1mm", "-angle", "90")
	if !strings.Contains(out, "0.0703125 in") {
		t.Error(out)
	}
}
