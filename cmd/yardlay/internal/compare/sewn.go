package compare

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/report"
	"yardlay/cost"
	"yardlay/shapes/measure"
	"yardlay/shapes/say"
)

// leastSewn is by how much what is sewn has to differ to be told, mm.
const leastSewn = 5.0

// sewnMore works out how much more is sewn and cut for a row than for the job as written.
func (w *Row) sewnMore(written *Row, d *Difference) {
	if w.priced == nil || written.priced == nil {
		return
	}
	d.Seam, d.Pieces = w.priced.Seam-written.priced.Seam, w.priced.Pieces-written.priced.Pieces
	if math.Abs(d.Seam) < leastSewn {
		d.Seam = 0
	}
	if w.priced.Rated && written.priced.Rated && w.priced.Labour.Currency == written.priced.Labour.Currency {
		d.Labour = cost.Money{Minor: w.priced.Labour.Minor - written.priced.Labour.Minor,
			Currency: w.priced.Labour.Currency}.Amount()
	}
}

// Sewn says how much more or less is sewn for a row that cuts a part otherwise, and what that costs:
// "3 1/8 yd more of seam and 10 pieces more to sew, 9.00 USD of labour"; "" where nothing is.
func (w Row) Sewn(unit measure.Unit, currency string) string {
	d := w.Difference
	if d == nil || d.Seam == 0 || !w.cutsAnew() {
		return ""
	}
	text := report.MoreSeam(d.Seam, unit) + " to sew"
	if n := d.Pieces; n != 0 {
		text += fmt.Sprintf(", %s %s to cut", say.Count(max(n, -n), "piece"),
			map[bool]string{true: "fewer", false: "more"}[n < 0])
	}
	switch labour := strings.TrimPrefix(d.Labour, "-"); {
	case d.Labour == "":
	case strings.Trim(labour, "0.") == "":
		text += "; labour is the same, in quarters of an hour"
	default:
		text += fmt.Sprintf("; labour %s %s %s", labour, currency,
			map[bool]string{true: "less", false: "more"}[labour != d.Labour])
	}
	return text
}

// cutsAnew says whether a row changes a part, or where it is pieced, and not its cloth alone.
func (w Row) cutsAnew() bool {
	if w.Job == nil {
		return false
	}
	if w.elsewhere != "" {
		return true
	}
	for _, c := range w.Changes {
		name, _, _ := strings.Cut(strings.TrimPrefix(c.Key, "part."), ".")
		for _, p := range w.Job.Parts {
			if strings.EqualFold(strings.ReplaceAll(p.Called, " ", "-"), strings.ReplaceAll(name, " ", "-")) &&
				!slices.ContainsFunc(w.Job.Cloths, func(cl job.Cloth) bool { return strings.EqualFold(cl.ID, name) }) {
				return true
			}
		}
	}
	return false
}

// leaning names the parts that lean further off the grain in the best row than in the job as written.
func (r *Result) leaning() (names []string) {
	best := r.Best()
	if best == nil || best.Job == nil {
		return nil
	}
	for _, p := range best.Job.Parts {
		for _, was := range r.Rows[0].Job.Parts {
			if was.Name == p.Name && p.Tilt > was.Tilt && !slices.Contains(names, p.Called) {
				names = append(names, p.Called)
			}
		}
	}
	return names
}
