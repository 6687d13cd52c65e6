package solid

import (
	"math"
	"slices"

	"dryfold/fold/geom"
)

// Convex is a convex body in space. Points are its corners. Make one with Prism or
// Frustum; the zero value holds nothing and must not be measured.
type Convex struct {
	Points  []geom.Vec3
	Normals []geom.Vec3 // unit, one for each face direction, outwards (opposite ones both listed)
	Dirs    []geom.Vec3 // unit edge directions, parallel ones once where that is known
	Tris    [][3]int32  // faces as triangles, counter-clockwise from outside
	Edges   [][2]int32

	Centre geom.Vec3 // of a ball that holds the body
	Radius float64

	loop   int     // of a Prism: how many corners its loop has; they come first in Points, the upper ones after
	across []int32 // Normals without those that are another's but for the sign; nil: not known
}

// bound sets the ball: about the middle of the box.
func (c *Convex) bound() {
	box := geom.EmptyBox3()
	for _, p := range c.Points {
		box.Add(p)
	}
	c.Centre = box.Min.Add(box.Max).Mul(0.5)
	r2 := 0.0
	for _, p := range c.Points {
		d := p.Sub(c.Centre)
		r2 = max(r2, d.Dot(d))
	}
	c.Radius = math.Sqrt(r2)
}

// Prism is the body over a convex loop (counter-clockwise, in f's x-y plane) from
// z0 to z1, z0 < z1.
func Prism(loop geom.Loop, z0, z1 float64, f geom.Frame) Convex {
	low, high := make([]geom.Vec3, len(loop)), make([]geom.Vec3, len(loop))
	for i, p := range loop {
		low[i] = f.Point(geom.Vec3{p[0], p[1], z0})
		high[i] = f.Point(geom.Vec3{p[0], p[1], z1})
	}
	c := Convex{Points: append(low, high...), loop: len(loop)}
	var dirs []geom.Vec2 // of the loop's sides, parallel ones once
	n := int32(len(loop))
	for i := range n {
		j := (i + 1) % n
		if i >= 2 {
			c.Tris = append(c.Tris, [3]int32{0, i, i - 1}, [3]int32{n, n + i - 1, n + i})
		}
		c.quad(i, j, n+j, n+i)
		c.Edges = append(c.Edges, [2]int32{i, j}, [2]int32{n + i, n + j}, [2]int32{i, n + i})
		d := loop[j].Sub(loop[i])
		if d[0] == 0 && d[1] == 0 {
			continue
		}
		d = d.Normalize()
		c.Normals = append(c.Normals, f.Vector(geom.Vec3{d[1], -d[0], 0}))
		if !slices.ContainsFunc(dirs, func(e geom.Vec2) bool { return math.Abs(d[0]*e[1]-d[1]*e[0]) < parallel }) {
			dirs = append(dirs, d)
			c.Dirs = append(c.Dirs, f.Vector(geom.Vec3{d[0], d[1], 0}))
			c.across = append(c.across, int32(len(c.Normals)-1))
		}
	}
	c.Dirs = append(c.Dirs, f.Z)
	c.across = append(c.across, int32(len(c.Normals)))
	c.Normals = append(c.Normals, f.Z, f.Z.Mul(-1))
	c.bound()
	return c
}

func (c *Convex) quad(a, b, d, e int32) {
	c.Tris = append(c.Tris, [3]int32{a, b, d}, [3]int32{a, d, e})
}

// Move places the body by a frame: its points are the frame's local ones.
func (c *Convex) Move(f geom.Frame) Convex {
	out := Convex{Tris: c.Tris, Edges: c.Edges, Radius: c.Radius, Centre: f.Point(c.Centre), loop: c.loop, across: c.across}
	buf := make([]geom.Vec3, len(c.Points)+len(c.Normals)+len(c.Dirs))
	out.Points, buf = buf[:len(c.Points):len(c.Points)], buf[len(c.Points):]
	out.Normals, out.Dirs = buf[:len(c.Normals):len(c.Normals)], buf[len(c.Normals):]
	for i, p := range c.Points {
		out.Points[i] = f.Point(p)
	}
	for i, n := range c.Normals {
		out.Normals[i] = f.Vector(n)
	}
	for i, d := range c.Dirs {
		out.Dirs[i] = f.Vector(d)
	}
	return out
}
