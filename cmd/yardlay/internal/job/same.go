package job

import (
	"reflect"
	"slices"
)

// Same says whether two jobs ask for the same, whether or not they have been drafted
// by now.
func (j *Job) Same(other *Job) bool { return reflect.DeepEqual(j.undrafted(), other.undrafted()) }

// undrafted returns the job as it was read, without what its drafts came to.
func (j *Job) undrafted() Job {
	read := *j
	read.Parts = slices.Clone(j.Parts)
	for i, p := range read.Parts {
		layers := slices.Clone(p.Layers)
		for k := range layers {
			layers[k].made = nil
			if o, ok := layers[k].Draft.(outlines); ok {
				o.noted = nil // where its corners are counted as they are drafted
				layers[k].Draft = o
			}
		}
		read.Parts[i].Layers, read.Parts[i].Place = layers, Place{} // whose layers say where it is
	}
	return read
}
