package outline

import (
	"bytes"
	"regexp"

	"yardlay/shapes/say"
)

// Limits on entities: what programs declare are a dozen names of name spaces.
const (
	svgMostEntities = 100
	svgMostEntity   = 200     // bytes of one
	svgMostExpanded = 1 << 20 // bytes of all where they stand in the text
)

var svgEntity = regexp.MustCompile(`<!ENTITY\s+([\w.:-]+)\s+(?:"([^"]*)"|'([^']*)')\s*>`)

// svgEntities reads the entities that a DOCTYPE declares. Old drawing programs call name
// spaces so. Entities that stand for others or for other files are refused, and so are those that
// would make much of a small file.
func svgEntities(doctype, text []byte) (map[string]string, error) {
	declared := bytes.Count(bytes.ToUpper(doctype), []byte("<!ENTITY"))
	if declared == 0 {
		return nil, nil
	}
	found := svgEntity.FindAllSubmatch(doctype, svgMostEntities+1)
	refuse := func(what string, args ...any) (map[string]string, error) {
		return nil, say.Errorf("the DOCTYPE declares "+what, args...).Hint("save the drawing as plain SVG")
	}
	switch {
	case declared > svgMostEntities:
		return refuse("over %d entities", svgMostEntities)
	case len(found) != declared:
		return refuse("entities that are not plain text")
	}
	all, expanded := map[string]string{}, 0
	for _, f := range found {
		name, value := f[1], append(f[2], f[3]...)
		if bytes.ContainsAny(value, "&%<") || len(value) > svgMostEntity {
			return refuse("the entity %.40q, which is not a short plain text", name)
		}
		if expanded += len(value) * bytes.Count(text, append(append([]byte("&"), name...), ';')); expanded > svgMostExpanded {
			return refuse("entities that come to over %d MiB where they are used", svgMostExpanded>>20)
		}
		all[string(name)] = string(value)
	}
	return all, nil
}
