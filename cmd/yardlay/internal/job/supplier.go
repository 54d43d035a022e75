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

// suppliers reads every [[supplier]].
func (r *reader) suppliers(t *table, most int) []Supplier {
	var all []Supplier
	for i, n := range t.List("supplier", most, "") {
		all = append(all, r.supplier(n, i))
	}
	strict.Distinct(r.Reader, all, "supplier", "a name",
		func(s Supplier) (string, strict.Position) { return s.Name, s.At })
	return all
}

// ordersFrom reads the suppliers of a job. Those of the rates file that the job does not
// name itself come after its own, and at last those of the workroom that its cloths or its
// notions are sold by.
func (r *reader) ordersFrom(t *table, j *Job, shared []Supplier) []Supplier {
	all := r.suppliers(t, mostSuppliers)
	add := func(s Supplier) {
		if !slices.ContainsFunc(all, func(own Supplier) bool { return own.Name == s.Name }) {
			all = append(all, s)
		}
	}
	var room []Supplier
	if r.room != nil {
		room = r.room.rates.suppliers
		if j.RatesFrom == r.room.File {
			shared = nil
		}
	}
	for _, s := range shared {
		add(s)
	}
	for _, s := range room {
		if sells(s.Name, j) {
			add(s)
		}
	}
	if len(all) > mostSuppliers {
		t.Fail(t.Value.At, "", "%d suppliers, a job takes at most %d", len(all), mostSuppliers)
	}
	return all
}

// sells says whether a supplier is asked for anything of a job.
func sells(name string, j *Job) bool {
	return slices.ContainsFunc(j.Notions, func(n Notion) bool { return n.Supplier == name }) ||
		slices.ContainsFunc(j.Cloths, func(c Cloth) bool {
			return slices.ContainsFunc(c.Offers, func(o Sourced) bool { return o.Supplier == name })
		})
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
func (r *reader) known(suppliers []Supplier, cloths []Cloth, notions []Notion) {
	var names []string
	for _, s := range suppliers {
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
	for _, c := range cloths {
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
	for _, n := range notions {
		check(n.Supplier, n.At)
	}
}
