package sizes

// The words by which files and reports know a form's values, in the values' order; "" stands for one that is not
// written.
var (
	FacesWords  = []string{"outside", "inside", "card"}
	CloseWords  = []string{"", "edges", "lap", "mitre", "apart"}
	ReliefWords = []string{"snipped", "drilled", "sawn", "none"}
	ShapeWords  = []string{"round", "slot", "window", "cutout"}
	WayWords    = []string{"sides", "stations", "angles"}
)

// String is the word of part files, "" for Usual.
func (c Closing) String() string { return CloseWords[c] }

// String is the word of part files.
func (k ReliefKind) String() string { return ReliefWords[k] }
