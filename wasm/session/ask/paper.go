package ask

import (
	"dryfold/fold/cutfile"
	"dryfold/fold/paper"
	"dryfold/fold/sizes"
)

// PaperQuestion asks the third program for sheets, files and pictures of a part.
type PaperQuestion struct {
	Part   string // as WriteQuestion gives it
	Report string // as Check gave it; "": only sizes are known
	// Want is one of paper.Kinds for sheets, or "blank", "machine" (by Ending), "picture", "run", "solid" (by Ending).
	Want   string
	Ending string // of the file: "svg", "pdf", "dxf", "png", "gif", "stl", "glb"; "" for sheets to be shown

	Options  paper.Options
	Tools    sizes.Tools // the maker's own
	Template paper.TemplateOptions
	Card     CardQuestion
	Machine  cutfile.Options
	Picture  PictureQuestion
}

// CardQuestion is what the card model is made of.
type CardQuestion struct {
	Thickness float64 // mm
	Crease    string
	Part      string // the part in card, as WriteQuestion gives it, where it was made of the form; "": it is laid out anew
	Sizes     []paper.CardSize
}

// PictureQuestion says what of the part is seen.
type PictureQuestion struct {
	W, H        int     // px
	View        string  // one of scene.Views; "": from Yaw and Pitch
	Yaw, Pitch  float64 // as scene.Camera has them
	Dark, Plain bool
	Done        float64 // swings done, with the fraction of the next; under 0: all
}

// WritePaper writes a question for ReadPaper.
func WritePaper(q PaperQuestion) string { return Write(q) }

// ReadPaper reads what WritePaper wrote.
func ReadPaper(text string) (q PaperQuestion, err error) {
	err = Read(text, &q)
	return q, err
}
