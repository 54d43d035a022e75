package record

import (
	"slices"
	"strings"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/shapes/say"
)

// kinds are the garments that drafts make; what is not among them is sewn to one of these, or of any kind.
var kinds = []struct {
	kind   string
	drafts []string
}{
	{"corset", []string{"corset"}},
	{"bodice", []string{"strapless-bodice", "bodice-block"}},
	{"skirt", []string{"circle-skirt", "gored-skirt", "gathered-skirt", "pleated-skirt", "petal", "handkerchief",
		"overskirt"}},
	{"petticoat", []string{"petticoat", "hoop-petticoat", "net-layers"}},
	{"cape", []string{"cape", "hood"}},
	{"veil", []string{"veil"}},
}

// otherKind is that of gowns which are none of the others.
const otherKind = "gown of another kind"

// KindOf says which garments a job makes: "skirt", "bodice and skirt". Gowns of one kind are set beside each other.
func KindOf(j *job.Job) string {
	var found []string
	for _, k := range kinds {
		if slices.ContainsFunc(j.Parts, func(p job.Part) bool { return slices.Contains(k.drafts, p.Draft) }) {
			found = append(found, k.kind)
		}
	}
	if len(found) == 0 {
		return otherKind
	}
	return say.InWords(found, "and")
}

// several is a kind where there are more of it: "skirts", "bodices and skirts".
func several(kind string) string {
	if kind == otherKind {
		return "gowns of another kind"
	}
	return strings.NewReplacer(", ", "s, ", " and ", "s and ").Replace(kind) + "s"
}
