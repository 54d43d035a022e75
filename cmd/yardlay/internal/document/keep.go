package document

import (
	"bytes"
	"encoding/hex"
	"fmt"
	"path"
	"path/filepath"
	"time"

	"yardlay/cmd/yardlay/internal/folder"
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/shapes/say"
)

// own is the folder beside the jobs for all that is not a result.
const own = ".yardlay"

// keptIn is where what is not saved of a job lies: its text below a line that says
// which text of the file it was made from.
func (d *Document) keptIn() string { return path.Join(own, "edits", d.file) }

const keptLine = "# What is not saved of %s, made from the text with SHA-256 %s\n"

// edits are what an earlier run has not saved.
type edits struct {
	text []byte
	base sum
	at   time.Time
}

// keep keeps the text beside the file, unless the file has it. It is on its way to the
// disk when the program ends, however it does.
func (d *Document) keep() error {
	text := d.past.text()
	if sumOf(text) == d.seen.sum && !d.seen.gone {
		d.drop()
		return nil
	}
	err := d.folder.MkdirAll(path.Dir(d.keptIn()), 0o755)
	if err == nil {
		line := fmt.Sprintf(keptLine, d.name, hex.EncodeToString(d.base[:]))
		err = d.put(d.keptIn(), append([]byte(line), text...), false)
	}
	if err != nil {
		return say.Errorf("cannot keep what is not saved: %w", err).Hint("save it, or the end of the program loses it")
	}
	return nil
}

// kept reads what was kept; false where there is nothing, or nothing that can be read.
func (d *Document) kept() (edits, bool) {
	info, err := d.folder.Stat(d.keptIn())
	if err != nil || !info.Mode().IsRegular() || info.Size() > job.MaxFile+int64(len(keptLine)+len(d.name)+64) {
		return edits{}, false
	}
	all, err := d.folder.ReadFile(d.keptIn())
	if err != nil {
		return edits{}, false
	}
	line, text, _ := bytes.Cut(all, []byte("\n"))
	at := bytes.LastIndexByte(line, ' ') + 1
	from, err := hex.DecodeString(string(line[at:]))
	if err != nil || len(from) != len(sum{}) {
		return edits{}, false
	}
	return edits{text: text, base: sum(from), at: info.ModTime()}, true
}

// drop removes what was kept, which the file has now.
func (d *Document) drop() {
	if d.folder.Remove(d.keptIn()) == nil {
		d.tidy()
	}
}

// tidy removes the folders that nothing is in.
func (d *Document) tidy() {
	d.folder.Remove(path.Dir(d.keptIn()))
	d.folder.Remove(own)
}

// hold keeps other programs from opening the job as long as this one has it open: each
// would take what the other keeps for its own. A folder that nothing can be written
// into does without.
func (d *Document) hold() error {
	d.free = func() {}
	if d.folder.MkdirAll(path.Dir(d.keptIn()), 0o755) != nil {
		return nil
	}
	free, busy, err := folder.Hold(filepath.Join(d.folder.Name(), filepath.FromSlash(d.keptIn())+".lock"))
	switch {
	case busy:
		return say.Errorf("%s is open already", d.name).Hint("go to its page, or end the run that has it")
	case err == nil:
		d.free = free
	}
	return nil
}
