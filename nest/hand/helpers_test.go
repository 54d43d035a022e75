package hand

import (
	"yardlay/nest"
	"yardlay/nest/judge"
)

func toJudge(list []nest.Placed) (out []judge.Placed) {
	for _, pl := range list {
		out = append(out, judge.Placed(pl))
	}
	return out
}
