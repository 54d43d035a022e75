package page

import (
	"errors"
	"net/http"
	"strconv"

	"yardlay/cmd/yardlay/internal/document"
	"yardlay/cmd/yardlay/internal/form"
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/shapes/say"
)

// take writes changes of a run's job into the text of the job, as one step that can be
// undone. It refuses a run of another text.
func (o *opened) take(of *run, changes []job.Change) error {
	now := o.State()
	if string(now.Text) != of.text {
		return &refusal{http.StatusConflict, say.Errorf("the job has been changed since this was laid").
			Hint("lay it once more, then take it over")}
	}
	_, err := o.Apply(now.Version, "", func(src []byte) ([]byte, error) { return written(of.file, src, changes) })
	if errors.Is(err, document.ErrStale) {
		return &refusal{http.StatusConflict, err}
	}
	return err
}

// written puts changes into the text of a job.
func written(f *job.File, src []byte, changes []job.Change) ([]byte, error) {
	spots, err := f.Spots(changes)
	if err != nil {
		return nil, err
	}
	return form.Put(src, spots)
}

// rowAsked is the row that a form or an address asks for, from 0.
func rowAsked(r *http.Request) (int, error) {
	text := r.PathValue("row")
	if text == "" {
		text = r.FormValue("row")
	}
	n, err := strconv.Atoi(text)
	if err != nil || n < 0 {
		return 0, errors.New("no row is named")
	}
	return n, nil
}
