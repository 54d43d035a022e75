package form

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"yardlay/cmd/yardlay/internal/edit"
	"yardlay/cmd/yardlay/internal/strict"
)

// filled has values of every kind, well and badly put.
const filled = `unit = "cm"
title = "Gown"
wdith = 3
[body]
waist_girth = 70
[allowance]
seam = 1
hem = 2
[[cloth]]
id = "satin"
width = 150
both_faces = true
repeat = { along = 12, across = "x" }
flaws = { from = 1, to = 2 }
have = 5
breaks = [ { from = 1 }, 3 ]
[[cloth]]
id = "net"
width = [120, 140]
lay = "open"
shrinkage = 3
spare = 4
flaws = [ { from = 1, to = 2 }, { from = 5, low = "x" },
  { outline = [ [0, 0], [9, "x"], { y = 1 } ] } ]
[[part]]
name = "skirt"
draft = "circle-skirt"
cloth = ["satin", "tulle"]
circle = "half"
length = 60
lining = { cloth = "satin" }
[[part]]
name = "panel"
draft = "outline"
cloth = "satin"
[toga]
a = 1
[quote]
date = "3 May"
note = 2026-05-01
`

var controls = map[Control]string{Line: "line", Choice: "choice", Lines: "lines", Inner: "inner", Tables: "tables",
	Unknown: "unknown"}

// spoken lists the fields of a form that the file has, and what is wrong at any of them, a line each.
func (f Form) spoken() (all []string) {
	var table func(t Table)
	var field func(one Field)
	say := func(path edit.Path, words ...string) {
		words = slices.DeleteFunc(words, func(w string) bool { return w == "" })
		all = append(all, strings.Join(append([]string{path.String()}, words...), " "))
	}
	flag := func(is bool, word string) string {
		if is {
			return word
		}
		return ""
	}
	errs := func(list []*strict.Error) (words string) {
		for _, e := range list {
			words += fmt.Sprintf("!%d:%d", e.At.Line, e.At.Column)
		}
		return words
	}
	field = func(one Field) {
		if one.Given || len(one.Errors) > 0 || one.Within != nil {
			say(one.Path, controls[one.Control], one.Text, flag(one.Unit != "", "in "+one.Unit),
				flag(len(one.Choices) > 0 && one.Key.Name != "draft", "of "+strings.Join(one.Choices, "|")),
				flag(one.Names, "names"), flag(one.Further, "further"), flag(one.Used, "used"), errs(one.Errors))
		}
		for _, item := range one.Items {
			field(item)
		}
		if one.Table != nil && one.Table.Given {
			table(*one.Table)
		}
		for _, t := range one.Tables {
			table(t)
		}
	}
	table = func(t Table) {
		say(t.Path, "table", t.Kind, t.Name, t.Draft, flag(t.Item, fmt.Sprint(t.Index)), flag(t.Last, "last"),
			flag(t.Given, "given"), errs(t.Errors))
		for _, one := range t.Fields {
			field(one)
		}
	}
	for _, g := range f.Groups {
		for _, t := range g.Tables {
			table(t)
		}
	}
	return all
}

// Every value has the control that its key asks for, with its text, unit and choices, and every error stands where it
// is mended: at the value, at the key that is missing, or at what the form shows in one line.
func TestFormOfAJob(t *testing.T) {
	f := made(t, []byte(filled))
	want := strings.Split(` table job given
title line Gown
unit choice cm of in|ft|yd|mm|cm|m
wdith unknown 3 !3:1
toga unknown !36:2
body table body given
body.waist_girth line 70 in cm used
allowance table allowance given
allowance.seam line 1 in cm
allowance.hem line 2 in cm
cloth[0] table cloth satin 0 given
cloth[0].id line satin names
cloth[0].width lines in cm
cloth[0].width line 150 in cm
cloth[0].width[1] line in cm further
cloth[0].both_faces choice true of true|false
cloth[0].repeat inner
cloth[0].repeat table repeat given
cloth[0].repeat.along line 12 in cm
cloth[0].repeat.across line x in cm !13:33
cloth[0].flaws tables
cloth[0].flaws table flaws last given !14:9
cloth[0].flaws.from line 1 in cm
cloth[0].flaws.to line 2 in cm
cloth[0].have line 5 !15:8
cloth[0].breaks line [ { from = 1 }, 3 ] !16:12!16:26
cloth[1] table cloth net 1 last given
cloth[1].id line net names
cloth[1].width lines in cm
cloth[1].width[0] line 120 in cm
cloth[1].width[1] line 140 in cm
cloth[1].width[2] line in cm further
cloth[1].lay choice open of open|lengthwise-fold|crosswise-fold|double-fold
cloth[1].shrinkage line 3 !21:13
cloth[1].spare line 4 !22:9
cloth[1].flaws tables
cloth[1].flaws[0] table flaws 0 given
cloth[1].flaws[0].from line 1 in cm
cloth[1].flaws[0].to line 2 in cm
cloth[1].flaws[1] table flaws 1 given
cloth[1].flaws[1].from line 5 in cm
cloth[1].flaws[1].to line in cm !23:33
cloth[1].flaws[1].low line x in cm !23:51
cloth[1].flaws[2] table flaws 2 last given
cloth[1].flaws[2].outline line [ [0, 0], [9, "x"], { y = 1 } ] !24:18!24:21
part[0] table part skirt circle-skirt 0 given
part[0].name line skirt names
part[0].draft choice circle-skirt
part[0].cloth lines
part[0].cloth[0] choice satin of satin|net
part[0].cloth[1] choice tulle of satin|net !28:19
part[0].cloth[2] choice of satin|net further
part[0].lining inner
part[0].lining table lining given
part[0].lining.cloth choice satin of satin|net
part[0].bodies line
part[0].circle line half of full|three-quarter|half|quarter
part[0].length line 60 in cm
part[1] table part panel outline 1 last given
part[1].name line panel names
part[1].draft choice outline
part[1].cloth lines
part[1].cloth choice satin of satin|net
part[1].cloth[1] choice of satin|net further
part[1].bodies line
part[1].file line !32:3
labour table labour
quote table quote given
quote.date line 3 May
quote.note line 2026-05-01 !40:8`, "\n")
	if got := f.spoken(); !slices.Equal(got, want) {
		t.Errorf("(-want +got):\n%s", cmp.Diff(want, got))
	}
	if f.Unit != "cm" || len(f.Loose) > 0 {
		t.Errorf("in %q, loose %v", f.Unit, f.Loose)
	}
}
