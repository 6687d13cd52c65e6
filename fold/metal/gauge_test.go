package metal

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// csvTable is the table's ID by its name in gauges.csv.
var csvTable = map[string]string{
	"US Standard (iron/steel; stainless practice)": "us", "Manufacturers' Standard (steel)": "msg", "Galvanized sheet gage": "galvanized",
	"AWG / Brown & Sharpe": "awg", "British Imperial SWG": "swg", "BWG / Stubs iron": "bwg",
}

func TestGauges(t *testing.T) {
	count := 0
	for _, row := range readPublished(t, "gauges") {
		id, ok := csvTable[row["system"]]
		require.True(t, ok, "%v", row)
		g, err := LookUp(row["gauge"], row["system"][:strings.IndexAny(row["system"]+"(", "(")])
		require.NoError(t, err, "%v", row)
		require.Equal(t, id, g.Table, "%v", row)
		require.Equal(t, row["gauge"], g.Number, "%v", row)
		require.Equal(t, row.num(t, "thickness_in"), g.Inch, "%v", row)
		require.InDelta(t, row.num(t, "thickness_mm"), g.Thickness, 6e-5, "%v", row)
		require.Equal(t, row.memory(), g.Source.Memory, "%v", row)
		require.True(t, strings.HasPrefix(row["source"], g.Source.Title), "%v, not %s", row, g.Source)
		near, off, ok := Nearest(g.Thickness, id)
		require.True(t, ok)
		require.Equal(t, g.Thickness, near.Thickness, "%v", row)
		require.Zero(t, off, "%v", row)
		count++
	}
	for _, table := range Tables {
		gs := table.Gauges()
		count -= len(gs)
		for i := 1; i < len(gs); i++ {
			require.Less(t, gs[i].Thickness, gs[i-1].Thickness, gs[i].String())
		}
	}
	require.Zero(t, count, "rows of gauges.csv more than of the tables")
}

// AWG by its formula, 0.005 in * 92^((36-n)/39), to the digits printed.
func TestAWG(t *testing.T) {
	table, _ := TableByName("awg")
	for i, w := range strings.Fields(table.inches) {
		n := float64(table.first + i)
		want := .005 * math.Exp2(math.Log2(92)*(36-n)/39)
		places := len(w) - 1
		half := .51 * math.Pow10(-places)
		if n == 13 || n == 38 { // .0719 and .00396 are cut in the source (read), where 0.07196 and 0.003965 would round up
			half = .62 * math.Pow10(-places)
		}
		require.InDelta(t, want, number(w), half, "gauge %g", n)
	}
}

// Manufacturers' Standard by its definition: ounces per square foot of the US Standard, at 41.82 pounds per square foot an inch, to
// the four places printed; the US Standard by the law: ounces over 640, exactly. Both from the ounces of 15 U.S.C. 206
// (read up to number 30, from memory beyond).
func TestSteelByWeight(t *testing.T) {
	ounces := map[string]float64{"3": 160, "4": 150, "5": 140, "6": 130, "7": 120, "8": 110, "9": 100, "10": 90, "11": 80, "12": 70, "13": 60, "14": 50,
		"15": 45, "16": 40, "17": 36, "18": 32, "19": 28, "20": 24, "21": 22, "22": 20, "23": 18, "24": 16, "25": 14, "26": 12, "27": 11, "28": 10,
		"29": 9, "30": 8, "31": 7, "32": 6.5, "33": 6, "34": 5.5, "35": 5, "36": 4.5, "37": 4.25, "38": 4}
	for _, table := range []string{"us", "msg"} {
		tab, _ := TableByName(table)
		checked := 0
		for _, g := range tab.Gauges() {
			oz, ok := ounces[g.Number]
			if !ok {
				continue
			}
			checked++
			if table == "us" {
				require.Equal(t, oz/640, g.Inch, g.String())
			} else {
				require.InDelta(t, oz/16/41.82, g.Inch, .51e-4, g.String())
			}
		}
		require.Equal(t, 36, checked, table)
	}
}

func TestReadGauge(t *testing.T) {
	for _, c := range []struct{ text, number, table string }{
		{"16 ga", "16", ""}, {"16ga", "16", ""}, {"16 GA.", "16", ""}, {"16-gauge", "16", ""}, {"#16", "16", ""}, {"No. 16", "16", ""},
		{"16 ga steel", "16", ""}, {"16 swg", "16", "swg"}, {"16 awg", "16", "awg"}, {"16 B&S", "16", "awg"}, {"AWG 16", "16", "awg"},
		{"#16 galvanized", "16", "galvanized"}, {"16 ga galvanised steel", "16", "galvanized"}, {"16 ga Manufacturers' Standard", "16", "msg"},
		{"16 Manufacturers' Standard Gauge", "16", "msg"}, {"16 ga MSG", "16", "msg"}, {"18 gauge US Standard", "18", "us"}, {"2/0 awg", "2/0", "awg"},
		{"00 awg", "2/0", "awg"}, {"0 swg", "0", "swg"}, {"1/0 awg", "0", "awg"}, {"16 Brown & Sharpe", "16", "awg"}, {"20 Stubs", "20", "bwg"},
		{"16 ga of nothing", "16", "of nothing"}, {"gauge 16 (awg)", "16", "awg"}, {"16 ga 2", "16", "2"},
	} {
		number, table, is := ReadGauge(c.text)
		require.True(t, is, c.text)
		require.Equal(t, c.number, number, c.text)
		require.Equal(t, c.table, table, c.text)
	}
	for _, text := range []string{"", "16", "1.6", "1.6 mm", "0.0598 in", "1/16", "1/16 in", "abc", "ga", "-16 ga 3", "1.5 ga us", "1,5 swg", "#0.5", "4/4 awg", strings.Repeat("9", 300) + " ga"} {
		_, _, is := ReadGauge(text)
		require.False(t, is, text)
	}
}

// Whatever is typed, what is read as a gauge has a number that LookUp takes.
func TestReadGaugeRandom(t *testing.T) {
	r, bits := newRand(t), []string{"1", "6", "0", "/", "ga", "#", " ", "awg", "swg", "-", "é", "Standard", "no.", ",", "\x00", "9"}
	gauges := 0
	for range 20000 {
		var text strings.Builder
		for range r.IntN(8) {
			text.WriteString(bits[r.IntN(len(bits))])
		}
		number, table, is := ReadGauge(text.String())
		if !is {
			require.Empty(t, number+table, text.String())
			continue
		}
		gauges++
		again, ok := gaugeNumber(number)
		require.True(t, ok, text.String())
		require.Equal(t, number, again, text.String())
		_, _ = LookUp(number, table)
	}
	require.Greater(t, gauges, 1000)
}

func TestLookUpErrors(t *testing.T) {
	for _, c := range []struct{ number, table, want string }{
		{"16", "", "name the table of gauge 16: it is 1.588 mm by US Standard (us), 1.519 mm by Manufacturers' Standard (msg), 1.613 mm by galvanized sheet (galvanized), 1.290 mm by AWG (Brown & Sharpe) (awg), 1.626 mm by SWG (British Imperial) (swg), 1.651 mm by BWG (Stubs iron) (bwg)"},
		{"2", "msg", "Manufacturers' Standard has no gauge 2; it has 3 to 38"},
		{"6/0", "awg", "AWG (Brown & Sharpe) has no gauge 6/0; it has 5/0 to 40"},
		{"55", "", "no table has gauge 55; they run from 7/0 over 0 to 40"},
		{"-3", "msg", `"-3" is no gauge number: they are whole numbers or as 2/0, and run from 7/0 over 0 to 40`},
		{"16", "zinc", `there is no gauge table "zinc"; the tables are us, msg, galvanized, awg, swg, bwg`},
	} {
		_, err := LookUp(c.number, c.table)
		require.EqualError(t, err, c.want)
	}
}

func TestNearest(t *testing.T) {
	g, off, ok := Nearest(1.5, "msg")
	require.True(t, ok)
	require.Equal(t, "16", g.Number)
	require.InDelta(t, -.01892, off, 1e-9)
	for _, mm := range []float64{0, -1, math.NaN(), math.Inf(1), 30, .01} {
		_, _, ok := Nearest(mm, "us")
		require.False(t, ok, "%g", mm)
	}
	_, _, ok = Nearest(1, "none")
	require.False(t, ok)
	r := newRand(t)
	for range 300 {
		table := Tables[r.IntN(len(Tables))]
		gs := table.Gauges()
		mm := gs[len(gs)-1].Thickness + r.Float64()*(gs[0].Thickness-gs[len(gs)-1].Thickness)
		g, off, ok := Nearest(mm, table.ID)
		require.True(t, ok)
		require.InDelta(t, mm, g.Thickness+off, 1e-12)
		for _, other := range gs {
			require.LessOrEqual(t, math.Abs(off), math.Abs(mm-other.Thickness), "%g mm: %s rather than %s", mm, other, g)
		}
	}
}

// Every table is found by its ID and name, and no name stands for two.
func TestTableNames(t *testing.T) {
	seen := map[string]string{}
	for _, table := range Tables {
		for _, n := range append(strings.Fields(table.names), table.ID, table.Name) {
			got, ok := TableByName(n)
			require.True(t, ok, n)
			require.Equal(t, table.ID, got.ID, n)
			if k := key(n); seen[k] != table.ID {
				require.Empty(t, seen[k], n)
				seen[k] = table.ID
			}
		}
	}
	for _, m := range Metals {
		_, ok := TableByName(DefaultTable(m))
		require.True(t, ok, m.Name)
	}
	require.Equal(t, "galvanized", DefaultTable(metalNamed(t, "galvanized steel")))
	require.Equal(t, "us", DefaultTable(metalNamed(t, "304")))
	require.Empty(t, DefaultTable(Metal{Name: "felt"}))
}

// metalNamed is a metal of the list.
func metalNamed(t *testing.T, name string) Metal {
	t.Helper()
	m, ok := ByName(name)
	require.True(t, ok, name)
	return m
}
