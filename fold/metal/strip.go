package metal

// This file holds Strip, one test bend as it was measured.

// Strip is one test bend: a strip of known length, bent once, with what was measured of it.
// Lengths in one unit, whichever; Study wants mm. What was not measured is nil or 0 as said.
type Strip struct {
	Name      string     // "" if none was given
	Metal     string     // as the part names its metal
	Brake     string     // on which it was bent, in the maker's words; "" if not said
	Thickness float64    // as measured
	Length    float64    // of the strip before bending; 0 where only the angle was of interest
	Legs      [2]float64 // after bending; 0, 0 with Length 0
	Inside    bool       // Legs were measured along the inside faces, else outside
	Angle     float64    // bend angle as it came out, degrees from flat, over 0 to 180
	Set       *float64   // the angle the leaf was stopped at, degrees; nil if not noted
	Radius    *float64   // inside radius as measured on the strip (gauge or drill shank); nil if not
	Nose      float64    // nose radius, or the radius that the brake was set for; 0 if not said
}

// Own is a metal as the maker describes it, or what the maker knows better of one in the list.
type Own struct {
	Name    string
	Like    string     // the metal of the list that it takes everything else from; "" for none
	Density float64    // kg/m3; 0 where not given
	Modulus float64    // GPa; 0 where not given
	Yield   [2]float64 // MPa, least and greatest; 0, 0 where not given
	LeastRT *float64   // least inside radius over thickness, whatever the direction; nil where not given
	K       *float64   // nil where not given
	Note    string     // where the figures come from, in the maker's words
}
