//go:build !linux && !darwin

package write

import "errors"

func exchange(a, b string) error { return errors.ErrUnsupported }

// sync: these systems have no call for a whole folder, and none of them promises to keep the order of a rename and a write.
func (f *folder) sync() error { return nil }
