package main

import (
	"flag"
	"fmt"
	"strings"

	"dryfold/fold/partfile"
)

type linkFlags struct{ at string }

func linkVerb() *verb {
	return &verb{
		name: "link", args: "FILE [-at ADDRESS]",
		what: "prints a link that holds the whole part",
		more: `The part stands in the link's fragment, which browsers send nowhere. It is the
same, byte for byte, as the page's Share gives at the same address.`,
		shows: "dryfold link tray.dryfold -at https://example.org/fold/",
		flags: func(f *flag.FlagSet) any {
			o := &linkFlags{}
			f.StringVar(&o.at, "at", "http://"+serveAddress+"/", "the `address` at which the page stands")
			return o
		},
		run: func(c *call) int {
			if len(c.args) != 1 {
				return c.usage("%d files, where one is needed", len(c.args))
			}
			g, wrong := readPart(c.args[0])
			if wrong != nil {
				c.fail(*wrong)
				return statusInput
			}
			l, err := partfile.Link(c.opt.(*linkFlags).at, g.spec)
			if err != nil {
				c.fail(*partProblem(&c.args[0], err))
				return statusInput
			}
			fmt.Fprintln(c.out, l)
			return statusOK
		},
	}
}

type openFlags struct{ out string }

func openVerb() *verb {
	return &verb{
		name: "open", args: "LINK -o FILE",
		what:  "writes the part that a link holds as a part file",
		more:  "The link may be the whole address or what stands after its #. Without -o the part\nfile goes to standard output.",
		shows: "dryfold open 'https://example.org/fold/#a...' -o tray.dryfold",
		flags: func(f *flag.FlagSet) any {
			o := &openFlags{}
			f.StringVar(&o.out, "o", "", "the part `file` to write")
			return o
		},
		run: func(c *call) int {
			if len(c.args) != 1 {
				return c.usage("%d links, where one is needed (quote it: shells take & and ? for themselves)", len(c.args))
			}
			spec, err := partfile.Unpack(partfile.Fragment(strings.TrimSpace(c.args[0])))
			if err != nil {
				c.fail(*partProblem(nil, err))
				return statusInput
			}
			return c.writePart(c.opt.(*openFlags).out, spec)
		},
	}
}
