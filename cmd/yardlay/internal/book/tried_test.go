package book

import (
	"time"

	"github.com/paulmach/orb"

	"yardlay/cmd/yardlay/internal/sheet"
)

// tried is a small book with each kind of block.
func tried() Book {
	drawing := func(title string) *sheet.Drawing {
		return &sheet.Drawing{Title: title, Width: 2000, Height: 800, Scale: 10, Groups: []sheet.Group{
			{Title: "gore", ID: "cut-0-0-0", Items: []sheet.Item{
				sheet.Shape{Role: sheet.RolePiece, Ring: sheet.Box(10, 10, 300, 400)},
				sheet.Text{Role: sheet.RoleNote, At: orb.Point{150, 200}, Anchor: sheet.Middle, Size: 30,
					Body: "gore"}}}}}
	}
	return Book{Title: "Skirt", Mark: "a2b3", Date: time.Date(2026, 5, 31, 0, 0, 0, 0, time.UTC), Paper: A4,
		Sections: []Section{
			{Title: "What to buy", Blocks: []Block{Table{Caption: "What to buy", Columns: columns("", "USD"),
				Rows: []Row{
					{Kind: RowGroup, Cells: []string{"At the counter"}},
					{Cells: []string{"5 3/4 yd, satin", "77.63"}, Details: []string{"58 in wide"},
						Ticks: []string{"buy-0"}},
					{Kind: RowSum, Cells: []string{"Total", "77.63"}}}}}},
			{Title: "Cutting", Wide: true, Blocks: []Block{
				Figure{Drawing: drawing("folded"), Caption: "lengthwise fold"}, Figure{Drawing: drawing("open")},
				Heading{"Numbered pieces"}, Paragraph{Text: "1 = gore"},
				Table{Caption: "Tick off", Shown: true, Beside: true, Columns: columns("piece", "size"), Rows: []Row{
					{Cells: []string{"gore", "41 x 29 in"}, Ticks: []string{"cut-0-0-0"}}}}}},
			{Title: "Cautions", Blocks: []Block{Paragraph{Text: "Guard the blade.", Caution: true}}},
		}}
}
