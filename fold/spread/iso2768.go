package spread

// This file holds the two tables of ISO 2768-1 that errors are taken from.

import "slices"

// classes are the columns of both tables.
var classes = []string{"f", "m", "c", "v"}

// tolerance is a row: up to this length (mm), so much plus and minus by class; 0 where the table has none.
type tolerance struct {
	upTo float64
	plus [4]float64
}

// linear is ISO 2768-1, table 1: lengths (mm), read.
var linear = []tolerance{
	{3, [4]float64{0.05, 0.1, 0.2, 0}},
	{6, [4]float64{0.05, 0.1, 0.3, 0.5}},
	{30, [4]float64{0.1, 0.2, 0.5, 1}},
	{120, [4]float64{0.15, 0.3, 0.8, 1.5}},
	{400, [4]float64{0.2, 0.5, 1.2, 2.5}},
	{1000, [4]float64{0.3, 0.8, 2, 4}},
	{2000, [4]float64{0.5, 1.2, 3, 6}},
	{4000, [4]float64{0, 2, 4, 8}},
}

// angular is ISO 2768-1, table 3: angles (degrees) by the length of the shorter leg (mm), from memory. The table
// gives degrees and minutes of arc; a last row stands for all that is longer.
var angular = []tolerance{
	{10, [4]float64{1, 1, 1.5, 3}},
	{50, [4]float64{0.5, 0.5, 1, 2}},
	{120, [4]float64{20. / 60, 20. / 60, 0.5, 1}},
	{400, [4]float64{10. / 60, 10. / 60, 0.25, 0.5}},
	{1e9, [4]float64{5. / 60, 5. / 60, 10. / 60, 20. / 60}},
}

// look is a table's figure for a length and class; beyond the table's ends, and where it has none, the nearest
// row that has one.
func look(table []tolerance, length float64, class string) float64 {
	c := slices.Index(classes, class)
	if c < 0 {
		return 0
	}
	i := 0
	for i < len(table)-1 && !(length <= table[i].upTo) {
		i++
	}
	for d := 0; d < len(table); d++ {
		for _, k := range []int{i - d, i + d} {
			if k >= 0 && k < len(table) && table[k].plus[c] > 0 {
				return table[k].plus[c]
			}
		}
	}
	return 0
}
