package job

import (
	_ "embed"
	"slices"
)

//go:embed starter.toml
var starter []byte

// Starter returns a job file to start from; it runs as it stands.
func Starter() []byte { return slices.Clone(starter) }
