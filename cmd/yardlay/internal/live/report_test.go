package live

import "yardlay/cmd/yardlay/internal/report"

// Report is of the whole job, as report.Run makes it, once every cloth is laid; nil before.
func (k *Desk) Report() *report.Report {
	if s := k.Snapshot(); s.Final {
		return s.Report
	}
	return nil
}
