package folder

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"yardlay/shapes/say"
)

// list says which files in a folder are of which set, each with the SHA-256 sum
// that it was written with.
type list struct {
	Version int                          `json:"version"`
	Sets    map[string]map[string]string `json:"sets"`
}

const listName, listVersion = "list.json", 1

// readList reads the list of the folder; an empty one where there is none.
func (f *Folder) readList() (list, error) {
	known := list{Version: listVersion, Sets: map[string]map[string]string{}}
	text, err := os.ReadFile(f.path(own, listName))
	if errors.Is(err, fs.ErrNotExist) {
		return known, nil
	}
	if err == nil {
		err = json.Unmarshal(text, &known)
	}
	if err == nil && known.Version != listVersion {
		err = fmt.Errorf("it is of version %d", known.Version)
	}
	for _, set := range known.Sets {
		for name := range set {
			if filepath.Base(name) != name || !filepath.IsLocal(name) {
				err = fmt.Errorf("it names %q, which is not in the folder", name)
			}
		}
	}
	if known.Sets == nil {
		known.Sets = map[string]map[string]string{}
	}
	if err != nil {
		return known, say.Errorf("cannot read the list of the files in %s: %w", f.dir, err).
			Hint("give --out another folder")
	}
	return known, nil
}

// text returns the list as it is written.
func (l list) text() ([]byte, error) {
	text, err := json.MarshalIndent(l, "", " ")
	return append(text, '\n'), err
}

// sumOf returns the sum of a file; "" for what is not a plain file. there is
// false when there is none.
func sumOf(name string) (sum string, there bool, err error) {
	info, err := os.Lstat(name)
	if errors.Is(err, fs.ErrNotExist) {
		return "", false, nil
	}
	if err != nil || !info.Mode().IsRegular() {
		return "", true, err
	}
	file, err := os.Open(name)
	if err != nil {
		return "", true, err
	}
	defer file.Close()
	h := sha256.New()
	if _, err := io.Copy(h, file); err != nil {
		return "", true, err
	}
	return hex.EncodeToString(h.Sum(nil)), true, nil
}

func sumOfData(data []byte) string {
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:])
}
