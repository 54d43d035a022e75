package document

import (
	"crypto/sha256"
	"errors"
	"io"
	"io/fs"
	"os"
	"path"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/shapes/say"
)

// sum tells texts apart.
type sum [sha256.Size]byte

func sumOf(text []byte) sum { return sha256.Sum256(text) }

// onDisk is a file as it was when it was looked at.
type onDisk struct {
	info fs.FileInfo
	sum  sum
	gone bool
}

// like says whether a file looks as it did then.
func (o onDisk) like(info fs.FileInfo) bool {
	return o.info != nil && !o.gone && os.SameFile(o.info, info) && o.info.ModTime().Equal(info.ModTime()) &&
		o.info.Size() == info.Size()
}

// follow returns the file that a name stands for, by links that stay in the folder.
func follow(folder *os.Root, name string) (string, error) {
	const most = 8 // links in a row
	for range most {
		info, err := folder.Lstat(name)
		if err != nil {
			return "", say.Errorf("cannot read the job: %w", err)
		}
		if info.Mode()&fs.ModeSymlink == 0 {
			return name, nil
		}
		to, err := folder.Readlink(name)
		if err != nil {
			return "", say.Errorf("cannot read the job: %w", err)
		}
		name = path.Join(path.Dir(name), to)
		if path.IsAbs(to) || !fs.ValidPath(name) {
			return "", say.Errorf("the job is a link to a file outside its folder")
		}
	}
	return "", say.Errorf("the job is a link to too many links")
}

// read reads the file, and remembers how it was seen.
func (d *Document) read() ([]byte, error) {
	info, err := d.folder.Stat(d.file)
	switch {
	case err != nil:
		return nil, say.Errorf("cannot read the job: %w", err)
	case !info.Mode().IsRegular(): // a pipe would keep it waiting
		return nil, say.Errorf("%s is not a plain file", d.name)
	case info.Size() > job.MaxFile:
		return nil, say.Errorf("%s is over %d bytes long, the most a job takes", d.name, job.MaxFile).
			Hint("a job is a few hundred lines of text")
	}
	file, err := d.folder.Open(d.file)
	if err != nil {
		return nil, say.Errorf("cannot read the job: %w", err)
	}
	defer file.Close()
	text, err := io.ReadAll(io.LimitReader(file, job.MaxFile))
	if err != nil {
		return nil, say.Errorf("cannot read the job: %w", err)
	}
	if now, err := file.Stat(); err == nil {
		info = now
	}
	d.seen = onDisk{info: info, sum: sumOf(text)}
	return text, nil
}

// Look looks whether the file has changed on the disk.
func (d *Document) Look() {
	d.editing.Lock()
	defer d.editing.Unlock()
	if d.look() || d.otherRoom() {
		d.show()
	}
}

// roomNow is the book of the workroom beside the job.
func (d *Document) roomNow() onDisk {
	info, err := d.folder.Stat(path.Join(path.Dir(d.name), job.WorkroomFile))
	return onDisk{info: info, gone: err != nil}
}

// otherRoom says whether the book has changed since the text was read.
func (d *Document) otherRoom() bool {
	now := d.roomNow()
	if now.gone || d.room.gone {
		return now.gone != d.room.gone
	}
	return !d.room.like(now.info)
}

// look takes a text over that someone else has written, as a step, where nothing here
// stands against it. It says whether there is anything to show. A file that cannot be
// read just now, as while someone writes it, is looked at the next time.
func (d *Document) look() bool {
	info, err := d.folder.Stat(d.file)
	if errors.Is(err, fs.ErrNotExist) {
		was := d.seen.gone
		d.seen.gone = true
		return !was
	}
	if err != nil || d.seen.like(info) {
		return false
	}
	saved := sumOf(d.past.text()) == d.base // and so nothing of ours would give way
	text, err := d.read()
	if err != nil {
		return false
	}
	switch {
	case d.seen.sum == sumOf(d.past.text()):
		d.base = d.seen.sum
		d.drop()
	case saved:
		d.base = d.seen.sum
		d.drop()
		d.past.push(text, "", d.now())
	}
	return true
}

// put puts a text in the place of a file of the folder.
func (d *Document) put(name string, text []byte, synced bool) error {
	return Put(d.folder, name, text, synced && !d.quick)
}

// Put puts a text in the place of a file of a folder: all of it or none. synced, it is on the disk
// when Put returns.
func Put(folder *os.Root, name string, text []byte, synced bool) error {
	mode := fs.FileMode(0o644)
	if info, err := folder.Stat(name); err == nil {
		mode = info.Mode().Perm()
	}
	beside := path.Join(path.Dir(name), "."+path.Base(name)+".new")
	folder.Remove(beside)
	file, err := folder.OpenFile(beside, os.O_WRONLY|os.O_CREATE|os.O_EXCL, mode)
	if err != nil {
		return err
	}
	_, err = file.Write(text)
	if err == nil && synced {
		err = file.Sync()
	}
	if err = errors.Join(err, file.Close()); err == nil {
		err = folder.Rename(beside, name)
	}
	if err != nil {
		folder.Remove(beside)
	}
	return err
}
