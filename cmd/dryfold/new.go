package main

// new: a part from a starter.

import (
	"flag"
	"fmt"
	"maps"
	"slices"
	"strings"

	"dryfold/fold"
	"dryfold/fold/partfile"
	"dryfold/fold/shape"
	"dryfold/fold/sizes"
)

type newFlags struct {
	out, units, name, metal string
	mirror                  bool
}

func newVerb() *verb {
	return &verb{
		name: "new", args: "STARTER [NAME=SIZE ...] -o FILE",
		what: "writes a part from a starter, by your sizes",
		more: `A size is a number in the part's units, or one with its unit: 300, 11 3/4, 60mm, 2 3/8in.
It may be a formula over the other sizes too: "high=wide / 6". Besides a starter's own
sizes there are thickness (of the sheet), radius (inside, of its bends) and gap (at its
corners). Sizes run to the outside faces, a lid's to its inside ones. Those not said are
as listed. Without -o the part file goes to standard output.

Starters and their sizes:
` + starterList(),
		shows: `dryfold new tray wide=300 long=400 "high=2 3/8 in" -o by-sizes.dryfold`,
		flags: func(f *flag.FlagSet) any {
			o := &newFlags{}
			f.StringVar(&o.out, "o", "", "the part `file` to write")
			f.StringVar(&o.units, "units", "mm", "mm or in, of the part's file and of sizes without a unit")
			f.StringVar(&o.name, "name", "", "the part's `name` (default the starter's)")
			f.StringVar(&o.metal, "metal", "", "the sheet's `metal` (default "+shape.Starters[0].Make(fold.MM).Sheet.Metal+")")
			f.BoolVar(&o.mirror, "mirror", false, "the other hand: left and right change places")
			return o
		},
		run: newPart,
	}
}

// starterList is the starters with their sizes, in mm.
func starterList() string {
	var s strings.Builder
	for _, st := range shape.Starters {
		fmt.Fprintf(&s, "  %-13s %s\n", st.ID, st.Note)
		for _, n := range st.Make(fold.MM).Sizes.Named {
			unit := "mm"
			if n.Angle {
				unit = "degrees"
			}
			fmt.Fprintf(&s, "      %-10s %s (%s %s)\n", n.Name, n.Label, fieldText(n.Is), unit)
		}
	}
	return s.String()
}

// fieldText is a size as it stands in a file.
func fieldText(f sizes.Field) string {
	if f.Formula != "" {
		return f.Formula
	}
	return trimZeros(fmt.Sprintf("%.6f", f.Number))
}

func newPart(c *call) int {
	o := c.opt.(*newFlags)
	if len(c.args) == 0 {
		return c.usage("no starter")
	}
	var u fold.Units
	switch o.units {
	case "mm":
	case "in":
		u = fold.Inch
	default:
		return c.usage("-units %s, where mm or in is needed", o.units)
	}
	st, ok := shape.StarterByID(c.args[0])
	if !ok {
		var all []string
		for _, s := range shape.Starters {
			all = append(all, s.ID)
		}
		c.fail(problem{Found: "no starter " + quoted(c.args[0]), Need: "one of " + strings.Join(all, ", ")})
		return statusInput
	}
	spec := st.Make(u)
	if o.name != "" {
		spec.Name = o.name
	}
	if o.metal != "" {
		spec.Sheet.Metal = o.metal
	}
	spec.Sizes.Mirror = o.mirror
	changes, wrong := sizesGiven(c.args[1:])
	if wrong == nil {
		spec, wrong = setSizes(spec, changes)
	}
	if wrong != nil {
		return c.refuse(wrong)
	}
	if err := partfile.Check(spec); err != nil {
		return c.refuse(partProblem(nil, err))
	}
	if _, wrong := makePart(nil, spec); wrong != nil {
		return c.refuse(wrong)
	}
	return c.writePart(o.out, spec)
}

// sizesGiven reads NAME=SIZE arguments. A size in several words, as 2 3/8, may be written in so many arguments.
func sizesGiven(args []string) (map[string]string, *problem) {
	out := map[string]string{}
	name := ""
	for _, a := range args {
		n, text, ok := strings.Cut(a, "=")
		switch {
		case ok:
			name = strings.TrimSpace(n)
			if _, twice := out[name]; twice {
				return nil, &problem{Path: &name, Found: "the size a second time", Need: "each size once"}
			}
			out[name] = text
		case name == "":
			return nil, &problem{Found: quoted(a), Need: "sizes as NAME=SIZE, as wide=300"}
		default:
			out[name] += " " + a
		}
	}
	for _, name := range slices.Sorted(maps.Keys(out)) {
		if strings.TrimSpace(out[name]) == "" {
			return nil, &problem{Path: &name, Found: "nothing", Need: "a size, as " + name + "=300"}
		}
	}
	return out, nil
}

// everyPart are the sizes that every part has, whatever it starts from.
var everyPart = []string{"thickness", "radius", "gap"}

// setSizes changes the starter's sizes and those that every part has.
func setSizes(spec fold.Spec, changes map[string]string) (fold.Spec, *problem) {
	var names []string
	for _, n := range spec.Sizes.Named {
		names = append(names, n.Name)
	}
	every := map[string]sizes.Field{}
	for _, name := range slices.Sorted(maps.Keys(changes)) {
		switch {
		case slices.Contains(names, name):
		case slices.Contains(everyPart, name):
			every[name] = shape.ReadSize(changes[name])
			delete(changes, name)
		default:
			return spec, &problem{Path: &name, Found: "no such size", Need: "one of " + strings.Join(append(names, everyPart...), ", ")}
		}
	}
	out, wrong := shape.SetSizes(spec, changes)
	if len(wrong) > 0 {
		return spec, shapeProblem(nil, wrong)
	}
	values, _ := out.Sizes.Values(out.Units.Scale())
	for _, name := range everyPart {
		f, ok := every[name]
		if !ok {
			continue
		}
		v, err := values.At(name, f)
		if err != nil {
			return spec, &problem{Path: &err.Path, Found: err.Found, Need: err.Need}
		}
		switch name {
		case "thickness":
			out.Sheet.Thickness = v
		case "radius":
			out.Sizes.Radius = f
		case "gap":
			out.Sizes.Gap = f
		}
	}
	return out, nil
}

// writePart writes a part file, to standard output where no name is given.
func (c *call) writePart(file string, spec fold.Spec) int {
	data := partfile.Write(spec)
	if file != "" {
		return c.writeFile(file, data)
	}
	c.out.Write(data)
	return statusOK
}
