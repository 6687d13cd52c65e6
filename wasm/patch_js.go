package main

// This file brings the real page into line with the elements that stand for it,
// touching only what differs: fields keep what is being typed, and the focus stays.

import (
	"syscall/js"

	"dryfold/wasm/node"
)

// live is an element on the page with the node it was made from.
type live struct {
	n    *node.Node
	el   js.Value
	kids []*live
}

// patcher keeps one root element of the page.
type patcher struct {
	root   *live
	nodes  map[int]*live
	ids    map[*live]int
	next   int
	after  func() // called after every handled event
	active *live  // has the pointer
	busy   bool   // the page is being changed: what it fires meanwhile is not the user's
}

var (
	document = js.Global().Get("document")
	window   = js.Global()
)

// eventKinds are listened for at the root; each goes to the nearest element that
// has a handler for it.
var eventKinds = []string{"click", "input", "change", "keydown", "pointerdown", "pointermove", "pointerup", "pointercancel", "focusin", "focusout"}

const svgNS = "http://www.w3.org/2000/svg"

func newPatcher(el js.Value, after func()) *patcher {
	p := &patcher{root: &live{n: &node.Node{Tag: "div"}, el: el}, nodes: map[int]*live{}, ids: map[*live]int{}, after: after}
	for _, kind := range eventKinds {
		el.Call("addEventListener", kind, js.FuncOf(func(_ js.Value, args []js.Value) any {
			p.hear(kind, args[0])
			return nil
		}))
	}
	return p
}

// hear takes an event to its handler.
func (p *patcher) hear(kind string, e js.Value) {
	if p.busy {
		return
	}
	name := kind
	switch kind {
	case "focusin":
		name = "focus"
	case "focusout":
		name = "blur"
	}
	for el := e.Get("target"); el.Truthy() && !el.Equal(p.root.el); el = el.Get("parentNode") {
		id := el.Get("dryfoldId")
		if id.Type() != js.TypeNumber {
			continue
		}
		l := p.nodes[id.Int()]
		if l == nil || l.n.On[name] == nil {
			continue
		}
		if (kind == "pointermove" || kind == "pointerup") && p.active != l {
			return
		}
		p.handle(l, name, e)
		return
	}
}

func (p *patcher) handle(l *live, name string, e js.Value) {
	ev := node.Event{Kind: name, Stop: func() { e.Call("preventDefault") }}
	if v := e.Get("target").Get("value"); v.Type() == js.TypeString {
		ev.Value = v.String()
	}
	switch name {
	case "keydown":
		ev.Key = e.Get("key").String()
		ev.Shift, ev.Alt, ev.Ctrl = e.Get("shiftKey").Bool(), e.Get("altKey").Bool(), e.Get("ctrlKey").Bool()
	case "pointerdown", "pointermove", "pointerup", "pointercancel":
		frame := l.el
		if svg := l.el.Get("ownerSVGElement"); svg.Truthy() {
			frame = svg
		}
		r := frame.Call("getBoundingClientRect")
		x, y := e.Get("clientX").Float(), e.Get("clientY").Float()
		ev.X, ev.Y = x-r.Get("left").Float(), y-r.Get("top").Float()
		ev.W, ev.H = r.Get("width").Float(), r.Get("height").Float()
		ev.Touch = e.Get("pointerType").String() == "touch"
		switch name {
		case "pointerdown":
			if e.Get("button").Int() != 0 {
				return
			}
			p.active = l
			l.el.Call("setPointerCapture", e.Get("pointerId"))
		case "pointermove":
			if under := document.Call("elementFromPoint", x, y); under.Truthy() {
				if at := under.Call("closest", "[data-at]"); at.Truthy() {
					ev.Over = at.Call("getAttribute", "data-at").String()
				}
			}
		default:
			p.active = nil
		}
	case "change", "input":
		// What was typed stands in the field now: it is put right if the session says otherwise.
		for i, a := range l.n.Attrs {
			if a.Name == "value" {
				l.n.Attrs[i].Value = ev.Value
			}
		}
	}
	l.n.On[name](ev)
	p.after()
}

// patch makes the root's content be nodes.
func (p *patcher) patch(nodes []*node.Node) {
	list := make([]*node.Node, 0, len(nodes))
	for _, n := range nodes {
		if n != nil {
			list = append(list, n)
		}
	}
	p.busy = true
	defer func() { p.busy = false }()
	p.kids(p.root, list, false)
}

func (p *patcher) kids(parent *live, next []*node.Node, svg bool) {
	keyed := map[string]*live{}
	var plain []*live
	for _, k := range parent.kids {
		if k.n.Key != "" {
			keyed[k.n.Key] = k
		} else {
			plain = append(plain, k)
		}
	}
	out := make([]*live, len(next))
	used := map[*live]bool{}
	for i, n := range next {
		var l *live
		if n.Key != "" {
			if k := keyed[n.Key]; k != nil && k.n.Tag == n.Tag && !used[k] {
				l = k
			}
		} else {
			for j, k := range plain {
				if k.n.Tag == n.Tag {
					l, plain = k, plain[j+1:]
					break
				}
			}
		}
		if l == nil {
			l = p.make(n, svg)
		} else {
			p.bring(l, n, svg)
		}
		used[l] = true
		out[i] = l
	}
	for _, k := range parent.kids {
		if !used[k] {
			p.forget(k)
			parent.el.Call("removeChild", k.el)
		}
	}
	if samePlaces(parent.kids, out) {
		return
	}
	// Put what isn't in its place there, from the end.
	var before js.Value = js.Null()
	for i := len(out) - 1; i >= 0; i-- {
		el := out[i].el
		if sib := el.Get("nextSibling"); !el.Get("parentNode").Equal(parent.el) || !same(sib, before) {
			parent.el.Call("insertBefore", el, before)
		}
		before = el
	}
	parent.kids = out
}

// samePlaces reports whether the elements stand already as they are to stand: asking the browser takes a good part of an edit's time.
func samePlaces(was, now []*live) bool {
	if len(was) != len(now) {
		return false
	}
	for i := range was {
		if was[i] != now[i] {
			return false
		}
	}
	return true
}

func same(a, b js.Value) bool {
	if !a.Truthy() || !b.Truthy() {
		return !a.Truthy() && !b.Truthy()
	}
	return a.Equal(b)
}

func (p *patcher) make(n *node.Node, svg bool) *live {
	l := &live{n: &node.Node{Tag: n.Tag, Key: n.Key}}
	switch {
	case n.Tag == "#":
		l.el = document.Call("createTextNode", n.Text)
		l.n = n
		return l
	case svg || n.Tag == "svg":
		l.el = document.Call("createElementNS", svgNS, n.Tag)
	default:
		l.el = document.Call("createElement", n.Tag)
	}
	p.bring(l, n, svg)
	if n.Has("data-focus") {
		window.Call("setTimeout", js.FuncOf(func(js.Value, []js.Value) any {
			l.el.Call("focus")
			l.el.Call("select")
			return nil
		}), 0)
	}
	return l
}

// bring makes an element be what n says.
func (p *patcher) bring(l *live, n *node.Node, svg bool) {
	old := l.n
	if n.Tag == "#" {
		if old.Text != n.Text {
			l.el.Set("nodeValue", n.Text)
		}
		l.n = n
		return
	}
	svg = svg || n.Tag == "svg"
	for _, a := range old.Attrs {
		if !n.Has(a.Name) && a.Name != "value" {
			if a.Name == "style" {
				l.el.Get("style").Set("cssText", "")
			}
			l.el.Call("removeAttribute", a.Name)
		}
	}
	for _, a := range n.Attrs {
		if old.Has(a.Name) && old.Get(a.Name) == a.Value || a.Name == "value" {
			continue
		}
		switch a.Name {
		case "style":
			l.el.Get("style").Set("cssText", a.Value)
		default:
			l.el.Call("setAttribute", a.Name, a.Value)
		}
	}
	if len(n.On) > 0 {
		id, ok := p.ids[l]
		if !ok {
			p.next++
			id = p.next
			p.ids[l] = id
			p.nodes[id] = l
			l.el.Set("dryfoldId", id)
		}
	}
	wasValue, hadValue := old.Get("value"), old.Has("value")
	l.n = n
	p.kids(l, n.Kids, svg && n.Tag != "foreignObject")
	// A field's value comes last: a list needs its options, a range its ends.
	if n.Has("value") && !svg {
		if v := n.Get("value"); !hadValue || v != wasValue {
			if n.Tag == "option" {
				l.el.Call("setAttribute", "value", v)
			} else {
				l.el.Set("value", v)
			}
		}
	}
}

// forget lets go of an element's handlers and of those in it.
func (p *patcher) forget(l *live) {
	if id, ok := p.ids[l]; ok {
		delete(p.nodes, id)
		delete(p.ids, l)
	}
	if p.active == l {
		p.active = nil
	}
	for _, k := range l.kids {
		p.forget(k)
	}
}
