package fold

import (
	"slices"
	"testing"
	"time"
)

// followPairs follows every pair of solids with a turning bend between them through every swing of a part, each from the swing's start,
// and gives how long each took, to the bracket of its first contact; not how deep it goes then.
func followPairs(p *Part) (all, met []time.Duration) {
	s := newShapes(p)
	for i := range p.Swings {
		c := s.course(i, false)
		c.limit = 1 << 60
		start := c.at(0)
		bodies := p.bodies()
		for k, a := range bodies {
			for _, b := range bodies[k+1:] {
				if !movesBetween(p, p.Swings[i], a, b) {
					continue
				}
				q := s.pair(a, b)
				began := time.Now()
				m := start.seek(q, 0)
				if m.end == meets {
					start.bracket(q, m)
				}
				took := time.Since(began)
				all = append(all, took)
				if m.end == meets {
					met = append(met, took)
				}
			}
		}
	}
	return all, met
}

// First contact of one pair: the 13-panel tray's, all of them clear, and one whose walls are 20 mm too long and all meet; reported are
// the median and the worst over the pairs.
func BenchmarkFirstContact(b *testing.B) {
	run := func(name string, p *Part) {
		b.Run(name, func(b *testing.B) {
			var all, met []time.Duration
			for b.Loop() {
				x, y := followPairs(p)
				all, met = append(all, x...), append(met, y...)
			}
			report := func(name string, d []time.Duration) {
				if len(d) == 0 {
					return
				}
				slices.Sort(d)
				b.ReportMetric(float64(d[len(d)/2].Nanoseconds())/1e3, name+"-median-us")
				b.ReportMetric(float64(d[len(d)*99/100].Nanoseconds())/1e3, name+"-99%-us")
			}
			report("all", all)
			report("met", met)
		})
	}
	run("13 panels", Build(returnsTray(2)))
	run("tight tray", Build(trayWithNotch(30)))
}
