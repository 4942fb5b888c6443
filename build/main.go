// Command blankoff turns a folder of repair guides into a website that calculates, and works without a network.
//
//	go run ./build          # content/ to out/
//	go run ./build help
package main

import (
	"os"
	"runtime/debug"

	"blankoff/build/command"
)

func main() {
	// The program lives for a second: collecting a quarter as often makes a publish about a fifth faster.
	debug.SetGCPercent(400)
	os.Exit(command.Run(os.Args[1:], os.Stdout, os.Stderr))
}
