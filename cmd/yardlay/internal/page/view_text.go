package page

import (
	"bytes"
	"errors"
	"net/http"
	"strconv"

	"yardlay/cmd/yardlay/internal/document"
	"yardlay/cmd/yardlay/internal/strict"
)

// textView shows the job file itself.
func textView() view {
	return view{path: "text", name: "Text", template: "text",
		show: func(o *opened, _ *http.Request) (any, error) { return textOf(o), nil },
		answers: map[string]answerOf{
			"GET /now":  textNow,
			"POST /set": setText,
		},
	}
}

// jobText is what the view of the text shows.
type jobText struct {
	Name    string
	Version int // of the text in the box
	Text    string
	Errors  strict.Errors
	Other   int // the version of another text that stands against the one in the box; 0: none
}

func textOf(o *opened) jobText {
	now := o.State()
	return jobText{Name: o.Name(), Version: now.Version, Text: string(now.Text), Errors: now.Errors}
}

// textNow is the bare text with its version, for a page whose box has an older one.
func textNow(o *opened, w http.ResponseWriter, _ *http.Request) error {
	now := o.State()
	w.Header().Set("Content-Type", "text/plain; charset=utf-8")
	w.Header().Set("Version", strconv.Itoa(now.Version))
	_, err := w.Write(now.Text)
	return err
}

// setText takes over the text as somebody types it, and shows what is wrong with it. One
// that was typed into an older text than there is takes its place only when the page says
// so; or else is kept as a step forth.
func setText(o *opened, w http.ResponseWriter, r *http.Request) error {
	if err := r.ParseForm(); err != nil {
		return err
	}
	text := r.PostForm.Get("text")
	put := func(src []byte) ([]byte, error) { return typed(src, text), nil }
	if seen := r.PostForm.Get("other"); seen != "" {
		r.PostForm.Set("version", seen)
		was := o.State()
		if now, err := o.apply(r, "", put); err == nil && !bytes.Equal(was.Text, now.Text) {
			o.Undo()
		}
		w.Header().Set("HX-Retarget", "#main")
		w.Header().Set("HX-Reswap", "innerHTML")
		o.server.render(w, http.StatusOK, "text", textOf(o))
		return nil
	}
	base, field := r.PostForm.Get("version"), "text"
	if seen := r.PostForm.Get("over"); seen != "" {
		r.PostForm.Set("version", seen)
		field = "" // a step of its own
	}
	now, err := o.apply(r, field, put)
	shown := jobText{Name: o.Name(), Version: now.Version, Text: text, Errors: now.Errors}
	if errors.Is(err, document.ErrStale) {
		shown.Other = now.Version
		if shown.Version, err = strconv.Atoi(base); err != nil {
			return invalid(err)
		}
	} else if err != nil {
		return err
	}
	o.server.render(w, http.StatusOK, "text-errors", shown)
	return nil
}

// apply makes a change that a page asks for, to the version of the job that it shows.
func (o *opened) apply(r *http.Request, field string, change func(src []byte) ([]byte, error)) (document.State, error) {
	base, err := strconv.Atoi(r.PostForm.Get("version"))
	if err != nil {
		return document.State{}, invalid(errors.New("the page does not say which version of the job it shows"))
	}
	now, err := o.Apply(base, field, change)
	if errors.Is(err, document.ErrStale) {
		return now, &refusal{http.StatusConflict, err}
	}
	return now, err
}
