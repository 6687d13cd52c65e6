package sizes

// This file holds a formula's numbers with their fractions and units, and its functions.

import (
	"math"
	"strconv"
	"strings"
)

// functionNames in the order in which messages list them.
var functionNames = []string{"min", "max", "sqrt", "sin", "cos", "tan", "asin", "acos", "atan"}

func function(name string) bool {
	switch name {
	case "min", "max", "sqrt", "sin", "cos", "tan", "asin", "acos", "atan":
		return true
	}
	return false
}

func unitName(name string) bool { return name == "mm" || name == "in" }

// example is what a function could be of.
func example(name string) string {
	switch name {
	case "min", "max":
		return "rail, 120"
	case "sqrt":
		return "2"
	case "asin", "acos", "atan":
		return "0.5"
	}
	return "30"
}

// number reads a number: 12, 12.5, 2 3/8, and with a unit 12 mm, 1/2 in, 2 3/8".
func (r *reader) number() (float64, *Error) {
	t := r.peek(0)
	r.next++
	if strings.Count(t.text, ".") > 1 || t.text == "." {
		return 0, r.fail(t.text, "a number with one point at most")
	}
	x, e := r.digits(t)
	if e != nil {
		return 0, e
	}
	a, b, c := r.peek(0), r.peek(1), r.peek(2)
	switch {
	case whole(t) && whole(a) && b.kind == '/' && whole(c):
		// 2 3/8
		top, e := r.digits(a)
		if e != nil {
			return 0, e
		}
		bottom, e := r.digits(c)
		if e != nil {
			return 0, e
		}
		if bottom == 0 || top >= bottom {
			return 0, r.fail(t.text+" "+a.text+"/"+c.text, "a fraction under 1 after the whole number, as 2 3/8; or a sign between them")
		}
		r.next += 3
		x += top / bottom
	case whole(t) && a.kind == '/' && whole(b) && r.unitAt(2):
		// 1/2 in: the unit is the fraction's
		bottom, e := r.digits(b)
		if e != nil {
			return 0, e
		}
		if bottom == 0 {
			return 0, r.fail("it divides by 0", "anything but 0 to divide by")
		}
		r.next += 2
		x /= bottom
	case whole(t) && a.kind == '-' && !a.space && whole(b) && !b.space && c.kind == '/' && !c.space && whole(r.peek(3)) && !r.peek(3).space:
		// Many write two and three eighths so.
		f := b.text + "/" + r.peek(3).text
		return 0, r.fail(t.text+"-"+f+", which can be read in two ways", t.text+" "+f+" for the two together, or "+t.text+" - "+f+" with spaces for the difference")
	}
	if !r.unitAt(0) {
		return x, nil
	}
	u := r.peek(0)
	r.next++
	if u.kind == '°' {
		return x, nil
	}
	if u.text == "mm" {
		x *= r.mm
	} else {
		x *= r.inch
	}
	return r.kept(x)
}

// digits is the number of a token of digits and at most one point.
func (r *reader) digits(t token) (float64, *Error) {
	x, err := strconv.ParseFloat(t.text, 64) // digits and a point alone: no hex, no inf
	if err != nil || x > maxValue {
		return 0, r.fail("too large a number", "numbers up to "+fig(maxValue))
	}
	return x, nil
}

func whole(t token) bool { return t.kind == numberToken && !strings.Contains(t.text, ".") }

func (r *reader) unitAt(i int) bool {
	t := r.peek(i)
	return t.kind == '"' || t.kind == '°' || t.kind == nameToken && unitName(t.text)
}

// call works a function out; its name is read, its ( is next.
func (r *reader) call(name string) (float64, *Error) {
	if !function(name) {
		return 0, r.fail(short(name)+" before a (", "* between them, or one of "+strings.Join(functionNames, ", "))
	}
	r.next++
	list, e := r.inside(name + "(")
	if e != nil {
		return 0, e
	}
	x := list[0]
	if name == "min" || name == "max" {
		if len(list) < 2 {
			return 0, r.fail(name+" of one number", "two or more to choose from, with commas between them")
		}
		for _, y := range list[1:] {
			if (name == "min") == (y < x) {
				x = y
			}
		}
		return x, nil
	}
	if len(list) > 1 {
		return 0, r.fail(name+" of "+strconv.Itoa(len(list))+" numbers", "one number; a point in decimals, as 12.5")
	}
	switch name {
	case "sqrt":
		if x < 0 {
			return 0, r.fail("sqrt of "+message(x), "0 or more to take the root of")
		}
		return math.Sqrt(x), nil
	case "asin", "acos":
		if math.Abs(x) > 1 {
			return 0, r.fail(name+" of "+message(x), "-1 to 1, such as a height divided by a slope")
		}
		if name == "asin" {
			return degrees(math.Asin(x)), nil
		}
		return degrees(math.Acos(x)), nil
	case "atan":
		return degrees(math.Atan(x)), nil
	}
	sin, cos := sinCos(x)
	switch name {
	case "sin":
		return sin, nil
	case "cos":
		return cos, nil
	}
	if cos == 0 {
		return 0, r.fail("tan of "+message(x)+" degrees", "another angle: tan has no value at 90 and 270 degrees")
	}
	return r.kept(sin / cos)
}

// degrees rounds off what the turn into degrees adds: asin(0.5) is 30.
func degrees(rad float64) float64 {
	d := rad * (180 / math.Pi)
	if near := math.Round(d); math.Abs(d-near) < 1e-13 {
		return near
	}
	return d
}

// sinCos of degrees, exact at every multiple of 30 where the value is 0, a half or 1.
func sinCos(d float64) (sin, cos float64) {
	d = math.Mod(d, 360)
	if d < 0 {
		d += 360
	}
	s, c := math.Sincos(d * (math.Pi / 180))
	switch d {
	case 0, 180, 360:
		s = 0
	case 90, 270:
		c = 0
	case 30, 150:
		s = 0.5
	case 210, 330:
		s = -0.5
	case 60, 300:
		c = 0.5
	case 120, 240:
		c = -0.5
	}
	return s, c
}

// message writes a number that was worked out, to what a maker reads.
func message(x float64) string { return strconv.FormatFloat(x, 'g', 6, 64) }
