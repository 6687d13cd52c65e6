// Package metal holds what the kernel needs to know of the sheet's metal. Every
// figure says where it comes from.
package metal

import "strings"

// Metal is a sheet metal by name.
type Metal struct {
	Name    string
	Aliases []string // other names it goes by, lower case
	Density float64  // kg/m3
	Source  string   // of the density
}

const lbPerIn3 = 27679.9047 // kg/m3 in one lb/in3, by definition of pound and inch

// Metals, in the order they are offered.
var Metals = []Metal{
	{"Stainless 304", []string{"304", "stainless", "304 stainless", "stainless steel", "304 annealed"}, 0.289 * lbPerIn3, "published: AISI 304 data sheet"},
	{"Mild steel", []string{"steel", "cold-rolled steel", "low-carbon steel", "cr steel"}, 0.284 * lbPerIn3, "published: textbook table for A36 steel"},
	{"Galvanized steel", []string{"galvanised steel", "galvanized", "galvanised", "zinc-coated steel"}, 0.284 * lbPerIn3, "published: textbook table for A36 steel; its zinc not counted"},
	{"Aluminium 5052-H32", []string{"5052-h32", "5052", "aluminium 5052", "aluminum 5052-h32"}, 0.097 * lbPerIn3, "published: Aluminum Association data"},
	{"Aluminium 3003-H14", []string{"3003-h14", "3003", "aluminium 3003", "aluminum 3003-h14"}, 0.099 * lbPerIn3, "published: aluminium property table"},
	{"Aluminium 6061-T6", []string{"6061-t6", "6061", "aluminium 6061", "aluminum 6061-t6"}, 0.098 * lbPerIn3, "published: aluminium property table"},
	{"Copper", []string{"c11000", "copper c11000"}, 0.322 * lbPerIn3, "from memory: C11000 handbook value"},
	{"Brass", []string{"c26000", "cartridge brass"}, 0.308 * lbPerIn3, "published: C26000 alloy data"},
}

// ByName finds a metal by its name or another it goes by, whatever the case.
func ByName(name string) (Metal, bool) {
	n := strings.ToLower(strings.TrimSpace(name))
	for _, m := range Metals {
		if strings.ToLower(m.Name) == n {
			return m, true
		}
		for _, a := range m.Aliases {
			if a == n {
				return m, true
			}
		}
	}
	return Metal{}, false
}

// RuleK is the K factor used where the part gives none: 0.0078/0.01743, from the
// bend allowance formula (0.01743 R + 0.0078 T) N of FAA-H-8083-31, chapter 4.
const RuleK = 0.0078 / 0.01743

// RuleKSource says where RuleK comes from.
const RuleKSource = "published: FAA-H-8083-31 ch. 4, (0.01743 R + 0.0078 T) N"
