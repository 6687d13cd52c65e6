package solid

import "dryfold/fold/geom"

// xyz is a point or vector held in registers: the compiler keeps a geom.Vec3, which is an array, in
// memory.
type xyz struct{ x, y, z float64 }

func unpack(v *geom.Vec3) xyz { return xyz{v[0], v[1], v[2]} }

func (a xyz) pack() geom.Vec3 { return geom.Vec3{a.x, a.y, a.z} }

func (a xyz) add(b xyz) xyz { return xyz{a.x + b.x, a.y + b.y, a.z + b.z} }

func (a xyz) sub(b xyz) xyz { return xyz{a.x - b.x, a.y - b.y, a.z - b.z} }

func (a xyz) mul(k float64) xyz { return xyz{a.x * k, a.y * k, a.z * k} }

func (a xyz) dot(b xyz) float64 { return a.x*b.x + a.y*b.y + a.z*b.z }

func (a xyz) cross(b xyz) xyz {
	return xyz{a.y*b.z - a.z*b.y, a.z*b.x - a.x*b.z, a.x*b.y - a.y*b.x}
}

// along is n.p.
func (a xyz) along(p *geom.Vec3) float64 { return a.x*p[0] + a.y*p[1] + a.z*p[2] }
