// Package node is a small tree of page elements as plain values: what should
// stand on the page, and what is to be done when it is touched. It is built and
// tested natively; the page's glue brings the real page into line with it.
// Text only ever becomes text: there is no way to put markup in.
package node

import "strings"

// Node is one element. Key, where set, names it among its sisters so that it
// stays the same element when they move.
type Node struct {
	Tag   string
	Key   string
	Text  string // the text inside; set only where Kids is empty
	Attrs []Attr // in the order given
	On    map[string]func(Event)
	Kids  []*Node
}

// Attr is an attribute. The value of "value" and "checked" goes to the field's
// state; a name with an empty Value and On false is left off.
type Attr struct {
	Name, Value string
	Off         bool
}

// Event is what a handler is told: the field's value, the key, and for pointers
// the place in the element that has the handler, in CSS px from its upper left
// corner, with the element's own size.
type Event struct {
	Kind             string
	Value            string
	Key              string
	Shift, Alt, Ctrl bool
	X, Y, W, H       float64
	Touch            bool
	Over             string // the nearest data-at under the pointer; "" if none
	Stop             func() // keeps the browser from doing what it would do; never nil
}

// Handler is an argument of E: what is done on an event.
type Handler struct {
	Kind string
	Do   func(Event)
}

// A gives an attribute. It and its sisters below are not inlined: the page's program has thousands
// of calls of them, and is a good deal smaller so.
//
//go:noinline
func A(name, value string) any { return Attr{Name: name, Value: value} }

// If gives an attribute without a value, present only when on.
//
//go:noinline
func If(name string, on bool) any { return Attr{Name: name, Off: !on} }

// On gives a handler for an event kind.
//
//go:noinline
func On(kind string, do func(Event)) any { return Handler{kind, do} }

// Click gives a handler for a tap, a click or Enter.
//
//go:noinline
func Click(do func()) any { return Handler{"click", func(Event) { do() }} }

// Key names the node among its sisters.
type Key string

// E makes a node from "tag.class.class" and its parts in any order: a string is
// text, a Node or list of Nodes is put in, an Attr or Handler is set, nil is
// passed over. Text beside other nodes stands in a span of its own.
func E(sel string, parts ...any) *Node {
	tag, classes, _ := strings.Cut(sel, ".")
	n := &Node{Tag: tag}
	if classes != "" {
		n.Attrs = append(n.Attrs, Attr{Name: "class", Value: strings.ReplaceAll(classes, ".", " ")})
	}
	for _, p := range parts {
		switch p := p.(type) {
		case nil:
		case string:
			if p != "" {
				n.Kids = append(n.Kids, &Node{Tag: "#", Text: p})
			}
		case *Node:
			if p != nil {
				n.Kids = append(n.Kids, p)
			}
		case []*Node:
			for _, k := range p {
				if k != nil {
					n.Kids = append(n.Kids, k)
				}
			}
		case Attr:
			if !p.Off {
				n.Attrs = append(n.Attrs, p)
			}
		case Key:
			n.Key = string(p)
		case Handler:
			if n.On == nil {
				n.On = map[string]func(Event){}
			}
			n.On[p.Kind] = p.Do
		default:
			panic("node: E was given something that is no part of an element")
		}
	}
	return n
}

// Get gives an attribute's value, "" if it is not there.
func (n *Node) Get(name string) string {
	for _, a := range n.Attrs {
		if a.Name == name {
			return a.Value
		}
	}
	return ""
}

// Has reports whether the attribute is there.
func (n *Node) Has(name string) bool {
	for _, a := range n.Attrs {
		if a.Name == name {
			return true
		}
	}
	return false
}

// Words gives all the text in the node, parts separated by single spaces.
func (n *Node) Words() string {
	var b strings.Builder
	n.Walk(func(k *Node) bool {
		if k.Tag == "#" {
			if b.Len() > 0 {
				b.WriteByte(' ')
			}
			b.WriteString(strings.TrimSpace(k.Text))
		}
		return true
	})
	return b.String()
}

// Walk calls f on the node and on all nodes in it, top down, until f says no.
func (n *Node) Walk(f func(*Node) bool) bool {
	if !f(n) {
		return false
	}
	for _, k := range n.Kids {
		if !k.Walk(f) {
			return false
		}
	}
	return true
}

// Find gives the first node of which f is true, nil if there is none.
func (n *Node) Find(f func(*Node) bool) *Node {
	var found *Node
	n.Walk(func(k *Node) bool {
		if f(k) {
			found = k
		}
		return found == nil
	})
	return found
}
