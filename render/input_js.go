//go:build js

package render

import (
	"math"
	"syscall/js"
	"time"

	"dryfold/render/scene"
)

// This file reads the canvas's own pointer, wheel and key events. One pointer on a
// panel that may be swung swings it, elsewhere it turns the view; two pan and pinch;
// the right or middle button, or shift, pans. Arrows turn, + and - zoom, f frames.

const (
	doubleTap   = 350 * time.Millisecond // two taps within this time
	doubleReach = 24                     // and this far apart (px) are a double tap
	keyTurn     = 24                     // a key press turns as far as a drag of this many px
	keyZoom     = 1.15
)

type pointer struct {
	id           int
	x, y, x0, y0 float64
}

type input struct {
	canvas   js.Value
	pointers []pointer // in the order they came down
	hit      scene.Hit // under the first when it came down
	drag     scene.Drag
	moved    bool // the gesture is no tap any more
	swinging bool
	sizing   bool           // a size is dragged by its handle
	size     scene.SizeDrag // this one,
	sizeBy   float64        // by so much so far
	panning  bool
	tapAt    time.Time
	tapX     float64
	tapY     float64
	cursor   string
}

// listen attaches the canvas's listeners. Ebitengine's own are cut off: it would
// draw at every mouse move and swallow every key.
func (v *View) listen() {
	doc, window := js.Global().Get("document"), js.Global()
	v.input.canvas = doc.Call("querySelector", "canvas")
	c := v.input.canvas
	c.Get("style").Set("touchAction", "none")
	on := func(what string, do func(e js.Value)) {
		f := js.FuncOf(func(_ js.Value, args []js.Value) any {
			do(args[0])
			return nil
		})
		c.Call("addEventListener", what, f, map[string]any{"passive": false})
	}
	stop := js.FuncOf(func(_ js.Value, args []js.Value) any {
		if e := args[0]; e.Get("target").Equal(c) {
			switch e.Get("type").String() {
			case "mousedown":
				c.Call("focus", map[string]any{"preventScroll": true})
			case "wheel":
				v.wheel(e)
			case "keydown":
				v.key(e)
			}
			e.Call("stopImmediatePropagation")
		}
		return nil
	})
	for _, what := range []string{"mousedown", "mouseup", "mousemove", "wheel", "touchstart", "touchmove", "touchend", "keydown", "keyup"} {
		window.Call("addEventListener", what, stop, map[string]any{"capture": true, "passive": false})
	}
	on("pointerdown", v.down)
	on("pointermove", v.move)
	on("pointerup", func(e js.Value) { v.up(e, false) })
	on("pointercancel", func(e js.Value) { v.up(e, true) })
}

// place is an event's place on the canvas, CSS px.
func (v *View) place(e js.Value) (x, y float64) {
	r := v.input.canvas.Call("getBoundingClientRect")
	return e.Get("clientX").Float() - r.Get("left").Float(), e.Get("clientY").Float() - r.Get("top").Float()
}

func (v *View) down(e js.Value) {
	in := &v.input
	x, y := v.place(e)
	in.canvas.Call("focus", map[string]any{"preventScroll": true})
	id := e.Get("pointerId").Int()
	capture(in.canvas, id)
	in.pointers = append(in.pointers, pointer{id, x, y, x, y})
	switch len(in.pointers) {
	case 1:
		b := e.Get("button").Int()
		in.hit, in.moved, in.swinging, in.sizing = v.Hit(x, y), false, false, false
		in.panning = b == 1 || b == 2 || e.Get("shiftKey").Bool()
	case 2:
		v.endSwing()
		v.endSize()
		in.moved = true
	}
}

// capture keeps a pointer's events coming when it leaves the canvas. One that is
// already gone again can't be captured, which is no harm.
func capture(canvas js.Value, id int) {
	defer func() { _ = recover() }()
	canvas.Call("setPointerCapture", id)
}

func (v *View) move(e js.Value) {
	in := &v.input
	x, y := v.place(e)
	if len(in.pointers) == 0 {
		if e.Get("pointerType").String() == "mouse" {
			v.hover(x, y)
		}
		return
	}
	id := e.Get("pointerId").Int()
	for i := range in.pointers {
		p := &in.pointers[i]
		if p.id != id {
			continue
		}
		old := *p
		p.x, p.y = x, y
		switch {
		case len(in.pointers) == 1:
			v.dragOne(p, old)
		case i < 2:
			v.pinch(i, old)
		}
		return
	}
}

// dragOne is a move of the only pointer: swing, pan or orbit.
func (v *View) dragOne(p *pointer, old pointer) {
	in := &v.input
	if !in.moved {
		if math.Hypot(p.x-p.x0, p.y-p.y0) < scene.DragTravel {
			return
		}
		in.moved = true
		old.x, old.y = p.x0, p.y0
		switch {
		case in.panning:
		case in.hit.Mark >= 0:
			v.startSize()
		case in.hit.Swings >= 0:
			in.swinging = true
			in.drag = v.fresh().StartDrag(in.hit)
		}
	}
	switch {
	case in.swinging:
		v.swing(p.x, p.y, false)
	case in.sizing:
		v.sizeTo(p.x, p.y)
	case v.locked:
	case in.panning:
		v.camera.Pan(p.x-old.x, p.y-old.y)
		v.turned()
	default:
		v.camera.Orbit(p.x-old.x, p.y-old.y)
		v.turned()
	}
}

// turned tells of a view changed by hand.
func (v *View) turned() {
	v.framed = false
	v.change()
	if v.cb.OnCamera != nil {
		v.cb.OnCamera()
	}
}

func (v *View) swing(x, y float64, done bool) {
	s := v.fresh()
	p := s.Picture.Part
	b := v.input.drag.Bend
	if p == nil || b < 0 || b >= len(p.Bends) || b >= len(s.Pose.State) {
		return
	}
	_, now := p.Bends[b].Curl(s.Pose.State[b])
	a := s.AngleAt(&v.camera, v.input.drag, now, p.Bends[b].Set, x, y)
	if v.cb.OnSwing != nil {
		v.cb.OnSwing(b, a, done)
	}
}

func (v *View) endSwing() {
	in := &v.input
	if in.swinging && len(in.pointers) > 0 {
		in.swinging = false
		v.swing(in.pointers[0].x, in.pointers[0].y, true)
	}
}

// startSize takes the handle in hand that was touched, where the view shows which way it goes.
func (v *View) startSize() {
	in, s := &v.input, v.fresh()
	p := in.pointers[0]
	if in.hit.Mark >= len(s.Picture.Sizes) {
		return
	}
	in.size, in.sizing = s.StartSize(&v.camera, in.hit, p.x0, p.y0)
	in.sizeBy = 0
}

func (v *View) sizeTo(x, y float64) {
	in := &v.input
	if !in.sizing || v.cb.OnSize == nil {
		return
	}
	if by, ok := in.size.SizeAt(x, y); ok && by != in.sizeBy {
		in.sizeBy = by
		v.cb.OnSize(in.size.Path, by, false)
	}
}

// endSize lets go of the handle: what waited for that is framed.
func (v *View) endSize() {
	in := &v.input
	if !in.sizing {
		return
	}
	in.sizing = false
	if v.cb.OnSize != nil {
		v.cb.OnSize(in.size.Path, in.sizeBy, true)
	}
	if size := v.held; size > 0 && !v.locked && (v.framed || outgrown(size, v.fresh().Size())) {
		v.FrameAll()
	}
	v.held = 0
}

// pinch is a move of one of two pointers: their middle pans, their distance zooms.
func (v *View) pinch(i int, old pointer) {
	if v.locked {
		return
	}
	a, b := v.input.pointers[0], v.input.pointers[1]
	was := [2]pointer{a, b}
	was[i] = old
	v.camera.Pan((a.x+b.x-was[0].x-was[1].x)/2, (a.y+b.y-was[0].y-was[1].y)/2)
	d0, d1 := math.Hypot(was[0].x-was[1].x, was[0].y-was[1].y), math.Hypot(a.x-b.x, a.y-b.y)
	if d0 > 1 && d1 > 1 {
		v.camera.Zoom(d1/d0, (a.x+b.x)/2, (a.y+b.y)/2, v.fresh().Size())
	}
	v.turned()
}

func (v *View) up(e js.Value, cancelled bool) {
	in := &v.input
	id := e.Get("pointerId").Int()
	for i, p := range in.pointers {
		if p.id != id {
			continue
		}
		if i == 0 {
			v.endSwing()
			v.endSize()
		}
		tap := len(in.pointers) == 1 && !in.moved && !cancelled && !in.panning
		in.pointers = append(in.pointers[:i], in.pointers[i+1:]...)
		if tap {
			v.tap(p.x0, p.y0)
		}
		return
	}
}

func (v *View) tap(x, y float64) {
	in := &v.input
	now := time.Now()
	if now.Sub(in.tapAt) < doubleTap && math.Hypot(x-in.tapX, y-in.tapY) < doubleReach {
		in.tapAt = time.Time{}
		if !v.locked {
			v.FrameAll()
		}
		if v.cb.OnDoubleTap != nil {
			v.cb.OnDoubleTap(in.hit)
		}
		return
	}
	in.tapAt, in.tapX, in.tapY = now, x, y
	if v.cb.OnTap != nil {
		v.cb.OnTap(in.hit)
	}
}

// hover shows by the cursor that a panel can be swung.
func (v *View) hover(x, y float64) {
	c := "default"
	switch h := v.Hit(x, y); {
	case h.Swings >= 0, h.Mark >= 0:
		c = "grab"
	case h.Kind != scene.None:
		c = "pointer"
	}
	if c != v.input.cursor {
		v.input.cursor = c
		v.input.canvas.Get("style").Set("cursor", c)
	}
}

func (v *View) wheel(e js.Value) {
	e.Call("preventDefault")
	if v.locked {
		return
	}
	dy := e.Get("deltaY").Float()
	switch e.Get("deltaMode").Int() {
	case 1: // lines
		dy *= 16
	case 2: // pages
		dy *= 400
	}
	if e.Get("ctrlKey").Bool() { // a pinch on a touch pad comes in small steps
		dy *= 6
	}
	x, y := v.place(e)
	v.camera.Zoom(math.Exp2(-max(-600, min(600, dy))/400), x, y, v.fresh().Size())
	v.turned()
}

// key handles the bench's own keys and leaves all others to the browser.
func (v *View) key(e js.Value) {
	if e.Get("ctrlKey").Bool() || e.Get("metaKey").Bool() || e.Get("altKey").Bool() {
		return
	}
	key := e.Get("key").String()
	if v.locked && key != "f" && key != "F" {
		return
	}
	cx, cy := v.camera.Middle()
	switch key {
	case "ArrowLeft":
		v.camera.Orbit(-keyTurn, 0)
	case "ArrowRight":
		v.camera.Orbit(keyTurn, 0)
	case "ArrowUp":
		v.camera.Orbit(0, -keyTurn)
	case "ArrowDown":
		v.camera.Orbit(0, keyTurn)
	case "+", "=":
		v.camera.Zoom(keyZoom, cx, cy, v.fresh().Size())
	case "-", "_":
		v.camera.Zoom(1/keyZoom, cx, cy, v.fresh().Size())
	case "f", "F":
		e.Call("preventDefault")
		if !v.locked {
			v.FrameAll()
		}
		return
	default:
		return
	}
	e.Call("preventDefault")
	v.turned()
}
