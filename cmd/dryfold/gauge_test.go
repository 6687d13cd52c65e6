package main

// Gauges as a user asks for them, against testdata/published/gauges.csv.

import (
	"encoding/csv"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"strings"
	"testing"
)

// tableIDs are the command's names for the tables of the published file.
var tableIDs = map[string]string{
	"US Standard (iron/steel; stainless practice)": "us", "British Imperial SWG": "swg", "AWG / Brown & Sharpe": "awg",
	"BWG / Stubs iron": "bwg", "Manufacturers' Standard (steel)": "msg", "Galvanized sheet gage": "galvanized",
}

func gaugeRows(t *testing.T) [][]string {
	t.Helper()
	f, err := os.Open("../../testdata/published/gauges.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if len(rows) < 200 {
		t.Fatalf("only %d rows", len(rows))
	}
	return rows[1:]
}

func askGauge(t *testing.T, args ...string) gaugeAnswer {
	t.Helper()
	status, out, msg := use(append([]string{"gauge", "-json"}, args...)...)
	var a gaugeAnswer
	if err := json.Unmarshal([]byte(out), &a); err != nil || status != 0 || msg != "" || len(a.Gauges) == 0 {
		t.Fatalf("gauge %q: %d, %s%s", args, status, out, msg)
	}
	return a
}

// TestPublishedGauges: every published row by its number, and by its thickness back to its number.
func TestPublishedGauges(t *testing.T) {
	for _, r := range gaugeRows(t) {
		id := tableIDs[r[0]]
		if id == "" {
			t.Fatalf("a table %q", r[0])
		}
		g := askGauge(t, r[1], "-table", id).Gauges[0]
		if g.Inch != float(t, r[2]) || math.Abs(g.Thickness-float(t, r[3])) > 6e-5 || g.Table != id || g.TableName == "" {
			t.Errorf("%s %s (%s, %s): %+v, want %s in", r[0], r[1], r[4], r[5], g, r[2])
		}
		if memory := strings.Contains(g.Source, "from memory"); memory != (r[5] == "from memory") || !strings.Contains(g.Source, "published") {
			t.Errorf("%s %s: source %q, where it is %s (%s)", r[0], r[1], g.Source, r[4], r[5])
		}
		back := askGauge(t, r[2]+"in", "-table", id).Gauges[0]
		if back.Number != r[1] || *back.Off != 0 {
			t.Errorf("%s in is %s %s with an error of %g mm, want %s", r[2], back.Table, back.Number, *back.Off, r[1])
		}
		_, text, _ := use("gauge", r[1], "-table", id)
		if !strings.Contains(text, r[2]) || !strings.Contains(text, g.TableName) {
			t.Errorf("%s %s: no %s in %s", r[0], r[1], r[2], text)
		}
	}
}

// TestGaugeSpellings: one gauge in every way of writing it.
func TestGaugeSpellings(t *testing.T) {
	want := askGauge(t, "16", "-table", "us").Gauges[0]
	for _, args := range []string{"16|-table|US Standard", "16 ga|-table|us", "16ga us", "#16 us", "16|ga|us", "16 us", "-table|us|16", "16 gauge US Standard", "No. 16 us"} {
		if got := askGauge(t, strings.Split(args, "|")...).Gauges; len(got) != 1 || got[0] != want {
			t.Errorf("%s: %+v", args, got)
		}
	}
	for _, n := range []string{"2/0", "00", "2/0 awg"} {
		if got := askGauge(t, n, "-table", "awg").Gauges[0]; got.Number != "2/0" || got.Inch != 0.3648 {
			t.Errorf("%s: %+v", n, got)
		}
	}
}

// TestNearestGauge: the nearest of every table that reaches the thickness, each with its table and its error.
func TestNearestGauge(t *testing.T) {
	for _, c := range []struct {
		asked string
		mm    float64
	}{{"1.5mm", 1.5}, {"0.060in", 1.524}, {"1/16 in", 1.5875}, {"60 thou", 1.524}, {"0.5mm", 0.5}} {
		a := askGauge(t, c.asked)
		if len(a.Gauges) != len(tableIDs) {
			t.Errorf("%s: %d tables", c.asked, len(a.Gauges))
		}
		for _, g := range a.Gauges {
			if math.Abs(*g.Off-(g.Thickness-c.mm)) > 2e-6 || math.Abs(*g.OffInch-*g.Off/25.4) > 2e-6 || math.Abs(*g.OffPercent-*g.Off/c.mm*100) > 1e-3 {
				t.Errorf("%s: %+v, off %g mm, %g in, %g %%", c.asked, g, *g.Off, *g.OffInch, *g.OffPercent)
			}
			for _, r := range gaugeRows(t) { // none of the table is nearer
				if tableIDs[r[0]] == g.Table && math.Abs(float(t, r[2])*25.4-c.mm) < math.Abs(*g.Off)-1e-6 {
					t.Errorf("%s: %s %s is nearer than %s", c.asked, g.Table, r[1], g.Number)
				}
			}
		}
	}
	_, text, _ := use("gauge", "7mm")
	if !strings.Contains(text, "Beyond the ends of:\n  Manufacturers' Standard: 3 to 38, 6.07 to 0.15 mm (0.2391 to 0.0060 in)\n  galvanized sheet: 8 to 32") {
		t.Error(text)
	}
}

// TestWholeTable: -table alone prints every row, its source with it.
func TestWholeTable(t *testing.T) {
	rows := map[string]int{}
	for _, r := range gaugeRows(t) {
		rows[tableIDs[r[0]]]++
	}
	for id, n := range rows {
		if got := askGauge(t, "-table", id).Gauges; len(got) != n {
			t.Errorf("%s: %d rows, want %d", id, len(got), n)
		}
		if _, text, _ := use("gauge", "-table", id); !strings.Contains(text, "published") || strings.Count(text, "\n") < n+2 {
			t.Errorf("%s: %s", id, text)
		}
	}
}

// TestGaugeWrong: nothing is guessed. Without a table every one that has the number is named with its thickness.
func TestGaugeWrong(t *testing.T) {
	for _, c := range []struct{ args, path, found, need string }{
		{"16", "table", "without its table", "msg (Manufacturers' Standard: 0.0598 in, 1.5189 mm)"},
		{"#16", "table", "without its table", "us (US Standard: 0.0625 in, 1.5875 mm)"},
		{"2/0", "table", "without its table", "bwg (BWG (Stubs iron): 0.3800 in"},
		{"16 moon", "table", "moon", "galvanized"},
		{"16|-table|moon", "table", "moon", "swg (SWG (British Imperial))"},
		{"16 swg|-table|us", "table", "16 swg", "one table"},
		{"41|-table|awg", "gauge", "41", "from 5/0 (0.5165 in, 13.1191 mm) to 40 (0.00314 in"},
		{"99", "gauge", "no table has", "Manufacturers' Standard, which goes from 3"},
		{"40mm|-table|msg", "gauge", "40mm", "Manufacturers' Standard: 3 to 38, 6.07 to 0.15 mm"},
		{"500mm", "gauge", "500mm", "US Standard: 7/0 to 38, 12.70 to"},
		{"0mm", "gauge", "0mm", "over 0"},
		{"-1mm", "", "", ""},
		{"1.5", "gauge", "1.5", "1.5mm or 1.5in"},
		{"thick", "gauge", "thick", "1.5mm"},
		{"16/0", "gauge", "16/0", "US Standard"},
		{"1.5 ga us", "gauge", "1.5 ga us", "whole number, or as 2/0"},
		{"1,5 swg", "gauge", "1,5 swg", "whole number, or as 2/0"},
		{"", "", "neither", "-table NAME"},
	} {
		args := []string{"gauge", "-json"}
		if c.args != "" {
			args = append(args, strings.Split(c.args, "|")...)
		}
		status, out, msg := use(args...)
		var a struct{ Error *problem }
		if err := json.Unmarshal([]byte(out), &a); err != nil || status != 2 || a.Error == nil {
			t.Errorf("%s: %d, %s", c.args, status, out)
			continue
		}
		e := a.Error
		if (e.Path == nil) != (c.path == "") || e.Path != nil && *e.Path != c.path || !strings.Contains(e.Found, c.found) || !strings.Contains(e.Need, c.need) {
			t.Errorf("%s: %s", c.args, msg)
		}
	}
	status, out, msg := use("gauge", "16")
	if status != 2 || out != "" || strings.Count(msg, "\n") != len(tableIDs)+3 {
		t.Errorf("%d, %q, %s", status, out, msg)
	}
	for _, id := range tableIDs {
		if !strings.Contains(msg, fmt.Sprintf("  %-10s", id)) {
			t.Errorf("no %s in\n%s", id, msg)
		}
	}
}
