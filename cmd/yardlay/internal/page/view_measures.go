package page

import (
	"errors"
	"html/template"
	"net/http"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"yardlay/cmd/yardlay/internal/document"
	"yardlay/cmd/yardlay/internal/edit"
	"yardlay/cmd/yardlay/internal/form"
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/strict"
)

// measuresView shows the job file as a form.
func measuresView() view {
	return view{path: "measures", name: "Measures", template: "measures",
		show: func(o *opened, r *http.Request) (any, error) { return formOf(o, r, o.State()), nil },
		answers: map[string]answerOf{
			"POST /set": changing(true, func(src []byte, at edit.Path, r *http.Request) ([]byte, error) {
				return form.Set(src, at, r.PostForm.Get("value"))
			}),
			"POST /add": changing(false, func(src []byte, at edit.Path, _ *http.Request) ([]byte, error) {
				return form.Add(src, at)
			}),
			"POST /remove": changing(false, func(src []byte, at edit.Path, _ *http.Request) ([]byte, error) {
				return form.Remove(src, at)
			}),
			"POST /move":         changing(false, move),
			"POST /part":         addPart,
			"GET /gallery":       showGallery,
			"GET /draft/{draft}": draftPicture,
		},
	}
}

// formPage is what the view of the form shows.
type formPage struct {
	Name    string
	Version int
	Form    form.Form
	Broken  *strict.Error // the text is no TOML, and there is no form
	Figure  template.HTML
}

// formOf makes the form of a text; open in a request are the tables that show all their
// fields.
func formOf(o *opened, r *http.Request, now document.State) formPage {
	p := formPage{Name: o.Name(), Version: now.Version, Figure: figure()}
	var err error
	wrong := append(slices.Clip(now.Errors), o.refused(now)...)
	if p.Form, err = form.Of(now.Text, wrong, roomOf(now)); err != nil && !errors.As(err, &p.Broken) {
		p.Broken = &strict.Error{What: err.Error()}
	}
	if r.ParseForm() == nil {
		p.Form.Open(r.Form["open"])
	}
	return p
}

// roomOf is the workroom that a job stands in, as it was read last; nil for none.
func roomOf(now document.State) *job.Workroom {
	if now.File == nil {
		return nil
	}
	return now.File.Job().Room
}

// change is what the form does to the text at a path of it.
type change func(src []byte, at edit.Path, r *http.Request) ([]byte, error)

// changing makes a change that the form asks for, and shows the form as it is then. What
// is typed into one field is one step back.
func changing(typed bool, c change) answerOf {
	return func(o *opened, w http.ResponseWriter, r *http.Request) error {
		if err := r.ParseForm(); err != nil {
			return err
		}
		at, err := edit.ParsePath(r.PostForm.Get("path"))
		if err != nil || len(at) == 0 {
			return invalid(errors.New("the page names no field"))
		}
		field := ""
		if typed {
			field = at.String()
		}
		now, err := o.apply(r, field, func(src []byte) ([]byte, error) { return c(src, at, r) })
		if err != nil {
			return invalidForm(err)
		}
		o.server.render(w, http.StatusOK, "form", formOf(o, r, now))
		return nil
	}
}

// invalidForm is the refusal of a change that the text has no place for.
func invalidForm(err error) error {
	var refused *refusal
	if errors.As(err, &refused) {
		return err
	}
	return invalid(err)
}

// move takes a table or a value of a list to another place in it.
func move(src []byte, at edit.Path, r *http.Request) ([]byte, error) {
	to, err := strconv.Atoi(r.PostForm.Get("to"))
	last := at[len(at)-1]
	if err != nil || !last.OfList {
		return nil, errors.New("the page does not say where to move it")
	}
	return form.Move(src, at[:len(at)-1], last.Index, to)
}

// formWords are what the template of the form says in words.
var formWords = template.FuncMap{
	"label": label, "spoken": spoken, "prose": prose, "told": told, "headed": headed, "one": one, "otherwise": otherwise,
	"place":   whereIn,
	"fieldOf": fieldOf, "add": func(a, b int) int { return a + b },
}

// whereIn is where something is wrong, as the beginning of a line; a file keeps its name.
func whereIn(e *strict.Error) string {
	if e.At.File != "" {
		return e.Where()
	}
	return capital(e.Where())
}

// label is a key as words: waist_girth becomes "Waist girth".
func label(key string) string {
	words := strings.ReplaceAll(key, "_", " ")
	return strings.ToUpper(words[:1]) + words[1:]
}

// fieldOf says which field a key of a comparison means: "satin.width" is the Width of satin.
func fieldOf(key string) string {
	i := strings.LastIndex(key, ".")
	if i < 0 {
		return label(key)
	}
	of := key[:i]
	if heading := headed(of); heading != "" {
		of = heading
	}
	return label(key[i+1:]) + " of " + strings.ReplaceAll(of, ".", " ")
}

// headings are what the groups of the form are called.
var headings = map[string][2]string{ // several, one
	"job": {"The job", "job"}, "body": {"Measures", "wearer"}, "allowance": {"Allowances", "allowance"},
	"cloth": {"Cloths", "cloth"}, "part": {"Parts", "part"}, "match": {"Where the pattern meets", "seam"},
	"supplier": {"Suppliers", "supplier"}, "notion": {"Notions", "notion"}, "labour": {"Your time", "labour"},
	"quote": {"Price", "price"},
}

func headed(group string) string { return headings[group][0] }

// one is what a table of a kind is called.
func one(kind string) string {
	if words, ok := headings[kind]; ok {
		return words[1]
	}
	return strings.TrimSuffix(strings.ReplaceAll(kind, "_", " "), "s")
}

// otherwise says what stands in for a field that is left empty; "" where that is nothing.
func otherwise(k job.Key) template.HTML {
	switch {
	case k.Default == "none":
		return ""
	case k.Kind.Form == job.Truth && k.Default == "true":
		return "yes"
	case k.Kind.Form == job.Truth && k.Default == "false":
		return "no"
	}
	return marked(k.Default, true)
}

// prose is a text of the reference as a sentence of the page begins.
func prose(text string) template.HTML { return marked(capital(text), true) }

// told is what is wrong with a field, as a sentence begins.
func told(text string) template.HTML { return marked(capital(text), false) }

func capital(text string) string {
	first, size := utf8.DecodeRuneInString(text)
	if size == 0 {
		return text
	}
	return string(unicode.ToUpper(first)) + text[size:]
}

// commands are called like keys; the reference means them, not the keys.
var commands = []string{"lay", "draft", "quote"}

// marked is a text as the form says it: keys as their fields are labelled, and what is typed as it stands becomes code.
// The reference names in backquotes no cloths, and a key of one word is one.
func marked(text string, reference bool) template.HTML {
	var b strings.Builder
	for i, part := range strings.Split(text, "`") {
		said, isCode := "", false
		if i%2 == 0 {
			said = spokenPlain(part)
		} else if name, known := spokenName(part); known {
			said = `"` + name + `"`
		} else if reference && knownKeys()[part] && !slices.Contains(commands, part) {
			said = `"` + label(part) + `"`
		} else {
			said, isCode = name, true
		}
		if said = template.HTMLEscapeString(said); isCode {
			said = "<code>" + said + "</code>"
		}
		b.WriteString(said)
	}
	return template.HTML(b.String())
}
