// Flanges, corners and holes of a part by sizes, in a part file: read.

package partfile

import "dryfold/fold/sizes"

var (
	flangeFields = []string{"name", "on", "side", "from", "to", "height", "along", "faces", "angle", "down", "radius",
		"radius_from", "height_end", "edge", "lean_start", "lean_end", "hem", "joggle"}
	hemFields       = []string{"clear", "teardrop"}
	joggleFields    = []string{"at", "depth", "angle", "out"}
	cornerFields    = []string{"a", "b", "close", "over", "past", "gap", "relief", "in_plane"}
	sizedHoleFields = []string{"name", "on", "side", "from_end", "x", "y", "shape", "wide", "long", "turn", "points",
		"drilled", "count", "rows", "step", "row_step", "mirrored"}
)

const (
	flangeNeed    = `a flange: {"name": "...", "on": "floor", "side": "front", "height": ...}`
	hemNeed       = `a hem: {"clear": ...}`
	joggleNeed    = `a joggle: {"at": ..., "depth": ...}`
	cornerNeed    = `a corner: {"a": "...", "b": "...", "close": "edges"}`
	sizedHoleNeed = `a hole: {"on": "...", "x": ..., "y": ..., "wide": ...}`
	onNeed        = "the name of the base or of a flange"
	aFlangeNeed   = "a flange's name"
	sideNeed      = `the name of a side: one of the base's, or "top", "start" or "end" of a flange`
)

func (d *decoder) flange(p *path) (f sizes.Flange) {
	seen := d.object(p, flangeNeed, flangeFields, func(key string, p *path) {
		switch key {
		case "name":
			f.Name = d.text(p, nameNeed)
		case "on":
			f.On = d.text(p, onNeed)
		case "side":
			f.Side = d.word(p, sideNeed)
		case "from":
			f.From = d.length(p)
		case "to":
			f.To = d.length(p)
		case "height":
			f.Height = d.length(p)
		case "along":
			f.Along = d.flag(p, boolNeed)
		case "faces":
			v := sizes.Faces(d.enum(p, sizes.FacesWords))
			f.Faces = &v
		case "angle":
			f.Angle = d.degrees(p)
		case "down":
			f.Down = d.flag(p, boolNeed)
		case "radius":
			f.Radius = d.length(p)
		case "radius_from":
			f.RadiusFrom = d.word(p, radiusFromNeed())
		case "height_end":
			f.HeightEnd = d.length(p)
		case "edge":
			f.Edge = d.sizedPoints(p)
		case "lean_start":
			f.LeanStart = d.degrees(p)
		case "lean_end":
			f.LeanEnd = d.degrees(p)
		case "hem":
			f.Hem = d.hem(p)
		case "joggle":
			f.Joggle = d.joggle(p)
		}
	})
	d.require(p, flangeFields, seen, "name", nameNeed)
	d.require(p, flangeFields, seen, "on", onNeed)
	return f
}

func (d *decoder) hem(p *path) *sizes.Hem {
	h := &sizes.Hem{}
	d.object(p, hemNeed, hemFields, func(key string, p *path) {
		if key == "clear" {
			h.Clear = d.length(p)
		} else {
			h.Teardrop = d.flag(p, boolNeed)
		}
	})
	return h
}

func (d *decoder) joggle(p *path) *sizes.Joggle {
	j := &sizes.Joggle{}
	d.object(p, joggleNeed, joggleFields, func(key string, p *path) {
		switch key {
		case "at":
			j.At = d.length(p)
		case "depth":
			j.Depth = d.length(p)
		case "angle":
			j.Angle = d.degrees(p)
		case "out":
			j.Out = d.flag(p, boolNeed)
		}
	})
	return j
}

func (d *decoder) corner(p *path) (c sizes.Corner) {
	seen := d.object(p, cornerNeed, cornerFields, func(key string, p *path) {
		switch key {
		case "a":
			c.A = d.text(p, aFlangeNeed)
		case "b":
			c.B = d.text(p, aFlangeNeed)
		case "close":
			c.Close = sizes.Closing(d.enum(p, sizes.CloseWords))
		case "over":
			c.Over = d.word(p, aFlangeNeed)
		case "past":
			c.Past = d.length(p)
		case "gap":
			c.Gap = d.length(p)
		case "relief":
			r := d.relief(p)
			c.Relief = &r
		case "in_plane":
			c.InPlane = d.flag(p, boolNeed)
		}
	})
	d.require(p, cornerFields, seen, "a", aFlangeNeed)
	d.require(p, cornerFields, seen, "b", aFlangeNeed)
	return c
}

func (d *decoder) sizedHole(p *path) (h sizes.Hole) {
	seen := d.object(p, sizedHoleNeed, sizedHoleFields, func(key string, p *path) {
		switch key {
		case "name":
			h.Name = d.word(p, nameNeed)
		case "on":
			h.On = d.text(p, onNeed)
		case "side":
			h.Side = d.word(p, sideNeed)
		case "from_end":
			h.FromEnd = d.flag(p, boolNeed)
		case "x":
			h.X = d.length(p)
		case "y":
			h.Y = d.length(p)
		case "shape":
			h.Shape = sizes.HoleShape(d.enum(p, sizes.ShapeWords))
		case "wide":
			h.Wide = d.length(p)
		case "long":
			h.Long = d.length(p)
		case "turn":
			h.Turn = d.degrees(p)
		case "points":
			h.Points = d.sizedPoints(p)
		case "drilled":
			h.Drilled = d.flag(p, boolNeed)
		case "count":
			h.Count = d.whole(p)
		case "rows":
			h.Rows = d.whole(p)
		case "step":
			h.Step = d.length(p)
		case "row_step":
			h.RowStep = d.length(p)
		case "mirrored":
			h.Mirrored = d.flag(p, boolNeed)
		}
	})
	d.require(p, sizedHoleFields, seen, "on", onNeed)
	return h
}

// whole takes how often something stands in a pattern. What is no whole number of the range is refused here: an int
// could not hold it.
func (d *decoder) whole(p *path) int {
	v := d.number(p, madeNeed)
	if d.err == nil && !(v >= 1 && v <= sizes.MaxMade && v == float64(int(v))) {
		d.fail(p, number(v), madeNeed())
	}
	if d.err != nil {
		return 0
	}
	return int(v)
}
