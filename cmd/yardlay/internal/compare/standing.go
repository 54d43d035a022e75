package compare

import "slices"

// standing is a comparison on its way, for who watches it.
type standing struct {
	options Options
	of      *Result // whose rows are not filled in before all are laid
	rows    []Row   // as they stand
	over    map[*lot]bool
}

// standing is nil where nobody listens.
func (r *Result) standing(o Options) *standing {
	if o.Stands == nil {
		return nil
	}
	return &standing{o, r, slices.Clone(r.Rows), map[*lot]bool{}}
}

// lay fills in the rows that are whole with a lot, and tells of them.
func (s *standing) lay(one *lot) {
	if s == nil {
		return
	}
	s.over[one] = true
	told := false
	for i := range s.rows {
		row := &s.rows[i]
		waits := func(other *lot) bool { return !s.over[other] }
		if row.Why != "" || !slices.Contains(row.lots, one) || slices.ContainsFunc(row.lots, waits) {
			continue
		}
		if err := row.fill(s.options); err != nil {
			row.refuse(err) // it ends the comparison
		}
		told = true
	}
	if told {
		s.tell()
	}
}

// tell passes on a copy, with what each row buys more than the job as written.
func (s *standing) tell() {
	if s == nil {
		return
	}
	now := *s.of
	now.Rows = slices.Clone(s.rows)
	for i := range now.Rows {
		if row := &now.Rows[i]; i > 0 && row.Report != nil {
			row.Cloths = slices.Clone(row.Cloths)
			row.differ(&now.Rows[0])
		}
	}
	s.options.Stands(&now)
}
