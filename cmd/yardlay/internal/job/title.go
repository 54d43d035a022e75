package job

import "github.com/pelletier/go-toml/v2/unstable"

// TitleOf returns the title that a job file gives the job, as far as the text can be read
// up to its first table; "" where it gives none. It is for lists of files, some of which
// may be no jobs.
func TitleOf(src []byte) string {
	var p unstable.Parser
	p.Reset(src)
	for p.NextExpression() {
		e := p.Expression()
		if e.Kind != unstable.KeyValue {
			return ""
		}
		names := e.Key()
		if names.Next() && names.IsLast() && string(names.Node().Data) == "title" && e.Value().Kind == unstable.String {
			return string(e.Value().Data)
		}
	}
	return ""
}
