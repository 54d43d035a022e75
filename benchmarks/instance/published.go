package instance

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
)

// published is how many instances there are at the least.
const published = 6

// Published returns the published instances by the names of their files, from the folder that holds them.
func Published(folder string) (map[string]Instance, error) {
	files, err := filepath.Glob(filepath.Join(folder, "*.geojson"))
	if err != nil || len(files) < published {
		return nil, fmt.Errorf("%s holds %d instances of %d or more: %v", folder, len(files), published, err)
	}
	all := map[string]Instance{}
	for _, name := range files {
		text, err := os.ReadFile(name)
		if err != nil {
			return nil, err
		}
		if all[name], err = Read(bytes.NewReader(text)); err != nil {
			return nil, fmt.Errorf("%s: %w", name, err)
		}
	}
	return all, nil
}
