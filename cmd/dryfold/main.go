// Command dryfold checks, draws and shares folded sheet-metal parts without a
// browser. Each verb has a file of its own; verbs.go lists them.
package main

import "os"

func main() {
	os.Exit(run(os.Args[1:], os.Stdout, os.Stderr))
}
