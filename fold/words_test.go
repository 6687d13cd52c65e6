package fold

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestInUnits(t *testing.T) {
	const m = "Meets the hook, 1.3 mm deep; move it to more than 25.4 mm away, 3 mmm off. A few mm."
	require.Equal(t, m, InUnits(m, MM))
	require.Equal(t, "Meets the hook, 0.051 in deep; move it to more than 1 in away, 3 mmm off. A few mm.", InUnits(m, Inch))
	// Lengths under what is printed keep two digits; 25.4 mm are an inch by definition.
	for mm, in := range map[string]string{"it is 1e-05 mm": "it is 0.00000039 in", "0.001 mm": "0.000039 in", "0 mm": "0 in",
		"1.5e+06 mm": "59055.118 in", "-0.5 mm": "-0.02 in", "between 2-0.0127 mm": "between 2-0.001 in", "type-05 mm": "type-0.197 in",
		"R 1.5 to 2e-7 mm": "R 1.5 to 0.0000000079 in", "1e-300 mm": "3.9e-302 in", "mm": "mm", " mm": " mm", "e-5 mm": "e-0.197 in"} {
		require.Equal(t, in, InUnits(mm, Inch))
	}
}

func TestSharedNames(t *testing.T) {
	for _, x := range [][2][]string{
		{{"left rear", "left front"}, {"left rear", "front"}},
		{{"left", "left front"}, {"left", "left front"}},
		{{"left rear", "right rear"}, {"left rear", "right rear"}},
		{{"left rear"}, {"left rear"}},
		{{"left rear", "left"}, {"left rear", "left"}},
		{{"left lip", "left 2 lip"}, {"left lip", "left 2 lip"}},
	} {
		require.Equal(t, x[1], shared(x[0]))
	}
}
