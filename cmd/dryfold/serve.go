package main

// serveAddress is where serve listens unless told otherwise, and where link's
// links point to.
const serveAddress = "127.0.0.1:8080"
