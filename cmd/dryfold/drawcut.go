package main

// Files for cutting the blank by machine: .dxf, and .svg with -machine.

import (
	"errors"
	"flag"
	"fmt"
	"slices"
	"strings"

	"dryfold/fold"
	"dryfold/fold/cutfile"
)

type cutFlags struct {
	machine                 bool
	kerf, gap, notch        string
	gaps                    int
	bends, holes            string
	tangents, text, reverse bool
}

var (
	bendWords = []string{"none", "lines", "notches"} // in the order of cutfile.Bends
	holeWords = []string{"cut", "marked", "none"}    // in the order of cutfile.Holes
)

func (o *cutFlags) define(f *flag.FlagSet) {
	f.BoolVar(&o.machine, "machine", false, "svg: the blank for cutting by machine, as a .dxf has it")
	f.StringVar(&o.kerf, "kerf", "0", "dxf, -machine: `width` of the cut, as 0.2mm: outside the outline and inside holes half of it is allowed for")
	f.IntVar(&o.gaps, "gaps", 0, "dxf, -machine: how many gaps hold the part in the sheet")
	f.StringVar(&o.gap, "gap", "0.5mm", "dxf, -machine: `width` of the metal left in a gap")
	f.StringVar(&o.bends, "bends", "lines", "dxf, -machine: "+strings.Join(bendWords, ", ")+": bend lines to mark, or notches at their ends")
	f.StringVar(&o.notch, "notch", "2mm", "dxf, -machine: `depth` of the notches at the ends of bend lines")
	f.BoolVar(&o.tangents, "tangents", false, "dxf, -machine: the two edges of each bend too")
	f.StringVar(&o.holes, "holes", "cut", "dxf, -machine: "+strings.Join(holeWords, ", "))
	f.BoolVar(&o.text, "text", false, "dxf, -machine: name, sheet and face below the blank")
	f.BoolVar(&o.reverse, "mirror", false, "dxf, -machine: cut with the lower face up")
}

// cutHelp is what draw's help says of them.
const cutHelp = `
A .dxf, or an .svg with -machine, is the blank for cutting by machine: closed outlines
with true arcs, round holes, and bend lines for marking, each kind on a layer by its name;
-kerf allows for the width of the cut, and says where that closes up.
`

// drawCut writes the blank for cutting.
func (c *call) drawCut(g given, o *drawFlags, u fold.Units, ending string) int {
	spec := g.spec
	if o.other {
		spec = spec.Mirrored()
		if spec.Name == g.spec.Name {
			spec.Name += ", other hand"
		}
	}
	p := fold.Build(spec)
	opt := cutfile.Options{Units: u, Gaps: o.gaps, Tangents: o.tangents, Text: o.text, Mirror: o.reverse}
	var wrong *problem
	word := func(name, text string, words []string) int {
		i := slices.Index(words, text)
		if i < 0 && wrong == nil {
			wrong = flagProblem("-"+name, text, "one of "+strings.Join(words, ", "))
		}
		return i
	}
	opt.Bends = cutfile.Bends(word("bends", o.bends, bendWords))
	opt.Holes = cutfile.Holes(word("holes", o.holes, holeWords))
	size := func(name, text string) float64 {
		l, ok := readLength(text)
		if !ok && wrong == nil {
			wrong = flagProblem("-"+name, quoted(text), lengthNeed)
		}
		if l.unit == "in" || l.unit == "" && u == fold.Inch {
			return l.number * mmPerInch
		}
		return l.number
	}
	opt.Kerf, opt.GapWidth, opt.Notch = size("kerf", o.kerf), size("gap", o.gap), size("notch", o.notch)
	if wrong != nil {
		return c.refuse(wrong)
	}
	f, err := cutfile.Make(p, opt)
	var e *cutfile.Error
	if errors.As(err, &e) {
		w := problem{File: &c.args[0], Found: fold.InUnits(e.Words, u)}
		if e.Field == "" {
			w.Found, w.Need = strings.TrimSuffix(w.Found, "."), "a blank that can be cut; dryfold check says what to mend"
		}
		c.fail(w)
		if e.At == nil && e.Field != "" { // the option itself, whatever the part
			return statusInput
		}
		return statusStop
	}
	for _, n := range f.Notes {
		fmt.Fprintln(c.err, fold.InUnits(n, u))
	}
	r := g.check(p)
	stops := 0
	for _, t := range r.Troubles {
		if t.Severity == fold.Stop.String() {
			stops++
		}
	}
	if stops > 0 {
		fmt.Fprintf(c.err, "Of severity stop: %d. The blank is drawn as it is; dryfold check says what to mend first.\n", stops)
	}
	starts := fmt.Sprintf("%d starts", f.Starts)
	if f.Starts == 1 {
		starts = "1 start"
	}
	fmt.Fprintln(c.err, fold.InUnits(fmt.Sprintf("To cut: %.0f mm, %s.", f.Length, starts), u))
	if ending == ".svg" {
		return c.writeFile(o.out, f.SVG())
	}
	return c.writeFile(o.out, f.DXF())
}
