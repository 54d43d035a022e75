package cost

import (
	"fmt"
	"strings"
)

// decimals lists currencies that do not have two decimals (ISO 4217, column
// "minor unit"; from memory, so only codes long unchanged are listed). All
// others have two.
var decimals = map[string]int{
	"BIF": 0, "CLP": 0, "DJF": 0, "GNF": 0, "ISK": 0, "JPY": 0, "KMF": 0, "KRW": 0, "PYG": 0, "RWF": 0,
	"UGX": 0, "VND": 0, "VUV": 0, "XAF": 0, "XOF": 0, "XPF": 0,
	"BHD": 3, "IQD": 3, "JOD": 3, "KWD": 3, "LYD": 3, "OMR": 3, "TND": 3,
}

// Decimals tells how many digits of a currency stand after the point.
func Decimals(currency string) int {
	if n, ok := decimals[currency]; ok {
		return n
	}
	return 2
}

// CheckCurrency refuses what cannot be an ISO 4217 code.
func CheckCurrency(code string) error {
	if len(code) != 3 || strings.Trim(code, "ABCDEFGHIJKLMNOPQRSTUVWXYZ") != "" {
		return fmt.Errorf("%q is no currency code (three capital letters of ISO 4217, such as USD or EUR)", code)
	}
	return nil
}

// checkPrice refuses a negative price and one in no currency.
func checkPrice(m Money) error {
	if m.Minor < 0 {
		return fmt.Errorf("the price %v is negative", m)
	}
	return CheckCurrency(m.Currency)
}

// checkPriceIn is checkPrice for a price that must be in a given currency.
func checkPriceIn(m Money, currency string) error {
	if err := checkPrice(m); err != nil {
		return err
	}
	if m.Currency != currency {
		return fmt.Errorf("%v is not in %s: nothing is converted", m, currency)
	}
	return nil
}
