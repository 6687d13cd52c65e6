package paper

import (
	"fmt"

	"dryfold/fold"
	"dryfold/fold/draft"
	"dryfold/fold/sizes"
)

// Kinds are the sheets that can be printed, by name, in the order in which they are used; "all" is those of
// which each is one small stack of paper: all but the template and the card model.
var Kinds = []string{"marking", "check", "all"}

// Job is what sheets are made from besides the part and its report.
type Job struct {
	Options
	Tools sizes.Tools // the maker's own
}

// Sheets are the pages of one of Kinds.
func Sheets(kind string, p *fold.Part, rep *fold.Report, job Job) (pages []draft.Page, err error) {
	switch kind {
	case "marking":
		return MarkingOut(p, rep, job.Options)
	case "check":
		return Check(p, rep, nil, job.Options)
	case "all":
		for _, k := range []string{"marking", "check"} {
			more, err := Sheets(k, p, rep, job)
			if err != nil {
				return nil, err
			}
			pages = append(pages, more...)
		}
		return pages, nil
	}
	return nil, fmt.Errorf("there is no sheet %q", kind)
}
