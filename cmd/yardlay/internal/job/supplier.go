package job

import (
	"slices"

	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/cost"
)

// Supplier is where cloth and notions are ordered.
type Supplier struct {
	cost.Supplier
	At strict.Position
}

// mostSuppliers is as many as cost.Cheapest looks at, one less for the counter
// that has no name.
const mostSuppliers = 9

// suppliers reads every [[supplier]]; those of the rates file that the job does
// not name itself come last.
func (r *reader) suppliers(t *table, shared []Supplier) []Supplier {
	var all []Supplier
	for i, n := range t.List("supplier", mostSuppliers, "") {
		all = append(all, r.supplier(n, i))
	}
	strict.Distinct(r.Reader, all, "supplier", "a name",
		func(s Supplier) (string, strict.Position) { return s.Name, s.At })
	for _, s := range shared {
		if !slices.ContainsFunc(all, func(own Supplier) bool { return own.Name == s.Name }) {
			all = append(all, s)
		}
	}
	if len(all) > mostSuppliers {
		t.Fail(t.Value.At, "", "%d suppliers, a job takes at most %d", len(all), mostSuppliers)
	}
	return all
}

func (r *reader) supplier(n *strict.Value, index int) Supplier {
	t := r.table(n, label("supplier", "", index), supplierKeys)
	s := Supplier{At: n.At}
	s.Name = t.named("supplier", index, &s.At)
	t.fill(&s.Supplier)
	t.Finish()
	return s
}

// known refuses offers of suppliers that there are not.
func (r *reader) known(j *Job) {
	var names []string
	for _, s := range j.Suppliers {
		names = append(names, s.Name)
	}
	check := func(name string, at strict.Position) {
		if name == "" || r.noRate || slices.Contains(names, name) {
			return
		}
		hint := strict.OneOf(name, names)
		if hint == "" {
			hint = "describe it: [[supplier]] with name = \"" + name + "\" and its shipping"
		}
		r.Fail(at, hint, "there is no supplier %q", name)
	}
	for _, c := range j.Cloths {
		first := map[string]bool{}
		for _, o := range c.Offers {
			check(o.Supplier, o.At)
			if first[o.Supplier] {
				r.Fail(o.At, "a supplier has one offer of a cloth: price, breaks and bolts together",
					"cloth `%s`: two offers of supplier %q", c.ID, o.Supplier)
			}
			first[o.Supplier] = true
		}
	}
	for _, n := range j.Notions {
		check(n.Supplier, n.At)
	}
}
