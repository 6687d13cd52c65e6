package spread

// This file holds the small vectors that the samples are reckoned with: structs, which the compiler keeps in
// registers, where geom's arrays live in memory.

import (
	"math"

	"dryfold/fold/geom"
)

type vec2 struct{ x, y float64 }

type vec struct{ x, y, z float64 }

func (a vec2) sub(b vec2) vec2             { return vec2{a.x - b.x, a.y - b.y} }
func (a vec2) plus(b vec2, k float64) vec2 { return vec2{a.x + k*b.x, a.y + k*b.y} }
func (a vec2) dot(b vec2) float64          { return a.x*b.x + a.y*b.y }
func (a vec2) cross(b vec2) float64        { return a.x*b.y - a.y*b.x }
func (a vec2) unit() vec2                  { l := math.Sqrt(a.dot(a)); return vec2{a.x / l, a.y / l} }
func (a vec) add(b vec) vec                { return vec{a.x + b.x, a.y + b.y, a.z + b.z} }
func (a vec) sub(b vec) vec                { return vec{a.x - b.x, a.y - b.y, a.z - b.z} }
func (a vec) plus(b vec, k float64) vec    { return vec{a.x + k*b.x, a.y + k*b.y, a.z + k*b.z} }
func (a vec) mul(k float64) vec            { return vec{k * a.x, k * a.y, k * a.z} }
func (a vec) dot(b vec) float64            { return a.x*b.x + a.y*b.y + a.z*b.z }
func (a vec) len() float64                 { return math.Sqrt(a.dot(a)) }
func (a vec) cross(b vec) vec              { return vec{a.y*b.z - a.z*b.y, a.z*b.x - a.x*b.z, a.x*b.y - a.y*b.x} }
func (a vec) unit() vec                    { return a.mul(1 / a.len()) }
func (a vec) at(k int) float64 {
	switch k {
	case 0:
		return a.x
	case 1:
		return a.y
	}
	return a.z
}

func from2(v geom.Vec2) vec2  { return vec2{v[0], v[1]} }
func from3(v geom.Vec3) vec   { return vec{v[0], v[1], v[2]} }
func (a vec) geom() geom.Vec3 { return geom.Vec3{a.x, a.y, a.z} }

// frame is geom.Frame in structs: local (x, y, z) lies at o + x*X + y*Y + z*Z.
type frame struct{ x, y, z, o vec }

func (f *frame) vector(v vec) vec {
	return vec{
		f.x.x*v.x + f.y.x*v.y + f.z.x*v.z,
		f.x.y*v.x + f.y.y*v.y + f.z.y*v.z,
		f.x.z*v.x + f.y.z*v.y + f.z.z*v.z,
	}
}

func (f *frame) point(v vec) vec { return f.vector(v).add(f.o) }

func (f *frame) localVector(v vec) vec { return vec{f.x.dot(v), f.y.dot(v), f.z.dot(v)} }

func (f *frame) localPoint(v vec) vec { return f.localVector(v.sub(f.o)) }

// in is frame g, given in space, in f's coordinates.
func (f *frame) in(g *frame) frame {
	return frame{f.localVector(g.x), f.localVector(g.y), f.localVector(g.z), f.localPoint(g.o)}
}

// back is the frame that undoes f.
func (f *frame) back() frame {
	return frame{
		vec{f.x.x, f.y.x, f.z.x}, vec{f.x.y, f.y.y, f.z.y}, vec{f.x.z, f.y.z, f.z.z},
		f.localVector(f.o).mul(-1),
	}
}

func identity() frame { return frame{x: vec{1, 0, 0}, y: vec{0, 1, 0}, z: vec{0, 0, 1}} }
