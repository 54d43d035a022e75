package job

import (
	"cmp"
	"fmt"
	"slices"

	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/shapes"
	"yardlay/shapes/draft"
)

// partTable reads one [[part]]: its own keys, with the wearer's measures and
// the job's allowances to fall back on.
type partTable struct {
	*table
	body      Body
	allow     shapes.Allowance
	title     string // the part's name, for pieces that have none of their own
	grain     Grain  // as written
	onBias    bool   // its pieces are drawn on the bias
	drawn     *family
	cloths    []Cloth // it is cut in: the outer one, then linings
	allCloths []Cloth
	sewn      bool       // it is sewn to another part
	setInto   *Neighbour // the part with its armholes
	finish    finishing
	closed    []Closing
	edged     []draft.Edging
	slitInto  *SlitInto

	unmeasured []Unmeasured
}

// longestName is the longest name of a part or of what is bought, bytes.
const longestName = 40

// part reads one [[part]].
func (r *reader) part(n *strict.Value, index int, body Body, allow shapes.Allowance, cloths []Cloth) Part {
	t := r.table(n, label("part", "", index), partKeys)
	p := Part{At: n.At}
	p.Name = t.named("part", index, &p.At)
	read := partTable{table: t, title: p.Name, body: body, allCloths: cloths}
	read.cloths = t.clothsOf(cloths)
	read.allow = t.allowance(allow, false)
	t.Field(forKey) // read before
	t.onGrain(&p)
	read.grain = p.Grain
	if name, at, ok := t.Text("sewn_to"); ok {
		p.SewnTo, read.sewn = &Neighbour{called: name, at: at}, true
	}
	p.wornBy(body)
	d := t.family()
	if d == nil {
		return p // which keys it may have is not known
	}
	p.Draft, read.drawn = d.name, d
	t.keys = slices.Concat(t.keys, d.keys)
	read.finishing()
	read.closings()
	read.edgings()
	p.Layers = d.read(&read)
	p.Place = read.pieced(p.Layers)
	p.SetInto, p.Facings, p.Closings = read.setInto, read.finish.facings, read.closed
	p.SlitInto = read.slitInto
	p.Unmeasured, p.OnBias = read.unmeasured, read.onBias
	t.Finish()
	return p
}

// family reads which draft the part is drawn by.
func (t *table) family() *family {
	names := draftNames()
	if !t.Has("draft") {
		t.Need("draft", strict.OneOf("", names))
		return nil
	}
	name, at, ok := t.Text("draft")
	if !ok {
		return nil
	}
	i := slices.Index(names, name)
	if i < 0 {
		t.Fail(at, cmp.Or(renamed[name], strict.OneOf(name, names)), "there is no draft %q", name)
		return nil
	}
	return &drafts[i]
}

// measure reads a length of the part; when the part does not give it, the
// body measure of that name stands in. Missing both is an error that names
// both places.
func (p *partTable) measure(key string) float64 {
	bodyName := p.kind(key).Body
	if p.Has(key) {
		mm, _ := p.Length(key)
		if slices.Contains(ofBodyAlone, bodyName) {
			p.ask(p.body, key, bodyName, mm)
		}
		return mm
	}
	mm, ok := p.bodily(bodyName)
	if !ok {
		p.Need(key, fmt.Sprintf("give `%s` in this part or `%s` under %s", key, bodyName, p.body.called()))
	}
	return mm
}

// ofBodyAlone are measures that a part gives of a body and of nothing else: what has
// a neck may be a cuff.
var ofBodyAlone = []string{"waist_girth", "hip_girth", "bust_girth"}

// waist reads the finished waist of a skirt: the measure with its ease.
func (p *partTable) waist() float64 {
	return p.measure("waist") + p.LengthOr("waist_ease", 0)
}

// measureOr reads a length that the body may stand in for, and otherwise where
// neither gives it.
func (p *partTable) measureOr(key string, otherwise float64) float64 {
	if p.Has(key) {
		return p.measure(key)
	}
	if mm, ok := p.bodily(p.kind(key).Body); ok {
		return mm
	}
	return otherwise
}

// bodily returns a measure of the body, and notes it where nobody took it.
func (p *partTable) bodily(name string) (mm float64, ok bool) {
	mm, ok = p.body.Measures[name]
	u := Unmeasured{Name: name, MM: mm, From: p.body.from[name]}
	if u.From != "" && !slices.Contains(p.unmeasured, u) {
		p.unmeasured = append(p.unmeasured, u)
	}
	return mm, ok
}

// circles are the fractions of a circle that have a name.
var circles = []struct {
	name  string
	value float64
}{{"full", 1}, {"three-quarter", 0.75}, {"half", 0.5}, {"quarter", 0.25}}

// Fractions of a circle: a skirt under a fiftieth has its waist further from
// the circle's centre than the cloth is wide, four circles gather like a frill.
const leastCircle, mostCircle = 0.02, 4.0

// circleFraction is such a word, or a fraction.
var circleFraction = func() Kind {
	k := ratio(leastCircle, mostCircle)
	for _, c := range circles {
		k.Choices = append(k.Choices, c.name)
	}
	return k
}()

// circle reads which fraction of a circle a part is cut as.
func (p *partTable) circle() float64 {
	const hint = `"full", "three-quarter", "half", "quarter", or a fraction like 1.25 or "3/8"`
	f := p.Field("circle")
	if f == nil {
		p.Need("circle", hint)
		return 0
	}
	if f.Value.Kind == strict.KindText {
		for _, c := range circles {
			if f.Value.Text == c.name {
				return c.value
			}
		}
		if _, ok := strict.Fraction(f.Value.Text); !ok {
			p.Fail(f.Value.At, hint, "`circle` cannot be %q", f.Value.Text)
			return 0
		}
	}
	value, _ := p.Ratio("circle")
	return value
}

// wornBy names a part after its body, and cuts it as often as there are wearers.
func (p *Part) wornBy(b Body) {
	p.Called, p.Body, p.Girths = p.Name, b.Name, b.girths()
	if b.Name != "" && p.Name != "" {
		p.Name = b.Name + " " + p.Name
	}
	p.Count *= max(b.Count, 1)
}
