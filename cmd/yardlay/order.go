package main

import (
	"context"
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"time"

	"github.com/spf13/pflag"

	"yardlay/cmd/yardlay/internal/files"
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/workroom"
	"yardlay/cost"
	"yardlay/shapes/say"
)

var orderCommand = command{
	name: "order", args: "JOB", brief: "note what is agreed, paid and due for a gown",
	about: `Shows how the order of a gown stands in the book of its workroom: what is agreed,
what is paid and what is still due, when it is fitted and delivered.

With flags it writes into the book first. --paid and --fitting add to what is
there, the others take its place; --ordered is today for a gown that the book does
not have yet. All else in the book stays as it is written.
`,
	flags: func(flags *pflag.FlagSet, o *options) {
		flags.StringVar(&o.order.price, "price", "", "the price agreed, such as 840.00")
		flags.StringVar(&o.order.deposit, "deposit", "", "what is due first, such as 400.00")
		flags.StringArrayVar(&o.order.paid, "paid", nil, "an amount that was paid, on the day of --on; repeat for more")
		flags.StringArrayVar(&o.order.fittings, "fitting", nil, "a day of a fitting, 2026-12-10; repeat for more")
		flags.StringVar(&o.order.deliver, "deliver", "", "the day on which it has to be ready, 2026-12-20")
		flags.StringVar(&o.order.ordered, "ordered", "", "the day on which it was ordered")
		o.onFlag(flags)
		flags.BoolVar(&o.json, "json", false, "print JSON")
	},
	run: order,
}

// orderOptions are the flags of order.
type orderOptions struct {
	price, deposit, deliver, ordered string
	paid, fittings                   []string
}

// asks says whether anything is to be written.
func (oo orderOptions) asks() bool {
	return oo.price+oo.deposit+oo.deliver+oo.ordered != "" || len(oo.paid)+len(oo.fittings) > 0
}

// onFlag is the day of what is told.
func (o *options) onFlag(flags *pflag.FlagSet) {
	flags.StringVar(&o.on, "on", "", "the day of this, instead of today: 2026-11-29")
}

// day is that of --on, else today.
func (o *options) day() (job.Date, error) { return dayOr("on", o.on, job.DateOf(time.Now())) }

// dayOr reads a flag that is a day, or takes another one where there is none.
func dayOr(flag, text string, otherwise job.Date) (job.Date, error) {
	if text == "" {
		return otherwise, nil
	}
	d, err := job.ParseDate(text)
	if err != nil {
		return d, badDate(flag, text)
	}
	return d, nil
}

func order(ctx context.Context, s streams, args []string, o *options) error {
	today, err := o.day()
	if err != nil {
		return err
	}
	f, path, err := o.inRoom(ctx, "order", args, s)
	if err != nil {
		return err
	}
	w := f.Job().Room
	if o.order.asks() {
		change, err := o.order.change(w.Currency, today)
		if err != nil {
			return err
		}
		err = workroom.Change(ctx, path, func(src []byte, w *job.Workroom) ([]byte, error) {
			c := change
			if _, ok := w.Gown(f.Name()); !ok && c.Ordered.IsZero() {
				c.Ordered = today
			}
			return c.Into(src, w, f.Name())
		})
		if err != nil {
			return err
		}
		if _, w, err = workroom.Read(path); err != nil {
			return err
		}
	}
	g, ok := w.Gown(f.Name())
	if !ok {
		return say.Errorf("%s is not in %s", filepath.Base(f.Name()), path).
			Hint("`yardlay order %s --price 840.00 --deliver 2026-12-20` puts it there", f.Name())
	}
	stands, err := standing(g, f.Job().Title, w.Currency, today)
	if err != nil {
		return err
	}
	s.line.clear()
	if !o.json {
		stands.print(s.out)
		return nil
	}
	asJSON, err := files.JSON(stands)
	s.out.Write(asJSON)
	return err
}

// inRoom reads the job that a command was given and finds the book of its workroom.
func (o *options) inRoom(ctx context.Context, command string, args []string, s streams) (*job.File, string, error) {
	f, err := readJob(ctx, command, args, s)
	if err != nil {
		return nil, "", err
	}
	path, ok := workroom.Find(f.Name())
	if args[0] == "-" || !ok || f.Job().Room == nil {
		return nil, "", say.Errorf("no %s stands beside %s", job.WorkroomFile, f.Name()).
			Hint("`yardlay workroom --new` makes one in the folder of the job")
	}
	return f, path, nil
}

// change reads the flags as what is written into the book.
func (oo orderOptions) change(currency string, today job.Date) (c workroom.Order, err error) {
	money := func(flag, text string, least int64) (*cost.Money, error) {
		m, err := cost.ParseMoney(text, currency)
		if err != nil || m.Minor < least {
			return nil, &usageError{fmt.Sprintf("--%s cannot be %q", flag, text),
				"an amount in " + currency + ", for example 840.00"}
		}
		return &m, nil
	}
	for _, one := range []struct {
		flag, text string
		to         **cost.Money
	}{{"price", oo.price, &c.Price}, {"deposit", oo.deposit, &c.Deposit}} {
		if one.text == "" {
			continue
		}
		if *one.to, err = money(one.flag, one.text, 0); err != nil {
			return c, err
		}
	}
	for _, text := range oo.paid {
		m, err := money("paid", text, 1)
		if err != nil {
			return c, err
		}
		c.Paid = append(c.Paid, job.Payment{On: today, Amount: *m})
	}
	if c.Ordered, err = dayOr("ordered", oo.ordered, job.Date{}); err != nil {
		return c, err
	}
	if c.Deliver, err = dayOr("deliver", oo.deliver, job.Date{}); err != nil {
		return c, err
	}
	for _, text := range oo.fittings {
		d, err := dayOr("fitting", text, job.Date{})
		if err != nil {
			return c, err
		}
		if !slices.Contains(c.Fittings, d) {
			c.Fittings = append(c.Fittings, d)
		}
	}
	return c, nil
}

// orderStanding is how an order stands.
type orderStanding struct {
	Job      string      `json:"job"`
	Title    string      `json:"title"`
	Ordered  string      `json:"ordered,omitempty"`
	Fittings []string    `json:"fittings"`
	Deliver  string      `json:"deliver,omitempty"`
	Price    *cost.Money `json:"price"` // null: not agreed
	Deposit  *cost.Money `json:"deposit"`
	Paid     []paid      `json:"paid"`
	Due      *cost.Money `json:"due_first"` // of the deposit, what is not paid
	Balance  *cost.Money `json:"balance"`   // of the price, what is not paid
	Cut      string      `json:"cut,omitempty"`

	days int // to delivery, from the day it is looked at
}

type paid struct {
	On     string     `json:"on"`
	Amount cost.Money `json:"amount"`
}

// standing reckons what is paid and what is due.
func standing(g job.Gown, title, currency string, today job.Date) (orderStanding, error) {
	st := orderStanding{Job: g.Job, Title: title, Ordered: g.Ordered.String(), Deliver: g.Deliver.String(),
		Fittings: []string{}, Paid: []paid{}, days: g.Deliver.DaysSince(today)}
	for _, d := range g.Fittings {
		st.Fittings = append(st.Fittings, d.String())
	}
	sum := cost.Money{Currency: currency}
	var err error
	for _, p := range g.Paid {
		st.Paid = append(st.Paid, paid{p.On.String(), p.Amount})
		if sum, err = sum.Add(p.Amount); err != nil {
			return st, err
		}
	}
	for _, one := range []struct {
		agreed cost.Money
		to     **cost.Money
		left   **cost.Money
	}{{g.Price, &st.Price, &st.Balance}, {g.Deposit, &st.Deposit, &st.Due}} {
		if one.agreed.Currency == "" {
			continue
		}
		left, err := one.agreed.Sub(sum)
		if err != nil {
			return st, err
		}
		agreed := one.agreed
		*one.to, *one.left = &agreed, &left
	}
	if g.Cut != nil {
		st.Cut = g.Cut.On.String()
	}
	return st, nil
}

// print prints it, a line for each thing that is known.
func (st orderStanding) print(out io.Writer) {
	head := st.Job
	if st.Title != "" {
		head += ", " + st.Title
	}
	fmt.Fprint(out, wrapAt(head, "", columns(out)))
	line := func(what, text string) {
		if text != "" {
			fmt.Fprintf(out, "  %-10s %s\n", what, text)
		}
	}
	line("ordered", st.Ordered)
	for _, d := range st.Fittings {
		line("fitting", d)
	}
	line("deliver", st.deliver())
	if st.Price != nil {
		line("price", st.Price.String())
	}
	if st.Deposit != nil {
		line("deposit", st.Deposit.String()+st.deposit())
	}
	for _, p := range st.Paid {
		line("paid", p.On+"  "+p.Amount.String())
	}
	if st.Balance != nil {
		line("balance", st.balance())
	}
	line("cut", st.Cut)
}

// deliver says when, and how soon that is.
func (st orderStanding) deliver() string {
	switch {
	case st.Deliver == "":
		return ""
	case st.days == 0:
		return st.Deliver + ", today"
	case st.days < 0:
		return st.Deliver + ", " + say.Count(-st.days, "day") + " ago"
	}
	return st.Deliver + ", in " + say.Count(st.days, "day")
}

// deposit says what of it is due.
func (st orderStanding) deposit() string {
	if st.Due.Minor <= 0 {
		return ", paid"
	}
	return ", " + st.Due.String() + " of it due"
}

// balance says what is still to be paid.
func (st orderStanding) balance() string {
	switch {
	case st.Balance.Minor == 0:
		return "paid in full"
	case st.Balance.Minor < 0:
		return cost.Money{Minor: -st.Balance.Minor, Currency: st.Balance.Currency}.String() + " more paid than agreed"
	}
	return st.Balance.String()
}
