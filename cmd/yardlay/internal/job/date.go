package job

import (
	"fmt"
	"time"

	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/shapes/say"
)

// Date is a day of the calendar, without a clock or a zone: a local date of TOML. The
// zero value is none.
type Date struct {
	Year  int
	Month time.Month
	Day   int
}

// ParseDate reads a date as it is written: 2026-11-29.
func ParseDate(text string) (Date, error) {
	t, err := time.Parse(time.DateOnly, text)
	if err != nil || t.Year() == 0 {
		return Date{}, say.Errorf("%q is no date", text).Hint("year, month, day: 2026-11-29")
	}
	return DateOf(t), nil
}

// DateOf is the day of a time, in its zone.
func DateOf(t time.Time) Date {
	year, month, day := t.Date()
	return Date{year, month, day}
}

// String writes a date as it is read, "" where there is none.
func (d Date) String() string {
	if d.IsZero() {
		return ""
	}
	return fmt.Sprintf("%04d-%02d-%02d", d.Year, d.Month, d.Day)
}

// IsZero says that there is no date.
func (d Date) IsZero() bool { return d == Date{} }

// Before says whether a date lies before another one.
func (d Date) Before(other Date) bool { return d.DaysSince(other) < 0 }

// DaysSince counts the days from another date to this one.
func (d Date) DaysSince(other Date) int {
	const day = 24 * 60 * 60
	return int((d.midnight() - other.midnight()) / day)
}

// Time is the midnight with which a date begins where no clock is ever put forward.
func (d Date) Time() time.Time { return time.Date(d.Year, d.Month, d.Day, 0, 0, 0, 0, time.UTC) }

// midnight counts the seconds to that.
func (d Date) midnight() int64 { return d.Time().Unix() }

const dateExample = "2026-11-29"

// date reads a date; the zero one where it is missing or wrong.
func (t *table) date(key string) Date {
	f := t.Field(key)
	if f == nil {
		return Date{}
	}
	return t.dateOf(key, f.Value)
}

// mustDate reads a date that has to be given.
func (t *table) mustDate(key string) Date {
	if !t.Has(key) {
		t.Need(key, "a day, without quotes: "+key+" = "+dateExample)
	}
	return t.date(key)
}

func (t *table) dateOf(key string, v *strict.Value) Date {
	if v.Kind != strict.KindDate {
		t.Wrong(key, v, "a date, without quotes", dateExample)
		return Date{}
	}
	d, err := ParseDate(v.Text)
	if err != nil {
		t.Fail(v.At, "year, month, day: "+dateExample, "`%s`: %v", key, err)
	}
	return d
}

// dates reads a list of dates.
func (t *table) dates(key string, most int) []Date {
	f := t.Field(key)
	if f == nil {
		return nil
	}
	if f.Value.Kind != strict.KindList {
		t.Wrong(key, f.Value, "a list of dates", "["+dateExample+"]")
		return nil
	}
	if len(f.Value.Items) > most {
		t.Fail(f.Value.At, fmt.Sprintf("at most %d", most), "`%s` lists %d dates", key, len(f.Value.Items))
		return nil
	}
	var all []Date
	for _, item := range f.Value.Items {
		if d := t.dateOf(key, item); !d.IsZero() {
			all = append(all, d)
		}
	}
	return all
}
