package main

import (
	"bytes"
	"flag"
	"fmt"
	"image/png"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"dryfold/fold"
	"dryfold/fold/draft"
	"dryfold/fold/paper"
	"dryfold/render/scene"
	"dryfold/render/scene/raster"
)

type drawFlags struct {
	out, units, size, view string
	fit, dark, plain       bool
	done                   float64
}

func drawVerb() *verb {
	return &verb{
		name: "draw", args: "FILE -o OUT.(svg|png)",
		what: "draws marks to cut by, or a picture, by the ending",
		more: `An .svg is the marking-out sheet: the blank at true scale with its bend lines and
holes, and every corner, hole and bend-line end as running dimensions from two edges
and in tables. -fit draws it to a stated scale on A4 where that holds it.

A .png is a picture of the part on its blank, finished or part-way (-done).`,
		shows: "dryfold draw tray.dryfold -o tray.svg -units in",
		flags: func(f *flag.FlagSet) any {
			o := &drawFlags{}
			f.StringVar(&o.out, "o", "", "the `file` to write, .svg or .png")
			f.StringVar(&o.units, "units", "", "mm or in, of the numbers written (default: the part file's)")
			f.BoolVar(&o.fit, "fit", false, "svg: to scale on A4 rather than at true scale")
			f.StringVar(&o.size, "size", "1180x820", "png: width x height in pixels")
			f.StringVar(&o.view, "view", "home", "png: "+strings.Join(scene.Views, ", "))
			f.Float64Var(&o.done, "done", -1, "png: swings done, as 3 or 3.5 for the fourth half way (default all)")
			f.BoolVar(&o.plain, "plain", false, "png: without sizes and gaps")
			f.BoolVar(&o.dark, "dark", false, "png: on dark ground")
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
	if ending != ".svg" && ending != ".png" {
		return c.usage("-o %s, which ends in neither .svg nor .png", o.out)
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
	r := g.check(p)
	pages, err := paper.MarkingOut(p, &r, paper.Options{Units: u, TrueScale: !o.fit})
	if err != nil {
		c.fail(problem{File: &c.args[0], Found: err.Error(), Need: "a part that can be folded; dryfold check says what to mend"})
		return statusStop
	}
	return c.writeFile(o.out, draft.Joined(p.Spec.Name+", marking out", pages))
}

func (c *call) drawPicture(g given, p *fold.Part, o *drawFlags, u fold.Units) int {
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
	pic := scene.Picture{Part: p, Dark: o.dark, Dims: !o.plain, Format: units(u).length}
	if p.Foldable {
		r := g.check(p)
		pic.Report = &r
		pic.State = p.Finished()
		if o.done >= 0 {
			n := int(o.done)
			pic.State = p.StateAt(n, o.done-float64(n))
			if n < len(p.Swings) && o.done > float64(n) {
				pic.Turning = p.Swings[n].Bends
			}
		}
		pic.Ticks = !o.plain && (o.done < 0 || o.done == float64(len(p.Swings)))
	}
	s := scene.Make(pic)
	cam := scene.NewCamera(float64(w), float64(h))
	s.SetView(&cam, o.view)
	img, err := raster.Draw(s, cam, 1)
	if err != nil {
		return c.usage("-size %s: %v", o.size, err)
	}
	var b bytes.Buffer
	e := png.Encoder{CompressionLevel: png.BestCompression}
	if err := e.Encode(&b, img); err != nil {
		panic(fmt.Sprint("encoding a picture: ", err))
	}
	return c.writeFile(o.out, b.Bytes())
}
