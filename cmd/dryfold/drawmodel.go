package main

// The folded part as files for other programs: .stl and .glb, and its run-through as .gif.

import (
	"errors"
	"flag"
	"fmt"
	"math"
	"strconv"
	"strings"

	"dryfold/fold"
	"dryfold/fold/model"
	"dryfold/render/scene/raster"
)

// modelEndings are those that drawModel writes.
var modelEndings = []string{".gif", ".stl", ".glb"}

type modelFlags struct {
	chord float64
	tint  bool
}

func (m *modelFlags) define(f *flag.FlagSet) {
	f.Float64Var(&m.chord, "chord", model.Chord, fmt.Sprintf("stl, glb: how far facets of bends may stand off the true round, `mm`, %g to %g", model.MinChord, model.MaxChord))
	f.BoolVar(&m.tint, "tint", false, "glb: the sheet's upper face cool, its lower face warm, as in a .png")
}

// modelHelp is what draw's help says of them.
const modelHelp = `
A .gif is the run-through: each card's swing in turn, flat to finished, with its number and name.

An .stl or .glb is the part in space, finished or part-way (-done), a closed surface
with thickness and bends true: STL binary, in mm, z up; glTF 2.0, in metres, y up.`

// drawModel writes the part as a file of the ending.
func (c *call) drawModel(g given, p *fold.Part, o *drawFlags, ending string) int {
	if !p.Foldable {
		_, err := model.Make(p, nil, 0)
		c.fail(problem{File: &c.args[0], Found: strings.TrimSuffix(err.Error(), "."), Need: "a part that can be folded; dryfold check says what to mend"})
		return statusStop
	}
	if ending == ".gif" {
		return c.drawRunThrough(g, p, o)
	}
	s := p.Finished()
	if o.done >= 0 && !math.IsNaN(o.done) {
		if o.done > float64(len(p.Swings)) {
			return c.usage("-done %g, where the part has %d swing(s)", o.done, len(p.Swings))
		}
		n := int(o.done)
		s = p.StateAt(n, o.done-float64(n))
	}
	if o.chord == 0 {
		o.chord = -1 // 0 asked for is no wish for the usual one
	}
	m, err := model.Make(p, s, o.chord)
	if err != nil {
		return c.usage("-chord %g: %v", o.chord, err)
	}
	if ending == ".stl" {
		return c.writeFile(o.out, model.STL(m, p.Spec.Name))
	}
	return c.writeFile(o.out, model.GLB(m, model.Options{Name: p.Spec.Name, Tint: o.tint}))
}

func (c *call) drawRunThrough(g given, p *fold.Part, o *drawFlags) int {
	run := raster.RunThrough{View: o.view, Dark: o.dark}
	if o.done >= 0 {
		return c.usage("-done with a .gif, which shows all of the run-through")
	}
	if o.size != "" {
		ws, hs, _ := strings.Cut(o.size, "x")
		w, errW := strconv.Atoi(ws)
		h, errH := strconv.Atoi(hs)
		if errors.Join(errW, errH) != nil || w < 1 || h < 1 {
			return c.usage("-size %s, where WIDTHxHEIGHT in pixels is needed, as 480x360", o.size)
		}
		run.W, run.H = w, h
	}
	r := g.check(p)
	data, err := raster.GIF(p, &r, run)
	if err != nil {
		return c.usage("%v", err)
	}
	return c.writeFile(o.out, data)
}
