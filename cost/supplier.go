package cost

import (
	"errors"
	"fmt"

	"yardlay/shapes/say"
)

// Supplier is where cloth and notions are ordered.
type Supplier struct {
	Name string
	// Shipping is paid once for an order, tax included; the zero value is none.
	Shipping Money
	// FreeFrom is the sum of goods before tax from which shipping is free; the
	// zero value: never.
	FreeFrom Money
	// Tax is the percentage added to the price of each thing bought, worked out
	// and rounded line by line.
	Tax Decimal
}

// Goods is one thing to buy from one of several suppliers. A cloth is bought
// whole from one of them, so that it is of one dye lot.
type Goods struct {
	Name    string
	Kind    Kind // KindCloth or KindNotion
	Choices []Choice
}

// Choice is what one supplier asks for goods: the Cost of a Purchase or an Item,
// before tax. A supplier may ask several: more than is needed may bring free
// shipping.
type Choice struct {
	Supplier int // index of the supplier
	Cost     Money
}

// Order is what is bought from one supplier.
type Order struct {
	Supplier int   // index of the supplier
	Goods    []int // indices of the goods, in order
	Cost     Money // of the goods, before tax
	Tax      Money // on the goods, the sum of rounded lines
	Shipping Money
	Total    Money
}

// Orders is what to buy where.
type Orders struct {
	Choice []int   // for each of the goods, the index of the choice taken
	Orders []Order // by supplier, those without goods left out
	Total  Money
}

// The most suppliers and goods looked at together; all subsets of suppliers are.
const (
	mostSuppliers = 10
	mostGoods     = 200
	mostOfMany    = 1000 // by CheapestFound
)

// Cheapest says what to order where so that goods, tax and shipping together
// cost least. It is exact: all subsets of suppliers are looked at, and where
// free shipping may be worth a dearer choice, all sums of goods that matter. Of
// equally cheap ways it keeps the first found, always the same.
func Cheapest(currency string, suppliers []Supplier, goods []Goods) (Orders, error) {
	s, err := check(currency, suppliers, goods, mostGoods)
	if err != nil {
		return Orders{}, err
	}
	if err := s.run(); err != nil {
		return Orders{}, err
	}
	return s.orders(currency, goods)
}

// CheapestFound is Cheapest for orders of many things at once. Where it would take long to tell which orders are the
// cheapest it returns the cheapest that it has found, and told is false.
func CheapestFound(currency string, suppliers []Supplier, goods []Goods) (o Orders, told bool, err error) {
	s, err := check(currency, suppliers, goods, mostOfMany)
	if err != nil {
		return Orders{}, false, err
	}
	s.brief = true
	if err := s.run(); err != nil {
		return Orders{}, false, err
	}
	o, err = s.orders(currency, goods)
	return o, !s.missed, err
}

// check begins the search for orders that can be placed.
func check(currency string, suppliers []Supplier, goods []Goods, most int) (*sourcing, error) {
	if err := checkSuppliers(currency, suppliers); err != nil {
		return nil, err
	}
	if err := checkGoods(currency, len(suppliers), goods, most); err != nil {
		return nil, err
	}
	return newSourcing(suppliers, goods)
}

func checkSuppliers(currency string, suppliers []Supplier) error {
	if err := CheckCurrency(currency); err != nil {
		return err
	}
	if len(suppliers) > mostSuppliers {
		return fmt.Errorf("%d suppliers are more than %d", len(suppliers), mostSuppliers)
	}
	for _, s := range suppliers {
		for _, m := range []struct {
			what string
			Money
		}{{"shipping", s.Shipping}, {"free shipping from", s.FreeFrom}} {
			if m.Money == (Money{}) {
				continue
			}
			if err := checkPriceIn(m.Money, currency); err != nil {
				return say.Errorf("supplier %s: %s: %w", s.Name, m.what, err)
			}
		}
		if err := checkNotNegative("supplier "+s.Name+": tax", s.Tax); err != nil {
			return err
		}
	}
	return nil
}

func checkGoods(currency string, suppliers int, goods []Goods, most int) error {
	if len(goods) > most {
		return fmt.Errorf("%d goods are more than %d", len(goods), most)
	}
	for _, g := range goods {
		if len(g.Choices) == 0 {
			return fmt.Errorf("%s: no supplier sells it", g.Name)
		}
		for _, c := range g.Choices {
			if c.Supplier < 0 || c.Supplier >= suppliers {
				return fmt.Errorf("%s: there is no supplier %d", g.Name, c.Supplier)
			}
			if err := checkPriceIn(c.Cost, currency); err != nil {
				return say.Errorf("%s: %w", g.Name, err)
			}
		}
	}
	return nil
}

// taxed gives the tax on a cost and both together.
func (s Supplier) taxed(cost Money) (tax, sum Money, err error) {
	if tax, err = cost.Times(s.Tax.share()); err != nil {
		return tax, sum, err
	}
	sum, err = cost.Add(tax)
	return tax, sum, err
}

// orders writes out the best way found.
func (s *sourcing) orders(currency string, goods []Goods) (Orders, error) {
	nothing := Money{0, currency}
	all := Orders{Choice: s.bestChoice, Total: nothing}
	byOne := make([]Order, len(s.suppliers))
	for i, g := range goods {
		c := g.Choices[s.bestChoice[i]]
		o, seller := &byOne[c.Supplier], s.suppliers[c.Supplier]
		tax, _, err := seller.taxed(c.Cost)
		if err != nil {
			return Orders{}, say.Errorf("%s: %w", g.Name, err)
		}
		if o.Cost, err = o.Cost.Add(c.Cost); err != nil {
			return Orders{}, err
		}
		if o.Tax, err = o.Tax.Add(tax); err != nil {
			return Orders{}, err
		}
		o.Goods = append(o.Goods, i)
	}
	for i, o := range byOne {
		if len(o.Goods) == 0 {
			continue
		}
		o.Supplier, o.Shipping = i, nothing
		if seller := s.suppliers[i]; !seller.free(o.Cost.Minor) {
			o.Shipping.Minor = seller.Shipping.Minor
		}
		var err error
		o.Total = nothing
		for _, m := range []Money{o.Cost, o.Tax, o.Shipping} {
			if o.Total, err = o.Total.Add(m); err != nil {
				return Orders{}, err
			}
		}
		if all.Total, err = all.Total.Add(o.Total); err != nil {
			return Orders{}, err
		}
		all.Orders = append(all.Orders, o)
	}
	if all.Total.Minor != s.best {
		return Orders{}, errors.New("the orders do not cost what the search for them says")
	}
	return all, nil
}

// free tells whether goods for so many minor units are shipped for nothing.
func (s Supplier) free(goods int64) bool {
	return s.Shipping.Minor == 0 || s.FreeFrom != Money{} && goods >= s.FreeFrom.Minor
}

// Lines lists orders for a quote: each of the goods, then the tax and the
// shipping of each order where there are any. They sum to Total.
func (o Orders) Lines(suppliers []Supplier, goods []Goods) []Line {
	var lines []Line
	for _, order := range o.Orders {
		name := suppliers[order.Supplier].Name
		for _, i := range order.Goods {
			lines = append(lines, Line{What: goods[i].Name, Amount: goods[i].Choices[o.Choice[i]].Cost,
				Kind: goods[i].Kind, Detail: name})
		}
		if order.Tax.Minor != 0 {
			lines = append(lines, Line{What: "tax on goods", Amount: order.Tax, Kind: KindSupply, Detail: name})
		}
		if order.Shipping.Minor != 0 {
			lines = append(lines, Line{What: "shipping", Amount: order.Shipping, Kind: KindSupply, Detail: name})
		}
	}
	return lines
}
