package paper

import (
	"fmt"

	"dryfold/fold"
	"dryfold/fold/cutting"
	"dryfold/fold/draft"
	"dryfold/fold/sizes"
)

// Kinds are the sheets that can be printed, by name, in the order in which they are used. The last, "all", is those
// that one works by: all the others but the template and the card model.
var Kinds = []string{"marking", "cutting", "check", "cards", "template", "card", "all"}

// allKinds are those of "all".
var allKinds = []string{"marking", "cutting", "check", "cards"}

// Job is what sheets are made from besides the part and its report.
type Job struct {
	Options
	Tools    sizes.Tools // the maker's own
	Template TemplateOptions
	Card     CardOptions
}

// Sheets are the pages of one of Kinds.
func Sheets(kind string, p *fold.Part, rep *fold.Report, job Job) (pages []draft.Page, err error) {
	switch kind {
	case "marking":
		return MarkingOut(p, rep, job.Options)
	case "cutting":
		return Cutting(p, rep, cutting.Make(p, job.Tools), job.Options)
	case "check":
		return Check(p, rep, nil, job.Options)
	case "cards":
		return JobCards(p, rep, job.Options)
	case "template":
		return Template(p, rep, job.Template)
	case "card":
		pages, _, err = Card(p, job.Card)
		return pages, err
	case "all":
		for _, k := range allKinds {
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
