package command

import (
	"os"
	"testing"
)

// TestColourOnATerminal uses the master of a pseudo terminal, which is a terminal to all who ask.
func TestColourOnATerminal(t *testing.T) {
	file, err := os.OpenFile("/dev/ptmx", os.O_RDWR, 0)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	t.Setenv("NO_COLOR", "")
	if !styleOf(file).Colour {
		t.Error("a terminal gets no colours")
	}
	t.Setenv("NO_COLOR", "1")
	if styleOf(file).Colour {
		t.Error("the owner's wish for no colours is not kept")
	}
}
