// Command blankoff turns a folder of repair guides into a website that calculates, and works without a network.
//
//	go run ./build          # content/ to out/
//	go run ./build help
package main

import (
	"os"

	"blankoff/build/command"
)

func main() {
	os.Exit(command.Run(os.Args[1:], os.Stdout, os.Stderr))
}
