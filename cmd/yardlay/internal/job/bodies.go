package job

import (
	"yardlay/shapes"
	"yardlay/shapes/measure"
)

// Body is a wearer. A job has one without a name, or several with a name each, as
// a chorus has; then every part is drafted for each of them.
type Body struct {
	Name     string             // "" of the only one
	Count    int                // how many wear these measures, at least 1
	Measures map[string]float64 // mm, by the names of the reference
	unusual  bool               // measures that people do not have are meant so
	At       Position           // of its name
}

// maxBodies is more than any chorus.
const maxBodies = 64

// longestBody keeps the names of pieces, which begin with that of the body,
// readable.
const longestBody = 24

// bodies reads [body], or every [[body]]; one without measures where the file has
// neither.
func (r *reader) bodies(t *table) []Body {
	f := t.field("body")
	if f == nil || !f.value.headers {
		b := Body{Count: 1, Measures: map[string]float64{}}
		if one := t.sub("body", "[body]", `{ waist_girth = "27 1/2" }`); one != nil {
			one.bodyMeasures(&b)
			one.finish()
		}
		return []Body{b}
	}
	var all []Body
	for i, n := range t.list("body", maxBodies, "give `count` to those of one size") {
		all = append(all, r.body(n, i))
	}
	distinct(r, all, "body", "a name", func(b Body) (string, Position) { return b.Name, b.At })
	return all
}

// body reads one [[body]].
func (r *reader) body(n *node, index int) Body {
	t := r.table(n, label("body", "", index))
	b := Body{At: n.at, Measures: map[string]float64{}}
	name, at, ok := t.text("name", `"alto"`)
	switch {
	case ok:
		b.Name, b.At, t.name = name, at, label("body", name, index)
		if len(name) > longestBody {
			t.fail(at, "the names of all pieces begin with it", "`name` is %d bytes long, at most %d", len(name), longestBody)
		}
	case !t.has("name"):
		t.need("name", `what its pieces are labelled with, for example name = "alto"`)
	}
	b.Count = t.count("count", 1, 1, mostTimes)
	t.bodyMeasures(&b)
	t.finish()
	return b
}

func (t *table) bodyMeasures(b *Body) {
	b.unusual = t.truth(unusualKey, false)
	for _, m := range bodyMeasures {
		if t.has(m.name) { // one that cannot be read was told; it is not missing as well
			b.Measures[m.name], _ = t.length(m.name, measure.ParsePositive)
			t.ask(*b, m.name, m.name, b.Measures[m.name])
		}
	}
}

// girths are those that have to pass through what is closed.
func (b Body) girths() map[shapes.Passage]float64 {
	return map[shapes.Passage]float64{
		shapes.OverHips: b.Measures["hip_girth"], shapes.OverBust: b.Measures["bust_girth"],
		shapes.OverHead: b.Measures["head_girth"], shapes.OverHand: b.Measures["hand_girth"],
	}
}

// called is where messages send the maker for a measure of the body.
func (b Body) called() string {
	if b.Name == "" {
		return "[body]"
	}
	return "[[body]] `" + b.Name + "`"
}

// eachPart reads the parts, each for every body that it is for: all pieces of one
// body stand together. What is wrong with a part is said once.
func (r *reader) eachPart(nodes []*node, bodies []Body, read func(n *node, index int, b Body) Part) []Part {
	r.forUnknown(nodes, bodies)
	drafts := 0
	for _, b := range bodies {
		for i, n := range nodes {
			if drafts <= maxDrafts && r.isFor(n, i, b, bodies) {
				drafts += n.cloths()
			}
		}
	}
	if drafts > maxDrafts {
		r.fail(nodes[0].at, "share them out over several jobs",
			"the parts, for each body and in each cloth, are more than %d drafts, the most of a job", maxDrafts)
		bodies = bodies[:1]
	}
	var all []Part
	for _, b := range bodies {
		for i, n := range nodes {
			if r.isFor(n, i, b, bodies) && !r.full() {
				all = append(all, read(n, i, b))
			}
		}
	}
	return all
}

// cloths counts those that a part is cut in.
func (n *node) cloths() int {
	if f := n.fields["cloth"]; f != nil && f.value.kind == kindList {
		return len(f.value.items)
	}
	return 1
}

// forKey is the key by which a part says which bodies it is for.
const forKey = "bodies"

// isFor says whether a part is for a body: every part without the key is.
func (r *reader) isFor(n *node, index int, b Body, bodies []Body) bool {
	f := n.fields[forKey]
	if f == nil || b.Name == "" {
		return true
	}
	if f.value.kind != kindList {
		return f.value.text == b.Name
	}
	for _, item := range f.value.items {
		if item.text == b.Name {
			return true
		}
	}
	return false
}

// forUnknown refuses parts that are for bodies which are not there.
func (r *reader) forUnknown(nodes []*node, bodies []Body) {
	var names []string
	for _, b := range bodies {
		if b.Name != "" {
			names = append(names, b.Name)
		}
	}
	for i, n := range nodes {
		f := n.fields[forKey]
		if f == nil {
			continue
		}
		t := r.table(n, label("part", n.textOf("name"), i))
		items := []*node{f.value}
		if f.value.kind == kindList {
			items = f.value.items
		}
		if len(items) == 0 {
			t.fail(f.value.at, oneOf("", names), "`%s` names no body", forKey)
		}
		if len(items) > maxBodies {
			t.fail(f.value.at, "name each body once", "`%s` names %d bodies, a job has at most %d", forKey, len(items), maxBodies)
			continue
		}
		for _, item := range items {
			t.checkBody(item, names)
		}
	}
}

func (t *table) checkBody(item *node, names []string) {
	switch {
	case item.kind != kindText:
		t.wrong(forKey, item, "the name of a body, or a list of names", `["alto"]`)
	case len(names) == 0:
		t.fail(item.at, "give each wearer a table [[body]] with a name", "`%s`: the job has one body, without a name", forKey)
	default:
		for _, name := range names {
			if name == item.text {
				return
			}
		}
		t.fail(item.at, oneOf(item.text, names), "%s: there is no body %q", t.name, item.text)
	}
}
