package sizes

// This file holds what a form's named sizes and fields come to. formula_read.go reads a
// formula, formula_names.go finds and changes the names in one.

import (
	"math"
	"slices"
	"strconv"
	"strings"
)

// mmPerInch is exact, by the yard's and the inch's definition since 1959.
const mmPerInch = 25.4

// Error says which field can't be worked out or can't be, what it holds, and what would do.
type Error struct {
	Path  string // as in a part file: "sizes.named[1].is"
	Found string
	Need  string

	follows bool // only because a named size that it uses can't be worked out
}

// Error is one line: the field, what was found and what would do.
func (e *Error) Error() string {
	if e.Path == "" {
		return "found " + e.Found + "; need " + e.Need
	}
	return e.Path + ": found " + e.Found + "; need " + e.Need
}

// Values holds what a form's named sizes come to. The zero value knows no names and
// reckons in mm.
type Values struct {
	unit  float64 // mm in one of the part's units
	names []string
	known map[string]*known
}

// known is one named size on its way to a value.
type known struct {
	at    int // in Form.Named
	field Field
	state state
	value float64
}

type state int

const (
	asked   state = iota // not looked at yet
	working              // on the stack of names that wait for each other
	done
	spoilt
)

// Values works out the named sizes, which may use each other in any order. unit is how
// many mm one of the part's units is (1 or 25.4): "12 mm" in a formula comes to the
// part's units by it.
//
// The problems stand in the form's order: one for each name or size that is wrong of itself and one
// for each circle of names, none for the sizes that merely use them. The Values hold all the
// others, and Num refuses what uses a wrong one.
func (f *Form) Values(unit float64) (*Values, []*Error) {
	v := &Values{unit: unit, known: map[string]*known{}}
	var errs []*Error
	if len(f.Named) > MaxNamed {
		return v, []*Error{{Path: "sizes.named", Found: strconv.Itoa(len(f.Named)) + " named sizes", Need: "at most " + strconv.Itoa(MaxNamed)}}
	}
	for i, n := range f.Named {
		if e := f.checkName(i, n.Name); e != nil {
			errs = append(errs, e)
			continue
		}
		v.names = append(v.names, n.Name)
		v.known[n.Name] = &known{at: i, field: n.Is}
	}
	w := &work{v: v, form: f}
	for _, n := range v.names {
		w.value(v.known[n])
	}
	errs = append(errs, w.errs...)
	slices.SortStableFunc(errs, func(a, b *Error) int { return f.place(a) - f.place(b) })
	return v, errs
}

// place is where among the named sizes an error lies.
func (f *Form) place(e *Error) int {
	i, _ := strconv.Atoi(e.Path[strings.IndexByte(e.Path, '[')+1 : strings.IndexByte(e.Path, ']')])
	return i
}

// Num is the number that a field comes to, in the part's units or degrees. A field that
// is not Given is refused: ask first. The error is an *Error without a path.
func (v *Values) Num(f Field) (float64, error) {
	x, e := v.At("", f)
	if e != nil {
		return 0, e
	}
	return x, nil
}

// At is Num with the field's path in its error. The number is finite, and 0 with an error.
func (v *Values) At(path string, f Field) (float64, *Error) {
	x, e := v.reckon(f, v.look)
	if e != nil {
		e.Path = path
	}
	return x, e
}

// look is the value of a name once all are worked out.
func (v *Values) look(name string) (float64, *Error) {
	k := v.known[name]
	if k == nil {
		return 0, v.unknown(name)
	}
	if k.state != done {
		return 0, spoiltName(name)
	}
	return k.value, nil
}

// reckon works one field out; look gives its names' values.
func (v *Values) reckon(f Field, look func(string) (float64, *Error)) (float64, *Error) {
	if !f.Given {
		return 0, &Error{Found: "nothing", Need: "a number or a formula, such as 120 or rail - 12"}
	}
	if f.Formula == "" {
		if !(math.Abs(f.Number) <= maxValue) {
			return 0, &Error{Found: strconv.FormatFloat(f.Number, 'g', 6, 64), Need: "a number up to " + fig(maxValue)}
		}
		return f.Number + 0, nil // no minus zero
	}
	unit := v.unit
	if unit == 0 {
		unit = 1
	}
	return evaluate(f.Formula, unit, look)
}

// work is the named sizes being worked out, each when it is first asked for.
type work struct {
	v     *Values
	form  *Form
	stack []*known
	errs  []*Error
}

func (w *work) value(k *known) (float64, *Error) {
	switch k.state {
	case done:
		return k.value, nil
	case spoilt:
		return 0, spoiltName(w.name(k))
	case working:
		w.circle(k)
		return 0, spoiltName(w.name(k))
	}
	k.state = working
	w.stack = append(w.stack, k)
	x, e := w.v.reckon(k.field, func(name string) (float64, *Error) {
		other := w.v.known[name]
		if other == nil {
			return 0, w.v.unknown(name)
		}
		return w.value(other)
	})
	w.stack = w.stack[:len(w.stack)-1]
	if e != nil {
		k.state = spoilt
		if !e.follows {
			e.Path = at("sizes.named", k.at) + ".is"
			w.errs = append(w.errs, e)
		}
		return 0, spoiltName(w.name(k))
	}
	k.state, k.value = done, x
	return x, nil
}

func (w *work) name(k *known) string { return w.form.Named[k.at].Name }

// circle tells of names that wait for each other, from k to the stack's top, beginning
// with the one that stands first in the form.
func (w *work) circle(k *known) {
	ring := w.stack[slices.Index(w.stack, k):]
	first := 0
	for i, r := range ring {
		if r.at < ring[first].at {
			first = i
		}
	}
	var says []string
	for i := range ring {
		a, b := ring[(first+i)%len(ring)], ring[(first+i+1)%len(ring)]
		says = append(says, w.name(a)+" uses "+w.name(b))
	}
	found := strings.Join(says, ", ")
	if len(says) > 10 {
		found = strings.Join(says[:9], ", ") + " and so on, " + says[len(says)-1]
	}
	need := "one of them given as a number, or by others"
	if len(ring) == 1 {
		need = "a number, or a formula over other sizes"
	}
	w.errs = append(w.errs, &Error{Path: at("sizes.named", ring[first].at) + ".is", Found: found, Need: need})
}

func spoiltName(name string) *Error {
	return &Error{Found: "the size " + name + ", which can't be worked out itself", Need: name + " put right first", follows: true}
}

// unknown refuses a name and says which there are.
func (v *Values) unknown(name string) *Error {
	need := "a named size; there are none yet: add " + name + " to them, or write its number"
	if len(v.names) > 0 {
		shown := v.names
		more := ""
		if len(shown) > 12 {
			shown, more = shown[:12], " and "+strconv.Itoa(len(v.names)-12)+" more"
		}
		need = "one of the named sizes: " + strings.Join(shown, ", ") + more
	}
	return &Error{Found: "the name " + short(name), Need: need}
}

// fig writes a number for a message.
func fig(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }
