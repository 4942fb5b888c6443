package fitting

// Profile is a thread of the list as it would be drawn. Lengths in mm, the angle between its flanks in degrees.
type Profile struct {
	Name                       string
	Count, Pitch, Major, Depth float64
	Angle                      float64
	Tapered                    bool
}

// FindProfile looks a thread up by the name that its fitting has, such as R 1/8. The depths are those of minor.
func FindProfile(name string) (Profile, bool) {
	for i := range pipes {
		p := &pipes[i]
		if p.name(false) != name {
			continue
		}
		found := Profile{Name: name, Count: p.count, Pitch: p.pitch(), Major: p.major, Depth: 0.640327 * p.pitch(), Angle: 55, Tapered: p.tapered()}
		if p.form == npt {
			found.Depth, found.Angle = 0.8*p.pitch(), 60
		}
		return found, true
	}
	return Profile{}, false
}
