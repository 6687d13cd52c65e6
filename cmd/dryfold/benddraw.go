package main

// The little drawing of the two ways in which people give a bend's angle.

import (
	"fmt"
	"io"
	"strings"
)

// angleDrawing is the same bend twice, by how far it is turned: A stands where the
// angle from flat is written, B where the included angle is.
type angleDrawing struct {
	below float64 // for bend angles under this
	lines []string
}

var angleDrawings = []angleDrawing{
	{75, []string{
		`               .'                      .'`,
		`            .'                      .'`,
		`         .'   A            B     .'`,
		`______.' - - - -          ______.'`,
	}},
	{105.000001, []string{
		`        |                         |`,
		`        |                         |`,
		`        |  A                  B   |`,
		`________| - - -           ________|`,
	}},
	{150, []string{
		`   '.                         '.`,
		`      '.                         '.`,
		`         '.  A                  B  '.`,
		`___________'. - - -       ___________'.`,
	}},
	{179.999999, []string{
		`  '-._                    '-._`,
		`      '-._                    '-._`,
		`          '-.  A            B     '-.`,
		`  ___________) - - -      ___________)`,
	}},
	{180.000001, []string{
		`  _________               _________`,
		`           \                        \`,
		`            | A                B     |`,
		`  _________/ - - -        _________/`,
	}},
	{1000, []string{
		`          .-.                     .-.`,
		`        .'   \                  .'   \`,
		`      .'      | A             .'   B  |`,
		`   .-'       /             .-'       /`,
		`  __________/ - - -       __________/`,
	}},
}

// drawAngles draws a bend of the given angle from flat, with both numbers under it.
func drawAngles(w io.Writer, deg float64) {
	for _, d := range angleDrawings {
		if deg < d.below {
			for _, l := range d.lines {
				fmt.Fprintln(w, "    "+strings.TrimRight(l, " "))
			}
			break
		}
	}
	included := fmt.Sprintf("B %s, the included angle", degrees(180-deg))
	if deg > 180 {
		included = fmt.Sprintf("B none: folded %s past flat on itself", degrees(deg-180))
	}
	fmt.Fprintf(w, "    %-26s%s\n", fmt.Sprintf("A %s, turned from flat", degrees(deg)), included)
}
