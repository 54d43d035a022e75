package plan

import (
	"errors"
	"fmt"
	"slices"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/nest"
	"yardlay/shapes/draft"
	"yardlay/shapes/measure"
	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

// maxCopies is the most that is laid on one cloth; beyond it the search would
// not end within a sitting. Ten layers of net take 40.
const maxCopies = 500

// maxInAll is the most that is laid on all cloths of a job: what can be laid in rows,
// judged and reported at once when a run is interrupted.
const maxInAll = 2000

// tooMany refuses more pieces than a job is laid with; nil when there are not.
func tooMany(j *job.Job, spreads []Spread, gowns int) strict.Errors {
	sum := 0
	for _, s := range spreads {
		sum += s.Copies() * gowns
	}
	if sum <= maxInAll {
		return nil
	}
	return strict.Errors{briefly(fmt.Sprintf("%d pieces, the most is %d", sum, maxInAll), j.ErrorAt(spreads[0].Cloth.At,
		say.Errorf("%d pieces on all cloths, the most of a job is %d", sum, maxInAll).
			Hint("share them out over several jobs")))}
}

// refuse says why a spread cannot be laid, as errors at the places of its
// parts; nil when it can. Lengths are shown in unit.
func (s Spread) refuse(j *job.Job, problem nest.Problem, unit measure.Unit) strict.Errors {
	if n := s.Copies(); n > maxCopies {
		return strict.Errors{briefly(fmt.Sprintf("%d pieces on %s, the most is %d", n, s.Cloth.ID, maxCopies),
			j.ErrorAt(s.Cloth.At, say.Errorf("%d pieces on `%s`, the most is %d", n, s.Cloth.ID, maxCopies).
				Hint("share them out over two jobs")))}
	}
	var bad strict.Errors
	for i := range problem.Pieces {
		alone := problem
		alone.Pieces = problem.Pieces[i : i+1]
		err := alone.Check()
		var size *nest.SizeError
		switch {
		case errors.As(err, &size) && size.Repeat:
			bad = append(bad, s.offRepeat(j, i, size, unit))
		case errors.As(err, &size):
			bad = append(bad, briefly(s.widths(false, size, unit),
				j.ErrorAt(s.Cuts[i].Part.At, s.tooWide(i, alone, size, unit))))
		case err != nil:
			bad = append(bad, j.ErrorAt(s.Cuts[i].Part.At, err))
		}
	}
	var size *nest.SizeError
	if bad == nil && errors.As(problem.Check(), &size) && size.Repeat {
		bad = append(bad, s.offRepeat(j, size.Piece, size, unit))
	}
	if bad == nil {
		bad = s.tooLong(j, problem, unit)
	}
	if least := problem.LeastArea() / problem.Strip.Width; bad == nil && least > nest.Reach {
		most := measure.Format(nest.Reach, measure.CounterUnit(j.Unit))
		bad = append(bad, briefly(fmt.Sprintf("%s takes more than the %s of a marker", s.Cloth.ID, most),
			j.ErrorAt(s.Cloth.At, say.Errorf(
				"`%s` takes more than %s of cloth, the longest marker is %s", s.Cloth.ID,
				measure.Format(least, measure.CounterUnit(j.Unit)), most).
				Hint("share the pieces out over two jobs"))))
	}
	return bad
}

// offRepeat says that piece i has room on the cloth, but not at a phase of the
// repeat at which what it is matched with has.
func (s Spread) offRepeat(j *job.Job, i int, size *nest.SizeError, unit measure.Unit) *strict.Error {
	with := "the other pieces that it is matched with"
	if s.Cuts[i].Piece.Pair && size.Mirrored {
		with = "its left or right partner and what they are matched with"
	}
	return briefly(s.widths(false, size, unit), j.ErrorAt(s.Cuts[i].Part.At, say.Errorf("piece %q takes %s of the "+
		"%s of `%s`, and where the repeat agrees with %s it lies over an edge", size.Name,
		measure.FormatUp(size.Across, measure.SizeUnit(unit)), measure.FormatDown(size.Width, measure.SizeUnit(unit)),
		s.Cloth.ID, with).
		Hint("leave unmatched the seam where it shows least; or a wider cloth, or a seam in the piece")))
}

// tooLong refuses pieces that no length sold holds: where whole bolts alone are
// sold, every piece has to fit on one of them.
func (s Spread) tooLong(j *job.Job, problem nest.Problem, unit measure.Unit) (bad strict.Errors) {
	longest, ok := longestBolt(s.Cloth.Offer)
	if !ok {
		return nil
	}
	for i := range problem.Pieces {
		alone := problem
		alone.Pieces = problem.Pieces[i : i+1]
		alone.Strip = Task{Spread: s}.boltStrip(longest)
		room := max(0, alone.Strip.MaxLength)
		alone.Strip.MaxLength = max(room, plane.Lattice)
		err := alone.Check()
		var size *nest.SizeError
		if !errors.As(err, &size) {
			continue
		}
		per, show := s.Cloth.Offer.Per, measure.SizeUnit(unit)
		bad = append(bad, briefly(fmt.Sprintf("%s takes %s along %s, the longest bolt has %s", size.Name,
			measure.FormatUp(size.Along, show), s.Cloth.ID, measure.FormatDown(room, show)),
			j.ErrorAt(s.Cloth.At, say.Errorf("piece %q is too long for every bolt of `%s`: it takes %s along the "+
				"cloth (%s), and of the longest bolt, %s, %s can be laid on", size.Name, s.Cloth.ID,
				measure.FormatUp(size.Along, show), measure.FormatUp(size.Along, per),
				measure.Format(longest.Length, per), measure.FormatDown(room, show)).
				Hint("a longer bolt, a length cut at the counter (a `price` by the length, without `whole_bolts`), "+
					"or a seam in the piece%s", s.across(i, unit)))))
	}
	return bad
}

// briefly gives an error its few words.
func briefly(words string, err *strict.Error) *strict.Error {
	err.Brief = words
	return err
}

// widths sets a piece that does not fit beside the cloth as it lies, in a few
// words: "folded, satin is 28 3/8 in wide, gore 29 5/8 in".
func (s Spread) widths(folded bool, size *nest.SizeError, unit measure.Unit) string {
	words := "of %s %s are usable, %s takes %s"
	if folded {
		words = "folded, %s is %s wide, %s %s"
	}
	if size.Repeat {
		return fmt.Sprintf("the repeat of %s puts %s nowhere between the edges", s.Cloth.ID, size.Name)
	}
	return fmt.Sprintf(words, s.Cloth.ID,
		measure.FormatDown(size.Width, measure.SizeUnit(unit)), size.Name,
		measure.FormatUp(size.Across, measure.SizeUnit(unit)))
}

// tooWide names piece i with both sizes and what would help.
func (s Spread) tooWide(i int, alone nest.Problem, size *nest.SizeError, unit measure.Unit) error {
	help := "a wider cloth, a seam in the piece, or more and narrower pieces"
	if divided := s.divided(i); divided != "" {
		help = divided + ", or a wider cloth"
	}
	if pieced := s.pieced(i, unit); pieced != "" {
		help += "; or " + pieced
	}
	if g := s.Cuts[i].Part.Grain; g == job.LengthwiseGrain || g == job.FreeGrain {
		turned := alone
		turned.Pieces = []nest.Piece{alone.Pieces[0]}
		part := s.Cuts[i].Part
		part.Grain = job.CrossGrain
		turned.Pieces[0].Turns = turns(s.Cloth.Nap, part)
		if turned.Check() == nil {
			help += "; cut across the grain it would fit, where it may hang so (grain = \"cross\")"
		}
	}
	return say.Errorf("piece %q is too wide for `%s`: it takes %s across the cloth, %s are usable", size.Name,
		s.Cloth.ID, measure.FormatUp(size.Across, measure.SizeUnit(unit)),
		measure.Format(size.Width, measure.SizeUnit(unit))).
		Hint("%s", help)
}

// mostDivisions bounds how many pieces a draft is tried in.
const mostDivisions = 60

// divided says in how many pieces the draft of piece i would fit the cloth: the
// fewest that do; "" where its number of pieces is not for choosing or none does.
func (s Spread) divided(i int) string {
	part := s.Cuts[i].Part
	at := slices.IndexFunc(part.Layers, func(l job.Layer) bool { return l.Cloth == s.Cloth.ID })
	if at < 0 {
		return ""
	}
	divided, ok := part.Layers[at].Draft.(draft.Divided)
	if !ok {
		return ""
	}
	division := divided.Division()
	now := division.Pieces
	if now == 0 {
		for _, c := range s.Cuts {
			if c.Part.Name == part.Name {
				now++
			}
		}
	}
	for n := now + 1; n <= mostDivisions; n++ {
		made, err := divided.Divide(n).Draft()
		if err != nil {
			continue
		}
		alone := Spread{Cloth: s.Cloth}
		alone.add(part, made.Pieces)
		if alone.Problem().Check() == nil {
			return fmt.Sprintf("%s = %d makes each piece narrow enough", division.Called, n)
		}
	}
	return ""
}

// unfoldable places the error of a lay that the cloth cannot be spread in.
func (s Spread) unfoldable(j *job.Job, err error) *strict.Error {
	what, hint := say.Parts(err, j.Unit.Size)
	placed := j.ErrorAt(s.Cloth.At, err)
	placed.What, placed.Hint = fmt.Sprintf("`%s` cannot lie as a %s: %s", s.Cloth.ID, s.Cloth.Lay, what), hint
	var refused *nest.LayError
	switch {
	case !errors.As(err, &refused):
		return placed
	case refused.Size != nil:
		placed.Brief = s.widths(true, refused.Size, j.Unit)
	default:
		placed.Brief = fmt.Sprintf("%s as a %s: %s", s.Cloth.ID, s.Cloth.Lay, refused.Brief)
	}
	if refused.Remedy == nest.TurnUpperOrLayOpen {
		placed.Hint = "cut the cloth along the fold and turn the upper layer (upper_turned = true), or lay it open"
	}
	return placed
}

// unlaid places the error of a search that ended without a layout. Markers end
// at nest.Reach; pieces that lie loosely come there with half their area.
func (s Spread) unlaid(j *job.Job, problem nest.Problem, err error) *strict.Error {
	hint := "a wider cloth, fewer pieces in one job, or one flaw or leftover less makes room"
	if least := problem.LeastArea() / problem.Strip.Width; least > nest.Reach/2 {
		hint = fmt.Sprintf("the longest marker is %s, and these pieces take %s at the least; share them out over two "+
			"jobs",
			measure.Format(nest.Reach, measure.CounterUnit(j.Unit)),
			measure.FormatUp(least, measure.CounterUnit(j.Unit)))
	}
	unlaid := say.Errorf("`%s` could not be laid: %w", s.Cloth.ID, err)
	if errors.As(err, new(*nest.PinError)) {
		return j.ErrorAt(s.Cloth.At, unlaid) // it has its own hint
	}
	return j.ErrorAt(s.Cloth.At, unlaid.Hint("%s", hint))
}
