package job

import (
	"reflect"
	"strings"

	"yardlay/shapes/draft"
)

// into reads the keys of the part's draft into those fields of its struct that are called
// alike: `tail_width` into TailWidth. What a field holds stands where its key is missing,
// but a length without a default has to be given. Keys that the body stands in for, that
// list values or that take words are left to who reads the draft.
func (p *partTable) into(d any) {
	for _, k := range p.drawn.keys {
		bodily := k.Kind.Form == Length && strings.HasPrefix(k.Default, "`")
		if bodily || k.Kind.Listed != Single || k.Kind.Choices != nil {
			continue
		}
		f := fieldOf(reflect.ValueOf(d).Elem(), k.Name)
		if !f.IsValid() {
			continue
		}
		switch v := f.Addr().Interface().(type) {
		case *float64:
			*v = p.float(k, *v)
		case *int:
			*v = p.Count(k.Name, *v)
		case *bool:
			*v = p.Truth(k.Name, *v)
		}
	}
}

// float reads a length or a ratio, otherwise where it is missing and may be.
func (p *partTable) float(k Key, otherwise float64) float64 {
	switch {
	case k.Kind.Form == Ratio:
		if v, ok := p.Ratio(k.Name); ok {
			return v
		}
		return otherwise
	case k.Default == "":
		return p.MustLength(k.Name, p.drawn.exampleOf(k.Name))
	}
	return p.LengthOr(k.Name, otherwise)
}

// exampleOf is what a key has in the example of the family.
func (f family) exampleOf(key string) string {
	_, value, _ := strings.Cut(f.example, " "+key+` = "`)
	value, _, _ = strings.Cut(value, `"`)
	return value
}

// fieldOf returns the field of a struct that is called as a key is.
func fieldOf(v reflect.Value, key string) reflect.Value {
	plain := strings.ReplaceAll(key, "_", "")
	return v.FieldByNameFunc(func(name string) bool { return strings.EqualFold(name, plain) })
}

// cutBy draws the part in each of its cloths by a draft. Those of its fields are set that
// are not the same in all: the allowances, the raise of the hem, the width of the cloth, an
// ease pleat, what lies on a fold.
func (p *partTable) cutBy(d draft.Draft, u unlike) []Layer {
	return p.layers(u, func(l layer) draft.Draft {
		v := reflect.New(reflect.TypeOf(d)).Elem()
		v.Set(reflect.ValueOf(d))
		for key, value := range map[string]any{
			"allowance": l.allow, "hem_raise": l.raise, "cloth_width": l.cloth.washed(), "ease_pleat": l.pleat, u.foldKey: l.fold,
		} {
			if f := fieldOf(v, key); f.IsValid() {
				f.Set(reflect.ValueOf(value))
			}
		}
		return v.Interface().(draft.Draft)
	})
}
