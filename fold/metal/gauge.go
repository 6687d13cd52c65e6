package metal

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"sync"
)

// This file holds the gauge tables: numbered thicknesses, each always with the name of its table.

// Table is one table of gauges.
type Table struct {
	ID     string
	Name   string
	For    string // what it is used for
	Source Source

	names  string // other names, keys apart by spaces
	first  int    // index of the first gauge: its number, 0 for 0, -1 for 2/0, -2 for 3/0
	recall int    // gauges from this number on were recalled from memory; 0 for none
	inches string // thicknesses in inches, one a number
}

// Gauge is one row of a table.
type Gauge struct {
	Table     string  // the table's ID
	Number    string  // "16", "2/0"
	Thickness float64 // mm
	Inch      float64
	Source    Source
}

// String is the gauge with its table: "16 gauge Manufacturers' Standard".
func (g Gauge) String() string {
	t, _ := TableByName(g.Table)
	return g.Number + " gauge " + t.Name
}

const rowlett = "R. Rowlett, How Many?: wire gauges"

// Tables of gauges. The law's US Standard is ounces per square foot over 640; many charts of that name are
// really the Manufacturers' Standard, pounds per square foot over 41.82.
var Tables = []Table{
	{
		ID: "us", Name: "US Standard", For: "stainless by practice; iron and steel by the law",
		Source: Source{Kind: Published, Title: "15 U.S.C. 206"},
		names:  "us usstandard usstd usg usstandardgauge uslaw usgauge ussteel", first: -6, recall: 31,
		inches: ".5 .46875 .4375 .40625 .375 .34375 .3125 .28125 .265625 .25 .234375 .21875 .203125 .1875 .171875 .15625 .140625 .125 .109375 .09375 .078125 .0703125 .0625 .05625 .05 .04375 .0375 .034375 .03125 .028125 .025 .021875 .01875 .0171875 .015625 .0140625 .0125 .0109375 .01015625 .009375 .00859375 .0078125 .00703125 .006640625 .00625",
	}, {
		ID: "msg", Name: "Manufacturers' Standard", For: "uncoated steel",
		Source: Source{Kind: Published, Title: "Manufacturers' Standard Gauge, two gauge charts"},
		names:  "msg mfg mfr ms manufacturers manufacturer manufacturersstandard manufacturersstandardgauge manufacturersstd manufacturerstandard mfrsstandard mfrsstd mfgstandard",
		first:  3,
		inches: ".2391 .2242 .2092 .1943 .1793 .1644 .1495 .1345 .1196 .1046 .0897 .0747 .0673 .0598 .0538 .0478 .0418 .0359 .0329 .0299 .0269 .0239 .0209 .0179 .0164 .0149 .0135 .012 .0105 .0097 .009 .0082 .0075 .0067 .0064 .006",
	}, {
		ID: "galvanized", Name: "galvanized sheet", For: "galvanized steel, its zinc counted",
		Source: Source{Kind: Published, Title: "galvanized sheet gauge, two gauge charts"},
		names:  "galvanized galv gsg galvanizedsheet galvanizedsheetgauge galvanizedsteel", first: 8,
		inches: ".1681 .1532 .1382 .1233 .1084 .0934 .0785 .071 .0635 .0575 .0516 .0456 .0396 .0366 .0336 .0306 .0276 .0247 .0217 .0202 .0187 .0172 .0157 .0142 .0134",
	}, {
		ID: "awg", Name: "AWG (Brown & Sharpe)", For: "aluminium, copper, brass",
		Source: Source{Kind: Published, Title: rowlett},
		names:  "awg bs brownsharpe brownandsharpe awgbrownsharpe americanwire americanwiregauge awgbs", first: -4,
		inches: ".5165 .46 .4096 .3648 .3249 .2893 .2576 .2294 .2043 .1819 .162 .1443 .1285 .1144 .1019 .0907 .0808 .0719 .0641 .0571 .0508 .04526 .0403 .03589 .03196 .02846 .02535 .02257 .0201 .0179 .01594 .0142 .01264 .01126 .01 .00893 .00795 .00708 .0063 .00561 .005 .00445 .00396 .00353 .00314",
	}, {
		ID: "swg", Name: "SWG (British Imperial)", For: "sheet and wire in Britain",
		Source: Source{Kind: Published, Title: rowlett},
		names:  "swg imperial british britishimperial imperialstandard standardwire standardwiregauge britishstandard swgbritishimperial britishimperialswg isw iswg",
		first:  -6,
		inches: ".5 .464 .432 .4 .372 .348 .324 .3 .276 .252 .232 .212 .192 .176 .16 .144 .128 .116 .104 .092 .08 .072 .064 .056 .048 .04 .036 .032 .028 .024 .022 .02 .018 .0164 .0148 .0136 .0124 .0116 .0108 .01 .0092 .0084 .0076 .0068 .006 .0052 .0048",
	}, {
		ID: "bwg", Name: "BWG (Stubs iron)", For: "tube and strip",
		Source: Source{Kind: Published, Title: rowlett},
		names:  "bwg stubs stubsiron birmingham birminghamwire birminghamwiregauge bwgstubsiron", first: -4,
		inches: ".5 .454 .425 .38 .34 .3 .284 .259 .238 .22 .203 .18 .165 .148 .134 .12 .109 .095 .083 .072 .065 .058 .049 .042 .035 .032 .028 .025 .022 .02 .018 .016 .014 .013 .012 .01 .009 .008 .007 .005 .004",
	},
}

// gauges of every table, in the tables' order.
var gauges = sync.OnceValue(func() [][]Gauge {
	all := make([][]Gauge, len(Tables))
	for i, t := range Tables {
		for j, w := range strings.Fields(t.inches) {
			n, inch := t.first+j, number(w)
			g := Gauge{Table: t.ID, Number: strconv.Itoa(n), Thickness: inch * mmPerInch, Inch: inch, Source: t.Source}
			if n < 0 {
				g.Number = strconv.Itoa(1-n) + "/0"
			}
			g.Source.Memory = t.recall != 0 && n >= t.recall
			all[i] = append(all[i], g)
		}
	}
	return all
})

// mmPerInch by definition.
const mmPerInch = 25.4

// number is a figure of the packed tables; what they hold is tested.
func number(text string) float64 {
	v, _ := strconv.ParseFloat(text, 64)
	return v
}

// Gauges are the table's rows, the thickest first.
func (t Table) Gauges() []Gauge {
	for i := range Tables {
		if Tables[i].ID == t.ID {
			return append([]Gauge(nil), gauges()[i]...)
		}
	}
	return nil
}

// span is the table's first and last number: "3 to 38".
func (t Table) span() string {
	gs := t.Gauges()
	return gs[0].Number + " to " + gs[len(gs)-1].Number
}

// TableByName finds a table by its ID or name, however it is written: "msg", "Manufacturers' Standard", "B&S".
func TableByName(text string) (Table, bool) {
	n := key(text)
	short := strings.TrimSuffix(strings.TrimSuffix(n, "gauge"), "gage")
	for _, t := range Tables {
		for _, w := range append(strings.Fields(t.names), t.ID, key(t.Name)) {
			if n != "" && (w == n || w == short) {
				return t, true
			}
		}
	}
	return Table{}, false
}

// LookUp is the gauge of that number in the table named. Without a table it is an error that asks which, with the
// thickness by each; so it is for a number that the table does not have.
func LookUp(number, table string) (Gauge, error) {
	n, ok := gaugeNumber(number)
	if !ok {
		return Gauge{}, fmt.Errorf("%q is no gauge number: they are whole numbers or as 2/0, and run from 7/0 over 0 to 40", clip(number))
	}
	if strings.TrimSpace(table) == "" {
		var by []string
		for _, g := range Candidates(n) {
			t, _ := TableByName(g.Table)
			by = append(by, fmt.Sprintf("%.3f mm by %s (%s)", g.Thickness+halfUp, t.Name, t.ID))
		}
		if by == nil {
			return Gauge{}, fmt.Errorf("no table has gauge %s; they run from 7/0 over 0 to 40", n)
		}
		return Gauge{}, fmt.Errorf("name the table of gauge %s: it is %s", n, strings.Join(by, ", "))
	}
	t, ok := TableByName(table)
	if !ok {
		var ids []string
		for _, t := range Tables {
			ids = append(ids, t.ID)
		}
		return Gauge{}, fmt.Errorf("there is no gauge table %q; the tables are %s", clip(table), strings.Join(ids, ", "))
	}
	for _, g := range t.Gauges() {
		if g.Number == n {
			return g, nil
		}
	}
	return Gauge{}, fmt.Errorf("%s has no gauge %s; it has %s", t.Name, n, t.span())
}

// Candidates are the gauges of that number, one for each table that has it.
func Candidates(number string) []Gauge {
	n, ok := gaugeNumber(number)
	if !ok {
		return nil
	}
	var list []Gauge
	for _, gs := range gauges() {
		for _, g := range gs {
			if g.Number == n {
				list = append(list, g)
			}
		}
	}
	return list
}

// Nearest is the gauge of the table whose thickness is nearest to mm, and off, how much thicker than it mm is.
// ok is false where there is no such table or mm lies beyond its ends by more than gaugeReach.
func Nearest(mm float64, table string) (g Gauge, off float64, ok bool) {
	t, found := TableByName(table)
	if !found || !(mm > 0) {
		return Gauge{}, 0, false
	}
	gs := t.Gauges()
	if mm > gs[0].Thickness*(1+gaugeReach) || mm < gs[len(gs)-1].Thickness*(1-gaugeReach) {
		return Gauge{}, 0, false
	}
	for _, c := range gs {
		if g.Number == "" || math.Abs(mm-c.Thickness) < math.Abs(off) {
			g, off = c, mm-c.Thickness
		}
	}
	return g, off, true
}

// DefaultTable is the ID of the table that sheet of the metal is commonly sold by, to suggest and never
// to take unasked; "" where there is none.
func DefaultTable(m Metal) string {
	switch {
	case m.gauges != "":
		return m.gauges
	case m.Family == "steel":
		return "msg"
	case m.Family == "stainless":
		return "us"
	case m.Family == "aluminium" || m.Family == "copper":
		return "awg"
	}
	return ""
}

// gaugeNumber is the number as the tables write it: "2/0" for "2/0" and "00".
func gaugeNumber(text string) (string, bool) {
	t := strings.TrimSpace(text)
	zeros := t != "" && strings.Trim(t, "0") == ""
	n, err := strconv.Atoi(strings.TrimSuffix(t, "/0"))
	switch {
	case zeros && len(t) == 1:
		return "0", true
	case zeros && len(t) <= 7:
		return strconv.Itoa(len(t)) + "/0", true
	case err != nil || n < 1 || n > 99 || strings.ContainsAny(t, "+-"):
		return "", false
	case strings.HasSuffix(t, "/0") && n == 1:
		return "0", true
	case strings.HasSuffix(t, "/0"):
		return strconv.Itoa(n) + "/0", true
	}
	return strconv.Itoa(n), true
}

// clip is at most 40 characters of what was typed, to be repeated in a message.
func clip(s string) string {
	s = strings.TrimSpace(s)
	if r := []rune(s); len(r) > 40 {
		return string(r[:40]) + "..."
	}
	return s
}

// ReadGauge reads a thickness given as a gauge: "16 ga", "16 swg", "#16 galvanized", "16 ga Manufacturers' Standard",
// "2/0 awg", "AWG 16". isGauge is false where the text is something else. table is an ID, "" if none is named, or
// the words themselves where no table has that name (LookUp then says so).
func ReadGauge(text string) (number, table string, isGauge bool) {
	if len(text) > 200 {
		return "", "", false
	}
	t := strings.ToLower(strings.TrimSpace(text))
	at := strings.IndexAny(t, "0123456789")
	if at < 0 {
		return "", "", false
	}
	end := at
	for end < len(t) && (t[end] >= '0' && t[end] <= '9' || t[end] == '/') {
		end++
	}
	number, ok := gaugeNumber(t[at:end])
	if end+1 < len(t) && (t[end] == '.' || t[end] == ',') && t[end+1] >= '0' && t[end+1] <= '9' {
		ok = false // 1.5: gauges are whole numbers
	}
	before, marked := cutGaugeWord(t[:at])
	after, marked2 := cutGaugeWord(t[end:])
	words := strings.TrimSpace(before + " " + after)
	known, named := TableByName(words)
	switch {
	case !ok, strings.Trim(t[:at], " ") == "-":
		return "", "", false
	case named:
		return number, known.ID, true
	case marked || marked2:
		return number, words, true
	}
	return "", "", false
}

// cutGaugeWord takes "#", "no.", "ga", "gauge" and the like out of the text, and tells if there was one.
func cutGaugeWord(text string) (rest string, found bool) {
	var keep []string
	for _, w := range strings.Fields(strings.ReplaceAll(text, "#", " # ")) {
		switch strings.Trim(w, ".,-") {
		case "#", "no", "ga", "g", "gauge", "gage", "gg":
			found = true
		case "", "steel", "sheet":
			// says nothing of the table
		default:
			keep = append(keep, w)
		}
	}
	return strings.Join(keep, " "), found
}
