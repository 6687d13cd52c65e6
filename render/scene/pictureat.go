package scene

import "dryfold/fold"

// StateAt is the part's state with so many swings done, the fraction being of the next; under 0 it is finished.
func StateAt(p *fold.Part, done float64) fold.State {
	if !(done >= 0) {
		return p.Finished()
	}
	n := int(min(done, float64(len(p.Swings))))
	return p.StateAt(n, done-float64(n))
}

// PictureAt is a picture of the part with so many swings done (see StateAt), with its sizes, and finished with its gaps. A part
// that can't be folded is only its outline.
func PictureAt(p *fold.Part, r *fold.Report, done float64) Picture {
	pic := Picture{Part: p, Dims: true}
	if !p.Foldable {
		return pic
	}
	pic.Report, pic.State = r, StateAt(p, done)
	n := int(done)
	if done >= 0 && n < len(p.Swings) && done > float64(n) {
		pic.Turning = p.Swings[n].Bends
	}
	pic.Ticks = done < 0 || done >= float64(len(p.Swings))
	return pic
}
