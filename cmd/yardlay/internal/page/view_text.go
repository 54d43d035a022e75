package page

import (
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
			"POST /set": setText,
		},
	}
}

// jobText is what the view of the text shows.
type jobText struct {
	Name    string
	Version int
	Text    string
	Errors  strict.Errors
}

func textOf(o *opened) jobText {
	now := o.State()
	return jobText{o.Name(), now.Version, string(now.Text), now.Errors}
}

// setText takes over the text as somebody types it, and shows what is wrong with it.
func setText(o *opened, w http.ResponseWriter, r *http.Request) error {
	if err := r.ParseForm(); err != nil {
		return err
	}
	text := r.PostForm.Get("text")
	now, err := o.apply(r, "text", func(src []byte) ([]byte, error) { return typed(src, text), nil })
	if err != nil {
		return err
	}
	o.server.render(w, http.StatusOK, "text-errors", jobText{o.Name(), now.Version, text, now.Errors})
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
