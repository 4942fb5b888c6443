package pumping

// ascending sorts rows by their value, those of equal value by their number (heapsort:
// steady for any order, and small).
func ascending(rows []int, value []float64) {
	for root := len(rows)/2 - 1; root >= 0; root-- {
		sink(rows, value, root)
	}
	for last := len(rows) - 1; last > 0; last-- {
		rows[0], rows[last] = rows[last], rows[0]
		sink(rows[:last], value, 0)
	}
}

func sink(rows []int, value []float64, root int) {
	for child := 2*root + 1; child < len(rows); child = 2*root + 1 {
		if child+1 < len(rows) && above(rows[child+1], rows[child], value) {
			child++
		}
		if !above(rows[child], rows[root], value) {
			return
		}
		rows[root], rows[child] = rows[child], rows[root]
		root = child
	}
}

func above(a, b int, value []float64) bool {
	return value[a] > value[b] || value[a] == value[b] && a > b
}
