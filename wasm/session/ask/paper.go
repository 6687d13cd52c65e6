package ask

import (
	"dryfold/fold/paper"
)

// PaperQuestion asks the third program for sheets, files and pictures of a part.
type PaperQuestion struct {
	Part   string // as WriteQuestion gives it
	Report string // as Check gave it; "": only sizes are known
	// Want is one of paper.Kinds for sheets, or what stands in the answer's name: "blank".
	Want string
	PDF  bool // sheets as one PDF file; else each page as SVG, to be shown and printed
	Job  paper.Job
}

// WritePaper writes a question for ReadPaper.
func WritePaper(q PaperQuestion) string { return Write(q) }

// ReadPaper reads what WritePaper wrote.
func ReadPaper(text string) (q PaperQuestion, err error) {
	err = Read(text, &q)
	return q, err
}
