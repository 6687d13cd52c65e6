package session

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Every seam that is to be riveted and has no overlap says so, and no other.
func TestNoOverlapSaid(t *testing.T) {
	s := checked(t, "uncapping-tray.dryfold")
	said := func() (n int) {
		for i := range s.Report().Seams {
			for _, v := range s.GapSheet(i).Verdict {
				if strings.Contains(v[1], "no overlap here to rivet through") {
					assert.Equal(t, "watch", v[0])
					n++
				}
			}
		}
		return n
	}
	require.Zero(t, said())
	require.NoError(t, s.SetJoinWay("", "rivet"))
	bare := 0
	for _, x := range s.Report().Seams {
		if x.NoOverlap() {
			assert.Equal(t, "watch", x.State)
			bare++
		}
	}
	require.Positive(t, bare)
	require.Equal(t, bare, said())
}
