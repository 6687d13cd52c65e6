package sizes

// Bounds on what tools may be.
const (
	// MaxDrills is how many drills may be owned: two full sets of 115 and a few over.
	MaxDrills = 250
	// MaxDrill is the largest (mm): no hand drill turns a larger one; hole saws count.
	MaxDrill = 250
	// LeastTool is the least of any of their figures (mm, or degrees): finer cuts no one makes by hand.
	LeastTool = 0.05
)
