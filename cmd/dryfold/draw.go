package main

import (
	"flag"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"dryfold/fold"
	"dryfold/render/scene"
	"dryfold/render/scene/raster"
)

type drawFlags struct {
	out, units, size, view string
	dark, plain, other     bool
	done                   float64

	sheetFlags
	modelFlags
	cutFlags
}

func drawVerb() *verb {
	return &verb{
		name: "draw", args: "FILE -o OUT.(svg|pdf|dxf|png|gif|stl|glb)",
		what: "draws sheets to work by, a file to cut by, a picture or the part in space",
		more: sheetHelp + `
A .png is a picture of the part on its blank, finished or part-way (-done).
` + cutHelp + modelHelp,
		shows: "dryfold draw tray.dryfold -o tray.svg -units in",
		flags: func(f *flag.FlagSet) any {
			o := &drawFlags{}
			f.StringVar(&o.out, "o", "", "the `file` to write: .svg, .pdf, .dxf, .png, .gif, .stl or .glb")
			f.BoolVar(&o.other, "other", false, "svg, pdf, dxf: the mirror image, for the other hand")
			f.StringVar(&o.units, "units", "", "mm or in, of the numbers written (default: the part file's)")
			f.StringVar(&o.size, "size", "", "png, gif: width x height in pixels (default 1180x820, of a gif 480x360)")
			f.StringVar(&o.view, "view", "home", "png, gif: "+strings.Join(scene.Views, ", "))
			f.Float64Var(&o.done, "done", -1, "png, stl, glb: swings done, as 3 or 3.5 for the fourth half way; under 0 all")
			f.BoolVar(&o.plain, "plain", false, "png: without sizes and gaps")
			o.sheetFlags.define(f)
			o.modelFlags.define(f)
			o.cutFlags.define(f)
			f.BoolVar(&o.dark, "dark", false, "png, gif: on dark ground")
			return o
		},
		run: draw,
	}
}

func draw(c *call) int {
	o := c.opt.(*drawFlags)
	if len(c.args) != 1 {
		return c.usage("%d files, where one is needed", len(c.args))
	}
	if o.out == "" {
		return c.usage("no -o")
	}
	ending := strings.ToLower(filepath.Ext(o.out))
	if endings := append([]string{".svg", ".pdf", ".dxf", ".png"}, modelEndings...); !slices.Contains(endings, ending) {
		return c.usage("-o %s, which ends in none of %s", o.out, strings.Join(endings, ", "))
	}
	if o.sheet != "" && ending != ".pdf" && (ending != ".svg" || o.machine) {
		return c.usage("-sheet %s with -o %s, which holds no sheet; .pdf or .svg does", o.sheet, o.out)
	}
	g, wrong := readPart(c.args[0])
	if wrong != nil {
		c.fail(*wrong)
		return statusInput
	}
	u := g.spec.Units
	switch o.units {
	case "":
	case "mm":
		u = fold.MM
	case "in":
		u = fold.Inch
	default:
		return c.usage("-units %s, where mm or in is needed", o.units)
	}
	p := fold.Build(g.spec)
	if ending == ".png" {
		return c.drawPicture(g, p, o, u)
	}
	if slices.Contains(modelEndings, ending) {
		return c.drawModel(g, p, o, ending)
	}
	if ending == ".dxf" || ending == ".svg" && o.machine {
		return c.drawCut(g, o, u, ending)
	}
	return c.drawSheets(g, p, o, u, ending)
}

func (c *call) drawPicture(g given, p *fold.Part, o *drawFlags, u fold.Units) int {
	if o.size == "" {
		o.size = "1180x820"
	}
	ws, hs, _ := strings.Cut(o.size, "x")
	w, errW := strconv.Atoi(ws)
	h, errH := strconv.Atoi(hs)
	if errW != nil || errH != nil || w < 1 || h < 1 {
		return c.usage("-size %s, where WIDTHxHEIGHT in pixels is needed, as 1180x820", o.size)
	}
	if !slices.Contains(scene.Views, o.view) {
		return c.usage("-view %q, where one of %s is needed", o.view, strings.Join(scene.Views, ", "))
	}
	if o.done > float64(len(p.Swings)) {
		return c.usage("-done %g, where the part has %d swing(s)", o.done, len(p.Swings))
	}
	r := p.Sizes()
	if p.Foldable {
		r = g.check(p)
	}
	pic := scene.PictureAt(p, &r, o.done)
	pic.Dark, pic.Format = o.dark, units(u).length
	if o.plain {
		pic.Ticks, pic.Dims = false, false
	}
	data, err := raster.PNG(pic, o.view, w, h)
	if err != nil {
		return c.usage("-size %s: %v", o.size, err)
	}
	return c.writeFile(o.out, data)
}
