package paper

import (
	"fmt"
	"math"
	"strconv"

	"dryfold/fold"
)

// ruler is the rule that the sheet is marked out with: every running dimension is rounded to its finest division. The
// lengths of its methods are in the sheet's units.
type ruler struct {
	units  fold.Units
	step   float64 // the finest division
	parts  int     // of an inch, a power of two, for fractions; 0 for decimals
	places int     // of decimals
}

// newRuler is the rule that Options ask for.
func newRuler(units fold.Units, step float64) (ruler, error) {
	r := ruler{units: units, step: step}
	least, most, as := leastDivision, 10.0, "0.5, 1, or 0.1 for a calliper"
	if units == fold.Inch {
		least, most, as = leastDivisionInch, 0.5, "1/64, 1/32, 1/16, or 0.001 for a calliper"
	}
	if step == 0 {
		r.step = 0.5
		if units == fold.Inch {
			r.step = 1.0 / 64
		}
	}
	wrong := fmt.Errorf("the rule's finest division: %v %s, where %g to %g %s is needed, as %s", step, units, least, most, units, as)
	if !(r.step >= least && r.step <= most) {
		return r, wrong
	}
	if n := math.Round(1 / r.step); units == fold.Inch && n >= 2 && n <= 64 && math.Abs(n*r.step-1) < 1e-9 && int(n)&(int(n)-1) == 0 {
		r.parts, r.step = int(n), 1/n
		return r, nil
	}
	for p, s := 0, 1.0; p <= 5; p, s = p+1, s*10 {
		if math.Abs(r.step*s-math.Round(r.step*s)) < 1e-9*s {
			r.places = p
			return r, nil
		}
	}
	return r, wrong
}

// weigh takes a part's marks as the options ask for, and what their rounding does. An option that is none is an error.
func (o Options) weigh(p *fold.Part, rep *fold.Report) (worth, error) {
	rule, err := newRuler(o.Units, o.Rule)
	if err != nil {
		return worth{}, err
	}
	return weigh(p, rep, rule), nil
}

// The finest divisions that can be asked for: no hand marks finer.
const (
	leastDivision     = 0.01   // mm
	leastDivisionInch = 0.0005 // in
)

// calliper is what a calliper reads: 0.1 mm, 0.001 in; finer is that with n places more.
func calliper(units fold.Units, n int) ruler {
	r := ruler{units: units, places: 1 + n}
	if units == fold.Inch {
		r.places = 3 + n
	}
	r.step = math.Pow10(-r.places)
	return r
}

// coarse reports whether a calliper reads finer.
func (r ruler) coarse() bool { return r.step > calliper(r.units, 0).step*1.0001 }

func (r ruler) round(x float64) float64 {
	if r.parts > 0 {
		return math.Round(x*float64(r.parts))/float64(r.parts) + 0 // + 0 turns -0 into 0
	}
	s := math.Pow10(r.places)
	return math.Round(math.Round(x/r.step)*r.step*s)/s + 0
}

// say writes a length as it is printed: "12.5", "12 17/64".
func (r ruler) say(x float64) string {
	if r.parts == 0 {
		return strconv.FormatFloat(r.round(x), 'f', r.places, 64)
	}
	n, sign := int(math.Round(x*float64(r.parts))), ""
	if n < 0 {
		n, sign = -n, "-"
	}
	whole, top, below := n/r.parts, n%r.parts, r.parts
	for top > 0 && top%2 == 0 {
		top, below = top/2, below/2
	}
	switch {
	case top == 0:
		return fmt.Sprint(sign, whole)
	case whole == 0:
		return fmt.Sprintf("%s%d/%d", sign, top, below)
	}
	return fmt.Sprintf("%s%d %d/%d", sign, whole, top, below)
}

// off says by how much the printed length is more than the true one, as a calliper reads: "+0.004", "−0.2", "0".
func (r ruler) off(exact float64) string {
	c := calliper(r.units, 0)
	switch t := c.say(r.round(exact) - exact); {
	case c.round(r.round(exact)-exact) == 0:
		return "0"
	case t[0] == '-':
		return "−" + t[1:]
	default:
		return "+" + t
	}
}

// name is the division in words: "0.5 mm", "1/64 in".
func (r ruler) name() string {
	if r.parts > 0 {
		return fmt.Sprintf("1/%d in", r.parts)
	}
	return trim(r.step, 5) + " " + r.units.String()
}
