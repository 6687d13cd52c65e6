package metal

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// rowTitle is how the title of our list begins, by the source that min_bend_radius.csv names.
func rowTitle(source string) string {
	switch {
	case strings.Contains(source, "preferred-radius"):
		return credit + ", preferred radii"
	case strings.HasPrefix(source, "C26000"):
		return brass26
	case strings.HasPrefix(source, "common practice ("):
		return strings.TrimSuffix(strings.TrimPrefix(source, "common practice ("), ")")
	}
	title, _, _ := strings.Cut(source, ", Fig")
	return title
}

// Every row of min_bend_radius.csv comes out of LeastRadius at its thickness, with its mark.
func TestMinBendRadius(t *testing.T) {
	for _, row := range readPublished(t, "min_bend_radius") {
		alloy := strings.TrimSuffix(row["alloy_temper"], " group")
		var rows []string
		if strings.Contains(row["source"], "Kalpakjian") {
			rows = []string{alloy + " " + row["condition"]}
		} else if alloy == "low-carbon steel" || !strings.Contains(alloy, " / ") {
			rows = []string{alloy}
		} else {
			rows = strings.Split(alloy, " / ")
		}
		direction, thickness := "", 2.0
		if strings.Contains(row["condition"], "grain") {
			direction, _, _ = strings.Cut(row["condition"], " ")
		}
		switch {
		case row["thickness_in"] != "":
			thickness = row.num(t, "thickness_in") * mmPerInch
		case row["thickness_label"] == "<0.016":
			thickness = .4
		default:
			require.Equal(t, "any", row["thickness_label"], "%v", row)
		}
		for _, name := range rows {
			var got []Least
			for _, l := range LeastRadius(Metal{rows: []string{name}}, thickness, direction) {
				if l.Source.Title == rowTitle(row["source"]) || strings.HasPrefix(l.Source.Title, rowTitle(row["source"])) && !l.Advice {
					got = append(got, l)
				}
			}
			if row["radius_over_T"] == "" {
				require.Contains(t, row["note"], "NR = not recommended", "%v", row)
				require.Empty(t, got, "%v", row)
				continue
			}
			require.Len(t, got, 1, "%s: %v", name, row)
			l := got[0]
			require.Equal(t, row.memory(), l.Source.Memory, "%v", row)
			require.Equal(t, strings.HasPrefix(row["source"], "common practice"), l.Source.Kind == Practice, "%v", row)
			require.Equal(t, strings.Contains(row["condition"], "preferred"), l.Advice, "%v", row)
			require.Equal(t, direction, l.Direction, "%v", row)
			lo, hi, ranged := strings.Cut(row["radius_over_T"], "-")
			if !ranged {
				hi = lo
			}
			tol := 1e-9
			if row["radius_in"] != "" {
				require.InDelta(t, row.num(t, "radius_in")*mmPerInch, l.Radius, 2e-4, "%v", row) // printed to 1e-5 in
				tol = thickness * 6e-4                                                           // ratio printed to 3 places
			}
			require.InDelta(t, number(lo)*thickness, l.Radius, tol, "%v", row)
			require.InDelta(t, number(hi)*thickness, l.High, tol, "%v", row)
		}
	}
}

// Every row of DIN 6935's table, from just over the thickness below to its own.
func TestDINMinRadius(t *testing.T) {
	tensile := map[string]float64{"Rm<=390 N/mm2": 390, "390<Rm<=490 N/mm2": 490, "490<Rm<=640 N/mm2": 640}
	direction := map[string]string{"transverse": "across", "along": "along"}
	for _, row := range readPublished(t, "din6935_min_radius") {
		rm, dir := tensile[row["steel_class"]], direction[row["direction_to_rolling"]]
		require.NotZero(t, rm, "%v", row)
		require.NotEmpty(t, dir, "%v", row)
		m := Metal{Family: "steel", Tensile: Fact{Range: Range{rm - 5, rm}}}
		for _, thickness := range []float64{row.num(t, "thickness_over_mm") + 1e-6, row.num(t, "thickness_up_to_mm")} {
			got := LeastRadius(m, thickness, dir)
			require.Len(t, got, 1, "%v", row)
			require.Equal(t, row.num(t, "min_inside_radius_mm"), got[0].Radius, "%g mm: %v", thickness, row)
			require.Equal(t, row.memory(), got[0].Source.Memory, "%v", row)
			require.Equal(t, dir, got[0].Direction)
		}
		require.Empty(t, LeastRadius(m, 20.5, dir))
	}
}

func TestLeastRadius(t *testing.T) {
	titles := func(ls []Least) (out []string) {
		for _, l := range ls {
			require.True(t, l.Radius >= 0 && l.High >= l.Radius && l.Source.Title != "", "%+v", l)
			out = append(out, l.Source.Title)
		}
		return out
	}
	h32 := metalNamed(t, "5052-H32")
	list := LeastRadius(h32, 1.6, "") // sold as 1/16 in
	require.Len(t, list, 4)
	require.Equal(t, 1.6, list[0].Radius)
	require.Equal(t, adm, titles(list)[0])
	next := LeastRadius(h32, 2, "") // the next thicker row, 1/8 in
	require.Equal(t, 3.0, next[0].Radius)

	steel := metalNamed(t, "mild steel")
	both := titles(LeastRadius(steel, 1.5, ""))
	across := titles(LeastRadius(steel, 1.5, "across"))
	along := titles(LeastRadius(steel, 1.5, "along"))
	require.Equal(t, across, both, "at 1.5 mm along and across are the same")
	require.Equal(t, across, along)
	require.Equal(t, "across or along", leastOf(LeastRadius(steel, 1.5, ""), din+", steel up to 390 N/mm2").Direction)
	require.Len(t, LeastRadius(steel, 4, ""), 2+4, "at 4 mm they differ")
	require.Contains(t, across, din+", steel up to 390 N/mm2")
	require.Contains(t, across, din+", steel up to 490 N/mm2", "its strength may be up to 410")
	require.NotContains(t, across, din+", steel up to 640 N/mm2")
	require.Equal(t, tradeFloor, leastOf(LeastRadius(steel, .5, ""), trade).Radius)
	require.Equal(t, 1.5, leastOf(LeastRadius(steel, 3, ""), trade).Radius)

	for _, l := range LeastRadius(metalNamed(t, "304"), 1, "") {
		require.NotContains(t, l.Source.Title, "DIN", "it speaks of plain steel")
	}
	h34, ok := Resolve("5052-H34", []Own{{Name: "5052-H34", Like: "5052"}})
	require.True(t, ok)
	require.InDelta(t, 2*1.5875, 2*LeastRadius(h34, 1.5875, "")[0].Radius/1.5, 1e-9, "the row of its own name")

	for _, thickness := range []float64{0, -1, math.NaN()} {
		require.Empty(t, LeastRadius(steel, thickness, ""))
	}
	for _, m := range Metals {
		for _, thickness := range []float64{1e-6, .5, 1, 3, 1e6, math.Inf(1)} {
			titles(LeastRadius(m, thickness, ""))
		}
	}
	for _, row := range leastRows() { // the packed lists are whole
		n := max(1, len(strings.Fields(row.list.at)))
		require.Len(t, row.values, n, row.class)
	}
}

// leastOf is the figure of the list titled so.
func leastOf(ls []Least, title string) Least {
	for _, l := range ls {
		if l.Source.Title == title {
			return l
		}
	}
	return Least{}
}
