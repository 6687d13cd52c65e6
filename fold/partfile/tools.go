// The maker's own tools for cutting, in a bench's file: read, judged, written.

package partfile

import (
	"math"
	"strconv"
	"strings"

	"dryfold/fold"
	"dryfold/fold/sizes"
)

const (
	toolsNeed = `tools: {"drills": [...], "kerf": ...}`
	toolNeed  = "a number over 0, or leave the field out"
)

// toolFields are the tools' fields; toolFigures, those that are one number.
var toolFields, toolFigures = func() (fields []string, figures []sizes.ToolLine) {
	fields = []string{"drills", "no_saw", "no_snips"}
	figures = sizes.Tools{}.Lines()
	for _, l := range figures {
		fields = append(fields, l.Key)
	}
	return fields, figures
}()

// tools takes tools whose lengths are in the file's units.
func (d *decoder) tools(p *path) (t sizes.Tools) {
	need := func() string { return toolNeed }
	over := func(p *path) float64 {
		v := d.number(p, need)
		if v == 0 {
			d.fail(p, "0", toolNeed)
		}
		return v
	}
	d.object(p, toolsNeed, toolFields, func(key string, p *path) {
		switch key {
		case "drills":
			d.list(p, "a list of diameters", func(i int, p *path) {
				if d.room(p, i, sizes.MaxDrills, "drills") {
					t.Drills = append(t.Drills, over(p))
				}
			})
		case "no_saw":
			t.NoSaw = d.flag(p, boolNeed)
		case "no_snips":
			t.NoSnips = d.flag(p, boolNeed)
		default:
			t, _ = t.Set(key, over(p))
		}
	})
	return t
}

// tools judges tools whose lengths are in units.
func (c *checker) tools(t sizes.Tools, u fold.Units) {
	if c.err != nil {
		return
	}
	if e := t.Scaled(u.Scale()).Check(); e != nil {
		c.err = &Error{Path: e.Path, Found: asWritten(t, e), Need: fold.InUnits(e.Need, u)}
	}
}

// asWritten is the figure that an error names, as it stands in the file.
func asWritten(t sizes.Tools, e *sizes.Error) string {
	key := strings.TrimPrefix(e.Path, "tools.")
	if v, ok := t.Get(key); ok {
		return number(v)
	}
	if rest, ok := strings.CutPrefix(key, "drills["); ok {
		if i, err := strconv.Atoi(strings.TrimSuffix(rest, "]")); err == nil && i < len(t.Drills) {
			return number(t.Drills[i])
		}
	}
	return e.Found
}

// tools writes tools that are in mm in units, nothing where nothing was said.
func (w *writer) tools(t sizes.Tools, u fold.Units) {
	if t.IsZero() {
		return
	}
	drills := ""
	if len(t.Drills) > 0 {
		all := make([]string, len(t.Drills))
		for i, mm := range t.Drills {
			all[i] = toolText(mm, u, func(mm float64) bool { return sizes.Tools{Drills: []float64{mm}}.Check() == nil })
		}
		drills = "[" + strings.Join(all, ", ") + "]"
	}
	pairs := []string{"drills", drills, "no_saw", truth(t.NoSaw), "no_snips", truth(t.NoSnips)}
	for _, f := range toolFigures {
		v, _ := t.Get(f.Key)
		s := ""
		switch {
		case v == 0:
		case f.Angle:
			s = number(v)
		default:
			s = toolText(v, u, func(mm float64) bool {
				one, _ := sizes.Tools{}.Set(f.Key, mm)
				return one.Check() == nil
			})
		}
		pairs = append(pairs, f.Key, s)
	}
	w.field("tools", object(pairs...))
}

// toolText is lengthText, but with all that a float64 has where rounded it would be no tool's any more.
func toolText(mm float64, u fold.Units, good func(mm float64) bool) string {
	s := lengthText(mm, u)
	if v, err := strconv.ParseFloat(s, 64); err == nil && good(v*u.Scale()) {
		return s
	}
	for _, way := range []float64{math.Inf(-1), math.Inf(1)} {
		v := mm / u.Scale()
		for range 3 { // a step or two
			if good(v * u.Scale()) {
				return number(v)
			}
			v = math.Nextafter(v, way)
		}
	}
	return s
}
