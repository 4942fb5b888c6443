package verify

import (
	"fmt"
	"time"

	"blankoff/build/guide"
	"blankoff/build/source"
)

// review warns of pages whose review date has passed. The day itself is still good.
func (c *checker) review(page *guide.Guide) {
	if page.Review.Text == "" {
		return
	}
	date, err := time.Parse(time.DateOnly, page.Review.Text)
	if err != nil {
		c.refuse("review", page.Review.Span, source.Quote(page.Review.Text)+" is not a date", "write year, month and day: 2027-06-01")
		return
	}
	y, m, d := c.today.Date()
	late := time.Date(y, m, d, 0, 0, 0, 0, time.UTC).Sub(date)
	if days := int(late.Hours() / 24); days > 0 {
		c.warn("review", page.Review.Span, fmt.Sprintf("the review was due %s ago", count(days, "day")),
			"read the page against the machine, then set a new date and raise the revision")
	}
}

func count(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}
