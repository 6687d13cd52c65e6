package fold

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// Bends that crowd each other at a corner are cured by a relief, in whatever order they are made.
func TestClashAtCornerAsksForRelief(t *testing.T) {
	p := Build(trayWithNotch(31.6))
	n := 0
	for _, tr := range p.Check().Troubles {
		if tr.Rule != "clash" {
			continue
		}
		n++
		require.True(t, strings.HasSuffix(tr.Message, "Cut a larger relief where their lines cross."), tr.Message)
		require.NotContains(t, tr.Message, " 0.0 mm")
	}
	require.Equal(t, 4, n)
}
