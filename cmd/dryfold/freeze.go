package main

// freeze: a part by sizes as one that is given by its blank.

import "flag"

type freezeFlags struct{ out string }

func freezeVerb() *verb {
	return &verb{
		name: "freeze", args: "FILE -o OUT",
		what: "writes a part by sizes as its blank",
		more: `The part stays the same; its outline, bends and holes are then numbers of their own, to be
changed one by one, and its sizes are gone from it: keep the file they stand in. Without
-o the part file goes to standard output.`,
		shows: "dryfold freeze by-sizes.dryfold -o blank.dryfold",
		flags: func(f *flag.FlagSet) any {
			o := &freezeFlags{}
			f.StringVar(&o.out, "o", "", "the part `file` to write")
			return o
		},
		run: func(c *call) int {
			if len(c.args) != 1 {
				return c.usage("%d files, where one is needed", len(c.args))
			}
			g, wrong := readPart(c.args[0])
			if wrong != nil {
				return c.refuse(wrong)
			}
			if g.made == nil {
				return c.refuse(&problem{File: &c.args[0], Found: "a part given by its blank already", Need: `one given by its "sizes"`})
			}
			g.spec.Sizes = nil
			return c.writePart(c.opt.(*freezeFlags).out, g.spec)
		},
	}
}
