package screen

// This file draws the swing arc: the leaf's travel as a protractor, seen along
// the bend line, with a grip that a finger or the arrow keys move.

import (
	"fmt"
	"math"
	"strings"

	"dryfold/fold/geom"
	"dryfold/wasm/node"
	"dryfold/wasm/session"
)

// wideArc: past this angle (degrees) the arc reaches over to the held side and
// takes the card's whole width.
const wideArc = 100

// reach is how near to the arc a finger must come down to take the leaf, CSS px.
const reach = 22

// arcBox is the arc's frame in its drawing, CSS px.
type arcBox struct {
	w, h   float64
	px, py float64 // the bend
	r      float64 // of the arc
}

// pastEnd is how far the arc's track goes on past where the leaf is stopped, degrees.
const pastEnd = 3

// arcTop is the greatest angle that the arc of a card has to show.
func arcTop(k session.Card) float64 {
	top := k.Set
	if k.Foul != nil {
		top = max(top, k.Foul.Angle)
	}
	return top
}

func boxFor(to float64) arcBox {
	if to > wideArc {
		b := arcBox{w: 300, px: 150, py: 142, r: 104}
		b.h = b.py + 34
		if to > 180 {
			b.h = b.py + b.r*math.Sin((to-180)*math.Pi/180) + 26
		}
		return b
	}
	return arcBox{w: 200, h: 188, px: 36, py: 158, r: 114}
}

// letter is about how wide a letter of the arc's words is, CSS px.
const letter = 8.5

// whole is an angle as a protractor reads it.
func whole(deg float64) string { return session.Degrees(math.Round(deg)) + "°" }

func (b arcBox) at(deg, r float64) (x, y float64) {
	s, c := math.Sincos(deg * math.Pi / 180)
	return b.px + r*c, b.py - r*s
}

func (b arcBox) ray(deg, r0, r1 float64) string {
	x0, y0 := b.at(deg, r0)
	x1, y1 := b.at(deg, r1)
	return fmt.Sprintf("M%.1f %.1fL%.1f %.1f", x0, y0, x1, y1)
}

func (b arcBox) sweep(from, to, r float64) string {
	if to-from < 0.05 {
		return ""
	}
	x0, y0 := b.at(from, r)
	x1, y1 := b.at(to, r)
	large := 0
	if to-from > 180 {
		large = 1
	}
	return fmt.Sprintf("M%.1f %.1fA%g %g 0 %d 0 %.1f %.1f", x0, y0, r, r, large, x1, y1)
}

// angleAt is the leaf's angle for a place in the drawing, nearest to the angle now.
func (b arcBox) angleAt(x, y, now float64) float64 {
	a := math.Atan2(b.py-y, x-b.px) * 180 / math.Pi
	for a-now > 180 {
		a -= 360
	}
	for a-now < -180 {
		a += 360
	}
	return a
}

// arc is the open card's swing arc.
func (c *Screen) arc(k session.Card) *node.Node {
	b := boxFor(arcTop(k))
	n := node.E("svg.arc", node.A("viewBox", fmt.Sprintf("0 0 %g %g", b.w, b.h)), node.A("width", fmt.Sprint(b.w)), node.A("height", fmt.Sprint(b.h)))
	path := func(cls, d string) {
		if d != "" {
			put(n, node.E("path."+cls, node.A("d", d)))
		}
	}
	text := func(cls, words string, deg, r float64) {
		x, y := b.at(deg, r)
		wide := letter * float64(len([]rune(words)))
		anchor := "middle" // words stand outside the arc, and within the drawing
		switch cos := math.Cos(deg * math.Pi / 180); {
		case cos > 0.25:
			anchor, x = "start", min(x, b.w-wide)
		case cos < -0.25:
			anchor, x = "end", max(x, wide)
		default:
			x = max(x, wide/2)
		}
		if deg > 165 && deg < 195 { // beside the end of a half turn there is no room
			y += 18
		}
		put(n, node.E("text"+cls, node.A("x", fmt.Sprintf("%.1f", x)), node.A("y", fmt.Sprintf("%.1f", y+5)), node.A("text-anchor", anchor), words))
	}
	// The protractor: its track, a tick every ten degrees.
	past := 0.0
	if k.Set > k.To {
		past = pastEnd
	}
	path("tr", b.sweep(k.From, k.Set+past, b.r))
	for d := math.Ceil(k.From/10) * 10; d <= k.Set+1e-9; d += 10 {
		in := 5.0
		if math.Mod(d, 30) == 0 {
			in = 9
		}
		path("tk", b.ray(d, b.r-in, b.r))
	}
	watch := k.Foul != nil && k.Foul.Overbend
	if k.Foul != nil && k.Foul.Angle < k.Set {
		path(shade("hatch", watch), hatch(b, k.Foul.Angle, k.Set))
	}
	path("go", b.sweep(k.From, k.At, b.r))
	// The nose holds the sheet; the sheet lies on the bed and follows the leaf.
	held := 34.0
	path("nose", fmt.Sprintf("M%.1f %.1fh%gl14 14v3h-%gZ", b.px-held, b.py-22, held-20, held-6))
	x, y := b.at(k.At, b.r-18)
	path("leaf", b.ray(k.At, 12, b.r-14))
	path("sheet", fmt.Sprintf("M%.1f %.1fH%.1fL%.1f %.1f", b.px-held, b.py, b.px, x, y))
	near := func(a, b float64) bool { return math.Abs(a-b) < 15 }
	// Where it is stopped, where the metal springs back to, where something fouls.
	path("end", b.ray(k.Set, b.r-7, b.r+7))
	if k.Set > k.To {
		path("gl", b.ray(k.To, 24, b.r-4))
		path("back", b.ray(k.To, b.r-5, b.r+5))
		if at := k.To - 9; !near(k.At, at) {
			text(".sm", session.Degrees(k.To)+"°", at, b.r*0.7)
		}
	}
	fouls := k.Foul != nil
	if !near(k.At, k.Set) && !(fouls && near(k.Foul.Angle, k.Set)) {
		word := "stop "
		if k.Set == k.To {
			word = ""
		}
		text("", word+k.StopAt()+"°", k.Set, b.r+20)
	}
	if fouls {
		path(shade("foul", watch), b.ray(k.Foul.Angle, b.r-14, b.r+12))
		cls := ".red"
		if watch {
			cls = ".amber"
		}
		off := 20.0
		if near(k.At, k.Foul.Angle) { // past the grip
			off = 34
		}
		text(cls, "fouls "+whole(k.Foul.Angle), k.Foul.Angle, b.r+off)
	}
	if k.At > k.From+14 {
		x, y := b.at(k.From-9, b.r+2)
		put(n, node.E("text.sm", node.A("x", fmt.Sprintf("%.1f", x)), node.A("y", fmt.Sprintf("%.1f", y+5)), node.A("text-anchor", "middle"), session.Degrees(k.From)+"°"))
	}
	now := leafAngle(k)
	if !fouls || !near(k.At, k.Foul.Angle) { // there the foul's own words say it
		text(".acc", now, k.At, b.r+26)
	}
	// The grip, and the arc around it that a finger may come down on.
	gx, gy := b.at(k.At, b.r)
	turn := func(e node.Event) {
		if e.W <= 0 || e.H <= 0 {
			return
		}
		a := b.angleAt(e.X*b.w/e.W, e.Y*b.h/e.H, k.At)
		c.S.Turn(geom.Degrees(min(max(a, k.From), k.Set)))
	}
	grab := node.E("g.grab", node.Key("grab"), node.A("tabindex", "0"), node.A("role", "slider"), node.A("aria-label", "Swing arc: the leaf’s angle"),
		node.A("aria-valuemin", session.Degrees(k.From)), node.A("aria-valuemax", session.Degrees(k.Set)), node.A("aria-valuenow", session.Degrees(k.At)),
		node.A("aria-valuetext", arcWords(k)),
		node.E("path.track", node.A("d", b.sweep(k.From, max(k.Set, k.From+1), b.r)), node.A("stroke-width", fmt.Sprint(2*reach))),
		node.E("circle.hit", node.A("cx", fmt.Sprintf("%.1f", gx)), node.A("cy", fmt.Sprintf("%.1f", gy)), node.A("r", fmt.Sprint(reach))),
		node.E("circle.grip", node.A("cx", fmt.Sprintf("%.1f", gx)), node.A("cy", fmt.Sprintf("%.1f", gy)), node.A("r", "16")),
		node.E("path.gr", node.A("d", fmt.Sprintf("M%.1f %.1fl8 -5M%.1f %.1fl8 -5M%.1f %.1fl8 -5", gx-4, gy-1.5, gx-4, gy+2.5, gx-4, gy+6.5))),
		node.On("pointerdown", func(e node.Event) { e.Stop(); turn(e) }),
		node.On("pointermove", turn),
		node.On("pointerup", func(node.Event) { c.S.LetGo() }),
		node.On("keydown", func(e node.Event) { c.arcKey(k, e) }))
	put(n, grab)
	return n
}

// hatch is the stretch of the arc beyond a foul.
func hatch(b arcBox, from, to float64) string {
	var d strings.Builder
	for a := from; a < to; a += 2.5 {
		x0, y0 := b.at(a, b.r-6)
		x1, y1 := b.at(a+3, b.r+6)
		fmt.Fprintf(&d, "M%.1f %.1fL%.1f %.1f", x0, y0, x1, y1)
	}
	return d.String()
}

// shade is a class of the drawing, in the watch colour or its own.
func shade(class string, watch bool) string {
	if watch {
		return class + ".warn"
	}
	return class
}

func arcWords(k session.Card) string {
	w := session.Degrees(k.At) + " degrees of " + session.Degrees(k.To)
	if k.Set > k.To {
		switch {
		case k.Stage == session.Done:
			w = session.Degrees(k.To) + " degrees, let go"
		case k.Back:
			w = session.Degrees(k.At) + " degrees, springing back to " + session.Degrees(k.To)
		default:
			w = session.Degrees(k.At) + " degrees on the leaf, of " + session.Degrees(k.Set) + "; springs back to " + session.Degrees(k.To)
		}
	}
	if k.Foul != nil {
		w += ", fouls at " + whole(k.Foul.Angle)
		if k.Foul.Overbend {
			w += " on overbend"
		}
	}
	return w
}

// arcKey moves the leaf by keyboard: arrows a degree, page keys ten, Home and End to the ends. Where the
// leaf is stopped, a further step lets it go.
func (c *Screen) arcKey(k session.Card, e node.Event) {
	if e.Alt || e.Ctrl {
		return
	}
	a := k.At
	switch e.Key {
	case "ArrowUp", "ArrowRight":
		a = math.Floor(a+1e-6) + 1
	case "ArrowDown", "ArrowLeft":
		a = math.Ceil(a-1e-6) - 1
	case "PageUp":
		a += 10
	case "PageDown":
		a -= 10
	case "Home":
		a = k.From
	case "End":
		a = k.Set
	default:
		return
	}
	e.Stop()
	switch {
	case a > k.At && k.Stage == session.Done: // it is done
	case a > k.At && (k.Back || k.At >= k.Set-1e-6), e.Key == "End":
		c.S.Turn(geom.Degrees(k.Set))
		c.S.LetGo()
	default:
		c.S.Turn(geom.Degrees(min(max(a, k.From), k.Set)))
	}
}
