package load

import (
	"blankoff/build/fault"
	"blankoff/build/source"
)

// triage reads the fault model. It may be missing, and of one that cannot be read at all nothing more is said.
func (l *loader) triage(file *source.File, m *source.Mapping) {
	if m == nil {
		return
	}
	model, faults := fault.Read(file, m)
	l.library.Triage = model
	l.add(faults...)
}
