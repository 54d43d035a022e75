package job

import (
	"reflect"
	"strings"

	"yardlay/shapes/draft"
)

// into reads the keys of the part's draft into the fields of its struct, as fill does, and
// lengths that have to be given besides. Keys that the body stands in for, that list values
// or that take words are left to who reads the draft.
func (p *partTable) into(d any) {
	for _, k := range p.drawn.keys {
		bodily := k.Kind.Body != ""
		f := fieldOf(reflect.ValueOf(d).Elem(), k.Name)
		switch {
		case !f.IsValid() || bodily || k.Kind.Choices != nil:
		case k.Kind.Form == Length && k.Kind.Listed == Single && k.Default == "":
			f.SetFloat(p.MustLength(k.Name, p.drawn.exampleOf(k.Name)))
		default:
			p.set(f, k)
		}
	}
}

// exampleOf is what a key has in the example of the family.
func (f family) exampleOf(key string) string {
	_, value, _ := strings.Cut(f.example, " "+key+` = "`)
	value, _, _ = strings.Cut(value, `"`)
	return value
}

// cutBy draws the part in each of its cloths by a draft. Those of its fields are set that
// are not the same in all: the allowances, the raise of the hem, the width of the cloth, an
// ease pleat, what lies on a fold.
func (p *partTable) cutBy(d draft.Draft, u unlike) []Layer {
	return p.layers(u, func(l layer) draft.Draft {
		v := reflect.New(reflect.TypeOf(d)).Elem()
		v.Set(reflect.ValueOf(d))
		for key, value := range map[string]any{
			"allowance": l.allow, "hem_raise": l.raise, "cloth_width": l.cloth.washed(), "ease_pleat": l.pleat,
			"inner":   l.inner,
			u.foldKey: l.fold,
		} {
			if f := fieldOf(v, key); f.IsValid() {
				f.Set(reflect.ValueOf(value))
			}
		}
		return v.Interface().(draft.Draft)
	})
}
