package geom

import (
	"math"
	"math/rand/v2"
	"testing"
)

// TestPieceKnown: closed forms of a quarter, a half and three quarters of a circle, both ways round.
func TestPieceKnown(t *testing.T) {
	const r = 7.0
	at := func(deg float64) Vec2 {
		s, c := math.Sincos(deg * math.Pi / 180)
		return Vec2{3 + r*c, -2 + r*s}
	}
	for _, deg := range []float64{90, 180, 270, -90, -180, -270, 0.001, 359.9} {
		ps := Through(at(20), at(20+deg/3), at(20+deg))
		length, bow := 0.0, 0.0
		for _, p := range ps {
			length += p.Len()
			c, rad, ok := p.Circle()
			if !ok || c.Sub(Vec2{3, -2}).Len() > 1e-6/math.Abs(p.Turn) || math.Abs(rad-r) > 1e-6/math.Abs(p.Turn) {
				t.Errorf("%v degrees: circle at %v, radius %v", deg, c, rad)
			}
			if math.Abs(p.Turn) > math.Pi {
				t.Errorf("%v degrees: a piece turns by %v", deg, p.Turn)
			}
			if s := p.Start(); math.Abs(s.Dot(p.A.Sub(Vec2{3, -2}))) > 1e-5 {
				t.Errorf("%v degrees: starts towards %v", deg, s)
			}
		}
		a := math.Abs(deg) * math.Pi / 180
		bow = PiecesArea(append(ps, Piece{A: at(20 + deg), B: at(20)}))
		if want := math.Copysign(r*r/2*(a-math.Sin(a)), deg); math.Abs(length-r*a) > 1e-9 || math.Abs(bow-want) > 1e-9 {
			t.Errorf("%v degrees: length %v, area %v; want %v, %v", deg, length, bow, r*a, want)
		}
	}
}

// TestPieceTwin: points, distances, sides and boxes of random pieces, from all but straight to half turns, against
// points sampled along them by halving: the middle of an arc stands off its chord by the chord times tan(turn/4)/2.
func TestPieceTwin(t *testing.T) {
	rnd := rand.New(rand.NewPCG(1, 2))
	var sample func(a, b Vec2, turn float64, n int) []Vec2
	sample = func(a, b Vec2, turn float64, n int) []Vec2 {
		if n == 0 {
			return []Vec2{a}
		}
		mid := a.Add(b).Mul(0.5).Sub(Perp(b.Sub(a)).Mul(math.Tan(turn/4) / 2))
		return append(sample(a, mid, turn/2, n-1), sample(mid, b, turn/2, n-1)...)
	}
	for i := range 300 {
		turn := math.Exp(rnd.Float64()*20-18.9) * float64(1-2*(i%2))
		turn = math.Copysign(min(math.Abs(turn), math.Pi), turn)
		if i%10 == 0 {
			turn = 0
		}
		p := Piece{Vec2{rnd.Float64() * 100, rnd.Float64() * 100}, Vec2{rnd.Float64() * 100, rnd.Float64() * 100}, turn}
		pts := append(sample(p.A, p.B, turn, 9), p.B)
		length := 0.0
		for k := range pts[1:] {
			length += pts[k+1].Sub(pts[k]).Len()
		}
		if math.Abs(p.Len()-length) > 3e-4 {
			t.Fatalf("%+v: length %v, sampled %v", p, p.Len(), length)
		}
		box := p.Box()
		for k, v := range pts {
			f := float64(k) / float64(len(pts)-1)
			if d := p.At(f).Sub(v).Len(); d > 1e-9 {
				t.Fatalf("%+v: at %v off by %v", p, f, d)
			}
			if r, g := p.Right(v); math.Abs(r) > 1e-9 || math.Abs(g-f) > 1e-9 {
				t.Fatalf("%+v: Right of its own point at %v is %v at %v", p, f, r, g)
			}
			for a := range 2 {
				if v[a] < box.Min[a]-1e-9 || v[a] > box.Max[a]+1e-9 {
					t.Fatalf("%+v: %v lies out of its box %v", p, v, box)
				}
			}
		}
		for range 5 {
			v := Vec2{rnd.Float64()*200 - 50, rnd.Float64()*200 - 50}
			least := math.Inf(1)
			for k := range pts[1:] {
				d, _ := SegmentDistance(v, pts[k], pts[k+1])
				least = min(least, d)
			}
			if math.Abs(p.Distance(v)-least) > 1e-3 {
				t.Fatalf("%+v: %v lies %v off, sampled %v", p, v, p.Distance(v), least)
			}
		}
		h := p.Part(0.25, 0.75)
		if h.A.Sub(pts[len(pts)/4]).Len() > 1e-9 || h.At(0.5).Sub(p.At(0.5)).Len() > 1e-9 {
			t.Fatalf("%+v: its middle part is %+v", p, h)
		}
		if r := p.Reversed(); math.Abs(r.Bow()+p.Bow()) > 1e-12 || r.At(0.3).Sub(p.At(0.7)).Len() > 1e-9 {
			t.Fatalf("%+v reversed is %+v", p, r)
		}
	}
}
