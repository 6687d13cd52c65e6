package fold

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestInUnits(t *testing.T) {
	const m = "Meets the hook, 1.3 mm deep; move it to more than 25.4 mm away, 3 mmm off. A few mm."
	require.Equal(t, m, InUnits(m, MM))
	require.Equal(t, "Meets the hook, 0.051 in deep; move it to more than 1 in away, 3 mmm off. A few mm.", InUnits(m, Inch))
}
