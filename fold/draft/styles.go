package draft

// Style is how a class of line or text looks. Lengths in mm; colours are three or
// six hexadecimal digits after #, "" for none.
type Style struct {
	Fill, Stroke string
	Width        float64
	Dash         []float64
	Round        bool // ends and corners

	Size  float64 // of text
	Bold  bool
	Serif bool
}

// Styles has the style of each class. They are drawn as attributes, not as a style
// sheet: they hold in every reader of SVG and under every content security policy.
// Line kinds follow ISO 128: outlines wide continuous, bend lines and dimensions
// narrow continuous, centre lines long-dash dotted.
var Styles = map[string]Style{
	"outline":   {Stroke: "#000", Width: 0.5, Round: true},
	"metal":     {Fill: "#f4f5f3"},
	"bendline":  {Stroke: "#000", Width: 0.25},
	"sight":     {Stroke: "#000", Width: 0.3, Dash: []float64{3.2, 0.7, 1.1, 0.7}}, // long-dashed short-dashed, ISO 128 no. 08
	"tangent":   {Stroke: "#555", Width: 0.18, Dash: []float64{1.6, 0.8}},
	"centre":    {Stroke: "#000", Width: 0.2, Dash: []float64{2.4, 0.6, 0.4, 0.6}},
	"diagonal":  {Stroke: "#555", Width: 0.2, Dash: []float64{0.35, 1.1}},
	"dimline":   {Stroke: "#555", Width: 0.18},
	"extension": {Stroke: "#b4b4b4", Width: 0.13},
	"leader":    {Stroke: "#777", Width: 0.13},
	"datum":     {Stroke: "#000", Width: 0.7},
	"sheetedge": {Stroke: "#999", Width: 0.18, Dash: []float64{4, 0.8, 0.5, 0.8, 0.5, 0.8}},
	"rule":      {Stroke: "#000", Width: 0.3},
	"hair":      {Stroke: "#aaa", Width: 0.18},
	"box":       {Fill: "#fff", Stroke: "#000", Width: 0.3},
	"tick":      {Stroke: "#000", Width: 0.25},
	"arrow":     {Stroke: "#000", Width: 0.35, Round: true},
	"dot":       {Fill: "#000"},
	"paper":     {Fill: "#fff"},
	"here":      {Fill: "#c9cbc8", Stroke: "#000", Width: 0.4},              // this page in a map of pages
	"strip":     {Fill: "#e6e8e6", Stroke: "#000", Width: 0.4, Round: true}, // metal in section
	"moving":    {Fill: "#8f968f", Stroke: "#000", Width: 0.4, Round: true}, // metal that a swing turns, in section
	"held":      {Stroke: "#000", Width: 0.35, Round: true},                 // thin metal in section, as a line
	"moved":     {Stroke: "#000", Width: 0.9, Round: true},                  // thin metal that a swing turns
	"cutcard":   {Stroke: "#999", Width: 0.18, Dash: []float64{1.6, 0.8}},   // where job cards are cut apart
	"papercut":  {Stroke: "#aaa", Width: 0.35},                              // where paper is cut, not metal
	"sheet":     {Fill: "#f4f5f3", Stroke: "#000", Width: 0.4},
	"tool":      {Fill: "#d9d6cd", Stroke: "#777", Width: 0.25, Round: true}, // a part of the brake, in section

	"cardno":   {Size: 11, Bold: true},
	"cardname": {Size: 5.4, Bold: true},
	"figure":   {Size: 8.6, Bold: true}, // read at arm's length

	"name":  {Size: 7.2, Bold: true, Serif: true},
	"head":  {Size: 3.6, Bold: true},
	"fact":  {Size: 4.2, Bold: true},
	"body":  {Size: 3.1},
	"bold":  {Size: 3.1, Bold: true},
	"note":  {Size: 2.8},
	"loud":  {Size: 3.3, Bold: true},
	"dim":   {Size: 2.9},
	"dimb":  {Size: 2.9, Bold: true},
	"small": {Size: 2.4},
	"panel": {Size: 2.6, Fill: "#555"}, // a panel's name
	"ball":  {Size: 2.9, Bold: true},
	"way":   {Size: 2.9},
	"stamp": {Size: 5, Bold: true}, // THIS FACE UP
	"under": {Size: 3},             // what stands below it
}
