package main

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
)

// file is a whole file in memory, to be written.
type file struct {
	name string
	data []byte
}

// say tells which files were written, unless told to be quiet.
func (o *options) say(out io.Writer, files []file) error {
	if o.quiet || len(files) == 0 {
		return nil
	}
	names := make([]string, len(files))
	for i, f := range files {
		names[i] = f.name
	}
	_, err := fmt.Fprintf(out, "\n%s", wrapAt(fmt.Sprintf("Wrote into %s: %s", o.dir, strings.Join(names, ", ")), "", columns(out)))
	return err
}

// writeAll writes files into dir, made when missing. Each is written beside
// its place first; only when all are there are they renamed, so that a run
// that fails leaves what was there as it was.
func writeAll(dir string, files []file) (err error) {
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return fmt.Errorf("cannot make the folder for the output: %w", err)
	}
	var beside []string
	defer func() {
		for _, name := range beside {
			os.Remove(name) // those renamed are gone already
		}
	}()
	for _, f := range files {
		name, err := writeBeside(dir, f)
		if err != nil {
			return fmt.Errorf("cannot write %s: %w", filepath.Join(dir, f.name), err)
		}
		beside = append(beside, name)
	}
	for i, f := range files {
		if err := os.Rename(beside[i], filepath.Join(dir, f.name)); err != nil {
			return fmt.Errorf("cannot write %s: %w", filepath.Join(dir, f.name), err)
		}
	}
	return nil
}

// writeBeside writes a file under a passing name in the same folder.
func writeBeside(dir string, f file) (name string, err error) {
	temp, err := os.CreateTemp(dir, "."+f.name+".*")
	if err != nil {
		return "", err
	}
	defer func() {
		if err != nil {
			os.Remove(temp.Name())
		}
	}()
	if _, err := temp.Write(f.data); err != nil {
		temp.Close()
		return "", err
	}
	if err := temp.Close(); err != nil {
		return "", err
	}
	return temp.Name(), os.Chmod(temp.Name(), 0o644)
}
