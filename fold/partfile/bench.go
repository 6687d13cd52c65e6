// What a maker knows of metals, of the own brake and tools, in a small file of its own
// (JSON, name.drybends), for other parts and other people.

package partfile

import (
	"math"
	"slices"
	"strconv"

	"dryfold/fold"
	"dryfold/fold/metal"
	"dryfold/fold/sizes"
)

// Bench is the metals, test bends and tools of one maker, lengths in mm.
type Bench struct {
	Metals []metal.Own
	Tests  []metal.Strip
	Tools  sizes.Tools
	Lip    float64 // the shortest lip that the brake has turned, outside; 0 if not said
}

var benchFields = []string{"dryfold_bench", "units", "shortest_lip", "tools", "metals", "tests"}

// ReadBench reads a file of metals and test bends as strictly as Read a part file.
// The error is an *Error; that of a part file given instead says what it is. A
// Bench without an error has passed Check.
func ReadBench(data []byte) (Bench, error) {
	if err := judgeText(data, benchForm); err != nil {
		return Bench{}, err
	}
	d := &decoder{cursor: cursor{data: data}}
	d.head(benchForm)
	d.at = 0
	b := d.bench()
	if d.err != nil {
		return Bench{}, d.err
	}
	b.Metals, b.Tests = nilIfEmpty(b.Metals), nilIfEmpty(b.Tests)
	if err := b.check(d.units); err != nil {
		return Bench{}, err
	}
	return b.scaled(d.units.Scale()), nil
}

// IsBench reports whether the text is what Read refuses as a file of metals and
// test bends, for whoever opens a file without knowing which kind it is.
func IsBench(data []byte) bool {
	if judgeText(data, benchForm) != nil {
		return false
	}
	d := &decoder{cursor: cursor{data: data}}
	d.head(partForm)
	e, ok := d.err.(*Error)
	return ok && e.Path == benchForm.key
}

// Check says what is wrong with the values, as the package's Check of a part. Paths
// are those of the file, lengths in mm.
func (b Bench) Check() error { return b.check(fold.MM) }

// check judges a bench whose lengths are in units.
func (b Bench) check(u fold.Units) error {
	c := &checker{}
	var p *path
	c.figure(p.field("shortest_lip"), b.Lip, lipBound(u))
	c.tools(b.Tools, u)
	c.metals(p.field("metals"), b.Metals)
	c.strips(p.field("tests"), b.Tests, u)
	return c.err
}

// scaled is the bench with its lengths times k.
func (b Bench) scaled(k float64) Bench {
	if k == 1 {
		return b
	}
	b.Lip *= k
	b.Tools = b.Tools.Scaled(k)
	b.Tests = slices.Clone(b.Tests)
	for i, t := range b.Tests {
		b.Tests[i] = scaled(t, k)
	}
	return b
}

func (d *decoder) bench() (b Bench) {
	var p *path
	seen := d.object(p, benchForm.need, benchFields, func(key string, p *path) {
		switch key {
		case "dryfold_bench":
			d.version(p)
		case "units":
			d.unit(p)
		case "shortest_lip":
			b.Lip = d.given(p, lipBound(d.units))
		case "tools":
			b.Tools = d.tools(p)
		case "metals":
			b.Metals = d.metals(p)
		case "tests":
			b.Tests = d.strips(p)
		}
	})
	d.require(p, benchFields, seen, "units", unitsNeed)
	return b
}

// WriteBench is the file of a bench that has passed Check, in the units wanted: a
// metal or a test bend a line, fields in a fixed order, those that say nothing left
// out. Lengths are rounded to mmDigits or inchDigits, so that those of up to ten digits
// come back as they were from a file in the other units.
func WriteBench(b Bench, u fold.Units) []byte {
	w := &writer{}
	w.open("")
	w.field("dryfold_bench", strconv.Itoa(Version))
	w.field("units", text(u.String()))
	length := func(mm float64) string { return lengthText(mm, u) }
	if b.Lip != 0 {
		w.field("shortest_lip", length(b.Lip))
	}
	w.tools(b.Tools, u)
	list(w, "metals", b.Metals, metalText)
	list(w, "tests", b.Tests, func(t metal.Strip) string { return stripText(t, length) })
	w.close("}")
	w.out = append(w.out, '\n')
	return w.out
}

// lengthText is a length given in mm, in units, to the digits of those; with all that a float64 has where
// rounded it would leave the bounds.
func lengthText(mm float64, u fold.Units) string {
	scale, digits := u.Scale(), mmDigits
	if u == fold.Inch {
		digits = inchDigits
	}
	v, err := strconv.ParseFloat(strconv.FormatFloat(mm/scale, 'g', digits, 64), 64)
	if err != nil {
		v = mm / scale // no length at all
	}
	out := func(v float64) bool {
		return mm <= fold.MaxSize && v*scale > fold.MaxSize || mm >= fold.MinSize && v*scale < fold.MinSize
	}
	if out(v) {
		for v = mm / scale; out(v); { // a step or two
			v = math.Nextafter(v, 1)
		}
	}
	return number(v)
}
