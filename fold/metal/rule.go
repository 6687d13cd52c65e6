package metal

import (
	"fmt"
	"math"
	"strings"
)

// This file holds the allowance rules and the K that each comes to.

// Rule is a published way to reckon a bend's allowance.
type Rule struct {
	ID      string
	Name    string
	Formula string // N the bend angle in degrees, R the inside radius, T the thickness
	Source  Source
	Note    string // where it holds, and how it is taken where it says nothing
}

// DefaultRule is the ID of the rule used where the maker chose none.
const DefaultRule = "faa"

// Rules, in the order they are offered.
//
// The FAA and Machinery's Handbook rules print pi/180 and pi/2 rounded, and the K given here takes
// that up, so that angle*(R + K*T) is the printed rule's own allowance.
var Rules = []Rule{
	{"faa", "FAA-H-8083-31", "(0.01743 R + 0.0078 T) N", Source{Kind: Published, Title: "FAA-H-8083-31 ch. 4, (0.01743 R + 0.0078 T) N"},
		"Found by trial on aircraft sheet. Its 0.01743 stands for a degree's 0.017453, so K falls a little as R/T grows."},
	{"din", "DIN 6935", "K = k/2, k = 0.65 + 0.5 log10(R/T), at most 1", Source{Kind: Published, Memory: true, Title: "DIN 6935, k = 0.65 + 0.5 log10(R/T), at most 1, K = k/2"},
		"Over R/T 5, k is 1. At R 0 the logarithm has no value and k is taken as 0. The standard makes no deduction at included angles over 165 degrees; here its formula holds there too."},
	{"machinery", "Machinery's Handbook", "(c T + 1.57 R) N/90, c 0.55, 0.64 or 0.71 by the metal", Source{Kind: Published, Memory: true, Title: "Machinery's Handbook, (c T + 1.57 R) N/90"},
		"c is 0.55 for soft copper and brass, 0.64 for half-hard copper and brass, soft steel and aluminium, 0.71 for cold-rolled steel, spring steel, bronze and hard copper."},
	{"table", "K by R/T", "K 0.33 to 0.5 by R/T and the metal's temper", Source{Kind: Published, Title: `Wikipedia "Bending (metalworking)", table of K for air bending`},
		"For air bending in a press, in steps: R up to T, up to 3 T, over 3 T."},
}

// RuleByName finds a rule by its ID or name, or the beginning of one: "FAA", "DIN 6935", "Machinery's Handbook".
func RuleByName(text string) (Rule, bool) {
	n := key(text)
	for i, names := range [][]string{{"faa", "navy"}, {"din"}, {"machinery", "mh"}, {"table", "kby", "ktable", "kfactortable"}} {
		for _, p := range names {
			if strings.HasPrefix(n, p) {
				return Rules[i], true
			}
		}
	}
	return Rule{}, false
}

// ByRule is the K for which angle*(R + K*T) is the rule's own allowance, in the metal m (known false:
// the metal is not known). Radius and thickness in one unit. K is never under 0, where very large
// radii would bring the rules' rounded constants. It is an error where the rule is not one of Rules,
// a length is impossible, or the rule says nothing of the metal.
func ByRule(rule string, m Metal, known bool, radius, thickness float64) (k float64, src Source, err error) {
	if !(thickness > 0) || !(radius >= 0) || math.IsInf(radius, 0) || math.IsInf(thickness, 0) {
		return 0, Source{}, fmt.Errorf("a thickness over 0 and an inside radius of 0 or more are needed, not %g and %g", thickness, radius)
	}
	for _, r := range Rules {
		if r.ID == rule {
			src = r.Source
		}
	}
	rt := radius / thickness
	switch rule {
	case "faa":
		k = (faaR/degree-1)*rt + faaT/degree
	case "din":
		k = dinK(rt) / 2
	case "machinery":
		if !known || m.Constant == 0 {
			return 0, Source{}, fmt.Errorf("Machinery's Handbook has 0.55 for soft copper and brass, 0.64 for half-hard copper and brass, soft steel and aluminium, 0.71 for cold-rolled steel, spring steel, bronze and hard copper: %s", classOf(m, known))
		}
		k = (m.Constant + (machineryR-math.Pi/2)*rt) / (math.Pi / 2)
		src.Title = fmt.Sprintf("Machinery's Handbook, (%g T + 1.57 R) N/90", m.Constant)
		if m.Family == "stainless" {
			src = Source{Kind: Assumed, Title: src.Title + ", which does not name stainless: as cold-rolled steel"}
		}
	case "table":
		if !known || m.Temper == NoTemper {
			return 0, Source{}, fmt.Errorf("the table of K by R/T has a column for soft metal and aluminium, medium, hard metal and steel: %s", classOf(m, known))
		}
		k = tableK[m.Temper-Soft][tableRow(rt)]
	default:
		return 0, Source{}, fmt.Errorf("there is no rule %q; the rules are faa, din, machinery, table", rule)
	}
	return math.Max(k, 0), src, nil
}

// HandbookMetal is a metal that Machinery's Handbook names for its rule and the list here does not have: of it that rule's
// constant alone is known. ByRule takes it for the rule "machinery".
func HandbookMetal(name string) (Metal, bool) {
	for _, word := range []string{"bronze", "hard copper", "spring steel"} {
		if key(name) == key(word) {
			return Metal{Name: strings.TrimSpace(name), Constant: .71}, true
		}
	}
	return Metal{}, false
}

// classOf asks for the metal whose class a rule needs.
func classOf(m Metal, known bool) string {
	if !known || m.Name == "" {
		return "name a metal of the list"
	}
	return "name a metal of the list that " + m.Name + " is like"
}

// The constants as the rules print them.
const (
	degree     = math.Pi / 180
	faaR, faaT = 0.01743, 0.0078 // per degree
	machineryR = 1.57            // per 90 degrees
)

// tableK is K by Temper, then R up to T, up to 3T, over 3T.
var tableK = [3][3]float64{{.33, .40, .50}, {.38, .43, .50}, {.40, .45, .50}}

// tableRow is the column of tableK for R/T; a bound belongs to the range below it.
func tableRow(rt float64) int {
	switch {
	case rt <= 1+ratioSame:
		return 0
	case rt <= 3*(1+ratioSame):
		return 1
	}
	return 2
}

// dinK is DIN 6935's k for R/T.
func dinK(rt float64) float64 {
	if rt > 5*(1+ratioSame) {
		return 1
	}
	if rt == 0 {
		return 0
	}
	return math.Max(0, .65+.5*log10(rt))
}

// log10 is the decimal logarithm of x, over 0, by operations alone that are the same in every
// build of the program: x = m 2^e, then ln m = 2 artanh((m-1)/(m+1)) as a series.
func log10(x float64) float64 {
	m, e := math.Frexp(x)
	if m < math.Sqrt2/2 {
		m *= 2
		e--
	}
	z := (m - 1) / (m + 1) // under 0.1716 in size: the series' 13th term is under 1e-20
	z2, p, sum := z*z, z, 0.0
	for n := 1; n < 26; n += 2 {
		sum += p / float64(n)
		p *= z2
	}
	return (2*sum + float64(e)*math.Ln2) / math.Ln10
}
