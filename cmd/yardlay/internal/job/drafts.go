package job

import (
	"slices"

	"yardlay/shapes/draft"
)

// Key describes a key of the job file for its reference.
type Key struct {
	Name    string
	Kind    Kind   // what values it takes
	Default string // what stands in for it; "" when it has to be given
	Meaning string
}

// Same says whether the reference says the same of two keys.
func (k Key) Same(other Key) bool {
	return k.Name == other.Name && k.Kind.String() == other.Kind.String() && k.Default == other.Default &&
		k.Meaning == other.Meaning
}

// family is one way to draw a part. To add one, write its read function in a
// file of its family and add an entry here: the strict reading, the hints and
// the reference follow from it.
type family struct {
	name    string
	about   string
	example string // the keys of a part, on one line
	keys    []Key  // its own keys, beyond those of every part
	grain   freedom
	flat    bool // its length is not how long the gown is worn
	armhole bool // it has armholes that sleeves can be set into
	read    func(p *partTable) []Layer
}

var drafts = []family{
	circleSkirt, goredSkirt, gatheredSkirt, pleatedSkirt, petals, handkerchief, overskirt, petticoat, hoopPetticoat,
	netLayers, strip, godet, flounce,
	corset, straplessBodice, bodiceBlock, sleeve, peplum, waistband, collar, cape, hood, veil,
	binding, sash, bow, ties, loops, rectangle, outlineFile,
}

// renamed says what to write for names that drafts no longer have.
var renamed = map[string]string{
	"bias-binding": `draft = "binding"`, "straight-binding": `draft = "binding", with cut = "straight"`,
}

// family returns the one that a part is drawn by; one that nobody knows is flat.
func (p Part) family() family {
	i := slices.IndexFunc(drafts, func(d family) bool { return d.name == p.Draft })
	if i < 0 {
		return family{flat: true}
	}
	return drafts[i]
}

// Hangs says whether the length of a part is how long the gown is worn.
func (p Part) Hangs() bool { return !p.family().flat }

func draftNames() []string {
	names := make([]string, len(drafts))
	for i, d := range drafts {
		names[i] = d.name
	}
	return names
}

// draftKeys returns the keys of a draft's own; none of one that is not there.
func draftKeys(name string) []Key {
	for _, d := range drafts {
		if d.name == name {
			return d.keys
		}
	}
	return nil
}

// Keys that several drafts share.
var (
	liningKey = Key{"lining_shorter", lengthOr0, "1 in",
		"how much shorter the further cloths (linings) are at the hem"}
	sewnInKey = Key{"lining_shorter", lengthOr0, "0",
		"how much shorter the further cloths (linings) are at the lower edge"}
	circleKey = Key{"circle", circleFraction, "",
		"`full`, `three-quarter`, `half`, `quarter`, or a fraction of a circle such as 1.25 or \"3/8\""}
	waistEaseKey = Key{"waist_ease", signed, "0",
		"added to the waist; 1/2 to 3/4 in is usual, or that of the bodice it is `sewn_to`"}
	waistKey = Key{"waist", length.of("waist_girth"), "`waist_girth`", "finished waist"}
	countKey = Key{"count", count(1, draft.MaxCount), "1", "how many the gown has"}
)
