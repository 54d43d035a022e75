package outline

import (
	"strings"
	"unicode"
)

// phrases are what lines, their layers and groups are called by what they are for. They
// count where they are the whole name, but for numbers and what follows a comma, a colon or
// a bracket: "cut line 2" and "Notches: snip or mark" do, "side seam" is the name of an edge.
var phrases = map[Role][]string{
	CutLine: {"cut", "cutting", "cut line", "cutting line", "outline", "boundary", "piece boundary",
		"seam allowance", "with allowance", "with seam allowance", "allowance"},
	SeamLine: {"seam", "seam line", "seamline", "sew", "sew line", "sewing", "sewing line", "stitch", "stitch line",
		"stitching", "stitching line", "without allowance", "without seam allowance"},
	Grain: {"grain", "grain line", "grainline", "straight grain", "straight of grain", "warp"},
	Fold:  {"fold", "fold line", "foldline", "on fold", "on the fold", "edge on a fold", "mirror", "mirror line"},
	Notch: {"notch", "notche", "notch mark", "balance mark"},
	Dart:  {"dart", "dart leg", "dart line"},
	Internal: {"inside", "internal", "internal line", "line inside", "line marked inside", "mark", "marking",
		"marking line", "drill", "drill hole", "drill point", "buttonhole", "button", "pocket placement", "placement",
		"placement line", "roll line", "pleat", "pleat line", "tuck"},
	Ignored: {"ignore", "frame", "border", "dimension", "dimension line", "text", "note", "annotation", "guide",
		"guide line", "construction", "construction line", "grid", "cloth", "edge of the cloth", "name",
		"names and sign", "word", "label", "background", "test square", "title block", "defpoint"},
}

// roleOfPhrase finds them.
var roleOfPhrase = func() map[string]Role {
	all := map[string]Role{}
	for role, words := range phrases {
		for _, w := range words {
			all[w] = role
		}
	}
	return all
}()

// roleCalled is the role that a name says; Unnamed where it says none.
func roleCalled(name string) Role {
	if i := strings.IndexAny(name, ",:;(["); i >= 0 {
		name = name[:i]
	}
	words := strings.FieldsFunc(strings.ToLower(name), func(r rune) bool { return !unicode.IsLetter(r) })
	for i, w := range words {
		if len(w) > 3 && strings.HasSuffix(w, "s") && !strings.HasSuffix(w, "ss") {
			words[i] = w[:len(w)-1]
		}
	}
	if role := roleOfPhrase[strings.Join(words, " ")]; role != Unnamed || len(words) == 0 {
		return role
	}
	switch role := roleOfPhrase[words[0]]; role { // "notch-front", "dart elbow": no piece is called so
	case Notch, Dart, Grain:
		return role
	}
	return Unnamed
}

// ruleFor is the role that the first rule that matches gives, Unnamed where none does.
func (a *assembler) ruleFor(m Marks) Role {
	for _, r := range a.Rules {
		if r.Fits(m) {
			return r.Role
		}
	}
	return Unnamed
}

// Fits says whether a line with such marks is one that the rule is for.
func (r Rule) Fits(m Marks) bool {
	return (r.Layer == "" || strings.EqualFold(r.Layer, m.Layer)) &&
		(r.Prefix == "" || hasPrefixFold(m.ID, r.Prefix) || hasPrefixFold(m.Label, r.Prefix)) &&
		(r.Colour == "" || strings.EqualFold(r.Colour, m.Colour))
}

func hasPrefixFold(s, prefix string) bool {
	return len(s) >= len(prefix) && strings.EqualFold(s[:len(prefix)], prefix)
}

// ruled gives a line the role that the rules handed over say.
func (a *assembler) ruled(i int) bool {
	role := a.ruleFor(a.Lines[i].Marks)
	if role != Unnamed {
		a.Roles[i] = LineRole{Role: role, Given: true}
	}
	return role != Unnamed
}

// named gives lines the roles that the rules say, the layers of pattern data, or the names
// of lines, layers and groups.
func (a *assembler) named() {
	if IsPatternData(a.drawing) {
		a.pattern = map[string]Role{}
		for _, r := range PatternRules() {
			a.pattern[r.Layer] = r.Role
		}
	}
	for i, l := range a.Lines {
		if a.Roles[i].Role == Unnamed && !a.ruled(i) {
			a.Roles[i] = a.roleNamed(l.Marks)
		}
	}
}

// roleNamed is the role that the layer of pattern data says, or that names say.
func (a *assembler) roleNamed(m Marks) LineRole {
	if role := a.pattern[m.Layer]; role != Unnamed {
		return LineRole{Role: role, Because: "layer " + m.Layer + " of pattern data is for " + role.lines()}
	}
	m.Size, m.Colour, m.Dashed = "", "", false
	found, ok := a.names[m]
	if !ok {
		found = roleOfNames(m, a.pattern != nil)
		if a.names == nil {
			a.names = map[Marks]LineRole{}
		}
		a.names[m] = found
	}
	return found
}

// roleOfNames is the role that the marks of a line say by what they are called, from the
// line itself outwards. What a block of pattern data is called is the name of a piece.
func roleOfNames(m Marks, pattern bool) LineRole {
	said := func(what, name string) (LineRole, bool) {
		role := roleCalled(name)
		return LineRole{Role: role, Because: what + " is called " + name}, role != Unnamed
	}
	for _, c := range []struct{ what, name string }{{"it", m.ID}, {"it", m.Label}, {"its layer", m.Layer}} {
		if pattern && c.name == m.Label {
			continue
		}
		if r, ok := said(c.what, c.name); ok {
			return r
		}
	}
	if m.Block != "" {
		return LineRole{}
	}
	groups := strings.Split(m.Group, "/")
	for i := len(groups) - 1; i >= 0; i-- {
		if r, ok := said("its group", groups[i]); ok {
			return r
		}
	}
	return LineRole{}
}

// lines are what lines of a role are called in a sentence.
func (r Role) lines() string {
	return [...]string{"", "cut lines", "seam lines", "grain lines", "folds", "notches", "darts", "lines inside",
		"what is left out"}[r]
}
