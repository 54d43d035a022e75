package cost

import (
	"fmt"
	"slices"
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

// currencies are the codes of ISO 4217 that one can pay in, those lately withdrawn
// included and metals, funds and test codes left out (the list of Debian's
// iso-codes 4.15; XCG and ZWG, of 2024 and later, from memory).
var currencies = strings.Fields(`
	AED AFN ALL AMD ANG AOA ARS AUD AWG AZN BAM BBD BDT BGN BHD BIF BMD BND BOB BRL BSD BTN BWP BYN BZD
	CAD CDF CHF CLP CNY COP CRC CUC CUP CVE CZK DJF DKK DOP DZD EGP ERN ETB EUR FJD FKP GBP GEL GHS GIP
	GMD GNF GTQ GYD HKD HNL HRK HTG HUF IDR ILS INR IQD IRR ISK JMD JOD JPY KES KGS KHR KMF KPW KRW KWD
	KYD KZT LAK LBP LKR LRD LSL LYD MAD MDL MGA MKD MMK MNT MOP MRU MUR MVR MWK MXN MYR MZN NAD NGN NIO
	NOK NPR NZD OMR PAB PEN PGK PHP PKR PLN PYG QAR RON RSD RUB RWF SAR SBD SCR SDG SEK SGD SHP SLE SLL
	SOS SRD SSP STN SVC SYP SZL THB TJS TMT TND TOP TRY TTD TWD TZS UAH UGX USD UYU UZS VED VES VND VUV
	WST XAF XCD XCG XOF XPF YER ZAR ZMW ZWG ZWL
`)

// CheckCurrency refuses what is no currency of ISO 4217.
func CheckCurrency(code string) error {
	if !slices.Contains(currencies, code) {
		return fmt.Errorf("%q is no currency code (three capital letters of ISO 4217, such as USD or EUR)", short(code))
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
