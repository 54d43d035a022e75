package form

import (
	"fmt"
	"slices"
	"strings"

	"yardlay/cmd/yardlay/internal/edit"
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/shapes/measure"
	"yardlay/shapes/say"
)

// Add adds a table to a list, with a name of its own where it has to have one. What else
// it lacks is told beside its fields. A single body becomes the first of several.
func Add(src []byte, list edit.Path) ([]byte, error) {
	root, key, err := keyAt(src, list)
	if err != nil {
		return nil, err
	}
	if key.Kind.Form != job.Table {
		return nil, say.Errorf("%s lists no tables", list)
	}
	item := edit.Item{Table: true}
	keys := key.Kind.Keys
	if list.String() == "body" {
		keys = job.KeysOf(key, strict.NewTable(strict.Position{}), true)
	}
	there := find(root, list)
	for _, name := range []string{"id", "name"} {
		if k, ok := keyIn(keys, name); ok && k.Default == "" {
			item.Fields = append(item.Fields, edit.Field{Key: name, Value: edit.Text(free(there, key.Name))})
		}
	}
	out, err := edit.Append(src, list, item)
	if err != nil || list.String() != "body" || there == nil || there.Kind == strict.KindList {
		return out, err
	}
	return edit.Set(out, list.Item(0).Key("name"), edit.Text("first"))
}

// free is a name that no table of a list has: cloth, cloth-2 and so on.
func free(list *strict.Value, word string) string {
	taken := func(name string) bool {
		return list != nil && slices.ContainsFunc(list.Items, func(item *strict.Value) bool {
			return item.TextOf("id") == name || item.TextOf("name") == name
		})
	}
	name := word
	for n := 2; taken(name); n++ {
		name = fmt.Sprintf("%s-%d", word, n)
	}
	return name
}

// drawnBy is a part of a draft, without anything else.
func drawnBy(draft string) *strict.Value {
	at := strict.Position{}
	part := strict.NewTable(at)
	part.Set("draft", at, &strict.Value{Kind: strict.KindText, Text: draft})
	return part
}

// AddPart adds a part that is drawn as the example of a draft, in the first cloth.
func AddPart(src []byte, draft string) ([]byte, error) {
	root, bad := job.Tree(src)
	if bad != nil {
		return nil, bad
	}
	if !slices.Contains(draftNames(), draft) {
		return nil, say.Errorf("there is no draft %q", draft).Hint("the gallery shows all of them")
	}
	list := edit.Of("part")
	fields := []edit.Field{{Key: "name", Value: edit.Text(free(find(root, list), draft))}}
	given := func(key, toml string) { fields = append(fields, edit.Field{Key: key, Value: edit.TOML(toml)}) }
	unit, err := measure.ParseUnit(root.TextOf("unit"))
	if err != nil {
		unit = measure.Inch
	}
	example := job.ExampleIn(draft, unit)
	given(example[0].Key, example[0].TOML)
	m := maker{root: root}
	partKey, _ := fileKey("part")
	if ids := m.called("cloth"); len(ids) > 0 {
		fields = append(fields, edit.Field{Key: "cloth", Value: edit.Text(ids[0])})
	}
	for _, g := range example[1:] {
		k, _ := keyIn(job.KeysOf(partKey, drawnBy(draft), true), g.Key)
		if k.Kind.Form == job.Name && k.Default != "" && !slices.Contains(m.called(k.Kind.Of), strings.Trim(g.TOML, `"`)) {
			continue // of the example's own cloths
		}
		given(g.Key, g.TOML)
	}
	return edit.Append(src, list, edit.Item{Table: true, Fields: fields})
}
