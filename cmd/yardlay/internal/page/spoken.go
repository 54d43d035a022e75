package page

import (
	"html"
	"html/template"
	"regexp"
	"strings"
	"sync"

	"yardlay/cmd/yardlay/internal/job"
)

// knownKeys are the names of the keys of a job file.
var knownKeys = sync.OnceValue(func() map[string]bool {
	keys := map[string]bool{}
	for _, s := range job.Reference() {
		for _, k := range s.Keys {
			keys[k.Name] = true
		}
	}
	return keys
})

var (
	aTable = regexp.MustCompile(`\[{1,2}([a-z]+)\]{1,2}`)
	aValue = regexp.MustCompile(`\b([a-z][a-z0-9_]*) = ("[^"]*"|-?[0-9.]+|true|false)`)
	aKey   = regexp.MustCompile(`\b[a-z]+(_[a-z0-9]+)+\b`) // that can be nothing else

	betweenTags = regexp.MustCompile(`>[^<>]+<`)
)

// spoken says what the program says of a job to whoever knows the form of it and not the file: a key is called as
// its field is labelled, a table as its group is headed, and a value is told as it is typed there. The view of the
// text has the words as they are.
func spoken(text string) string {
	if !strings.ContainsAny(text, "`[=_") {
		return text
	}
	var b strings.Builder
	for i, part := range strings.Split(text, "`") {
		if i%2 == 0 {
			b.WriteString(spokenPlain(part))
			continue
		}
		name, _ := spokenName(part)
		b.WriteString(`"` + name + `"`)
	}
	return b.String()
}

// spokenName says what stands in backquotes; false where that is as it stands. A key of a single word is the label
// itself: it may as well be a command, or what somebody calls a cloth.
func spokenName(text string) (string, bool) {
	if knownKeys()[text] && strings.Contains(text, "_") {
		return label(text), true
	}
	if strings.HasPrefix(text, "{") || strings.HasPrefix(text, "[") && !aTable.MatchString(text) {
		return text, false
	}
	plain := spokenPlain(text)
	return plain, plain != text
}

// spokenPlain says what stands in no backquotes.
func spokenPlain(text string) string {
	text = aTable.ReplaceAllStringFunc(text, func(found string) string {
		if name := headed(strings.Trim(found, "[]")); name != "" {
			return `"` + name + `"`
		}
		return found
	})
	text = aValue.ReplaceAllStringFunc(text, func(found string) string {
		m := aValue.FindStringSubmatch(found)
		value := strings.Trim(m[2], `"`)
		if !knownKeys()[m[1]] {
			return found
		}
		switch value {
		case "true":
			value = "yes"
		case "false":
			value = "no"
		}
		return label(m[1]) + ": " + value
	})
	return aKey.ReplaceAllStringFunc(text, func(name string) string {
		if knownKeys()[name] {
			return `"` + label(name) + `"`
		}
		return name
	})
}

// spokenAll says several texts.
func spokenAll(texts []string) (all []string) {
	for _, t := range texts {
		all = append(all, spoken(t))
	}
	return all
}

// spokenHTML says what stands between the tags of a page.
func spokenHTML(page template.HTML) template.HTML {
	return template.HTML(betweenTags.ReplaceAllStringFunc(string(page), func(found string) string {
		text := html.UnescapeString(strings.Trim(found, "<>"))
		if said := spoken(text); said != text {
			return ">" + template.HTMLEscapeString(said) + "<"
		}
		return found
	}))
}
