package job

import "testing"

func TestDates(t *testing.T) {
	a, err := ParseDate("2024-02-28")
	if err != nil || a.String() != "2024-02-28" {
		t.Fatal(a, err)
	}
	// 2024 was a leap year; the second is across a year and the summer's clock
	for text, days := range map[string]int{"2024-03-01": 2, "2025-02-28": 366, "2024-02-28": 0, "2023-12-31": -59} {
		b, err := ParseDate(text)
		if err != nil || b.DaysSince(a) != days || a.Before(b) != (days > 0) {
			t.Errorf("%s: %d days, %v", text, b.DaysSince(a), err)
		}
	}
	for _, text := range []string{"2023-02-29", "0000-01-01", "2024-1-1", "today", ""} {
		if d, err := ParseDate(text); err == nil {
			t.Errorf("%q is %v", text, d)
		}
	}
	if (Date{}).String() != "" || !(Date{}).IsZero() {
		t.Error("no date is one")
	}
}
