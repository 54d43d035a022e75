package job

import (
	_ "embed"
	"slices"
)

//go:embed starter.toml
var starter []byte

// Starter returns a job file to start from; it runs as it stands.
func Starter() []byte { return slices.Clone(starter) }

//go:embed workroom_starter.toml
var workroomStarter []byte

// WorkroomStarter returns the book of a workroom to start from: it holds, and shows in
// notes what may be in it.
func WorkroomStarter() []byte { return slices.Clone(workroomStarter) }
