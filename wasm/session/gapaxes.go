package session

// This file holds the axes of the gap's drawing, and where its words stand.

import (
	"fmt"
	"math"
	"strconv"

	"dryfold/fold"
)

// axes draws the lines and figures of gaps and places, and names the seam's ends.
func (p *gapPlot) axes(ends [2]string) {
	k := p.u.Scale()
	low, right := float64(plotTall-plotFoot), float64(PlotWide-plotRight)
	step := niceStep((p.hi - p.lo) / k / 4)
	for n := math.Ceil(p.lo / k / step); n*step*k <= p.hi; n++ {
		gap := n * step * k
		p.stroke("tk", fmt.Sprintf("M%d %sh-5", plotLeft, px(p.y(gap))))
		p.word("e sm", plotLeft-8, p.y(gap)+5, strconv.FormatFloat(n*step+0, 'f', stepPlaces(step), 64))
	}
	p.stroke("tk", fmt.Sprintf("M%d %dV%s", plotLeft, plotTop, px(low)))
	p.word("e sm", plotLeft-8, plotTop-9, p.u.String())
	p.level("zero", 0)
	if low-p.y(0) > line {
		p.free("e sm", "in each other", [2]float64{right - 2, low - 4})
	}
	step = niceStep(p.long / k / 4)
	n := 0.0
	for ; n*step*k <= p.long-0.6*step*k; n++ {
		p.place(n*step*k, n*step, stepPlaces(step), "m sm")
	}
	p.place(p.long, p.long/k, max(stepPlaces(step), map[bool]int{true: 2, false: 1}[p.u == fold.Inch]), "e sm")
	p.word("s", plotLeft-4, low+39, shortName(ends[0]))
	p.word("e", right, low+39, shortName(ends[1]))
	words := "along it, " + p.u.String()
	middle := [2]float64{(plotLeft + right) / 2, low + 39}
	if b := wordBox("m", middle[0], middle[1], words); p.words[len(p.words)-2][2] < b[0] && b[2] < p.words[len(p.words)-1][0] {
		p.word("m sm", middle[0], middle[1], words)
	}
}

// shortName cuts an end's name to what stands under its half of the drawing.
func shortName(name string) string {
	r := []rune(Title(name))
	if len(r) > 16 {
		r = append(r[:15], '…')
	}
	return string(r)
}

func (p *gapPlot) place(at, shown float64, places int, class string) {
	low := float64(plotTall - plotFoot)
	p.stroke("tk", fmt.Sprintf("M%s %sv5", px(p.x(at)), px(low)))
	x := p.x(at)
	if class[0] == 'e' {
		x += 4
	}
	p.word(class, x, low+20, trimmed(shown, places))
}

// niceStep is a step of 1, 2 or 5 times a power of ten that is no less than v.
func niceStep(v float64) float64 {
	step := 1.0
	for step < v {
		step *= 10
	}
	for step/10 >= v && step > 1e-6 {
		step /= 10
	}
	switch {
	case step/5 >= v:
		return step / 5
	case step/2 >= v:
		return step / 2
	}
	return step
}

// stepPlaces is how many places it takes to write the multiples of a step.
func stepPlaces(step float64) int {
	places := 0
	for s := step; s < 0.999 && places < 6; s *= 10 {
		places++
	}
	return places
}

// word writes a text with its foot at y; class says which of its ends is at x ("s", "m", "e") before a style.
func (p *gapPlot) word(class string, x, y float64, text string) {
	p.words = append(p.words, wordBox(class, x, y, text))
	p.g.Marks = append(p.g.Marks, GapMark{Class: class, X: x, Y: y, Text: text})
}

func wordBox(class string, x, y float64, text string) [4]float64 {
	w := letter * float64(len([]rune(text)))
	switch class[0] {
	case 'e':
		x -= w
	case 'm':
		x -= w / 2
	}
	return [4]float64{x, y - 13, x + w, y + 4}
}

// free writes a text at the first of some places where it lies on no other word and within the drawing.
func (p *gapPlot) free(class, text string, places ...[2]float64) {
	for _, at := range places {
		b := wordBox(class, at[0], at[1], text)
		clear := b[0] >= plotLeft-2 && b[2] <= PlotWide && b[1] >= 0 && b[3] <= plotTall-plotFoot+2
		for _, w := range p.words {
			clear = clear && (b[2] <= w[0] || w[2] <= b[0] || b[3] <= w[1] || w[3] <= b[1])
		}
		if clear {
			p.word(class, at[0], at[1], text)
			return
		}
	}
}

// two writes a number to two figures.
func two(v float64) string {
	if v >= 100 {
		v = math.Round(v/10) * 10
	}
	if v >= 10 {
		return strconv.FormatFloat(v, 'f', 0, 64)
	}
	return trimmed(v, 1)
}
