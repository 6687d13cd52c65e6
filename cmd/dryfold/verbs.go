package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"slices"
	"strings"
)

// Exit statuses. A script can tell a part that can't be made (1) from a file
// that can't be read (2).
const (
	statusOK    = 0
	statusStop  = 1
	statusInput = 2
)

// verb is one word of the command.
type verb struct {
	name  string
	args  string // what follows the name, for the usage line
	what  string // one line
	more  string // further help
	shows string // an example line
	// run does the work; f has the verb's own flags defined by flags.
	flags func(f *flag.FlagSet) any
	run   func(c *call) int
}

// call is one use of a verb: where to write, what was given.
type call struct {
	out, err io.Writer
	verb     *verb
	args     []string // without flags
	opt      any      // what verb.flags gave
	json     bool     // -json was asked for, rightly or not
}

// verbs in the order of the help text.
func verbs() []*verb {
	return []*verb{checkVerb(), spreadVerb(), measureVerb(), newVerb(), drawVerb(), freezeVerb(), bendVerb(), gaugeVerb(), linkVerb(), openVerb(), siteVerb(), serveVerb()}
}

// run does what the arguments say and gives the exit status. A panic below is a
// mistake of ours: it is caught here, once, and said.
func run(args []string, out, errw io.Writer) (status int) {
	defer func() {
		if p := recover(); p != nil {
			fmt.Fprintf(errw, "dryfold: a mistake of ours, nothing was changed by it: %v\nPlease report it with the command line and the file.\n", p)
			status = statusInput
		}
	}()
	if len(args) == 0 {
		usage(errw)
		return statusInput
	}
	if args[0] == "-h" || args[0] == "-help" || args[0] == "--help" || args[0] == "help" && len(args) == 1 {
		usage(out)
		return statusOK
	}
	if args[0] == "help" {
		args = []string{args[1], "-h"}
	}
	for _, v := range verbs() {
		if v.name == args[0] {
			return v.call(args[1:], out, errw)
		}
	}
	fmt.Fprintf(errw, "dryfold: no verb %q; there are %s. dryfold -h says what they do.\n", args[0], verbNames())
	return statusInput
}

func verbNames() string {
	var n []string
	for _, v := range verbs() {
		n = append(n, v.name)
	}
	return strings.Join(n, ", ")
}

func usage(w io.Writer) {
	fmt.Fprintf(w, "dryfold folds a sheet-metal part dry, before any metal is cut.\n\n")
	for _, v := range verbs() {
		fmt.Fprintf(w, "  dryfold %-44s %s\n", v.name+" "+v.args, v.what)
	}
	fmt.Fprintf(w, "\ndryfold VERB -h helps with an example.\n")
}

// call reads the flags, which may stand before or after the other arguments
// ("--" ends them), and runs the verb.
func (v *verb) call(args []string, out, errw io.Writer) int {
	f := flag.NewFlagSet(v.name, flag.ContinueOnError)
	f.SetOutput(io.Discard)
	c := &call{out: out, err: errw, verb: v}
	c.json = slices.Contains(args, "-json") || slices.Contains(args, "--json")
	c.opt = v.flags(f)
	for {
		err := f.Parse(args)
		if errors.Is(err, flag.ErrHelp) {
			v.help(out, f)
			return statusOK
		}
		if err != nil {
			return c.usage("%v", err)
		}
		used := len(args) - f.NArg()
		rest := f.Args()
		if used > 0 && args[used-1] == "--" || len(rest) == 0 {
			c.args = append(c.args, rest...)
			break
		}
		c.args = append(c.args, rest[0])
		args = rest[1:]
	}
	return v.run(c)
}

func (v *verb) help(w io.Writer, f *flag.FlagSet) {
	fmt.Fprintf(w, "dryfold %s %s\n    %s\n", v.name, v.args, v.what)
	if v.more != "" {
		fmt.Fprintf(w, "\n%s\n", strings.TrimSpace(v.more))
	}
	any := false
	f.VisitAll(func(*flag.Flag) { any = true })
	if any {
		fmt.Fprintln(w)
		f.SetOutput(w)
		f.PrintDefaults()
	}
	fmt.Fprintf(w, "\nExample:\n    %s\n", v.shows)
}

// usage says that the command line is wrong. With -json, it says so as an object too.
func (c *call) usage(format string, a ...any) int {
	c.fail(problem{Found: fmt.Sprintf(format, a...), Need: fmt.Sprintf("dryfold %s %s", c.verb.name, c.verb.args)})
	return statusInput
}

// problem is input that can't be used: what was found where, and what would do.
// Its JSON keys are a promise.
type problem struct {
	File  *string `json:"file"`
	Path  *string `json:"path"`
	Line  *int    `json:"line"`
	Found string  `json:"found"`
	Need  string  `json:"need"`

	More []otherProblem `json:"more,omitempty"` // what else is wrong with the same file

	whole bool // Need is a sentence, not what was needed
}

// otherProblem is one more thing that is wrong with a file.
type otherProblem struct {
	Path  string `json:"path"`
	Found string `json:"found"`
	Need  string `json:"need"`
}

// fail writes the problem to stderr, and as an object to stdout where -json was asked for.
func (c *call) fail(p problem) {
	var s strings.Builder
	s.WriteString("dryfold: ")
	if p.File != nil {
		fmt.Fprintf(&s, "%s: ", *p.File)
	}
	if p.Path != nil && *p.Path != "" {
		fmt.Fprintf(&s, "%s: ", *p.Path)
	} else if p.Line != nil && *p.Line > 0 {
		fmt.Fprintf(&s, "line %d: ", *p.Line)
	}
	switch {
	case p.Need == "":
		s.WriteString(p.Found)
	case p.whole:
		fmt.Fprintf(&s, "found %s: %s", p.Found, p.Need)
	default:
		fmt.Fprintf(&s, "found %s; need %s", p.Found, p.Need)
	}
	fmt.Fprintln(c.err, s.String())
	for _, m := range p.More {
		fmt.Fprintf(c.err, "         %s: found %s; need %s\n", m.Path, m.Found, m.Need)
	}
	if c.json {
		writeJSON(c.out, struct {
			Error problem `json:"error"`
		}{p})
	}
}

// refuse says what is wrong with the input, and gives the status for it.
func (c *call) refuse(p *problem) int {
	c.fail(*p)
	return statusInput
}
