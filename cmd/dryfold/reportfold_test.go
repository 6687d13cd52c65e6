package main

import (
	"bytes"
	"strings"
	"testing"

	"dryfold/fold"
)

// inOrder reports whether all texts stand in out, one after the other, and the first that does not.
func inOrder(out string, texts ...string) string {
	for _, t := range texts {
		i := strings.Index(out, t)
		if i < 0 {
			return t
		}
		out = out[i+len(t):]
	}
	return ""
}

// TestReportOrder: what one needs at the brake stands before what doubt is worth and the lists' radii.
func TestReportOrder(t *testing.T) {
	_, out, _ := use("check", "../../assets/faulty-tray.dryfold")
	if x := inOrder(out, "\nBlank ", "\nSwings in order", "closest pass", "room, mm", "errors may take", "panel right rear, panel hook", "\nClashes", "\nSeams, as finished, mm", "95 of 100 under",
		"\nBends\n", "\nSet angle", "\nWhat doubt is worth here", "\nLeast inside radius"); x != "" {
		t.Errorf("%q is missing or out of order in\n%s", x, out)
	}
	var b bytes.Buffer
	writeSwings(&b, []fold.SwingReport{{Number: 1, Bends: []string{"a"}, To: 90, State: "ok"}}, units(fold.MM))
	if s := b.String(); strings.Contains(s, "pass") || !strings.Contains(s, "90.0 deg  ok") {
		t.Error(s)
	}
	b.Reset()
	writeSwings(&b, []fold.SwingReport{{Number: 1, Bends: []string{"a"}, To: 90, State: "ok", Room: &fold.RoomReport{A: "panel b", B: "panel c", Room: 2.54, Errors: 0.254, Angle: 40}}}, units(fold.Inch))
	if x := inOrder(b.String(), "room, in", "panel b, panel c", "40.0 deg", "0.100", "0.010"); x != "" {
		t.Errorf("%q is missing in %s", x, b.String())
	}
}

// TestLarger: sizes that come out larger than drawn are told with the reason, those that do so by chance or by little are not.
func TestLarger(t *testing.T) {
	size := func(d float64) fold.Spread {
		return fold.Spread{Exact: 100, Low: 99.5 + d, Mid: 100 + d, High: 100.5 + d}
	}
	for _, c := range []struct {
		samples int
		d       [3]float64
		want    string
	}{
		{10000, [3]float64{0, 0.04, -0.2}, ""},
		{10000, [3]float64{0, 0.06, 0}, "(along y)"},
		{10000, [3]float64{0.3, 0.06, 0.1}, "(along x, along y, high)"},
		{100, [3]float64{0, 0.1, 0}, ""},
	} {
		s := &fold.SpreadReport{Samples: c.samples}
		for k, d := range c.d {
			s.Sizes[k] = size(d)
		}
		got := larger(s)
		if (c.want == "") != (got == "") || !strings.Contains(got, c.want) || got != "" && !strings.Contains(got, "an edge out of square makes the overall size larger") {
			t.Errorf("%+v: %q", c, got)
		}
	}
}

// TestSpreadWords: how far holes are out of line stands before how far apart they are, and words that need it are explained.
func TestSpreadWords(t *testing.T) {
	_, out, _ := use("spread", "-samples", "300", "../../assets/stand-bracket.dryfold")
	if x := inOrder(strings.Join(strings.Fields(out), " "), "out of line by", "centres apart", "Together: what no error makes by itself"); x != "" {
		t.Errorf("%q is missing or out of order in\n%s", x, out)
	}
	_, out, _ = use("spread", "-samples", "300", "../../assets/press-hopper.dryfold")
	if x := inOrder(out, "front left corner", "foot", "top", "front left lip", "free end", "at left", "least"); x != "" {
		t.Errorf("%q is missing or out of order in\n%s", x, out)
	}
}

func TestWrapKeepsPercent(t *testing.T) {
	if got := strings.Join(wrap("of it (25 % each): so", 9), "|"); got != "of it (25 %|each): so" {
		t.Error(got)
	}
}
