package job

import (
	"cmp"
	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/shapes/draft"
)

// Body is a wearer. A job has one without a name, or several with a name each, as
// a chorus has; then every part is drafted for each of them.
type Body struct {
	Name     string             // "" of the only one
	Count    int                // how many wear these measures, at least 1
	Measures map[string]float64 // mm, by the names of the reference
	From     string             // the person of the workroom that it is; "" for none
	Standard string             // the size that it begins with; "" for none
	from     map[string]string  // where those come from that nobody took: "of size US misses 14"
	unusual  bool               // measures that people do not have are meant so
	At       strict.Position    // of its name
}

// set gives the body a measure that nobody took.
func (b *Body) set(name string, mm float64, from string) {
	if b.from == nil {
		b.from = map[string]string{}
	}
	b.Measures[name], b.from[name] = mm, from
}

// Unmeasured is a measure that nobody took.
type Unmeasured struct {
	Name string  // in the reference
	MM   float64 // mm
	From string  // "of size US misses 14", "estimated from bust and back length"
}

// maxBodies is more than any chorus.
const maxBodies = 64

// longestBody keeps the names of pieces, which begin with that of the body,
// readable.
const longestBody = 24

// bodies reads [body], or every [[body]]; one without measures where the file has
// neither.
func (r *reader) bodies(t *table) []Body {
	f := t.Field("body")
	if f == nil || !f.Value.Headers {
		b := Body{Count: 1, Measures: map[string]float64{}}
		if one := t.sub("body", "[body]", `{ waist_girth = "27 1/2" }`); one != nil {
			one.bodyMeasures(&b)
			one.Finish()
		}
		return []Body{b}
	}
	var all []Body
	for i, n := range t.List("body", maxBodies, "give `count` to those of one size") {
		all = append(all, r.body(n, i))
	}
	strict.Distinct(r.Reader, all, "body", "a name", func(b Body) (string, strict.Position) { return b.Name, b.At })
	return all
}

// body reads one [[body]].
func (r *reader) body(n *strict.Value, index int) Body {
	t := r.table(n, label("body", "", index), eachBodyKeys)
	b := Body{At: n.At, Measures: map[string]float64{}}
	b.Name = t.named("body", index, &b.At)
	b.Count = t.Count("count", 1)
	t.bodyMeasures(&b)
	t.Finish()
	return b
}

func (t *table) bodyMeasures(b *Body) {
	b.From = t.fromRoom(fromKey, "person", t.roomPeople())
	b.unusual = t.Truth(unusualKey, false)
	for _, m := range bodyMeasures {
		if t.Has(m.name) { // one that cannot be read was told; it is not missing as well
			b.Measures[m.name], _ = t.Length(m.name)
			t.ask(*b, m.name, m.name, b.Measures[m.name])
		}
	}
	if t.Has(fromKey) && b.From == "" { // told; what somebody would give is not missing as well
		for _, m := range bodyMeasures {
			b.orNone(m.name)
		}
	}
	t.standard(b)
	t.estimated(b)
}

// girths are those that have to pass through what is closed.
func (b Body) girths() map[draft.Passage]float64 {
	return map[draft.Passage]float64{
		draft.OverHips: b.Measures["hip_girth"], draft.OverBust: b.Measures["bust_girth"],
		draft.OverHead: b.Measures["head_girth"], draft.OverHand: b.Measures["hand_girth"],
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
func (r *reader) eachPart(nodes []*strict.Value, bodies []Body,
	read func(n *strict.Value, index int, b Body) Part) []Part {
	r.forUnknown(nodes, bodies)
	drafts := 0
	for _, b := range bodies {
		for i, n := range nodes {
			if drafts <= maxDrafts && r.isFor(n, i, b, bodies) {
				drafts += clothsIn(n)
			}
		}
	}
	if drafts > maxDrafts {
		r.Fail(nodes[0].At, "share them out over several jobs",
			"the parts, for each body and in each cloth, are more than %d drafts, the most of a job", maxDrafts)
		bodies = bodies[:1]
	}
	var all []Part
	for _, b := range bodies {
		for i, n := range nodes {
			if r.isFor(n, i, b, bodies) && !r.Full() {
				all = append(all, read(n, i, b))
			}
		}
	}
	return all
}

// clothsIn counts those that a part is cut in.
func clothsIn(n *strict.Value) int {
	if f := n.Fields["cloth"]; f != nil && f.Value.Kind == strict.KindList {
		return len(f.Value.Items)
	}
	return 1
}

// forKey is the key by which a part says which bodies it is for.
const forKey = "bodies"

// isFor says whether a part is for a body: every part without the key is.
func (r *reader) isFor(n *strict.Value, index int, b Body, bodies []Body) bool {
	f := n.Fields[forKey]
	if f == nil || b.Name == "" {
		return true
	}
	if f.Value.Kind != strict.KindList {
		return f.Value.Text == b.Name
	}
	for _, item := range f.Value.Items {
		if item.Text == b.Name {
			return true
		}
	}
	return false
}

// forUnknown refuses parts that are for bodies which are not there.
func (r *reader) forUnknown(nodes []*strict.Value, bodies []Body) {
	var names []string
	for _, b := range bodies {
		if b.Name != "" {
			names = append(names, b.Name)
		}
	}
	for i, n := range nodes {
		f := n.Fields[forKey]
		if f == nil {
			continue
		}
		t := r.table(n, label("part", n.TextOf("name"), i), partKeys)
		items := []*strict.Value{f.Value}
		if f.Value.Kind == strict.KindList {
			items = f.Value.Items
		}
		if len(items) == 0 {
			t.Fail(f.Value.At, cmp.Or(strict.OneOf("", names), "leave it out"), "`%s` names no body", forKey)
		}
		if len(items) > maxBodies {
			t.Fail(f.Value.At, "name each body once", "`%s` names %d bodies, a job has at most %d", forKey, len(items),
				maxBodies)
			continue
		}
		for _, item := range items {
			t.checkBody(item, names)
		}
	}
}

func (t *table) checkBody(item *strict.Value, names []string) {
	switch {
	case item.Kind != strict.KindText:
		t.Wrong(forKey, item, "the name of a body, or a list of names", `["alto"]`)
	case len(names) == 0:
		t.Fail(item.At, "give each wearer a table [[body]] with a name", "`%s`: the job has one body, without a name",
			forKey)
	default:
		for _, name := range names {
			if name == item.Text {
				return
			}
		}
		t.Fail(item.At, strict.OneOf(item.Text, names), "%s: there is no body %q", t.Name, item.Text)
	}
}
