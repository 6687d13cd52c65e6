package raster

// This file draws the run-through: the swings in order, flat to finished, as an animated GIF.

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/color"
	"image/gif"
	"math"

	"golang.org/x/image/font"
	"golang.org/x/image/math/fixed"

	"dryfold/fold"
	"dryfold/fold/geom"
	"dryfold/render/scene"
)

// RunThrough says how a run-through is drawn. The zero value is GIFWidth x GIFHeight, seen from home, on light ground.
type RunThrough struct {
	W, H int    // px
	View string // a word of scene.Views
	Dark bool
	// Progress is told after each frame how many of all are drawn; where it gives false the drawing stops. May be nil.
	Progress func(done, all int) bool
}

// ErrStopped is what GIF gives when Progress stopped it.
var ErrStopped = errors.New("stopped")

// GIF draws the part's run-through: each card's swing in a few frames and a rest at its end, with its number and name,
// over and over. The camera stands still. report may be nil; then no card says that it can't be made. It fails in words for a size or a number of swings that can't be drawn.
func GIF(p *fold.Part, report *fold.Report, o RunThrough) ([]byte, error) {
	if o.W == 0 && o.H == 0 {
		o.W, o.H = GIFWidth, GIFHeight
	}
	if o.W < minGIF || o.H < minGIF || o.W > MaxGIFSide || o.H > MaxGIFSide {
		return nil, fmt.Errorf("a run-through of %d x %d pixels can't be drawn: each side takes %d to %d", o.W, o.H, minGIF, MaxGIFSide)
	}
	if !p.Foldable {
		return nil, fmt.Errorf("the part can't be folded, so there is no run-through")
	}
	if report == nil {
		report = &fold.Report{}
	}
	moments, err := plan(p, report, o.W*o.H)
	if err != nil {
		return nil, err
	}
	f := film{part: p, opt: o, mesher: scene.NewMesher(p), pal: (&scene.Picture{Dark: o.Dark}).Colours()}
	if err := f.aim(moments); err != nil {
		return nil, err
	}
	if err := f.choose(moments); err != nil {
		return nil, err
	}
	for i, m := range moments {
		if err := f.shoot(m); err != nil {
			return nil, err
		}
		if o.Progress != nil && !o.Progress(i+1, len(moments)) {
			return nil, ErrStopped
		}
	}
	var b bytes.Buffer
	if err := gif.EncodeAll(&b, &f.out); err != nil {
		return nil, err
	}
	return b.Bytes(), nil
}

// moment is a frame to be drawn.
type moment struct {
	state   fold.State
	turning []int
	head    string // number and name
	tail    string // what it comes to
	stop    bool   // the card can't be made
	time    int    // hundredths of a second
}

// plan lays out the frames. size is the pixels of one.
func plan(p *fold.Part, r *fold.Report, size int) ([]moment, error) {
	room := min(MaxGIFFrames, maxGIFPixels/size) - 2 // but the first and last
	n := len(p.Swings)
	if n > room {
		return nil, fmt.Errorf("the run-through has %d swings; %d at most can be drawn at this size", n, room)
	}
	most := mostFrames
	if n > 0 {
		most = min(most, room/n)
	}
	out := []moment{{state: p.Flat(), head: "Flat", time: flatTime}}
	if n == 0 {
		return out, nil
	}
	for i, sw := range p.Swings {
		c := p.Card(r, i)
		m := moment{turning: sw.Bends, head: fmt.Sprintf("%d of %d  %s", c.Number, n, c.Name), stop: c.State == "stop", time: swingTime}
		way := "up"
		switch {
		case c.Mixed:
			way = "both ways"
		case !c.Up:
			way = "down"
		}
		m.tail = way + " to " + fold.ShownDegrees(c.To) + "°"
		if m.stop {
			m.tail += ", stop"
		}
		turn := 0.0
		for k := range sw.Bends {
			turn = max(turn, (2*sw.Set[k] - sw.To[k] - sw.From[k]).Degrees())
		}
		frames := max(1, min(most, max(leastFrames, int(math.Ceil(turn/degreesAFrame)))))
		for k := 1; k <= frames; k++ {
			m.state = p.StateAt(i, ease(float64(k)/float64(frames)))
			if k == frames {
				m.state, m.time = p.StateAt(i+1, 0), restTime
			}
			out = append(out, m)
		}
	}
	return append(out, moment{state: p.Finished(), head: "Finished", time: endTime}), nil
}

// ease starts a swing gently and lets it come to rest: the share of the way at a share of the time.
func ease(t float64) float64 { return t * t * (3 - 2*t) }

// film is a run-through being drawn.
type film struct {
	part   *fold.Part
	opt    RunThrough
	mesher *scene.Mesher
	pal    *scene.Palette
	cam    scene.Camera
	head   int     // height of the strip above the picture
	typ    float64 // of its type
	face   font.Face

	scene  *scene.Scene
	screen *scene.Screen
	buffer buffer
	img    *image.NRGBA
	finder *finder
	was    []uint8 // the picture as it stands, places in the palette
	out    gif.GIF
}

func (f *film) picture(m moment) scene.Picture {
	return scene.Picture{Part: f.part, State: m.state, Turning: m.turning, Dark: f.opt.Dark}
}

// aim sets the camera so that all that moves stays in view.
func (f *film) aim(moments []moment) error {
	k := min(1, float64(min(f.opt.W, f.opt.H))/300)
	f.head, f.typ = int(headPx*k), headType*k
	view := f.opt.View
	if len(moments) > 1 && view == "at the brake" { // along the first card's bend
		moments = append([]moment{moments[1]}, moments...)
	}
	s, c, err := from(f.picture(moments[0]), view, f.opt.W, f.opt.H)
	if err != nil {
		return err
	}
	c.Inset[1] = float64(f.head)
	var pts []geom.Vec3
	every := 1 + len(moments)/paletteLooks
	for i := range moments {
		if i%every != 0 && i != len(moments)-1 {
			continue
		}
		s = f.mesher.Make(f.picture(moments[i]), s)
		for k := range s.Verts {
			pts = append(pts, s.Verts[k].P)
		}
		for k := range s.Lines {
			pts = append(pts, s.Lines[k].A, s.Lines[k].B)
		}
	}
	c.FramePoints(pts)
	f.cam, f.scene = c, s
	f.img = image.NewNRGBA(image.Rect(0, 0, f.opt.W, f.opt.H))
	f.face, err = typeface(true, f.typ)
	return err
}

// draw draws a moment into f.img.
func (f *film) draw(m moment) error {
	f.scene = f.mesher.Make(f.picture(m), f.scene)
	f.scene.Labels = f.scene.Labels[:0] // the datum edges' letters belong to the sheet one marks by
	f.screen = f.scene.Project(&f.cam, f.screen)
	if err := drawInto(f.img, f.scene, f.screen, 1, &f.buffer); err != nil {
		return err
	}
	f.write(m)
	return nil
}

// write sets the card's number and name at the left of the strip, and what it comes to at the right where there is room.
func (f *film) write(m moment) {
	d := font.Drawer{Dst: f.img, Face: f.face}
	edge := fixed.I(f.head) * 2 / 5
	free := fixed.I(f.opt.W) - 2*edge
	base := fixed.Int26_6((float64(f.head)/2 + f.typ*.36) * 64)
	head, tail := m.head, m.tail
	put := func(x fixed.Int26_6, text string, c scene.Colour) {
		d.Src, d.Dot = image.NewUniform(nrgba(c)), fixed.Point26_6{X: x, Y: base}
		d.DrawString(text)
	}
	tailWide := d.MeasureString(tail)
	for d.MeasureString(head) > free-tailWide-edge && tail != "" { // a long name: what it comes to stands on the card
		tail, tailWide = "", 0
	}
	for r := []rune(head); d.MeasureString(head) > free && len(r) > 1; {
		r = r[:len(r)-1]
		head = string(r) + "…"
	}
	put(edge, head, f.pal.InkOf(scene.StyleDim))
	c := f.pal.Soft
	if m.stop {
		c = f.pal.Stop
	}
	put(fixed.I(f.opt.W)-edge-tailWide, tail, c)
}

// choose picks the colours from a few moments.
func (f *film) choose(moments []moment) error {
	t := newTally()
	every := 1 + len(moments)/paletteLooks
	for i, m := range moments {
		if i%every == 0 || i == len(moments)-1 {
			if err := f.draw(m); err != nil {
				return err
			}
			t.add(f.img)
		}
	}
	colours := t.palette(gifColours - 1)
	f.finder = newFinder(colours)
	f.out.Config = image.Config{ColorModel: append(colours, color.RGBA{}), Width: f.opt.W, Height: f.opt.H}
	return nil
}

// shoot adds a moment: what has changed since the one before, the rest of that box left as it was.
func (f *film) shoot(m moment) error {
	if err := f.draw(m); err != nil {
		return err
	}
	w, h := f.opt.W, f.opt.H
	pal := f.out.Config.ColorModel.(color.Palette)
	keep := uint8(len(pal) - 1)
	if f.was == nil {
		f.was = make([]uint8, w*h)
		for i := range f.was {
			f.was[i] = keep
		}
	}
	now := make([]uint8, w*h)
	x0, y0, x1, y1 := w, h, 0, 0
	for y := range h {
		for x := range w {
			i := y*w + x
			c := f.finder.nearest(f.img.Pix[4*i], f.img.Pix[4*i+1], f.img.Pix[4*i+2])
			if c == f.was[i] {
				now[i] = keep
				continue
			}
			now[i], f.was[i] = c, c
			x0, y0, x1, y1 = min(x0, x), min(y0, y), max(x1, x+1), max(y1, y+1)
		}
	}
	n := len(f.out.Image)
	if x0 >= x1 { // nothing has: the one before stands longer
		f.out.Delay[n-1] += m.time
		return nil
	}
	frame := image.NewPaletted(image.Rect(x0, y0, x1, y1), pal)
	for y := y0; y < y1; y++ {
		copy(frame.Pix[(y-y0)*frame.Stride:], now[y*w+x0:y*w+x1])
	}
	f.out.Image = append(f.out.Image, frame)
	f.out.Delay = append(f.out.Delay, m.time)
	f.out.Disposal = append(f.out.Disposal, gif.DisposalNone)
	return nil
}
