package geom

// This file holds a sort for lists of any kind.

// SortStable sorts x by cmp (less than 0: a goes before b) and leaves equal ones in their order, as
// slices.SortStableFunc does. It is a plain merge sort: of a kind that is sorted once it makes a tenth of the
// code, and the page's programs are smaller by it.
//
//go:noinline
func SortStable[T any](x []T, cmp func(a, b T) int) {
	n := len(x)
	if n < 2 {
		return
	}
	merged := make([]T, n)
	for w := 1; w < n; w *= 2 {
		for lo := 0; lo < n; lo += 2 * w {
			i, mid, hi := lo, min(lo+w, n), min(lo+2*w, n)
			j := mid
			for k := lo; k < hi; k++ {
				if j >= hi || i < mid && cmp(x[j], x[i]) >= 0 {
					merged[k] = x[i]
					i++
				} else {
					merged[k] = x[j]
					j++
				}
			}
		}
		copy(x, merged)
	}
}
