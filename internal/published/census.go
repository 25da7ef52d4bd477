package published

// Count is how many rows of every table carry a mark as their weakest.
type Count struct {
	Mark Mark
	Rows int
}

// Census counts the rows of every table by mark, the strongest mark first. A
// row whose parts were obtained in different ways counts under the weakest.
func Census() ([]Count, error) {
	rows := map[Mark]int{}
	for _, name := range Names() {
		t, err := Open(tables, folder+"/"+name+".csv")
		if err != nil {
			return nil, err
		}
		for _, r := range t.Rows() {
			rows[r.Mark()]++
		}
	}
	var counts []Count
	marks := Marks()
	for i := len(marks) - 1; i >= 0; i-- {
		counts = append(counts, Count{marks[i], rows[marks[i]]})
	}
	return counts, nil
}
