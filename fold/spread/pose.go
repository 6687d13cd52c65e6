package spread

// This file places the panels of a part with errors in it.

import (
	"math"

	"dryfold/fold"
)

// poser places the panels of a part, at a State, with errors.
type poser struct {
	part  *fold.Part
	c     *causes
	order []int // panels from the base outwards, each after its parent
	hinge []hinge
	state fold.State

	// As it stands with the errors last set:
	z      []float64
	t      float64 // thickness
	panels []frame
	cut    []float64 // by cut edge: how far it lies out
}

// hinge is what a bend is without errors, and with those last set.
type hinge struct {
	u, n   vec2
	su, sn float64 // of the held tangent line's point: along and across
	sigma  float64
	k      float64
	rho    float64 // neutral radius, and angle bent, as fold.Bend.Curl has them
	phi    float64

	rhoNow, phiNow, kNow, shift, sin, cos float64
}

func newPoser(p *fold.Part, c *causes, s fold.State) *poser {
	x := &poser{part: p, c: c, state: s, hinge: make([]hinge, len(p.Bends)), panels: make([]frame, len(p.Panels))}
	for i := range p.Bends {
		b := &p.Bends[i]
		rho, phi := b.Curl(s[i])
		x.hinge[i] = hinge{
			u: from2(b.U), n: from2(b.N), su: b.Q.Dot(b.U), sn: b.Q.Dot(b.N),
			sigma: b.Sigma(), k: b.K, rho: rho, phi: float64(phi),
		}
	}
	children := make([][]int, len(p.Panels))
	for k := range p.Panels {
		if b := p.Panels[k].Parent; b >= 0 {
			children[p.Bends[b].A] = append(children[p.Bends[b].A], k)
		}
	}
	x.order = append(x.order, p.Base)
	for i := 0; i < len(x.order) && len(x.order) <= len(p.Panels); i++ {
		x.order = append(x.order, children[x.order[i]]...)
	}
	return x
}

// set poses the part with errors z, in standard deviations, one for each cause; nil is none.
func (x *poser) set(z []float64) {
	p, c := x.part, x.c
	x.z = z
	off := func(k int) float64 {
		if z == nil || k < 0 {
			return 0
		}
		return z[k] * c.all[k].plus / 2
	}
	x.t = max(thinnest*p.Thickness, p.Thickness+off(c.thick))
	dk := off(c.k)
	for i := range x.hinge {
		h := &x.hinge[i]
		h.kNow = max(0, h.k+dk*c.kPlus[i])
		h.rhoNow = max(0, h.rho+(h.kNow*x.t-h.k*p.Thickness))
		h.phiNow = h.phi + off(c.angle[i])
		h.shift = off(c.line[i])
		h.sin, h.cos = math.Sincos(h.phiNow)
	}
	for len(x.cut) < len(c.cuts) {
		x.cut = append(x.cut, 0)
	}
	for i := range c.cuts {
		x.cut[i] = off(c.cuts[i].cause)
	}
	for _, k := range x.order {
		b := p.Panels[k].Parent
		if b < 0 {
			x.panels[k] = identity()
			continue
		}
		x.panels[k] = x.hinge[b].carry(&x.panels[p.Bends[b].A], x.t)
	}
}

// neutral is the neutral line's height in the sheet.
func (h *hinge) neutral(t float64) float64 {
	if h.sigma > 0 {
		return t - h.kNow*t
	}
	return h.kNow * t
}

// carry is the frame of the swinging panel, the held panel's being f: fold.Bend.Hinge with errors. A point of the
// blank lies u along the line and s across it, s from the held tangent line where that has come to lie; beyond the bend, with
// r = rho - sigma (z - zn) and tt = s - rho phi:
//
//	across = r sin phi + tt cos phi, height = zn + sigma (rho - r cos phi + tt sin phi).
func (h *hinge) carry(f *frame, t float64) frame {
	sg, zn := h.sigma, h.neutral(t)
	n := f.x.mul(h.n.x).plus(f.y, h.n.y)
	u := f.x.mul(h.u.x).plus(f.y, h.u.y)
	swung := n.mul(h.cos).plus(f.z, sg*h.sin)
	// The blank's origin: s = -sn, less the line's own shift; z = 0.
	r := h.rhoNow + sg*zn
	tt := -h.sn - h.shift - h.rhoNow*h.phiNow
	across := h.sn + h.shift + r*h.sin + tt*h.cos
	height := zn + sg*(h.rhoNow-r*h.cos+tt*h.sin)
	return frame{
		x: u.mul(h.u.x).plus(swung, h.n.x),
		y: u.mul(h.u.y).plus(swung, h.n.y),
		z: f.z.mul(h.cos).plus(n, -sg*h.sin),
		// U keeps its place along the line: Q's part of it and the origin's cancel.
		o: f.o.plus(n, across).plus(f.z, height),
	}
}

// roll is fold.Bend.Roll with errors: the zone's point u along and s across (both from the blank's origin's line and
// the held tangent line), z high, in the held panel's frame. bent tells how far it has curled, in radians.
func (h *hinge) roll(f *frame, u, s, z, t float64) vec {
	a := h.phiNow
	if h.rhoNow*a > 0 && s < h.rhoNow*a {
		a = max(s, 0) / h.rhoNow
	}
	tt := s - h.rhoNow*a
	sg, zn := h.sigma, h.neutral(t)
	r := h.rhoNow - sg*(z-zn)
	sin, cos := math.Sincos(a)
	across := h.sn + h.shift + r*sin + tt*cos
	height := zn + sg*(h.rhoNow-r*cos+tt*sin)
	n := f.x.mul(h.n.x).plus(f.y, h.n.y)
	w := f.x.mul(h.u.x).plus(f.y, h.u.y)
	return f.o.plus(w, h.su+u).plus(n, across).plus(f.z, height)
}
