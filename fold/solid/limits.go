package solid

// Tolerances of this package. Lengths are in the caller's unit (mm in the kernel).
const (
	// areaNoise: triangles that cover a region add up to its area within this part of
	// the outline's box; more says that the region crosses or touches itself. Sums of
	// a million rounded products stay well under it.
	areaNoise = 1e-9

	// certified: a quick distance is taken when its upper and lower bound are this
	// close. Above rounding on a sheet of a few metres (else the slow way is gone), a
	// hundredth of the 1e-9 mm that distances are tested to.
	certified = 1e-11
	// enough: the iteration stops when its bounds are this close, which leaves rounding the rest
	// of certified.
	enough = certified / 4
	// most: steps of the iteration; it takes 3 to 6 as a rule, a dozen at most on bodies of some
	// 30 corners.
	most = 40
	// thin: triangles whose height is under the root of this part of their longest side have
	// the height made square to the side twice, which leaves nothing but rounding.
	thin = 1e-4
	// parallel: edges whose cross product is shorter than this are parallel; what the
	// depth can be out by is this times their length.
	parallel = 1e-13
	// onFace: a point that is farther out of a face than this part of the body's greatest coordinate is
	// outside; rounding stays under it.
	onFace = 5e-15
	// inPlane: edges are looked at as lying in a slab's face up to this part of the bodies' size (and 1 mm) off it.
	inPlane = 1e-9
	// crossing: segments whose squared sine is over this cross clearly enough to be taken by
	// their lines alone; the distance then errs by rounding only.
	crossing = 1e-6
	// slowLimit: the slow way to triangulate, of order n^2 to n^3, is tried up to this
	// many points (a second or so).
	slowLimit = 2000

	// crawl: a step shorter than this part of the motion is worth looking for a better
	// direction.
	crawl = 0.02
	// sectionHair: sections at the ends of a stretch are taken this part of it inside, where end faces square to it do not lie
	// in the section's plane.
	sectionHair = 1e-3
	// hullCorners: with more, looking at them all costs more than going down the tree saves.
	hullCorners = 256
	// hullStep: a step that the hulls allow is taken if it is this part of what is asked for; else the pieces are
	// looked at, which may allow more.
	hullStep = 0.1
	// keptDirs is how many directions are tried before a pair's own is sought.
	keptDirs = 4
)
