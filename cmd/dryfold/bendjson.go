package main

// What bend -json prints: mm and degrees, the keys as check's where they say the same.

import (
	"math"

	"dryfold/fold"
	"dryfold/fold/metal"
)

// bendJSON is the answer as -json prints it. Its keys are a promise.
type bendJSON struct {
	Thickness   float64    `json:"thickness_mm"`
	Gauge       *gaugeJSON `json:"gauge"` // that the thickness was given as, else null
	Radius      float64    `json:"inside_radius_mm"`
	Angle       float64    `json:"angle_deg"`          // from flat
	Included    float64    `json:"included_angle_deg"` // 180 less that: negative for a teardrop
	Metal       *string    `json:"metal"`              // null where none was named
	K           float64    `json:"k"`
	KSpread     float64    `json:"k_spread"`
	KSource     string     `json:"k_source"`
	KKind       string     `json:"k_kind"`
	Rule        string     `json:"rule"` // "" where K was given or measured
	Allowance   float64    `json:"allowance_mm"`
	PerDegree   float64    `json:"allowance_per_deg_mm"`
	Setback     float64    `json:"setback_mm"`
	MoldSetback *float64   `json:"mold_setback_mm"` // null at 180 and over
	Deduction   float64    `json:"deduction_mm"`
	// MoldDeduction is that of sizes to the outside sharps; null at 180 and over.
	MoldDeduction *float64   `json:"mold_deduction_mm"`
	Bends         int        `json:"bends"`
	Developed     *float64   `json:"developed_mm"` // null without legs
	Legs          []legJSON  `json:"legs"`
	Marks         []markJSON `json:"marks"`

	Others []otherJSON `json:"others"`
	Nexts  []nextJSON  `json:"nexts"`

	Least          []fold.LeastRadius `json:"least_radius"`
	Set            *float64           `json:"set_angle_deg"` // by the maker's test bends, null without
	SetDoubt       *float64           `json:"set_angle_doubt_deg"`
	SetSource      string             `json:"set_angle_source"`
	SetLeast       *[2]float64        `json:"set_angle_least_deg"` // a lower limit, never the angle itself
	SetLeastSource string             `json:"set_angle_least_source"`
	Notes          []string           `json:"notes"`
}

// legJSON is one leg of the strip; Flat is its straight length between tangent lines.
type legJSON struct {
	Outside float64 `json:"outside_mm"`
	Inside  float64 `json:"inside_mm"`
	Flat    float64 `json:"flat_mm"`
}

// markJSON is where one bend lies on the flat strip, from the first leg's end.
type markJSON struct {
	From float64 `json:"tangent_from_mm"`
	Line float64 `json:"bend_line_mm"`
	To   float64 `json:"tangent_to_mm"`
}

// otherJSON is the bend by another rule; the figures are null where the rule has no
// answer, and Why says why.
type otherJSON struct {
	Rule       string   `json:"rule"`
	Name       string   `json:"name"`
	Source     string   `json:"source"`
	K          *float64 `json:"k"`
	Allowance  *float64 `json:"allowance_mm"`
	Deduction  *float64 `json:"deduction_mm"`
	Developed  *float64 `json:"developed_mm"`
	Difference *float64 `json:"difference_mm"` // how much longer the strip would be, over all its bends
	Why        string   `json:"why,omitempty"`
}

// nextJSON is the bend with another radius or K.
type nextJSON struct {
	About      string   `json:"about"` // "radius", "k" or "spread"
	Radius     float64  `json:"inside_radius_mm"`
	K          float64  `json:"k"`
	Allowance  float64  `json:"allowance_mm"`
	Deduction  float64  `json:"deduction_mm"`
	Developed  *float64 `json:"developed_mm"`
	Difference float64  `json:"difference_mm"`
}

// mark is where a bend lies on the flat strip, mm from the first leg's end: its
// tangent lines and between them its bend line.
type mark struct{ from, line, to float64 }

func marksOf(a metal.Answer) []mark {
	var out []mark
	at := 0.0
	for i := 0; i+1 < len(a.Flats); i++ {
		at += a.Flats[i]
		out = append(out, mark{at, at + a.Allowance/2, at + a.Allowance})
		at += a.Allowance
	}
	return out
}

func bendJSONOf(q question, a metal.Answer) bendJSON {
	known := len(a.Flats) > 0 // legs were given
	j := bendJSON{
		Thickness: a.Thickness, Radius: a.Radius, Angle: a.Angle, Included: a.Included,
		K: a.K, KSpread: a.KSpread, KSource: a.KSource.String(), KKind: a.KSource.Kind.String(), Rule: a.Rule,
		Allowance: a.Allowance, PerDegree: a.Allowance / a.Angle, Setback: a.Setback, Deduction: a.Deduction,
		Bends: a.Bends, Developed: only(known, a.Developed), Notes: append(q.notes, a.Notes...),
	}
	if q.gauge != nil {
		g := gaugeOf(*q.gauge)
		j.Gauge = &g
	}
	if name := metalName(q, a); name != "" {
		j.Metal = &name
	}
	j.MoldSetback = only(!math.IsInf(a.Mold, 0), a.Mold)
	j.MoldDeduction = only(!math.IsInf(a.Mold, 0), moldDeduction(a))
	for i, f := range a.Flats {
		j.Legs = append(j.Legs, legJSON{a.Outside[i], a.Inside[i], f})
	}
	for _, m := range marksOf(a) {
		j.Marks = append(j.Marks, markJSON{m.from, m.line, m.to})
	}
	for _, o := range a.Others {
		ok := o.Why == ""
		j.Others = append(j.Others, otherJSON{o.Rule, o.Name, o.Source.String(), only(ok, o.K), only(ok, o.Allowance),
			only(ok, o.Deduction), only(ok && known, o.Developed), only(ok, o.Differs), o.Why})
	}
	for _, n := range a.Nexts {
		j.Nexts = append(j.Nexts, nextJSON{n.About, n.Radius, n.K, n.Allowance, n.Deduction, only(known, n.Developed), n.Differs})
	}
	j.Least = fold.LeastRadii(a.Least)
	if a.Set > 0 {
		j.Set, j.SetDoubt, j.SetSource = &a.Set, &a.SetDoubt, a.SetSource.String()
	}
	if a.SetLeast.Hi > 0 {
		j.SetLeast, j.SetLeastSource = &[2]float64{a.SetLeast.Lo, a.SetLeast.Hi}, a.SetLeastSource.String()
	}
	return j
}

// only is v where there is one, else null.
func only(is bool, v float64) *float64 {
	if !is {
		return nil
	}
	return &v
}

// metalName is the metal as the lists name it, else as it was named.
func metalName(q question, a metal.Answer) string {
	if a.Known {
		return a.Metal.Name
	}
	return q.ask.Metal
}
