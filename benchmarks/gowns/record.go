package main

import (
	"bufio"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
)

// record is one run: a line of JSON in the file of runs.
type record struct {
	Cloth       string  `json:"cloth"`
	Mark        string  `json:"mark"` // of the problem
	Pieces      int     `json:"pieces"`
	Work        int64   `json:"work"` // multiple of the default
	Seed        uint64  `json:"seed"`
	Length      float64 `json:"length"` // mm
	Bound       float64 `json:"bound"`  // mm
	Evaluations int64   `json:"evaluations"`
	Seconds     float64 `json:"seconds"`
	Proved      bool    `json:"proved"` // no less can be bought of cloth sold by the eighth of a yard
}

// key says which run it is.
type key struct {
	mark string
	work int64
	seed uint64
}

func (r record) key() key { return key{r.Mark, r.Work, r.Seed} }

// read returns the runs of a file; none where there is no file yet.
func read(name string) ([]record, error) {
	f, err := os.Open(name)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	defer f.Close()
	var out []record
	lines := bufio.NewScanner(f)
	for n := 1; lines.Scan(); n++ {
		var r record
		if err := json.Unmarshal(lines.Bytes(), &r); err != nil {
			return nil, fmt.Errorf("%s:%d: %w", name, n, err)
		}
		out = append(out, r)
	}
	return out, lines.Err()
}

// add appends a run to the file in one write, so that an interruption leaves whole lines.
func add(name string, r record) error {
	text, err := json.Marshal(r)
	if err != nil {
		return err
	}
	f, err := os.OpenFile(name, os.O_APPEND|os.O_CREATE|os.O_WRONLY, 0o644)
	if err != nil {
		return err
	}
	_, err = f.Write(append(text, '\n'))
	return errors.Join(err, f.Close())
}
