package browser

import (
	"context"
	"encoding/json"
	"strconv"

	"github.com/chromedp/cdproto/accessibility"
	"github.com/chromedp/chromedp"
)

// Heard is a node of the page as a screen reader gets it.
type Heard struct {
	Role, Name, Live string
	Level            int  // of a heading
	Focusable        bool // it takes the keyboard
}

// Heard returns the nodes of the page that are not left out for a screen reader, in the order of the page.
func (p *Page) Heard() (list []Heard) {
	p.t.Helper()
	limited, enough := context.WithTimeout(p.ctx, patience)
	defer enough()
	all, err := chromedp.Call(limited, accessibility.GetFullAXTree, accessibility.GetFullAXTreeParams{})
	if err != nil {
		p.t.Fatalf("the tree of a screen reader: %v", err)
	}
	nodes := map[accessibility.NodeID]*accessibility.Node{}
	for _, n := range all.Nodes {
		nodes[n.NodeID] = n
	}
	var take func(n *accessibility.Node)
	take = func(n *accessibility.Node) {
		if !n.Ignored {
			h := Heard{Role: text(n.Role), Name: text(n.Name)}
			for _, prop := range n.Properties {
				switch value := text(prop.Value); string(prop.Name) {
				case "live":
					h.Live = value
				case "level":
					h.Level, _ = strconv.Atoi(value)
				case "focusable":
					h.Focusable = value == "true"
				}
			}
			list = append(list, h)
		}
		for _, id := range n.ChildIDs {
			if child := nodes[id]; child != nil {
				take(child)
			}
		}
	}
	if len(all.Nodes) > 0 {
		take(all.Nodes[0])
	}
	return list
}

// text is a value of a node in words.
func text(v *accessibility.Value) string {
	var words string
	if v == nil || json.Unmarshal(v.Value, &words) == nil {
		return words
	}
	return string(v.Value) // a number, or a truth
}
