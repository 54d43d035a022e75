package outline

import (
	"slices"
	"strings"

	"yardlay/shapes/say"
)

// svgRule is a rule of a style sheet for elements of a name, an id and classes at once;
// "" and none match all.
type svgRule struct {
	element, id string
	classes     []string
	weight      int // its specificity (Selectors 4, 17): ids, classes, elements
	order       int
	sets        []svgDeclaration
}

// svgRules are the rules of all style sheets of a file, found by the id, else the first
// class, else the element ("" for all elements) that they ask for.
type svgRules struct {
	all                      []*svgRule
	byID, byClass, byElement map[string][]*svgRule
}

// read reads the style sheets of a file. Rules that depend on where an element stands or
// what a reader does with it are left out, and noted where they would have counted.
func (s *svgRules) read(t svgTree, notes *svgNotes) error {
	s.byID, s.byClass, s.byElement = map[string][]*svgRule{}, map[string][]*svgRule{}, map[string][]*svgRule{}
	for _, n := range t.all {
		if n.name != "style" {
			continue
		}
		var sheet strings.Builder
		for _, k := range n.kids {
			sheet.WriteString(k.chars)
		}
		if err := s.sheet(sheet.String(), func() { notes.add("style rule", n.line) }); err != nil {
			return n.fail(err)
		}
	}
	return nil
}

// sheet reads one style sheet.
func (s *svgRules) sheet(text string, leftOut func()) error {
	text = withoutComments(text)
	for {
		end := strings.IndexAny(text, "{;")
		if end < 0 {
			return nil
		}
		head := strings.TrimSpace(text[:end])
		if text[end] == ';' { // @import, @charset
			text = text[end+1:]
			continue
		}
		var body string
		body, text = cutBlock(text[end+1:])
		if strings.HasPrefix(head, "@") { // @font-face, @media: those that count are not for drawings
			continue
		}
		var sets []svgDeclaration
		eachDeclaration(body, func(d svgDeclaration) { sets = append(sets, d) })
		if len(sets) == 0 {
			continue
		}
		for selector := range strings.SplitSeq(head, ",") {
			if len(s.all) == svgMostRules {
				return say.Errorf("over %d style rules", svgMostRules).
					Hint("save the drawing as plain SVG, with style as attributes")
			}
			if rule, ok := parseSelector(strings.TrimSpace(selector)); ok {
				rule.sets, rule.order = sets, len(s.all)
				s.keep(rule)
			} else {
				leftOut()
			}
		}
	}
}

func (s *svgRules) keep(rule *svgRule) {
	s.all = append(s.all, rule)
	switch {
	case rule.id != "":
		s.byID[rule.id] = append(s.byID[rule.id], rule)
	case len(rule.classes) > 0:
		s.byClass[rule.classes[0]] = append(s.byClass[rule.classes[0]], rule)
	default:
		s.byElement[rule.element] = append(s.byElement[rule.element], rule)
	}
}

func withoutComments(text string) string {
	var out strings.Builder
	for {
		before, rest, ok := strings.Cut(text, "/*")
		out.WriteString(before)
		if !ok {
			return out.String()
		}
		if _, text, ok = strings.Cut(rest, "*/"); !ok {
			return out.String()
		}
	}
}

// cutBlock cuts behind the bracket that closes a block whose opening one is passed.
func cutBlock(text string) (body, rest string) {
	deep := 1
	for i := 0; i < len(text); i++ {
		switch text[i] {
		case '{':
			deep++
		case '}':
			if deep--; deep == 0 {
				return text[:i], text[i+1:]
			}
		}
	}
	return text, ""
}

// svgLongestSelector bounds what one rule costs.
const svgLongestSelector = 1000

// parseSelector reads "path", ".cut", "#front", "*" and what joins them without a space.
func parseSelector(text string) (*svgRule, bool) {
	rule := &svgRule{}
	if text == "" || len(text) > svgLongestSelector || strings.ContainsAny(text, " \t\r\n\f>+~[]:()\\\"'|&") {
		return nil, false
	}
	for i, part := range cutBefore(text, "#.") {
		switch {
		case len(part) > 1 && part[0] == '#':
			if rule.id != "" && rule.id != part[1:] {
				return nil, false
			}
			rule.id = part[1:]
			rule.weight += 1_000_000
		case len(part) > 1 && part[0] == '.':
			rule.classes = append(rule.classes, part[1:])
			rule.weight += 1000
		case i > 0 || part[0] == '#' || part[0] == '.':
			return nil, false
		case part != "*":
			rule.element = part
			rule.weight++
		}
	}
	return rule, true
}

// cutBefore cuts a text before each of some letters.
func cutBefore(text, letters string) []string {
	var parts []string
	for {
		next := strings.IndexAny(text[1:], letters)
		if next < 0 {
			return append(parts, text)
		}
		parts = append(parts, text[:next+1])
		text = text[next+1:]
	}
}

// matching are the rules for an element, those that count more behind those that count
// less.
func (r *svgReader) matching(n *svgNode) ([]*svgRule, error) {
	id, _ := n.attr("id")
	class, _ := n.attr("class")
	classes := strings.Fields(class)
	var found []*svgRule
	try := func(rules []*svgRule) {
		for _, rule := range rules {
			r.matched += 1 + len(rule.classes)*len(classes)
			if r.matched > svgMostMatched {
				return
			}
			if (rule.id == "" || rule.id == id) && (rule.element == "" || rule.element == n.name) &&
				!slices.ContainsFunc(rule.classes, func(c string) bool { return !slices.Contains(classes, c) }) {
				found = append(found, rule)
			}
		}
	}
	try(r.rules.byElement[""])
	try(r.rules.byElement[n.name])
	for i, c := range classes {
		if r.matched += i; !slices.Contains(classes[:i], c) {
			try(r.rules.byClass[c])
		}
	}
	if id != "" {
		try(r.rules.byID[id])
	}
	if r.matched > svgMostMatched {
		return nil, say.Errorf("it takes over %d looks at style rules up to here", svgMostMatched).
			Hint("save the drawing as plain SVG, with style as attributes")
	}
	slices.SortFunc(found, func(a, b *svgRule) int {
		if a.weight != b.weight {
			return a.weight - b.weight
		}
		return a.order - b.order
	})
	return found, nil
}
