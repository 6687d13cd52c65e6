package fold

import "dryfold/fold/geom"

// Severity of a trouble.
type Severity int

// Severities, mildest first.
const (
	Note  Severity = iota // worth knowing
	Watch                 // it can be made, with attention
	Stop                  // it can't be made so
)

// String is "note", "watch" or "stop".
func (s Severity) String() string { return [...]string{"note", "watch", "stop"}[s] }

// Trouble is anything found that would spoil the part. Have and Need are the
// figures it turns on (mm or degrees), nil where there is none. Message says in a
// fabricator's words what is wrong and what would do.
type Trouble struct {
	Severity Severity
	Rule     string // one of Rules
	Kind     string // what Name names: "panel", "bend", "seam", "hole", or "" for the blank
	Name     string
	At       geom.Vec2 // place on the blank, mm
	Have     *float64
	Need     *float64
	Message  string
}
