package fold

// This file says what kind of joint a seam makes, how it is to be closed, and how wide it may be.

// Joints are the kinds of joint that a seam can make, by how its two panels lie.
var Joints = []string{"outside corner, open", "outside corner, closed", "butt", "lap", "fillet"}
