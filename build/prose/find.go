package prose

// Find lists the quantities of a text, in order and without overlap, and the places in doubt.
func Find(text string) ([]Mark, []Doubt) { return nil, nil }
